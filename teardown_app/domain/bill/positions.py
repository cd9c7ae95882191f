"""From lines to positions: every place in the tool, named, in bill order.

Linear in the number of positions; no recursion, so a deep bill cannot exhaust the stack.
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from attrs import frozen

from teardown_app.domain.bill.line import Line, Position
from teardown_app.domain.bill.units import COUNTING, MEASURED, UNCOUNTED


@frozen
class Unfolded:
    """All positions of a bill and the ways from one to another."""

    positions: dict[str, Position]
    children: dict[str, tuple[Position, ...]]
    """By key of the position above; '' is the top."""
    by_line: dict[str, tuple[Position, ...]]
    order: tuple[str, ...]
    place: dict[str, int]
    """Where a key stands in `order`."""
    end: dict[str, int]
    """Where in `order` that which hangs beneath a key ends."""


def instances(line: Line) -> int:
    """How many positions a line has in one position of the line above it."""
    if line.unit in UNCOUNTED:
        return 0
    if line.unit in MEASURED or line.kind == "hardware":
        return 1
    return int(line.quantity or 0)


def is_numbered(line: Line) -> bool:
    """Whether its step carries `/n`: a counting unit, not hardware, more than one."""
    return line.unit in COUNTING and line.kind != "hardware" and instances(line) > 1


def totals(lines: Iterable[Line]) -> dict[str, int]:
    """Number of positions of each line, without making them. Parents may stand after their children.

    >>> a = Line("10", "", 2, "A", quantity=Decimal(2), kind="assembly")
    >>> b = Line("10.5", "10", 3, "B", quantity=Decimal(3))
    >>> totals([b, a])
    {'10': 2, '10.5': 6}
    """
    found: dict[str, int] = {}
    for line in sorted(lines, key=lambda each: each.position.count(".")):
        found[line.position] = instances(line) * (found.get(line.parent, 0) if line.parent else 1)
    return found


def unfold(lines: Iterable[Line]) -> Unfolded:
    """Make every position of these lines, in bill order."""
    beneath: dict[str, list[Line]] = {}
    for line in lines:
        beneath.setdefault(line.parent, []).append(line)
    positions: dict[str, Position] = {}
    stack = _placed(beneath.get("", ()), "")
    while stack:
        position = stack.pop()
        positions[position.key] = position
        stack.extend(_placed(beneath.get(position.line.position, ()), position.key))
    return _indexed(positions)


def _placed(lines: Iterable[Line], parent: str) -> list[Position]:
    """Positions of these lines in one position of the line above, last first (for a stack)."""
    made = [position for line in lines for position in _instances_in(line, parent)]
    made.reverse()
    return made


def _instances_in(line: Line, parent: str) -> list[Position]:
    step = line.position.rpartition(".")[2]
    key = f"{parent}.{step}" if parent else step
    if is_numbered(line):
        return [Position(f"{key}/{n}", line, parent) for n in range(1, instances(line) + 1)]
    if not instances(line):
        return []
    return [Position(key, line, parent, count=_count(line), amount=_amount(line))]


def _count(line: Line) -> int | None:
    if line.kind != "hardware" or line.unit not in COUNTING:
        return None
    return int(line.quantity or 0)


def _amount(line: Line) -> Decimal | None:
    return line.quantity if line.unit in MEASURED else None


def _indexed(positions: dict[str, Position]) -> Unfolded:
    children: dict[str, list[Position]] = {}
    by_line: dict[str, list[Position]] = {}
    for position in positions.values():
        children.setdefault(position.parent, []).append(position)
        by_line.setdefault(position.line.position, []).append(position)
    order = tuple(positions)
    return Unfolded(
        positions=positions,
        children={key: tuple(found) for key, found in children.items()},
        by_line={key: tuple(found) for key, found in by_line.items()},
        order=order,
        place={key: place for place, key in enumerate(order)},
        end=_ends(positions, order),
    )


def _ends(positions: dict[str, Position], order: tuple[str, ...]) -> dict[str, int]:
    """Bill order puts all beneath a position right behind it, so its end is that of its last child."""
    end: dict[str, int] = {}
    for place in range(len(order) - 1, -1, -1):
        key = order[place]
        end.setdefault(key, place + 1)
        parent = positions[key].parent
        if parent:
            end.setdefault(parent, end[key])
    return end
