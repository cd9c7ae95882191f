"""Checks that would never be asked, in all or in part: moments that never come, rules without a limit."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator

from teardown_app.domain.bill.check import Check
from teardown_app.domain.bill.gate import GATES
from teardown_app.domain.bill.line import Line
from teardown_app.domain.bill.units import UNCOUNTED
from teardown_app.domain.measure.demanded import given_fields, implied_fields, is_same, kind_of
from teardown_app.domain.measure.judging import band, is_size
from teardown_app.domain.parts.conceding import may_be_conceded
from teardown_app.domain.places.checking import BINDS_NOTHING, FINISHED, NEW, PART_TIMES
from teardown_app.intake.bill_lines import Lines
from teardown_app.intake.check_book import CheckBook
from teardown_app.intake.faults import Findings, Place
from teardown_app.intake.headings import LIMIT_KEYS
from teardown_app.intake.line_demands import PARTS, spoken
from teardown_app.intake.told import Told

WITHOUT_PARTS = ("hardware", "temporary")
"""Kinds of which no part is ever read."""


def moments(check: Check) -> tuple[str, ...]:
    """When a check is read, as the bill says; *finished* where it does not."""
    return check.when or (FINISHED,)


def look_at_checks_of_lines(file: str, read: Lines, book: CheckBook, findings: Findings) -> None:
    """Tell which checks are never asked where a line names them. Those whose moments are wrong are told already."""
    checks = {
        name: check for name, check in book.checks.items() if check.when or not book.told[name].values.get("when")
    }
    for line in read.lines:
        named = [checks[name] for name in line.checks if name in checks]
        if not named or line.unit in UNCOUNTED or line.row in read.unknown_kind:
            continue
        place = Place(file, line.row, "checks")
        if line.kind in WITHOUT_PARTS:
            _never_comes(line, named, place, findings)
        elif line.kind in PARTS and not any(is_asked(check, NEW) for check in named):
            findings.note(
                place, "none of these checks is asked of a new part; add new to their moments if it should be"
            )


def _never_comes(line: Line, checks: Iterable[Check], place: Place, findings: Findings) -> None:
    for check in checks:
        never = [when for when in moments(check) if when in PART_TIMES]
        if len(never) == len(moments(check)):
            findings.fault(
                place,
                f"{check.name} is read {', '.join(never)}, which never comes for {spoken(line.kind)}; "
                "give it fitted or a gate as its moment, or name it on the line of a part",
            )
        elif never:
            findings.note(
                place,
                f"{check.name} is read {', '.join(never)} too, which never comes for {spoken(line.kind)}",
            )


def is_asked(check: Check, origin: str) -> bool:
    """Whether a check is asked of a part of this origin. Protective checks named *finished* are of every origin."""
    wanted = NEW if origin == "new" else FINISHED
    return any(
        when not in PART_TIMES or when == wanted or (when == FINISHED and not may_be_conceded(check))
        for when in moments(check)
    )


def look_at_checks(
    book: CheckBook, lines: Iterable[Line], gates: Container[str], operations: Container[str] | None
) -> None:
    """Tell what checks ask in vain. `gates`: those of the bill, empty where it does not say; `operations`: those of its
    routes, None where they could not be read."""
    used = {name for line in lines for name in line.checks}
    for name, check in book.checks.items():
        told = book.told[name]
        if name not in used:
            told.findings.note(told.place("name"), f"no line names the check “{name[:40]}”, so it is asked nowhere")
            continue
        for key, message in (*_moment_trouble(check, gates), *_outlasting(check, operations)):
            told.wrong(key, message)
        _look_at_limit(check, told)
        if all(when in BINDS_NOTHING for when in moments(check)):
            told.findings.note(told.place("when"), f"{', '.join(check.when)} binds nothing: nobody misses this reading")


def _given_trouble(check: Check) -> Iterator[tuple[str, str]]:
    """What is given beside a limit that says something else."""
    kind = kind_of(check)
    given = given_fields(kind, check.given) if kind else {}
    for name, value in implied_fields(kind, check).items() if kind else ():
        if name in given and not is_same(given[name], value) and not (name == "rule" and value in str(given[name])):
            yield "given", f"says {name} = {given[name]} beside a limit that says {value}; one of them is wrong"


def _look_at_limit(check: Check, told: Told) -> None:
    """What is asked of numbers where there are none; a limit that is wrong is told already."""
    if check.limit is None and any(key in told.values for key in ("limit", *LIMIT_KEYS)):
        return
    for key, message in (*_rule_trouble(check), *_given_trouble(check)):
        told.wrong(key, message)
    if is_size(check):
        told.findings.note(
            told.place("limit"), "gives no min: a deviation lies either way, its size is held against max"
        )
    if check.limit is not None and check.limit.fit and band(check.limit) is None:
        told.findings.note(told.place("limit"), f"the fit {check.limit.fit} cannot be computed; a person judges it")


def _moment_trouble(check: Check, gates: Container[str]) -> Iterator[tuple[str, str]]:
    for when in check.when if gates else ():
        if when in GATES and when not in gates:
            yield "when", f"names {when}, a gate that this bill does not have; add it to the gates, or name another"


def _rule_trouble(check: Check) -> Iterator[tuple[str, str]]:
    limit = check.limit
    numbers = limit is not None and (band(limit) is not None or (bool(limit.compare) and limit.max is not None))
    counted = limit is not None and limit.count is not None
    without = "is held against a limit of numbers, and this check has none; give it one, or take this out"
    if check.rule not in ("", "simple") and (not numbers or counted):
        yield "rule", without
    if check.values_rule == "16 %" and check.rule not in ("", "simple"):
        yield "rule", "counts how many readings lie over the limit or how far one may; 16 % goes with simple alone"
    if check.values_rule == "16 %" and not numbers:
        yield "values", without
    if check.readings > 1 and not numbers and kind_of(check) is None:
        yield "readings", "are asked for where there is a limit of numbers, and this check has none; use spots"


def _outlasting(check: Check, operations: Container[str] | None) -> Iterator[tuple[str, str]]:
    for name in check.outlasts:
        if operations is not None and name not in operations:
            yield "outlasts", f"names operation “{name[:40]}”, which no route has; correct the name, or take it out"
