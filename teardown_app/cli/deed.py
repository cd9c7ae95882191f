"""A command made from the row of its act: what it takes, what it is about, what it says when it is done."""

from __future__ import annotations

from argparse import ArgumentParser
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any, NamedTuple

from teardown_app.cli.called import PARTS_HELP, elsewhere
from teardown_app.cli.command import Answer, Call, Command, job_argument, recorded
from teardown_app.cli.fields import argument, given
from teardown_app.domain.ledger.record import SHOP, is_position
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import is_part
from teardown_app.workflows.act import Act, Drafts
from teardown_app.workflows.called import parts_meant, places_meant, thing_of
from teardown_app.workflows.deed import ADDED, PARTS, PARTS_OR_CARRIERS, PLACES, Deed
from teardown_app.workflows.put import carrier_thing


class Doing(NamedTuple):
    """An act that was recorded, for what is said of it."""

    deed: Deed
    call: Call
    act: Any
    things: Sequence[str]
    """What it was about, as records call it; what was added on the job as people do."""
    fields: Mapping[str, Any]
    drafts: Drafts
    before: Any


Told = tuple[list[str], dict[str, Any]]
"""Lines for people, data for programs."""


def told(doing: Doing) -> Told:
    """The row's sentence of each thing, each once; the parts and places that the act was about."""
    lines = [said_of(doing, thing) for thing in doing.things]
    parts = [one for one in doing.things if _is_part(doing, one)]
    positions = [one[1:] for one in doing.things if is_position(one)]
    data = {"parts": parts, "positions": positions}
    return list(dict.fromkeys(lines)), {name: things for name, things in data.items() if things}


def said_of(doing: Doing, thing: str) -> str:
    """The row's sentence of one thing; what was recorded of it goes before what was given."""
    act, draft = doing.act, next((one for one in doing.drafts if thing in one.ent), doing.drafts[0])
    words = {"name": _called(doing, thing), "thing": thing.removeprefix("@"), "by": act.by}
    if doing.deed.about != SHOP:
        words |= {"job": act.job.number, "place": _called(doing, draft.ent[-1])}
    return doing.deed.done.format_map(defaultdict(str, {**words, **doing.fields, **draft.body}))


def made(deed: Deed, tells: Callable[[Doing], Told] = told, before: Callable[..., Any] | None = None) -> Command:
    """The command of a row. `tells` where there is more to say than its sentence; `before`, with what the
    workflow gets, where that hangs on what stood before."""
    words, example = tuple(deed.name.split()), f"teardown-app {deed.name} {deed.example}"
    return Command(words, deed.says, example, partial(_run, deed, tells, before), partial(_arguments, deed))


def _arguments(deed: Deed, parser: ArgumentParser) -> None:
    if deed.about != SHOP:
        job_argument(parser)
    for field in deed.fields:
        if field.first:
            argument(parser, field)
    if deed.about in NAMED:
        metavar, nargs, says = NAMED[deed.about]
        parser.add_argument("things", metavar=metavar, nargs=nargs, help=says)
    for field in deed.fields:
        if not field.first:
            argument(parser, field)


NAMED = {
    PARTS: ("PART", "+", PARTS_HELP),
    PLACES: ("POSITION", "+", "place of the tool, such as 10.20"),
    PARTS_OR_CARRIERS: ("PART", "+", "parts, or carriers, by number"),
    ADDED: ("POSITION", "*", "place of the tool, such as 10.20"),
}
"""Acts on things: what stands for one, how many are named, and the help."""


def _run(deed: Deed, tells: Callable[[Doing], Told], before: Callable[..., Any] | None, call: Call) -> Answer:
    act = call.shop_act() if deed.about == SHOP else call.act(call.job())
    named_things = [_meant(call, act, deed.about)] if isinstance(act, Act) and deed.about in NAMED else []
    fields = given(call, act, deed.fields)
    stood = before(act, *named_things, **fields) if before else None
    drafts = deed.do(act, *named_things, **fields)  # type: ignore[misc]
    records = call.record(drafts)
    about = _as_recorded(deed, act, named_things, fields, drafts)
    lines, data = tells(Doing(deed, call, act, about, fields, drafts, stood))
    return recorded(records, *lines, **data)


def _meant(call: Call, act: Act, about: str) -> list[str]:
    """What the call names, as the workflow takes it: parts by their thing, places by their key."""
    names: list[str] = call.args.things
    if about not in (PARTS, PARTS_OR_CARRIERS):
        return names
    carriers = {name: thing for name in names if about != PARTS and (thing := carrier_thing(act, name))}
    parts = parts_meant(act, [one for one in names if one not in carriers], lambda one: elsewhere(call, act, one))
    return [*parts, *carriers.values()]


def _as_recorded(deed: Deed, act: Any, meant: list[list[str]], fields: Mapping[str, Any], drafts: Drafts) -> list[str]:
    """What the act was about; of an act on the job or shop, what its records are about."""
    if not meant:
        return list(dict.fromkeys(thing for draft in drafts for thing in draft.ent))
    if deed.about in (PARTS, PARTS_OR_CARRIERS):
        return meant[0]
    places = [thing_of(one) for one in places_meant(act, meant[0])]
    return [*places, *dict.fromkeys(fields.get("what", ()))] if deed.about == ADDED else places


def _called(doing: Doing, thing: str) -> str:
    """A part, place or carrier for a sentence; what was added on the job by its name."""
    if _is_part(doing, thing):
        return str(doing.act.name(thing))
    if is_position(thing):
        return named(doing.act.job, thing[1:])
    return thing.removeprefix("carrier:")


def _is_part(doing: Doing, thing: str) -> bool:
    return doing.deed.about != SHOP and is_part(doing.act.job, thing)
