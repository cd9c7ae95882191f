"""What can hurt somebody is said at the step. Words of the trade: common practice, no source."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Bill, Line, Operation, Route
from tests.workflows.reassembly.bench import Bench

TOOL = Bill(
    "CARE",
    "A",
    lines=(
        Line("10", "", 2, "A-10", "rotor unit", kind="assembly", hazard="stored motion: rotor stopped"),
        Line("10.10", "10", 3, "P-1", "rotor", routes=("finish",), hazard="19 kg: lift by two"),
    ),
    routes={"finish": Route("finish", operations=(Operation("rinse"), Operation("ep", trade="electropolish")))},
)


def test_hazards_of_the_place_and_above_it_are_said_when_a_part_comes_off(bench: Bench) -> None:
    bench.job(TOOL, order="PO-5")
    said = bench.do("part off PO-5 10.10 --new-number --by MK")
    assert "CAUTION: 19 kg: lift by two" in said and "CAUTION: stored motion: rotor stopped" in said


def test_before_acid_the_usual_care_is_said_and_that_the_data_sheet_decides(bench: Bench) -> None:
    bench.job(TOOL, order="PO-5")
    bench.off("10.10", order="PO-5")
    said = bench.do("part done PO-5 10.10 --by CL")
    assert "CAUTION: Acid:" in said and "safety data sheet decides" in said
    assert "CAUTION: Acid:" in bench.do("part start PO-5 10.10 --by CL")
    assert "CAUTION" not in bench.do("part done PO-5 10.10 --by CL")
