"""A small invented tool: a rotor with a reading and a route beneath a lid, a ring between them, a lid held by counted
screws, a port with washers, two pumps of one number, a bracket for the road."""

from __future__ import annotations

from decimal import Decimal

from teardown_app.domain.bill.bill import Bill, Check, Component, Joint, Line, Operation, Route
from teardown_app.domain.ledger.record import Record
from tests.open_points.acts import BILL, opening
from tests.open_points.story import EVERYTHING
from tests.open_points.tablets import JOB, SHOP, Clock, Tablet
from tests.proof.tale import PEOPLE

CHECKS = (
    Check("runout", when=("finished",), outlasts=("dry",)),
    Check("leak", type="leak", when=("fitted",)),
    Check("earth", type="bonding", when=("finished",)),
)
ROUTES = (Route("wash", operations=(Operation("degrease", time="10 min", record=("bath",)), Operation("dry"))),)
JOINT = Joint("M6", torque_nm=Decimal(6), passes=(Decimal(50), Decimal(100)), holds=("10.30",))


def _line(position: str, kind: str, count: int = 1, **more: object) -> Line:
    parent, number = position.rpartition(".")[0], f"PN-{position}"
    return Line(position, parent, 2, **{"part_number": number, "kind": kind, "quantity": Decimal(count), **more})  # type: ignore[arg-type]


LINES = (
    _line("10", "assembly", checks=("leak",)),
    _line("10.10", "part", checks=("runout",), routes=("wash",), write_down=("serial",)),
    _line("10.20", "consumable", fit_after=("10.10",), renew="if opened", write_down=("lot",)),
    _line("10.30", "part", fit_after=("10.20",)),
    _line("10.40", "hardware", 4, joint=JOINT),
    _line("10.50", "hardware", 2),
    _line("20", "part", part_number="PN-P"),
    _line("30", "part", part_number="PN-P", checks=("earth",)),
    _line("40", "temporary", ships="in"),
)
TOOL = Bill(
    "SMALL", "A", lines=LINES, checks={each.name: each for each in CHECKS}, routes={each.name: each for each in ROUTES},
    components={"PN-10.20": Component("PN-10.20", shelf_life_days=365)},
)  # fmt: skip


def bills(sha: str) -> Bill | None:
    """The one bill there is."""
    return TOOL if sha == BILL else None


def bench(rules: int = 2) -> Tablet:
    """A tablet on which the shop's people are registered and the job is opened."""
    tablet = Tablet("t1~0", Clock())
    for code, rights in {"AA": EVERYTHING, **PEOPLE}.items():
        tablet.write("AA", "person.given", (f"person:{code}",), {"code": code, "rights": rights}, journal=SHOP)
    tablet.write("AA", "job.opened", ("job",), opening(rules=rules))
    return tablet


def told(tablet: Tablet, *others: Tablet) -> list[Record]:
    """All records of these tablets, each once."""
    every = {each.ref: each for one in (tablet, *others) for name in (SHOP, JOB) for each in one.view(name)}
    return list(every.values())
