"""Commands about bills."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from teardown_app.cli.command import Answer, Call, looks
from teardown_app.intake.bill import Reading, read_bill
from teardown_app.intake.faults import Fault
from teardown_app.workflows.act import refuse


def _path(parser: ArgumentParser) -> None:
    parser.add_argument("path", metavar="PATH", type=Path, help="folder of a bill, or an .xlsx workbook")


def _read(call: Call) -> Reading:
    return read_bill(call.args.path, call.materials())


def check(call: Call) -> Answer:
    """All faults and notes of a bill, each with file, row and column."""
    reading = _read(call)
    rows = {
        "positions": reading.positions,
        "faults": [_row(fault) for fault in reading.faults],
        "notes": [_row(note) for note in reading.notes],
    }
    lines = [_line("fault", fault) for fault in reading.faults] + [_line("note", note) for note in reading.notes]
    lines.append(f"{reading.positions} positions, {len(reading.faults)} faults, {len(reading.notes)} notes")
    return Answer(rows, lines, 1 if reading.faults else 0)


def _row(fault: Fault) -> dict[str, object]:
    return {name: getattr(fault, name) for name in ("file", "row", "column", "message")}


def _line(word: str, fault: Fault) -> str:
    where = ", ".join(text for text in (fault.file, f"row {fault.row}" if fault.row else "", fault.column) if text)
    return f"{word}: {where}: {fault.message}"


def lines(call: Call) -> Answer:
    """Every line of a bill with its position and positions."""
    reading = _read(call)
    bill = reading.bill
    if bill is None:
        refuse(f"{call.args.path} has {len(reading.faults)} faults.", "See them: bill check PATH.")
    rows: list[dict[str, Any]] = [
        {
            "position": line.position,
            "part_number": line.part_number,
            "description": line.description,
            "quantity": None if line.quantity is None else str(line.quantity),
            "unit": line.unit,
            "kind": line.kind,
            "positions": [one.key for one in bill.positions_of(line.position)],
        }
        for line in bill.lines
    ]
    text = [
        f"{row['position']:<14} {row['part_number']:<16} {row['quantity'] or '-':>5} {row['unit']:<3} "
        f"{row['kind']:<10} {row['description']}  [{', '.join(row['positions'])}]"
        for row in rows
    ]
    return Answer(rows, text)


COMMANDS = (
    looks(
        ("bill", "check"),
        "Check a bill: all faults, each with file, row and column. Exit code 0 without faults, 1 with.",
        "teardown-app bill check sample_bills/rinser_dryer --json",
        check,
        _path,
    ),
    looks(
        ("bill", "lines"),
        "Print every line of a bill with its position and its places in the tool.",
        "teardown-app bill lines sample_bills/rinser_dryer",
        lines,
        _path,
    ),
)
