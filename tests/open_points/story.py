"""A story told record by record on one tablet or two, watched by the app and by the witness at every step."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from teardown_app.domain.bill.bill import Bill, Check, Joint, Line, Operation, Route
from teardown_app.domain.job.replay import replay
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.points.live import all_points
from teardown_app.domain.points.point import Point
from tests.open_points.acts import BILL, opening
from tests.open_points.naive import Seen, Witness, points
from tests.open_points.naive_said import MAKERS
from tests.open_points.tablets import JOB, SHOP, Clock, Tablet

EVERYTHING = ["record", "release", "scrap", "concede", "sign", "office"]


def line(position: str, kind: str = "part", number: str = "", **more: Any) -> Line:
    """A row of the bill; its own number is `PN-` and the position."""
    return Line(position, position.rpartition(".")[0], 2, number or f"PN-{position}", kind=kind, **more)


def bill(*lines: Line, checks: tuple[Check, ...] = (), routes: tuple[Route, ...] = ()) -> Bill:
    """A bill of these rows."""
    named = {each.name: each for each in checks}
    return Bill("TRIAL", "A", lines=lines, checks=named, routes={each.name: each for each in routes})


def joint(*holds: str) -> Joint:
    """A joint with a torque, tightened in one pass."""
    return Joint("M6", torque_nm=Decimal(6), holds=holds)


def route(name: str, *steps: str) -> Route:
    """Operations for parts as received."""
    return Route(name, operations=tuple(Operation(each) for each in steps))


class Story:
    """One job on a first tablet, and on a second one that joins when asked for."""

    def __init__(self, *lines: Line, checks: tuple[Check, ...] = (), routes: tuple[Route, ...] = ()) -> None:
        self.bill = bill(*lines, checks=checks, routes=routes)
        self.first, self.withheld = Tablet("t1~0", Clock()), set[str]()
        self.tablets = [self.first]
        self.person("AA", EVERYTHING)
        self.first.write("AA", "job.opened", ("job",), opening())

    def take_back(self, record: Record | str, by: str = "AA", on: Tablet | None = None, **more: Any) -> Record:
        """A record is taken back; of a part's name the one that brought it in."""
        target = next(e for e in self.records(JOB) if e == record or (e.ent[0] == record and e.typ in MAKERS))
        return self.say("record.voided", *target.ent, by=by, on=on, record=target.ref, why="slip", **more)

    def person(self, code: str, rights: list[str]) -> None:
        """Somebody gets rights."""
        self.first.write("AA", "person.given", (f"person:{code}",), {"code": code, "rights": rights}, journal=SHOP)

    def second(self) -> Tablet:
        """A tablet that has heard of all there is, and of nothing after."""
        tablet = Tablet("t2~0", self.first.clock)
        tablet.sync(self.first)
        self.tablets.append(tablet)
        return tablet

    def say(self, typ: str, *ent: str, by: str = "AA", on: Tablet | None = None, **body: Any) -> Record:
        """Something happens; `as_` stands for the field `as`."""
        fields = {name.rstrip("_"): value for name, value in body.items()}
        return (on or self.first).write(by, typ, ent, fields)

    def off(self, key: str, on: Tablet | None = None, **more: Any) -> str:
        """A part comes off its place and gets its name."""
        tablet = on or self.first
        return self.say("part.taken_off", tablet.thing(), on=on, out_of=key, **more).ent[0]

    def ready(self, part: str, on: Tablet | None = None, **more: Any) -> str:
        """A part is found good and released."""
        self.say("disposition.given", part, on=on, as_="use as is")
        return self.release(part, on=on)

    def release(self, part: str, on: Tablet | None = None, by: str = "AA") -> str:
        """A part is released for the lines of its seat, as this tablet knows them."""
        lines = self.witness(on or self.first).tool.line_names(part)
        self.say("part.released", part, on=on, by=by, covers={part: []}, lines={part: lines})
        return part

    def fit(self, part: str, key: str, on: Tablet | None = None) -> str:
        """A part goes in."""
        self.say("part.fitted", part, f"@{key}", on=on)
        return part

    def concede(self, key: str, by: str = "AA") -> None:
        """An open point is accepted by signature as it stands."""
        found = next(each for each in self.seen() if each.key == key)
        lines = self.witness(self.first).tool.line_names(found.part) if found.part else []
        body: dict[str, Any] = {"key": key, "why": "agreed", "reference": "K-7", "lines": lines}
        about = f"@{found.position}" if found.position else found.part or "job"
        self.say("point.conceded", about, by=by, covers=list(found.behind), **body)

    def carry(self) -> None:
        """The first tablet hears of all that the others wrote."""
        for tablet in self.tablets[1:]:
            self.first.sync(tablet)

    def records(self, journal: str) -> list[Record]:
        """All that was written anywhere, but what is withheld."""
        every = {each.ref: each for tablet in self.tablets for each in tablet.view(journal)}
        return [each for ref, each in every.items() if ref not in self.withheld]

    def witness(self, tablet: Tablet) -> Witness:
        """What the witness makes of what one tablet knows."""
        return Witness(tablet.view(SHOP), JOB, tablet.view(JOB), self.bills)

    def bills(self, sha: str) -> Bill | None:
        """The one bill there is."""
        return self.bill if sha == BILL else None

    def seen(self) -> list[Seen]:
        """All points as the witness alone sees them."""
        return points(self.records(SHOP), JOB, self.records(JOB), self.bills)

    def stands(self, kind: str, state: str = "open") -> list[str]:
        """Subject and which of all points of a kind in a state, as the witness alone sees them."""
        found = [each.key for each in self.seen() if each.kind == kind and each.state == state]
        return [key.partition("|")[2].rstrip("|") for key in found]

    def points(self) -> list[Point]:
        """All points now; app and witness must agree on them."""
        shop, job = self.records(SHOP), self.records(JOB)
        found = all_points(replay(shop, JOB, job, self.bills))
        ours = {each.key: (each.gate, each.state) for each in found}
        assert ours == {each.key: (each.gate, each.state) for each in points(shop, JOB, job, self.bills)}
        return found

    def open(self, kind: str) -> list[str]:
        """Subject and which of all open points of a kind."""
        found = [each.key for each in self.points() if each.kind == kind and each.state == "open"]
        return [key.partition("|")[2].rstrip("|") for key in found]

    def conceded(self, kind: str) -> list[str]:
        """Keys of conceded points of a kind."""
        return [each.key for each in self.points() if each.kind == kind and each.state == "conceded"]
