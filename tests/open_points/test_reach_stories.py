"""What a record reaches: after each the points kept current are those worked out from nothing."""

from __future__ import annotations

from teardown_app.domain.bill.check import Check
from teardown_app.domain.job.job import Job
from teardown_app.domain.job.replay import replay
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.points.live import Live, all_points
from teardown_app.domain.shop.shop import Shop
from teardown_app.domain.signed.signing import signature_covers
from tests.open_points.story import Story, line
from tests.open_points.tablets import JOB, SHOP


class Watched(Story):
    """A story of which a tablet takes every record in as it comes."""

    def __init__(self, *lines: object, **more: object) -> None:
        super().__init__(*lines, **more)  # type: ignore[arg-type]
        shop = Shop()
        shop.take_all(self.first.view(SHOP))
        self.job = Job(JOB, shop, self.bills)
        self.live = Live(self.job)
        self._take(self.first.own(JOB)[0])

    def say(self, typ: str, *ent: str, **more: object) -> Record:  # type: ignore[override]
        record = super().say(typ, *ent, **more)  # type: ignore[arg-type]
        self._take(record)
        return record

    def _take(self, record: Record) -> None:
        self.live.update(record, self.job.take(record))
        at_once = all_points(replay(self.records(SHOP), JOB, self.records(JOB), self.bills))
        assert self.live.points() == all_points(self.job) == at_once

    def keys(self, kind: str) -> list[str]:
        """Subjects of the open points of a kind, as they are kept."""
        return [one.key.split("|")[1] for one in self.live.open_points() if one.kind == kind]

    def sign(self, thing: str) -> Record:
        """Somebody signs for a thing as it stands."""
        return self.say("work.signed", thing, meaning="reviewed", covers=signature_covers(self.job, thing))


def nested() -> Watched:
    """A part in an assembly in an assembly in a unit."""
    return Watched(line("10", "assembly"), line("10.20", "assembly"), line("10.20.5", "assembly"), line("10.20.5.1"))


def test_what_came_with_a_unit_goes_when_another_unit_comes() -> None:
    """While its place is empty only the unit is missing; another unit brings nothing along."""
    story = nested()
    unit = story.off("10")
    story.say("part.fitted", unit, "@10", came_with=["10.20"])
    assert "10.20.5.1" not in story.keys("missing")
    story.say("part.taken_out", unit, "@10")
    assert story.keys("missing") == ["10"]
    other = story.say("part.brought_in", story.first.thing(), origin="new", part_number="PN-10").ent[0]
    fitted = story.say("part.fitted", other, "@10")
    assert "10" in story.keys("fitted over an empty position")
    story.say("record.voided", "@10", record=fitted.ref, why="slip")
    assert story.keys("missing") == ["10"]


def test_what_was_left_in_a_unit_comes_back_with_it() -> None:
    """The word of the whole assembly holds for what is beneath while the unit is there in which it was said."""
    story = nested()
    unit = story.off("10.20")
    story.say("part.fitted", unit, "@10.20")
    story.say("configuration.received", "@10.20.5", as_="left fitted", why="not opened")
    assert "10.20.5.1" not in story.keys("missing")
    other = story.say("part.brought_in", story.first.thing(), origin="new", part_number="PN-10.20").ent[0]
    story.say("part.taken_out", unit, "@10.20")
    story.say("part.fitted", other, "@10.20")
    assert "10.20" in story.keys("fitted over an empty position")
    story.say("part.taken_out", other, "@10.20")
    story.say("part.fitted", unit, "@10.20")
    assert story.keys("fitted over an empty position") == []


def test_an_acceptance_takes_what_was_taken_back_off_the_ground() -> None:
    """A release rests on a set mark that was wrong; its taking back waits until somebody accepts it."""
    story = Watched(line("10"))
    part = story.ready(story.off("10"))
    story.fit(part, "10")
    noted = story.say("part.noted", part, set_mark="II")
    assert story.keys("not released") == [part]
    back = story.say("record.voided", part, record=noted.ref, why="slip")
    assert story.keys("to be accepted") == [part]
    accepting = {"why": "agreed", "reference": "K-7", "covers": [], "lines": ["10"]}
    story.say("point.conceded", part, key=f"to be accepted|{part}|{back.ref}", **accepting)
    assert story.keys("to be accepted") == []
    assert story.keys("not released") == []


def test_an_accepted_word_reaches_the_protective_reading_beneath() -> None:
    """A heater that is said to be not on this tool: its insulation is due until the office accepts that."""
    insulation = Check("insulation", when=("power on",))
    story = Watched(line("10", "assembly"), line("10.5", checks=("insulation",)), checks=(insulation,))
    word = story.say("configuration.received", "@10", as_="not on this tool", why="no heater")
    assert story.keys("check due") == ["10.5"]
    accepting = {"why": "agreed", "reference": "K-7", "covers": []}
    story.say("point.conceded", "@10", key=f"to be accepted|10|{word.ref}", **accepting)
    assert story.keys("check due") == []


def test_signatures_one_above_the_other_are_stale_and_stand_again_when_signed_again() -> None:
    """A record makes stale what is signed above it, and nothing beside it."""
    story = Watched(
        line("10", "assembly"), line("10.20", "assembly"), line("10.20.5"), line("30", "assembly"), line("30.5")
    )
    part, other = story.ready(story.off("10.20.5")), story.ready(story.off("30.5"))
    for one, key in ((part, "10.20.5"), (other, "30.5")):
        story.fit(one, key)
    for thing in ("@10", "@10.20", "@30", "job", part):
        story.sign(thing)
    assert story.keys("sign again") == []
    story.say("photo.taken", "@10.20.5", photos=[])
    assert story.keys("sign again") == []
    story.say("part.taken_out", part, "@10.20.5")
    assert sorted(story.keys("sign again")) == sorted(["10", "10.20", part, "job"])
    story.fit(part, "10.20.5")
    assert sorted(story.keys("sign again")) == sorted(["10", "10.20", part, "job"])
    story.sign("@10.20")
    assert sorted(story.keys("sign again")) == sorted(["10", part, "job"])
    story.sign("job")
    story.ready(part)
    assert sorted(story.keys("sign again")) == sorted(["10", "10.20", part, "job"])


def test_a_signature_does_not_stand_again_when_what_came_after_is_taken_back() -> None:
    """Nothing that lapsed comes back by itself."""
    story = Watched(line("10", "assembly"), line("10.5"))
    part = story.fit(story.ready(story.off("10.5")), "10.5")
    story.sign("@10")
    out = story.say("part.taken_out", part, "@10.5")
    assert story.keys("sign again") == ["10"]
    story.say("record.voided", "@10.5", record=out.ref, why="slip")
    assert story.keys("sign again") == ["10"]
    story.sign("@10")
    assert story.keys("sign again") == []


def test_what_somebody_fitted_who_had_not_seen_the_signature_lies_in_its_scope() -> None:
    """Nobody knew of the other; whoever has seen both signs again."""
    story = Watched(line("10", "assembly"), line("10.5"), line("10.6"))
    one, other = story.ready(story.off("10.5")), story.ready(story.off("10.6"))
    second = story.second()
    story.sign("@10")
    assert story.keys("sign again") == []
    story.say("part.fitted", one, "@10.5", on=second)
    assert story.keys("sign again") == ["10"]
    story.say("part.fitted", other, "@10.6", on=second)
    story.sign("@10")
    assert story.keys("sign again") == ["10"]
    story.carry()
    story.sign("@10")
    assert story.keys("sign again") == []


def test_a_job_is_closed_while_its_closing_and_signature_stand() -> None:
    """What comes after opens it again; it is closed again without being reopened."""
    story = Watched(line("10"))
    story.fit(story.ready(story.off("10")), "10")
    assert story.live.complete
    assert not story.live.closed
    for word in ("first", "again"):
        story.sign("job")
        story.say("job.closed", "job", note=word)
        assert story.live.closed
        story.say("configuration.received", "@10", as_="received complete")
        assert not story.live.closed


def test_two_ends_that_differ_leave_the_job_open() -> None:
    """One tablet closes, another reopens what it saw closed before; that is no point."""
    story = Watched(line("10"))
    story.fit(story.ready(story.off("10")), "10")
    story.sign("job")
    story.say("job.closed", "job")
    second = story.second()
    story.say("job.reopened", "job", why="returned", on=second)
    assert not story.live.closed
    story.sign("job")
    story.say("job.closed", "job")
    assert not story.live.closed
    assert story.keys("two different entries") == []


def test_what_is_recorded_again_out_of_a_place_that_is_not_there() -> None:
    """A part of a place that somebody else adds later: taken back, and taken off once more."""
    story = Watched(line("10"))
    part = story.off("10.+X")
    story.take_back(part)
    assert story.keys("to be accepted") == [part]
    story.off("10.+X")
    assert story.keys("to be accepted") == []
