"""A person with all rights who works a job to the end by true records: what the points say, and concessions."""

from __future__ import annotations

from typing import Any

from teardown_app.domain.bill.bill import Bill
from teardown_app.domain.ledger.record import Record
from tests.open_points.acts import BILL
from tests.open_points.naive import Seen, Witness
from tests.open_points.tablets import JOB, OTHER_JOB, SHOP, Clock, Tablet
from tests.open_points.worlds import World

FOR_EVER = "2099-01-01"
"""A day that no record here comes near."""


def all_on_one(world: World, dev: str = "t9~0") -> Tablet:
    """A tablet that has everything of a world, also what had not come through; later than all of it."""
    tablet = Tablet(dev, Clock(hours=1000.0, ticks=10**6))
    others = [each for records in world.others.values() for each in records]
    tablet.take([*world.shop, *world.job, *world.withheld, *others])
    return tablet


class Honest:
    """Somebody at one tablet, with what he knows."""

    def __init__(self, tablet: Tablet, bill: Bill, by: str = "AA") -> None:
        self.tablet, self.bill, self.by = tablet, bill, by
        self._known: tuple[int, int, Witness] | None = None

    # -- what he knows -------------------------------------------------------------------------------

    @property
    def witness(self) -> Witness:
        """What is to be made of all that is on his tablet."""
        shop, job = self.tablet.view(SHOP), self.tablet.view(JOB)
        if self._known is None or self._known[:2] != (len(shop), len(job)):
            others = {OTHER_JOB: self.tablet.view(OTHER_JOB)} if self.tablet.view(OTHER_JOB) else {}
            self._known = (len(shop), len(job), Witness(shop, JOB, job, self.bills, others))
        return self._known[2]

    def bills(self, sha: str) -> Bill | None:
        """The one bill there is."""
        return self.bill if sha == BILL else None

    def points(self) -> list[Seen]:
        """Open points, as he knows them."""
        return [each for each in self.witness.points() if each.state == "open"]

    def has_all_rights(self) -> bool:
        """Whether the tablet counts here, and he may do everything on it; a record of his says so."""
        said = self.shop("place.given", "place:RACK 9", name="RACK 9")
        told = self.witness.told
        rights = ("record", "release", "scrap", "concede", "sign", "office")
        return told.foundings.counts(self.tablet.dev) and all(self._may(said, each) for each in rights)

    def _may(self, record: Record, right: str) -> bool:
        return self.witness.told.has_right(record, right)

    # -- what he does --------------------------------------------------------------------------------

    def say(self, typ: str, *ent: str, **body: Any) -> Record:
        """Something happens; `as_` and `pass_` stand for the fields `as` and `pass`."""
        fields = {name.rstrip("_"): value for name, value in body.items()}
        return self.tablet.write(self.by, typ, ent, fields)

    def shop(self, typ: str, about: str, **body: Any) -> Record:
        """Something of the shop is written."""
        return self.tablet.write(self.by, typ, (about,), body, journal=SHOP)

    def concede(self, seen: Seen) -> Record:
        """A point is accepted by signature as it stands."""
        about = f"@{seen.position}" if seen.position else seen.part or "job"
        lines = self.witness.tool.line_names(seen.part) if seen.part else []
        body = {"key": seen.key, "why": "agreed", "reference": "K-7", "lines": lines}
        return self.say("point.conceded", about, covers=list(seen.behind), **body)

    def sign(self, about: str = "job") -> Record:
        """He signs."""
        return self.say("work.signed", about, meaning="reviewed", covers=[])

    def close(self) -> None:
        """The job is signed and closed in one act."""
        self.sign()
        self.say("job.closed", "job")
