"""The register as it was for somebody: what he had seen of it, and what was written on a day before his record's."""

from __future__ import annotations

import pytest

from teardown_app.domain.bill.check import Check
from teardown_app.domain.job.job import Job
from teardown_app.domain.job.replay import replay
from teardown_app.domain.lacks.lack import CHECK_DUE
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.parts.instrument import in_use, in_use_for
from teardown_app.domain.places.torqued import wrenches
from teardown_app.domain.points.live import all_points
from tests.open_points.story import Story, line
from tests.open_points.tablets import JOB, SHOP

GAUGE = "M7K3M0001A"
BORE = Check("bore", instrument="bore gauge", when=("fitted",))


def shop() -> Story:
    """A place whose bore is read; two tablets."""
    story = Story(line("10", "consumable", renew="if opened", checks=("bore",)), checks=(BORE,))
    story.second()
    return story


def give(story: Story, hours: float, clk: str = "ok", **more: object) -> Record:
    """The first tablet writes a gauge into the register, so many hours after the start (2 March, 8 o'clock)."""
    story.first.clock.hours, story.first.clk = hours, clk
    body = {"number": GAUGE, "reads": "bore gauge", "due": "2030-01-01", **more}
    return story.first.write("AA", "instrument.given", (f"instrument:{GAUGE}",), body, journal=SHOP)


def read(story: Story, hours: float, clk: str = "ok", **more: object) -> Record:
    """The other tablet, which had not heard of the register, reads the bore."""
    tablet = story.tablets[1]
    tablet.clock.hours, tablet.clk = hours, clk
    return story.say("check.read", "@10", on=tablet, check="bore", when="fitted", verdict="accept", **more)


def job_of(story: Story) -> Job:
    return replay(story.records(SHOP), JOB, story.records(JOB), story.bills)


def is_due(story: Story) -> bool:
    return any(one.kind == CHECK_DUE for one in all_points(job_of(story)))


@pytest.mark.parametrize(
    ("given", "taken", "known"),
    [
        ((0, "ok"), (5, "ok"), False),
        ((0, "ok"), (24, "ok"), True),
        ((15, "ok"), (17, "ok"), True),
        ((48, "ok"), (0, "ok"), False),
        ((48, "jumped"), (0, "ok"), True),
        ((48, "ok"), (0, "unset"), True),
        ((0, "jumped"), (5, "jumped"), True),
    ],
    ids=[
        "the same day", "the day before", "before midnight", "bought later", "nobody knows when it was given",
        "nobody knows when it was read", "neither",
    ],
)  # fmt: skip
def test_a_gauge_is_asked_of_a_tablet_that_had_not_heard_of_it(
    given: tuple[float, str], taken: tuple[float, str], known: bool
) -> None:
    """A tablet that never met the shop's would have needed no gauge for ever."""
    story = shop()
    give(story, *given)
    reading = read(story, *taken)
    assert set(in_use(job_of(story), reading)) == ({GAUGE} if known else set())
    assert is_due(story) == known


def test_what_he_had_seen_counts_on_the_same_day() -> None:
    """As before: it stood on his screen."""
    story = shop()
    give(story, 0)
    story.tablets[1].sync(story.first)
    reading = read(story, 1)
    assert set(in_use_for(job_of(story), reading, "bore gauge")) == {GAUGE} and is_due(story)


def test_a_reading_with_that_gauge_counts() -> None:
    """Its number stands on it, whoever had heard of what."""
    story = shop()
    give(story, 0)
    read(story, 24, instrument=GAUGE)
    assert not is_due(story)


def test_what_was_taken_out_of_use_the_day_before_is_asked_of_nobody() -> None:
    """The last word of the register before that day holds."""
    story = shop()
    give(story, 0)
    give(story, 2, out=True)
    reading = read(story, 24)
    assert in_use(job_of(story), reading) == {}


def test_one_that_is_bought_later_lapses_nothing_and_the_same_day_asks_alike() -> None:
    """Answers that are kept are those of each record's own day."""
    story = shop()
    early = read(story, 0)
    give(story, 10)
    late, later = read(story, 11), read(story, 30)
    job = job_of(story)
    assert [bool(in_use(job, one)) for one in (early, late, later)] == [False, False, True]


def test_a_wrench_is_asked_in_the_same_way() -> None:
    """A joint is tightened on the day after the wrench came."""
    story = shop()
    give(story, 0, reads="torque wrench")
    story.tablets[1].clock.hours = 24
    torque = {"torque": {"text": "6", "unit": "N m"}, "screws": 1, "pass": "100"}
    tightened = story.say("joint.torqued", "@10", on=story.tablets[1], **torque)
    assert set(wrenches(job_of(story), tightened)) == {GAUGE}


def test_of_two_days_on_which_it_was_due_the_earlier_one_is_told() -> None:
    """Two tablets wrote different certificates: since the earlier of them nobody can say what the gauge showed."""
    story = shop()
    body = {"number": GAUGE, "reads": "bore gauge"}
    for due, tablet in (("2026-03-01", story.tablets[1]), ("2026-02-03", story.first)):
        tablet.write("AA", "instrument.given", (f"instrument:{GAUGE}",), {**body, "due": due}, journal=SHOP)
    read(story, 24, instrument=GAUGE)
    (said,) = [one.wrong for one in all_points(job_of(story)) if one.kind == CHECK_DUE]
    assert "was due on 3 February" in said
