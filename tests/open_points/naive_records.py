"""Witness: records that have no effect, do not fit, are not here, or stand twice.

Written from `docs/formats/records.md` (State, Foundings) and `open-points.md` (section 5, its last rows) alone.
"""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.ledger.record import SHOP, Record
from tests.open_points.naive_conceding import SHIP, Conceding, Seen
from tests.open_points.naive_knowing import File, not_here
from tests.open_points.naive_said import MAKERS

SORTS = {
    "hardware": ("hardware",), "joint": ("hardware",), "consumable": ("consumable",), "temporary": ("temporary",),
    "part.fitted": ("part", "assembly"), "part.taken_out": ("part", "assembly"),
}  # fmt: skip
"""What sort of place a kind is about."""


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
        """ "it speaks of a part or place that this job does not have, of a place of another sort than its kind is
        about, or of an operation that no route of the bill has, or is a hold or finding on what is neither part nor
        place, or *came with the unit* names a place that is not beneath that of the fitting, or adds a place beneath
        one that is not here, under the name of one of the bill or under none, or it opens the job again"."""
        if record.typ == "record.voided":
            return False
        if record.typ == "job.opened" and record != self.told.opening():
            return True
        if record.typ == "line.added":
            key = record.ent[0][1:]
            return key not in self.tool.places or not self.tool.places[key].added
        wrong = any(not self.tool.is_here(name) or self._is_of_another_sort(record.typ, name) for name in record.ent)
        return wrong or self._is_of_no_route(record) or self._came_from_elsewhere(record)

    def _is_of_another_sort(self, typ: str, name: str) -> bool:
        """ "hardware.*, joint.*: hardware; consumable.*: consumables; temporary.* about a place: temporary;
        part.fitted, part.taken_out: parts and assemblies"; a hold or finding: "part or place"."""
        if not name.startswith("@"):
            made = {entry.value for entry in self.told.all(name, "made")}
            return typ in ("hold.placed", "finding.noted") and "part" not in made
        sorts = SORTS.get(typ if typ.startswith("part.") else typ.partition(".")[0])
        return bool(sorts) and self.tool.places[name[1:]].kind not in (sorts or ())

    def _is_of_no_route(self, record: Record) -> bool:
        if record.typ.partition(".")[0] not in ("operation", "wait"):
            return False
        route = self.tool.bill.routes.get(record.body["route"])
        return route is None or all(each.id != record.body["operation"] for each in route.operations)

    def _came_from_elsewhere(self, record: Record) -> bool:
        if record.typ != "part.fitted":
            return False
        return not set(record.body.get("came_with", [])) <= set(self.tool.beneath(record.ent[1][1:]))

    # -- not here --------------------------------------------------------------------------------------

    def _not_here(self) -> Iterator[Seen]:
        """ "a record is not here that the author of one of this job's records had seen, or that came before one of this
        job that is here; unless its tablet was retired below that number. One for each run of numbers, which =
        `TABLET:NUMBER` of its first"."""
        for (dev, file), want in sorted(self.told.wanted.items()):
            last, lost = self._retired((dev, file))
            for first in not_here(self.told.shelf.get((dev, file), {}), want, last, lost):
                yield self._seen("record not here", _which(dev, file, first), [], never=True)

    def _retired(self, file: File) -> tuple[int | None, set[int]]:
        """ "*Record not here* is not said of higher numbers of that tablet and journal, nor of the numbers in
        `without`, unless a record above `last` is here"; "Of several such records the unreplaced one holds, of several
        of these the highest `last`", and what all of these name."""
        there = [
            each
            for each in self.told.records.values()
            if each.job == SHOP and each.typ == "tablet.retired" and not self.told.why_not(each)
        ]
        mine = [each for each in there if (each.body["tablet"], each.body["journal"]) == file]
        left = [one for one in mine if not any(self.told.saw(other, one) for other in mine)]
        last = max((each.body["last"] for each in left), default=None)
        overtaken = last is not None and any(seq > last for seq in self.told.shelf.get(file, {}))
        if last is None or overtaken:
            return None, set()
        named = [set(each.body.get("without", [])) for each in left if each.body["last"] == last]
        return last, set.intersection(*named)


def _which(dev: str, file: str, seq: int) -> str:
    return f"{SHOP}/{dev}:{seq}" if file == SHOP else f"{dev}:{seq}"
