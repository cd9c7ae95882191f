"""Witness: points about parts, about readings, and narrowings to be accepted.

Written from `docs/formats/open-points.md` (sections 3 and 5) alone.
"""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import GATES
from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_back import Lying
from tests.open_points.naive_conceding import CLOSED_UP, SHIP, Conceding, Seen
from tests.open_points.naive_entries import Entry
from tests.open_points.naive_narrowing import Narrowings
from tests.open_points.naive_readings import AGAIN, Reading
from tests.open_points.naive_said import GONE
from tests.open_points.naive_tool import how_many
from tests.open_points.naive_work import Work

GOODS = ("goods.handed_over", "goods.taken_over", "goods.given_back")


class Parts:
    """What is open of the parts of one job."""

    def __init__(self, conceding: Conceding, work: Work, narrowings: Narrowings) -> None:
        self.conceding, self.work, self.narrowings = conceding, work, narrowings
        self.tool, self.told, self.ground, self.back = conceding.tool, conceding.told, conceding.ground, conceding.back

    def points(self, twice: list[Seen], holes: dict[str, Seen]) -> Iterator[Seen]:
        """All of them; `twice` are the points *fitted twice*, `holes` those of holes, by place."""
        accepting = list(self.to_be_accepted())
        yield from accepting
        yield from self.checks_at_places(holes)
        waiting = {each.part for each in accepting if each.state == "open"}
        for part in self.tool.parts:
            yield from self.checks_of(part)
            yield from self.answers(part)
            yield from self._not_released(part, part in waiting)
            if not self._is_told_of(part, twice, holes):
                yield from self._unaccounted(part)
        for name in [*self.tool.parts, *("@" + key for key in self.tool.places)]:
            yield from self.holds(name)
            yield from self._debt(name)

    # -- readings --------------------------------------------------------------------------------------

    def checks_of(self, part: str) -> Iterator[Seen]:
        """ "check due: it is asked and does not count", of a part."""
        for reading in self.work.part_readings(part):
            if not self.work.counts(part, reading):
                yield self._check(part, part, reading, self._about(part, "disposition.given"))

    def checks_at_places(self, holes: dict[str, Seen]) -> Iterator[Seen]:
        """The same at a place."""
        for key in self.tool.places:
            for reading in self.work.place_readings(key):
                if self._is_asked_at(key, reading, holes.get(key)) and not self.work.counts("@" + key, reading):
                    yield self._check("@" + key, key, reading, self.ground.said_of(key))

    def _is_asked_at(self, key: str, reading: Reading, hole: Seen | None) -> bool:
        """A place that is out is asked only protective readings, and those not always. "At a place that stays empty
        none is asked: no part fills it, and its *missing* is conceded; a protective one is asked until somebody with
        office concedes that *missing*."."""
        protective = self.told.is_protective(reading[0])
        if self.ground.scope(key) == "out" and not (protective and not self.narrowings.reaches_protective(key)):
            return False
        if hole is None or hole.kind != "missing" or hole.state != "conceded":
            return True
        said = [*self.ground.claims_of(key), *self.ground.said_of(key)]
        return protective and not self.conceding.is_conceded("missing", key, "", said, right="office")

    def _check(self, name: str, subject: str, reading: Reading, more: list[Lying]) -> Seen:
        """ "check.read, check.not_possible of this cell, its ground, what was found out about its instruments; of a
        part disposition.given, of a place said of it"."""
        fact, gate = "check/" + "/".join(reading), reading[2].removesuffix(AGAIN)
        entries = [*self.told.all(name, fact), *self.told.all_gone(name, fact)]
        found_out = self.work.doubts.of_instruments(entries)
        ground = [*self._records(entries), *self.work.of_reading(name, reading), *more]
        ground += [(each, "") for each in found_out]
        never = self.told.is_protective(reading[0])
        gate = gate if gate in GATES else CLOSED_UP
        return self.conceding.point("check due", gate, subject, fact, ground, never=never)

    def _records(self, entries: list[Entry]) -> list[Lying]:
        return [(entry.record, entry.name) for entry in entries]

    def _about(self, part: str, *kinds: str) -> list[Lying]:
        return [(each, part) for each in self.work.about(part) if each.typ in kinds]

    # -- holds and answers -----------------------------------------------------------------------------

    def holds(self, name: str) -> Iterator[Seen]:
        """ "placed, not lifted by somebody who had seen it; of a part: unless it is dispositioned scrap or spare and
        claims no place"."""
        away = self.told.value(name, "disposition") in ("scrap", "spare") and not self.tool.claims(name)
        for hold, placed in self.work.holds(name).items():
            if name.startswith("@") or not away:
                lifted = [*self.told.all(hold, "lifted"), *self.told.all_gone(hold, "lifted")]
                ground = [(placed, name), *self._records(lifted)]
                yield self.conceding.point("hold", CLOSED_UP, name.removeprefix("@"), hold, ground)

    def answers(self, part: str) -> Iterator[Seen]:
        """ "the part goes back; the finding is not covered and nobody asked, or it is asked", or declined."""
        if not self.tool.goes_back(part):
            return
        for finding, answer in self.work.findings(part).items():
            entries = [*self.told.all(finding, "approval"), *self.told.all_gone(finding, "approval")]
            noted = [entry for entry in self.told.all(part, "finding") if entry.value == finding]
            ground = [*self._records(noted), *self._records(entries), *self._about(part, "disposition.given")]
            if answer in ("", "asked"):
                yield self.conceding.point("approval waiting", CLOSED_UP, part, finding, ground)
            if answer == "declined":
                yield self.conceding.point("declined by the customer", CLOSED_UP, part, finding, ground)

    # -- releases --------------------------------------------------------------------------------------

    def is_conceded(self, kind: str, part: str, which: str) -> bool:
        """ "A release asks whether a hold, finding or reading is conceded, by the same test."."""
        found = [*self.checks_of(part), *self.answers(part), *self.holds(part)]
        states = [each.state for each in found if each.key == f"{kind}|{part}|{which}"]
        return states == ["conceded"]

    def _not_released(self, part: str, is_waiting: bool) -> Iterator[Seen]:
        """ "it claims a place, no release of it stands, and either something without a point of its own is lacking, or
        nothing is lacking and it has no open *to be accepted*"."""
        if not self.tool.claims(part) or self.work.is_released(part, self.is_conceded):
            return
        plain, pointed = self.work.lacks(part, self.is_conceded)
        if plain or (not pointed and not is_waiting):
            yield self.conceding.point("not released", CLOSED_UP, part, "", self.work.of_release(part))

    # -- where a part is -------------------------------------------------------------------------------

    def _is_told_of(self, part: str, twice: list[Seen], holes: dict[str, Seen]) -> bool:
        """ "no open *fitted twice* is about it or about a place it claims"; "A hole is one point; a part that both
        sides say is there, and that went with its unit, is not *unaccounted* beside it", while that point is open."""
        claimed = self.tool.claims(part)
        double = any(each.state == "open" and is_about(each, part, claimed) for each in twice)
        left = [key for key in claimed if key in holes and holes[key].state == "open"]
        return double or any(self.ground.units.went_with_its_unit(part, key) for key in left)

    def _unaccounted(self, part: str) -> Iterator[Seen]:
        """ "tagged but unaccounted for: not accounted for; it has a seat or is new"; "foreign piece: not accounted for;
        it has no seat and is not new"."""
        if self.is_accounted_for(part):
            return
        seat = self.tool.seat(part)
        ground = [each for key in seat for each in self.ground.claims_of(key)]
        ground += self._about(part, "disposition.given", *GOODS)
        if not seat and not self.tool.is_new(part):
            yield self.conceding.point("foreign piece", SHIP, part, "", [*ground, *self._about(part, "part.noted")])
        else:
            yield self.conceding.point("tagged but unaccounted for", SHIP, part, "", ground)

    def is_accounted_for(self, part: str) -> bool:
        """ "it fills a place; or claims none and is dispositioned spare, return unrepaired or scrap, or was handed over
        and not given back"."""
        away = self.told.value(part, "disposition") in GONE or self.tool.is_handed_over(part)
        return bool(self.ground.units.filled_by(part)) or (away and not self.tool.claims(part))

    def _debt(self, name: str) -> Iterator[Seen]:
        """ "more of it was handed over or taken over than was given back"."""
        gave, took, back = (self.told.all(name, fact) for fact in ("handed_over", "taken_over", "given_back"))
        if how_many([*gave, *took]) > how_many(back):
            names = self.told.names(name)
            ground = [(each, name) for each in self.told.written if each.typ in GOODS and names & set(each.ent)]
            yield self.conceding.point("debt", SHIP, name.removeprefix("@"), "", ground)

    # -- narrowings ------------------------------------------------------------------------------------

    def to_be_accepted(self) -> Iterator[Seen]:
        """ "Key `to be accepted|subject|which`, which = the record"."""
        for one in self.narrowings.all():
            yield self._accepting(one.record, one.subject, one.cells, is_conceded=self.narrowings.is_conceded(one))
        for target in self.told.written:
            for subject in self.back.subjects(target) if self.told.takers(target) else []:
                if self.back.is_point(target, subject):
                    yield self._taking_back(target, subject)

    def _taking_back(self, target: Record, subject: str) -> Seen:
        """ "Of several takings back of one record: one point, which = an accepted one (the smallest name), else the
        smallest name."."""
        accepted = [void for void, _ in self.back.accepting(target, subject)]
        void = min(accepted or self.told.takers(target), key=lambda each: each.ref)
        return self._accepting(void, subject, (target, void), is_conceded=bool(accepted))

    def _accepting(self, record: Record, subject: str, cells: tuple[Record, ...], *, is_conceded: bool) -> Seen:
        state, name = "conceded" if is_conceded else "open", subject.removeprefix("@")
        point = self.conceding.seen("to be accepted", CLOSED_UP, name, record.ref, state, [])
        return point._replace(behind=tuple(sorted({each.ref for each in cells})))


def is_about(twice: Seen, part: str, claimed: list[str]) -> bool:
    """Whether a *fitted twice* is about a part, or about a place it claims."""
    return part == twice.part or twice.position in claimed
