"""Where each row of a bill stands in the tool: its dotted position, read or worked out from levels."""

from __future__ import annotations

import re
from decimal import Decimal

from attrs import Factory, define, evolve, frozen

from teardown_app.domain.bill.line import above
from teardown_app.intake.faults import Findings
from teardown_app.intake.sheet import as_text
from teardown_app.intake.table import EMPTY, Entry, Table

DEEPEST = 100
LONGEST = 400
"""Steps and characters of a position."""

_POSITION = re.compile(r"[^\W_][\w-]*(?:\.[^\W_][\w-]*)*")
_LEVEL = re.compile(r"[.\-–_ ]*([0-9]{1,4})")
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}(T.*)?")


@frozen
class Placed:
    """A row and its position; empty when it has none that can be read."""

    entry: Entry
    position: str
    orphan: bool = False
    """What hangs above it is not known, so its number of places is not known either."""


def placed_rows(table: Table, findings: Findings) -> list[Placed]:
    """Every row with its position; the row of the tool itself is left out."""
    by_position = table.has("position") and (
        not table.has("level") or any(entry.cell("position") not in EMPTY for entry in table.entries)
    )
    if not by_position:
        return _Levels(findings).place(table)
    return [_by_position(entry, findings) for entry in table.entries if not _is_tool(entry)]


def place_column(table: Table) -> str:
    """The column that a fault about a row's place names."""
    return "position" if table.has("position") else "level"


def _is_tool(entry: Entry) -> bool:
    return entry.cell("position") in ("", "-", "0", Decimal(0)) and entry.cell("level") in ("0", Decimal(0))


def _by_position(entry: Entry, findings: Findings) -> Placed:
    if entry.is_spoilt("position"):
        return Placed(entry, "", orphan=True)
    cell = entry.cell("position")
    trouble = _number_trouble(cell) if isinstance(cell, Decimal) else position_trouble(cell)
    if trouble:
        findings.fault(entry.place("position"), trouble)
        return Placed(entry, "", orphan=True)
    position = as_text(cell)
    _compare_level(entry, position, findings)
    return Placed(entry, position)


def _number_trouble(cell: Decimal) -> str:
    if cell == cell.to_integral_value() and cell >= 0:
        return ""
    text = as_text(cell)
    return f"{text} is a number cell and may have been {text}0; format the column as text and write it again"


def position_trouble(text: str) -> str:
    """Why a text is no position, empty when it is one."""
    if text in EMPTY:
        return "position is empty; give every row its place, like 10.20"
    if _DATE.fullmatch(text):
        return f"the spreadsheet has made the date {text} of it; format the column as text and write it again"
    if len(text) > LONGEST or text.count(".") >= DEEPEST:
        return f"is deeper than {DEEPEST} steps or longer than {LONGEST} characters"
    if not _POSITION.fullmatch(text):
        return f"“{text[:40]}” is no position; write steps of letters and digits with points between, like 10.20"
    return ""


def _compare_level(entry: Entry, position: str, findings: Findings) -> None:
    level = _level(entry)
    if level is not None and level != position.count(".") + 1:
        depth = position.count(".") + 1
        findings.note(
            entry.place("level"),
            f"level is {level}, but position {position} is {depth} deep; the position holds",
        )


def _level(entry: Entry) -> int | None:
    cell = entry.cell("level")
    if isinstance(cell, Decimal):
        return int(cell) if cell == cell.to_integral_value() and 0 <= cell <= 10_000 else None
    found = _LEVEL.fullmatch(cell)
    return int(found[1]) if found else None


@define
class _Levels:
    """Names steps 10, 20, 30 in row order under each parent."""

    findings: Findings
    above: list[tuple[int, str]] = Factory(list)
    """Level and position of the rows that the next one may hang beneath."""
    before: int | None = 0
    """Level of the row before; None when it could not be read."""
    counts: dict[str, int] = Factory(dict)
    has_tool: bool = False

    def place(self, table: Table) -> list[Placed]:
        """Every row with the position its level gives it."""
        found = [self._row(entry) for entry in table.entries]
        return [each for each in found if each is not None]

    def _row(self, entry: Entry) -> Placed | None:
        level = None if entry.is_spoilt("level") else _level(entry)
        if level is None or level > DEEPEST:
            return self._unread(entry)
        if level == 0:
            return self._tool(entry)
        jumps = self._jumps(entry, level)
        while self.above and self.above[-1][0] >= level:
            self.above.pop()
        position = self._next_name()
        self.above.append((level, position))
        self.before = level
        return Placed(entry, position, orphan=jumps)

    def _next_name(self) -> str:
        parent = self.above[-1][1] if self.above else ""
        self.counts[parent] = self.counts.get(parent, 0) + 1
        step = str(10 * self.counts[parent])
        return f"{parent}.{step}" if parent else step

    def _unread(self, entry: Entry) -> Placed:
        text = entry.text("level")
        if not entry.is_spoilt("level"):
            wrong = f"“{text[:40]}” is no level" if text else "level is empty"
            self.findings.fault(entry.place("level"), f"{wrong}; write 1, 2, 3 (or ..3)")
        self.before = None
        return Placed(entry, "", orphan=True)

    def _tool(self, entry: Entry) -> Placed | None:
        if self.has_tool:
            self.findings.fault(entry.place("level"), "a second level 0; one row names the tool, write 1 or deeper")
            return Placed(entry, "", orphan=True)
        self.has_tool = True
        self.above.clear()
        self.before = 0
        return None

    def _jumps(self, entry: Entry, level: int) -> bool:
        if self.before is None or level <= self.before + 1:
            return False
        self.findings.fault(
            entry.place("level"),
            f"level jumps from {self.before} to {level}; write {self.before + 1} or put in the row between",
        )
        return True


def unique(rows: list[Placed], column: str, findings: Findings) -> dict[str, Placed]:
    """The first row of each position; others are told as duplicates."""
    found: dict[str, Placed] = {}
    for each in rows:
        first = found.setdefault(each.position, each) if each.position else each
        if first is not each:
            findings.fault(
                each.entry.place(column),
                f"position {each.position} is in row {first.entry.row.number} already; give each row its own",
            )
    return found


def tell_orphans(rows: list[Placed], known: dict[str, Placed], column: str, findings: Findings) -> list[Placed]:
    """Rows, marked where the line above is not there.

    Each is told, except beneath a row whose own position could not be read: that fault is told already.
    """
    cells = (as_text(each.entry.cell("position")) for each in rows if not each.position)
    unread = {_without_zeros(cell) for cell in cells if cell}
    found = []
    for each in rows:
        parent = above(each.position)
        if not parent or parent in known:
            found.append(each)
            continue
        found.append(evolve(each, orphan=True))
        if _without_zeros(parent) not in unread:
            findings.fault(
                each.entry.place(column),
                f"position {each.position} has no line {parent} above it; add that line or correct this one",
            )
    return found


def _without_zeros(position: str) -> str:
    """`10.20` as a number cell would keep it, to tell its rows from real orphans."""
    return position.rstrip("0") if position.count(".") == 1 else position
