"""The bill that these stories are about: a small pump, invented, with one of everything."""

from __future__ import annotations

from decimal import Decimal

from teardown_app.domain.bill.bill import Bill, Check, Component, Joint, Line, Operation, Route

WASH = Route(
    "wash",
    operations=(
        Operation("degrease", "Degrease", trade="clean", record=("bath", "time")),
        Operation("polish", "Electropolish", trade="electropolish", not_with=("aluminium",)),
        Operation("dry", "Dry", trade="dry", wait_h=Decimal(2)),
    ),
)
WASH_NEW = Route("wash-new", origin="new", operations=(Operation("degrease", "Degrease", trade="clean"),))
RINSE = Route("rinse", operations=(Operation("rinse", "Rinse", trade="rinse"),))
JOINT = Joint(
    size="M6",
    strength_class="A4-70",
    torque_nm=Decimal(6),
    pattern="cross",
    passes=(Decimal(30), Decimal(70), Decimal(100)),
    lubricant="anti-seize",
    holds=("10.50",),
)


def hardware(position: str, number: str, count: int, joint: Joint | None = None) -> Line:
    """A line of counted screws."""
    return Line(position, position[:2], 0, number, "screw, cap", Decimal(count), kind="hardware", joint=joint)


LINES = (
    Line("10", "", 1, "A-10", "bowl assembly", kind="assembly"),
    Line("10.20", "10", 2, "P-1020", "bowl", material="1.4404", routes=("wash", "wash-new"), checks=("dents",)),
    Line("10.30", "10", 3, "P-1030", "ring", material="AlMgSi1", routes=("wash",)),
    Line("10.35", "10", 4, "P-1035", "pin"),
    Line("10.40", "10", 5, "S-1040", "seal, lip", kind="consumable", write_down=("lot",), fit_after=("10.20",)),
    Line("10.50", "10", 6, "P-1050", "cover", fit_after=("10.20", "10.40"), routes=("rinse",)),
    Line("10.60", "10", 7, "F-1060", "filter", kind="consumable", renew="on condition"),
    hardware("10.90", "H-M6", 8, JOINT),
    hardware("10.91", "H-M4", 2),
    Line("10.95", "10", 9, "B-1095", "bracket, shipping", kind="temporary", ships="in"),
    Line("20", "", 10, "A-20", "pump unit", Decimal(2), kind="assembly"),
    Line("20.10", "20", 11, "P-2010", "rotor"),
    Line("20.20", "20", 12, "P-2020", "bearing", matched_set="pair"),
    Line("20.30", "20", 13, "P-2030", "bearing, rear", matched_set="pair"),
    hardware("20.90", "H-M4", 4),
    Line("30", "", 14, "A-30", "heater assembly", kind="assembly"),
    Line("30.10", "30", 15, "P-3010", "heater"),
    Line("40", "", 16, "A-40", "cooler assembly", kind="assembly", option="cooled"),
    Line("40.10", "40", 17, "P-4010", "cooler"),
    Line("50", "", 18, "P-50", "hood", fit_after=("30",)),
)

PUMP = Bill(
    "PUMP",
    "A",
    lines=LINES,
    components={"S-1040": Component("S-1040", alternates=("S-1041",))},
    checks={"dents": Check("dents", says="Dents", when=("finished",))},
    routes={"wash": WASH, "wash-new": WASH_NEW, "rinse": RINSE},
)
