"""Acts by which a point would be talked away: what lies between readings, words over several places, things recorded
again with other facts, added places, and records that name what never was."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tests.open_points.acts import ORIGINS, PART_NUMBERS
from tests.open_points.afterwards_acts import Afterwards
from tests.open_points.naive_readings import AGAIN, Reading
from tests.open_points.naive_said import RECEIVED
from tests.open_points.tablets import JOB

BLANKS = ("", " ", "3", "3", "3")
NO_DAYS = ("31.12.2020", "never", "2027-02-30", " 2027-01-01")


class TalkedAway(Afterwards):
    """A person who has noticed what an act might take away."""

    # -- between two readings ------------------------------------------------------------------------

    def asked(self) -> list[tuple[str, Reading]]:
        """Readings of parts and at places that are asked for."""
        witness = self.witness()
        of_parts = [(part, each) for part in witness.tool.parts for each in witness.work.part_readings(part)]
        places = [("@" + key, each) for key in witness.tool.places for each in witness.work.place_readings(key)]
        return of_parts + places

    def read_between(self) -> None:
        """A reading is graver, then something is recorded that changes much, little or nothing, then it is good."""
        asked = self.asked()
        if not asked:
            return
        thing, reading = self.rng.choice(asked)
        self.read(thing, reading, self.rng.choice(("reject", "inconclusive")))
        for _ in range(self.rng.choice((1, 1, 2))):
            self.rng.choice((self._move_none, self._fit_again, self._note_again, self.operate, self.renew))()
        self.read(thing, reading, "accept")

    def _move_none(self) -> None:
        place = self.place("hardware")
        if place:
            self.write("hardware.moved", [f"@{place.key}"], put_in=self.rng.choice((0, 0, 1)))

    def _fit_again(self) -> None:
        """A part goes in where it is; now and then the first fitting is taken back before, or it was out between."""
        fitted = self.records("part.fitted")
        if not fitted:
            return
        chosen, kind = self.rng.choice(fitted), self.rng.random()
        if kind < 0.2:
            self.write("record.voided", chosen.ent, record=chosen.ref, why="slip")
        elif kind < 0.4:
            out = self.write("part.taken_out", chosen.ent[:2])
            if kind < 0.3:
                self.write("record.voided", out.ent, record=out.ref, why="slip")
        self.write("part.fitted", chosen.ent[:2])

    def _note_again(self) -> None:
        brought = [each for each in self.records("part.taken_off") if each.body.get("out_of")]
        if brought:
            chosen = self.rng.choice(brought)
            self.write("part.noted", chosen.ent, out_of=chosen.body["out_of"])

    def look_later(self) -> None:
        """A second look, its hours after the first, nearly, or at once; the first one is there or not."""
        asked = [(thing, each) for thing, each in self.asked() if each[2].endswith(AGAIN)]
        if not asked:
            return
        thing, (check, spot, when) = self.rng.choice(asked)
        if self.rng.random() < 0.8:
            self.read(thing, (check, spot, when.removesuffix(AGAIN)), "accept")
        hours = float(self.bill.checks[check].again_h or 0)
        self.tablet.clock.hours += self.rng.choice((hours, hours, hours - 0.01, 0))
        self.read(thing, (check, spot, when), "accept")

    # -- several places, one record ------------------------------------------------------------------

    def speak_of_two(self) -> None:
        """One record about two places or three; it is taken back, and perhaps said again of one; or accepted of one."""
        kind = self.rng.choice(("configuration.received", "configuration.received", "joint.opened", "check.read"))
        sorts = ("hardware",) if kind == "joint.opened" else ("part", "assembly", "hardware")
        keys = [each.key for each in self.places if each.line.kind in sorts]
        ent = [f"@{key}" for key in self.rng.sample(keys, min(len(keys), self.rng.choice((2, 2, 3))))]
        if not ent:
            return
        body: dict[str, Any] = {"configuration.received": {"as": self.rng.choice(sorted(RECEIVED)), "why": "seen"}}
        body |= {"check.read": {"check": "seat", "when": "fitted", "verdict": "reject"}}
        said = self.write(kind, ent, **body.get(kind, {}))
        if self.rng.random() < 0.5:
            self.write("record.voided", said.ent, record=said.ref, why="slip")
            if self.rng.random() < 0.5:
                self.write(kind, self.rng.choice((ent, ent[:1])), **body.get(kind, {}))
        waiting = [each for each in self.witness().points() if each.key.startswith("to be accepted") and each.position]
        if waiting and self.rng.random() < 0.6:
            self.concede(self.rng.choice(waiting))

    def amend_away(self) -> None:
        """An option is amended away, and of its places a word is said, which somebody may accept."""
        optional = [each for each in self.places if each.line.option]
        self.write("job.amended", ["job"], options=self.rng.choice(([], [], ["drain"])), why="by mistake")
        if optional:
            key, word = self.rng.choice(optional).key, self.rng.choice(("not on this tool", "left fitted"))
            said = self.write("configuration.received", [f"@{key}"], **{"as": word, "why": "seen"})
            for each in [one for one in self.witness().points() if one.key.endswith(f"|{said.ref}")]:
                self.concede(each)

    # -- recorded again, said first ------------------------------------------------------------------

    def bring_in_again(self) -> None:
        """What brought a part in is taken back and recorded again: alike, or with another fact, kind or label."""
        made = [each for each in self.records("part.taken_off", "part.brought_in") if each.ent]
        if not made:
            return
        chosen = self.rng.choice(made)
        self.write("record.voided", chosen.ent, record=chosen.ref, why="slip")
        body = dict(chosen.body)
        fact = self.rng.choice(("origin", "owner", "part_number", "set_mark", "", "", ""))
        if fact:
            words = {"origin": ORIGINS, "owner": ("customer", "other job"), "part_number": PART_NUMBERS}
            body[fact] = self.rng.choice(words.get(fact, ("I", "II")))
        typ = "part.brought_in" if self.rng.random() < 0.2 else chosen.typ
        body |= {"origin": "new", "part_number": "P1"} if typ == "part.brought_in" != chosen.typ else {}
        self.write(typ, [self.tablet.thing()], **body)

    def add_again(self) -> None:
        """Hardware is added, taken back, and perhaps added again: as many, fewer, or elsewhere."""
        place, other = self.place("hardware"), self.place("hardware")
        if place and other:
            added = self.write("hardware.moved", [f"@{place.key}"], added=2, **self.rng.choice(({}, {"put_in": 2})))
            self.write("record.voided", added.ent, record=added.ref, why="slip")
            if self.rng.random() < 0.6:
                key = self.rng.choice((place.key, place.key, other.key))
                self.write("hardware.moved", [f"@{key}"], added=self.rng.choice((1, 2, 3)))

    def come_off_repaired(self) -> None:
        """A part comes off and is said to be repaired at once, or to have another number; or another tablet's word of
        it is joined to it."""
        place = self.place("part", "assembly")
        if place:
            said = self.rng.choice(({"origin": "repaired"}, {"part_number": self.rng.choice(PART_NUMBERS)}))
            part = self.write("part.taken_off", [self.tablet.thing()], out_of=place.key, **said).ent[0]
            if self.rng.random() < 0.3:
                self.write("part.same_as", [part, self.part()])

    def add_beneath(self) -> None:
        """A place is added, beneath what has nothing beneath it too, and a part is meant for it or goes in."""
        parents = ["", *(each.key for each in self.places if each.line.kind == "assembly")]
        parent = self.rng.choice(parents)
        key = f"{parent}.+{self.rng.choice('XYZ')}".removeprefix(".")
        body = {"parent": parent, "part_number": self.rng.choice(PART_NUMBERS), "description": "", "number": "1"}
        self.write("line.added", [f"@{key}"], **body)
        part = self.part()
        self.write("part.noted", [part], meant_for=key)
        if self.rng.random() < 0.5:
            self.make_ready(part)
            self.fit(part, key)

    # -- what is blank, or never was -----------------------------------------------------------------

    def write_blanks(self) -> None:
        """A bath, a serial or an expiry is typed as nothing, or as something that it is not."""
        part, place = self.part(), self.place("consumable")
        values: dict[str, Any] = {"bath": self.rng.choice((*BLANKS, None))}
        began = self.rng.choice(({}, {"began": "2026-03-02T08:00:00+01:00"}, {"began": "08:00"}, {"began": ""}))
        body = {"route": "clean", "operation": "degrease", "pass": 1}
        self.write("operation.done", [part], **body, values=values, **began)
        self.write("part.noted", [part], written={"serial": self.rng.choice((*BLANKS, None))})
        if place and self.rng.random() < 0.5:
            expiry = self.rng.choice((*NO_DAYS, "2027-01-01"))
            self.write("consumable.renewed", [f"@{place.key}"], **{"as": "renewed", "lot": "7", "expiry": expiry})

    def name_what_never_was(self) -> None:
        """A form says that it knew a record that nobody wrote: far beyond the last, or another one of that number."""
        now = self.tablet.vector(JOB)
        named = self.rng.choice([*sorted(now), "nobody~0"])
        last = now.get(named, (0, ""))[0]
        now[named] = (max(1, last + self.rng.choice((0, 0, 2, 10**9))), "00000000")
        self.tablet.write(self.by, "thing.put", (self.part(),), {"place": "RACK 1"}, seen=now)


ACTS: dict[Callable[[TalkedAway], Any], int] = {
    TalkedAway.read_between: 4, TalkedAway.look_later: 3, TalkedAway.speak_of_two: 4, TalkedAway.amend_away: 2,
    TalkedAway.bring_in_again: 3, TalkedAway.add_again: 2, TalkedAway.come_off_repaired: 2, TalkedAway.add_beneath: 2,
    TalkedAway.write_blanks: 2, TalkedAway.name_what_never_was: 1,
}  # fmt: skip
