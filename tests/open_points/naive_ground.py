"""Witness: what touches a place, what opens it, what is in scope, and the grounds of verdicts.

Written from `docs/formats/open-points.md` (sections 1 and 2) alone.
"""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_back import Back, Lying
from tests.open_points.naive_entries import Entry
from tests.open_points.naive_said import SCOPE
from tests.open_points.naive_tool import Tool
from tests.open_points.naive_unit import Units

SEATED = ("part.fitted", "part.taken_out")


class Ground:
    """Records about places, as they lie on grounds."""

    def __init__(self, tool: Tool, back: Back) -> None:
        self.tool, self.told, self.back, self.units = tool, tool.told, back, Units(tool, back)
        self._scope: dict[str, str] = {}
        self._coming_off: dict[str, list[Lying]] = {}

    def lying(self, candidates: Iterable[Lying]) -> list[Lying]:
        """Those that lie on a ground: with effect, or taken back and that not accepted; each once."""
        found: list[Lying] = []
        for record, thing in candidates:
            if self.back.lies(record, thing) and all(record != other for other, _ in found):
                found.append((record, thing))
        return found

    def about(self, kinds: tuple[str, ...], keys: Iterable[str], *fields: str) -> list[Lying]:
        """Records of these kinds about these places, with one of these fields where any are named."""
        things = {"@" + key for key in keys}
        return [
            (each, thing)
            for each in self.told.written
            if each.typ in kinds and (not fields or any(one in each.body for one in fields))
            for thing in sorted(things & set(each.ent))
        ]

    # -- coming off, openings ------------------------------------------------------------------------

    def coming_off(self, keys: Iterable[str]) -> list[Lying]:
        """Of any of these places."""
        return [each for key in keys for each in self._coming_off_at(key)]

    def _coming_off_at(self, key: str) -> list[Lying]:
        """ "*Coming off* at a place: part.taken_off, part.brought_in or part.noted with it as `out_of`; part.taken_out
        there; a part.fitted there that was taken back, until that is accepted."."""
        if key in self._coming_off:
            return self._coming_off[key]
        found: list[Lying] = []
        for each in self.told.written:
            if each.typ in ("part.taken_off", "part.brought_in", "part.noted") and each.body.get("out_of") == key:
                found += [(each, thing) for thing in each.ent]
            if each.typ == "part.taken_out" and each.ent[1] == "@" + key:
                found.append((each, ""))
            if each.typ == "part.fitted" and each.ent[1] == "@" + key and self.told.takers(each):
                found.append((each, ""))
        self._coming_off[key] = found
        return found

    def openings(self, key: str) -> list[Lying]:
        """ "**Openings that reach a consumable** of the bill."."""
        tool = self.tool
        near = [*tool.named_in_order(key), *tool.bill.closed_by(key)]
        near += [held for one in near if tool.places[one].kind == "hardware" for held in tool.holds(one)]
        if not any(tool.places[one].kind in ("part", "assembly") for one in near):
            beside = [each.key for each in tool.places.values() if each.parent == tool.places[key].parent]
            near += [one for one in beside if tool.places[one].kind in ("part", "assembly")]
        joints = [
            each.key
            for each in tool.places.values()
            if each.kind == "hardware"
            and (each.key in near or key in tool.holds(each.key) or key in tool.closes_over(each.key))
        ]
        return self.coming_off(near) + self._opened(joints)

    def _opened(self, keys: list[str]) -> list[Lying]:
        """ "joint.opened or hardware.moved with `put_in` below zero (or above zero and taken back, until that is
        accepted)"."""
        moved = [
            (each, thing)
            for each, thing in self.about(("hardware.moved",), keys, "put_in")
            if each.body["put_in"] < 0 or (each.body["put_in"] > 0 and self.told.takers(each))
        ]
        return self.about(("joint.opened",), keys) + moved

    def sat_there(self, fitting: Record) -> bool:
        """ "A part *sat there* when an earlier fitting of it at that place was seen by the fitting's author, and no
        part.taken_out of it, seen by him too, had seen that one." A fitting that was taken back is one all the same:
        else fitting, taking back and fitting would change something."""
        names, saw = self.told.names(fitting.ent[0]), self.told.saw
        mine = [e for e in self.told.written if e.typ in SEATED and e.ent[0] in names and saw(fitting, e)]
        outs = [e for e in mine if e.typ == "part.taken_out" and not self.told.takers(e)]
        earlier = [each for each in mine if each.typ == "part.fitted" and each.ent[1] == fitting.ent[1]]
        return any(not any(saw(out, each) for out in outs) for each in earlier)

    # -- touched -------------------------------------------------------------------------------------

    def touching(self, key: str) -> list[Record]:
        """The table **Touched**: records that say "that something was there"."""
        return [record for record, _ in self.lying(self.may_touch(key))]

    def may_touch(self, key: str) -> list[Lying]:
        """The same, whether or not they still lie there."""
        kind = self.tool.places[key].kind
        if kind in ("part", "assembly"):
            bringing = ("part.taken_off", "part.brought_in", "part.noted")
            named = [each for each in self.told.written if each.typ in bringing and each.body.get("out_of") == key]
            return [(each, thing) for each in named for thing in each.ent] + self.about(SEATED, [key])
        if kind == "hardware":
            counted = ("hardware.counted", "hardware.moved", "joint.opened", "joint.torqued")
            goods = ("goods.taken_over", "goods.handed_over")
            return self.about((*counted, *goods), [key]) + self.coming_off(self._held(key))
        if kind == "consumable":
            return self.about(("consumable.renewed",), [key]) + self.openings(key)
        return self.about(("temporary.in", "temporary.out"), [key])

    def is_touched(self, key: str) -> bool:
        """Whether anything touches a place. "For the word *came with the unit* a place is touched only by what the
        fitting's author had not seen", where no other word counts."""
        words = self.words(key)
        if not words or any(entry.value["as"] != "came with the unit" for entry in words):
            return bool(self.touching(key))
        return any(self.is_touched_since(key, entry) for entry in words)

    def is_touched_since(self, key: str, word: Entry) -> bool:
        """Whether anything touches a place that a word's author had not seen, the word left out."""
        return any(each != word.record and not self.told.saw(word.record, each) for each in self.touching(key))

    # -- scope ---------------------------------------------------------------------------------------

    def scope_entries(self, key: str, *, gone: bool = False) -> list[Entry]:
        """Scope words written to a place and above it. "Words do not reach temporary places."."""
        if self.tool.places[key].kind == "temporary":
            return []
        names = {"@" + each for each in [key, *self.tool.above(key)]}
        entries = self.told.gone if gone else self.told.entries
        return [entry for entry in entries if entry.fact == "scope" and entry.name in names]

    def words(self, key: str) -> list[Entry]:
        """ "of all words on a place and above it those count that no other one replaced"."""
        there, gone = self.scope_entries(key), self.scope_entries(key, gone=True)
        return self.told.unreplaced(there, gone, lambda later, earlier: self.told.saw(later.record, earlier.record))

    def scope(self, key: str) -> str:
        """in, left or out: "**In scope** is a place that is touched", and so on."""
        if key not in self._scope:
            self._scope[key] = self._scope_of(key)
        return self._scope[key]

    def is_out_by_option(self, key: str) -> bool:
        """ "Untouched, whoever had seen what touches it, it is *out* when its line, or a line above it, has an option
        that the tool lacks"."""
        return self.tool.lacks_option(key) and not self.touching(key)

    def _scope_of(self, key: str) -> str:
        """ "else, untouched as far as its word asks, it is in scope when nothing counts that was said", and so on."""
        if self.is_out_by_option(key):
            return "out"
        if self.is_touched(key):
            return "in"
        words = self.words(key)
        counts = {SCOPE[entry.value["as"]] for entry in words}
        if not words or "in" in counts:
            return "in"
        if "left" not in counts:
            return "out"
        left = [entry for entry in words if SCOPE[entry.value["as"]] == "left"]
        return "left" if all(self.left_holds(key, entry) for entry in left) else "in"

    def in_scope(self, key: str) -> bool:
        """Whether this place is asked for."""
        return self.scope(key) == "in"

    def left_holds(self, key: str, word: Entry) -> bool:
        """ "**Left holds** for a place P while the unit that was there when it was said is in the tool. It holds while
        no unreplaced fitting at A names a part (then A itself is missing), or while the unit fills A. It holds also
        while another part V fills A that took along what was left in it"."""
        place, units = self._place_and_units(key, word)
        if place not in self.tool.places or not self.tool.fitted_at(place):
            return True
        filler = self.units.filler(place)
        return filler is not None and (filler in units or self._took_along(key, place, filler))

    def _place_and_units(self, key: str, word: Entry) -> tuple[str, set[str]]:
        """A, "the nearest place above P that any part came out of or that an unreplaced fitting names"; none where it
        is not there; and the unit, "the part that claimed A as far as the word's author had seen, else a part that came
        out of A". "*Came with the unit*: A is the place of the fitting, the unit its part."."""
        if word.value["as"] == "came with the unit":
            return word.record.ent[1].removeprefix("@"), {self.told.one(word.record.ent[0])}
        near = [each for each in self.tool.above(key) if self.tool.came_out(each) or self.tool.fitted_at(each)]
        if not near:
            return "", set()
        seen = [e for e in self.told.all("@" + near[0], "filled") if self.told.saw(word.record, e.record)]
        last = [one for one in seen if not any(self.told.saw(other.record, one.record) for other in seen)]
        units = {self.told.one(entry.value) for entry in last if entry.value}
        return near[0], units or set(self.tool.came_out(near[0]))

    def _took_along(self, key: str, place: str, unit: str) -> bool:
        """ "at the place that lies beneath another place A' of A's line as P does beneath A (the same steps), a *left*
        or *came with the unit* with A' and V as its place and unit counts, no other one replaced it, and that place is
        untouched"."""
        for other in self.tool.others_of_its_line(place):
            like = self.tool.as_beneath(other, key, place)
            if not like or self.is_touched(like):
                continue
            left = [word for word in self.words(like) if SCOPE[word.value["as"]] == "left"]
            found = [self._place_and_units(like, word) for word in left]
            if any(where == other and unit in units for where, units in found):
                return True
        return False

    # -- grounds of the table ------------------------------------------------------------------------

    def of_reading_at(self, key: str) -> list[Lying]:
        """ "part.fitted, part.taken_out and coming off there and beneath; consumable.renewed, joint.opened,
        hardware.moved with `put_in`, there and beneath"."""
        keys = self.tool.here_and_beneath([key])
        found = self.about((*SEATED, "consumable.renewed", "joint.opened"), keys) + self.coming_off(keys)
        return found + self.about(("hardware.moved",), keys, "put_in")

    def of_renewal(self, key: str) -> list[Lying]:
        """ "openings that reach the place; part.fitted at what it closes over and beneath that"."""
        return self.openings(key) + self.about(("part.fitted",), self.tool.here_and_beneath(self.tool.closes_over(key)))

    def of_torque(self, key: str) -> list[Lying]:
        """ "part.fitted, part.taken_out, coming off, consumable.renewed at what the joint holds or its line closes
        over, and beneath; at its own place hardware.moved with `put_in`, joint.opened"."""
        keys = self._held(key)
        found = self.about((*SEATED, "consumable.renewed"), keys) + self.coming_off(keys)
        return found + self.about(("hardware.moved",), [key], "put_in") + self.about(("joint.opened",), [key])

    def of_put_in(self, key: str) -> list[Lying]:
        """ "every joint.opened about the place, every coming off at what its joint holds or its line closes over, and
        beneath; for what was opened has to be put in again"."""
        return self.about(("joint.opened",), [key]) + self.coming_off(self._held(key))

    def _held(self, key: str) -> list[str]:
        """What the joint of a place holds or its line closes over, and beneath."""
        return self.tool.here_and_beneath([*self.tool.holds(key), *self.tool.closes_over(key)])

    def claims_of(self, key: str) -> list[Lying]:
        """ "*claims of K* are part.fitted and part.taken_out about K or about a part that an unreplaced fitting at K
        names"."""
        parts = {name for part in self.tool.fitted_at(key) for name in self.told.names(part)}
        return [
            (each, "")
            for each in self.told.written
            if each.typ in SEATED and (each.ent[1] == "@" + key or each.ent[0] in parts)
        ]

    def said_of(self, key: str) -> list[Lying]:
        """ "*said of K* are configuration.received about K or above, part.fitted with K or above in `came_with`,
        job.amended with options, and whatever touches K"."""
        keys = {key, *self.tool.above(key)}
        found = self.about(("configuration.received",), keys) + self.may_touch(key)
        for each in self.told.written:
            came_with = each.typ == "part.fitted" and keys & set(each.body.get("came_with", []))
            if came_with or (each.typ == "job.amended" and "options" in each.body):
                found.append((each, ""))
        return found
