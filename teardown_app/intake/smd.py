"""A trace in the text form of ISO 5436-2 (SMD): records that end in ETX, of lines.

Record 1 holds the revision (ISO 5436 - 2000) and a name, the feature (PRF), and a line for every axis: name CX or CZ,
I for increments or A for values, number of points, unit, scale, form of the numbers, and for CX I the increment, as
`CX I 8000 MM 1.0E0 D 0.0005` and `CZ A 8000 UM 1.0E0 D`. Records between hold words about the instrument and are let
be. The record of numbers holds one height a line, or position and height where CX is A. The last record holds a
control sum, which is not checked. A value in its unit is number x scale (x increment for I). The order on an axis line
is from memory; it is read by what the words are, so that a number of points and an increment before the unit do as
well. A word may end in NUL. Where the ETX marks were lost on the way, the numbers are those that follow the words.
"""

from __future__ import annotations

import re

from attrs import frozen

from teardown_app.domain.measure.reading import could_be_either
from teardown_app.intake.faults import Findings, Place
from teardown_app.intake.trace_rows import value_of
from teardown_app.intake.trace_units import UM_IN_MM, length_in_mm
from teardown_app.metrology.trace_checks import point_spacing

_REVISION = re.compile(r"ISO\s*5436\s*-?\s*(\d{4})?", re.IGNORECASE)
_ETX, _EOF = "\x03", "\x1a"
FAULTS_MOST = 20
_EXAMPLE = {"CX": "CX I 8000 MM 1.0E0 D 0.0005", "CZ": "CZ A 8000 UM 1.0E0 D"}


@frozen
class Line:
    """One line that is not empty."""

    record: int
    number: int
    text: str


@frozen
class Axis:
    """What an axis line says."""

    kind: str
    """I for increments, A for values."""
    points: int
    times: float
    """From the numbers in the file to mm; for increments from one point to the next."""


def is_smd(raw: bytes) -> bool:
    """True where the revision of the text form stands at the start.

    >>> is_smd(b"'ISO 5436 - 2000' 'T1'\\r\\n"), is_smd(b"x;z\\n")
    (True, False)
    """
    return _REVISION.search(_plain(raw[:200])) is not None and raw[:4] != b"PK\x03\x04"


def read_smd(file: str, raw: bytes, findings: Findings) -> tuple[float, list[float]] | None:
    """Step in mm and heights in um; None where a fault was told."""
    lines = _lines(_plain(raw))
    feature = next((line for line in lines[1:] if re.match(r"(PRF|SUR|CX)\b", line.text, re.IGNORECASE)), None)
    if feature is not None and feature.text[:3].upper() == "SUR":
        findings.fault(Place(file, feature.number), "holds a surface; save one profile (PRF) of it")
        return None
    axes = {name: _axis(file, name, lines, findings) for name in ("CX", "CZ")}
    cx, cz = axes["CX"], axes["CZ"]
    if cx is None or cz is None:
        return None
    rows = _numbers(file, lines, 2 if cx.kind == "A" else 1, cx.points, findings)
    if rows is None:
        return None
    announced = next((axis.points for axis in (cx, cz) if axis.points not in (len(rows), 0)), None)
    if announced is not None:
        findings.fault(Place(file), f"announces {announced} points and holds {len(rows)}; it was cut or changed: "
                       "copy it again")  # fmt: skip
        return None
    findings.note(Place(file), "its control sum was not checked")
    step = cx.times if cx.kind == "I" else _spacing(file, lines, [row[0] * cx.times for row in rows], findings)
    if len(rows) < 2:
        findings.fault(Place(file), "holds no trace: fewer than two points")
    if step is None or len(rows) < 2:
        return None
    return step, [row[-1] * (cz.times * UM_IN_MM) for row in rows]


def _plain(raw: bytes) -> str:
    """Text whose words end in blanks, also where they end in NUL."""
    return raw.decode("latin-1").replace("\x00", " ")


def _lines(text: str) -> list[Line]:
    """All lines with the record they stand in."""
    found, record = list[Line](), 0
    for number, line in enumerate(text.removeprefix("ï»¿").replace("\r\n", "\n").replace("\r", "\n").split("\n"), 1):
        for place, part in enumerate(line.replace(_EOF, "").split(_ETX)):
            record += place > 0
            if part.strip():
                found.append(Line(record, number, part.strip()))
    return found


def _axis(file: str, name: str, lines: list[Line], findings: Findings) -> Axis | None:
    line = next((one for one in lines if one.text.upper().split()[0] == name), None)
    if line is None:
        findings.fault(Place(file), f"has no line for the axis {name}; write as `{_EXAMPLE[name]}`")
        return None
    words = line.text.split()[1:]
    at = next((k for k, word in enumerate(words) if k and length_in_mm(word) is not None), None)
    kind = words[0].upper() if words else ""
    if at is None or kind not in ("I", "A"):
        what = "unit of length" if kind in ("I", "A") else "I or A"
        findings.fault(Place(file, line.number, name), f"no {what} in “{line.text[:60]}”; write as `{_EXAMPLE[name]}`")
        return None
    before = [value for word in words[1:at] if (value := value_of(word)) is not None]
    after = [value for word in words[at + 1 :] if (value := value_of(word)) is not None]
    alone = kind == "I" and name == "CX" and len(after) == len(words[at + 1 :])
    scale, increment = _scale_and_increment(before, after, alone)
    times = (length_in_mm(words[at]) or 0.0) * scale * (1.0 if increment is None or kind == "A" else increment)
    if (kind == "I" and name == "CX" and increment is None) or not times > 0:
        findings.fault(Place(file, line.number, name), f"no increment above 0 in “{line.text[:60]}”; write as "
                       f"`{_EXAMPLE[name]}`")  # fmt: skip
        return None
    return Axis(kind, int(before[0]) if before else 0, times)


def _scale_and_increment(before: list[float], after: list[float], alone: bool) -> tuple[float, float | None]:
    """Numbers round the unit: scale behind it, increment behind that or before the unit; one `alone` is the increment.

    A number that the form of the numbers follows is a scale and never an increment.
    """
    if len(before) > 1:
        return (after[0] if after else 1.0), before[1]
    if len(after) > 1:
        return after[0], after[1]
    if alone and after:
        return 1.0, after[0]
    return (after[0] if after else 1.0), None


def _data(lines: list[Line], points: int) -> list[Line]:
    """Lines of the record of numbers: of those behind the axes the one with most numbers."""
    axes = max(k for k, line in enumerate(lines) if line.text.upper().split()[0] in ("CX", "CY", "CZ"))
    behind = lines[axes + 1 :]
    records = {line.record for line in behind} - {lines[axes].record}
    counts = {record: sum(_is_row(line) for line in behind if line.record == record) for record in records}
    if counts:
        most = max(sorted(counts), key=lambda record: counts[record])
        return [line for line in behind if line.record == most]
    first = next((k for k, line in enumerate(behind) if _is_row(line)), len(behind))
    return behind[first : first + points if points else len(behind)]


def _is_row(line: Line) -> bool:
    return all(value_of(word) is not None for word in line.text.split())


def _numbers(file: str, lines: list[Line], width: int, points: int, findings: Findings) -> list[list[float]] | None:
    """Rows of numbers; None where a line holds something else."""
    rows, wrong = list[list[float]](), 0
    for line in _data(lines, points):
        words = [word for word in line.text.split() if not could_be_either(word)]
        values = [value for word in words if (value := value_of(word)) is not None]
        if len(values) == width == len(line.text.split()):
            rows.append(values)
            continue
        wrong += 1
        if wrong <= FAULTS_MOST:
            what = "one height" if width == 1 else "a position and a height"
            findings.fault(Place(file, line.number, "z"), f"“{line.text[:40]}” where {what} stands in every line; "
                           "a trace has no gaps: trace again")  # fmt: skip
    if wrong > FAULTS_MOST:
        findings.fault(Place(file, 0, "z"), f"{wrong - FAULTS_MOST} more lines like these")
    return None if wrong else rows


def _spacing(file: str, lines: list[Line], x: list[float], findings: Findings) -> float | None:
    """Step of positions that are written out."""
    if len(x) < 2:
        return None
    spacing = point_spacing(x)
    if spacing.uneven < 0:
        return abs(spacing.step)
    line = _data(lines, len(x))[spacing.uneven]
    findings.fault(Place(file, line.number, "x"), f"x goes from {x[spacing.uneven - 1]:g} to {x[spacing.uneven]:g} mm "
                   f"where {abs(spacing.usual):g} mm is usual; trace again, or save all points")  # fmt: skip
    return None
