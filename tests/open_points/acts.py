"""What people at a tablet do: sensible acts, half-sensible ones, and ones that no workflow would let through."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from random import Random
from typing import Any

from teardown_app.domain.bill.bill import GATES, Bill, Operation, Position
from teardown_app.domain.ledger.record import Record
from tests.open_points.gauges import GAUGES, WRENCHES, measured
from tests.open_points.naive import Seen, Witness
from tests.open_points.naive_said import ANSWERS, MILD_TO_SEVERE, REFERRING, SCOPE
from tests.open_points.tablets import JOB, LETTERS, OTHER_JOB, SHOP, Tablet

NUMBERS = ("P7K3M0001A", "P7K3M0002C", "P7K3M0003E", "P7K3M0004G", "P7K3M0005J", "P7K3M0006L")
MAKERS = ("part.taken_off", "part.brought_in", "goods.taken_over")
ORIGINS = ("as received", "new", "repaired", "exchanged", "borrowed", "stock", "customer's", "other job")
PART_NUMBERS = ("P1", "P2", "P3", "P4", "P5", "P6", "P7", "P8", "X9")


class Bench:
    """A person at one tablet for the length of one act."""

    def __init__(self, tablet: Tablet, bill: Bill, rng: Random) -> None:
        self.tablet, self.bill, self.rng = tablet, bill, rng
        self.places = tuple(bill.positions.values())
        self.by = rng.choices(("AA", "BB", "CC", "DD", "ZZ"), (30, 3, 4, 1, 1))[0]

    # -- what is at hand -------------------------------------------------------------------------

    def write(self, typ: str, ent: tuple[str, ...] | list[str], **body: Any) -> Record:
        """Writes one record about the job."""
        new_file, trial = self.rng.random() < 0.04, self.rng.random() < 0.01
        if typ in REFERRING and self.rng.random() < 0.35:
            body |= {"reference": self.rng.choice(("A-1", "A-1", "A-1", " "))}
        seen = self._old_form()
        return self.tablet.write(self.by, typ, tuple(ent), body, new_file=new_file, seen=seen, trial=trial)

    def _old_form(self) -> dict[str, tuple[int, str]] | None:
        """Now and then a form was opened before the last records of others came in."""
        if self.rng.random() > 0.07:
            return None
        now = self.tablet.vector(JOB)
        return {key: entry for key, entry in now.items() if key.startswith(SHOP) or self.rng.random() < 0.5}

    def records(self, *kinds: str) -> list[Record]:
        """Records of these kinds that are on this tablet."""
        return [each for each in self.tablet.view(JOB) if each.typ in kinds]

    def parts(self) -> list[str]:
        """Parts that somebody recorded."""
        return [each.ent[0] for each in self.records(*MAKERS) if each.ent and not each.ent[0].startswith("@")]

    def new_things(self, kind: str) -> list[str]:
        """Findings, or holds."""
        return [each.thing(n) for each in self.records(kind) for n in range(1, len(each.ent) + 1)]

    def some(self, found: list[str]) -> str:
        """One of these, or something that nobody knows."""
        return self.rng.choice(found) if found and self.rng.random() < 0.96 else f"{JOB}:nobody~0:7:1"

    def part(self) -> str:
        """Some part; where there is none yet, one comes off first."""
        return self.some(self.parts()) if self.parts() else self.come_off() or self.some([])

    def place(self, *kinds: str) -> Position | None:
        """Some place of these kinds."""
        found = [each for each in self.places if each.line.kind in kinds]
        return self.rng.choice(found) if found else None

    def witness(self) -> Witness:
        """What the witness makes of all that is on this tablet."""
        shop, job = self.tablet.view(SHOP), self.tablet.view(JOB)
        return Witness(shop, JOB, job, lambda sha: self.bill if sha == BILL else None)

    # -- parts -----------------------------------------------------------------------------------

    def come_off(self, key: str = "") -> str:
        """A part comes off its place."""
        place = self.bill.positions[key] if key else self.place("part", "assembly")
        if place is None:
            return ""
        body: dict[str, Any] = {"out_of": place.key, "part_number": place.line.part_number}
        if not key and self.rng.random() < 0.25:
            body |= {"part_number": self.rng.choice(PART_NUMBERS)}
        if self.rng.random() < 0.2:
            body |= {"number": self.rng.choice(NUMBERS)}
        if self.rng.random() < 0.1:
            del body["part_number"]
        return self.write("part.taken_off", [self.tablet.thing()], **body).ent[0]

    def bring_in(self, key: str = "") -> str:
        """A part comes from outside."""
        place = self.bill.positions[key] if key else self.place("part", "assembly")
        if place is None:
            return ""
        number = place.line.part_number if self.rng.random() < 0.7 else self.rng.choice(PART_NUMBERS)
        body: dict[str, Any] = {"origin": self.rng.choice(ORIGINS), "part_number": number}
        if self.rng.random() < 0.8:
            body |= {"meant_for": place.key}
        if self.rng.random() < 0.4:
            body |= {"set_mark": self.rng.choice(("I", "II"))}
        return self.write("part.brought_in", [self.tablet.thing()], **body).ent[0]

    def note(self) -> None:
        """Something about one part or two is written down."""
        place = self.place("part", "assembly", "hardware")
        choices: dict[str, Any] = {
            "origin": self.rng.choice(ORIGINS), "owner": self.rng.choice(("customer", "other job")),
            "set_mark": self.rng.choice(("I", "II")), "condition": self.rng.choice(("good", "worn")),
            "place": self.rng.choice(("RACK 1", "RACK 2")), "part_number": self.rng.choice(PART_NUMBERS),
            "written": {"serial": self.rng.choice(("1", "2"))}, "number": self.rng.choice(NUMBERS),
        }  # fmt: skip
        if place:
            choices |= {"out_of": place.key, "meant_for": self.rng.choice((place.key, ""))}
        names = self.rng.sample(sorted(choices), self.rng.choice((1, 1, 2)))
        self.write(
            "part.noted",
            sorted({self.part(), self.part()}) if self.rng.random() < 0.2 else [self.part()],
            **{name: choices[name] for name in names},
        )

    def number(self) -> None:
        """A label goes on a part."""
        body = {"number": self.rng.choice(NUMBERS)}
        if self.rng.random() < 0.5:
            self.write("part.tagged", [self.part()], **body)
        else:
            self.write("part.renumbered", [self.part()], why="lost", **body)

    def same(self) -> None:
        """Two tags turn out to be one part."""
        added = [each.ent[0] for each in self.records("temporary.in") if "what" in each.body]
        names = added if len(added) > 1 and self.rng.random() < 0.2 else [self.part(), self.part()]
        self.write("part.same_as", names[:2])

    def put(self) -> None:
        """A part goes somewhere."""
        self.write("thing.put", [self.part()], place=self.rng.choice(("RACK 1", "RACK 2")))

    def photograph(self) -> None:
        """A picture is taken."""
        self.write("photo.taken", [self.rng.choice((self.part(), "job"))], photos=["0" * 64])

    def find(self) -> None:
        """Something is found on a part."""
        self.write("finding.noted", [self.part()], word="scored", cause="wear", covered=self.rng.random() < 0.3)

    def answer(self) -> None:
        """The customer is asked, or answers."""
        self.write(
            "approval.given",
            [self.some(self.new_things("finding.noted"))],
            **{"as": self.rng.choice((*ANSWERS, "declined"))},
        )

    def dispose(self, part: str = "", word: str = "") -> None:
        """What is to become of a part."""
        words = self.rng.choices(MILD_TO_SEVERE, (5, 2, 2, 1, 1, 1))
        self.write("disposition.given", [part or self.part()], **{"as": word or words[0]})

    def hold(self) -> None:
        """Something is held."""
        place = self.place("part", "assembly", "hardware")
        self.write("hold.placed", [f"@{place.key}" if place and self.rng.random() < 0.3 else self.part()], why="look")

    def lift(self, hold: str = "") -> None:
        """A hold is lifted."""
        self.write("hold.lifted", [hold or self.some(self.new_things("hold.placed"))], why="looked")

    def hand_over(self) -> None:
        """A part goes to another job, or comes back."""
        if self.rng.random() < 0.6:
            self.write("goods.handed_over", [self.part()], to=OTHER_JOB, consent="K-1")
        else:
            self.write("goods.given_back", [self.part()], job=OTHER_JOB, consent="K-1")

    def take_over(self) -> None:
        """A part, or counted hardware, comes from another job."""
        place = self.place("hardware")
        body = {"of": OTHER_JOB, "goods": f"{OTHER_JOB}:t1~0:2:1", "consent": "K-2"}
        body |= {"number": self.rng.choice(NUMBERS)} if self.rng.random() < 0.5 else {}
        if place and self.rng.random() < 0.5:
            many = {"quantity": self.rng.randint(-1, 3)} if self.rng.random() < 0.8 else {}
            self.write("goods.taken_over", [f"@{place.key}"], **many, **body)
        else:
            more = {"part_number": "P1", "origin": "other job", **body}
            self.write("goods.taken_over", [self.tablet.thing()], **more)

    # -- checks, routes, release -------------------------------------------------------------------

    def read(self, thing: str = "", reading: tuple[str, str, str] | None = None, verdict: str = "") -> None:
        """A reading is taken."""
        if reading is None:
            name = self.rng.choice(sorted(self.bill.checks))
            check = self.bill.checks[name]
            when = self.rng.choice(check.when or ("finished",))
            wants_place = when in ("fitted", *GATES)
            again = " again" if check.again_h is not None and self.rng.random() < 0.4 else ""
            reading = (name, self.rng.choice(check.spots or ("",)), when + again)
            place = self.place("part", "assembly", "hardware", "consumable")
            thing = f"@{place.key}" if place and wants_place else self.part()
        verdict = verdict or self.rng.choices(("accept", "reject", "inconclusive", "not possible"), (6, 1, 1, 1))[0]
        body = {"check": reading[0], "when": reading[2], **({"spot": reading[1]} if reading[1] else {})}
        if verdict == "not possible":
            self.write("check.not_possible", [thing], why="no gauge", **body)
        else:
            body |= measured(self.rng, self.bill.checks.get(reading[0]))
            self.write("check.read", [thing], verdict=verdict, **body)

    def operate(self) -> None:
        """Something is done on a part, not always in order."""
        route = self.bill.routes[self.rng.choice(sorted(self.bill.routes))]
        operation = self.rng.choice(route.operations)
        word = self.rng.choices(("started", "done", "stopped", "skipped"), (2, 5, 1, 1))[0]
        body = {"route": route.name, "operation": operation.id, "pass": self.rng.choice((1, 1, 1, 2))}
        body |= {"why": "clean"} if word == "skipped" else self._values(operation)
        self.write(f"operation.{word}", [self.part()], **body)

    def _values(self, operation: Operation) -> dict[str, Any]:
        """What is written down at an operation, and when it was begun, said afterwards: mostly."""
        named = {name: "3" for name in operation.record if self.rng.random() < 0.8}
        body: dict[str, Any] = {"values": named} if named else {}
        return body | ({"began": "2026-03-02T08:00:00+01:00"} if self.rng.random() < 0.5 else {})

    def end_wait(self) -> None:
        """A person says that a wait is over."""
        body = {"route": "clean", "operation": "degrease", "pass": 1, "why": "dry"}
        self.write("wait.over", [self.part()], **body)

    def make_ready(self, part: str) -> None:
        """All that a part still lacks for its release is done, then it is released."""
        work = self.witness().work
        if self.rng.random() < 0.9:
            for hold in work.holds(part):
                self.lift(hold)
        if work.told.value(part, "disposition") not in ("use as is", "rework", "repair"):
            self.dispose(part, "use as is")
        for route, operation in work.route(part):
            if not work.told.facts(part, f"operation/{route}/{operation.id}/") or self.rng.random() < 0.3:
                body = {"route": route, "operation": operation.id, "pass": 1, **self._values(operation)}
                self.write("operation.done", [part], **body)
                self.tablet.clock.hours += self.rng.choice((1, 5, 9))
        for reading in self.witness().work.part_readings(part):
            if self.rng.random() < 0.9:
                self.read(part, reading, "accept")
        self.release(part)

    def release(self, part: str = "") -> None:
        """A part is released for what it is today."""
        part = part or self.part()
        lines = self.witness().tool.line_names(part)
        if lines and self.rng.random() < 0.06:
            lines.pop()
        self.write("part.released", [part], covers={part: []}, lines={part: lines})

    # -- putting together ----------------------------------------------------------------------------

    def fit(self, part: str = "", key: str = "") -> None:
        """A part goes in."""
        part = part or self.part()
        if not key:
            own = next(iter(self.witness().tool.seat(part)), "")
            place = self.place("part", "assembly")
            key = own if own and self.rng.random() < 0.75 else place.key if place else "10"
        beneath = [each.key for each in self.bill.beneath(key)] if key in self.bill.positions else []
        body = {"came_with": beneath} if beneath and self.rng.random() < 0.4 else {}
        self.write("part.fitted", [part, f"@{key}"], **body)

    def take_out(self) -> None:
        """A part comes out again."""
        fitted = self.records("part.fitted")
        if fitted:
            self.write("part.taken_out", self.rng.choice(fitted).ent[:2])

    def work_through(self, key: str = "") -> None:
        """A part comes off or in, is made ready, and is fitted."""
        place = self.bill.positions.get(key) or self.place("part", "assembly")
        if place is None:
            return
        tool = self.witness().tool
        there = [each for each in self.parts() if tool.seat(each) == [place.key]]
        part = there[-1] if there else self.come_off(place.key) if self.rng.random() < 0.8 else self.bring_in(place.key)
        if self.rng.random() < 0.9:
            self.make_ready(part)
        self.fit(part, place.key)

    def count(self, key: str = "") -> None:
        """Hardware is counted, one bag or several places in one."""
        found = [each.key for each in self.places if each.line.kind == "hardware"]
        if found:
            bag = [key] if key else self.rng.sample(found, min(len(found), self.rng.choice((1, 1, 2))))
            total = sum(self.bill.positions[each].count or 0 for each in bag)
            number = total if self.rng.random() < 0.8 else self.rng.randint(0, 4)
            self.write("hardware.counted", [f"@{each}" for each in bag], found=number)

    def move(self, key: str = "", **moves: int) -> None:
        """Hardware is put in, added, lost, scrapped, left over."""
        place = self.bill.positions[key] if key else self.place("hardware")
        if place:
            words = ("added", "scrapped", "lost", "found_short", "left_over", "put_in")
            some = {self.rng.choice(words): self.rng.randint(-1, 2)}
            usual = {"put_in": place.count or 1}
            chosen = moves or (usual if self.rng.random() < 0.6 else some)
            said = {"why": "bent", "search": "drip tray"} if self.rng.random() < 0.9 else {}
            self.write("hardware.moved", [f"@{place.key}"], **chosen, **said)

    def torque(self, key: str = "") -> None:
        """A joint is tightened, in all its passes or one."""
        place = self.bill.positions[key] if key else self.place("hardware")
        if place is None:
            return
        passes = [str(each) for each in place.line.joint.passes] if place.line.joint else []
        for each in passes or ["100"]:
            self._torque(place, each)
        if self.rng.random() < 0.7:
            self.tablet.clock.hours += self.rng.choice((0, 1, 4))
            self._torque(place, "again", **({"early": "as agreed"} if self.rng.random() < 0.1 else {}))
        if self.rng.random() < 0.5:
            self._torque(place, "after first heat")

    def _torque(self, place: Position, name: str, **more: Any) -> None:
        screws = place.count if self.rng.random() < 0.85 else 1
        more |= {"instrument": self.rng.choice((*WRENCHES, *WRENCHES, *GAUGES))} if self.rng.random() < 0.8 else {}
        joint = place.line.joint
        target = joint.torque_nm if joint and joint.torque_nm else Decimal(6)
        share = Decimal(name) / 100 if name.isdigit() else Decimal(1)
        off = self.rng.choice(("1", "1", "1", "1", "1.02", "0.9", "1.1", "1.11", "0.5"))
        if self.rng.random() < 0.85:
            value = {"text": f"{target * share * Decimal(off):f}", "unit": self.rng.choice(("N m",) * 9 + ("N",))}
            more |= {"torque": value}
        self.write("joint.torqued", [f"@{place.key}"], **{"pass": name, "screws": screws, **more})

    def open_joint(self) -> None:
        """A joint is opened."""
        place = self.place("hardware")
        if place:
            self.write("joint.opened", [f"@{place.key}"])

    def renew(self, key: str = "") -> None:
        """A consumable is renewed or kept."""
        place = self.bill.positions[key] if key else self.place("consumable")
        if place:
            word = "renewed" if key else self.rng.choice(("renewed", "renewed", "kept"))
            more: dict[str, Any] = {"as": word, **self.rng.choice(({}, {"expiry": "2026-03-04"}))}
            more |= {"expiry": "2027-01-01"} if self.rng.random() < 0.6 else {}
            more |= {name: "7" for name in ("lot", "serial") if self.rng.random() < 0.7}
            more |= {"part_number": self.rng.choice(PART_NUMBERS)} if self.rng.random() < 0.2 else {}
            self.write("consumable.renewed", [f"@{place.key}"], **more)

    def temporary(self, name: str = "", word: str = "") -> None:
        """Something is put in, or taken out, only for a time."""
        place, word = self.place("temporary"), word or self.rng.choice(("in", "out"))
        made = [each.ent[0] for each in self.records("temporary.in") if "what" in each.body]
        if not name and self.rng.random() < 0.3:
            self.write("temporary.in", [self.tablet.thing()], what="bypass hose")
            return
        name = name or (f"@{place.key}" if place and self.rng.random() < 0.7 else self.some(made))
        self.write(f"temporary.{word}", [name])

    # -- scope, the job, corrections, concessions -----------------------------------------------------

    def configure(self) -> None:
        """What was received of an assembly or a place."""
        place = self.rng.choice(self.places)
        self.write("configuration.received", [f"@{place.key}"], **{"as": self.rng.choice(sorted(SCOPE)), "why": "seen"})

    def add_line(self) -> None:
        """A place that the bill lacks."""
        place = self.place("assembly")
        parent = place.key if place and self.rng.random() < 0.7 else ""
        number = self.rng.choice(NUMBERS)
        key = f"{parent}.+{number}" if parent else f"+{number}"
        body = {"parent": parent, "part_number": self.rng.choice(PART_NUMBERS), "description": "BRACKET"}
        self.write("line.added", [f"@{key}"], number=number, **body)
        if self.rng.random() < 0.5:
            off = {"out_of": key, "part_number": body["part_number"], "number": number}
            self.write("part.taken_off", [self.tablet.thing()], **off)

    def amend(self) -> None:
        """Something about the job changes."""
        body: dict[str, Any] = self.rng.choice((
            {"options": ["heater"]}, {"options": []}, {"due": "2026-05-01"}, {"due": "2026-06-01"}, {"order": "A-2"},
            {"options": ["drain"]}, {"rules": 2}, {"rules": 3},
        ))  # fmt: skip
        self.write("job.amended", ["job"], why="asked", **body)

    def end(self) -> None:
        """The job is closed or opened again."""
        if self.rng.random() < 0.6:
            if self.rng.random() < 0.7:
                self.sign("job")
            self.write("job.closed", ["job"])
        else:
            self.write("job.reopened", ["job"], why="came back")

    def open_again(self) -> None:
        """The job is opened a second time."""
        self.write("job.opened", ["job"], **opening(self.rng.choice((LETTERS, "9999"))))

    def correct(self) -> None:
        """A record is taken back, also one that takes back another, or once more; now and then it is made again."""
        there = self.tablet.view(JOB)
        if not there or self.rng.random() < 0.03:
            self.write("record.voided", ["job"], record=f"{JOB}:nobody~0:3:00000000", why="slip")
            return
        again = [each for each in there if any(void.body.get("record") == each.ref for void in there)]
        target = self.rng.choice(again if again and self.rng.random() < 0.2 else there[-12:])
        about = target.ent if target.ent and self.rng.random() < 0.8 else ("job",)
        self.write("record.voided", about, record=target.ref, why="slip")
        if self.rng.random() < 0.3 and target.typ not in ("record.voided", "job.opened"):
            self.write(target.typ, target.ent, **target.body)

    def concede(self, seen: Seen | None = None) -> None:
        """An open point is conceded as it stands."""
        points = self.witness().points()
        seen = seen or (self.rng.choice(points) if points else None)
        if seen:
            about = f"@{seen.position}" if seen.position else seen.part or "job"
            lines = self.witness().tool.line_names(seen.part) if seen.part else []
            if lines and self.rng.random() < 0.05:
                lines.pop()
            more: dict[str, Any] = {"lines": lines} if seen.part else {}
            body = {"key": seen.key, "why": "agreed", "reference": "K-7", "covers": list(seen.behind), **more}
            self.write("point.conceded", [about], **body)

    def sign(self, subject: str = "") -> None:
        """Somebody signs for something."""
        place = self.place("assembly")
        if subject:
            subject = f"@{subject}" if subject in self.bill.positions else subject
        thing = subject or self.rng.choice(("job", self.part(), f"@{place.key}" if place else "job"))
        self.write("work.signed", [thing], meaning="reviewed", covers=[])

    def nonsense(self) -> None:
        """What no workflow would write."""
        part, place = self.part(), f"@{self.rng.choice(self.places).key}"
        typ, ent, body = self.rng.choice(_nonsense(part, place, self.some(self.new_things("hold.placed"))))
        newer = typ in ("part.polished", "thing.put") and self.rng.random() < 0.5
        wall = self.rng.choice((" ", "yesterday", "2026-03-04T08:00:00")) if self.rng.random() < 0.1 else ""
        self.tablet.write(self.by, typ, ent, body, v=2 if newer else 1, wall=wall)

    # -- clearing -------------------------------------------------------------------------------------

    def clear(self) -> None:
        """Takes an open point from the list and does what clears it."""
        seen = [each for each in self.witness().points() if each.state == "open"]
        if seen:
            point = self.rng.choice(seen)
            kind, subject, which = point.key.split("|")
            CLEARING.get(kind, lambda bench, subject, which, point: bench.concede(point))(self, subject, which, point)


BILL = "b" * 64


def _nonsense(part: str, place: str, hold: str) -> list[tuple[str, tuple[str, ...], dict[str, Any]]]:
    """Records of other programs, of the wrong thing, of the wrong form."""
    finding = {"word": "scored", "cause": "wear", "covered": False}
    operation = {"route": "wipe", "operation": "rinse", "pass": 1}
    return [
        ("part.polished", ("job",), {}),
        ("thing.put", (part,), {"place": "RACK 9"}),
        ("thing.put", (part,), {"place": 7}),
        ("thing.put", ("RACK 9",), {"place": "RACK 9"}),
        ("thing.put", (), {"place": "RACK 9"}),
        ("disposition.given", (part,), {"as": "lovely"}),
        ("disposition.given", (place,), {"as": "use as is"}),
        ("part.released", (part,), {"covers": {}}),
        ("part.released", (part,), {"covers": {part: "all"}}),
        ("part.released", (part,), {"covers": {part: [["all"], 7]}}),
        ("part.fitted", (part, "@77.7"), {}),
        ("part.fitted", (part, place), {}),
        ("part.fitted", (place, part), {}),
        ("part.fitted", (part,), {}),
        ("part.fitted", (part, place), {"came_with": [7]}),
        ("part.taken_out", (hold, place), {}),
        ("part.same_as", (place, "@10"), {}),
        ("part.same_as", (part, "job"), {}),
        ("part.same_as", (part, part), {}),
        ("part.same_as", (hold, part), {}),
        ("part.noted", (place,), {"condition": "good", "number": "P7K3M0001A"}),
        ("part.noted", (part,), {"written": {"serial": ["1"]}, "out_of": "77.7"}),
        ("part.taken_off", (part,), {"out_of": "10"}),
        ("part.taken_off", (place,), {}),
        ("finding.noted", (place,), finding),
        ("finding.noted", (part, part), finding),
        ("approval.given", (part,), {"as": "approved"}),
        ("hold.placed", ("job", part), {"why": "look"}),
        ("hold.lifted", (part,), {"why": "looked"}),
        ("operation.done", (place,), operation),
        ("operation.done", (part,), {**operation, "pass": True}),
        ("operation.started", (part,), {**operation, "pass": -1}),
        ("check.read", (part,), {"check": "bore", "when": "finished", "verdict": "fine"}),
        ("check.read", (place, part), {"check": "nobody", "when": "never", "verdict": "reject"}),
        ("job.amended", ("job",), {"options": [7], "why": "slip"}),
        ("job.amended", (part,), {"options": ["drain"], "why": "slip"}),
        ("job.closed", (part,), {}),
        ("job.opened", (part,), opening()),
        ("line.added", (place,), {"parent": "", "part_number": "P1", "description": "", "number": "P7K3M0001A"}),
        ("line.added", (part,), {"parent": "", "part_number": "P1", "description": "", "number": "P7K3M0001A"}),
        ("line.added", ("@77.+1",), {"parent": "77", "part_number": "P1", "description": "", "number": "1"}),
        ("line.added", ("@+1.+2",), {"parent": "+1", "part_number": "P2", "description": "", "number": "2"}),
        ("line.added", ("@+1",), {"parent": "", "part_number": "P1", "description": "", "number": "1"}),
        ("configuration.received", (part,), {"as": "received short"}),
        ("configuration.received", (place,), {"as": "unknown"}),
        ("hardware.counted", (part, place), {"found": 3}),
        ("hardware.counted", (place, place), {"found": 3}),
        ("hardware.moved", (place,), {"put_in": -2, "lost": 10**30}),
        ("joint.torqued", (place,), {"pass": "100.0", "screws": 4}),
        ("joint.torqued", (place,), {"pass": "all", "screws": -4}),
        ("consumable.renewed", (place,), {"as": "renewed", "expiry": "soon"}),
        ("consumable.renewed", (place,), {"as": "changed"}),
        ("temporary.in", (place,), {"what": "hose"}),
        ("temporary.in", (part,), {"what": "hose"}),
        ("temporary.out", (hold,), {}),
        ("goods.handed_over", (place,), {"to": "J7K3M00024", "quantity": 2, "consent": ""}),
        ("goods.given_back", (part,), {"job": "J7K3M00024", "quantity": 5, "consent": ""}),
        ("goods.taken_over", (place,), {"of": "J7K3M00024", "goods": "", "consent": ""}),
        ("point.conceded", ("job",), {"key": "missing", "why": "", "reference": "", "covers": []}),
        ("point.conceded", ("job",), {"key": f"hold|{part}|{hold}", "why": "", "reference": "", "covers": [7]}),
        ("record.voided", ("job",), {"record": "", "why": ""}),
        ("work.signed", ("RACK 9", place), {"meaning": "reviewed", "covers": []}),
        ("person.given", ("person:AA",), {"code": "AA", "rights": []}),
        ("wait.over", (hold,), {**operation, "why": ""}),
        ("wait.over", (part,), {**operation, "operation": "", "why": ""}),
        ("operation.done", (part,), {"route": "", "operation": "", "pass": 0}),
        ("hold.placed", (hold,), {"why": "look"}),
        ("finding.noted", (hold,), finding),
        ("joint.opened", (place,), {}),
        ("consumable.renewed", (place,), {"as": "renewed", "lot": "7", "expiry": "2027-01-01"}),
        ("check.read", (part,), {"check": "bore/1", "when": "finished", "verdict": "reject"}),
        ("check.read", (place,), {"check": "seat", "spot": "in|out", "when": "fitted", "verdict": "accept"}),
        ("check.not_possible", (part,), {"check": "bore", "spot": "a/b", "when": "finished/1", "why": ""}),
        ("check.read", (part,), {"check": "look", "when": "finished/1", "verdict": "reject"}),
        ("line.added", ("@",), {"parent": "", "part_number": "P1", "description": "", "number": ""}),
        ("configuration.received", ("@", place), {"as": "received short"}),
        ("part.fitted", (part, place), {"came_with": ["10.10", "20.10", ""]}),
        ("goods.given_back", (part,), {"job": "J7K3M00024", "quantity": 0, "consent": ""}),
    ]


def opening(letters: str = LETTERS, rules: int = 2, number: str = JOB) -> dict[str, Any]:
    """Body of the record that opens the job."""
    return {
        "number": number, "letters": letters, "order": "A-1", "serial": "1001", "options": ["heater"], "bill": BILL,
        "model": "TRIAL", "revision": "A", "rules": rules,
    }  # fmt: skip


def _reading(bench: Bench, subject: str, which: str, point: Seen) -> None:
    _, check, spot, when = which.split("/")
    thing = f"@{subject}" if subject in bench.bill.positions else subject
    bench.read(thing, (check, spot, when), "accept")


def _hardware(bench: Bench, subject: str, which: str, point: Seen) -> None:
    if subject in bench.bill.positions:
        count, put = bench.bill.positions[subject].count or 0, bench.witness().hardware.put_in([f"@{subject}"])
        bench.count(subject)
        bench.move(subject, put_in=count - put)


def _temporary(bench: Bench, subject: str, which: str, point: Seen) -> None:
    place = bench.bill.positions.get(subject)
    ships = (place.line.ships or "in") if place else "out"
    bench.temporary(f"@{subject}" if place else subject, "out" if which == "running" else ships)


CLEARING: dict[str, Callable[[Bench, str, str, Seen], None]] = {
    "missing": lambda bench, subject, which, point: bench.work_through(subject),
    "not released": lambda bench, subject, which, point: bench.make_ready(subject),
    "fitted over an empty position": lambda bench, subject, which, point: bench.work_through(which),
    "tagged but unaccounted for": lambda bench, subject, which, point: bench.fit(subject),
    "foreign piece": lambda bench, subject, which, point: bench.dispose(subject, "spare"),
    "hold": lambda bench, subject, which, point: bench.lift(which),
    "check due": _reading,
    "hardware does not balance": _hardware,
    "joint not torqued or due again": lambda bench, subject, which, point: bench.torque(subject),
    "consumable not renewed or expired": lambda bench, subject, which, point: bench.renew(subject),
    "temporary in or out wrongly": _temporary,
    "sign again": lambda bench, subject, which, point: bench.sign(subject),
    "label of two parts": lambda bench, subject, which, point: bench.number(),
}

ACTS: dict[Callable[[Bench], Any], int] = {
    Bench.come_off: 5, Bench.bring_in: 2, Bench.note: 3, Bench.number: 2, Bench.same: 2, Bench.put: 1,
    Bench.photograph: 1, Bench.find: 3, Bench.answer: 3, Bench.dispose: 2, Bench.hold: 2, Bench.lift: 1,
    Bench.hand_over: 2, Bench.take_over: 1, Bench.read: 5, Bench.operate: 3, Bench.end_wait: 1, Bench.release: 2,
    Bench.fit: 4, Bench.take_out: 2, Bench.work_through: 9, Bench.count: 2, Bench.move: 2, Bench.torque: 2,
    Bench.open_joint: 1, Bench.renew: 2, Bench.temporary: 2, Bench.configure: 3, Bench.add_line: 1, Bench.amend: 1,
    Bench.end: 1, Bench.open_again: 1, Bench.correct: 5, Bench.concede: 4, Bench.sign: 2, Bench.nonsense: 5,
    Bench.clear: 12,
}  # fmt: skip
