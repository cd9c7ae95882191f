"""The other files of a bill: about, gates, recipes, callouts, drawings, joints; and files that are broken."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from teardown_app.domain.bill.bill import Joint
from teardown_app.domain.bill.gate import GATES
from teardown_app.intake.bill import read_bill
from tests.bill.written import ABOUT, faults, folder, good, lines, materials, notes, read, told

ONE = "position,part_number,quantity\n10,A,1\n"
TREE = "position,part_number,quantity\n10,A,2\n10.10,B,1\n"


@pytest.mark.parametrize(
    ("about", "at"),
    [
        ('revision = "A"\n', [(1, "model")]),
        ('model = "M"\n', [(1, "revision")]),
        ("", [(1, "model"), (1, "revision")]),
        ('model = "M"\nrevision = ""\n', [(2, "revision")]),
        ('model = " "\nrevision = "A"\n', [(1, "model")]),
        ('model = ["M"]\nrevision = "A"\n', [(1, "model")]),
        ('model = "M"\nrevision = "A"\n[columns]\n"No" = "numero"\n', [(4, "No")]),
        ('model = "M"\nrevision = "A"\ncolumns = 3\n', [(3, "columns")]),
        ('model = "M"\nrevision "A"\n', [(2, "")]),
        ('model = "M\n', [(1, "")]),
    ],
)
def test_what_a_bill_must_say_of_itself(tmp_path: Path, about: str, at: list[tuple[int, str]]) -> None:
    reading = read(tmp_path, ONE, about=about)
    assert told(reading) == [("bill.toml", row, column) for row, column in at]
    assert (reading.bill, reading.positions) == (None, 1)


def test_numbers_are_taken_as_they_are_written(tmp_path: Path) -> None:
    bill = good(tmp_path, ONE, about="model = 150\nrevision = 3.10\n")
    assert (bill.model, bill.revision) == ("150", "3.10")


def test_who_approved_and_unknown_keys_are_notes(tmp_path: Path) -> None:
    reading = read(tmp_path, ONE, about='model = "M"\nrevision = "A"\ncolour = "red"\n')
    assert reading.faults == []
    assert {(note.file, note.row, note.column) for note in reading.notes} == {
        ("bill.toml", 3, "colour"),
        ("bill.toml", 1, "approved_by"),
    }


def test_files_that_must_be_there(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    reading = read_bill(tmp_path / "empty", materials())
    assert {fault.file for fault in reading.faults} == {"bill.toml", "bill.csv"}
    assert (reading.bill, reading.positions) == (None, None)
    place = folder(tmp_path / "b", ONE)
    (place / "bill.toml").unlink()
    reading = read_bill(place, materials())
    assert [fault.file for fault in reading.faults] == ["bill.toml"]
    assert reading.positions == 1


def test_file_names_match_without_case(tmp_path: Path) -> None:
    place = folder(tmp_path, ONE)
    (place / "bill.csv").rename(place / "Bill.CSV")
    assert read_bill(place, materials()).faults == []


@pytest.mark.parametrize("name", ["nothing", "bill.csv", "tool.xls", "tool.ods"])
def test_a_path_that_is_no_bill(tmp_path: Path, name: str) -> None:
    if name != "nothing":
        (tmp_path / name).write_text(ONE)
    reading = read_bill(tmp_path / name, materials())
    assert [(fault.file, fault.row) for fault in reading.faults] == [(name, 0)]


def test_a_file_that_is_no_file(tmp_path: Path) -> None:
    place = folder(tmp_path, None)
    (place / "bill.csv").mkdir()
    assert told(read_bill(place, materials())) == [("bill.csv", 0, "")]


@contextmanager
def as_nobody() -> Iterator[None]:
    """Root may read everything: for a while this process has the rights of nobody (65534 by common practice)."""
    user = os.geteuid()
    if user == 0:
        os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(user)


@pytest.mark.skipif(sys.platform == "win32", reason="rights of files are those of POSIX")
def test_a_file_that_may_not_be_read() -> None:
    with TemporaryDirectory() as home:
        Path(home).chmod(0o755)
        place = folder(Path(home) / "bill", ONE)
        assert read_bill(place, materials()).faults == []
        (place / "bill.csv").chmod(0)
        with as_nobody():
            reading = read_bill(place, materials())
    assert told(reading) == [("bill.csv", 0, "")]


@pytest.mark.parametrize(
    "raw", [b"", b"\x00\x01\x02\x03", b"PK\x03\x04zip", b"\xff\xfe\x00", bytes(range(256)), b"\xef\xbb\xbf"]
)
def test_a_table_that_is_none(tmp_path: Path, raw: bytes) -> None:
    reading = read(tmp_path, raw)
    assert {fault.file for fault in reading.faults} == {"bill.csv"}
    assert (reading.bill, reading.positions) == (None, None)


def test_a_table_of_two_hundred_megabytes(tmp_path: Path) -> None:
    place = folder(tmp_path, ONE)
    with (place / "bill.csv").open("ab") as file:
        file.truncate(200_000_000)
    assert told(read_bill(place, materials())) == [("bill.csv", 0, "")]


@pytest.mark.parametrize("name", ["checks", "routes", "gates", "recipes"])
def test_a_syntax_error_stands_at_its_line(tmp_path: Path, name: str) -> None:
    head = "position,part_number,quantity,material,route,checks"
    reading = read(
        tmp_path,
        lines("10,A,1,PTFE,r,c", head=head),
        **{
            "checks": "[c]\n",
            "routes": '[r]\n[[r.operation]]\nid = "x"\n',
            name: "# one\n[c]\nsays = \n[r]\n",
        },
    )
    assert told(reading) == [(f"{name}.toml", 3, "")]
    assert reading.positions == 1


def test_toml_of_any_make_is_no_traceback(tmp_path: Path) -> None:
    for number, text in enumerate(
        (
            "[" * 5000,
            "a=" + "[" * 5000,
            "a" + ".a" * 5000 + "=1",
            "a={" * 200,
            "\x00",
            "[a]\n[a]\n",
            "a=1\na=2\n",
        )
    ):
        assert {fault.file for fault in read(tmp_path / str(number), ONE, checks=text).faults} == {"checks.toml"}


@pytest.mark.parametrize("text", ["a=" + "[" * 5000, "a" + ".a" * 5000 + "=1", b"\x00\x01\x02"])
def test_what_is_wrong_with_a_toml_file_as_a_whole_stands_at_no_line(tmp_path: Path, text: str | bytes) -> None:
    """Somebody would look for a line that is not there."""
    assert told(read(tmp_path, ONE, checks=text)) == [("checks.toml", 0, "")]


def test_gates_in_their_order(tmp_path: Path) -> None:
    text = '[ship]\n[closed_up]\nassemblies = ["10"]\n["Power-On"]\nassemblies = "10;10.10"\n[decontaminated]\n'
    bill = good(tmp_path, TREE, gates=text)
    assert list(bill.gates) == ["decontaminated", "closed up", "power on", "ship"]
    assert bill.gates["power on"].assemblies == ("10", "10.10")


def test_gates_as_plain_lists_and_by_their_other_names(tmp_path: Path) -> None:
    bill = good(tmp_path, TREE, gates='"dry check" = ["10"]\n"wet check" = []\nship = true\n')
    assert list(bill.gates) == ["power on", "water on", "ship"]


@pytest.mark.parametrize(
    "text",
    [
        'gates = ["ship", "isolated"]\n',
        "[gates]\nship = []\nisolated = true\n",
        '[[gate]]\nname = "ship"\n[[gate]]\nname = "isolated"\nassemblies = []\n',
    ],
)
def test_gates_in_one_list(tmp_path: Path, text: str) -> None:
    assert list(good(tmp_path, TREE, gates=text).gates) == ["isolated", "ship"]


def test_every_gate_is_known(tmp_path: Path) -> None:
    bill = good(tmp_path, ONE, gates="".join(f'["{gate}"]\n' for gate in reversed(GATES)))
    assert tuple(bill.gates) == GATES


def test_wrong_gates(tmp_path: Path) -> None:
    text = '[lunch]\n[ship]\nassemblies = ["99"]\n[isolated]\nassemblies = 3\nwho = "x"\n'
    reading = read(tmp_path, ONE, gates=text)
    assert told(reading) == [
        ("gates.toml", 1, "lunch"),
        ("gates.toml", 3, "assemblies"),
        ("gates.toml", 5, "assemblies"),
    ]
    assert ("gates.toml", 6, "who") in [(note.file, note.row, note.column) for note in reading.notes]


def test_recipes_are_kept_as_they_are(tmp_path: Path) -> None:
    text = '[rinse]\ncycles = 3\nspeed = 1.5\nsince = 2026-01-01\nsteps = [{ valve = "V1", seconds = 30 }]\n'
    bill = good(tmp_path, ONE, recipes=text)
    assert bill.recipes == {
        "rinse": {"cycles": 3, "speed": 1.5, "since": "2026-01-01", "steps": [{"valve": "V1", "seconds": 30}]}
    }


CALLOUTS = "drawing,position,x,y\n"


def test_callouts_name_lines_or_positions(tmp_path: Path) -> None:
    text = CALLOUTS + "a.png,10.10,0,1\ndrawings/a.png,10/2.10,0.5,0.25\n"
    bill = good(tmp_path, TREE, callouts=text, drawings="a.png")
    assert [(each.drawing, each.position, each.x, each.y) for each in bill.callouts] == [
        ("drawings/a.png", "10.10", 0.0, 1.0),
        ("drawings/a.png", "10/2.10", 0.5, 0.25),
    ]


@pytest.mark.parametrize(
    ("row", "column"),
    [
        ("b.png,10,0,0", "drawing"),
        (",10,0,0", "drawing"),
        ("../bill.csv,10,0,0", "drawing"),
        ("/etc/passwd,10,0,0", "drawing"),
        ("C:\\a.png,10,0,0", "drawing"),
        ("a.png,99,0,0", "position"),
        ("a.png,10/3,0,0", "position"),
        ("a.png,,0,0", "position"),
        ("a.png,10,1.1,0", "x"),
        ("a.png,10,0,-0.1", "y"),
        ("a.png,10,left,0", "x"),
        ("a.png,10,0,", "y"),
        ("a.png,=10,0,0", "position"),
    ],
)
def test_wrong_callouts(tmp_path: Path, row: str, column: str) -> None:
    reading = read(tmp_path, TREE, callouts=CALLOUTS + f"a.png,10,0.5,0.5\n{row}\n", drawings="a.png")
    assert told(reading) == [("callouts.csv", 3, column)]


def test_callouts_without_their_columns(tmp_path: Path) -> None:
    assert told(read(tmp_path, ONE, callouts="drawing,x\n")) == [
        ("callouts.csv", 1, "position"),
        ("callouts.csv", 1, "y"),
    ]


def test_callouts_with_decimal_comma(tmp_path: Path) -> None:
    bill = good(tmp_path, ONE, callouts="Zeichnung;Pos;x;y\na.png;10;0,5;0,125\n", drawings="a.png")
    assert (bill.callouts[0].x, bill.callouts[0].y) == (0.5, 0.125)


def test_a_link_out_of_the_folder_is_no_drawing(tmp_path: Path) -> None:
    place = folder(tmp_path / "bill", ONE, callouts=CALLOUTS + "a.png,10,0,0\n", drawings="b.png")
    (tmp_path / "secret.png").write_bytes(b"secret")
    try:
        (place / "drawings" / "a.png").symlink_to(tmp_path / "secret.png")
    except OSError:
        pytest.skip("this system makes no links")
    assert told(read_bill(place, materials())) == [("callouts.csv", 2, "drawing")]


@pytest.mark.parametrize("name", ["10.png", "10 bowl.png", "10_bowl.svg", "A.jpg", "a.png"])
def test_a_drawing_belongs_to_the_assembly_it_is_named_for(tmp_path: Path, name: str) -> None:
    place = folder(tmp_path, TREE)
    (place / "drawings").mkdir()
    (place / "drawings" / name).write_bytes(b"picture")
    bill = read_bill(place, materials()).bill
    assert bill is not None
    assert bill.drawings == {"10": f"drawings/{name}"}


def test_a_drawing_belongs_to_the_assembly_above_all_it_calls_out(tmp_path: Path) -> None:
    rows = lines("10,A,1", "10.10,B,1", "10.20,C,1", "10.20.5,D,1")
    text = CALLOUTS + "view.png,10.10,0,0\nview.png,10.20.5,0,0\ndetail.png,10.20.5,0,0\n"
    bill = good(tmp_path, rows, callouts=text, drawings="view.png detail.png")
    assert bill.drawings == {"10": "drawings/view.png", "10.20": "drawings/detail.png"}


def test_a_photo_that_is_the_name_of_a_file_must_be_there(tmp_path: Path) -> None:
    rows = lines(
        "10,A,1,from the front",
        "20,B,1,seal.png",
        "30,C,1,gone.png",
        head="position,part_number,quantity,photo",
    )
    assert faults(tmp_path, rows, drawings="seal.png") == [(4, "photo")]


def test_a_joint_with_all_its_words(tmp_path: Path) -> None:
    text = (
        "size=M6 class=A4-70 torque_nm=6 pattern=cross passes=30/70/100 lubricant=anti-seize "
        "retighten_h=24 tolerance=4 holds=40.20;40.30"
    )
    head = "position,part_number,quantity,kind,joint"
    rows = lines("40,A,1,,", "40.20,B,1,,", "40.30,C,1,,", f"40.90,S,8,hardware,{text}", head=head)
    bill = good(tmp_path, rows)
    assert bill.lines[3].joint == Joint(
        "M6",
        "A4-70",
        Decimal(6),
        "cross",
        (Decimal(30), Decimal(70), Decimal(100)),
        "anti-seize",
        Decimal(24),
        ("40.20", "40.30"),
        tolerance_percent=Decimal(4),
    )
    assert [each.key for held in ("40.20", "40.30") for each in bill.nearest("40.90", held)] == [
        "40.20",
        "40.30",
    ]


JOINTS = "position,part_number,quantity,kind,joint"
HELD = ("40,A,1,,", "40.20,B,1,,", "40.30,C,1,,")


def with_joint(text: str) -> str:
    """A bill whose screws, in row 5, have this joint."""
    cell = text.replace('"', '""')
    return lines(*HELD, f'40.90,S,8,hardware,"{cell}"', head=JOINTS)


@pytest.mark.parametrize(
    ("text", "joint"),
    [
        ("torque_nm=0,5 holds=40.20", Joint(torque_nm=Decimal("0.5"), holds=("40.20",))),
        ("hand tight", Joint(note="hand tight")),
        ("SIZE=M6", Joint(size="M6")),
        ("size=M6 hand tight", Joint(size="M6", note="hand tight")),
        ("holds=40.20; 40.30 size=M6", Joint(size="M6", holds=("40.20", "40.30"))),
        ('lubricant="anti seize"', Joint(lubricant="anti seize")),
        ("angle=90", Joint(note="angle=90")),
        ("M6;A4-70;6 N.m holds=40.20", Joint("M6", "A4-70", Decimal(6), holds=("40.20",))),
        ("M6, A4-70, hand tight", Joint("M6", "A4-70", note="hand tight")),
        ("M8x1,25 8.8", Joint("M8x1,25", "8.8")),
        ("6 Nm size=M6 holds=40.20", Joint("M6", torque_nm=Decimal(6), holds=("40.20",))),
        ("10.9; 10.9 Nm; holds=40.20", Joint("", "10.9", Decimal("10.9"), holds=("40.20",))),
    ],
)
def test_joints(tmp_path: Path, text: str, joint: Joint) -> None:
    reading = read(tmp_path, with_joint(text))
    assert reading.faults == []
    assert reading.bill is not None
    assert reading.bill.lines[3].joint == joint
    assert ((5, "joint") in notes(reading)) == bool(joint.note)


def test_a_torque_of_another_unit_is_one_in_newton_metres(tmp_path: Path) -> None:
    """1 lbf in = 0.112 984 8 N m (NIST SP 811, appendix B.8)."""
    bill = read(tmp_path, with_joint("M6; 50 lbf-in holds=40.20")).bill
    assert bill is not None and bill.lines[3].joint is not None
    assert float(bill.lines[3].joint.torque_nm or 0) == pytest.approx(50 * 0.1129848, rel=1e-6)


@pytest.mark.parametrize(
    "text",
    ["M6; M8", "size=M6 M8", "6 Nm; 8 Nm", "torque_nm=6 8 Nm holds=40.20", "A4-70 8.8",
     "M6; 6,000 Nm", "M6; 0 Nm", "M6; 0.6 kgm",
     "M 6", "A470", "M6; 6 N", "6 nm"],
)  # fmt: skip
def test_what_looks_like_a_joint_and_cannot_be_read_is_asked(tmp_path: Path, text: str) -> None:
    assert told(read(tmp_path, with_joint(text))) == [("bill.csv", 5, "joint")]


@pytest.mark.parametrize(
    "word", ["torque_nm=6Nm", "torque_nm=-6", "torque_nm=tight", "passes=30/x", "passes=0/100", "retighten_h=soon",
             "retighten_heat=maybe"]
)  # fmt: skip
def test_a_word_of_a_joint_whose_value_cannot_be_meant(tmp_path: Path, word: str) -> None:
    """Kept as text it would be asked of nobody."""
    reading = read(tmp_path, with_joint(f"{word} torque_nm=6 holds=40.20" if "torque" not in word else word))
    assert told(reading) == [("bill.csv", 5, "joint")]
    assert word in reading.faults[0].message


def tolerance_of(place: Path, words: str) -> Decimal:
    """How far a torque may lie off its target, as a bill with these words says."""
    joint = good(place, with_joint(f"torque_nm=6 {words} holds=40.20")).lines[3].joint
    assert joint is not None
    return joint.tolerance_percent


@pytest.mark.parametrize(("words", "percent"), [("tolerance=4", "4"), ("tolerance=2,5", "2.5"), ("Tolerance=7%", "7")])
def test_the_tolerance_of_a_torque_is_in_percent(tmp_path: Path, words: str, percent: str) -> None:
    assert tolerance_of(tmp_path, words) == Decimal(percent)


def test_a_bill_that_says_no_tolerance_has_ours(tmp_path: Path) -> None:
    # 10 percent: our own figure, no source.
    assert tolerance_of(tmp_path, "") == Decimal(10)


@pytest.mark.parametrize("value", ["0", "-5", "100", "120", "some", "5Nm", "%", "1,500"])
def test_a_tolerance_that_is_none(tmp_path: Path, value: str) -> None:
    """Above 0 and below 100: at 100 a screw that nobody tightened would do."""
    reading = read(tmp_path, with_joint(f"torque_nm=6 tolerance={value} holds=40.20"))
    assert told(reading) == [("bill.csv", 5, "joint")]
    assert f"tolerance={value}" in reading.faults[0].message


def test_notes_go_with_the_bill(tmp_path: Path) -> None:
    bill = good(tmp_path, TREE, about=ABOUT)
    assert any("10 has no drawing" in note for note in bill.notes)
