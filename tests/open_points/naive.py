"""Witness: all open points of a set of records, worked out the long way from the documents of rules 2 alone.

Nothing here is shared with the app but the record, the bill and the table of fields. What was worked out is kept for
one set of records at most, and never updated. The other files, from the ground up: `naive_knowing` (who had seen
what), `naive_said` (what records say), `naive_acts` (the table of acts), `naive_foundings` (rights), `naive_entries`
(effect and merging), `naive_tool` (places and parts), `naive_again` and `naive_back` (takings back), `naive_unit` (what
fills), `naive_ground` (scope and grounds), `naive_doubt`, `naive_hardware`, `naive_operations`, `naive_readings`,
`naive_work`, `naive_narrowing`, then the points: `naive_conceding`, `naive_parts`,
`naive_papers`, `naive_records`, and those of places here."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_back import Back, Lying
from tests.open_points.naive_conceding import CLOSED_UP, POWER_ON, SHIP, Conceding, Seen
from tests.open_points.naive_doubt import Doubts
from tests.open_points.naive_entries import Bills, Entry, Told
from tests.open_points.naive_ground import Ground
from tests.open_points.naive_hardware import Hardware
from tests.open_points.naive_narrowing import Narrowings
from tests.open_points.naive_papers import Papers, differ
from tests.open_points.naive_parts import Parts, is_about
from tests.open_points.naive_records import Records
from tests.open_points.naive_said import MAKERS, is_written
from tests.open_points.naive_tool import Place, Tool
from tests.open_points.naive_work import Work

__all__ = ["Seen", "Witness", "points"]

Others = Mapping[str, Iterable[Record]]
"""Records of other jobs, by number: they make the register of labels."""


class Witness:
    """Everything that stands open in one set of records."""

    def __init__(
        self, shop: Iterable[Record], number: str, job: Iterable[Record], bills: Bills, others: Others | None = None
    ) -> None:
        shop = list(shop)
        self.told = Told(shop, number, job, bills)
        self.tool = Tool(self.told)
        self.back = Back(self.tool)
        self.ground = Ground(self.tool, self.back)
        self.doubts = Doubts(self.told)
        self.filler = self.ground.units.filler
        self.hardware = Hardware(self.ground, self.doubts)
        self.work = Work(self.ground, self.doubts)
        self.narrowings = Narrowings(self.ground, self.work, self.hardware)
        self.conceding = Conceding(self.ground)
        self.parts = Parts(self.conceding, self.work, self.narrowings)
        registered = [Told(shop, other, there, bills) for other, there in sorted((others or {}).items())]
        self.papers = Papers(self.conceding, self.work, self.hardware, registered)
        self.records = Records(self.conceding)

    def points(self) -> list[Seen]:
        """All points, by key. "What was found out *after closing*" and the like is in the files that say it."""
        twice = list(self.fitted_twice())
        holes = self._holes(twice)
        sources: list[Iterable[Seen]] = [
            twice, holes.values(), self._filled(), self._balances(), self._joints(), self._consumables(),
            self._temporary(), self.parts.points(twice, holes), self.papers.labels(), self.papers.conflicts(),
            self.papers.signatures(), self.papers.recalls(), self.records.points(),
        ]  # fmt: skip
        found = {seen.key: seen for source in sources for seen in source}
        return sorted(found.values())

    def is_closed(self) -> bool:
        """Whether the job is closed."""
        return self.papers.is_closed(is_complete=all(each.state == "conceded" for each in self.points()))

    def _both(self, *keys: str) -> list[Lying]:
        """Claims and said of these places."""
        return [each for key in keys for each in [*self.ground.claims_of(key), *self.ground.said_of(key)]]

    # -- places for parts ------------------------------------------------------------------------------

    def fitted_twice(self) -> list[Seen]:
        """ "the place is claimed by two parts or more, each of which an unreplaced fitting at the place names; or a
        part has two unreplaced places on its side, each of which names it, and no open point of the first sort is
        about one of these"."""
        found = []
        for key in self.tool.places:
            if len([part for part in self.tool.fitted_at(key) if key in self.tool.claims(part)]) > 1:
                found.append(self.conceding.point("fitted twice", SHIP, key, "", self.ground.claims_of(key)))
        open_there = {each.position for each in found if each.state == "open"}
        for part in self.tool.parts:
            both = [key for key in self.tool.claims(part) if part in self.tool.fitted_at(key)]
            if len(both) > 1 and not open_there & set(both):
                ground = [each for key in both for each in self.ground.claims_of(key)]
                found.append(self.conceding.point("fitted twice", SHIP, part, "", ground))
        return found

    def _holes(self, twice: list[Seen]) -> dict[str, Seen]:
        """The point of every hole, by its place."""
        return {key: self._of_hole(key) for key in self.tool.places if self.is_hole(key, twice)}

    def _of_hole(self, key: str) -> Seen:
        """ "missing: it is a hole and nothing is over it, or a concession of this very key stands"; else *fitted over
        an empty position*."""
        missing = self.conceding.point("missing", CLOSED_UP, key, "", self._both(key))
        over = self.nearest_over(key)
        if not over or missing.state == "conceded":
            return missing
        return self.conceding.point("fitted over an empty position", CLOSED_UP, over, key, self._both(over, key))

    def is_hole(self, key: str, twice: list[Seen]) -> bool:
        """ "a place in scope that goes in as one, that no part fills, and that no open *fitted twice* is about (as its
        place, or as a place that its part claims)"."""
        if not self.ground.in_scope(key) or not self.tool.goes_in_as_one(key) or self.filler(key):
            return False
        still = [each for each in twice if each.state == "open"]
        return not any(is_about(each, "?", [key]) or key in self.tool.claims(each.part) for each in still)

    def nearest_over(self, key: str) -> str:
        """ "go up from it, step by step, to the assembly it hangs beneath and to every place whose line's `fit_after`
        names it (through consumables and hardware in the same step); places that no part fills are passed through; the
        first step on which places are filled ends the search, of several the first in bill order is taken"."""
        step, passed = [key], {key}
        while step:
            over = [each for each in self.tool.places if any(self._is_right_over(each, one) for one in step)]
            if filled := [each for each in over if self.filler(each)]:
                return filled[0]
            step = [each for each in over if each not in passed]
            passed |= set(step)
        return ""

    def _is_right_over(self, over: str, key: str) -> bool:
        closing = self.tool.places[over].kind in ("part", "assembly") and key in self.tool.closes_over(over)
        return closing or self.tool.places[key].parent == over

    def _filled(self) -> Iterator[Seen]:
        for key in self.tool.places:
            if part := self.filler(key):
                yield from self._filled_by(key, part)

    def _filled_by(self, key: str, part: str) -> Iterator[Seen]:
        """Of three points about what fills a place the first that stands."""
        ground = [*self.ground.claims_of(key), *self._noted([part])]
        if self._is_foreign(part):
            yield self.conceding.point("belongs to another job or owner", CLOSED_UP, key, "", ground)
        elif not self._fits(key, self.tool.part_number(part)):
            yield self.conceding.point("wrong component", CLOSED_UP, key, "", ground)
        elif self._is_swapped(key, part):
            members = self.tool.matched(key)
            parts = [each for each in map(self.filler, members) if each]
            ground = [each for one in members for each in self.ground.claims_of(one)] + self._noted(parts)
            yield self.conceding.point("swapped within a matched set", CLOSED_UP, key, "", ground)

    def _noted(self, parts: list[str]) -> list[Lying]:
        """ "part.noted and bringing in of the part"."""
        kinds = ("part.noted", *MAKERS)
        return [(each, part) for part in parts for each in self.work.about(part) if each.typ in kinds]

    def _is_foreign(self, part: str) -> bool:
        """ "a part fills it that this job does not know, that is borrowed, or whose owner is `other job`"."""
        unknown = part not in self.tool.parts
        return unknown or self.tool.origin(part) == "borrowed" or self.told.value(part, "owner") == "other job"

    def _fits(self, key: str, number: str) -> bool:
        """Whether "the part's number does fit the line; an added place takes only its own number"."""
        place = self.tool.places[key]
        return number == place.line.part_number if place.added else self.tool.bill.fits(key, number)

    def _is_swapped(self, key: str, part: str) -> bool:
        """ "the line has a matched set; the part did not come out of this very place, and the set's places are not all
        filled by new parts under one set mark"."""
        if not self.tool.matched(key) or self.tool.out_of(part) == key:
            return False
        fillers = [self.filler(each) for each in self.tool.matched(key)]
        if None in fillers or not all(self.tool.is_new(each) for each in fillers if each):
            return True
        marks = {self.told.value(each, "set_mark") for each in fillers if each}
        return len(marks) != 1 or not marks.pop()

    # -- hardware, joints, consumables, temporary things -------------------------------------------------

    def _in_scope(self, kind: str) -> list[Place]:
        return [each for each in self.tool.places.values() if each.kind == kind and self.ground.in_scope(each.key)]

    def _balances(self) -> Iterator[Seen]:
        """ "hardware.counted, hardware.moved, joint.opened, goods.* at the places of the bag; said of the place"."""
        goods = ("goods.handed_over", "goods.taken_over", "goods.given_back")
        kinds = ("hardware.counted", "hardware.moved", "joint.opened", *goods)
        for place in self._in_scope("hardware"):
            if not self.hardware.balances(place):
                bag = [name[1:] for name in self.hardware.bag("@" + place.key)]
                ground = [*self.ground.about(kinds, bag), *self.ground.said_of(place.key)]
                yield self.conceding.point("hardware does not balance", CLOSED_UP, place.key, "", ground)

    def _joints(self) -> Iterator[Seen]:
        """ "in scope, the joint has a torque, and a pass is not done"; "ship when only *after first heat* is left"."""
        for place in self._in_scope("hardware"):
            if due := self.hardware.passes_due(place):
                gate = SHIP if due == ["after first heat"] else CLOSED_UP
                ground = self.hardware.of_joint(place.key)
                yield self.conceding.point("joint not torqued or due again", gate, place.key, "", ground)

    def _consumables(self) -> Iterator[Seen]:
        for place in self._in_scope("consumable"):
            if self.is_due(place):
                ground = [
                    *self.ground.about(("consumable.renewed",), [place.key]),
                    *self.ground.of_renewal(place.key),
                    *self.ground.said_of(place.key),
                ]
                yield self.conceding.point("consumable not renewed or expired", CLOSED_UP, place.key, "", ground)

    def is_due(self, place: Place) -> bool:
        """ "**A consumable is due**, rule *always* (and none given) or *on condition*: always; rule *if opened*: once
        an opening reaches it; unless there is an unreplaced renewal, no two of them differ (word, lot, expiry), and
        each of them" is good."""
        if place.line.renew == "if opened" and not self.ground.lying(self.ground.openings(place.key)):
            return False
        renewals = self.told.left("@" + place.key, "renewal")
        return not renewals or differ(renewals) or not all(self._is_good(place, each) for each in renewals)

    def _is_good(self, place: Place, renewal: Entry) -> bool:
        body, expiry = renewal.value, renewal.value.get("expiry", "")
        if not self.back.stands(renewal.record, self.ground.of_renewal(place.key)):
            return False
        if not self.ground.units.counts(renewal.record, place.key):
            return False
        if expiry and (renewal.record.clk != "ok" or renewal.record.wall[:10] > expiry):
            return False
        if body["as"] == "kept":
            return place.line.renew == "on condition"
        number = body.get("part_number", "")
        if number and not self._fits(place.key, number):
            return False
        component = self.tool.bill.components.get(number or place.line.part_number)
        wanted = [*place.line.write_down, *(["expiry"] if component and component.shelf_life_days else [])]
        return all(is_written(body.get(name)) for name in wanted)

    def _temporary(self) -> Iterator[Seen]:
        """Both points of temporary places and of things added on the job."""
        for place in self.tool.places.values():
            if place.kind == "temporary":
                yield from self._running_and_shipping("@" + place.key, place.line.ships or "in")
        made = {entry.name for entry in self.told.entries if entry.fact == "made" and entry.value == "temporary"}
        for name in sorted({self.told.one(each) for each in made}):
            yield from self._running_and_shipping(name, "out")

    def _running_and_shipping(self, name: str, ships: str) -> Iterator[Seen]:
        """ "running: its state is not `out`; but not where it ships in, is `in`, and was `out` before that"; "shipping:
        its state is not what `ships` says"."""
        kind, key, left = "temporary in or out wrongly", name.removeprefix("@"), self.told.left(name, "temporary")
        words, lacks, lacked = {entry.value for entry in left}, False, False
        if name.startswith("@") and not self.ground.is_touched(key):
            lacks = self.tool.lacks_option(key)
            lacked = lacks and self.tool.opening_lacked_option(key)
        shipped = ships == "in" and words == {"in"} and self._was_out(name, left)
        if words != {"out"} and not shipped and not lacked:
            yield self.conceding.point(kind, POWER_ON, key, "running", self._in_and_out(name), never=True)
        if words != {ships} and not lacks:
            yield self.conceding.point(kind, SHIP, key, "shipping", self._in_and_out(name))

    def _was_out(self, name: str, left: list[Entry]) -> bool:
        out = [entry for entry in self.told.all(name, "temporary") if entry.value == "out"]
        return any(self.told.saw(entry.record, each.record) for entry in left for each in out)

    def _in_and_out(self, name: str) -> list[Lying]:
        """ "temporary.in, .out of it"."""
        names, kinds = self.told.names(name), ("temporary.in", "temporary.out")
        return [(each, "") for each in self.told.written if each.typ in kinds and names & set(each.ent)]


def points(
    shop: Iterable[Record], number: str, job: Iterable[Record], bills: Bills, others: Others | None = None
) -> list[Seen]:
    """All open points of these records, by key."""
    return Witness(shop, number, list(job), bills, others).points()
