"""Acts that come after something was done, signed or released, and what they leave of it."""

from __future__ import annotations

from tests.open_points.acts import Bench


class Afterwards(Bench):
    """A person who goes on with what was thought to be finished."""

    def open_washers(self) -> None:
        """A joint that asks no torque is full; it is opened, now and then as a slip, and its washers go in again: all,
        some, or out first; or nobody thinks of them."""
        places = [each for each in self.places if each.line.kind == "hardware" and not self._asks_torque(each.key)]
        if not places:
            return
        key = self.rng.choice(places).key
        count = self.bill.positions[key].count or 0
        if self.rng.random() < 0.7:
            lacking = count - self.witness().hardware.put_in([f"@{key}"])
            self.write("hardware.counted", [f"@{key}"], found=count)
            self.write("hardware.moved", [f"@{key}"], put_in=lacking)
        opened = self.write("joint.opened", [f"@{key}"])
        if self.rng.random() < 0.25:
            self.write("record.voided", opened.ent, record=opened.ref, why="slip")
        for put in self.rng.choice(((), (count,), (count,), (1,), (-count, count))):
            self.write("hardware.moved", [f"@{key}"], put_in=put)

    def _asks_torque(self, key: str) -> bool:
        joint = self.bill.positions[key].line.joint
        return joint is not None and joint.torque_nm is not None

    def mean_after_signing(self) -> None:
        """Somebody signs for a unit; then a part is said to be meant for it, or to have come out of it, and then for
        elsewhere, or that is taken back."""
        unit, place = self.place("assembly"), self.place("part", "assembly")
        if unit is None or place is None:
            return
        self.sign(unit.key)
        beneath = [unit, *self.bill.beneath(unit.key)]
        part, fact = self.part(), self.rng.choice(("meant_for", "meant_for", "out_of"))
        noted = self.write("part.noted", [part], **{fact: self.rng.choice(beneath).key})
        if self.rng.random() < 0.5:
            self.write("part.noted", [part], **{fact: place.key})
        elif self.rng.random() < 0.6:
            self.write("record.voided", noted.ent, record=noted.ref, why="slip")
        if self.rng.random() < 0.3:
            self.sign(unit.key)

    def cover_and_release(self) -> None:
        """A finding is said to be covered, then the part is released; now and then somebody who may says so too."""
        part = self.part()
        covered = self.write("finding.noted", [part], word="worn", cause="wear", covered=True)
        self.make_ready(part) if self.rng.random() < 0.5 else self.release(part)
        waiting = [each for each in self.witness().points() if each.key.endswith(f"|{covered.ref}")]
        if waiting and self.rng.random() < 0.4:
            self.concede(waiting[0])
