"""Computes one measurement from a file and records nothing: `measure KIND INPUT`."""

from __future__ import annotations

import json
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from teardown_app.cli.command import Answer, Call, looks
from teardown_app.domain.measure.digits import told_apart
from teardown_app.domain.measure.measuring import Outcome, fields_of, measure
from teardown_app.domain.measure.typed import meant, without_unit
from teardown_app.intake.measured import LARGEST, measured_file, read_measured
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import Field, Kind, Value
from teardown_app.metrology.kinds import all_kinds
from teardown_app.workflows.act import refuse


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("kind", metavar="KIND", nargs="?", default="", help="what was measured; --list names them all")
    parser.add_argument(
        "input", metavar="INPUT", nargs="?", default="", help="JSON or CSV file; - reads what is piped in"
    )
    parser.add_argument("--list", action="store_true", help="name all kinds")
    parser.add_argument("--set", action="append", default=[], metavar="FIELD=VALUE", help="a field that the file lacks")
    plain_help = parser.format_help

    def help_with_fields() -> str:
        return plain_help() + "\n" + "\n\n".join("\n".join(told(kind)) for kind in all_kinds().values()) + "\n"

    parser.format_help = help_with_fields  # type: ignore[method-assign]


def told(kind: Kind) -> list[str]:
    """A kind with its fields, units and an example file."""
    lines = [f"{kind.name}: {kind.says} ({kind.standard})"]
    lines += [f"  {field.name:<22} {_field(field)}" for field in fields_of(kind)]
    lines.append(f"  needs at least {kind.least}")
    return [*lines, "  example file, JSON:", f"  {json.dumps(dict(kind.example))}"]


def _field(field: Field) -> str:
    unit = f" [{field.unit}]" if field.unit else ""
    columns = f", rows of {', '.join(field.columns)}" if field.columns else ""
    words = f", one of {', '.join(field.choices)}" if field.choices else f", {field.allowed}" if field.allowed else ""
    given = (
        "; may be left out" if field.optional else f"; {field.default} if left out" if field.default is not None else ""
    )
    return f"{field.says}{unit}{columns}{words}{given}"


def run(call: Call) -> Answer:
    """Computes, or tells what can be computed."""
    args, kinds = call.args, all_kinds()
    if args.list or not args.kind:
        rows = [{"kind": kind.name, "says": kind.says, "standard": kind.standard} for kind in kinds.values()]
        return Answer(rows, [f"{row['kind']:<24} {row['says']}" for row in rows])
    kind = kinds.get(args.kind)
    if kind is None:
        refuse(f"{args.kind} is no kind of measurement.", f"Kinds are {', '.join(kinds)}.")
    if not args.input and not args.set:
        return Answer(_described(kind), told(kind))
    typed = given_by_set(kind, args.set)
    given = read_measured(kind, _bytes(args.input), typed) if args.input else {}
    outcome = measure(kind, given | typed)
    units = [one for one in (without_unit(kind, given | typed),) if one]
    data, lines = as_data(kind, outcome), as_lines(kind, outcome)
    return Answer({**data, "notes": [*data["notes"], *units]}, [*lines, *units])


def _bytes(name: str) -> bytes:
    if name != "-":
        return measured_file(Path(name))
    import sys

    return sys.stdin.buffer.read(LARGEST + 1)


def given_by_set(kind: Kind, typed: list[str]) -> dict[str, Any]:
    """Fields as `--set` gives them; raises `BadInput`."""
    fields = {field.name: field for field in fields_of(kind)}
    found = {}
    for one in typed:
        name, equals, value = one.partition("=")
        if not equals or name.strip() not in fields:
            raise BadInput("--set", one, "FIELD=VALUE with one of " + ", ".join(fields))
        found[name.strip()] = meant(fields[name.strip()], value)
    return found


def _described(kind: Kind) -> dict[str, Any]:
    fields = [
        {**field._asdict(), "columns": list(field.columns), "choices": list(field.choices)} for field in fields_of(kind)
    ]
    return {
        "kind": kind.name,
        "says": kind.says,
        "standard": kind.standard,
        "fields": fields,
        "example": dict(kind.example),
    }


def as_data(kind: Kind, outcome: Outcome) -> dict[str, Any]:
    """For a program: every value with its unit, the verdict and how it was come by."""
    values = {one.name: {"value": one.value, "unit": one.unit} for one in outcome.result.values}
    decision = outcome.decision._asdict() if outcome.decision else None
    data: dict[str, Any] = {"kind": kind.name, "values": values, "judged": kind.judged or None}
    return {**data, "verdict": outcome.verdict or None, "decision": decision, "notes": list(outcome.result.notes)}


def as_lines(kind: Kind, outcome: Outcome) -> list[str]:
    """For a person."""
    lines = [
        f"{one.says or one.name}: {_value(kind, outcome, one)} {one.unit}".rstrip() for one in outcome.result.values
    ]
    if outcome.verdict:
        lines.append(f"verdict: {outcome.verdict}")
    told = outcome.decision.notes if outcome.decision else ()
    return [*lines, *outcome.result.notes, *told]


def _value(kind: Kind, outcome: Outcome, one: Value) -> str:
    """The judged value in digits enough to tell it from its limit."""
    if one.name == kind.judged and outcome.value is not None:
        return told_apart(outcome.value, outcome.ends)
    return _shown(one.value)


def _shown(value: Any) -> str:
    return f"{value:.6g}" if isinstance(value, float) else "-" if value is None else str(value)


COMMANDS = (
    looks(
        ("measure",),
        "Compute one measurement from a JSON or CSV file. Records nothing.",
        "teardown-app measure bonding --set voltage=0.85 --set current=10 --set limit_max=0.1",
        run,
        _arguments,
    ),
)
