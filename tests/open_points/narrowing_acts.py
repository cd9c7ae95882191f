"""Acts that take a demand away, and their acceptances: every row of the table of narrowings, honest or not."""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import Any

from teardown_app.domain.ledger.kinds import KINDS
from tests.open_points.acts import NUMBERS, ORIGINS, PART_NUMBERS, opening
from tests.open_points.naive_knowing import BRANCH
from tests.open_points.naive_said import SCOPE
from tests.open_points.tablets import JOB, OTHER_JOB, SHOP, Tablet
from tests.open_points.talked_away_acts import ACTS as TALKED_AWAY
from tests.open_points.talked_away_acts import TalkedAway


class Hand(TalkedAway):
    """A person who says that something is not asked, with the right or without."""

    def leave_out(self) -> None:
        """A place nobody touched is said to be out, or left; now and then twice, or in pieces."""
        ground = self.witness().ground
        free = [key for key in ground.tool.places if not ground.is_touched(key)]
        words = sorted(word for word in SCOPE if word != "came with the unit")
        for key in self.rng.sample(free, min(len(free), self.rng.choice((1, 1, 2)))):
            self.write("configuration.received", [f"@{key}"], **{"as": self.rng.choice(words), "why": "seen"})

    def say_otherwise(self) -> None:
        """A fact of a part becomes another."""
        place = self.place("part", "assembly")
        said: dict[str, Any] = {
            "origin": self.rng.choice(ORIGINS), "owner": self.rng.choice(("customer", "other job")),
            "set_mark": self.rng.choice(("I", "II")), "part_number": self.rng.choice(PART_NUMBERS),
            "out_of": place.key if place else "10",
        }  # fmt: skip
        names = self.rng.sample(sorted(said), self.rng.choice((1, 1, 1, 2)))
        self.write("part.noted", [self.part()], **{name: said[name] for name in names})

    def write_down(self) -> None:
        """Serial and lot are read off a part."""
        self.write("part.noted", [self.part()], written={"serial": "1", "lot": self.rng.choice(("A", "A", "B"))})

    def read_twice(self) -> None:
        """A reading is graver, and then good; something may have been done in between, or it is taken back."""
        asked = self.asked()
        if not asked:
            return
        thing, reading = self.rng.choice(asked)
        for verdict in (self.rng.choice(("reject", "inconclusive")), "accept"):
            self.read(thing, reading, verdict)
            if verdict != "accept" and self.rng.random() < 0.3:
                self.rng.choice((self.operate, self.take_out, self.open_joint, self.correct))()

    def do_again(self) -> None:
        """An operation that was done is done once more, in the same pass, also by somebody who had not seen it."""
        done = self.records("operation.done")
        if not done:
            return
        chosen = self.rng.choice(done)
        if chosen.dev != self.tablet.dev:
            now = self.tablet.vector(JOB)
            seen = {key: entry for key, entry in now.items() if key.partition(BRANCH)[0] != chosen.dev}
            self.tablet.write(self.by, chosen.typ, chosen.ent, chosen.body, seen=seen)
        if self.rng.random() < 0.6:
            self.write("operation.done", chosen.ent, **chosen.body)

    def count_again(self) -> None:
        """A bag is counted anew: fewer, or fewer places, or more of them."""
        counts = self.records("hardware.counted")
        if not counts:
            self.count()
            return
        chosen = self.rng.choice(counts)
        places = [f"@{each.key}" for each in self.places if each.line.kind == "hardware"]
        names = self.rng.choice((chosen.ent, chosen.ent[:1], sorted({*chosen.ent, *places[:2]})))
        found = chosen.body["found"] if isinstance(chosen.body["found"], int) else 0
        self.write("hardware.counted", names, found=max(0, found - self.rng.choice((0, 1, 1))))

    def balance(self) -> None:
        """What was found short is searched for and said, and the rest put in."""
        place = self.place("hardware")
        if place:
            short = self.rng.choice((0, 0, 1))
            self.write("hardware.counted", [f"@{place.key}"], found=(place.count or 0) - short)
            if short:
                word = self.rng.choice(("lost", "found_short"))
                self.write("hardware.moved", [f"@{place.key}"], **{word: short}, search="drip tray")
                self.write("hardware.moved", [f"@{place.key}"], added=short)
            self.write("hardware.moved", [f"@{place.key}"], put_in=place.count or 0)

    def come_off_twice(self) -> None:
        """One part is recorded twice, and the two become one."""
        place = self.place("part", "assembly")
        off = [each for each in self.records("part.taken_off") if place and each.body.get("out_of") == place.key]
        if len(off) > 1:
            self.write("part.same_as", [each.ent[0] for each in off[:2]])
        elif place:
            self.come_off(place.key)

    def decline(self) -> None:
        """The customer does not want a finding dealt with."""
        finding = self.write("finding.noted", [self.part()], word="worn", cause="wear", covered=False)
        self.write("approval.given", [finding.thing()], **{"as": "declined"})

    def accept(self) -> None:
        """Somebody accepts what waits for it, whatever his rights."""
        waiting = [each for each in self.witness().points() if each.key.startswith("to be accepted")]
        if waiting:
            chosen = self.rng.choice(waiting)
            if chosen.part and self.rng.random() < 0.4:
                self.release(chosen.part)
            else:
                self.concede(chosen)

    def take_back_again(self) -> None:
        """What waits for acceptance after a taking back is taken back once more, by somebody with a reference."""
        voids = self.records("record.voided")
        if voids:
            chosen = self.rng.choice(voids)
            self.write("record.voided", chosen.ent, record=chosen.body["record"], why="so it is", reference="A-1")

    def concede_beneath(self) -> None:
        """All open points at and beneath an assembly are conceded, one record for each."""
        place = self.place("assembly")
        if place:
            keys = {place.key, *(each.key for each in self.bill.beneath(place.key))}
            for seen in [each for each in self.witness().points() if each.position in keys and not each.never]:
                self.concede(seen)

    def concede_versions(self) -> None:
        """Of each number that stands for two records it is conceded that it does, whether or not both were seen."""
        for seen in [each for each in self.witness().points() if each.kind == "two versions of a record"]:
            self.concede(seen)

    def record_for_another(self) -> None:
        """What somebody recorded without the right is recorded again."""
        told = self.witness().told
        lacking = [each for each in told.job if told.why_not(each) in ("right", "uncounted")]
        if lacking:
            chosen = self.rng.choice(lacking)
            self.write(chosen.typ, chosen.ent, **chosen.body)

    def close_and_sign(self) -> None:
        """Signature, then closing; now and then the other way round, or something in between."""
        steps: list[Callable[[], Any]] = [lambda: self.sign("job"), lambda: self.write("job.closed", ["job"])]
        if self.rng.random() < 0.2:
            steps.insert(1, self.put)
        for step in steps if self.rng.random() < 0.85 else reversed(steps):
            step()


ACTS: dict[Callable[[Hand], Any], int] = {
    Hand.leave_out: 4, Hand.say_otherwise: 3, Hand.write_down: 2, Hand.read_twice: 3, Hand.do_again: 2,
    Hand.count_again: 3, Hand.balance: 3, Hand.come_off_twice: 2, Hand.accept: 6, Hand.take_back_again: 2,
    Hand.concede_beneath: 1, Hand.decline: 1, Hand.record_for_another: 2, Hand.close_and_sign: 2,
    Hand.concede_versions: 1, Hand.open_washers: 2, Hand.mean_after_signing: 2, Hand.cover_and_release: 2,
    **TALKED_AWAY,
}  # fmt: skip


def in_the_other_job(tablet: Tablet, rng: Random) -> None:
    """Another job is opened on this tablet, parts come off there and get labels; some go to this one."""
    own = tablet.own(OTHER_JOB)
    if not own:
        body = opening(number=OTHER_JOB)
        tablet.write("AA", "job.opened", ("job",), body, journal=OTHER_JOB, trial=rng.random() < 0.1)
    parts = [each.ent[0] for each in own if each.typ == "part.taken_off"]
    number = {"number": rng.choice(NUMBERS)}
    kind = rng.random()
    if kind < 0.6 or not parts:
        tablet.write("AA", "part.taken_off", (tablet.thing(journal=OTHER_JOB),), number, journal=OTHER_JOB)
    elif kind < 0.8:
        body = {"to": rng.choice((JOB, JOB, "J7K3M00036")), "consent": "K-2"}
        tablet.write("AA", "goods.handed_over", (rng.choice(parts),), body, journal=OTHER_JOB)
    else:
        tablet.write("AA", "part.tagged", (rng.choice(parts),), number, journal=OTHER_JOB)


def about_tablets(tablet: Tablet, rng: Random, others: list[Tablet]) -> None:
    """A founding is joined, or a tablet retired at some record of its; only where the app knows these kinds."""
    by, other = rng.choice(("AA", "AA", "CC", "BB")), rng.choice(others)
    foundings = [each.ref for each in tablet.view(SHOP) if each.typ == "person.given" and each.body["code"] == each.act]
    if rng.random() < 0.5 and "founding.joined" in KINDS and foundings:
        named = rng.choice(foundings)
        body: dict[str, Any] = {"founding": named, "why": "one shop"}
        tablet.write(by, "founding.joined", (f"founding:{named}",), body, journal=SHOP)
    elif "tablet.retired" in KINDS:
        journal = rng.choice((JOB, JOB, SHOP))
        last = max(0, len(other.own(journal)) + rng.choice((0, 0, -1, -2, 1)))
        body = {"tablet": other.dev, "journal": journal, "last": last, "reference": "A-1"}
        if rng.random() < 0.5:
            body["without"] = rng.sample(range(1, last + 2), min(last, rng.choice((1, 1, 2))))
        tablet.write(by, "tablet.retired", (f"tablet:{other.dev}",), body, journal=SHOP)
