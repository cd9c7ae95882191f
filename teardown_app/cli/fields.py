"""The fields of an act on the command line: how each sort is typed, and what the workflow gets of it."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Callable, Sequence
from typing import Any

from teardown_app.cli.called import elsewhere
from teardown_app.cli.command import Call
from teardown_app.workflows import deed
from teardown_app.workflows.act import Act, refuse
from teardown_app.workflows.called import part_meant
from teardown_app.workflows.deed import Field
from teardown_app.workflows.hardware import ALL


def spelled(field: Field) -> str:
    """How a field is called: of many each by itself, and a place's key as people say it.

    >>> spelled(Field("as_")), spelled(Field("came_with", many=True)), spelled(Field("values", many=True))
    ('as', 'came-with', 'value')
    """
    if (field.name, field.sort) == ("key", deed.PLACE):
        return "position"
    name = field.name.strip("_").replace("_", "-")
    return name.removesuffix("s") if field.many else name


def argument(parser: ArgumentParser, field: Field) -> None:
    """The argument of a field. What is not given is None."""
    if field.sort == deed.HANDED_IN:
        return
    metavar = field.sort or spelled(field).upper()
    says = field.says.replace("%", "%%") + ("; may be repeated" if field.many and not field.first else "")
    if field.first:
        nargs = "*" if field.many else None
        parser.add_argument(field.name, metavar=metavar, nargs=nargs, help=says)
        return
    how: dict[str, Any] = {"dest": field.name, "help": says, "required": field.needed}
    if field.sort == deed.FLAG:
        how |= {"action": "store_const", "const": True}
    else:
        how |= {"metavar": metavar, "action": "append" if field.many else "store"}
    if field.sort == deed.WHOLE_OR_ALL:
        how |= {"nargs": "?", "const": ALL}
    parser.add_argument(f"--{spelled(field)}", **how)


def given(call: Call, act: Any, fields: Sequence[Field]) -> dict[str, Any]:
    """The fields that the call gives, as the workflow takes them."""
    values = {field.name: KNOWN[field.name](call) for field in fields if field.sort == deed.HANDED_IN}
    for field in fields:
        typed = getattr(call.args, field.name, None)
        if typed is not None:
            values[field.name] = _read(call, act, field, typed)
    return values


def _read(call: Call, act: Any, field: Field, typed: Any) -> Any:
    if field.sort not in READ:
        return typed
    if not field.many:
        return READ[field.sort](call, act, typed)
    each = list(dict.fromkeys(READ[field.sort](call, act, one) for one in typed))
    return dict(each) if field.sort == deed.PAIRS else each


KNOWN: dict[str, Callable[[Call], Any]] = {
    "conditions": lambda call: call.workshop.words["conditions"],
    "materials": lambda call: call.workshop.materials,
    "points": lambda call: call.job().live.points(),
}
"""What is handed in, by the field's name."""


def _whole(call: Call, act: Act, typed: str) -> int:
    try:
        return int(typed)
    except ValueError:
        refuse(f"{typed!r} is no count.", "Write a whole number; parts and places come before it.")


def _pair(call: Call, act: Act, typed: str) -> tuple[str, str]:
    name, _, text = typed.partition("=")
    if not name.strip() or not text.strip():
        refuse(f"{typed!r} says no value.", "Write it as --value 'bath=B2'.")
    return name.strip(), text.strip()


READ: dict[str, Callable[[Call, Any, Any], Any]] = {
    deed.NUMBER: lambda call, act, typed: typed.upper(),
    deed.OTHER_JOB: lambda call, act, typed: call.act(call.workshop.find_job(typed)),
    deed.PAIRS: _pair,
    deed.PART: lambda call, act, typed: part_meant(act, typed, lambda number: elsewhere(call, act, number)),
    deed.WHOLE: _whole,
    deed.WHOLE_OR_ALL: lambda call, act, typed: typed if typed == ALL else _whole(call, act, typed),
}
"""What the workflow gets where that is not the text as typed."""
