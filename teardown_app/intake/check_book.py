"""The checks of a bill: `checks.toml`, or the sheet `checks`."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import Factory, frozen

from teardown_app.domain.bill.check import MOMENTS, NEEDS, RULES, VALUES_RULES, Check
from teardown_app.domain.bill.gate import GATES
from teardown_app.domain.ledger.kinds.work import STROKES, has_stroke
from teardown_app.domain.measure.typed import meant
from teardown_app.intake.drawings import Drawings, drawing_trouble, is_picture_name
from teardown_app.intake.faults import Findings
from teardown_app.intake.headings import CHECK_KEYS, LIMIT_KEYS
from teardown_app.intake.limits import limit_mark, read_limit
from teardown_app.intake.not_asked import tell_not_asked
from teardown_app.intake.table import Table
from teardown_app.intake.told import Told, first_of_name, spaced, told_row, told_tables
from teardown_app.intake.toml_text import TomlText
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kinds import all_kinds

GATE_NAMES = {"dry check": "power on", "wet check": "water on", "acceptance": "acceptance runs"}
"""Other words for a gate."""


@frozen
class CheckBook:
    """Every check by its name, and what was told of it: a fault found later stands at its key."""

    checks: dict[str, Check] = Factory(dict)
    told: dict[str, Told] = Factory(dict)


def checks_of_toml(text: TomlText, drawings: Drawings, findings: Findings) -> CheckBook:
    """Every check of a file."""
    return _checks(dict(told_tables(text, "check", findings)), drawings, findings)


def checks_of_sheet(table: Table, drawings: Drawings, findings: Findings) -> CheckBook:
    """Every check of a sheet, one a row."""
    columns = (*CHECK_KEYS, *LIMIT_KEYS)
    rows = {name: told_row(entry, columns, findings) for name, entry in first_of_name(table, findings)}
    return _checks(rows, drawings, findings)


def _checks(told: dict[str, Told], drawings: Drawings, findings: Findings) -> CheckBook:
    mark = limit_mark(told.values())
    found = {name: _check(name, each, mark) for name, each in told.items()}
    for name, check in found.items():
        picture = check.limit.picture if check.limit else ""
        trouble = drawing_trouble(picture, drawings) if is_picture_name(picture) else ""
        if trouble:
            told[name].wrong("limit" if "limit" in told[name].values else "picture", trouble)
    pictured = [told[name] for name, check in found.items() if check.limit and check.limit.picture]
    uses = {
        "needs": [told[name].place("needs") for name, check in found.items() if check.needs],
        "picture": [each.place("limit" if "limit" in each.values else "picture") for each in pictured],
    }
    tell_not_asked("checks", uses, findings)
    return CheckBook(found, told)


def _check(name: str, told: Told, mark: str) -> Check:
    told.note_unknown((*CHECK_KEYS, *LIMIT_KEYS))
    _check_strokes("name", (name,), told)
    return Check(
        name=name,
        says=told.text("says"),
        type=told.text("type"),
        limit=read_limit(told, mark),
        values_rule=_values_rule(told),
        rule=told.choice("rule", RULES),
        readings=told.whole("readings", 1, 1) or 1,
        spots=_spots(told),
        instrument=told.text("instrument"),
        when=_moments(told),
        needs=told.choices("needs", NEEDS),
        outlasts=told.many("outlasts"),
        qualification=told.text("qualification"),
        given=_given(told),
        again_h=told.hours("again"),
    )


def _values_rule(told: Told) -> str:
    word = spaced(told.text("values")).removesuffix(" rule").replace("16%", "16 %").replace("percent", "%")
    word = {"max": "maximum", "16": "16 %"}.get(word, word)
    if word and word not in VALUES_RULES:
        told.wrong("values", f"“{word[:40]}” is not known; write one of {', '.join(VALUES_RULES)}")
        return ""
    return word


def _check_strokes(key: str, names: Iterable[str], told: Told) -> None:
    """Names of checks and spots stand in a row with strokes between, where readings are kept."""
    for one in names:
        if has_stroke(one):
            told.wrong(
                key, f"“{one[:40]}” has a stroke ({' or '.join(STROKES)}); write it with a dash, or as two names"
            )


def _spots(told: Told) -> tuple[str, ...]:
    """Names of the spots, or how many there are: then they are named 1, 2, 3."""
    value = told.values.get("spots", "")
    if isinstance(value, list) or (isinstance(value, str) and not value.strip().isdecimal()):
        names = told.many("spots")
        _check_strokes("spots", names, told)
        return names
    number = told.whole("spots", 0, 1) or 0
    if number > 1000:
        told.wrong("spots", "are more than 1,000; nobody reads so many")
        return ()
    return tuple(str(each) for each in range(1, number + 1))


def _given(told: Told) -> tuple[str, ...]:
    """Fields of the check's kind of measurement that the bill knows, each tried."""
    kind = all_kinds().get(spaced(told.text("type")).replace(" ", "-"))
    fields = {field.name: field for field in kind.fields} if kind else {}
    for one in told.many("given"):
        name, equals, value = (part.strip() for part in one.partition("="))
        if name not in fields or not equals:
            known = ", ".join(fields) or "none, without a type"
            told.wrong("given", f"“{one[:40]}” is no field = value; fields are {known}")
            return ()
        try:
            meant(fields[name], value)
        except BadInput as bad:
            told.wrong("given", f"“{one[:40]}” cannot be meant; allowed is {bad.allowed}")
            return ()
    return told.many("given")


def _moments(told: Told) -> tuple[str, ...]:
    named = {**told.values, "when": [GATE_NAMES.get(spaced(each), each) for each in told.many("when")]}
    return Told(named, told.place, told.findings).choices("when", (*MOMENTS, *GATES))
