"""Witness: readings, routes and releases of parts, readings at places.

Written from `docs/formats/open-points.md` (A check is due, A reading is in doubt, A release holds) alone.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

from teardown_app.domain.bill.bill import GATES, Check, Operation
from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_doubt import Doubts
from tests.open_points.naive_entries import GONE, Entry
from tests.open_points.naive_tool import Tool

Reading = tuple[str, str, str]
"""Check, spot, time."""

AGAIN = " again"
"""Ends the time of a second reading."""

IsConceded = Callable[[str, str, str], bool]
"""Whether the open point of this kind, subject and which is conceded."""


class Work:
    """What has been done on the parts of one tool."""

    def __init__(self, tool: Tool) -> None:
        self.tool, self.told = tool, tool.told
        self.doubts = Doubts(tool.told)

    def parts(self) -> list[str]:
        """Every part that this job knows, by its smallest name."""
        made = [entry.name for entry in self.told.entries if entry.fact == "made" and entry.value == "part"]
        return sorted({self.told.one(name) for name in made})

    def origin(self, part: str) -> str:
        """Where a part comes from."""
        return str(self.told.value(part, "origin", "as received"))

    def is_new(self, part: str) -> bool:
        """Whether a part is new or from stock."""
        return self.origin(part) in ("new", "stock")

    def claims_a_place(self, part: str) -> bool:
        """Whether a part claims any place."""
        return any(entry.value for entry in self.tool.part_claims(part))

    def is_gone(self, part: str) -> bool:
        """Whether a part is not to go back into the tool."""
        return self.told.value(part, "disposition") in GONE

    def _readings(self, key: str, moments: set[str]) -> list[Reading]:
        place = self.tool.places.get(key)
        if place is None or place.added:
            return []
        found = [self.tool.bill.checks[name] for name in place.line.checks if name in self.tool.bill.checks]
        return [
            (check.name, spot, when)
            for check in found
            for spot in check.spots or ("",)
            for first in check.when or ("finished",)
            if first in moments
            for when in ([first] if check.again_h is None else [first, first + AGAIN])
        ]

    def part_readings(self, part: str) -> list[Reading]:
        """Readings that a part needs before it is released."""
        return self._readings(self.tool.own_place(part), {"new" if self.is_new(part) else "finished"})

    def place_readings(self, key: str) -> list[Reading]:
        """Readings taken where the part is fitted."""
        return self._readings(key, {"fitted", *GATES})

    def entries_of(self, name: str, reading: Reading) -> list[Entry]:
        """Readings that nothing replaced."""
        return self.told.left(name, "check/" + "/".join(reading))

    def is_accepted(self, name: str, reading: Reading, spoilers: list[Entry]) -> bool:
        """Whether every reading says accept and was taken after all that spoils it."""
        found = self.entries_of(name, reading)
        check, spot, when = reading
        first = self.entries_of(name, (check, spot, when.removesuffix(AGAIN))) if when.endswith(AGAIN) else []
        after = all(self.told.saw(entry.record, each.record) for entry in found for each in [*spoilers, *first])
        good = all(entry.value["verdict"] == "accept" and not entry.value.get("unfit") for entry in found)
        return bool(found) and after and good and not self.in_doubt(name, reading)

    def in_doubt(self, name: str, reading: Reading) -> list[Record]:
        """What was found out and puts unreplaced readings in doubt."""
        return self.doubts.of(self.tool.bill.checks.get(reading[0]), self.entries_of(name, reading))

    def part_spoilers(self, part: str, check: str) -> list[Entry]:
        """Work on a part, beneath it and in its set that makes an earlier reading worthless."""
        place = self.tool.own_place(part)
        others = [*self.tool.beneath(place), *self._set_of(place)] if place in self.tool.places else []
        parts = {part, *(each for key in others for each in (*self.tool.came_out(key), self.tool.filler(key)) if each)}
        done = [
            entry
            for each in parts
            for fact in self.told.facts(each, "operation/")
            for entry in self.told.left(each, fact)
            if entry.value == "done" and self._spoils(entry, check)
        ]
        beneath = self.tool.beneath(place) if place in self.tool.places else []
        fitted = [entry for key in beneath for entry in self.tool.place_claims(key) if self._is_other(key, entry)]
        return done + fitted + self._paired(place)

    def _paired(self, place: str) -> list[Entry]:
        """How parts that were not there as received, and fill other places of the set, came in."""
        keys = self._set_of(place) if place in self.tool.places else []
        others = [entry.value for key in keys for entry in self.tool.place_claims(key) if self._is_other(key, entry)]
        return [entry for part in others for entry in self.told.all(part, "made") if entry.value == "part"]

    def _set_of(self, key: str) -> list[str]:
        place = self.tool.places[key]
        return [] if place.added else [each.key for each in self.tool.bill.matched(key) if each.key != key]

    def _is_other(self, key: str, entry: Entry) -> bool:
        return bool(entry.value) and not self._was_there(key, self.told.one(entry.value))

    def _was_there(self, key: str, part: str) -> bool:
        return part in self.tool.came_out(key) and self.origin(part) == "as received"

    def _spoils(self, entry: Entry, check: str) -> bool:
        route, name = entry.record.body["route"], entry.record.body["operation"]
        known = self.tool.bill.routes.get(route)
        operation = next((each for each in known.operations if each.id == name), None) if known else None
        if operation and operation.spoils:
            return check in operation.spoils
        return name not in self.tool.bill.checks[check].outlasts

    def place_spoilers(self, key: str) -> list[Entry]:
        """Claims that a reading at a place must have seen."""
        return [entry for each in [key, *self.tool.beneath(key)] for entry in self.tool.place_claims(each)]

    def holds(self, name: str) -> dict[str, Record]:
        """Holds that nobody lifted who had seen them."""
        placed = {entry.value: entry.record for entry in self.told.all(name, "hold")}
        lifted = {hold: [each.record for each in self.told.all(hold, "lifted")] for hold in placed}
        return {
            hold: record
            for hold, record in placed.items()
            if not any(self.told.saw(each, record) for each in lifted[hold])
        }

    def findings(self, name: str) -> dict[str, str]:
        """Findings of a part and the answer that holds: '' where nobody asked."""
        return {entry.value: self.told.value(entry.value, "approval", "") for entry in self.told.all(name, "finding")}

    def covered_today(self, part: str) -> set[str]:
        """Names of the records that a release of this part has to cover."""
        facts = ["disposition", "origin", *self.told.facts(part, "operation/")]
        entries = [entry for fact in facts for entry in self.told.left(part, fact)]
        entries += [entry for reading in self.part_readings(part) for entry in self.entries_of(part, reading)]
        for kind, answer in (("finding", "approval"), ("hold", "lifted")):
            for entry in self.told.all(part, kind):
                after = self.told.left(entry.value, answer) if kind == "finding" else self.told.all(entry.value, answer)
                entries += [entry, *(each for each in after if kind == "finding" or self._after(each, entry))]
        return {entry.record.ref for entry in entries}

    def _after(self, later: Entry, earlier: Entry) -> bool:
        return self.told.saw(later.record, earlier.record)

    def is_released(self, part: str, is_conceded: IsConceded) -> bool:
        """Whether a release of this part holds."""
        if self.told.value(part, "disposition") not in ("use as is", "rework", "repair"):
            return False
        if not all(is_conceded("hold", part, hold) for hold in self.holds(part)):
            return False
        for finding, answer in self.findings(part).items():
            if answer in ("", "asked") and not is_conceded("approval waiting", part, finding):
                return False
            if answer == "declined" and not is_conceded("declined by the customer", part, finding):
                return False
        for reading in self.part_readings(part):
            good = self.is_accepted(part, reading, self.part_spoilers(part, reading[0]))
            if not good and not is_conceded("check due", part, "check/" + "/".join(reading)):
                return False
        today = self.covered_today(part)
        releases = [entry for entry in self.told.all(part, "released") if set(entry.value) == today]
        return any(self._route_is_done(part, entry.record) for entry in releases)

    def route(self, part: str) -> list[tuple[str, Operation]]:
        """Operations that the part's line asks for, for the part's origin."""
        place = self.tool.places.get(self.tool.own_place(part))
        if place is None or place.added:
            return []
        wanted = {"new": "new", "stock": "new", "repaired": "repaired"}.get(self.origin(part), "as received")
        routes = [self.tool.bill.routes[name] for name in place.line.routes if name in self.tool.bill.routes]
        found = [route for route in routes if route.origin == wanted]
        return [(route.name, each) for route in found[:1] for each in route.operations]

    def _route_is_done(self, part: str, release: Record) -> bool:
        begun = {self.told.value(part, fact) for fact in self.told.facts(part, "operation/")}
        if begun & {"started", "stopped"}:
            return False
        before: list[Entry] = []
        for route, operation in self.route(part):
            first = f"operation/{route}/{operation.id}/1"
            entries = self.told.left(part, first)
            if not entries:
                return False
            if not all(self._after(entry, each) for entry in entries for each in before):
                return False
            if not all(self._wait_is_over(part, first, entry, operation, release) for entry in entries):
                return False
            before += entries
        return True

    def _wait_is_over(self, part: str, fact: str, entry: Entry, operation: Operation, release: Record) -> bool:
        if not operation.wait_h or entry.value != "done":
            return True
        if any(self.told.saw(each.record, entry.record) for each in self.told.all(part, "wait_over/" + fact)):
            return True
        if entry.record.clk != "ok" or release.clk != "ok":
            return False
        waited = datetime.fromisoformat(release.wall) - datetime.fromisoformat(entry.record.wall)
        return waited >= timedelta(hours=float(operation.wait_h))


NEVER_CONCEDED = ("bonding", "insulation", "interlock", "emergency stop", "over temperature")


def is_never_conceded(check: Check) -> bool:
    """Whether a person's life hangs on this check, as its type, name or sentence says."""
    words = f"{check.type} {check.name} {check.says}".lower().replace("-", " ").replace("_", " ")
    return any(each in words for each in NEVER_CONCEDED)
