"""Readings at the desk: digits and one touch each, the instrument asked once, the picture to scale. Invented data."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from teardown_app.domain.parts.instrument import standing_found_outs
from teardown_app.domain.parts.parts import own_place
from teardown_app.domain.places.checking import Needed, part_status
from teardown_app.figures.figure import BAD
from teardown_app.ui.forms.kinds import ENOUGH, RESULT
from tests.house.sources import PROJECT
from tests.patience import WHOLE_RUN_S
from tests.ui.hands import Hand, at, taken_off
from tests.ui.shop import reopened


@pytest.fixture
def bench(hand: Hand) -> Hand:
    """A technician at the rinser-dryer."""
    at(hand, "BRD-25")
    return hand


def ask(hand: Hand, key: str, check: str, when: str = "as found", spot: str = "") -> str:
    part = taken_off(hand.desk, key)
    hand.desk.open("check", thing=part, check=check, when=when, spot=spot)
    return part


def body(hand: Hand) -> dict[str, object]:
    """The last reading."""
    return dict(next(one for one in reversed(hand.desk.job.records.values()) if one.typ == "check.read").body)


def field(hand: Hand) -> str:
    asked = hand.view.field
    assert asked, hand.view.scan.says
    return asked.asks


def test_the_instrument_is_asked_once_and_then_the_last_one_is_taken(bench: Hand) -> None:
    ask(bench, "10.10", "bowl-roughness", spot="wall 0")
    assert field(bench) == "Which roughness tester?"
    bench.enter(bench.view.field.choices[0])  # type: ignore[union-attr]
    bench.enter("0.31 um")
    first = body(bench)
    assert str(first["instrument"]).startswith("M") and "unfit" not in first
    assert first["uncertainty"] == {"text": "0.0224", "unit": "um"}  # 0.01 um + 4 % of 0.31 um
    assert first["read_with"]["due"] > "2026"  # type: ignore[index]
    ask(bench, "10.10", "bowl-roughness", spot="wall 120")
    assert "Roughness" in field(bench) and "cut-off 0.8 mm, length 4 mm" in bench.view.field.hint  # type: ignore[union-attr]
    bench.enter("0.42 um")
    assert body(bench)["instrument"] == first["instrument"] and body(bench)["verdict"] == "reject"


def test_the_verdict_is_drawn_while_the_digits_come(bench: Hand) -> None:
    """Over the limit of 0.38 um the mark says no before anything is entered."""
    ask(bench, "10.10", "bowl-roughness", spot="wall 0")
    bench.enter(bench.view.field.choices[0])  # type: ignore[union-attr]
    assert bench.view.figure is not None and bench.view.figure.marks == ()
    bench.desk.typed("0.42")
    figure = bench.view.figure
    assert figure is not None
    assert (figure.marks[0].x, figure.marks[0].sign) == (0.42, "reject")
    assert next(band for band in figure.bands if band.role == BAD).left == 0.38
    bench.desk.typed("0.3")
    assert bench.view.figure.marks[0].sign == "accept"  # type: ignore[union-attr]


def test_what_was_read_before_stands_beside(bench: Hand) -> None:
    ask(bench, "10.10", "bowl-roughness", spot="wall 0")
    bench.enter(bench.view.field.choices[0])  # type: ignore[union-attr]
    bench.enter("0.36 um")
    ask(bench, "10.10", "bowl-roughness", when="finished", spot="wall 0")
    words = [word.says for word in bench.view.figure.words]  # type: ignore[union-attr]
    assert "as found 0.36" in words


def test_twelve_readings_take_their_digits_and_one_touch_each(bench: Hand) -> None:
    ask(bench, "40.10", "rotor-runout")
    bench.enter(bench.view.field.choices[0])  # type: ignore[union-attr]
    before = bench.gestures
    for n in range(12):
        assert f": {n + 1} of 12" in field(bench)
        bench.enter(f"0.{n:02d}")
    assert bench.gestures - before == 12
    read = body(bench)
    assert read["came_out"]["runout"] == {"value": pytest.approx(0.11), "unit": "mm"}  # type: ignore[index]
    assert read["verdict"] == "accept" and len(read["measured"]["readings"]) == 12  # type: ignore[index, arg-type]
    assert float(read["uncertainty"]["text"]) == pytest.approx(0.004 * 2**0.5, rel=1e-3)  # type: ignore[index]


def test_half_of_the_readings_come_back_after_a_restart(bench: Hand) -> None:
    ask(bench, "40.10", "rotor-runout")
    bench.enter(bench.view.field.choices[0])  # type: ignore[union-attr]
    bench.enter("0.01")
    bench.enter("0.02")
    bench.desk.typed("0.0")
    again = Hand(reopened(bench.desk))
    assert ": 3 of 12" in field(again) and again.view.field.draft == "0.0"  # type: ignore[union-attr]
    again.desk.slow.close()


def test_a_row_with_nothing_in_it_is_drawn_and_too_few_are_refused(bench: Hand) -> None:
    """Four diameters of the bowl, with an instrument that is known; a torn trace is refused with its line."""
    ask(bench, "10.10", "bowl-roundness")
    bench.enter(bench.view.field.choices[0])  # type: ignore[union-attr]
    assert bench.view.figure is not None and bench.view.figure.marks == ()
    bench.enter("340.1")
    assert bench.view.figure is not None and bench.view.figure.marks == ()
    for text in ("340.3", "340.2", "340.1"):
        bench.enter(text)
    assert body(bench)["value"] == {"text": "0.2", "unit": "mm"}
    folder = bench.desk.workshop.home.path / "traces"
    folder.mkdir()
    (folder / "torn.csv").write_text("x (mm);z (um)\n0;1\n0.0005;?\n", encoding="utf-8")
    ask(bench, "20.10", "land-trace")
    if "Which roughness" in field(bench):
        bench.enter(bench.view.field.choices[0])  # type: ignore[union-attr]
    bench.enter("torn.csv")
    assert bench.view.figure.marks == ()  # type: ignore[union-attr]
    bench.enter("keep it")
    assert bench.view.scan.mark == "reject" and "file" in bench.view.scan.says


def test_the_result_itself_may_be_given(bench: Hand) -> None:
    ask(bench, "40.10", "rotor-runout")
    bench.enter(bench.view.field.choices[0])  # type: ignore[union-attr]
    bench.enter(RESULT)
    bench.enter("0.31 mm")
    assert body(bench)["verdict"] == "reject" and "measured" not in body(bench)


def test_a_plate_is_read_point_by_point_with_its_heights_drawn(bench: Hand) -> None:
    part = ask(bench, "30.40", "plate-flatness")
    assert own_place(bench.desk.job, part) == "30.40"
    points = ((0, 0, 0), (90, 52, 0.012), (90, 156, -0.02), (0, 208, 0.031), (-90, 156, 0.006), (-90, 52, -0.01))
    for n, text in enumerate(f"{one:g}" for point in points for one in point):
        if n == 12:
            assert len(bench.view.figure.bands) == 4 and bench.view.figure.equal  # type: ignore[union-attr]
        bench.enter(text)
        if n == 7:  # a touch on the first square asks its height again, then it goes on where it was
            bench.desk.band(0)
            assert "row 1, z" in field(bench) and bench.view.field.draft == "0"  # type: ignore[union-attr]
            bench.enter("0.004")
            assert "row 3, z" in field(bench) or "row 3, y" in field(bench)
    out = body(bench)["came_out"]
    assert body(bench)["measured"]["points"][0] == [0, 0, 0.004]  # type: ignore[index]
    assert out["flatness"]["value"] <= out["flatness_least_squares"]["value"]  # type: ignore[index]


def test_what_cannot_be_measured_needs_a_reason_and_stays_open(bench: Hand) -> None:
    ask(bench, "40.10", "rotor-runout")
    bench.enter(bench.view.field.choices[0])  # type: ignore[union-attr]
    bench.enter("cannot be measured")
    assert "Why" in field(bench)
    bench.enter("gauge is out")
    assert [one.typ for one in bench.desk.job.records.values()][-1] == "check.not_possible"


def test_a_trace_is_chosen_from_its_folder_and_drawn(bench: Hand, tmp_path: Path) -> None:
    """Made by the formula of a sine of 0.4 um amplitude, 0.1 mm long: Ra 0.2546 um (2 A / pi)."""
    import math

    folder = bench.desk.workshop.home.path / "traces"
    folder.mkdir()
    rows = [f"{n * 0.0005:.4f};{0.4 * math.sin(2 * math.pi * n * 0.0005 / 0.1):.6f}" for n in range(9700)]
    (folder / "land.csv").write_text("x (mm);z (um)\n" + "\n".join(rows), encoding="utf-8")
    ask(bench, "20.10", "land-trace")
    bench.enter(bench.view.field.choices[0])  # type: ignore[union-attr]
    assert "land.csv" in bench.view.field.choices  # type: ignore[union-attr]
    bench.enter("land.csv")
    assert "Ra 0.255" in bench.view.figure.says  # type: ignore[union-attr]
    bench.enter("keep it")
    read = body(bench)
    assert float(read["value"]["text"]) == pytest.approx(0.2546, abs=2e-3)  # type: ignore[index]
    assert len(str(read["raw"])) == 64 and bench.desk.workshop.home.attachment(str(read["raw"]))
    assert "measured" not in read


def test_readings_over_the_jobs_are_drawn_as_a_trend(bench: Hand) -> None:
    """Of this job at once, of earlier ones of the model when they are asked for."""
    part = ask(bench, "10.10", "bowl-roughness", spot="wall 0")
    bench.enter(bench.view.field.choices[0])  # type: ignore[union-attr]
    bench.enter("0.31 um")
    workshop = bench.desk.workshop
    bill = workshop.home.path / "bills" / "brd-25"
    from teardown_app.intake.bill import read_bill

    other, _ = workshop.open_from_bill(
        read_bill(bill, workshop.materials).bill,
        bill,
        "MK",
        name="older",
        order="PO-1",
        serial="0400-01",
        due="",  # type: ignore[arg-type]
    )
    first = bench.desk.job_number
    bench.desk.go("teardown", job=other)
    ask(bench, "10.10", "bowl-roughness", spot="wall 0")
    bench.enter("0.35 um")
    bench.desk.go("part", job=first, part=part)
    bench.touch("Trend")
    assert "1 reading in this job" in bench.view.card.word
    bench.touch("Add the earlier jobs")
    bench.desk.slow._under_way[0].result(WHOLE_RUN_S)  # type: ignore[index]
    bench.desk.tick()
    assert "2 readings" in bench.view.card.word
    assert [mark.y for mark in bench.view.figure.marks] == [0.31, 0.35]  # type: ignore[union-attr]


def wall_as_found(hand: Hand) -> Needed:
    return Needed(hand.desk.job.bill.checks["bowl-roughness"], "wall 0", "as found")


def test_the_office_registers_and_finds_out_an_instrument(bench: Hand) -> None:
    number, issued = bench.desk.workshop.new_numbers("M", 1)
    bench.desk.workshop.record([issued], "MK")
    bench.touch("Office")
    bench.touch("Instruments")
    bench.touch("Register an instrument")
    bench.scan(number[0])
    for text in ("bonding tester", "box 3", "ohm", "", "", "2 %", "2026-01-10", "2099-01-10"):
        bench.enter(text)
    bench.pin()
    assert "bonding tester" in [row.text for row in bench.view.rows]
    bench.row("roughness tester")
    tester = bench.view.card.far
    part = ask(bench, "10.10", "bowl-roughness", spot="wall 0")
    bench.enter(next(one for one in bench.view.field.choices if one.startswith(tester)))  # type: ignore[union-attr]
    bench.enter("0.37 um")
    bench.touch("Found to read wrongly")
    for text in ("0.05 um", "2020-01-01", "reference specimen"):
        bench.enter(text)
    assert "1 reading in 1 job touched" in bench.view.scan.says
    assert standing_found_outs(bench.desk.workshop.shop, tester)
    assert part_status(bench.desk.job, part, wall_as_found(bench)).word == "in doubt"
    bench.take_back()
    bench.pin()
    assert not standing_found_outs(bench.desk.workshop.shop, tester)


def test_a_grid_asks_how_many_lie_in_a_row(desk: object, tmp_path: Path, hand: Hand) -> None:
    """The wet bench's plate, three in a row, until that is all."""
    bill = hand.desk.workshop.home.path / "bills" / "kbw-60"
    shutil.copytree(PROJECT / "sample_bills" / "kbw-60", bill)
    from teardown_app.intake.bill import read_bill

    hand.sign_on("MK")
    read = read_bill(bill, hand.desk.workshop.materials)
    assert read.bill is not None
    number, _ = hand.desk.workshop.open_from_bill(read.bill, bill, "MK", name="bench", order="PO-2", serial="1", due="")
    hand.desk.go("teardown", job=number)
    check = next(one for one in read.bill.checks.values() if one.type == "flatness-grid")
    key = next(one.key for one in hand.desk.job.positions.values() if check.name in one.line.checks)
    when = next(one for one in check.when if one in ("as found", "finished"))
    ask(hand, key, check.name, when=when)
    if "Which" in field(hand):
        hand.enter(hand.view.field.choices[0])  # type: ignore[union-attr]
    hand.enter("3")
    for n, text in enumerate(("0", "0.004", "0.006", "-0.005", "0.2", "-0.009", "-0.01", "-0.003", "0.008")):
        if hand.view.field is None:
            break
        hand.enter(text)
        if n == 5:  # the fifth was a slip: its square is touched
            hand.desk.band(4)
            assert "row 2, 2" in field(hand) and hand.view.field.draft.startswith("0.2")  # type: ignore[union-attr]
            hand.enter("0.02")
    if hand.view.field is not None:
        hand.enter(ENOUGH)
    assert body(hand)["came_out"]["flatness"]["value"] == pytest.approx(0.027, abs=1e-6)  # type: ignore[index]
