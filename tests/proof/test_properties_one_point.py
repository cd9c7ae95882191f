"""One fault is one point: each of these jobs has nothing open but for one thing that went wrong."""

from __future__ import annotations

import pytest

from teardown_app.domain.bill.bill import Check
from tests.open_points.story import Story, line, route
from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale, screws

DEEP = ("10", "10.10", "10.10.10", "10.10.10.10", "10.10.10.10.10", "10.10.10.10.10.10")
"""Six levels: five assemblies that nobody took apart, and a part."""


def two_in_one(points: Twin | App) -> tuple[Tale, str, str]:
    """One place that two tablets filled with two good parts; a part fits beneath its lid."""
    tale = Tale(points, line("10"), line("20", fit_after=("10",)))
    one, lid = tale.ready(tale.off("10")), tale.ready(tale.off("20"))
    spare = tale.ready(tale.bring("PN-10", meant_for="10"))
    other = tale.second()
    tale.fit(one, "10")
    tale.fit(lid, "20")
    tale.fit(spare, "10", on=other)
    tale.carry()
    return tale, one, spare


def test_a_double_fitting_is_one_point_naming_the_place(points: Twin | App) -> None:
    """The hole that it leaves, the lid over it and the two parts are silent."""
    tale, one, spare = two_in_one(points)
    assert tale.open_now() == ["fitted twice|10|"]
    tale.out(spare, "10", by="RR")
    tale.fit(one, "10")
    assert tale.stands("fitted twice") == []
    assert tale.open_now() == [f"tagged but unaccounted for|{spare}|"]


def test_a_double_fitting_that_is_conceded_silences_nothing(points: Twin | App) -> None:
    """Two in one place would have been agreed, and with it that one of them is nowhere."""
    tale, one, spare = two_in_one(points)
    tale.concede("fitted twice|10|", by="KK")
    assert sorted(tale.open_now()) == sorted([
        "fitted over an empty position|20|10", *(f"tagged but unaccounted for|{each}|" for each in (one, spare)),
    ])  # fmt: skip


def test_one_part_in_two_places_is_one_point_naming_the_part(points: Twin | App) -> None:
    """Both holes are silent: where it is not, is known when somebody looked."""
    tale = Tale(points, line("10", number="P"), line("20", number="P"))
    part = tale.ready(tale.off("10"))
    other = tale.second()
    tale.fit(part, "10")
    tale.fit(part, "20", on=other)
    tale.carry()
    assert tale.stands("fitted twice") == [part]
    assert [key for key in tale.open_now() if not key.startswith("not released")] == [f"fitted twice|{part}|"]


@pytest.mark.parametrize("fitted", [None, "10", "10.10.10"])
def test_a_hole_six_levels_deep_is_one_point(points: Twin | App, fitted: str | None) -> None:
    """Said at the nearest thing over it: the unit, an assembly between, or nothing at all."""
    rows = [line(key, "assembly") for key in DEEP[:-1]]
    tale = Tale(points, *rows, line(DEEP[-1]))
    if fitted is None:
        assert tale.open_now() == [f"missing|{DEEP[-1]}|"]
        return
    tale.fit_ready(fitted)
    assert tale.open_now() == [f"fitted over an empty position|{fitted}|{DEEP[-1]}"]


@pytest.mark.parametrize("about", ["part", "@10"])
def test_a_hold_is_one_point(points: Twin | App, about: str) -> None:
    """On a part that is in and released, and on a place; the release is silent."""
    tale = Tale(points, line("10"))
    part = tale.fit_ready("10")
    tale.say("hold.placed", part if about == "part" else about, by="RR", why="look again")
    assert [key.partition("|")[0] for key in tale.open_now()] == ["hold"]


ONE_FAULT = {
    "a finding": ("approval waiting", lambda tale, part: _finding(tale, part)),
    "a reading that is bad": ("check due", lambda tale, part: _reject(tale, part)),
    "a fact that became another": (
        ACCEPTED,
        lambda tale, part: tale.say("part.noted", part, by="RR", origin="repaired"),
    ),
    "an operation that was begun": ("not released", lambda tale, part: _begun(tale, part)),
    "a screw that was out": ("joint not torqued or due again", lambda tale, part: _out_and_in(tale)),
    "a joint that was opened": ("joint not torqued or due again", lambda tale, part: _opened(tale)),
    "a bracket that went in": ("temporary in or out wrongly", lambda tale, part: tale.say("temporary.in", "@30")),
}


def _finding(tale: Story, part: str) -> object:
    return tale.say("finding.noted", part, by="RR", word="scored", cause="wear", covered=False)


def _reject(tale: Story, part: str) -> object:
    return tale.say("check.read", part, by="RR", check="look", when="finished", verdict="reject")


def _begun(tale: Story, part: str) -> object:
    return tale.say("operation.started", part, by="RR", route="wash", operation="rinse", **{"pass": 1})


def _out_and_in(tale: Story) -> object:
    tale.say("hardware.moved", "@20", by="RR", put_in=-1)
    return tale.say("hardware.moved", "@20", by="RR", put_in=1)


def _opened(tale: Story) -> object:
    return tale.say("joint.opened", "@20", by="RR")


@pytest.mark.parametrize("fault", list(ONE_FAULT))
def test_one_fault_in_a_job_that_is_done_is_one_point(points: Twin | App, fault: str) -> None:
    """What follows from it is silent, or another gate of the same thing."""
    look = Check("look", when=("finished",))
    rows = (line("10", checks=("look",)), screws("20", 1, torque=6), line("30", "temporary", ships="out"))
    tale = Tale(points, *rows, checks=(look,), routes=(route("wash", "rinse"),))
    tale.say("temporary.out", "@30", by="RR")
    part = tale.off("10")
    tale.read(part, "look", "accept", when="finished")
    tale.fit(tale.ready(part), "10")
    tale.screw_in("20", 1)
    tale.tighten("20")
    assert tale.open_now() == []
    kind, happens = ONE_FAULT[fault]
    happens(tale, part)
    about = {(key.split("|")[0], key.split("|")[1]) for key in tale.open_now()}
    assert [each for each, _ in about] == [kind]
