"""What a line asks that its kind or unit is never asked for is a fault; what stops nothing is a note."""

from __future__ import annotations

from pathlib import Path

import pytest

from teardown_app.intake.faults import Fault
from tests.bill.written import faults, lines, read, told

HEAD = "position,part_number,quantity,unit,kind,{column}"
CHECKS = '[play]\nwhen = ["fitted"]\n'
ROUTES = '[wash]\n[[wash.operation]]\nid = "wash"\n'


def asking(column: str, kind: str, value: str, unit: str = "EA") -> str:
    """Two lines; the second, in row 3, asks something in one column."""
    return lines("10,A,1,,part,", f"20,B,2,{unit},{kind},{value}", head=HEAD.format(column=column))


def said(found: list[Fault], column: str) -> list[str]:
    """Messages at one column of row 3 of the lines."""
    return [one.message for one in found if (one.file, one.row, one.column) == ("bill.csv", 3, column)]


IN_VAIN = [
    ("route", kind, "wash") for kind in ("hardware", "consumable", "temporary")
] + [
    ("matched_set", kind, "pair") for kind in ("hardware", "consumable", "temporary")
] + [
    ("renew", kind, word) for kind in ("part", "hardware", "temporary") for word in ("always", "if opened")
] + [
    ("ships", kind, "out") for kind in ("part", "hardware", "consumable")
] + [
    ("write_down", kind, word) for kind in ("hardware", "temporary") for word in ("serial", "lot")
] + [("write_down", "consumable", "serial"), ("write_down", "consumable", "serial;lot")]  # fmt: skip


@pytest.mark.parametrize(("column", "kind", "value"), IN_VAIN)
def test_what_a_kind_is_never_asked_for(tmp_path: Path, column: str, kind: str, value: str) -> None:
    reading = read(tmp_path, asking(column, kind, value), routes=ROUTES)
    assert told(reading) == [("bill.csv", 3, column)]


ASKED = [
    ("route", "part", "wash"),
    ("route", "assembly", "wash"),
    ("matched_set", "part", "pair"),
    ("matched_set", "assembly", "pair"),
    ("renew", "consumable", "always"),
    ("renew", "consumable", "if opened"),
    ("renew", "consumable", "on condition"),
    ("ships", "temporary", "out"),
    ("ships", "temporary", "in"),
    ("write_down", "part", "serial;lot"),
    ("write_down", "assembly", "serial"),
    ("write_down", "consumable", "lot"),
]


@pytest.mark.parametrize(("column", "kind", "value"), ASKED)
def test_what_a_kind_is_asked_for(tmp_path: Path, column: str, kind: str, value: str) -> None:
    """The tests above fail for the word, not for the column."""
    reading = read(tmp_path, asking(column, kind, value), routes=ROUTES)
    assert reading.faults == []
    assert said(reading.notes, column) == []


@pytest.mark.parametrize(
    ("column", "kind", "value"),
    [("renew", "part", "on condition"), ("renew", "hardware", "on condition"), ("ships", "part", "in")],
)
def test_what_a_kind_is_not_asked_for_and_nobody_misses(tmp_path: Path, column: str, kind: str, value: str) -> None:
    """A part that is replaced when it is bad has a disposition; it is in the tool when the tool ships."""
    reading = read(tmp_path, asking(column, kind, value))
    assert reading.faults == []
    assert len(said(reading.notes, column)) == 1


@pytest.mark.parametrize("unit", ["M", "MM", "CM", "FT", "IN", "KG", "G", "L", "ML"])
def test_hardware_that_is_measured_is_never_counted(tmp_path: Path, unit: str) -> None:
    assert faults(tmp_path, asking("remark", "hardware", "", unit)) == [(3, "unit")]
    assert faults(tmp_path / "c", asking("remark", "consumable", "", unit)) == []


@pytest.mark.parametrize("unit", ["AR", "REF"])
@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("route", "wash"),
        ("checks", "play"),
        ("fit_after", "10"),
        ("matched_set", "pair"),
        ("joint", "torque_nm=6 holds=10"),
        ("write_down", "lot"),
    ],
)
def test_a_line_that_makes_no_place_asks_nothing(tmp_path: Path, unit: str, column: str, value: str) -> None:
    reading = read(tmp_path, asking(column, "", value, unit), routes=ROUTES, checks=CHECKS)
    assert told(reading) == [("bill.csv", 3, column)]
    assert f"{unit} makes no place" in reading.faults[0].message


def test_what_goes_in_after_a_line_that_makes_no_place(tmp_path: Path) -> None:
    rows = lines("10,GREASE,,AR,,", "20,B,1,,,10", head=HEAD.format(column="fit_after"))
    assert faults(tmp_path, rows) == [(3, "fit_after")]


def test_a_row_of_unknown_kind_is_told_once(tmp_path: Path) -> None:
    assert faults(tmp_path, asking("renew", "gizmo", "always")) == [(3, "kind")]


def test_a_set_of_one_place_is_a_note(tmp_path: Path) -> None:
    """Another spelling, or another parent: then nothing is matched."""
    head = "position,part_number,quantity,matched_set"
    rows = lines("10,A,1,", "10.10,B,1,pair", "10.20,C,1,Pair", "20,D,1,pair", "30,E,2,combs", head=head)
    reading = read(tmp_path, rows)
    assert reading.faults == []
    assert [note.row for note in reading.notes if note.column == "matched_set"] == [3, 4, 5]


JOINTS = "position,part_number,quantity,kind,fit_after,joint"


def joint(text: str, kind: str = "hardware", fit_after: str = "") -> str:
    """A cover, a grease that makes no place, and what stands in row 4 with this joint."""
    rows = ("10,COVER,1,,,", "15,PLUG,1,,,", f'20,S,4,{kind},{fit_after},"{text}"')
    return lines(*rows, head=JOINTS)


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("torque_nm=6", "holds nothing and closes over nothing"),
        ("torque_nm=6 holds=99", "no line of this bill"),
        ("holds=99", "no line of this bill"),
        ("passes=50/100 holds=10", "passes is asked with a torque only"),
        ("retighten_h=24 holds=10", "retighten_h is asked with a torque only"),
        ("retighten_heat=yes holds=10", "retighten_heat is asked with a torque only"),
        ("tolerance=5 holds=10", "tolerance is asked with a torque only"),
        ("torque_nm=6 passes=30/70 holds=10", "no pass reaches 100 percent"),
        ("torque_nm=6 passes=50/100/100 holds=10", "one pass stands twice"),
    ],
)
def test_what_a_joint_asks_in_vain(tmp_path: Path, text: str, what: str) -> None:
    reading = read(tmp_path, joint(text))
    assert told(reading) == [("bill.csv", 4, "joint")]
    assert what in reading.faults[0].message


@pytest.mark.parametrize("kind", ["part", "assembly", "consumable", "temporary"])
def test_a_torque_is_asked_of_hardware_only(tmp_path: Path, kind: str) -> None:
    reading = read(tmp_path, joint("torque_nm=6 holds=10", kind))
    assert told(reading) == [("bill.csv", 4, "joint")]
    assert "a torque is asked of hardware" in reading.faults[0].message


@pytest.mark.parametrize(
    ("text", "fit_after"),
    [
        ("torque_nm=6 holds=10", ""),
        ("torque_nm=6", "10"),
        ("torque_nm=6 passes=30/70/100 retighten_h=24 retighten_heat=yes tolerance=5 holds=10;15", ""),
        ("size=M6 holds=10", ""),
        ("finger tight", ""),
        ("tolerance=10 size=M6", ""),
    ],
)
def test_joints_that_are_asked_or_ask_nothing(tmp_path: Path, text: str, fit_after: str) -> None:
    assert faults(tmp_path, joint(text, fit_after=fit_after)) == []


def test_a_torque_that_holds_only_what_makes_no_place_holds_nothing(tmp_path: Path) -> None:
    head = "position,part_number,quantity,unit,kind,joint"
    rows = lines("10,TAPE,,AR,,", "20,S,4,,hardware,torque_nm=6 holds=10", head=head)
    reading = read(tmp_path, rows)
    assert told(reading) == [("bill.csv", 3, "joint")]
    assert "AR and makes no place" in reading.faults[0].message
