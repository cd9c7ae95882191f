"""Attempts on a job of which one tablet was started twice from a copy: both wrote the same numbers.

Each story says what a shop would have suffered."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Check
from teardown_app.domain.ledger.record import Record
from tests.open_points.story import line
from tests.open_points.tablets import JOB, SHOP, Tablet
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale

LEAK = Check("leak", type="leak", when=("fitted",))
TWICE = "two versions of a record"
DIFFERENT = "two different entries"
RIGHT = "record by someone without the right"
NUMBER = "P7K3M0001A"


class Copied(Tale):
    """A job on a tablet and on its copy; on both, nothing is open. A third one heard of neither since."""

    def __init__(self, points: Twin | App) -> None:
        super().__init__(points, line("10", checks=("leak",)), line("20"), checks=(LEAK,))
        self.part = self.fit_ready("10")
        self.fit_ready("20")
        self.read("@10", "leak", "accept")
        assert self.open_now() == []
        self.third = self.second()
        self.copy = self.first.copied()
        self.tablets.append(self.copy)

    def both(self) -> tuple[Record, Record]:
        """Each takes a picture, under one number."""
        taken = [self.say("photo.taken", "job", by="RR", on=on, photos=["0" * 64]) for on in (self.first, self.copy)]
        return taken[0], taken[1]

    def agree(self, on: Tablet, number: int, by: str = "KK", journal: str = "") -> None:
        """Somebody at a tablet concedes that a number stands for two records."""
        body = {"key": self.key(number, journal), "why": "copied", "reference": "A-1", "covers": []}
        self.say("point.conceded", "job", by=by, on=on, **body)

    def key(self, number: int, journal: str = "") -> str:
        """The point of a number."""
        return f"{TWICE}|job|{journal}t1~0:{number}"


class Restored(Tale):
    """A tool of two parts, taken apart. The tablet's backup was started on a second one, and each fits one part; then
    both come to the office, whose tablet hears of both."""

    def __init__(self, points: Twin | App) -> None:
        super().__init__(points, line("10"), line("20"))
        self.pump, self.valve = self.off("10"), self.off("20")
        self.copy, self.office = self.first.copied(), Tablet("t3~0", self.first.clock)
        self.tablets += [self.copy, self.office]
        self.fit(self.ready(self.pump), "10")
        self.fit(self.ready(self.valve, on=self.copy), "20", on=self.copy)
        for tablet in (self.first, self.copy):
            self.office.sync(tablet)


def agree_to_all(tale: Tale, on: Tablet) -> None:
    """All numbers that stand for two records are conceded on a tablet."""
    for rest in tale.stands(TWICE):
        body = {"key": f"{TWICE}|{rest}", "why": "copied", "reference": "A-1", "covers": []}
        tale.say("point.conceded", "job", on=on, **body)


def test_a_days_work_on_both_copies_is_agreed_to_and_the_job_is_closed(points: Twin | App) -> None:
    """A day's honest work would have stood open for ever, and the crate with it."""
    tale = Restored(points)
    assert len(tale.stands(TWICE)) == 3, "word, release, fitted: recorded on both under the same numbers"
    agree_to_all(tale, tale.office)
    assert tale.open_now() == []
    tale.close(by="AA", on=tale.office)
    assert tale.is_closed()


def test_a_branch_that_goes_on_unseen_opens_the_job_again(points: Twin | App) -> None:
    """The crack found on the second tablet in the evening would have left with the crate."""
    tale = Restored(points)
    agree_to_all(tale, tale.office)
    tale.close(by="AA", on=tale.office)
    assert tale.is_closed()
    tale.say("finding.noted", tale.valve, on=tale.copy, word="cracked", cause="fatigue", covered=False)
    assert not tale.is_closed()
    assert "job" in tale.subjects("sign again")


def test_who_has_both_branches_agrees_and_the_job_is_closed(points: Twin | App) -> None:
    """A tablet put back from a backup would have left its jobs open for ever."""
    tale = Copied(points)
    one, _ = tale.both()
    assert tale.open_now() == [tale.key(one.seq)]
    for tablet in (tale.first, tale.copy):
        tale.third.sync(tablet)
    tale.agree(tale.third, one.seq)
    tale.close(on=tale.third)
    assert (tale.open_now(), tale.is_closed()) == ([], True)


def test_the_tablet_itself_agrees_once_it_has_heard_of_its_copy(points: Twin | App) -> None:
    """A shop of one tablet and its copy would have had to buy a third."""
    tale = Copied(points)
    one, _ = tale.both()
    tale.first.sync(tale.copy)
    tale.agree(tale.first, one.seq)
    assert tale.open_now() == []


def test_who_has_one_branch_agrees_to_nothing(points: Twin | App) -> None:
    """What the copy recorded would have been agreed away by people who never read it."""
    tale = Copied(points)
    one, _ = tale.both()
    tale.third.sync(tale.copy)
    for tablet in (tale.first, tale.copy, tale.third):
        tale.agree(tablet, one.seq)
        assert tale.key(one.seq) in tale.open_now(), tablet.dev


def test_what_goes_on_upon_a_branch_is_two_versions_too(points: Twin | App) -> None:
    """A yes to the first two pictures would have been a yes to whatever the copy wrote afterwards."""
    tale = Copied(points)
    one, _ = tale.both()
    for tablet in (tale.first, tale.copy):
        tale.third.sync(tablet)
    tale.agree(tale.third, one.seq)
    tale.both()
    assert tale.open_now() == [tale.key(one.seq + 1)]


def test_a_third_version_that_comes_late_is_agreed_to_anew(points: Twin | App) -> None:
    """A second copy out of a drawer would have been covered by what was said of the first."""
    tale = Copied(points)
    late = tale.copy.copied()
    one, _ = tale.both()
    tale.first.sync(tale.copy)
    tale.agree(tale.first, one.seq)
    tale.tablets.append(late)
    tale.say("photo.taken", "job", by="RR", on=late, photos=["1" * 64])
    assert tale.open_now() == [tale.key(one.seq)]
    tale.first.sync(late)
    tale.agree(tale.first, one.seq)
    assert tale.open_now() == []


def test_a_good_reading_of_one_copy_does_not_hide_a_bad_one_of_the_other(points: Twin | App) -> None:
    """The leak that one bench found would have been gone behind the other bench's test of an hour before."""
    tale = Copied(points)
    tale.read("@10", "leak", "reject", on=tale.copy)
    tale.read("@10", "leak", "accept", on=tale.first)
    tale.read("@10", "leak", "accept", on=tale.first)
    due = "check due|10|check/leak//fitted"
    assert due in tale.open_now(), "neither knew of the other"
    tale.third.sync(tale.copy)
    tale.third.sync(tale.first)
    good = tale.read("@10", "leak", "accept", on=tale.third)
    assert due not in tale.open_now()
    assert tale.waits("10", good), "over a bad one, with nothing changed between"


def test_a_release_that_saw_one_branch_does_not_stand_for_the_other(points: Twin | App) -> None:
    """A pump would have gone in that was dropped at the other bench."""
    tale = Copied(points)
    tale.say("disposition.given", tale.part, by="RR", on=tale.copy, as_="rework")
    tale.say("disposition.given", tale.part, by="RR", on=tale.first, as_="use as is")
    tale.release(tale.part, on=tale.first, by="EE")
    assert tale.stands("not released") == [tale.part]
    tale.third.sync(tale.copy)
    tale.third.sync(tale.first)
    tale.say("disposition.given", tale.part, by="EE", on=tale.third, as_="use as is")
    tale.release(tale.part, on=tale.third, by="EE")
    assert tale.stands("not released") == []


def test_a_branch_that_was_seen_and_is_lost_is_said_to_be_missing(points: Twin | App) -> None:
    """The copy would have fallen into the river with what it alone knew, and nobody would have asked."""
    tale = Copied(points)
    _, other = tale.both()
    tale.first.sync(tale.copy)
    tale.say("photo.taken", "job", by="RR", photos=["0" * 64])
    tale.withheld.add(other.ref)
    assert tale.open_now() == [f"record not here|job|t1~0:{other.seq}"]
    tale.agree(tale.first, other.seq)
    assert tale.open_now() == [f"record not here|job|t1~0:{other.seq}"], "nobody concedes what he cannot read"


def test_two_parts_that_copies_gave_one_name_leave_a_hole_for_each(points: Twin | App) -> None:
    """Of two valves under one name one would have stayed in the bucket."""
    tale = Tale(points, line("10"), line("20"))
    copy = tale.first.copied()
    tale.tablets.append(copy)
    part = tale.off("10")
    assert tale.off("20", on=copy) == part, "both are the first new thing of the second record"
    tale.carry()
    assert {f"{DIFFERENT}|{part}|out_of", "missing|10|", "missing|20|"} <= set(tale.open_now())
    tale.say("part.noted", part, out_of="10")
    tale.fit(tale.ready(part), "10")
    assert "missing|20|" in tale.open_now()


def test_two_parts_that_got_one_name_are_told_apart_again(points: Twin | App) -> None:
    """Each copy named its first part alike: pump and valve would have been one part in two places for ever."""
    tale = Tale(points, line("10"), line("20"))
    copy, office = tale.first.copied(), Tablet("t3~0", tale.first.clock)
    tale.tablets += [copy, office]
    pump = tale.off("10")
    assert tale.off("20", on=copy) == pump
    for tablet in (tale.first, copy):
        office.sync(tablet)
    wrong = copy.own(JOB)[-1]
    tale.say("record.voided", *wrong.ent, on=office, record=wrong.ref, why="one name for two parts", reference="K-7")
    for key, part in (("10", pump), ("20", tale.off("20", on=office))):
        tale.fit(tale.ready(part, on=office), key, on=office)
    agree_to_all(tale, office)
    assert tale.open_now() == []


def test_a_right_taken_on_one_copy_is_not_held_by_the_other(points: Twin | App) -> None:
    """Who was sent home in the morning would have released in the afternoon."""
    tale = Copied(points)
    given = {"code": "EE", "rights": ["record", "release"]}
    tale.copy.write("AA", "person.given", ("person:EE",), {**given, "revoked": True}, journal=SHOP)
    tale.first.write("AA", "person.given", ("person:EE",), given, journal=SHOP)
    without = []
    for tablet in (tale.first, tale.copy):
        tale.third.sync(tablet)
        released = tale.say("part.released", tale.part, by="EE", on=tale.third, covers={tale.part: []}, lines={})
        without.append(f"{RIGHT}|job|{released.ref}" in tale.open_now())
    assert without == [False, True], "he may by the one branch, and not by both"


def test_two_versions_of_the_shop_are_agreed_by_who_has_both(points: Twin | App) -> None:
    """Two places registered under one number would have kept every job of the shop open."""
    tale = Copied(points)
    for tablet, name in ((tale.first, "RACK 1"), (tale.copy, "RACK 2")):
        shelf = tablet.write("AA", "place.given", (f"place:{name}",), {"name": name}, journal=SHOP)
    assert tale.open_now() == [], "nobody here has seen them"
    tale.third.sync(tale.first)
    tale.say("photo.taken", "job", by="RR", on=tale.third, photos=["0" * 64])
    assert tale.open_now() == [tale.key(shelf.seq, "_shop/")]
    tale.agree(tale.third, shelf.seq, journal="_shop/")
    assert tale.open_now() == [tale.key(shelf.seq, "_shop/")], "one of them alone"
    tale.third.sync(tale.copy)
    tale.agree(tale.third, shelf.seq, journal="_shop/")
    assert tale.open_now() == []


def test_a_name_of_a_branch_reaches_nothing_that_is_not_on_it(points: Twin | App) -> None:
    """A yes would have been bought by naming what one had not read."""
    tale = Copied(points)
    one, other = tale.both()
    seen = {"t1~0": (one.seq, one.h[:8]), f"t1~0#{other.h[:8]}": (other.seq, "00000000")}
    body = {"key": tale.key(one.seq), "why": "copied", "reference": "A-1", "covers": []}
    shop = {key: entry for key, entry in tale.third.vector(JOB).items() if key.startswith(SHOP)}
    tale.third.write("KK", "point.conceded", ("job",), body, seen={**shop, **seen})
    assert tale.key(one.seq) in tale.open_now()
