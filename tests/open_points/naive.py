"""Witness: all open points of a set of records, worked out the long way from the document alone.

Nothing here is shared with the app but the record, the bill and the table of fields. Nothing is kept,
nothing is updated: every question is asked anew.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import datetime
from decimal import Decimal
from hashlib import blake2b
from typing import NamedTuple

from teardown_app.domain.bill.bill import GATES, Line
from teardown_app.domain.ledger.record import SHOP, Record
from tests.open_points.naive_entries import CONTESTED, MOVES, Entry, Told, decides
from tests.open_points.naive_tool import Bills, Place, Tool
from tests.open_points.naive_work import AGAIN, Reading, Work, is_never_conceded

CLOSED_UP, POWER_ON, SHIP = "closed up", "power on", "ship"


class Seen(NamedTuple):
    """One open point as the witness sees it."""

    key: str
    kind: str
    gate: str
    state: str
    behind: tuple[str, ...]


class Witness:
    """Everything that stands open in one set of records."""

    def __init__(self, shop: Iterable[Record], number: str, job: Iterable[Record], bills: Bills) -> None:
        self.told = Told(shop, number, job)
        self.tool = Tool(self.told, bills)
        self.work = Work(self.tool)

    def points(self) -> list[Seen]:
        """All open points, by key."""
        sources: list[Callable[[], Iterator[Seen]]] = [
            self._places, self._hardware, self._joints, self._consumables, self._temporary, self._parts,
            self._checks_at_places, self._holds, self._debts_at_places, self._labels, self._conflicts,
            self._signatures, self._records,
        ]  # fmt: skip
        found = {seen.key: seen for source in sources for seen in source()}
        return sorted(found.values())

    def _point(
        self, kind: str, gate: str, subject: str, which: str, behind: Iterable[Entry | Record | str], *,
        never: bool = False,
    ) -> Seen:  # fmt: skip
        refs = {_ref(each) for each in behind}
        state = "conceded" if not never and self._is_covered(kind, subject, which, refs) else "open"
        return Seen(f"{kind}|{subject}|{which}", kind, gate, state, tuple(sorted(refs)))

    def _is_covered(self, kind: str, subject: str, which: str, behind: set[str]) -> bool:
        subjects, whiches = self.told.names(subject), self.told.names(which)
        keys = {f"{kind}|{one}|{other}" for one in subjects for other in whiches}
        conceded = [entry for entry in self.told.entries if entry.fact == "concession" and entry.value["key"] in keys]
        return any(set(entry.value["covers"]) == behind for entry in conceded)

    # -- places ---------------------------------------------------------------------------------

    def _places(self) -> Iterator[Seen]:
        for key, place in self.tool.places.items():
            if place.kind not in ("part", "assembly"):
                continue
            claims, part = self.tool.place_claims(key), self.tool.filler(key)
            if self.tool.in_scope(key) and self.tool.goes_in_as_one(key) and part is None:
                yield self._point("missing", CLOSED_UP, key, "", claims)
            if self.tool.scope(key) == "out":
                yield from self._outside(key)
                continue
            yield from self._twice(key, claims)
            if part is not None:
                yield from self._filled(key, part, claims)

    def _twice(self, key: str, claims: list[Entry]) -> Iterator[Seen]:
        both = [part for part in self.tool.claimers(key) if self.tool.claims(part, key)]
        for part in both if len(both) > 1 else []:
            yield self._point("fitted twice", SHIP, key, part, claims)

    def _filled(self, key: str, part: str, claims: list[Entry]) -> Iterator[Seen]:
        if self._is_foreign(part):
            rests_on = [*claims, *self.told.left(part, "origin"), *self.told.left(part, "owner")]
            yield self._point("belongs to another job or owner", CLOSED_UP, key, "", rests_on)
        elif not self._fits(key, part):
            rests_on = [*claims, *self.told.left(part, "part_number")]
            yield self._point("wrong component", CLOSED_UP, key, "", rests_on)
        elif self._is_swapped(key, part):
            members = [each.key for each in self.tool.bill.matched(key)]
            rests_on = [entry for each in members for entry in self.tool.place_claims(each)]
            rests_on += self.told.left(part, "out_of")
            yield self._point("swapped within a matched set", CLOSED_UP, key, "", rests_on)
        for other in self.tool.closes_over(key):
            if not self.tool.is_filled(other):
                behind = [*claims, *self.tool.place_claims(other)]
                yield self._point("fitted over an empty position", CLOSED_UP, key, other, behind)

    def _is_foreign(self, part: str) -> bool:
        unknown = part not in self.work.parts()
        return unknown or self.work.origin(part) == "borrowed" or self.told.value(part, "owner") == "other job"

    def _fits(self, key: str, part: str) -> bool:
        number, place = self.told.value(part, "part_number", ""), self.tool.places[key]
        came_from = self.tool.places.get(self.told.value(part, "out_of", ""))
        number = number or (came_from.line.part_number if came_from else "")
        if place.added:
            return bool(number == place.line.part_number)
        return self.tool.bill.fits(key, number)

    def _is_swapped(self, key: str, part: str) -> bool:
        place = self.tool.places[key]
        if place.added or not place.line.matched_set or part in self.tool.came_out(key):
            return False
        fillers = [self.tool.filler(each.key) for each in self.tool.bill.matched(key)]
        if None in fillers or not all(self.work.is_new(each) for each in fillers if each):
            return True
        marks = {self.told.value(each, "set_mark") for each in fillers if each}
        return len(marks) != 1 or not marks.pop()

    def _outside(self, key: str) -> Iterator[Seen]:
        stray = {part for part in self.tool.came_out(key) if not self.work.is_gone(part)}
        said = [] if self.tool.lacks_option(key) else self.tool.scope_entries(key)
        for part in self.tool.claimers(key) | stray:
            behind = [*said, *self.told.left(part, "out_of"), *self.tool.place_claims(key)]
            yield self._point("outside the scope", SHIP, key, part, behind)

    # -- hardware, joints, consumables, temporary things ------------------------------------------

    def _in_scope(self, kind: str) -> list[Place]:
        return [each for each in self.tool.places.values() if each.kind == kind and self.tool.in_scope(each.key)]

    def _hardware(self) -> Iterator[Seen]:
        for place in self._in_scope("hardware"):
            found, bag = self._counted(place.key)
            behind = [entry for each in bag for entry in self._counts(each)]
            there = found + self._moved(bag, "added")
            balances = there == self._moved(bag, "put_in", "scrapped", "lost", "left_over")
            if self._moved([place.key], "put_in") != place.count or not balances:
                yield self._point("hardware does not balance", CLOSED_UP, place.key, "", behind)

    def _counted(self, key: str) -> tuple[int, list[str]]:
        found, bag = self.told.value("@" + key, "found", (0, ("@" + key,)))
        return found, [name.removeprefix("@") for name in bag]

    def _counts(self, key: str) -> list[Entry]:
        moved = [entry for fact in MOVES for entry in self.told.all("@" + key, fact)]
        return self.told.left("@" + key, "found") + moved

    def _moved(self, keys: list[str], *facts: str) -> int:
        return sum(entry.value for key in keys for fact in facts for entry in self.told.all("@" + key, fact))

    def _joints(self) -> Iterator[Seen]:
        for place in self._in_scope("hardware"):
            joint = place.line.joint
            if joint is None or joint.torque_nm is None:
                continue
            after, count = self._before_torque(place.key), place.count or 0
            torques = self.told.all("@" + place.key, "torque")
            found_out = [found for each in torques for found in self.work.doubts.touching(each)]
            seen = [each for each in torques if all(self.told.saw(each.record, one.record) for one in after)]
            good = [each for each in seen if not self.work.doubts.touching(each)]
            passes = [f"{each.normalize():f}" for each in joint.passes or (Decimal(100),)]
            tightened = [_screws(good, each) for each in passes]
            if joint.retighten_h is not None:
                tightened.append(_screws(self._again(good, passes[-1], joint.retighten_h, count), "again"))
            closed = all(each >= count for each in tightened)
            hot = not joint.retighten_heat or _screws(good, "after first heat") >= count
            if not (closed and hot):
                behind, gate = [*torques, *after, *found_out], SHIP if closed else CLOSED_UP
                yield self._point("joint not torqued or due again", gate, place.key, "", behind)

    def _again(self, good: list[Entry], last: str, hours: Decimal, count: int) -> list[Entry]:
        """Torques of the pass *again* that were early by leave, or late enough after a whole last pass."""
        before = [each for each in good if each.value["pass"] == last]
        counting = []
        for each in good:
            first = [one for one in before if self.told.saw(each.record, one.record)]
            waited = all(_hours_between(one.record, each.record) >= hours for one in first)
            if each.value.get("early") or (waited and _screws(first, last) >= count):
                counting.append(each)
        return counting

    def _before_torque(self, key: str) -> list[Entry]:
        lines = self.tool.places[key].line.joint.holds
        held = [each.key for line in lines for each in self.tool.bill.nearest(key, line)]
        places = [each for one in held for each in [one, *self.tool.beneath(one)]]
        claims = [entry for each in places for entry in self.tool.place_claims(each)]
        return claims + self.told.all("@" + key, "put_in") + self.told.all("@" + key, "opened_joint")

    def _consumables(self) -> Iterator[Seen]:
        for place in self._in_scope("consumable"):
            openings = self._openings(place)
            renewals = self.told.left("@" + place.key, "renewal")
            if self._is_due(place.line.renew or "always", renewals, openings):
                yield self._point("consumable not renewed or expired", CLOSED_UP, place.key, "", renewals + openings)

    def _openings(self, place: Place) -> list[Entry]:
        closing = [*self.tool.bill.closes_over(place.key), *self.tool.bill.closed_by(place.key)]
        if not closing:
            beside = [each for each in self.tool.places.values() if each.parent == place.parent]
            closing = [each.key for each in beside if each.kind in ("part", "assembly")]
        return [e for key in closing for fact in ("came_out", "taken_out") for e in self.told.all("@" + key, fact)]

    def _is_due(self, renew: str, renewals: list[Entry], openings: list[Entry]) -> bool:
        if renew == "if opened" and not openings:
            return False
        if not renewals or self._differ(renewals):
            return True
        if any(_is_expired(each) for each in renewals):
            return True
        if renew == "on condition":
            return False
        if any(each.value["as"] == "kept" for each in renewals):
            return True
        return not all(self.told.saw(each.record, one.record) for each in renewals for one in openings)

    def _temporary(self) -> Iterator[Seen]:
        places = {"@" + each.key: each.line.ships or "in" for each in self._in_scope("temporary")}
        made = {entry.name for entry in self.told.entries if entry.fact == "made" and entry.value == "temporary"}
        for name, ships in [*places.items(), *((self.told.one(name), "out") for name in sorted(made))]:
            subject, entries = name.removeprefix("@"), self.told.left(name, "temporary")
            words = {entry.value for entry in entries}
            if words != {"out"} and not (ships == "in" and words == {"in"} and self._was_out(name, entries)):
                kind = "temporary in or out wrongly"
                yield self._point(kind, POWER_ON, subject, "running", entries, never=True)
            if words != {ships}:
                yield self._point("temporary in or out wrongly", SHIP, subject, "shipping", entries)

    def _was_out(self, name: str, entries: list[Entry]) -> bool:
        out = [entry for entry in self.told.all(name, "temporary") if entry.value == "out"]
        return any(self.told.saw(entry.record, each.record) for entry in entries for each in out)

    # -- parts ----------------------------------------------------------------------------------

    def _parts(self) -> Iterator[Seen]:
        for part in self.work.parts():
            yield from self._checks_of_part(part)
            yield from self._answers(part)
            if self.work.claims_a_place(part) and not self.work.is_released(part, self._is_conceded):
                yield self._point("not released", CLOSED_UP, part, "", self.work.covered_today(part))
            yield from self._unaccounted(part)
            yield from self._debt(part)

    def _checks_of_part(self, part: str) -> Iterator[Seen]:
        if self.work.is_gone(part) and not self.work.claims_a_place(part):
            return
        for reading in self.work.part_readings(part):
            spoilers = self.work.part_spoilers(part, reading[0])
            if not self.work.is_accepted(part, reading, spoilers):
                never = is_never_conceded(self.tool.bill.checks[reading[0]])
                behind = [*self.work.entries_of(part, reading), *spoilers, *self.work.in_doubt(part, reading)]
                yield self._point("check due", CLOSED_UP, part, "check/" + "/".join(reading), behind, never=never)

    def _checks_at_places(self) -> Iterator[Seen]:
        for key in self.tool.places:
            if self.tool.scope(key) == "out":
                continue
            for reading in self.work.place_readings(key):
                behind = [*self.work.entries_of("@" + key, reading), *self.work.in_doubt("@" + key, reading)]
                if not self.work.is_accepted("@" + key, reading, self.work.place_spoilers(key)):
                    never = is_never_conceded(self.tool.bill.checks[reading[0]])
                    gate = reading[2].removesuffix(AGAIN)
                    gate = gate if gate in GATES else CLOSED_UP
                    yield self._point("check due", gate, key, "check/" + "/".join(reading), behind, never=never)

    def _answers(self, part: str) -> Iterator[Seen]:
        for finding, answer in self.work.findings(part).items():
            asked = [entry for entry in self.told.all(part, "finding") if entry.value == finding]
            behind = [*asked, *self.told.left(finding, "approval")]
            if answer in ("", "asked"):
                yield self._point("approval waiting", CLOSED_UP, part, finding, behind)
            if answer == "declined":
                yield self._point("declined by the customer", CLOSED_UP, part, finding, behind)

    def _is_conceded(self, kind: str, part: str, which: str) -> bool:
        candidates = [*self._checks_of_part(part), *self._answers(part), *self._holds()]
        return any(seen.key == f"{kind}|{part}|{which}" and seen.state == "conceded" for seen in candidates)

    def _unaccounted(self, part: str) -> Iterator[Seen]:
        fills = any(self.tool.filler(key) == part for key in self.tool.places)
        away = self.work.is_gone(part) or self._owed(part) > 0
        if fills or (away and not self.work.claims_a_place(part)):
            return
        at_home = self.tool.own_place(part) or self.work.is_new(part)
        kind = "tagged but unaccounted for" if at_home else "foreign piece"
        behind = [*self.tool.part_claims(part), *self.told.left(part, "disposition")]
        yield self._point(kind, SHIP, part, "", behind)

    def _debt(self, name: str) -> Iterator[Seen]:
        facts = ("handed_over", "taken_over", "given_back")
        gave, took, back = ([*self.told.all(name, fact)] for fact in facts)
        if _sum(gave) + _sum(took) > _sum(back):
            yield self._point("debt", SHIP, name.removeprefix("@"), "", [*gave, *took, *back])

    def _owed(self, part: str) -> int:
        return _sum(self.told.all(part, "handed_over")) - _sum(self.told.all(part, "given_back"))

    def _debts_at_places(self) -> Iterator[Seen]:
        for key in self.tool.places:
            yield from self._debt("@" + key)

    def _holds(self) -> Iterator[Seen]:
        for name in [*self.work.parts(), *("@" + key for key in self.tool.places)]:
            for hold, record in self.work.holds(name).items():
                yield self._point("hold", CLOSED_UP, name.removeprefix("@"), hold, [record.ref])

    # -- what does not agree ----------------------------------------------------------------------

    def _labels(self) -> Iterator[Seen]:
        for name in sorted({entry.name for entry in self.told.entries if entry.fact == "bound"}):
            bound = self.told.all(name, "bound")
            if len({self.told.one(entry.value) for entry in bound}) > 1:
                yield self._point("label of two parts", SHIP, name.removeprefix("number:"), "", bound)

    def _conflicts(self) -> Iterator[Seen]:
        for fact in CONTESTED["job"]:
            yield from self._two("job", "job", fact)
        for key in self.tool.places:
            for fact in self._facts_that_differ("@" + key, "place"):
                yield from self._two("@" + key, key, fact)
            yield from self._two_places_said(key)
        for part in self.work.parts():
            for fact in self._facts_that_differ(part, "part"):
                yield from self._two(part, part, fact)
                if fact.startswith("operation/") and self._times_done(part, fact) > 1:
                    left = self.told.left(part, fact)
                    yield self._point("two different entries", SHIP, part, fact + "/twice", left)
            for finding in self.work.findings(part):
                left = self.told.left(finding, "approval")
                if self._differ(left):
                    yield self._point("two different entries", SHIP, part, f"approval/{finding}", left)

    def _facts_that_differ(self, name: str, sort: str) -> list[str]:
        return sorted(fact for fact in self.told.facts(name, "") if fact.partition("/")[0] in CONTESTED[sort])

    def _two(self, name: str, subject: str, fact: str) -> Iterator[Seen]:
        left = self.told.left(name, fact)
        if self._differ(left):
            yield self._point("two different entries", SHIP, subject, fact, left)

    def _two_places_said(self, key: str) -> Iterator[Seen]:
        said = [] if self.tool.lacks_option(key) else self.tool.scope_entries(key)
        if any(entry.name == "@" + key for entry in said) and self._differ(said):
            yield self._point("two different entries", SHIP, key, "scope", said)
        parts = self.tool.came_out(key)
        if len(parts) > 1:
            behind = [entry for part in parts for entry in self.told.left(part, "out_of")]
            yield self._point("two different entries", SHIP, key, "came_out", behind)

    def _times_done(self, part: str, fact: str) -> int:
        return [entry.value for entry in self.told.left(part, fact)].count("done")

    def _differ(self, left: list[Entry]) -> bool:
        return any(decides(one) != decides(other) for one in left for other in left)

    def _signatures(self) -> Iterator[Seen]:
        signed = {self.told.one(entry.name) for entry in self.told.entries if entry.fact == "signature"}
        for name in sorted(signed):
            signatures, today = self.told.all(name, "signature"), self.signed_today(name)
            if not any(set(entry.value["covers"]) == today for entry in signatures):
                yield self._point("sign again", SHIP, name.removeprefix("@"), "", signatures)

    def signed_today(self, name: str) -> set[str]:
        """What a signature on a part, a place or the job covers today: names, or what stands for many."""
        if self.tool.is_part(name):
            refs = self.work.covered_today(name) | self._in_doubt(name, self.work.part_readings(name))
        else:
            key = name.removeprefix("@")
            here = [key, *self.tool.beneath(key)] if key in self.tool.places else []
            keys = list(self.tool.places) if name == "job" else here
            refs = {entry.record.ref for each in keys for entry in self._signed_at(each)}
            refs |= {ref for each in keys for ref in self._doubtful_at(each)}
        if len(refs) <= 200:
            return refs
        digest = blake2b(" ".join(sorted(refs)).encode(), digest_size=16).hexdigest()
        return {f"{len(refs)} records {digest}"}

    def _signed_at(self, key: str) -> list[Entry]:
        name = "@" + key
        facts = ["filled", "renewal", "temporary", "found", "scope", *self.told.facts(name, "check/")]
        entries = [entry for fact in facts for entry in self.told.left(name, fact)]
        entries += [entry for fact in ["torque", *MOVES] for entry in self.told.all(name, fact)]
        return entries + [entry for part in self.tool.claimers(key) for entry in self.told.all(part, "released")]

    def _doubtful_at(self, key: str) -> set[str]:
        facts = [fact.split("/") for fact in self.told.facts("@" + key, "check/")]
        found = self._in_doubt("@" + key, [(check, spot, when) for _, check, spot, when in facts])
        parts = [self._in_doubt(part, self.work.part_readings(part)) for part in self.tool.claimers(key)]
        return found.union(*parts)

    def _in_doubt(self, name: str, readings: list[Reading]) -> set[str]:
        return {found.ref for reading in readings for found in self.work.in_doubt(name, reading)}

    def _records(self) -> Iterator[Seen]:
        for ref in self.told.job:
            why = self.told.why_not(ref)
            if why == "newer":
                yield self._point("record from a newer app", SHIP, "job", ref, [ref])
            elif why == "right":
                yield self._point("record by someone without the right", SHIP, "job", ref, [ref])
            elif why == "misfit" or (not why and self._does_not_fit(self.told.records[ref])):
                yield self._point("record kept that does not fit", SHIP, "job", ref, [ref])
        for (dev, file), seq in self.told.not_here:
            yield self._point("record not here", SHIP, "job", self._which(dev, file, seq), [])
        for (dev, file), seq in self.told.two_versions:
            yield self._point("two versions of a record", SHIP, "job", self._which(dev, file, seq), [])

    def _which(self, dev: str, file: str, seq: int) -> str:
        return f"{SHOP}/{dev}:{seq}" if file == SHOP else f"{dev}:{seq}"

    def _does_not_fit(self, record: Record) -> bool:
        if record.typ == "record.voided":
            return False
        if record.typ == "job.opened" and record != self.tool.opening():
            return True
        if record.typ == "line.added":
            return not self.tool.places.get(record.ent[0][1:], NOWHERE).added
        return any(not self._is_here(name) for name in record.ent)

    def _is_here(self, name: str) -> bool:
        if name.startswith("@"):
            return name[1:] in self.tool.places
        return name == "job" or name.startswith("carrier:") or bool(self.told.all(name, "made"))


NOWHERE = Place("", "", "", None, Line("", "", 0, ""))


def _ref(each: Entry | Record | str) -> str:
    if isinstance(each, str):
        return each
    return each.ref if isinstance(each, Record) else each.record.ref


def _screws(torques: list[Entry], wanted: str) -> int:
    return sum(entry.value["screws"] for entry in torques if entry.value["pass"] == wanted)


def _hours_between(earlier: Record, later: Record) -> Decimal:
    """Hours by two good clocks; none at all by any other."""
    if earlier.clk != "ok" or later.clk != "ok":
        return Decimal(-1)
    waited = datetime.fromisoformat(later.wall) - datetime.fromisoformat(earlier.wall)
    return Decimal(waited.total_seconds()) / 3600


def _is_expired(renewal: Entry) -> bool:
    expiry = renewal.value.get("expiry", "")
    return bool(expiry) and (renewal.record.clk != "ok" or renewal.record.wall[:10] > expiry)


def _sum(entries: list[Entry]) -> int:
    return sum(entry.value.get("quantity", 1) for entry in entries)


def points(shop: Iterable[Record], number: str, job: Iterable[Record], bills: Bills) -> list[Seen]:
    """All open points of these records, by key."""
    return Witness(list(shop), number, list(job), bills).points()
