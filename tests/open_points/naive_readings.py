"""Witness: which readings are asked, which count, and what is in one state.

Written from `docs/formats/open-points.md` (section 1, In one state; sections 2 and 4) alone.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from teardown_app.domain.bill.bill import GATES, Check, Line
from tests.open_points.naive_back import Lying
from tests.open_points.naive_doubt import Doubts, hours_between
from tests.open_points.naive_entries import Entry
from tests.open_points.naive_ground import Ground
from tests.open_points.naive_operations import Operations

Reading = tuple[str, str, str]
"""Check, spot, time."""

AGAIN = " again"
"""Ends the time of a second reading."""

COMING_OFF = ("part.taken_off", "part.brought_in")


class Readings:
    """Readings of the parts and places of one tool."""

    def __init__(self, ground: Ground, doubts: Doubts) -> None:
        self.ground, self.doubts = ground, doubts
        self.tool, self.told, self.back = ground.tool, ground.told, ground.back
        self.operations = Operations(ground.tool)

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
        if not self.back.stands(entry.record, self.of_reading(name, reading)) or not self._is_of_the_unit(name, entry):
            return False
        if not self.doubts.gauge_serves(entry, check) or not self._is_late_enough(name, reading, entry):
            return False
        return not self.doubts.is_in_doubt(entry) and not self._is_over_a_protective(entry)

    def _is_of_the_unit(self, name: str, entry: Entry) -> bool:
        """ "A reading at a place also has to count for the unit"."""
        return not name.startswith("@") or self.ground.units.counts(entry.record, name[1:])

    def _is_late_enough(self, name: str, reading: Reading, entry: Entry) -> bool:
        """ "*… again* lies, by clocks that are *ok*, the check's `again` hours after every unreplaced reading of the
        first time, and its author had seen one"."""
        check, spot, when = reading
        if not when.endswith(AGAIN):
            return True
        hours = self.tool.bill.checks[check].again_h or Decimal(0)
        first = [each.record for each in self.entries_of(name, (check, spot, when.removesuffix(AGAIN)))]
        seen = any(self.told.saw(entry.record, each) for each in first)
        return seen and all(hours_between(each, entry.record) >= hours for each in first)

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
        name, check = later.name, later.fact.split("/")[1]
        changing = (
            self._may_change_at(name[1:], check) if name.startswith("@") else self._may_change_a_part(name, check)
        )
        return not any(
            not self.told.takers(each)
            and each not in (later.record, earlier.record)
            and self.told.saw(later.record, each)
            and self.told.saw(each, earlier.record)
            for each, _ in changing
        )

    def _may_change_a_part(self, part: str, check: str) -> list[Lying]:
        """ "for a part, anything on the ground of the reading but readings, a part.fitted only of a part that did not
        sit there, an operation.done only if it counts (section 4, *an operation is over*)"."""
        near, found = [part, *self._parts_near(part)], self._of_part_reading(part, check)
        found = [(e, thing) for e, thing in found if e.typ != "operation.done" or self.operations.counts(e, near)]
        return [(e, thing) for e, thing in found if e.typ != "part.fitted" or not self.ground.sat_there(e)]

    def _may_change_at(self, key: str, check: str) -> list[Lying]:
        """ "at a place, there or beneath, part.taken_out, part.taken_off, part.brought_in, part.fitted of a part that
        did not sit there, consumable.renewed as *renewed* (what is *kept* is as it was), joint.opened, hardware.moved
        with `put_in` other than zero, operation.done that counts and spoils the check (section 2) on a part that claims
        it or a place beneath"."""
        if key not in self.tool.places:
            return []
        keys = self.tool.here_and_beneath([key])
        found = self.ground.about(("part.taken_out", "joint.opened"), keys)
        found += [(e, at) for e, at in self.ground.about(("consumable.renewed",), keys) if e.body["as"] == "renewed"]
        found += [(e, "") for e in self.told.written if e.typ in COMING_OFF and e.body.get("out_of") in keys]
        found += [(e, at) for e, at in self.ground.about(("part.fitted",), keys) if not self.ground.sat_there(e)]
        found += [(e, at) for e, at in self.ground.about(("hardware.moved",), keys, "put_in") if e.body["put_in"]]
        parts = [part for part in self.tool.parts if set(self.tool.claims(part)) & set(keys)]
        done = [e for e in self.operations.done_on(parts) if self.operations.spoils(e, check)]
        return found + [(e, "") for e in done if self.operations.counts(e, parts)]

    # -- grounds of readings ---------------------------------------------------------

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
        tool, spoils = self.tool, self.operations.spoils
        done = self.operations.done_on([part, *self._parts_near(part)])
        found = [(each, "") for each in done if spoils(each, check)]
        for record, _ in self.ground.about(("part.fitted",), self._beneath_its_seat(part)):
            if not tool.is_there_as_received(self.told.one(record.ent[0]), record.ent[1][1:]):
                found.append((record, ""))
        for record, _ in self.ground.lying(self.ground.about(("part.fitted",), self._rest_of_its_set(part))):
            other = self.told.one(record.ent[0])
            if not tool.is_there_as_received(other, record.ent[1][1:]):
                found += [(each, other) for each in tool.bringing_in(other)]
        return found

    def _beneath_its_seat(self, part: str) -> list[str]:
        seat = self.tool.seat(part)
        there = self.tool.here_and_beneath(seat)
        return [key for key in there if key not in seat or set(self.tool.above(key)) & set(seat)]

    def _rest_of_its_set(self, part: str) -> list[str]:
        return [key for one in self.tool.places_of_lines(part) for key in self.tool.matched(one) if key != one]

    def _parts_near(self, part: str) -> list[str]:
        """ "parts that came out of or claim places beneath its seat or the other places of its matched set"."""
        near = [*self._beneath_its_seat(part), *self._rest_of_its_set(part)]
        return [e for e in self.tool.parts if self.tool.out_of(e) in near or set(self.tool.claims(e)) & set(near)]
