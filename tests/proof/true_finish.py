"""The shop finishes the job: about each point it does what really has to be done, or somebody agrees to it."""

from __future__ import annotations

from tests.open_points.naive import Seen
from tests.proof.clearing import CLEARS, clear
from tests.proof.true_hands import Worker
from tests.proof.true_tool import PLACES, SCREWS, Piece

ROUNDS = 25
"""After so many looks at the list a job that is still open is taken for stuck: our own figure."""
BY_RECORDS = (
    "two different entries", "label of two parts", "approval waiting", "sign again", "hold",
    "record by someone without the right",
)  # fmt: skip
"""Points that are about records alone."""


class Shop(Worker):
    """Somebody with all rights who looks at the true tool, and agrees to a share of what is open."""

    agrees: float = 0.3

    def finish(self) -> None:
        """All that is open is done or agreed to; then the job is signed and closed."""
        self.works_off()
        self.by = "AA"
        self.close()

    def works_off(self) -> None:
        """Round after round, some of what is open."""
        for _ in range(ROUNDS):
            todo = sorted(self.points(), key=lambda each: each.position == "10")
            if not todo:
                break
            for each in todo[:1] if len(todo) < 3 else todo[:: len(todo) // 2]:
                self.by = "AA"
                self.does(each)

    def does(self, seen: Seen) -> None:
        """One point is done or agreed to, though another record may have cleared it meanwhile."""
        kind, subject, which = seen.key.split("|")
        record = self.witness.told.records.get(which)
        if kind == "to be accepted" and record and record.typ != "record.voided" and self._is_not_so(which):
            self.say("record.voided", *record.ent, record=which, why="not so", reference="A-1")
        elif kind in ("to be accepted", "record kept that does not fit"):
            self.concede(seen)
        elif kind in BY_RECORDS:
            clear(self, seen.key)
        elif not seen.never and self.rng.random() < self.agrees:
            self.concede(seen)
        else:
            self._repairs(kind, subject, which)

    def _is_not_so(self, which: str) -> bool:
        """Whether a record is a lie, and he does not agree to it."""
        return which in self.tool.lied and self.rng.random() > self.agrees

    def _repairs(self, kind: str, subject: str, which: str) -> None:
        if kind in ("missing", "fitted over an empty position"):
            self._fills(which or subject)
        elif kind == "fitted twice" or kind in ("wrong component", "swapped within a matched set"):
            self._looks_where_they_are()
        elif kind == "hardware does not balance":
            self._balances(subject)
        elif kind == "joint not torqued or due again":
            self._tightens()
        elif kind == "consumable not renewed or expired":
            self._renews()
        elif kind == "temporary in or out wrongly":
            for word in ("out", "in"):
                self.bracket(word)
        elif kind == "check due":
            self._checks(subject, which)
        elif kind in ("not released", "tagged but unaccounted for", "foreign piece"):
            self._part(subject)
        elif kind in CLEARS:
            clear(self, f"{kind}|{subject}|{which}")

    # -- looking ---------------------------------------------------------------------------------------

    def piece(self, part: str) -> Piece | None:
        """The piece that records call so."""
        names = self.witness.told.names(part)
        return next((each for each in self.tool.pieces if names & set(each.called)), None)

    def _looks_where_they_are(self) -> None:
        """What records say of places is made to agree with what is in them; what is of the wrong number comes out."""
        for key, there in self.tool.inside.items():
            for part in self.witness.tool.fitted_at(key):
                if there is None or self.piece(part) is not there:
                    self.say("part.taken_out", part, f"@{key}")
            if there is not None and there.number != PLACES[key]:
                self.take_out(key)
            elif there is not None and self.name(there):
                self.say("part.fitted", self.name(there), f"@{key}")

    def _fills(self, key: str) -> None:
        """A good piece goes in: the one that is there, or that came out, or a new one."""
        if key not in PLACES:
            return
        if self.tool.inside[key]:
            self.take_out(key)
        if key == "10.10" and self.tool.inside["10.30"]:
            self.take_out("10.30")
        lying = [each for each in self.tool.pieces if not self.tool.where(each) and not each.gone and self.name(each)]
        good = [each for each in lying if each.number == PLACES[key] and each.straight]
        piece = good[0] if good else self.bring(key)
        self.tool.into(key, piece)
        self.say("part.fitted", self.name(piece), f"@{key}")

    def _part(self, part: str) -> None:
        """A part is made ready and released where it is in, else it goes away."""
        piece = self.piece(part)
        if piece is None or not self.tool.where(piece):
            self._goes_away(piece, part)
            return
        if part not in self.witness.tool.claims(part):
            self._looks_where_they_are()
        if piece.number == PLACES["10.10"] and self.witness.work.lacks(part, lambda *key: True)[0]:
            self.wash(piece)
            self.say("part.noted", part, written={"serial": "7"})
        for check, _, _ in self.witness.work.part_readings(part):
            self.measure(piece, check)
        self.say("disposition.given", part, as_="use as is")
        part = self.witness.told.one(part)
        self.say("part.released", part, covers={part: []}, lines={part: self.witness.tool.line_names(part)})

    def _goes_away(self, piece: Piece | None, part: str) -> None:
        """A part that lies about, or is bad, goes back to its owner as it is."""
        if piece is not None:
            piece.gone = True
            if self.tool.where(piece):
                self.take_out(self.tool.where(piece))
        CLEARS["tagged but unaccounted for"](self, part, "")

    def _checks(self, subject: str, which: str) -> None:
        _, check, _, _ = which.split("/")
        if subject == "10":
            self.test()
        elif piece := self.piece(subject):
            self.measure(piece, check)
            if not piece.straight:
                self._goes_away(piece, subject)

    # -- screws, ring ----------------------------------------------------------------------------------

    def _balances(self, key: str) -> None:
        """The place is filled, the lost is found or searched for in vain, and all is written as it is."""
        if self.tool.lost[key] and self.rng.random() < 0.5:
            self.tool.bag[key] += self.tool.lost[key]
            self.tool.lost[key] = 0
            self.tool.moved(key)
        if self.tool.screws[key] != SCREWS[key]:
            self.screw_in(key)
        bag = [name[1:] for name in self.witness.hardware.bag("@" + key)]
        self.say("hardware.counted", *(f"@{each}" for each in bag), found=sum(self.found(each) for each in bag))
        for each in bag:
            self._writes_sums(each)

    def _writes_sums(self, key: str) -> None:
        """Every sum is brought to what is so; a loss that is none is taken back."""
        real = {"put_in": self.tool.screws[key], "added": self.tool.added[key], "left_over": self.tool.bag[key]}
        for fact, count in real.items():
            more = count - self.recorded(key, fact)
            if more > 0 or (more < 0 and fact != "left_over"):
                self.say("hardware.moved", f"@{key}", **{fact: more}, why="so it is")
        for entry in self._too_much(key):
            self.say("record.voided", f"@{key}", record=entry, why="not so", reference="A-1")
        short = self.tool.lost[key] - self.recorded(key, "lost") - self.recorded(key, "found_short")
        if short > 0:
            self.say("hardware.moved", f"@{key}", lost=short, search="drip tray, twice", reference="A-1")

    def _too_much(self, key: str) -> list[str]:
        """Records of losses, and of what was left over, where more was said than is so."""
        told, found = self.witness.told, list[str]()
        for facts, real in ((("lost", "found_short"), self.tool.lost[key]), (("left_over",), self.tool.bag[key])):
            entries = [each for fact in facts for each in told.all(f"@{key}", fact)]
            if sum(each.value for each in entries) > real:
                found += [each.record.ref for each in entries if each.value]
        return found

    def _tightens(self) -> None:
        if self.tool.inside["10.30"] is None:
            self._fills("10.30")
        if self.tool.screws["10.40"] != SCREWS["10.40"]:
            self._balances("10.40")
        self.tighten()

    def _renews(self) -> None:
        """The lid comes out, the ring is renewed, the lid goes in."""
        if self.tool.inside["10.30"]:
            self.take_out("10.30")
        self.renew()
        self._fills("10.30")


def shop_of(worker: Worker, agrees: float) -> Shop:
    """The one who finishes on this tablet."""
    found = Shop(worker.tool, worker.tablet, worker.rng, by="AA")
    found.agrees = agrees
    return found
