"""A story of which a tablet takes every record in as it comes, and holds what it keeps against all worked out anew."""

from __future__ import annotations

from teardown_app.domain.job.job import Job
from teardown_app.domain.job.replay import replay
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.points.live import Live, all_points
from teardown_app.domain.shop.shop import Shop
from teardown_app.domain.signed.signing import signature_covers
from tests.open_points.story import Story
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

    def heard(self, record: Record) -> None:
        """Somebody's record of the shop comes in."""
        self.job.shop.take(record)
        if self.job.shop_took(record):
            self.live = Live(self.job)

    def keys(self, kind: str) -> list[str]:
        """Subjects of the open points of a kind, as they are kept."""
        return [one.key.split("|")[1] for one in self.live.open_points() if one.kind == kind]

    def sign(self, thing: str) -> Record:
        """Somebody signs for a thing as it stands."""
        return self.say("work.signed", thing, meaning="reviewed", covers=signature_covers(self.job, thing))
