"""Witness: findings, holds, routes and what a release lacks.

Written from `docs/formats/open-points.md` (sections 2 and 4) alone.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

from teardown_app.domain.bill.bill import Operation
from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_back import Lying
from tests.open_points.naive_doubt import Doubts
from tests.open_points.naive_entries import Entry
from tests.open_points.naive_ground import Ground
from tests.open_points.naive_readings import Readings
from tests.open_points.naive_said import is_written

NOT_ON_A_RELEASE = (
    "part.tagged", "part.renumbered", "thing.put", "photo.taken", "part.fitted", "part.taken_out", "point.conceded",
    "work.signed", "part.released", "record.voided",
)  # fmt: skip
ENDED = ("skipped", "done")

IsConceded = Callable[[str, str, str], bool]
"""Whether the point of this kind, subject and which is conceded."""


class Work(Readings):
    """What has been done on the parts of one tool."""

    def __init__(self, ground: Ground, doubts: Doubts) -> None:
        super().__init__(ground, doubts)
        self._release_grounds: dict[str, list[Lying]] = {}

    def of_release(self, part: str) -> list[Lying]:
        """ "every record about the part, except: part.tagged, …, part.noted that says only `number`, `place`, `note`;
        …; check.read with *accept*"."""
        if part not in self._release_grounds:
            self._release_grounds[part] = [
                (each, part) for each in self.about(part) if each.typ not in NOT_ON_A_RELEASE and not _is_beside(each)
            ]
        return self._release_grounds[part]

    def about(self, part: str) -> list[Record]:
        """ "*About a part*: one of its names stands in `ent`, or a finding or hold on it does."."""
        names = self.told.names(part)
        things = set(names)
        for each in self.told.written:
            if each.typ in ("finding.noted", "hold.placed"):
                things |= {each.thing(n) for n, thing in enumerate(each.ent, 1) if thing in names}
        return [each for each in self.told.written if things & set(each.ent)]

    # -- holds, findings ---------------------------------------------------------------------------------

    def holds(self, name: str) -> dict[str, Record]:
        """Holds that nobody lifted who had seen them."""
        placed = {entry.value: entry.record for entry in self.told.all(name, "hold")}
        lifted = {hold: [each.record for each in self.told.all(hold, "lifted")] for hold in placed}
        return {hold: r for hold, r in placed.items() if not any(self.told.saw(each, r) for each in lifted[hold])}

    def findings(self, name: str) -> dict[str, str]:
        """Findings of a part and the answer that holds: '' where nobody asked."""
        return {entry.value: self.told.value(entry.value, "approval", "") for entry in self.told.all(name, "finding")}

    def all_findings(self) -> list[tuple[str, str]]:
        """Every finding, and the thing that it is on."""
        return [(self.told.one(e.name), e.value) for e in self.told.entries if e.fact == "finding"]

    # -- routes and releases -----------------------------------------------------------------------------

    def route(self, part: str) -> list[tuple[str, Operation]]:
        """ "The route of a part: of each line of its seat, the one for its origin (new: *new*; repaired: *repaired*;
        all others *as received*); none: nothing is asked."."""
        wanted = {"new": "new", "stock": "new", "repaired": "repaired"}.get(self.tool.origin(part), "as received")
        found: list[str] = []
        for line in self.tool.lines(part):
            routes = [self.tool.bill.routes[name] for name in line.routes if name in self.tool.bill.routes]
            found += [route.name for route in routes if route.origin == wanted][:1]
        return [(name, each) for name in dict.fromkeys(found) for each in self.tool.bill.routes[name].operations]

    def lacks(self, part: str, is_conceded: IsConceded) -> tuple[bool, bool]:
        """The table of lacks but for waits: whether something without a point of its own is lacking, and something
        with one."""
        told = self.told
        plain = (
            not self.tool.seat(part)
            or told.value(part, "disposition") not in ("use as is", "rework", "repair")
            or not self._operations_are_over(part)
            or not self._is_written_down(part)
        )
        answers = {"": "approval waiting", "asked": "approval waiting", "declined": "declined by the customer"}
        pointed = [("hold", hold) for hold in self.holds(part)]
        pointed += [(answers[answer], each) for each, answer in self.findings(part).items() if answer in answers]
        due = [reading for reading in self.part_readings(part) if not self.counts(part, reading)]
        pointed += [("check due", "check/" + "/".join(reading)) for reading in due]
        return plain, any(not is_conceded(kind, part, which) for kind, which in pointed)

    def _is_written_down(self, part: str) -> bool:
        """ "what the line's `write_down` names (serial, lot) is written on it"."""
        wanted = [name for line in self.tool.lines(part) for name in line.write_down]
        return all(is_written(self.told.value(part, f"written/{name}")) for name in wanted)

    def _operations_are_over(self, part: str) -> bool:
        """ "every operation of its routes is over, each recorded by somebody who had seen those before it over; nothing
        of any route or pass is begun and not ended"."""
        if any(self.told.value(part, each) not in ENDED for each in self.told.facts(part, "operation/")):
            return False
        before: dict[str, list[Entry]] = {}
        for route, operation in self.route(part):
            entries = self.told.left(part, f"operation/{route}/{operation.id}/1")
            earlier = before.setdefault(route, [])
            if not entries or not all(self.operations.is_over(part, entry) for entry in entries):
                return False
            if not all(self.told.saw(entry.record, each.record) for entry in entries for each in earlier):
                return False
            earlier += entries
        return True

    def is_released(self, part: str, is_conceded: IsConceded) -> bool:
        """ "**A release stands** while its author had seen its ground, it names the lines of the seat, and nothing of
        this list is lacking"."""
        if any(self.lacks(part, is_conceded)):
            return False
        releases = [e for e in self.told.all(part, "released") if e.value == self.tool.line_names(part)]
        return any(
            self.back.stands(each.record, self.of_release(part)) and self._waits_are_over(part, each.record)
            for each in releases
        )

    def _waits_are_over(self, part: str, release: Record) -> bool:
        """ "every wait was over by the clock of the tablet that released (all of it where either clock is not *ok*), or
        ended by somebody who had seen the operation done"."""
        return all(
            self._wait_is_over(part, entry, operation, release)
            for route, operation in self.route(part)
            for entry in self.told.left(part, f"operation/{route}/{operation.id}/1")
        )

    def _wait_is_over(self, part: str, entry: Entry, operation: Operation, release: Record) -> bool:
        if not operation.wait_h or entry.value != "done":
            return True
        if any(self.told.saw(each.record, entry.record) for each in self.told.all(part, "wait_over/" + entry.fact)):
            return True
        if entry.record.clk != "ok" or release.clk != "ok":
            return False
        waited = datetime.fromisoformat(release.wall) - datetime.fromisoformat(entry.record.wall)
        return waited >= timedelta(hours=float(operation.wait_h))


def _is_beside(record: Record) -> bool:
    """What a release needs not have seen, though its kind lies on its ground."""
    if record.typ == "check.read":
        return bool(record.body["verdict"] == "accept")
    return says_only_where(record)


def says_only_where(record: Record) -> bool:
    """ "part.noted that says only `number`, `place`, `note`"."""
    return record.typ == "part.noted" and set(record.body) <= {"number", "place", "note"}
