"""What is due by the clock: after a rest, looked at again, a result that comes later. Everything invented."""

from __future__ import annotations

from decimal import Decimal

import pytest

from teardown_app.domain.bill.bill import Bill, Check, Joint, Limit, Line, Operation, Route
from tests.workflows.reassembly.bench import Bench

FLAT = Limit("max 0.02 mm", max=Decimal("0.02"), unit="mm")
SAMPLE = Bill(
    "SAMPLE",
    "A",
    lines=(
        Line("10", "", 2, "P-10", "plate", checks=("flat",), routes=("straighten",)),
        Line("20", "", 3, "P-20", "vessel", checks=("leak",)),
    ),
    checks={
        "flat": Check("flat", "Flatness", limit=FLAT, when=("finished",)),
        "leak": Check("leak", "No drop", when=("finished",), again_h=Decimal(24)),
    },
    routes={
        "straighten": Route(
            "straighten", operations=(Operation("press", "Straighten", wait_h=Decimal(24), spoils=("flat",)),)
        )
    },
)
ORDER = "PO-5"
DONE, EARLY, LATE = "2026-03-14T08:00:00+01:00", "2026-03-14T18:30:00+01:00", "2026-03-15T08:01:00+01:00"


@pytest.fixture
def tool(bench: Bench) -> Bench:
    bench.job(SAMPLE, order=ORDER)
    bench.off("10", "20", order=ORDER)
    return bench


def stands(tool: Bench, place: str, when: str) -> str:
    rows = tool.ask(f"check list {ORDER} {place}")
    return str(next(row["stands"] for row in rows if row["when"] == when))


def test_flatness_is_read_24_h_after_straightening_and_not_before(tool: Bench) -> None:
    tool.do(f"part done {ORDER} 10 --by CL")
    tool.clock(EARLY)
    said = tool.refused(f"check read {ORDER} 10 flat --value '0.01 mm' --by MK")
    assert "another 13.5 h" in said and "record it as plain" in said
    said = tool.do(f"check read {ORDER} 10 flat --when plain --value '0.01 mm' --by MK")
    assert "binds nothing" in said and stands(tool, "10", "finished") == "due"
    tool.clock(LATE)
    tool.do(f"check read {ORDER} 10 flat --value '0.01 mm' --by MK")
    assert stands(tool, "10", "finished") == "accept"


def test_a_clock_that_jumped_satisfies_no_wait(tool: Bench) -> None:
    """Two days on by the wall, minutes by the machine's steady time."""
    tool.clock(DONE + ";1000")
    tool.do(f"part done {ORDER} 10 --by CL")
    tool.clock("2026-03-17T08:00:00+01:00;1300")
    said = tool.refused(f"check read {ORDER} 10 flat --value '0.01 mm' --by MK")
    assert "another 24.0 h" in said


def test_a_second_look_is_due_and_counts_only_after_its_hours(tool: Bench) -> None:
    assert "finished again" in {row["when"] for row in tool.ask(f"check list {ORDER} 20")}
    said = tool.refused(f"check read {ORDER} 20 leak --when 'finished again' --answer good --by MK")
    assert "not read a first time" in said
    tool.do(f"check read {ORDER} 20 leak --when finished --answer good --by MK")
    assert stands(tool, "20", "finished again") == "due"
    tool.clock(EARLY)
    said = tool.refused(f"check read {ORDER} 20 leak --when 'finished again' --answer good --by MK")
    assert "another 13.5 h" in said
    assert any("leak" in one["key"] and "again" in one["key"] for one in tool.ask_points(ORDER))
    tool.clock(LATE)
    tool.do(f"check read {ORDER} 20 leak --when 'finished again' --answer good --by MK")
    assert stands(tool, "20", "finished again") == "accept"
    tool.do(f"check read {ORDER} 20 leak --when finished --answer good --by MK")
    assert stands(tool, "20", "finished again") == "due again"


def test_a_second_look_at_a_place_waits_for_its_hours_too(bench: Bench) -> None:
    drop = Check("drop", "No drop", when=("fitted",), again_h=Decimal(24))
    bench.job(
        Bill("SAMPLE", "A", lines=(Line("10", "", 2, "P-10", checks=("drop",)),), checks={"drop": drop}), order=ORDER
    )
    again = f"check read {ORDER} @10 drop --when 'fitted again' --answer good --by MK"
    bench.do(f"check read {ORDER} @10 drop --when fitted --answer good --by MK")
    bench.clock(EARLY)
    assert "another 13.5 h" in bench.refused(again)
    bench.clock(LATE)
    bench.do(again)
    assert stands(bench, "@10", "fitted again") == "accept"


def test_a_first_look_by_a_wrong_clock_is_taken_once_more(tool: Bench) -> None:
    """Two days on by the wall, minutes by the machine's steady time: no hours after it are proved."""
    tool.clock(DONE + ";1000")
    tool.do(f"check read {ORDER} 20 leak --when finished --answer good --by MK")
    tool.clock("2026-03-17T08:00:00+01:00;1300")
    tool.do(f"check read {ORDER} 20 leak --when finished --answer good --by MK")
    said = tool.refused(f"check read {ORDER} 20 leak --when 'finished again' --answer good --by MK")
    assert "not read a first time, by a clock that is right" in said


def test_the_hours_run_from_the_first_look_that_holds_and_not_from_one_that_was_replaced(tool: Bench) -> None:
    """Read on the 14th and once more the next morning: what is looked at a minute later has not stood for a day."""
    first = f"check read {ORDER} 20 leak --when finished --answer good --by MK"
    tool.do(first)
    tool.clock(LATE)
    tool.do(first)
    again = f"check read {ORDER} 20 leak --when 'finished again' --answer good --by MK"
    assert "another 24.0 h" in tool.refused(again)
    (vessel,) = [one["part"] for one in tool.ask_points(ORDER) if one["key"].endswith("leak//finished again")]
    said = {"check": "leak", "when": "finished again", "verdict": "accept"}
    tool.write("check.read", vessel, order=ORDER, **said)
    assert "before its hours were over" in stands(tool, "20", "finished again")
    tool.clock("2026-03-16T08:02:00+01:00")
    tool.do(again)
    assert stands(tool, "20", "finished again") == "accept"


def test_of_two_first_looks_that_stand_side_by_side_the_hours_run_from_both(tool: Bench, second: Bench) -> None:
    """The other tablet read too, by a clock that jumped: no hours after that are proved, here as in the points."""
    tool.carry_to(second)
    first = f"check read {ORDER} 20 leak --when finished --answer good --by MK"
    tool.clock(DONE)
    tool.do(first)
    second.clock(DONE + ";1000")
    second.do(f"job received {ORDER} 10 --as 'received complete' --by MK")
    second.clock("2026-03-17T08:00:00+01:00;1300")
    second.do(first)
    second.carry_to(tool)
    tool.clock("2026-03-18T08:00:00+01:00")
    again = f"check read {ORDER} 20 leak --when 'finished again' --answer good --by MK"
    assert "not read a first time, by a clock that is right" in tool.refused(again)
    tool.do(first)
    assert "another 24.0 h" in tool.refused(again)


def test_a_result_from_the_laboratory_is_expected_and_stays_open(tool: Bench) -> None:
    later = f"check impossible {ORDER} 20 leak --when finished --why 'sample 12 at the laboratory' --by MK --expected"
    assert "is no day" in tool.refused(f"{later} soon")
    tool.do(f"{later} 2026-03-20")
    (point,) = [one for one in tool.ask_points(ORDER) if one["key"].endswith("check/leak//finished")]
    assert "expected on 2026-03-20" in point["wrong"]


def test_a_joint_is_tightened_again_after_its_hours_and_after_the_first_heat(tool: Bench) -> None:
    """The first holds closing up, the second only shipping; neither is taken before the one ahead of it."""
    joint = Joint(size="M6", torque_nm=Decimal(6), retighten_h=Decimal(24), retighten_heat=True)
    line = Line("20", "", 3, "M6", "screw", Decimal(2), kind="hardware", joint=joint)
    tool.job(Bill("J", "A", lines=(line,)), order="PO-8")
    tool.do("hardware count PO-8 20 --found 2 --by MK")
    tool.do("hardware move PO-8 20 --put-in 2 --by AS")
    tool.do("joint torque PO-8 20 --by AS")
    tool.clock(EARLY)
    assert "tightened again after another 13.5 h" in tool.refused("joint torque PO-8 20 --by AS")
    assert "no right to release" in tool.refused("joint torque PO-8 20 --early 'goes out today' --by AS")
    assert "is not due" in tool.refused("joint torque PO-8 20 --pass 'after first heat' --by AS")

    def point() -> dict[str, str]:
        return next(one for one in tool.ask_points("PO-8") if one["kind"].startswith("joint"))

    assert point()["gate"] == "closed up" and "again, after first heat" in point()["wrong"]
    tool.clock(LATE)
    tool.do("joint torque PO-8 20 --by AS")
    assert point()["gate"] == "ship" and point()["wrong"].endswith("torque due: after first heat.")
    assert "6 N m" in tool.do("joint torque PO-8 20 --by AS")
    assert not [one for one in tool.ask_points("PO-8") if one["kind"].startswith("joint")]


def test_as_many_readings_as_the_check_wants(tool: Bench) -> None:
    """Fewer are refused; the worst one decides by the maximum rule, their share by the 16 % rule."""
    checks = {
        "four": Check("four", limit=Limit("max 0.4 um", max=Decimal("0.4"), unit="um"), readings=4),
        "share": Check(
            "share", limit=Limit("max 0.4 um", max=Decimal("0.4"), unit="um"), readings=7, values_rule="16 %"
        ),
    }
    lines = (Line("10", "", 2, "P-10", "plate", checks=("four", "share")),)
    tool.job(Bill("M", "A", lines=lines, checks=checks), order="PO-6")
    tool.off("10", order="PO-6")
    values = [f"--value '0.3{n} um'" for n in range(4)]
    assert "needs 4 readings; here are 3" in tool.refused(f"check read PO-6 10 four {' '.join(values[:3])} --by MK")
    assert tool.ask(f"check read PO-6 10 four {' '.join(values)} --by MK")["verdict"] == "accept"
    over = [*values[:3], "--value '0.43 um'"]
    assert tool.ask(f"check read PO-6 10 four {' '.join(over)} --by MK")["verdict"] == "reject"
    seven = [*over, *values[:3]]  # 1 of 7 is 14 %
    assert tool.ask(f"check read PO-6 10 share {' '.join(seven)} --by MK")["verdict"] == "accept"
