"""What this tablet keeps of its printers: which one prints a stock, how far it is nudged, how far a sheet is used.

Notes in `private/`, not records: another tablet stands beside another printer.
"""

from __future__ import annotations

import math
from typing import Any

from teardown_app.labels.stock import Pair, Stock
from teardown_app.records.own_notes import OwnNotes
from teardown_app.workflows.act import refuse

NOTE = "printing"
FILE_ONLY = ""
"""No printer: the file is written, and somebody prints it."""

STEP_MM, FARTHEST_MM = 0.1, 10.0


class Printers:
    """The kept choices of one tablet."""

    def __init__(self, notes: OwnNotes) -> None:
        self._notes = notes

    def chosen(self, stock: str) -> str:
        """The printer of a stock; empty for the file alone."""
        return str(self._kept("chosen").get(stock, FILE_ONLY))

    def choose(self, stock: str, printer: str) -> None:
        """Keeps the printer of a stock."""
        self._keep("chosen", stock, printer)

    def nudge(self, stock: str, printer: str) -> Pair:
        """How far a print of this stock on this printer is moved, in mm to the right and down."""
        kept = self._kept("nudge").get(_both(stock, printer))
        return (float(kept[0]), float(kept[1])) if isinstance(kept, list) and len(kept) == 2 else (0.0, 0.0)

    def keep_nudge(self, stock: str, printer: str, x: float, y: float) -> Pair:
        """Keeps it; refuses what is no whole step or too far."""
        steps = [_steps(mm) for mm in (x, y)]
        moved = steps[0] / 10, steps[1] / 10
        self._keep("nudge", _both(stock, printer), list(moved))
        return moved

    def next_free(self, stock: Stock) -> int:
        """The first label still on a sheet begun, as counted from what was printed; 1 on a new one."""
        kept = self._kept("begun").get(stock.name, 1)
        return kept if isinstance(kept, int) and 1 <= kept <= stock.per_page else 1

    def used(self, stock: Stock, start_at: int, count: int) -> None:
        """So many labels were printed from there on."""
        self._keep("begun", stock.name, (start_at - 1 + count) % stock.per_page + 1)

    def _kept(self, what: str) -> dict[str, Any]:
        kept = self._notes.read(NOTE).get(what)
        return kept if isinstance(kept, dict) else {}

    def _keep(self, what: str, key: str, value: object) -> None:
        note = self._notes.read(NOTE)
        kept = self._notes.keep(NOTE, {**note, what: {**self._kept(what), key: value}})
        if not kept:
            refuse("That cannot be kept: the disk is full.", "Make room on the disk.")


def _both(stock: str, printer: str) -> str:
    return f"{stock} on {printer or 'file'}"


def _steps(mm: float) -> int:
    """A length as whole tenths of a millimetre."""
    if not math.isfinite(mm) or abs(mm) > FARTHEST_MM:
        refuse(
            f"{mm:g} mm is too far.",
            f"A print is nudged by {FARTHEST_MM:g} mm at most; beyond that load the paper anew.",
        )
    steps = round(mm / STEP_MM)
    if abs(mm / STEP_MM - steps) > 1e-6:
        refuse(f"{mm:g} mm is no whole step.", f"A print is nudged in steps of {STEP_MM:g} mm.")
    return steps
