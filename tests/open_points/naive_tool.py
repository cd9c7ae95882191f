"""Witness: the tool's places, its parts, which part claims and fills which place, what closes over what.

Written from `docs/formats/open-points.md` (section 1) alone. What is no place of this job is no place here.
"""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from teardown_app.domain.bill.bill import Line
from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_entries import Entry, Told
from tests.open_points.naive_said import GONE, MAKERS


def shown_by(record: Record) -> tuple[str, str, int, str]:
    """The order of lists."""
    return record.hlc, record.dev, record.seq, record.h


class Place(NamedTuple):
    """One place, of the bill or added on the job."""

    key: str
    parent: str
    kind: str
    screws: int
    line: Line
    added: bool = False


class Tool:
    """The places of one tool and the parts of one job."""

    def __init__(self, told: Told) -> None:
        self.told, self.bill = told, told.bill
        self.places = {
            each.key: Place(each.key, each.parent, each.line.kind, each.count or 0, each.line)
            for each in self.bill.positions.values()
        }
        self._add_lines()
        self.order = {key: n for n, key in enumerate(self.places)}
        makers = [each for each in told.written if each.typ in MAKERS and not each.ent[0].startswith("@")]
        self.makers = makers
        made = [each for each in makers if not told.takers(each)]
        self.parts = sorted({told.one(each.ent[0]) for each in made})
        self._claims: dict[str, list[str]] = {}
        self._named: dict[str, list[str]] = {}

    def _add_lines(self) -> None:
        added = [entry for entry in self.told.entries if entry.fact == "line" and entry.name.startswith("@")]
        for _ in added:
            for entry in sorted(added, key=lambda each: shown_by(each.record)):
                key, parent = entry.name[1:], entry.value["parent"]
                if key and key not in self.places and (not parent or parent in self.places):
                    line = Line(key, parent, 0, entry.value["part_number"], quantity=Decimal(1))
                    self.places[key] = Place(key, parent, "part", 0, line, added=True)

    # -- ways through the tree ---------------------------------------------------------------------

    def above(self, key: str) -> list[str]:
        """Places above one, the nearest first."""
        found = []
        while key in self.places and self.places[key].parent:
            key = self.places[key].parent
            found.append(key)
        return found

    def beneath(self, key: str) -> list[str]:
        """All places beneath one."""
        return [each for each in self.places if key in self.above(each)]

    def here_and_beneath(self, keys: list[str]) -> list[str]:
        """These places and all beneath them, each once."""
        return [each for each in self.places if each in keys or any(one in keys for one in self.above(each))]

    def others_of_its_line(self, key: str) -> list[str]:
        """Other places of a place's line; an added place is its own line."""
        line = self.places[key].line.position
        return [each.key for each in self.places.values() if each.key != key and each.line.position == line]

    def as_beneath(self, other: str, key: str, place: str) -> str:
        """The place that lies beneath another one as this does beneath `place`, by the same steps; or none."""
        like = other + key.removeprefix(place)
        if key not in self.beneath(place) or like not in self.beneath(other):
            return ""
        same_line = self.places[like].line.position == self.places[key].line.position
        return like if same_line else ""

    def named_in_order(self, key: str) -> list[str]:
        """What a place's line's `fit_after` names, one step."""
        return [] if self.places[key].added else list(self.bill.closes_over(key))

    def closes_over(self, key: str) -> list[str]:
        """ "A place closes over what its line's `fit_after` names, and, where that is a consumable or hardware, over
        all that this closes over, and so on."."""
        found: list[str] = []
        todo = self.named_in_order(key)
        while todo:
            one = todo.pop(0)
            if one not in found:
                found.append(one)
                if self.places[one].kind in ("consumable", "hardware"):
                    todo += self.named_in_order(one)
        return found

    def holds(self, key: str) -> list[str]:
        """ "`holds` of a joint are the places named there."."""
        joint = self.places[key].line.joint
        lines = joint.holds if joint and not self.places[key].added else ()
        return [each.key for line in lines for each in self.bill.nearest(key, line)]

    def matched(self, key: str) -> list[str]:
        """Places of the matched set of a place, itself among them; none without a set."""
        return [] if self.places[key].added else [each.key for each in self.bill.matched(key)]

    # -- claims ------------------------------------------------------------------------------------

    def claims(self, part: str) -> list[str]:
        """ "It *claims* a place when an unreplaced fitting on its side (`fit`) names that place."."""
        if part not in self._claims:
            named = {entry.value[1:] for entry in self.told.left(part, "fit") if entry.value}
            self._claims[part] = [key for key in self.places if key in named]
        return self._claims[part]

    def named_at(self, key: str) -> list[str]:
        """What the unreplaced entries on a place's side name: parts, and an empty name for none."""
        if key not in self._named:
            left = self.told.left("@" + key, "filled")
            self._named[key] = sorted({self.told.one(entry.value) if entry.value else "" for entry in left})
        return self._named[key]

    def fitted_at(self, key: str) -> list[str]:
        """Parts that an unreplaced fitting at a place names."""
        return [part for part in self.named_at(key) if part]

    # -- parts -------------------------------------------------------------------------------------

    def out_of(self, part: str) -> str:
        """ "It *came out of* a place when that is what holds of `out_of`."."""
        key = self.told.value(part, "out_of", "")
        return key if key in self.places else ""

    def came_out(self, key: str) -> list[str]:
        """Parts that came out of a place."""
        return [part for part in self.parts if self.out_of(part) == key]

    def seat(self, part: str) -> list[str]:
        """ "Its **seat** is the places it claims (several: all of them ask), else the one it is `meant_for`, else the
        one it came out of."."""
        if claimed := self.claims(part):
            return claimed
        meant = self.told.value(part, "meant_for", "")
        found = meant if meant in self.places else self.out_of(part)
        return [found] if found else []

    def lines(self, part: str) -> list[Line]:
        """ "Its *lines* are the lines of these places, each once, sorted by position; an added place is its own line,
        and of a part there the line it came out of is one too."."""
        found = {self.places[key].line.position: self.places[key].line for key in self.places_of_lines(part)}
        return [found[position] for position in sorted(found)]

    def places_of_lines(self, part: str) -> list[str]:
        """Places whose lines are a part's: its seat, and for an added one the place it came out of."""
        seat, old = self.seat(part), self.out_of(part)
        return [*seat, old] if old and any(self.places[key].added for key in seat) else seat

    def line_names(self, part: str) -> list[str]:
        """Positions of a part's lines, as a release and a concession name them."""
        return [line.position for line in self.lines(part)]

    def origin(self, part: str) -> str:
        """Where a part comes from: "an origin that nobody gave is *as received*"."""
        return str(self.told.value(part, "origin", "as received"))

    def is_new(self, part: str) -> bool:
        """ "It is *new* with origin new or stock."."""
        return self.origin(part) in ("new", "stock")

    def part_number(self, part: str) -> str:
        """ "Its *part number* is the one written down, else that of the line it came out of."."""
        written, key = self.told.value(part, "part_number", ""), self.out_of(part)
        return str(written or (self.places[key].line.part_number if key else ""))

    def is_there_as_received(self, part: str, key: str) -> bool:
        """ "*There as received* at a place: it came out of that very place and its origin is *as received*."."""
        return self.out_of(part) == key and self.origin(part) == "as received"

    def goes_back(self, part: str) -> bool:
        """ "It *goes back* unless it is dispositioned spare, return unrepaired or scrap and claims no place."."""
        return self.told.value(part, "disposition") not in GONE or bool(self.claims(part))

    def is_handed_over(self, part: str) -> bool:
        """Whether more of it was handed over than was given back."""
        return how_many(self.told.all(part, "handed_over")) > how_many(self.told.all(part, "given_back"))

    def is_here(self, name: str) -> bool:
        """Whether this job has a thing or place of this name."""
        if name.startswith("@"):
            return name[1:] in self.places
        return name == "job" or name.startswith("carrier:") or bool(self.told.all(name, "made"))

    def bringing_in(self, part: str) -> list[Record]:
        """The records that brought a part in, one for each of its names; taken back or not."""
        return [each for each in self.makers if self.told.one(each.ent[0]) == part]

    def goes_in_as_one(self, key: str) -> bool:
        """ "**Goes in as one**: parts; assemblies with nothing beneath; assemblies whose line names a route; assemblies
        with a part that came out of them or that an unreplaced fitting on their side names. *Beneath* is meant of the
        bill: what was added on the job makes no assembly another."."""
        place = self.places[key]
        if place.kind != "assembly":
            return place.kind == "part"
        beneath = [each for each in self.beneath(key) if not self.places[each].added]
        return not beneath or bool(place.line.routes or self.came_out(key) or self.fitted_at(key))

    # -- what the bill says of a part ----------------------------------------------------------------

    def came_off(self, part: str) -> bool:
        """Whether "a part.taken_off brought in" this part, under whichever of its names."""
        return any(each.typ == "part.taken_off" and not self.told.takers(each) for each in self.bringing_in(part))

    def number_of_its_line(self, part: str) -> str:
        """ "the part number of a part that goes back and came out of a place of the bill is that line's"; or none."""
        key = self.out_of(part)
        from_the_bill = bool(key) and not self.places[key].added and self.goes_back(part)
        return self.places[key].line.part_number if from_the_bill else ""

    # -- options -----------------------------------------------------------------------------------

    def lacks_option(self, key: str) -> bool:
        """Whether "its line, or a line above it, has an option that the tool lacks"."""
        return self._lacks(key, self.told.value("job", "options", []))

    def opening_lacked_option(self, key: str) -> bool:
        """Whether the opening lacked it already."""
        opening = self.told.opening()
        return self._lacks(key, opening.body["options"] if opening else [])

    def _lacks(self, key: str, options: list[str]) -> bool:
        has = {option.strip().casefold() for option in options}
        for each in [key, *self.above(key)]:
            wanted = {one.strip().casefold() for one in self.places[each].line.option.split(";") if one.strip()}
            if wanted and not wanted & has:
                return True
        return False


def how_many(entries: list[Entry]) -> int:
    """Pieces of hand-overs; "`quantity`: 1 where it is left out"."""
    return sum(entry.value.get("quantity", 1) for entry in entries)
