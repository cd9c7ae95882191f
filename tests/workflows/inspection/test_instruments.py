"""Instruments: in date, in range, found out, and what that touches: readings, releases, signatures, closed jobs.

Parts, instruments, limits and readings are invented.
"""

from __future__ import annotations

from decimal import Decimal

import pypdfium2
import pytest

from teardown_app.domain.bill.bill import Bill, Check, Joint, Limit, Line
from tests.workflows.reassembly.bench import Bench

RA = Limit("max 0.4 um", max=Decimal("0.4"), unit="um")
CHECKS = {
    "ra": Check("ra", "Roughness", limit=RA, instrument="roughness tester", when=("finished",)),
    "flat": Check("flat", limit=Limit("max 20 um", max=Decimal(20), unit="um"), rule="guarded"),
    "play": Check("play", limit=Limit("max 0.2 mm", max=Decimal("0.2"), unit="mm"), when=("fitted",)),
    "look": Check("look", "No crack", instrument="lamp", qualification="measuring"),
}
SAMPLE = Bill(
    "SAMPLE",
    "A",
    lines=(
        Line("10", "", 2, "P-10", "plate", checks=("ra",)),
        Line("20", "", 3, "P-20", "cap", checks=("flat",)),
        Line("30", "", 4, "P-30", "ring", checks=("look",)),
        Line("40", "", 5, "P-40", "pin", checks=("play",)),
    ),
    checks=CHECKS,
)
ORDER = "PO-5"
SAID = "--unit um --low '0.02 um' --high '10 um' --calibrated 2026-01-10 --due 2026-12-31"


@pytest.fixture
def tool(bench: Bench) -> Bench:
    """A job with its parts off, and a roughness tester in the register."""
    bench.job(SAMPLE, order=ORDER)
    bench.off("10", "20", "30", "40", order=ORDER)
    return bench


def roughness_tester(tool: Bench, more: str = "--uncertainty '0.02 um + 3 %'", reads: str = "roughness tester") -> str:
    """An instrument with a number from a roll."""
    out = tool.home / "m.pdf"
    number = str(tool.ask(f"label roll 1 --letter M --out '{out}' --by OF")["numbers"][0])
    tool.do(f"shop instrument {number} --reads '{reads}' {SAID} {more} --by OF")
    return number


def stands(tool: Bench, place: str, check: str) -> str:
    rows = tool.ask(f"check list {ORDER} {place}")
    return str(next(row["stands"] for row in rows if row["check"] == check))


def read(tool: Bench, words: str) -> dict[str, object]:
    answer: dict[str, object] = tool.ask(f"check read {ORDER} {words} --by MK")
    return answer


def test_the_register_keeps_what_is_said_and_refuses_what_cannot_be(tool: Bench) -> None:
    number = roughness_tester(tool)
    tool.do(f"shop instrument {number} --due 2027-01-31 --by OF")
    (row,) = tool.ask("shop instruments")
    assert (row["due"], row["reads"], row["high"]) == ("2027-01-31", "roughness tester", "10 um")
    assert "is no uncertainty" in tool.refused(f"shop instrument {number} --uncertainty good --by OF")
    assert "no quantity in um" in tool.refused(f"shop instrument {number} --high '1,500 um' --by OF")
    assert "is no uncertainty" in tool.refused(f"shop instrument {number} --uncertainty '1,500 um' --by OF")
    assert "is no uncertainty" in tool.refused(f"shop instrument {number} --uncertainty '0.02 ohm' --by OF")
    error = f"shop found-out {number} --error '1,500 um' --last-good 2026-03-01 --why x --by OF"
    assert "does not say by how much" in tool.refused(error)
    for word in ("low", "high", "resolution"):
        said = tool.refused(f"shop instrument {number} --{word} '3 ohm' --by OF")
        assert f"{word} “3 ohm” is no quantity in um" in said
    assert "before it was calibrated" in tool.refused(f"shop instrument {number} --due 2025-01-01 --by OF")
    assert "do office work" in tool.refused(f"shop instrument {number} --due 2027-01-31 --by MK")
    part = tool.ask(f"label roll 1 --letter P --out '{tool.home / 'p.pdf'}' --by OF")["numbers"][0]
    assert "begins with M" in tool.refused(f"shop instrument {part} --reads x --by OF")


def test_an_instrument_in_date_and_range_lets_the_part_be_released(tool: Bench) -> None:
    number = roughness_tester(tool)
    answer = read(tool, f"10 ra --value '0.31 um' --instrument {number}")
    assert answer["verdict"] == "accept" and "unfit" not in answer
    assert stands(tool, "10", "ra") == "accept"


@pytest.mark.parametrize(
    "value, more, why",
    [
        ("0.3 um", "--due 2026-03-13", "was due on 2026-03-13"),
        ("0.01 um", "", "out of the range"),
        ("0.3 um", "--out", "out of use"),
    ],
)
def test_what_is_overdue_or_out_of_range_is_recorded_and_releases_nothing(
    tool: Bench, value: str, more: str, why: str
) -> None:
    number = roughness_tester(tool)
    if more:
        tool.do(f"shop instrument {number} {more} --by OF")
    answer = read(tool, f"10 ra --value '{value}' --instrument {number}")
    assert answer["verdict"] == "accept" and why in str(answer["unfit"])
    assert stands(tool, "10", "ra") == "not fit to release"
    assert any(why in point["wrong"] for point in tool.ask_points(ORDER))
    tool.do(f"part judge {ORDER} 10 --as 'use as is' --by OF")
    assert "not fit to release" in tool.refused(f"part release {ORDER} 10 --by OF")


def test_the_clock_proves_no_date(tool: Bench) -> None:
    """An instrument in date on a tablet whose clock was never set."""
    number = roughness_tester(tool)
    tool.clock("2001-01-01T08:00:00+01:00")
    assert "clock is not right" in str(read(tool, f"10 ra --value '0.3 um' --instrument {number}")["unfit"])


def test_once_the_shop_has_one_the_check_wants_it_named(tool: Bench) -> None:
    """A shop that keeps no register is not asked."""
    assert "unfit" not in read(tool, "10 ra --value '0.3 um'")
    roughness_tester(tool)
    assert "no roughness tester is named" in str(read(tool, "10 ra --value '0.3 um'")["unfit"])


def test_an_instrument_for_something_else_is_said(tool: Bench) -> None:
    roughness_tester(tool)
    other = roughness_tester(tool, reads="torque wrench")
    said = str(read(tool, f"10 ra --value '0.3 um' --instrument {other}")["unfit"])
    assert "reads torque wrench, not roughness tester" in said


def test_the_guarded_rule_needs_the_uncertainty_and_decides_by_it(tool: Bench) -> None:
    """ISO 14253-1: 20 um, U = 2 um (u = 1 um): accepted up to 20 - 1.645 = 18.36 um, rejected beyond 21.645 um."""
    assert "needs the uncertainty" in tool.refused(f"check read {ORDER} 20 flat --value '18 um' --by MK")
    verdicts = [
        read(tool, f"20 flat --value '{value} um' --uncertainty '2 um'")["verdict"]
        for value in ("18.3", "18.4", "20", "21.6", "21.7")
    ]
    assert verdicts == ["accept", "inconclusive", "inconclusive", "inconclusive", "reject"]


def test_a_qualification_is_asked_for_once_somebody_holds_it(tool: Bench) -> None:
    assert "unfit" not in read(tool, "30 look --answer good")
    tool.do("shop person CL --right record --qualification measuring=2026-03-01 --by OF")
    assert "MK holds no qualification for measuring" in str(read(tool, "30 look --answer good")["unfit"])
    tool.do("shop person MK --right record --qualification measuring=2026-03-14 --by OF")
    assert "unfit" not in read(tool, "30 look --answer good")


# found out


def found_out(tool: Bench, number: str, error: str, last_good: str = "2026-03-10") -> dict[str, object]:
    answer: dict[str, object] = tool.ask(
        f"shop found-out {number} --error '{error}' --last-good {last_good} --why 'reference specimen' --by OF"
    )
    return answer


@pytest.mark.parametrize(
    "value, error, again",
    [
        ("0.38 um", "0.05 um", True),  # 0.43 would be over 0.4
        ("0.30 um", "0.05 um", False),
        ("0.38 um", "+0.05 um", False),  # it showed too much: in truth 0.33
        ("0.38 um", "-0.05 um", True),
        ("0.38 um", "-50 nm", True),
        ("0.39 um", "-2 %", False),  # 0.39 / 0.98 = 0.398
        ("0.39 um", "-3 %", True),  # 0.39 / 0.97 = 0.402
        ("0.10 um", "1 ohm", True),  # nobody can compute that
    ],
)
def test_only_readings_whose_verdict_the_error_could_change_are_due_again(
    tool: Bench, value: str, error: str, again: bool
) -> None:
    number = roughness_tester(tool)
    read(tool, f"10 ra --value '{value}' --instrument {number}")
    answer = found_out(tool, number, error)
    (row,) = answer["touched"]  # type: ignore[misc]
    assert row["becomes"] == ("due again" if again else "stands")
    assert stands(tool, "10", "ra") == ("in doubt" if again else "accept")


def test_readings_up_to_the_last_good_day_are_not_touched(tool: Bench) -> None:
    number = roughness_tester(tool)
    read(tool, f"10 ra --value '0.38 um' --instrument {number}")
    assert found_out(tool, number, "0.05 um", "2026-03-14")["touched"] == []
    assert stands(tool, "10", "ra") == "accept"


def test_a_doubtful_reading_lapses_the_release_and_the_signature_until_read_again(tool: Bench) -> None:
    number = roughness_tester(tool)
    read(tool, f"10 ra --value '0.38 um' --instrument {number}")
    tool.do(f"part judge {ORDER} 10 --as 'use as is' --by OF")
    tool.do(f"part release {ORDER} 10 --by OF")
    tool.do(f"part fit {ORDER} 10 10 --by AS")
    tool.do(f"job sign {ORDER} --position 10 --meaning approved --by OF")
    before = {point["kind"] for point in tool.ask_points(ORDER) if point["position"] == "10"}
    assert not before & {"not released", "sign again", "check due"}
    found_out(tool, number, "0.05 um")
    points = [point for point in tool.ask_points(ORDER) if point["position"] == "10"]
    assert {"sign again", "check due"} <= {point["kind"] for point in points}
    assert any("found out by 0.05 um; last known good on 2026-03-10" in point["wrong"] for point in points)

    tool.clock("2026-03-16T08:00:00+01:00")
    assert "has not been calibrated since" in str(read(tool, f"10 ra --value '0.3 um' --instrument {number}")["unfit"])
    tool.do(f"shop instrument {number} --calibrated 2026-03-15 --by OF")
    assert "unfit" not in read(tool, f"10 ra --value '0.3 um' --instrument {number}")
    assert stands(tool, "10", "ra") == "accept"
    tool.do(f"job sign {ORDER} --position 10 --meaning approved --by OF")
    left = {one["kind"] for one in tool.ask_points(ORDER) if one["position"] == "10"}
    assert not left & {"not released", "sign again", "check due"}


def test_recall_names_open_and_closed_jobs_and_writes_a_notice_by_order_reference(tool: Bench) -> None:
    """A closed job is flagged and never reopened."""
    number = roughness_tester(tool)
    read(tool, f"10 ra --value '0.38 um' --instrument {number}")
    second = tool.job(SAMPLE, order="PO-9")
    tool.off("10", order="PO-9")
    tool.ask(f"check read PO-9 10 ra --value '0.2 um' --instrument {number} --by MK")
    tool.write("job.closed", "job", order="PO-9")
    found_out(tool, number, "0.05 um")
    answer = tool.ask(f"shop recall {number} --notice '{tool.home / 'notices'}'")
    assert len(answer["jobs"]) == 2 and answer["closed"] == [second]
    assert sorted(row["becomes"] for row in answer["readings"]) == ["due again", "stands"]
    (file,) = answer["notices"]
    text = pypdfium2.PdfDocument(file)[0].get_textpage().get_text_bounded()
    assert "order PO-9" in text and "0.2 um" in text and "stands" in text
    (row,) = [row for row in tool.ask("job list") if row["job"] == second]
    assert number in row["instruments"]


def test_a_wrench_that_was_found_out_makes_its_torques_due_again_and_is_recalled(bench: Bench) -> None:
    """Bills give no tolerance for a torque: any error counts. The job is named, the joint says why."""
    joint = Joint(size="M6", torque_nm=Decimal(6))
    screws = Line("20", "", 3, "M6", "screw", Decimal(2), kind="hardware", joint=joint)
    lines = (Line("10", "", 2, "P-10", "plate"), screws)
    bench.job(Bill("J", "A", lines=lines), order=ORDER)
    number = roughness_tester(bench, "", "torque wrench")
    bench.do(f"shop instrument {number} --reads 'torque wrench' --unit 'N m' --low '2 N m' --high '10 N m' --by OF")
    bench.do(f"hardware count {ORDER} 20 --found 2 --by MK")
    bench.do(f"hardware move {ORDER} 20 --put-in 2 --by AS")
    bench.do(f"joint torque {ORDER} 20 --instrument {number.lower()} --torque '6 N m' --by AS")
    assert not [one for one in bench.ask_points(ORDER) if one["kind"].startswith("joint")]
    answer = found_out(bench, number, "3 %")
    (row,) = answer["touched"]  # type: ignore[misc]
    assert (row["position"], row["check"], row["value"], row["becomes"]) == ("20", "torque", "6 N m", "due again")
    (point,) = [one for one in bench.ask_points(ORDER) if one["kind"].startswith("joint")]
    assert f"wrench {number} was found out by 3 %" in point["wrong"]
    assert len(bench.ask(f"shop recall {number}")["jobs"]) == 1


def test_clearing_an_instrument_lifts_the_doubt(tool: Bench) -> None:
    number = roughness_tester(tool)
    read(tool, f"10 ra --value '0.38 um' --instrument {number}")
    found_out(tool, number, "0.05 um")
    assert "no right to release" in tool.refused(f"shop cleared {number} --why 'specimen was dirty' --by MK")
    tool.do(f"shop cleared {number} --why 'specimen was dirty' --by OF")
    assert stands(tool, "10", "ra") == "accept"
    assert tool.ask(f"shop recall {number}")["readings"] == []
    assert "Nothing stands against" in tool.refused(f"shop cleared {number} --why again --by OF")


def test_another_tablet_hears_of_it_and_comes_to_the_same(tool: Bench, second: Bench) -> None:
    number = roughness_tester(tool)
    read(tool, f"10 ra --value '0.38 um' --instrument {number}")
    found_out(tool, number, "0.05 um")
    tool.carry_to(second)
    assert stands(second, "10", "ra") == "in doubt"


def test_a_qualification_that_had_lapsed_names_the_readings_it_touches(tool: Bench) -> None:
    """By today's register; a reading recorded as fit stands, one that was kept as unfit is due again."""
    tool.do("shop person MK --right record --qualification measuring=2026-12-31 --by OF")
    tool.do(f"check read {ORDER} 30 look --answer good --by MK")
    tool.do("shop person MK --right record --qualification measuring=2026-03-01 --by OF")
    (row,) = tool.ask("shop recall MK --qualification measuring")["readings"]
    assert (row["check"], row["becomes"]) == ("look", "stands") and "held no qualification" in row["why"]
    tool.do(f"check read {ORDER} 30 look --answer good --by MK")
    rows = tool.ask("shop recall MK --qualification measuring")["readings"]
    assert sorted(row["becomes"] for row in rows) == ["due again", "read again since"]
    assert tool.ask("shop recall CL --qualification measuring")["readings"] == []


def test_the_uncertainty_goes_through_the_formula_of_a_kind(tool: Bench) -> None:
    """Largest less smallest of two diameters, each +-0.004 mm: the root of two times that (JCGM 100, 5.1.2)."""
    check = Check(
        "round", limit=Limit("max 0.02 mm", max=Decimal("0.02"), unit="mm"), type="diameters", instrument="micrometer",
        readings=2, rule="guarded",
    )  # fmt: skip
    tool.job(Bill("D", "A", lines=(Line("10", "", 2, "P-10", "pin", checks=("round",)),), checks={"round": check}),
             order="PO-7")  # fmt: skip
    tool.off("10", order="PO-7")
    number = roughness_tester(tool, "--unit mm --low '0 mm' --high '25 mm' --uncertainty '0.004 mm'", "micrometer")
    file = tool.home / "d.csv"
    file.write_text("diameters\n10.000\n10.012\n", encoding="utf-8")
    command = f"check read PO-7 10 round --input '{file}' --instrument {number} --by MK"
    answer = tool.ask(command)
    assert answer["verdict"] == "accept" and "unfit" not in answer  # 0.012 + 1.645 x 0.002828 = 0.0167
    with tool.open() as workshop:
        job = workshop.find_job("PO-7").job
        body = next(one.body for one in job.records.values() if one.typ == "check.read")
    assert float(body["uncertainty"]["text"]) == pytest.approx(0.004 * 2**0.5, rel=1e-4)
    given = f"check read PO-7 10 round --value '0.012 mm' --instrument {number} --by MK"
    assert "needs the uncertainty" in tool.refused(given), "the instrument's own is not that of a result"
    assert tool.ask(f"{given} --uncertainty '0.004 mm'")["verdict"] == "accept"
    file.write_text("diameters\n10.000\n10.018\n", encoding="utf-8")
    assert tool.ask(command)["verdict"] == "inconclusive"
    file.write_text("diameters\n10.000\n26.0\n", encoding="utf-8")
    assert "26 mm is out of the range" in str(tool.ask(command)["unfit"])
    file.write_text("diameters\n10.000\n", encoding="utf-8")
    assert "needs 2 readings; here are 1" in tool.refused(command)
