"""Traces from files: what is read from CSV and SMD, and what is said of files that hold no whole trace."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.intake.measured import read_measured
from teardown_app.intake.traces import Trace, TraceReading, read_trace
from teardown_app.metrology.kinds import all_kinds
from teardown_app.metrology.trace import evaluate_trace

THREE = Trace(0.0005, (1.5, 1.6, -1.7))


def read(text: str, step: float | None = None) -> TraceReading:
    """A file `t` with this text."""
    return read_trace("t", text.encode(), step)


@pytest.mark.parametrize("text", [
    "x (mm),z (um)\n0,1.5\n0.0005,1.6\n0.0010,-1.7\n",
    "x (mm);z [um]\n0;1,5\n0,0005;1,6\n0,001;-1,7\n",
    "X in µm\tZ/µm\n0\t1.5\n0.5\t1.6\n1.0\t-1.7\n",
    "z (nm);x (m)\n1500;0\n1600;5e-7\n-1700;1e-6\n",
    "x;z\nmm;um\n0;1.5\n0.0005;1.6\n0.001;-1.7\n",
    "# traced by MK\nx (mm)  z (µm)\n0 1.5\n0.0005 1.6\n\n% end of the second section\n0.001 -1.7\n",
    "x um z nm\n0 1500\n0.5 1600\n1 -1700\n",
    "sep=;\nno;Weg (mm);Profil (µm)\n1;0;1,5\n2;0,0005;1,6\n3;0,001;−1,7\n",
    "Spindle 3\nDate;2024-01-01\nx (mm);z (um)\n0;1.5;\n0.0005;1.6;\n0.001;-1.7;\n",
    "x (mm);z (um)\n0.001;-1.7\n0.0005;1.6\n0;1.5\n",
    "# step: 0.5 um\nz (um)\n1.5\n1.6\n-1.7\n",
    "Schrittweite (mm);0,0005\nHöhe in µm\n1,5\n1,6\n-1,7\n",
])  # fmt: skip
def test_a_csv_trace_is_read_with_the_units_it_names(text: str) -> None:
    """Point or comma, any separator, any unit of length, comments, titles, positions in either direction."""
    found = read(text)
    assert found.faults == []
    assert found.notes == []
    assert found.trace is not None
    rows = found.trace.heights if text.split("\n")[1][:5] != "0.001" else found.trace.heights[::-1]
    assert rows == pytest.approx(THREE.heights)
    assert found.trace.step == pytest.approx(0.0005)


def test_letters_of_other_programs_are_read() -> None:
    """UTF-16 with a mark, and the micro sign of Windows."""
    text = "x (mm);z (µm)\r\n0;1,5\r\n0,0005;1,6\r\n0,001;-1,7\r\n"
    for encoding in ("utf-8-sig", "utf-16", "cp1252"):
        assert read_trace("t", text.encode(encoding)).trace == THREE


def test_units_that_are_not_given_are_told() -> None:
    """mm along and um up, as a note each; a step that is given is heeded for heights alone."""
    assert [note.message for note in read("0 1.5\n0.0005 1.6\n").notes] == [
        "no unit is given for z; um was taken", "no unit is given for x; mm was taken"]  # fmt: skip
    alone = read("1,5\n1,6\n-1,7\n", 0.0005)
    assert alone.trace == THREE
    assert len(alone.notes) == 1
    assert "not 0.001 mm as given" in read("x (mm);z (um)\n0;1\n0.5;2\n", 0.001).notes[0].message


@pytest.mark.parametrize(("text", "line", "says"), [
    ("", 0, "is empty"),
    ("no trace\nat all", 0, "no row of numbers"),
    ("1.5\n1.6\n", 0, "give the step in mm"),
    ("1,5\n1,6\n", 0, "may be a decimal comma"),
    ("z (um)\n1.5\n", 0, "one height only"),
    ("x (mm)\n1.5\n1.6\n", 2, "a column of heights z is missing"),
    ("x;distance\n0;1\n1;2\n", 2, "both columns are named as positions"),
    ("a;b;c\n0;1;2\n1;2;3\n", 2, "name one of them x and one z"),
    ("x (mm);z (V)\n0;1\n1;2\n", 1, "V is no length"),
    ("x;z\n0;1\n1;\n2;3\n", 3, "the trace has a gap"),
    ("x;z\n0;1\n1;NaN\n2;3\n", 3, "the trace has a gap"),
    ("x;z\n0;1\n1;1.234,5\n2;3\n", 3, "is not a number"),
    ("x;z\n0;1\n1;1e999\n2;3\n", 3, "is not a number"),
    ("x;z\n0;1\n1;2;9\n2;3\n", 2, "3 columns"),
    ("x;z\n0;1\n1;2\n2;3\n5;4\n6;5\n", 5, "x goes from 2 to 5 mm where 1 is usual"),
    ("x;z\n0;1\n0;2\n0;3\n", 3, "x goes from 0 to 0 mm"),
    ("x;z\n0;1\n1;2\n0;3\n1;4\n", 4, "x goes from 1 to 0 mm"),
    ("PK\x03\x04", 0, "is a workbook"),
])  # fmt: skip
def test_a_csv_that_is_no_trace_is_told_by_line(text: str, line: int, says: str) -> None:
    """And none is given."""
    found = read(text)
    assert found.trace is None
    assert [(fault.row, says in fault.message) for fault in found.faults[:1]] == [(line, True)], found.faults


def test_a_step_that_cannot_be_is_told() -> None:
    """Also where it comes from the person."""
    for step in (0.0, -0.1, float("nan"), float("inf")):
        assert "give one above 0" in read("1\n2\n", step).faults[0].message


def test_many_faults_are_counted_and_not_all_named() -> None:
    """Twenty lines of a kind, and how many more."""
    found = read("x;z\n" + "".join(f"{k};?\n" if k else "0;1\n" for k in range(101)))
    assert len(found.faults) == 21
    assert any(fault.message == "80 more lines like these" for fault in found.faults)


SMD = (
    "'ISO 5436 - 2000' 'T1'\r\nPRF 0 'ground'\r\n{x}\r\n{z}\r\n\x03\r\nDATE 01-02-2024\r\nINSTRUMENT_ID '7'\r\n\x03\r\n"
    "1.5\r\n1.6\r\n-1.7\r\n\x03\r\n41230\r\n\x03\r\n\x1a"
)
CX, CZ = "CX I 3 MM 1.0E0 D 5.0E-4", "CZ A 3 UM 1.0E0 D"


def smd(x: str = CX, z: str = CZ) -> str:
    """A file of the text form with these axes."""
    return SMD.format(x=x, z=z)


@pytest.mark.parametrize("text", [
    smd(),
    smd("CX I 3 0.0005 MM 1.0"),
    smd("CX I 3 MM 0.0005", "CZ A 3 MM 1e-3"),
    smd("CX I 3.0E+00 M 1.0E-6 D 0.5", "CZ A 3.0E+00 NM 1.0E3 D"),
    smd().replace("1.5", "0 1.5").replace("1.6", "0.5 1.6").replace("-1.7", "1 -1.7").replace(CX, "CX A 3 UM 1 D"),
    smd().replace("\r\n", "\n"),
    smd().replace("\r\n\x03\r\n", "\x03\r\n"),
    smd().replace("\x03\r\n", "").replace("\x1a", ""),
    smd().replace(" ", "\x00").replace("\r\n", "\x00\r\n"),
    smd().replace("ISO 5436 - 2000'", "ISO 5436 - 2000\x00'"),
    smd().replace("DATE 01-02-2024\r\nINSTRUMENT_ID '7'\r\n\x03\r\n", ""),
])  # fmt: skip
def test_the_text_form_of_iso_5436_2_is_read(text: str) -> None:
    """Scale and increment, marks and line ends as they come; the control sum is told to be unchecked."""
    found = read(text)
    assert found.faults == []
    assert [note.message for note in found.notes] == ["its control sum was not checked"]
    assert found.trace is not None
    assert found.trace.heights == pytest.approx(THREE.heights)
    assert found.trace.step == pytest.approx(0.0005)


@pytest.mark.parametrize(("text", "line", "says"), [
    (smd("CX I 4 MM 1 D 0.0005"), 0, "announces 4 points and holds 3"),
    (smd(z="CZ A 4 UM 1 D"), 0, "announces 4 points and holds 3"),
    (smd("CX I 3 MM 1 D"), 3, "no increment above 0"),
    (smd("CX I 3 MM 1 D -0.1"), 3, "no increment above 0"),
    (smd("CX I 3 V 1 D 0.1"), 3, "no unit of length"),
    (smd("CX B 3 MM 1 D 0.1"), 3, "no I or A"),
    (smd("EMPTY"), 0, "no line for the axis CX"),
    (smd(z="EMPTY"), 0, "no line for the axis CZ"),
    (smd().replace("1.6", "BAD"), 10, "where one height stands in every line"),
    (smd().replace("PRF", "SUR"), 2, "save one profile"),
    (smd("CX A 3 MM 1 D").replace("1.5", "0 1.5").replace("1.6", "1 1.6").replace("-1.7", "5 -1.7"), 10, "0 to 1 mm"),
])  # fmt: skip
def test_a_broken_smd_is_told_by_line(text: str, line: int, says: str) -> None:
    """And none is given."""
    found = read(text)
    assert found.trace is None
    assert [(fault.row, says in fault.message) for fault in found.faults[:1]] == [(line, True)], found.faults


@given(st.lists(st.integers(-99999, 99999), min_size=2, max_size=40), st.sampled_from([0.0005, 0.001, 0.25]),
       st.sampled_from([".", ","]))  # fmt: skip
def test_what_is_written_is_read_back(heights: list[int], step: float, mark: str) -> None:
    """CSV with point or comma, and SMD."""
    z = [k / 1000 for k in heights]
    rows = "".join(f"{k * step:.6f};{one:.3f}\n".replace(".", mark) for k, one in enumerate(z))
    count = len(z)
    text = (f"'ISO 5436 - 2000' ''\nPRF 0 ''\nCX I {count} MM 1.0 D {step}\nCZ A {count} UM 1.0 D\n\x03\n\x03\n"
            + "".join(f"{one}\n" for one in z) + "\x03\n0\n\x03\n\x1a")  # fmt: skip
    for found in (read("x (mm);z (um)\n" + rows), read(text)):
        assert found.trace is not None, found.faults
        assert found.trace.heights == pytest.approx(z, abs=1e-12)
        assert found.trace.step == pytest.approx(step)


@given(st.binary(max_size=300) | st.text(" 0123456789.,;\nxzCA'ISO5436-\x03", max_size=200).map(str.encode))
def test_whatever_the_bytes_are_something_is_said(raw: bytes) -> None:
    """A trace or faults, never an error."""
    for start in (b"", b"'ISO 5436 - 2000'\nPRF\nCX I 2 MM 1\nCZ A 2 UM 1\n"):
        found = read_trace("t", start + raw, 0.001)
        assert (found.trace is None) == bool(found.faults)


def test_a_trace_from_a_file_is_evaluated() -> None:
    """From the text to Ra."""
    x = 0.0005 * np.arange(9600)
    z = 2 * np.sin(2 * np.pi * x / 0.1)
    rows = "".join(f"{a:.4f};{b:.4f}\n" for a, b in zip(x, z, strict=True))
    trace = read("x (mm);z (um)\n" + rows).trace
    assert trace is not None
    assert evaluate_trace(trace.heights, trace.step, 0.8).parameters.ra == pytest.approx(4 / np.pi, rel=1e-3)


@pytest.mark.parametrize(
    "text", [smd(), smd().replace(" ", "\x00")], ids=["marks at ends of records", "words that end in NUL"]
)
def test_smd_is_read_at_the_doors_too(text: str) -> None:
    found = read_measured(all_kinds()["roughness-trace"], text.encode("latin-1"))
    assert found["heights"] == pytest.approx(THREE.heights) and found["step"] == pytest.approx(0.0005)
