"""Witness: records that have no effect, do not fit, are not here, or stand twice.

Written from `docs/formats/records.md` (State, Foundings) and `open-points.md` (section 5, its last rows) alone.
"""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.ledger.record import SHOP, Record
from tests.open_points.naive_conceding import SHIP, Conceding, Seen
from tests.open_points.naive_knowing import File
from tests.open_points.naive_said import MAKERS


class Records:
    """The records of one job as records."""

    def __init__(self, conceding: Conceding) -> None:
        self.conceding, self.tool, self.told = conceding, conceding.tool, conceding.told

    def points(self) -> Iterator[Seen]:
        """All points about records."""
        for record in self.told.job:
            why = self.told.why_not(record)
            if why == "newer":
                yield self._of(record, "record from a newer app")
            elif why == "right" and not self.is_recorded_again(record):
                yield self._of(record, "record by someone without the right")
            elif why == "misfit" or (not why and self.does_not_fit(record)):
                yield self._of(record, "record kept that does not fit")
        yield from self._of_unjoined_tablets()
        yield from self._not_here()
        for (dev, file), seq in sorted(self.told.two_versions):
            ground = [(each, "") for each in self.told.shelf[dev, file][seq]]
            yield self._seen("two versions of a record", _which(dev, file, seq), ground)

    def _of(self, record: Record, kind: str) -> Seen:
        return self._seen(kind, record.ref, [(record, "")])

    def _seen(self, kind: str, which: str, ground: list[tuple[Record, str]], *, never: bool = False) -> Seen:
        return self.conceding.point(kind, SHIP, "job", which, ground, never=never)

    # -- without the right -----------------------------------------------------------------------------

    def is_recorded_again(self, record: Record) -> bool:
        """ "somebody with that right, who had seen it, recorded the same kind with effect about the same things (all of
        its `ent`, in one record or several; of a new thing: the same label or place)"."""
        again = [
            each
            for each in self.told.written
            if each.typ == record.typ and not self.told.takers(each) and self.told.saw(each, record)
        ]
        if record.typ in MAKERS and not record.ent[0].startswith("@"):
            mine = [record.body.get(name) for name in ("number", "out_of")]
            return any(
                value and each.body.get(name) == value
                for each in again
                for name, value in zip(("number", "out_of"), mine, strict=True)
            )
        about = {self.told.one(thing) for each in again for thing in each.ent}
        return {self.told.one(thing) for thing in record.ent} <= about

    def _of_unjoined_tablets(self) -> Iterator[Seen]:
        """ "Records of a tablet that does not count have no effect here and are together one point, which = the
        tablet"; "or they are recorded again"."""
        uncounted = [each for each in self.told.job if self.told.why_not(each) == "uncounted"]
        for dev in sorted({each.dev for each in uncounted}):
            mine = [each for each in uncounted if each.dev == dev]
            if not all(self.is_recorded_again(each) for each in mine):
                yield self._seen("record by someone without the right", dev, [(each, "") for each in mine])

    # -- what does not fit -----------------------------------------------------------------------------

    def does_not_fit(self, record: Record) -> bool:
        """ "it speaks of a part or place that this job does not have, or adds a place beneath one that is not here or
        under the name of one of the bill, or it opens the job again"."""
        if record.typ == "record.voided":
            return False
        if record.typ == "job.opened" and record != self.told.opening():
            return True
        if record.typ == "line.added":
            key = record.ent[0][1:]
            return key not in self.tool.places or not self.tool.places[key].added
        return any(not self._is_here(name) for name in record.ent)

    def _is_here(self, name: str) -> bool:
        if name.startswith("@"):
            return name[1:] in self.tool.places
        return name == "job" or name.startswith("carrier:") or bool(self.told.all(name, "made"))

    # -- not here --------------------------------------------------------------------------------------

    def _not_here(self) -> Iterator[Seen]:
        """ "a record is not here that the author of one of this job's records had seen, or that came before one of this
        job that is here; unless its tablet was retired below that number"."""
        for (dev, file), seq in sorted(self.told.not_here):
            last = self._retired_at((dev, file))
            if last is None or seq <= last:
                yield self._seen("record not here", _which(dev, file, seq), [], never=True)

    def _retired_at(self, file: File) -> int | None:
        """ "*Record not here* is not said of higher numbers of that tablet and journal, unless a record above `last` is
        here"; "Of several such records the unreplaced one holds, of several of these the highest `last`."."""
        there = [
            each
            for each in self.told.records.values()
            if each.job == SHOP and each.typ == "tablet.retired" and not self.told.why_not(each)
        ]
        mine = [each for each in there if (each.body["tablet"], each.body["journal"]) == file]
        left = [one for one in mine if not any(self.told.saw(other, one) for other in mine)]
        last = max((each.body["last"] for each in left), default=None)
        overtaken = last is not None and any(seq > last for seq in self.told.shelf.get(file, {}))
        return None if overtaken else last


def _which(dev: str, file: str, seq: int) -> str:
    return f"{SHOP}/{dev}:{seq}" if file == SHOP else f"{dev}:{seq}"
