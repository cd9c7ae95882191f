"""Routes and operations that would never be worked, and what operations ask that no line takes up."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from teardown_app.domain.bill.check import Check
from teardown_app.domain.bill.line import Line
from teardown_app.domain.bill.materials import Materials
from teardown_app.domain.bill.route import Route
from teardown_app.intake.check_demands import is_asked
from teardown_app.intake.faults import Findings, Place
from teardown_app.intake.route_book import RouteBook


def look_at_routes_of_lines(
    file: str, lines: Iterable[Line], book: RouteBook, checks: Mapping[str, Check], findings: Findings
) -> None:
    """Tell which routes of a line are never worked, and which checks of theirs the line lacks."""
    for line in lines:
        first: dict[str, str] = {}
        for name in line.routes:
            route = book.routes.get(name)
            if route is None:
                continue
            worked = first.setdefault(route.origin, name)
            if worked != name:
                findings.fault(
                    Place(file, line.row, "route"),
                    f"{name} is never worked: {worked} is for a part {route.origin} too and stands before it; "
                    "put the operations of both into one route",
                )
            for trouble in _unread(line, route, checks):
                findings.fault(Place(file, line.row, "checks"), trouble)


def _unread(line: Line, route: Route, checks: Mapping[str, Check]) -> Iterator[str]:
    """A check after an operation is read where the line names it, for parts of the route's origin."""
    for operation in route.operations:
        for name in operation.check:
            said = f"{route.name} has {name} read after {operation.id}, but "
            if name not in line.checks:
                yield f"{said}this line does not name it, so nobody is asked; add it to the checks"
            elif not is_asked(checks[name], route.origin):
                yield f"{said}nobody is asked for it of a part {route.origin}; add that to its moments"


def look_at_routes(book: RouteBook, lines: Iterable[Line], materials: Materials) -> None:
    """Tell which routes no line has, and which materials no operation could ever meet."""
    lines = tuple(lines)
    used = {name for line in lines for name in line.routes}
    for name, told in book.told.items():
        if name not in used:
            told.findings.note(told.place("name"), f"no line has the route “{name[:40]}”, so it is never worked")
    cells = {line.material for line in lines if line.material}
    for operation, told in (each for name in book.routes if name in used for each in book.operations[name]):
        for word in operation.not_with:
            if not materials.knows(word, cells):
                told.wrong(
                    "not_with", f"names “{word[:40]}”, which is no material or family; correct it, or take it out"
                )
