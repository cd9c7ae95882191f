"""The bill of one tool model: lines, positions, what fits, what closes over what.

Pure values; reading files into them is the intake room's business. Positions and the ways between
them are worked out once, when first asked for.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from typing import Any

from attrs import Factory, field, frozen

from teardown_app.domain.bill.check import Check
from teardown_app.domain.bill.fits import Component, fitting, groups
from teardown_app.domain.bill.gate import GATES, Gate
from teardown_app.domain.bill.joint import Joint
from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.bill.line import Line, Position, common
from teardown_app.domain.bill.positions import Unfolded, unfold
from teardown_app.domain.bill.route import Operation, Route

__all__ = [
    "GATES", "Bill", "Callout", "Check", "Component", "Gate", "Joint", "Limit", "Line", "Operation",
    "Position", "Route",
]  # fmt: skip


@frozen
class Callout:
    """Where a line, or one position, is on a drawing: fractions from the top left."""

    drawing: str
    position: str
    x: float
    y: float


@frozen
class Bill:
    """A bill without faults."""

    model: str
    revision: str
    approved_by: str = ""
    lines: tuple[Line, ...] = ()
    """In the order of their rows."""
    components: dict[str, Component] = field(factory=dict)
    checks: dict[str, Check] = field(factory=dict)
    routes: dict[str, Route] = field(factory=dict)
    recipes: dict[str, Any] = field(factory=dict)
    gates: dict[str, Gate] = field(factory=dict)
    """Those this model has, in the order in which they open."""
    callouts: tuple[Callout, ...] = ()
    drawings: dict[str, str] = field(factory=dict)
    """Position of an assembly's line -> file, relative to the bill."""
    notes: tuple[str, ...] = Factory(tuple)

    @property
    def positions(self) -> dict[str, Position]:
        """Every position by its key, in bill order."""
        return self._unfolded.positions

    def children(self, key: str) -> tuple[Position, ...]:
        """Positions right beneath a position; those of the top for ''."""
        return self._unfolded.children.get(key, ())

    def line(self, position: str) -> Line:
        """The line of a position's key or of a line's own position. KeyError when there is none."""
        found = self._lines.get(position)
        return found if found is not None else self.positions[position].line

    def positions_of(self, line_position: str) -> tuple[Position, ...]:
        """All positions of a line, in bill order."""
        return self._unfolded.by_line.get(line_position, ())

    def nearest(self, key: str, line_position: str) -> tuple[Position, ...]:
        """Positions of a line under the nearest assembly position that `key` hangs beneath too.

        A line above `key` gives the one position above it, a line beneath `key` all of its positions there.
        """
        shared = common(self.positions[key].line.position, line_position)
        return self._under(shared, line_position).get(self._ancestor(key, shared), ())

    def ancestors(self, key: str) -> tuple[str, ...]:
        """Keys above a position, the nearest first."""
        found = []
        parent = self.positions[key].parent
        while parent:
            found.append(parent)
            parent = self.positions[parent].parent
        return tuple(found)

    def beneath(self, key: str) -> tuple[Position, ...]:
        """All positions beneath a position, in bill order; all there are for ''."""
        tree = self._unfolded
        keys = tree.order[tree.place[key] + 1 : tree.end[key]] if key else tree.order
        return tuple(tree.positions[each] for each in keys)

    def closes_over(self, key: str) -> tuple[str, ...]:
        """Keys of what this position closes over by its line's `fit_after`."""
        lines = self.positions[key].line.fit_after
        return tuple(found.key for line in lines for found in self.nearest(key, line))

    def closed_by(self, key: str) -> tuple[str, ...]:
        """Keys of what closes over this position by its line's `fit_after`."""
        lines = self._closing.get(self.positions[key].line.position, ())
        return tuple(found.key for line in lines for found in self.nearest(key, line))

    def holds(self, key: str) -> tuple[str, ...]:
        """Keys of what the joint at this position holds."""
        joint = self.positions[key].line.joint
        return tuple(found.key for line in (joint.holds if joint else ()) for found in self.nearest(key, line))

    def held_by(self, key: str) -> tuple[str, ...]:
        """Keys of the hardware whose joint holds this position."""
        lines = self._holding.get(self.positions[key].line.position, ())
        return tuple(found.key for line in lines for found in self.nearest(key, line))

    def absent(self, options: Iterable[str]) -> frozenset[str]:
        """Keys that a tool with these options does not have, with all beneath them."""
        has = {option.strip().casefold() for option in options}
        missing: set[str] = set()
        for key, position in self.positions.items():
            if position.parent in missing or not _has_option(position.line, has):
                missing.add(key)
        return frozenset(missing)

    def fits(self, key: str, part_number: str) -> bool:
        """Whether a part of this number fits the position; matched sets are not looked at."""
        return part_number in self.fitting(self.positions[key].line.position)

    def fitting(self, line_position: str) -> frozenset[str]:
        """All part numbers that fit a line."""
        found = self._fitting.get(line_position)
        if found is None:
            found = fitting(self._lines[line_position], self.components, self._groups)
            self._fitting[line_position] = found
        return found

    def matched(self, key: str) -> tuple[Position, ...]:
        """Positions of the same matched set under the same position, with this one; none without a set."""
        position = self.positions[key]
        return self._sets.get((position.parent, position.line.matched_set), ())

    @cached_property
    def _unfolded(self) -> Unfolded:
        return unfold(self.lines)

    @cached_property
    def _lines(self) -> dict[str, Line]:
        return {line.position: line for line in self.lines}

    @cached_property
    def _closing(self) -> dict[str, tuple[str, ...]]:
        found: dict[str, list[str]] = {}
        for line in self.lines:
            for each in line.fit_after:
                found.setdefault(each, []).append(line.position)
        return {position: tuple(lines) for position, lines in found.items()}

    @cached_property
    def _holding(self) -> dict[str, tuple[str, ...]]:
        found: dict[str, list[str]] = {}
        for line in self.lines:
            for each in line.joint.holds if line.joint else ():
                found.setdefault(each, []).append(line.position)
        return {position: tuple(lines) for position, lines in found.items()}

    @cached_property
    def _sets(self) -> dict[tuple[str, str], tuple[Position, ...]]:
        """Matched sets by the position above and their name."""
        found: dict[tuple[str, str], list[Position]] = {}
        for position in self.positions.values():
            if position.line.matched_set:
                found.setdefault((position.parent, position.line.matched_set), []).append(position)
        return {name: tuple(members) for name, members in found.items()}

    @cached_property
    def _groups(self) -> dict[str, frozenset[str]]:
        return groups(self.lines)

    @cached_property
    def _fitting(self) -> dict[str, frozenset[str]]:
        return {}

    @cached_property
    def _grouped(self) -> dict[tuple[str, str], dict[str, tuple[Position, ...]]]:
        return {}

    def _under(self, shared: str, line_position: str) -> dict[str, tuple[Position, ...]]:
        """Positions of a line, grouped by their ancestor of the line `shared` ('' groups them all)."""
        found = self._grouped.get((shared, line_position))
        if found is None:
            by_ancestor: dict[str, list[Position]] = {}
            for position in self.positions_of(line_position):
                by_ancestor.setdefault(self._ancestor(position.key, shared), []).append(position)
            found = {key: tuple(each) for key, each in by_ancestor.items()}
            self._grouped[shared, line_position] = found
        return found

    def _ancestor(self, key: str, line_position: str) -> str:
        """The position of a line that `key` hangs beneath or is; '' for the tool."""
        if not line_position:
            return ""
        steps = key.split(".")
        return ".".join(steps[: line_position.count(".") + 1])


def _has_option(line: Line, has: set[str]) -> bool:
    wanted = [option.strip().casefold() for option in line.option.split(";") if option.strip()]
    return not wanted or any(option in has for option in wanted)
