"""Faults and notes about lines taken together: what hangs beneath what, order, materials, counts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from attrs import Factory, define

from teardown_app.domain.bill.line import Line
from teardown_app.domain.bill.materials import Materials
from teardown_app.domain.bill.order import after, circles, shortened
from teardown_app.domain.bill.positions import instances
from teardown_app.domain.bill.route import Route
from teardown_app.domain.bill.units import UNCOUNTED
from teardown_app.intake.bill_lines import Lines
from teardown_app.intake.faults import Findings, Place

POSITIONS_MAX = 100_000


@define
class BillSense:
    """Looks at the lines of one bill as a whole."""

    file: str
    column: str
    """The column that gives a row its place: position or level."""
    read: Lines
    findings: Findings
    by_position: dict[str, Line] = Factory(dict)
    """The first line of each position."""
    _harms: dict[tuple[str, str], str] = Factory(dict)
    """Route and material -> what harms, looked up once."""

    def __attrs_post_init__(self) -> None:
        for line in self.read.lines:
            if line.position:
                self.by_position.setdefault(line.position, line)

    def look(self, materials: Materials, routes: Mapping[str, Route]) -> None:
        """Tell everything that can be said about these lines."""
        self._beneath()
        self._fit_after()
        self._circles()
        self._materials(materials, routes)
        self._descriptions()
        self._bare_assemblies()

    def count(self) -> int | None:
        """Number of positions, None when a line cannot be counted; too many are told."""
        if self.read.uncounted:
            return None
        places: dict[str, int] = {}
        for line in sorted(self.by_position.values(), key=lambda each: each.position.count(".")):
            places[line.position] = instances(line) * self._places_above(line, places)
        total = 0
        for line in self.read.lines:
            before, total = total, total + instances(line) * self._places_above(line, places)
            if before <= POSITIONS_MAX < total:
                self.findings.fault(
                    self._place(line, "quantity"),
                    f"more than {POSITIONS_MAX:,} positions up to here; split the bill",
                )
        return total

    def _places_above(self, line: Line, places: dict[str, int]) -> int:
        return places.get(line.parent, 0) if line.parent else 1

    def _place(self, line: Line, column: str) -> Place:
        return Place(self.file, line.row, column)

    def _beneath(self) -> None:
        """Only an assembly of a unit that makes positions has rows beneath it."""
        for line in self.read.lines:
            parent = self.by_position.get(line.parent)
            if parent is None or parent.row in self.read.unknown_kind:
                continue
            trouble = _holds_nothing(parent)
            if trouble:
                later, column = (line, self.column) if line.row > parent.row else (parent, "kind")
                self.findings.fault(
                    self._place(later, column),
                    f"{line.position} hangs beneath {parent.position} (row {parent.row}), {trouble}",
                )

    def _fit_after(self) -> None:
        for line in self.read.lines:
            for target in line.fit_after:
                trouble = self._order_trouble(line.position, target)
                if trouble:
                    self.findings.fault(self._place(line, "fit_after"), trouble)

    def _order_trouble(self, position: str, target: str) -> str:
        if target not in self.by_position:
            return f"“{target[:40]}” is no line of this bill; write the position of a line"
        if target == position:
            return f"{target} cannot be fitted after itself; name another line"
        if position.startswith(f"{target}."):
            return f"{target} is above {position} and complete only after it; name a line beside it"
        if position and target.startswith(f"{position}."):
            return f"{target} is beneath {position} and goes in before it anyway; take it out"
        if self.by_position[target].unit in UNCOUNTED:
            return f"{target} is {self.by_position[target].unit} and makes no place; name a line that has one"
        return ""

    def _circles(self) -> None:
        """Order in a circle, also through the tree: an assembly is in after all that is beneath it."""
        for circle in circles(after(self._orderly())):
            steps = zip(circle, (*circle[1:], circle[0]), strict=True)
            named = [self.by_position[one] for one, before in steps if before in self.by_position[one].fit_after]
            last = max(named, key=lambda line: line.row)
            way = " after ".join((*shortened(circle), circle[0]))
            self.findings.fault(self._place(last, "fit_after"), f"order in a circle: {way}; take one of these out")

    def _orderly(self) -> Iterable[Line]:
        """Lines with those `fit_after` that are no fault by themselves."""
        for line in self.by_position.values():
            kept = tuple(each for each in line.fit_after if not self._order_trouble(line.position, each))
            yield Line(
                line.position,
                line.parent if line.parent in self.by_position else "",
                line.row,
                "",
                fit_after=kept,
            )

    def _materials(self, materials: Materials, routes: Mapping[str, Route]) -> None:
        known: dict[str, bool] = {}
        for line in self.read.lines:
            if line.material not in known:
                known[line.material] = bool(line.material and materials.families_of(line.material))
            if not known[line.material]:
                self._unknown_material(line)
        for line in self.read.lines:
            for name in line.routes if known[line.material] else ():
                self._harm(line, routes.get(name), materials)

    def _unknown_material(self, line: Line) -> None:
        if not line.material:
            if line.row in self.read.routed:
                self.findings.note(
                    self._place(line, "material"), "no material: whether the route harms it, nobody can say"
                )
            return
        said = f"material “{line.material[:60]}” is not in the table of materials"
        if line.row in self.read.routed:
            self.findings.fault(
                self._place(line, "material"), f"{said}; correct it, or add it to the shop's materials.toml"
            )
        else:
            self.findings.note(self._place(line, "material"), said)

    def _harm(self, line: Line, route: Route | None, materials: Materials) -> None:
        if route is None:
            return
        key = (route.name, line.material)
        if key not in self._harms:
            self._harms[key] = _harms_of(route, line.material, materials)
        found = self._harms[key]
        if found:
            self.findings.fault(
                self._place(line, "route"),
                f"route {route.name} harms {line.material}: {found}; choose another route",
            )

    def _descriptions(self) -> None:
        first: dict[str, Line] = {}
        for line in self.read.lines:
            if not line.part_number or not line.description:
                continue
            other = first.setdefault(line.part_number, line)
            if _words(other.description) != _words(line.description):
                self.findings.note(
                    self._place(line, "description"),
                    f"{line.part_number} is “{line.description[:60]}” here, "
                    f"but “{other.description[:60]}” in row {other.row}",
                )

    def _bare_assemblies(self) -> None:
        parents = {line.parent for line in self.read.lines}
        for line in self.read.lines:
            if line.kind == "assembly" and line.position not in parents and line.row not in self.read.unknown_kind:
                self.findings.note(self._place(line, "kind"), f"assembly {line.position} has nothing beneath it")


def _holds_nothing(parent: Line) -> str:
    if parent.unit in UNCOUNTED:
        return f"which is {parent.unit} and makes no place; give it another unit, or move this row"
    if parent.kind != "assembly":
        return f"which is a {parent.kind}; make it an assembly, or move this row"
    return ""


def _harms_of(route: Route, material: str, materials: Materials) -> str:
    found = (materials.harm(operation, material) for operation in route.operations)
    return "; ".join(each for each in found if each)


def _words(description: str) -> str:
    """A description without indent, case and doubled blanks."""
    return " ".join(description.casefold().lstrip(". ").split())
