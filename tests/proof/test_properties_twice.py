"""Saying a narrowing twice, in pieces, or in a circle clears nothing: somebody with the second right still has to say
yes, and what he said yes to before is all that he said yes to."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import pytest

from teardown_app.domain.bill.bill import Check
from teardown_app.domain.ledger.record import Record
from tests.open_points.story import line, route
from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale, screws

LEAK = Check("leak", type="leak", when=("fitted",))

Said = Iterable[tuple[Record, bool]]
"""What is said, and whether it takes more away than what was accepted before it."""


class Shop(Tale):
    """A job with a place for each narrowing."""

    def __init__(self, points: Twin | App) -> None:
        rows = (
            line("10", "assembly"), line("10.10"), line("10.20"), screws("20", 4), screws("30", 4),
            line("40", checks=("leak",), routes=("wash",)),
        )  # fmt: skip
        super().__init__(points, *rows, checks=(LEAK,), routes=(route("wash", "rinse"),))
        self.part = self.off("40", part_number="PN-40")
        self.spare = self.bring("PN-40", origin="exchanged", owner="customer", set_mark="I", meant_for="40")

    def note(self, part: str = "", **more: str) -> Record:
        """A fact of the spare is said."""
        return self.say("part.noted", part or self.spare, by="RR", **more)

    def count(self, found: int, *keys: str) -> Record:
        """A bag is counted."""
        return self.say("hardware.counted", *(f"@{key}" for key in keys or ("20",)), by="RR", found=found)

    def move(self, **more: object) -> Record:
        """Something became of screws."""
        return self.say("hardware.moved", "@20", by="RR", **more)

    def leak(self, verdict: str) -> Record:
        """The flange is read."""
        return self.read("@40", "leak", verdict)

    def back(self, record: Record) -> Record:
        """A record is taken back."""
        return self.take_back(record, by="RR")

    def rinse(self, **more: object) -> Record:
        """The part is rinsed, or said to be."""
        return self.say("operation.done", self.part, by="RR", route="wash", operation="rinse", **{"pass": 1}, **more)

    def rinse_by_two(self) -> None:
        """Two benches recorded the same rinsing."""
        other = self.second()
        self.say("operation.done", self.part, on=other, route="wash", operation="rinse", **{"pass": 1})
        self.rinse()
        self.carry()


def _words(tale: Shop) -> Said:
    yield tale.word("10.10", "left fitted"), True
    yield tale.word("10.10", "left fitted"), False
    yield tale.word("10.10", "not on this tool"), True
    yield tale.word("10.10", "out of scope"), False


def _words_in_pieces(tale: Shop) -> Said:
    yield tale.word("10.10", "out of scope"), True
    yield tale.word("10.20", "out of scope"), True
    yield tale.word("10", "out of scope"), True  # the unit itself


def _numbers(tale: Shop) -> Said:
    for number, more in (("A", True), ("B", True), ("A", True), ("A", False)):
        yield tale.note(part_number=number), more


def _origins(tale: Shop) -> Said:
    for origin, more in (("stock", True), ("new", True), ("new", False), ("stock", True)):
        yield tale.note(origin=origin), more


def _places(tale: Shop) -> Said:
    for key, more in (("10.10", True), ("10.20", True), ("10.20", False)):
        yield tale.note(tale.part, out_of=key), more


def _marks(tale: Shop) -> Said:
    for mark in ("II", "III", "II"):
        yield tale.note(set_mark=mark), True


def _owners(tale: Shop) -> Said:
    for owner, more in (("other job", True), ("us", True), ("us", False), ("other job", True)):
        yield tale.note(owner=owner), more


def _joined(tale: Shop) -> Said:
    for _ in range(3):
        yield tale.say("part.same_as", tale.part, tale.spare, by="RR"), True


def _covered(tale: Shop) -> Said:
    for _ in range(2):
        yield tale.say("finding.noted", tale.spare, by="RR", word="worn", cause="wear", covered=True), True


def _good(tale: Shop) -> Said:
    tale.leak("reject")
    for more in (True, False):
        yield tale.leak("accept"), more
    tale.leak("inconclusive")
    yield tale.leak("accept"), True


def _good_by_way_of_another(tale: Shop) -> Said:
    tale.leak("reject")
    tale.say("check.not_possible", "@40", by="RR", check="leak", when="fitted", why="no gas")
    yield tale.leak("accept"), True
    tale.say("check.not_possible", "@40", by="RR", check="leak", when="fitted", why="no gas")
    yield tale.leak("accept"), False


def _done(tale: Shop) -> Said:
    tale.rinse_by_two()
    for more in (True, False, False):
        yield tale.rinse(), more


def _lower(tale: Shop) -> Said:
    tale.count(4)
    for found, more in ((3, True), (3, False), (2, True), (2, False)):
        yield tale.count(found), more


def _lower_after_higher(tale: Shop) -> Said:
    tale.count(4)
    yield tale.count(2), True
    yield tale.count(3), False


def _another_bag(tale: Shop) -> Said:
    tale.count(4)
    tale.count(4, "30")
    for more in (True, False):
        yield tale.count(8, "20", "30"), more


def _lost(tale: Shop) -> Said:
    tale.count(2)
    for word in ("lost", "found_short"):
        yield tale.move(**{word: 1}, search="drip tray"), True


def _taken_back(tale: Shop) -> Said:
    opened = tale.say("joint.opened", "@20", by="RR")
    for more in (True, False, False):
        yield tale.back(opened), more


def _taken_back_in_pieces(tale: Shop) -> Said:
    for record in [tale.say("joint.opened", "@20", by="RR") for _ in range(3)]:
        yield tale.back(record), True


def _a_fact_taken_back(tale: Shop) -> Said:
    note = tale.note(owner="other job")
    for more in (True, False):
        yield tale.back(note), more


SAYINGS: dict[str, tuple[Callable[[Shop], Said], str]] = {
    "scope words": (_words, "OO"), "scope words in pieces": (_words_in_pieces, "OO"), "part numbers": (_numbers, "EE"),
    "origins": (_origins, "EE"), "places it came out of": (_places, "EE"), "set marks": (_marks, "EE"),
    "owners": (_owners, "OO"), "two parts are one": (_joined, "EE"), "findings that are covered": (_covered, "OO"),
    "good after bad": (_good, "EE"), "good by way of another verdict": (_good_by_way_of_another, "EE"),
    "done over two": (_done, "EE"), "lower counts": (_lower, "EE"),
    "lower by way of lowest": (_lower_after_higher, "EE"),
    "counts of another bag": (_another_bag, "EE"), "lost in pieces": (_lost, "EE"),
    "taken back again": (_taken_back, "EE"), "taken back in pieces": (_taken_back_in_pieces, "EE"),
    "a fact taken back": (_a_fact_taken_back, "OO"),
}  # fmt: skip
"""What is said, and who may say yes to it."""


@pytest.mark.parametrize("saying", list(SAYINGS))
def test_saying_it_twice_or_in_pieces_clears_nothing(points: Twin | App, saying: str) -> None:
    """After each of them somebody still has to say yes."""
    tale = Shop(points)
    for record, _ in SAYINGS[saying][0](tale):
        assert tale.stands(ACCEPTED), record


@pytest.mark.parametrize("saying", list(SAYINGS))
def test_a_yes_is_a_yes_to_what_was_seen(points: Twin | App, saying: str) -> None:
    """Each is accepted by who may; the next one waits again exactly where it takes more away."""
    tale = Shop(points)
    said, by = SAYINGS[saying]
    for record, is_more in said(tale):
        assert bool(tale.stands(ACCEPTED)) == is_more, record
        for waiting in tale.stands(ACCEPTED):
            tale.concede(f"{ACCEPTED}|{waiting}", by=by)
        assert tale.stands(ACCEPTED) == []
