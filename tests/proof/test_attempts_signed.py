"""Attempts on a signature of a unit: what was said to be there is signed for, whether that holds today or not.

Each story says what a shop would have suffered."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from tests.open_points.story import line
from tests.open_points.tablets import JOB
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale, screws

AGAIN = "sign again"
MISFIT = "record kept that does not fit"


class Unit(Tale):
    """A unit of two places that is in and signed for; a shelf with a spare that is meant for another line."""

    def __init__(self, points: Twin | App) -> None:
        super().__init__(points, line("10", "assembly"), line("10.10"), line("10.20"), line("20"), screws("30", 1))
        for key in ("10.10", "10.20", "20"):
            self.fit_ready(key)
        self.spare = self.bring("PN-20", meant_for="20")
        self.sign(about="@10")
        assert self.stands(AGAIN) == []

    def note(self, **more: str) -> object:
        """Something is said of the spare."""
        return self.say("part.noted", self.spare, by="RR", **more)

    def find(self, part: str = "") -> object:
        """Something is found on the spare."""
        return self.say("finding.noted", part or self.spare, by="RR", word="scored", cause="wear", covered=False)


def test_a_part_meant_for_the_unit_and_then_for_elsewhere_leaves_it_to_be_signed_again(points: Twin | App) -> None:
    """The inspector's name would have come back under a unit that had been opened for another part in the meantime."""
    tale = Unit(points)
    tale.note(meant_for="10.10")
    assert tale.stands(AGAIN) == ["10"]
    tale.note(meant_for="20")
    assert tale.stands(AGAIN) == ["10"], "nobody signed since"
    tale.sign(about="@10")
    assert tale.stands(AGAIN) == []


def test_what_is_found_on_a_part_once_meant_for_the_unit_is_signed_for(points: Twin | App) -> None:
    """A crack found at the bench of the unit would have been nobody's, because the part was handed on."""
    tale = Unit(points)
    tale.note(meant_for="10.10")
    tale.note(meant_for="20")
    tale.sign(about="@10")
    tale.find()
    assert tale.stands(AGAIN) == ["10"]


SAID: dict[str, Callable[[Unit], object]] = {
    "meant for it": lambda t: t.note(meant_for="10.20"),
    "meant for the unit itself": lambda t: t.note(meant_for="10"),
    "came out of it": lambda t: t.note(out_of="10.20"),
    "fitted there": lambda t: t.say("part.fitted", t.spare, "@10.20", by="RR"),
}


@pytest.mark.parametrize("said", list(SAID))
def test_taking_back_that_a_part_was_there_does_not_bring_a_signature_back(points: Twin | App, said: str) -> None:
    """Two taps would have made a lapsed signature stand again; and what is found on the part is signed for for ever."""
    tale = Unit(points)
    record = SAID[said](tale)
    assert tale.stands(AGAIN) == ["10"]
    tale.say("record.voided", tale.spare, by="RR", record=record.ref, why="slip")  # type: ignore[attr-defined]
    assert tale.stands(AGAIN) == ["10"]
    tale.sign(about="@10")
    assert tale.stands(AGAIN) == []
    tale.find()
    assert tale.stands(AGAIN) == ["10"]


def test_a_part_that_came_off_and_never_did_leaves_the_unit_to_be_signed_again(points: Twin | App) -> None:
    """The record that brought the part in is taken back, and with it the part; the signature would have come back."""
    tale = Unit(points)
    part = tale.off("10.10")
    tale.take_back(part)
    assert tale.stands(AGAIN) == ["10"]
    tale.sign(about="@10")
    assert tale.stands(AGAIN) == []


BESIDE: dict[str, Callable[[Unit], object]] = {
    "a spare for another line": lambda t: t.note(condition="worn"),
    "a finding on it": lambda t: t.find(),
    "meant for yet another": lambda t: t.note(meant_for="30"),
    "a screw beside it": lambda t: t.say("joint.opened", "@30", by="RR"),
    "where it lies, said of what was meant for it": lambda t: (
        t.note(meant_for="10.10"), t.sign(about="@10"), t.say("thing.put", t.spare, by="RR", place="RACK 1"),
        t.note(place="RACK 2"),
    ),
}  # fmt: skip


@pytest.mark.parametrize("deed", list(BESIDE))
def test_what_was_never_said_to_be_there_is_not_signed_for(points: Twin | App, deed: str) -> None:
    """An inspector would have signed all day for spares of the next tool."""
    tale = Unit(points)
    BESIDE[deed](tale)
    assert tale.stands(AGAIN) == []


# -- what was signed is not here any more --------------------------------------------------------------


def bracket(tale: Tale) -> str:
    """A line that the bill lacks; its place."""
    body: dict[str, Any] = {"parent": "10", "part_number": "X", "description": "bracket", "number": "1"}
    return tale.say("line.added", "@10.+X", by="RR", **body).ent[0]


@pytest.mark.parametrize("make", [lambda t: t.bring("PN-20"), bracket], ids=["part", "place"])
def test_a_signature_on_what_was_a_slip_is_one_record_that_does_not_fit(
    points: Twin | App, make: Callable[[Tale], str]
) -> None:
    """One wrong box would have been three things to clear, and nobody can sign again for what is not there."""
    tale = Unit(points)
    tale.say("disposition.given", tale.spare, as_="spare")
    tale.sign(about="@10")
    thing = make(tale)
    signed = tale.sign(about=thing)
    made = next(each for each in tale.records(JOB) if each.ent[0] == thing)
    tale.take_back(made, by="EE", reference="NC-1")
    tale.sign(about="@10")
    assert [key for key in tale.open_now() if not key.startswith("hardware")] == [f"{MISFIT}|job|{signed.ref}"]
    tale.concede(f"{MISFIT}|job|{signed.ref}", by="KK")
    assert (tale.stands(MISFIT), tale.stands(AGAIN)) == ([], [])


def test_a_part_that_is_here_is_signed_again(points: Twin | App) -> None:
    """What was found on it since, the inspector had not seen."""
    tale = Unit(points)
    tale.sign(about=tale.spare)
    assert tale.stands(AGAIN) == []
    tale.find()
    assert tale.stands(AGAIN) == [tale.spare]
    tale.sign(about=tale.spare)
    assert tale.stands(AGAIN) == []
