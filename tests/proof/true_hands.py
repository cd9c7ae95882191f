"""Hands at the true tool. Whatever they do they record as it was; a lying hand says what is not so besides: in scope
words, notes, lower counts, losses, labels, takings back. What clears a point is recorded only when it was done."""

from __future__ import annotations

from random import Random
from typing import Any

from teardown_app.domain.ledger.record import Record
from tests.open_points.tablets import JOB, Tablet
from tests.proof.honest import FOR_EVER, Honest
from tests.proof.small_tool import TOOL
from tests.proof.true_tool import PLACES, SCREWS, Piece, TrueTool

WORDS = ("not on this tool", "out of scope", "left fitted", "not received")
LABELS = ("P7K3M0001A", "P7K3M0002C")


class Worker(Honest):
    """An honest hand at one tablet."""

    def __init__(self, tool: TrueTool, tablet: Tablet, rng: Random, by: str = "RR") -> None:
        super().__init__(tablet, TOOL, by)
        self.tool, self.rng = tool, rng

    # -- parts -----------------------------------------------------------------------------------------

    def name(self, piece: Piece) -> str:
        """What this tablet calls a piece; '' where it has not heard of it, or that was taken back."""
        told, parts = self.witness.told, self.witness.tool.parts
        return next((each for each in piece.called if told.one(each) in parts), "")

    def take_out(self, key: str) -> None:
        """What is in a place comes out, and gets a name where it has none here."""
        piece = self.tool.out(key)
        if piece is None:
            return
        if self.name(piece):
            self.say("part.taken_out", self.name(piece), f"@{key}")
        else:
            record = self.say("part.taken_off", self.tablet.thing(), out_of=key)
            piece.called.append(record.ent[0])

    def put_in(self, key: str) -> None:
        """A piece of the right number, or now and then of another, that lies about goes into an empty place."""
        loose = [each for each in self.tool.pieces if not self.tool.where(each) and not each.gone and self.name(each)]
        right = [each for each in loose if each.number == PLACES[key]]
        if self.tool.inside[key] is None and (right or loose):
            piece = self.rng.choice(right or loose)
            self.tool.into(key, piece)
            self.say("part.fitted", self.name(piece), f"@{key}")

    def bring(self, key: str) -> Piece:
        """A new piece comes in."""
        piece = self.tool.new_piece(key)
        body = {"origin": "new", "part_number": PLACES[key], "meant_for": key}
        piece.called.append(self.say("part.brought_in", self.tablet.thing(), **body).ent[0])
        return piece

    def wash(self, piece: Piece) -> None:
        """Degreased and dried; what was measured before counts no more."""
        piece.washed, piece.measured = True, set()
        for operation in ("degrease", "dry"):
            body = {"route": "wash", "operation": operation, "pass": 1, "began": "2026-03-02T08:00:00+01:00"}
            self.say("operation.done", self.name(piece), values={"bath": "3"}, **body)

    def measure(self, piece: Piece, check: str) -> None:
        """It is read, and what was read is recorded."""
        good = piece.straight or check != "runout"
        piece.measured |= {check} if good else set()
        self.read_as(self.name(piece), check, "finished", "accept" if good else "reject")

    def read_as(self, thing: str, check: str, when: str, verdict: str) -> Record:
        """A reading is recorded."""
        return self.say("check.read", thing, check=check, when=when, verdict=verdict)

    # -- screws, ring, bracket, unit -------------------------------------------------------------------

    def unscrew(self, key: str) -> None:
        """A joint is opened, its screws come out, and those found are counted; by who knows that they were in. Where
        no torque is asked, that it was opened says already that they are to be put in again."""
        if self.tool.screws[key] and self.recorded(key, "put_in") == self.tool.put[key]:
            self.tool.unscrewed(key, self.rng.choice((0, 0, 1)))
            self.say("joint.opened", f"@{key}")
            if there := self.recorded(key, "put_in"):
                self.say("hardware.moved", f"@{key}", put_in=-there)
            self.say("hardware.counted", f"@{key}", found=self.found(key))

    def found(self, key: str) -> int:
        """Of the tool's own screws, those that somebody can see."""
        return SCREWS[key] - self.tool.lost[key]

    def recorded(self, key: str, fact: str) -> int:
        """A sum as this tablet knows it; of screws put in only those that count."""
        if fact == "put_in":
            return self.witness.hardware.put_in([f"@{key}"])
        return sum(entry.value for entry in self.witness.told.all(f"@{key}", fact))

    def screw_in(self, key: str) -> None:
        """As many as belong there and are at hand; what is short comes from the drawer."""
        lacking = SCREWS[key] - self.tool.screws[key]
        if self.recorded(key, "put_in") != self.tool.put[key] and self.by == "RR":
            return
        if short := max(0, lacking - self.tool.bag[key]):
            self.tool.bag[key] += short
            self.tool.added[key] += short
            self.say("hardware.moved", f"@{key}", added=short)
        if lacking:
            self.tool.screwed(key, lacking)
            self.say("hardware.moved", f"@{key}", put_in=lacking)

    def tighten(self) -> None:
        """The lid's screws, pass after pass."""
        if self.tool.screws["10.40"] == SCREWS["10.40"] and self.tool.inside["10.30"]:
            self.tool.tight = True
            for name, value in (("50", "3"), ("100", "6")):  # 6 N m, as the small tool's bill has it
                torque = {"text": value, "unit": "N m"}
                self.say("joint.torqued", "@10.40", pass_=name, screws=SCREWS["10.40"], torque=torque)

    def renew(self) -> None:
        """The ring, which lies beneath the lid."""
        if self.tool.inside["10.30"] is None:
            self.tool.ring, self.tool.tested = "new", False
            self.say("consumable.renewed", "@10.20", as_="renewed", lot="7", expiry=FOR_EVER)

    def test(self) -> None:
        """The unit is tested for leaks: it is tight when its ring is, its lid, and nothing lacks."""
        tool = self.tool
        good = tool.tight and tool.ring != "opened" and all(tool.inside[key] for key in ("10.10", "10.30"))
        tool.tested = tool.tested or bool(good)
        self.read_as("@10", "leak", "fitted", "accept" if good else "reject")

    def bracket(self, word: str) -> None:
        """The bracket goes in or out."""
        self.tool.bracket = word
        self.say(f"temporary.{word}", "@40")

    # -- some work ---------------------------------------------------------------------------------------

    def works(self) -> None:
        """One deed, as it comes."""
        key, screws = self.rng.choice(list(PLACES)), self.rng.choice(list(SCREWS))
        loose = [each for each in self.tool.pieces if self.name(each) and not self.tool.where(each)]
        deeds: list[Any] = [
            lambda: self.take_out(key), lambda: self.put_in(key), lambda: self.unscrew(screws),
            lambda: self.screw_in(screws), self.tighten, self.renew, self.test,
            lambda: self.bracket(self.rng.choice(("in", "out"))),
        ]  # fmt: skip
        if loose:
            piece = self.rng.choice(loose)
            deeds += [lambda: self.wash(piece), lambda: self.measure(piece, "runout"), lambda: self.release(piece)]
        self.rng.choice(deeds)()

    def release(self, piece: Piece) -> None:
        """Somebody with the right releases what the records say of it."""
        part, self.by = self.name(piece), "AA"
        self.say("disposition.given", part, as_="use as is")
        part = self.witness.told.one(part)
        self.say("part.released", part, covers={part: []}, lines={part: self.witness.tool.line_names(part)})
        self.by = "RR"


class Liar(Worker):
    """A hand that says what is not so, with the right *record* alone."""

    def lies(self) -> None:
        """One lie."""
        self.by = "RR"
        lies: list[Any] = [
            self.word,
            self.note,
            self.join,
            self.cover,
            self.good_again,
            self.lower,
            self.lose,
            self.label,
        ]
        before = len(self.tablet.own(JOB))
        self.rng.choice([*lies, self.take_back, self.take_back, self.undo, self.undo, self.undo])()
        self.tool.lied |= {each.ref for each in self.tablet.own(JOB)[before:]}

    def word(self) -> None:
        """A place is not on this tool."""
        key = self.rng.choice(("10", *PLACES, *SCREWS, "10.20", "40"))
        self.say("configuration.received", f"@{key}", as_=self.rng.choice(WORDS), why="seen")

    def part(self) -> str:
        """Some part that this tablet knows."""
        known = [self.name(each) for each in self.tool.pieces if self.name(each)]
        return self.rng.choice(known) if known else ""

    def note(self) -> None:
        """A fact of a part is another."""
        facts: list[dict[str, Any]] = [
            {"origin": "repaired"}, {"origin": "new"}, {"part_number": "PN-P"}, {"part_number": "PN-10.10"},
            {"out_of": self.rng.choice(list(PLACES))}, {"meant_for": self.rng.choice(list(PLACES))},
            {"owner": "customer"}, {"set_mark": "I"}, {"written": {"serial": "8"}},
        ]  # fmt: skip
        if self.part():
            self.say("part.noted", self.part(), **self.rng.choice(facts))

    def join(self) -> None:
        """Two parts are one."""
        one, other = self.part(), self.part()
        if one and one != other:
            self.say("part.same_as", one, other)

    def cover(self) -> None:
        """A finding is covered by the order."""
        if self.part():
            self.say("finding.noted", self.part(), word="worn", cause="wear", covered=True)

    def good_again(self) -> None:
        """What was read as bad, and is as it was, is good."""
        last = self.tablet.own(JOB)[-1:]
        if last and last[0].typ == "check.read" and last[0].body["verdict"] == "reject":
            self.read_as(last[0].ent[0], last[0].body["check"], last[0].body["when"], "accept")

    def lower(self) -> None:
        """Fewer were found, or they were of a larger bag."""
        key = self.rng.choice(list(SCREWS))
        names = self.rng.choice(([f"@{key}"], [f"@{each}" for each in SCREWS]))
        found = [each.body["found"] for each in self.tablet.view(JOB) if each.typ == "hardware.counted"]
        self.say("hardware.counted", *names, found=max(0, min(found, default=0) - self.rng.choice((0, 1))))

    def lose(self) -> None:
        """One was lost."""
        body = {self.rng.choice(("lost", "found_short")): 1, "search": "drip tray"}
        self.say("hardware.moved", f"@{self.rng.choice(list(SCREWS))}", **body)

    def label(self) -> None:
        """A label that is on another part too."""
        if self.part():
            self.say("part.tagged", self.part(), number=self.rng.choice(LABELS))

    def take_back(self) -> None:
        """What was so is taken back."""
        there = [each for each in self.tablet.view(JOB) if each.typ != "job.opened"]
        if there:
            record = self.rng.choice(there[-15:])
            self.say("record.voided", *record.ent, record=record.ref, why="slip")

    def undo(self) -> None:
        """Something is done and recorded, and some or all of it taken back at once."""
        before = len(self.tablet.own(JOB))
        self.works()
        self.by = "RR"
        for record in self.tablet.own(JOB)[before:]:
            if self.rng.random() < 0.8 and record.typ != "temporary.out":
                self.say("record.voided", *record.ent, record=record.ref, why="slip")
