"""A part that came out of nowhere and is meant for nowhere: its points, its release, its name.

From `docs/formats/open-points.md`: its *seat* is "the places it claims", else the one it is meant for, else the one it
came out of; "route, checks, what spoils them, serial and lot, and set are asked by the lines of its seat", so of such a
part none are asked until it is fitted.
"""

from __future__ import annotations

from typing import Any

import pytest

from teardown_app.domain.against.release import against_release
from teardown_app.domain.bill.bill import Check
from teardown_app.domain.job.job import Job
from teardown_app.domain.job.replay import replay
from teardown_app.domain.parts.filling import is_accounted_for
from teardown_app.domain.parts.naming import part_named
from teardown_app.domain.parts.parts import origin_of, own_place, part_number_of
from teardown_app.domain.parts.routing import route_of
from teardown_app.domain.places.checking import release_checks
from teardown_app.domain.points.point import Point
from tests.open_points.story import Story, line, route
from tests.open_points.tablets import JOB, SHOP

FOREIGN, UNACCOUNTED = "foreign piece", "tagged but unaccounted for"
NUMBER = "P7K3M0001A"


def bench() -> Story:
    """A plate with a check, a route and a matched set; nothing came off it."""
    plate = line("10", description="PLATE", checks=("look",), routes=("clean",), matched_set="pair")
    other = line("20", description="PLATE", matched_set="pair")
    return Story(plate, other, checks=(Check("look"),), routes=(route("clean", "rinse"),))


def extra(story: Story, **more: Any) -> str:
    """A part that somebody found in the tool, or beside it."""
    return story.say("part.taken_off", story.first.thing(), **more).ent[0]


def brought(story: Story, origin: str) -> str:
    """A part that was brought in and meant for nothing."""
    return story.say("part.brought_in", story.first.thing(), origin=origin, part_number="PN-10").ent[0]


def job_of(story: Story) -> Job:
    """The job as its records tell it."""
    return replay(story.records(SHOP), JOB, story.records(JOB), story.bills)


def about(story: Story, part: str) -> list[Point]:
    """Points that name this part."""
    return [point for point in story.points() if point.part == part]


def test_it_belongs_to_no_place_and_nothing_of_a_line_is_asked_of_it() -> None:
    """One point, without a place; no check, no route, no part number but what is written down."""
    story = bench()
    part = extra(story)
    (point,) = about(story, part)
    assert (point.kind, point.gate, point.position, point.tag) == (FOREIGN, "ship", "", "")
    job = job_of(story)
    assert own_place(job, part) == "" and route_of(job, part) is None and release_checks(job, part) == []
    assert part_number_of(job, part) == "" and origin_of(job, part) == "as received"
    written = extra(story, part_number="X9")
    assert part_number_of(job_of(story), written) == "X9"


@pytest.mark.parametrize(
    ("origin", "kind"),
    [
        # unaccounted "has a seat or is new"; a foreign piece "has no seat and is not new"; new is "new or stock"
        ("new", UNACCOUNTED),
        ("stock", UNACCOUNTED),
        ("as received", FOREIGN),
        ("repaired", FOREIGN),
        ("exchanged", FOREIGN),
        ("customer's", FOREIGN),
        ("borrowed", FOREIGN),
        ("other job", FOREIGN),
    ],
)
def test_only_a_new_part_without_a_place_is_no_foreign_piece(origin: str, kind: str) -> None:
    """It came for this tool; a used one came from somewhere."""
    story = bench()
    part = brought(story, origin)
    assert [point.kind for point in about(story, part)] == [kind]


@pytest.mark.parametrize("field", ["meant_for", "out_of"])
def test_with_a_place_it_is_no_foreign_piece_any_more(field: str) -> None:
    """Then the check of the line is asked too."""
    story = bench()
    part = extra(story)
    assert part_named(job_of(story), part) == "a part without number"
    story.say("part.noted", part, **{field: "10"})
    assert part_named(job_of(story), part) == "PLATE 10"
    assert {point.kind for point in about(story, part)} == {UNACCOUNTED, "check due"}
    assert {point.position for point in about(story, part)} == {"10"}


@pytest.mark.parametrize(
    ("word", "gone"),
    [("scrap", True), ("spare", True), ("return unrepaired", True), ("repair", False), ("use as is", False)],
)
def test_it_is_accounted_for_once_it_goes_away(word: str, gone: bool) -> None:
    """It "claims none and is dispositioned spare, return unrepaired or scrap"."""
    story = bench()
    part = extra(story)
    story.say("disposition.given", part, as_=word)
    assert is_accounted_for(job_of(story), part) is gone
    assert [point.kind for point in about(story, part)] == ([] if gone else [FOREIGN])


def test_it_is_accounted_for_while_another_job_has_it() -> None:
    """Handed over, then given back."""
    story = bench()
    part = extra(story)
    story.say("goods.handed_over", part, to="J7K3M00024", consent="K-1")
    assert [point.kind for point in about(story, part)] == ["debt"]
    story.say("goods.given_back", part, job="J7K3M00024", consent="K-1")
    assert [point.kind for point in about(story, part)] == [FOREIGN]


def test_its_release_asks_for_a_place_the_disposition_and_for_what_was_found_and_held() -> None:
    """First of what a release asks is that "the part has a seat". Nothing of a line: neither the check nor the rinse of
    place 10."""
    story = bench()
    part = extra(story)
    assert [lack.kind for lack in against_release(job_of(story), part, None)] == ["for no place", "disposition"]
    story.say("disposition.given", part, as_="use as is")
    assert [lack.kind for lack in against_release(job_of(story), part, None)] == ["for no place"]
    hold = story.say("hold.placed", part, why="looks bent").thing()
    finding = story.say("finding.noted", part, word="scored", cause="wear", covered=False).thing()
    asked = [lack.kind for lack in against_release(job_of(story), part, None)]
    assert asked == ["for no place", "hold", "approval waiting"]
    keys = {point.key: point.position for point in about(story, part)}
    assert keys == {f"hold|{part}|{hold}": "", f"approval waiting|{part}|{finding}": "", f"{FOREIGN}|{part}|": ""}


def test_fitted_it_fills_the_place_and_answers_for_the_line_there() -> None:
    """The place it claims is its seat: check, rinse and a release are asked. A matched set it does not keep, as it did
    not come out of this place."""
    story = bench()
    part = extra(story, part_number="PN-10")
    story.fit(part, "10")
    kinds = {point.kind: point.position for point in about(story, part)}
    assert kinds == {"check due": "10", "not released": "10", "swapped within a matched set": "10"}
    story.ready(part)
    assert {point.kind for point in about(story, part)} == {*kinds}
    story.say("operation.done", part, route="clean", operation="rinse", pass_=1)
    story.say("check.read", part, check="look", when="finished", verdict="accept")
    story.release(part)
    assert {point.kind for point in about(story, part)} == {"swapped within a matched set"}
    assert "missing|10|" not in {point.key for point in story.points()}


def test_its_name_is_its_number_or_that_it_has_none() -> None:
    """In sentences; once it sits somewhere, the place is named too."""
    story = bench()
    part = extra(story)
    assert part_named(job_of(story), part) == "a part without number"
    (point,) = about(story, part)
    assert point.wrong == "a part without number belongs to no place of the tool."
    story.say("part.tagged", part, number=NUMBER)
    assert part_named(job_of(story), part) == NUMBER
    (point,) = about(story, part)
    assert (point.tag, point.wrong) == (NUMBER, f"{NUMBER} belongs to no place of the tool.")
    story.fit(part, "20")
    assert part_named(job_of(story), part) == NUMBER and part_named(job_of(story), part, "20") == f"{NUMBER} PLATE 20"
    released = next(point for point in about(story, part) if point.kind == "not released")
    assert released.wrong.startswith(f"{NUMBER} PLATE 20 is fitted but not released")
