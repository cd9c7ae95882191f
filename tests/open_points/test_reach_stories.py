"""What a record reaches: after each the points kept current are those worked out from nothing."""

from __future__ import annotations

from teardown_app.domain.ledger.record import Record
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.replay import replay
from teardown_app.domain.nouns.shop import Shop
from teardown_app.domain.nouns.signing import signature_covers
from teardown_app.domain.points.live import Live, all_points
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


def test_what_came_with_a_unit_goes_when_another_part_claims_a_place_between() -> None:
    """It is said of the assembly; the nearest part above the place is another one now."""
    story = nested()
    unit = story.off("10")
    story.say("part.fitted", unit, "@10", came_with=["10.20"])
    assert "10.20.5.1" not in story.keys("missing")
    other = story.say("part.brought_in", story.first.thing(), origin="new", part_number="PN-10.20.5").ent[0]
    story.say("part.fitted", other, "@10.20.5")
    assert "10.20.5.1" in story.keys("missing")
    story.say("part.taken_out", other, "@10.20.5")
    assert "10.20.5.1" not in story.keys("missing")
    story.say("part.taken_out", unit, "@10")
    assert "10.20.5.1" in story.keys("missing")


def test_what_came_with_a_unit_comes_back_when_its_going_is_taken_back() -> None:
    """A correction of a fitting, and of what was said of the assembly."""
    story = nested()
    unit = story.off("10")
    story.say("part.fitted", unit, "@10", came_with=["10.20", "10.20.5.1"])
    went = story.say("part.taken_out", unit, "@10")
    assert "10.20.5.1" in story.keys("missing")
    story.say("record.voided", "@10", record=went.ref, why="slip")
    assert "10.20.5.1" not in story.keys("missing")
    said = story.say("configuration.received", "@10.20", as_="out of scope", why="customer")
    assert "10.20.5.1" not in story.keys("missing")
    story.say("record.voided", "@10.20", record=said.ref, why="slip")
    assert "10.20.5.1" not in story.keys("missing")
    story.say("configuration.received", "@10", as_="received complete")
    assert "10.20.5.1" in story.keys("missing")


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
    assert sorted(story.keys("sign again")) == ["10", "10.20", "job"]
    story.fit(part, "10.20.5")
    assert sorted(story.keys("sign again")) == ["10", "10.20", "job"]
    story.sign("@10.20")
    assert sorted(story.keys("sign again")) == ["10", "job"]
    story.sign("job")
    story.ready(part)
    assert sorted(story.keys("sign again")) == sorted(["10", "10.20", part, "job"])


def test_a_signature_whose_fitting_is_taken_back_covers_again_what_it_did() -> None:
    """Taking back what came after a signature makes it stand again: it covers exactly what is there."""
    story = Watched(line("10", "assembly"), line("10.5"))
    part = story.fit(story.ready(story.off("10.5")), "10.5")
    story.sign("@10")
    out = story.say("part.taken_out", part, "@10.5")
    assert story.keys("sign again") == ["10"]
    story.say("record.voided", "@10.5", record=out.ref, why="slip")
    assert story.keys("sign again") == []


def test_what_somebody_fitted_who_had_not_seen_the_signature_is_compared() -> None:
    """Nobody knew of the other: the signature does not cover the fitting, and does not after a second one either."""
    story = Watched(line("10", "assembly"), line("10.5"), line("10.6"))
    one, other = story.ready(story.off("10.5")), story.ready(story.off("10.6"))
    second = story.second()
    signature = story.sign("@10")
    assert story.keys("sign again") == []
    story.say("part.fitted", one, "@10.5", on=second)
    assert story.keys("sign again") == ["10"]
    story.say("part.fitted", other, "@10.6", on=second)
    assert story.keys("sign again") == ["10"]
    story.say("record.voided", "@10", record=signature.ref, why="slip")
    assert story.keys("sign again") == []


def test_points_of_every_sort_of_subject_are_conceded_at_once() -> None:
    """Of something in for a time, of the signed job, of a signed place that this tool does not have."""
    story = Watched(line("10", "assembly"), line("10.5"))
    hose = story.say("temporary.in", story.first.thing(), what="bypass hose").ent[0]
    story.sign("job")
    story.say("work.signed", "@99", meaning="reviewed", covers=["nothing"])
    story.say("consumable.renewed", "@10.5", as_="renewed")
    kept = {one.key: one for one in story.live.open_points()}
    for key in (f"temporary in or out wrongly|{hose}|shipping", "sign again|job|", "sign again|99|"):
        covers = list(kept[key].behind)
        story.say("point.conceded", "@10.5", key=key, why="agreed", reference="K-7", covers=covers)
        assert key not in {one.key for one in story.live.open_points()}
