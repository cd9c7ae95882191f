"""Traces of stylus instruments as files give them, CSV or SMD, made into step and heights, or all their faults.

Nothing is filtered and nothing is filled in: a trace with a gap is a fault.
"""

from __future__ import annotations

import math

from attrs import frozen

from teardown_app.intake.faults import Fault, Findings, Place, in_order
from teardown_app.intake.smd import is_smd, read_smd
from teardown_app.intake.text_table import NotText, decode
from teardown_app.intake.trace_table import read_table

LARGEST = 64 * 2**20
"""Bytes."""


@frozen
class Trace:
    """A trace as it was measured."""

    step: float
    """Distance from point to point, mm."""
    heights: tuple[float, ...]
    """Heights, um, in the order of the file."""


@frozen
class TraceReading:
    """What came of reading a trace."""

    trace: Trace | None
    """None when there is any fault."""
    faults: list[Fault]
    notes: list[Fault]


def read_trace(file: str, raw: bytes, step: float | None = None) -> TraceReading:
    """Read a trace; `file` names it in faults, `step` in mm is needed for one column of heights without positions.

    CSV: heights alone, or positions and heights, beneath headings with their units (`x (mm)`, `z [um]`, `Z/µm`) or
    none (mm and um are taken, and it is said). Lines that begin with # % ! ' or // are comments; `step: 0.5 um` in one
    of them is heeded. Decimal comma where the columns are not parted by commas. SMD: the text form of ISO 5436-2.

    >>> read_trace("a.csv", b"x (mm);z (um)\\n0;1,5\\n0,0005;1,6\\n").trace
    Trace(step=0.0005, heights=(1.5, 1.6))
    """
    findings = Findings()
    found = _read(file, raw, step, findings)
    if found and not 1e-9 <= found[0] <= 1e3:
        findings.fault(Place(file), f"a step of {found[0]:g} mm from point to point; no trace has it; see its units")
    faults, notes = in_order(findings.faults), in_order(findings.notes)
    return TraceReading(Trace(found[0], tuple(found[1])) if found and not faults else None, faults, notes)


def _read(file: str, raw: bytes, step: float | None, findings: Findings) -> tuple[float, list[float]] | None:
    trouble = _trouble(raw, step)
    if trouble:
        findings.fault(Place(file), trouble)
        return None
    if is_smd(raw):
        return read_smd(file, raw, findings)
    try:
        text = decode(raw)
    except NotText as wrong:
        findings.fault(Place(file), str(wrong))
        return None
    return read_table(file, text, step, findings)


def _trouble(raw: bytes, step: float | None) -> str:
    if len(raw) > LARGEST:
        return f"is larger than {LARGEST // 2**20} MB; a trace is not"
    if not raw.strip():
        return "is empty; save the trace again"
    if step is not None and not (math.isfinite(step) and step > 0):
        return f"a step of {step} mm; give one above 0"
    return ""
