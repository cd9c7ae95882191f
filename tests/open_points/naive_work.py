"""Witness: which readings are asked, which count, findings, holds, routes and what a release lacks.

Written from `docs/formats/open-points.md` (sections 2 and 4) alone.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from teardown_app.domain.bill.bill import GATES, Check, Line, Operation
from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_back import Lying
from tests.open_points.naive_doubt import Doubts, hours_between
from tests.open_points.naive_entries import Entry
from tests.open_points.naive_ground import Ground
from tests.open_points.naive_said import is_written

Reading = tuple[str, str, str]
"""Check, spot, time."""

AGAIN = " again"
"""Ends the time of a second reading."""

NOT_ON_A_RELEASE = (
    "part.tagged", "part.renumbered", "thing.put", "photo.taken", "part.fitted", "part.taken_out", "point.conceded",
    "work.signed", "part.released", "record.voided",
)  # fmt: skip
COMING_OFF = ("part.taken_off", "part.brought_in")
ENDED = ("skipped", "done")

IsConceded = Callable[[str, str, str], bool]
"""Whether the point of this kind, subject and which is conceded."""


class Work:
    """What has been done on the parts of one tool."""

    def __init__(self, ground: Ground, doubts: Doubts) -> None:
        self.ground, self.doubts = ground, doubts
        self.tool, self.told, self.back = ground.tool, ground.told, ground.back
        self._release_grounds: dict[str, list[Lying]] = {}

    # -- which readings are asked --------------------------------------------------------------------

    def part_readings(self, part: str) -> list[Reading]:
        """ "Of a part that goes back, for each line of its seat, each (check, spot) whose times hold *finished*, for a
        new part *new*; a protective check with *finished* and without *new* is asked as *finished* of every
        origin."."""
        if not self.tool.goes_back(part):
            return []
        found: list[Reading] = []
        for check in (check for line in self.tool.lines(part) for check in self._checks(line)):
            times = check.when or ("finished",)
            wanted = "new" if self.tool.is_new(part) else "finished"
            if self.told.is_protective(check.name) and "finished" in times and "new" not in times:
                wanted = "finished"
            found += self._at_spots(check, [wanted] if wanted in times else [])
        return sorted(set(found))

    def place_readings(self, key: str) -> list[Reading]:
        """ "At a place that is not out, each whose time is *fitted* or a gate; at places of consumables and hardware,
        and of assemblies that do not go in as one, also *finished*, or, where the check has *new* and not *finished*,
        *new*."; whether or not the place is out."""
        place, found = self.tool.places[key], list[Reading]()
        whole = place.kind == "assembly" and not self.tool.goes_in_as_one(key)
        for check in self._checks(place.line) if not place.added else []:
            times = check.when or ("finished",)
            wanted = [each for each in times if each in ("fitted", *GATES)]
            if whole or place.kind in ("consumable", "hardware"):
                wanted += [next((each for each in ("finished", "new") if each in times), "")]
            found += self._at_spots(check, [each for each in wanted if each])
        return sorted(set(found))

    def _checks(self, line: Line) -> list[Check]:
        return [self.tool.bill.checks[name] for name in line.checks if name in self.tool.bill.checks]

    def _at_spots(self, check: Check, times: list[str]) -> list[Reading]:
        """ "A check with `again` has a second reading for each of these, named *… again*."."""
        again = [time + AGAIN for time in times] if check.again_h is not None else []
        return [(check.name, spot, when) for spot in check.spots or ("",) for when in [*times, *again]]

    # -- which readings count --------------------------------------------------------------------------

    def entries_of(self, name: str, reading: Reading) -> list[Entry]:
        """Readings that nothing replaced."""
        return self.told.left(name, "check/" + "/".join(reading))

    def counts(self, name: str, reading: Reading) -> bool:
        """ "**A reading counts** when there is an unreplaced one, all of them are *accept*, and for each" of them what
        follows there holds."""
        found = self.entries_of(name, reading)
        return bool(found) and all(self._counts(name, reading, entry) for entry in found)

    def _counts(self, name: str, reading: Reading, entry: Entry) -> bool:
        check = self.tool.bill.checks[reading[0]]
        if entry.value["verdict"] != "accept" or entry.value.get("unfit"):
            return False
        if not self.back.stands(entry.record, self.of_reading(name, reading)):
            return False
        if not self.doubts.gauge_serves(entry, check) or not self._is_late_enough(name, reading, entry):
            return False
        return not self.doubts.is_in_doubt(entry) and not self._is_over_a_protective(entry)

    def _is_late_enough(self, name: str, reading: Reading, entry: Entry) -> bool:
        """ "*… again* lies, by clocks that are *ok*, the check's `again` hours after a reading of the first time that
        its author had seen"."""
        check, spot, when = reading
        if not when.endswith(AGAIN):
            return True
        hours = self.tool.bill.checks[check].again_h or Decimal(0)
        first = self.told.all(name, f"check/{check}/{spot}/{when.removesuffix(AGAIN)}")
        seen = [each.record for each in first if self.told.saw(entry.record, each.record)]
        return any(hours_between(each, entry.record) >= hours for each in seen)

    def _is_over_a_protective(self, entry: Entry) -> bool:
        """ "an *accept* of a protective check over a graver one in one state counts for nothing, accepted or not"."""
        if not self.told.is_protective(entry.value["check"]):
            return False
        there = self.told.all(entry.name, entry.fact)
        there += [e for e in self.told.all_gone(entry.name, entry.fact) if self.back.lies(e.record, e.name)]
        return any(self.told.saw(entry.record, e.record) and self.is_over_a_graver(entry, e) for e in there)

    def is_over_a_graver(self, entry: Entry, earlier: Any) -> bool:
        """ "*accept*: e is *reject* or *inconclusive* in one state with it"."""
        if earlier is None or entry.value["verdict"] != "accept":
            return False
        return earlier.value["verdict"] in ("reject", "inconclusive") and self._in_one_state(entry, earlier)

    def _in_one_state(self, later: Entry, earlier: Entry) -> bool:
        """ "**In one state**, of two readings of one cell, the earlier seen by the later's author: no record lies
        between them. Between lies a record that changed something, that the later's author had seen and whose own
        author had seen the earlier reading"."""
        _, check, spot, when = later.fact.split("/", 3)
        changing = [record for record, _ in self._may_change(later.name, (check, spot, when))]
        return not any(
            not self.told.takers(each)
            and each not in (later.record, earlier.record)
            and self.told.saw(later.record, each)
            and self.told.saw(each, earlier.record)
            for each in changing
        )

    def _may_change(self, name: str, reading: Reading) -> list[Lying]:
        """ "for a part, anything on the ground of the reading (section 2); at a place, there or beneath,
        part.taken_out, part.taken_off, part.brought_in, part.fitted of a part that did not sit there,
        consumable.renewed as *renewed* (what is *kept* is as it was), joint.opened, hardware.moved with `put_in` other
        than zero, operation.done that spoils the check (section 2) on a part that claims it or a place beneath"."""
        if not name.startswith("@"):
            return self.of_reading(name, reading)
        if name[1:] not in self.tool.places:
            return []
        keys = self.tool.here_and_beneath([name[1:]])
        found = self.ground.about(("part.taken_out", "joint.opened"), keys)
        found += [(e, at) for e, at in self.ground.about(("consumable.renewed",), keys) if e.body["as"] == "renewed"]
        found += [(e, "") for e in self.told.written if e.typ in COMING_OFF and e.body.get("out_of") in keys]
        found += [(e, at) for e, at in self.ground.about(("part.fitted",), keys) if not self.ground.sat_there(e)]
        found += [(e, at) for e, at in self.ground.about(("hardware.moved",), keys, "put_in") if e.body["put_in"]]
        parts = [part for part in self.tool.parts if set(self.tool.claims(part)) & set(keys)]
        return found + [(e, "") for e, _ in self._done_on(parts) if self._spoils(e, reading[0])]

    def _done_on(self, parts: list[str]) -> list[Lying]:
        names = {name for part in parts for name in self.told.names(part)}
        return [(e, "") for e in self.told.written if e.typ == "operation.done" and names & set(e.ent)]

    # -- grounds of a part's reading and release ---------------------------------------------------------

    def of_reading(self, name: str, reading: Reading) -> list[Lying]:
        """The ground of a reading. "For *… again*: the unreplaced readings of the first time"."""
        check, spot, when = reading
        first: list[Lying] = []
        if when.endswith(AGAIN):
            before = self.entries_of(name, (check, spot, when.removesuffix(AGAIN)))
            first = [(entry.record, "") for entry in before]
        if name.startswith("@"):
            return first + (self.ground.of_reading_at(name[1:]) if name[1:] in self.tool.places else [])
        return first + self._of_part_reading(name, check)

    def _of_part_reading(self, part: str, check: str) -> list[Lying]:
        """ "operation.done on it, on parts that came out of or claim places beneath its seat or the other places of its
        matched set, where it spoils the check; part.fitted at a place beneath its seat by a part that is not there as
        received; the record that brought in a part that is not there as received at another place of its matched set,
        and that a part.fitted names there"; "set are asked by the lines of its seat"."""
        tool, seat = self.tool, self.tool.seat(part)
        beneath = [key for key in tool.here_and_beneath(seat) if key not in seat or set(tool.above(key)) & set(seat)]
        matched = [key for one in tool.places_of_lines(part) for key in tool.matched(one) if key != one]
        near = [*beneath, *matched]
        others = [e for e in tool.parts if tool.out_of(e) in near or set(tool.claims(e)) & set(near)]
        found = [(e, thing) for e, thing in self._done_on([part, *others]) if self._spoils(e, check)]
        for record, _ in self.ground.about(("part.fitted",), beneath):
            if not tool.is_there_as_received(self.told.one(record.ent[0]), record.ent[1][1:]):
                found.append((record, ""))
        for record, _ in self.ground.lying(self.ground.about(("part.fitted",), matched)):
            other = self.told.one(record.ent[0])
            if not tool.is_there_as_received(other, record.ent[1][1:]):
                found += [(each, other) for each in tool.bringing_in(other)]
        return found

    def _spoils(self, record: Record, check: str) -> bool:
        """ "names it in `spoils`, or, naming none, is not in `outlasts`"."""
        operation = self._operation(record.body["route"], record.body["operation"])
        if operation and operation.spoils:
            return check in operation.spoils
        known = self.tool.bill.checks.get(check)
        return known is None or record.body["operation"] not in known.outlasts

    def _operation(self, route: str, name: str) -> Operation | None:
        known = self.tool.bill.routes.get(route)
        return next((each for each in known.operations if each.id == name), None) if known else None

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
            if not entries or not all(self._is_over(part, operation, entry) for entry in entries):
                return False
            if not all(self.told.saw(entry.record, each.record) for entry in entries for each in earlier):
                return False
            earlier += entries
        return True

    def _is_over(self, part: str, operation: Operation, entry: Entry) -> bool:
        """ "**An operation is over** when what holds of pass 1 is *skipped*, or *done* and that *done* counts: its
        author had seen a beginning of that pass, or it says `began`; and each name in `record` stands, not blank, in
        its `values` or in those of a beginning he had seen"."""
        if self.told.value(part, entry.fact) == "skipped":
            return True
        started = [each.record for each in self.told.all(part, entry.fact) if each.value == "started"]
        begun = [each for each in started if self.told.saw(entry.record, each)]
        began = bool(begun) or "began" in entry.record.body
        values = [each.body.get("values", {}) for each in [entry.record, *begun]]
        written = {name for each in values for name, text in each.items() if is_written(text)}
        return (began or not getattr(operation, "time", "")) and set(operation.record) <= written

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
