"""What somebody with the right *record* alone can do to the points of any job."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import assume, given

from teardown_app.domain.ledger.record import Record
from tests.open_points.tablets import JOB
from tests.open_points.worlds import World
from tests.proof.explained import Deed, is_explained, is_said_otherwise
from tests.proof.implementations import App, Twin
from tests.proof.random_hands import MANY, NUMBERS, QUICK, Going, short_worlds

SCOPE = ("left fitted", "not received", "out of scope", "not on this tool")
VERDICTS = ("scope", "renewal", "disposition", "check", "operation", "approval")


def takes_back(going: Going, record: Record) -> Record | None:
    """The record that this one takes back."""
    named = record.body.get("record") if record.typ == "record.voided" else ""
    return next((each for each in going.tablet.view(JOB) if each.ref == named), None)


# -- a point goes when what it says is done -----------------------------------------------------------


def only_by_doing_what_it_says(points: Twin | App, world: World, number: int) -> None:
    """After each record of a few acts every point that went has its reason."""
    going, rng = Going(points, world), Random(number)
    for _ in range(3):
        before, known = going.open_now(), going.hand.witness
        for record in going.acts(rng, "RR"):
            standing, now = going.standing(), going.hand.witness
            target = takes_back(going, record)
            if not now.told.why_not(record):
                after = {key for key, each in standing.items() if each.state == "open"}
                deed = Deed(record, target, known, now, standing, bool(after - before))
                assert [key for key in sorted(before - after) if not is_explained(deed, key)] == [], record
            before, known = {key for key, each in standing.items() if each.state == "open"}, now


@QUICK
@given(short_worlds(25), NUMBERS)
def test_no_point_goes_but_by_doing_what_it_says(points: Twin | App, world: World, number: int) -> None:
    """Or a narrowing waits in its place, or another point says the same."""
    only_by_doing_what_it_says(points, world, number)


@pytest.mark.faults
@MANY
@given(short_worlds(40), NUMBERS)
def test_no_point_goes_but_by_doing_what_it_says_many(points: Twin | App, world: World, number: int) -> None:
    """The same over many and longer worlds."""
    only_by_doing_what_it_says(points, world, number)


# -- an act and its taking back -----------------------------------------------------------------------


def leaves_every_point(points: Twin | App, world: World, number: int, by: str) -> None:
    """One record and its taking back: what was open before is open after, or waits to be accepted."""
    going, rng = Going(points, world), Random(number)
    before = going.open_now()
    record = next(going.acts(rng, by, corrections=0.0), None)
    assume(record is not None and record.typ not in ("record.voided", "point.conceded"))
    assert record is not None
    before_other = [each for each in going.tablet.own(JOB) if each.seq > record.seq]
    assume(not before_other)
    going.hand.by = by
    back = going.hand.say("record.voided", *(record.ent or ("job",)), record=record.ref, why="slip")
    assume(not going.hand.witness.told.why_not(back))
    after = going.open_now()
    waits = {key for key in after if key.startswith("to be accepted|") and key.endswith(back.ref)}
    told = going.hand.witness.told
    gone = [key for key in sorted(before - after) if not is_said_otherwise(key, after)]
    gone = [key for key in gone if not _is_a_taking_back(key, told.records)]
    assert waits or [key for key in gone if not _does_not_return(key, bool(after - before))] == [], record


def _is_a_taking_back(key: str, records: dict[str, Record]) -> bool:
    """Whether a point is about a taking back without the right, which another one about the same things clears."""
    which = key.rpartition("|")[2]
    return which in records and records[which].typ == "record.voided"


def _does_not_return(key: str, is_asked_anew: bool) -> bool:
    """Whether a point was about entries that do not return when what replaced them is taken back: a narrowing, where
    what it took away is asked anew, or two of them that differed."""
    kind, _, which = key.split("|")
    differed = kind == "two different entries" and which.partition("/")[0] in VERDICTS
    return differed or (kind == "to be accepted" and is_asked_anew)


@QUICK
@given(short_worlds(), NUMBERS)
def test_an_act_and_its_taking_back_leave_every_point(points: Twin | App, world: World, number: int) -> None:
    """By somebody with the right *record* alone."""
    leaves_every_point(points, world, number, "RR")


@QUICK
@given(short_worlds(), NUMBERS)
def test_not_even_the_office_undoes_a_point_by_taking_back(points: Twin | App, world: World, number: int) -> None:
    """By somebody with all rights, who could have accepted it in words."""
    leaves_every_point(points, world, number, "AA")


@pytest.mark.faults
@MANY
@given(short_worlds(45), NUMBERS)
def test_an_act_and_its_taking_back_leave_every_point_many(points: Twin | App, world: World, number: int) -> None:
    """The same over many and longer worlds, by one or the other."""
    leaves_every_point(points, world, number, "RR" if number % 2 else "AA")


# -- scope words on what was touched --------------------------------------------------------------------


def a_word_changes_nothing(points: Twin | App, world: World, number: int) -> None:
    """Said of a place of which records say that something was there, with all beneath it; by somebody whose first
    record has said already what of the shop stands twice."""
    going, rng = Going(points, world), Random(number)
    ground, tool = going.hand.witness.ground, going.hand.witness.tool
    touched = [key for key in tool.places if all(ground.is_touched(each) for each in tool.here_and_beneath([key]))]
    assume(touched)
    going.hand.by = "RR"
    going.hand.say("photo.taken", "job", photos=["0" * 64])
    before = {key for key in going.open_now() if not _is_of_words(key)}
    going.hand.say("configuration.received", f"@{rng.choice(touched)}", as_=rng.choice(SCOPE), why="seen")
    after = {key for key in going.open_now() if not _is_of_words(key)}
    assert before - after == set()
    new = {key for key in after - before if going.standing()[key].kind != "to be accepted"}
    assert new <= {key for key in new if key in _conceded(points, world)}


def _is_of_words(key: str) -> bool:
    """Signatures, which any record on their ground lapses; two words that differ, which a third settles; a word without
    the right, which is said again."""
    return key.startswith(("sign again|", "record by someone without the right|")) or key.endswith("|scope")


def _conceded(points: Twin | App, world: World) -> set[str]:
    """Points that a concession kept down, which any record on its ground lapses."""
    return {key for key, each in Going(points, world).standing().items() if each.state == "conceded"}


@QUICK
@given(short_worlds(), NUMBERS)
def test_a_scope_word_on_a_touched_place_changes_no_point(points: Twin | App, world: World, number: int) -> None:
    """It is in scope, whatever is said of it."""
    a_word_changes_nothing(points, world, number)


@pytest.mark.faults
@MANY
@given(short_worlds(45), NUMBERS)
def test_a_scope_word_on_a_touched_place_changes_no_point_many(points: Twin | App, world: World, number: int) -> None:
    """The same over many and longer worlds."""
    a_word_changes_nothing(points, world, number)
