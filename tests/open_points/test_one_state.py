"""Read again in one state: what is written down between two readings and changes nothing. What is kept is what all at
once gives."""

from __future__ import annotations

from decimal import Decimal

import pytest

from teardown_app.domain.bill.bill import Check, Operation, Route
from teardown_app.domain.lacks.lack import CHECK_DUE
from tests.open_points.story import line
from tests.open_points.watched import Watched

EARTH = Check("earth", type="bonding", when=("finished",), again_h=Decimal(4))
ETCH = Route("etch", operations=(Operation("pickle", time="10 min", record=("bath",)),))
DUE, DUE_AGAIN = "check/earth//finished", "check/earth//finished again"


def unit() -> tuple[Watched, str, str]:
    """A unit whose bonding is read, with a spare pin beneath; gives both."""
    story = Watched(line("10", checks=("earth",)), line("10.10"), checks=(EARTH,), routes=(ETCH,))
    part = story.off("10")
    pin = story.say("part.brought_in", story.first.thing(), meant_for="10.10", origin="new", part_number="PN-10.10")
    story.fit(pin.thing(), "10.10")
    return story, part, pin.thing()


def read(story: Watched, part: str, verdict: str, when: str = "finished") -> None:
    story.say("check.read", part, check="earth", when=when, verdict=verdict)


def due(story: Watched) -> set[str]:
    """Readings that are due."""
    return {one.key.split("|")[2] for one in story.live.open_points() if one.kind == CHECK_DUE}


def pickled(story: Watched, part: str, **more: object) -> None:
    story.say("operation.done", part, route="etch", operation="pickle", **{"pass": 2, **more})


def test_a_reading_between_changes_nothing() -> None:
    """The second look failed; reading the first time once more would have made it good."""
    story, part, _ = unit()
    read(story, part, "accept")
    story.first.clock.hours += 5
    read(story, part, "reject", "finished again")
    read(story, part, "accept")
    story.first.clock.hours += 5
    read(story, part, "accept", "finished again")
    assert due(story) == {DUE_AGAIN}
    pickled(story, part, began="2026-03-02T08:00:00+01:00", values={"bath": "B2"})
    for when in ("finished", "finished again"):
        story.first.clock.hours += 5
        read(story, part, "accept", when)
    assert due(story) == set(), "work that spoils it makes another state"


def test_a_part_that_is_fitted_beneath_where_it_sits_changes_nothing() -> None:
    """A housing without its earth would have been good because its pin was scanned twice."""
    story, part, pin = unit()
    read(story, part, "reject")
    story.fit(pin, "10.10")
    read(story, part, "accept")
    assert DUE in due(story)
    story.say("part.taken_out", pin, "@10.10")
    story.fit(pin, "10.10")
    read(story, part, "accept")
    assert DUE not in due(story)


@pytest.mark.parametrize(
    ("more", "counts"),
    [
        ({}, False),
        ({"began": "2026-03-02T08:00:00+01:00"}, False),
        ({"values": {"bath": "B2"}}, False),
        ({"began": "2026-03-02T08:00:00+01:00", "values": {"bath": " "}}, False),
        ({"began": "2026-03-02T08:00:00+01:00", "values": {"bath": "B2"}}, True),
    ],
)
@pytest.mark.parametrize("beneath", [False, True])
def test_work_that_does_not_count_changes_nothing(more: dict[str, object], counts: bool, beneath: bool) -> None:
    """A second pass of which nobody knows the bath or the time would have made a failed bonding good."""
    story, part, pin = unit()
    read(story, part, "reject")
    pickled(story, pin if beneath else part, **more)
    read(story, part, "accept")
    assert (DUE not in due(story)) == counts


def test_work_that_was_begun_counts_where_its_author_had_seen_the_beginning() -> None:
    """The tablet knows the time; the bath was written down at the start."""
    story, part, _ = unit()
    read(story, part, "reject")
    other = story.second()
    said = {"route": "etch", "operation": "pickle", "pass": 2, "values": {"bath": "B2"}}
    story.say("operation.started", part, on=other, **said)
    pickled(story, part)
    read(story, part, "accept")
    assert DUE in due(story)
    story.carry()
    pickled(story, part)
    read(story, part, "accept")
    assert DUE not in due(story)


@pytest.mark.parametrize(("more", "counts"), [({}, False), ({"began": "2026-03-02T08:00:00+01:00"}, True)])
def test_at_a_place_work_on_what_sits_there_changes_it_only_where_it_counts(
    more: dict[str, object], counts: bool
) -> None:
    """The same for a door switch that is read in the tool."""
    guard = Check("guard", type="interlock", when=("fitted",))
    wash = Route("wash", operations=(Operation("rinse", time="10 min"),))
    story = Watched(line("10", "assembly", checks=("guard",)), line("10.10"), checks=(guard,), routes=(wash,))
    part = story.fit(story.off("10.10"), "10.10")
    said = {"check": "guard", "when": "fitted"}
    story.say("check.read", "@10", verdict="reject", **said)
    story.say("operation.done", part, route="wash", operation="rinse", **{"pass": 1, **more})
    story.say("check.read", "@10", verdict="accept", **said)
    assert ("check/guard//fitted" not in due(story)) == counts
