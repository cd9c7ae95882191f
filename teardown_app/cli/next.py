"""The command that says what is next: one step and why, or all that can go in now."""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

from teardown_app.cli.command import Answer, Call, job_argument, looks
from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.lacks.lack import Lack, ToDo
from teardown_app.domain.ledger.record import is_position, position_thing
from teardown_app.domain.next.next_in import NextIn, next_in
from teardown_app.domain.next.step import BENCHES, SCAN, Next, View, last_gate, next_step
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import number_of
from teardown_app.domain.parts.routing import Moment
from teardown_app.workflows.called import part_meant
from teardown_app.workshop import OpenJob


def _arguments(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument(
        "place", metavar="PLACE", nargs="?", default="", help="place, or number of a part; else the tool"
    )
    parser.add_argument("--at", metavar="BENCH", choices=tuple(BENCHES), default="", help=", ".join(BENCHES))
    parser.add_argument("--all", action="store_true", help="all that can go in now, with the parts meant for it")


def next_(call: Call) -> Answer:
    """What is next."""
    opened = call.job()
    return _can_go_in(opened) if call.args.all else _step(call, opened)


def _step(call: Call, opened: OpenJob) -> Answer:
    job, place = opened.job, call.args.place
    about = position_thing(place) if place in job.positions else ""
    if place and not about:
        about = part_meant(call.look(job), place)
    clock = call.workshop.home.clock.now()
    view = View(opened.live, Moment("", clock.wall, clock.clk), call.materials())
    found = next_step(view, about, call.args.at, last_gate(opened.live))
    return Answer(_row(job, found), _lines(job, found))


def _row(job: Job, found: Next) -> dict[str, Any]:
    to_do = found.to_do
    return {
        "act": to_do.act if to_do else "",
        "about": _called(job, to_do) if to_do else "",
        "fields": dict(to_do.fields) if to_do else {},
        "waits": found.waits,
        "because": [{"kind": one.kind, "wrong": one.wrong} for one in found.chain],
    }


def _lines(job: Job, found: Next) -> list[str]:
    why = [f"  because: {one.wrong}" for one in found.chain if one.wrong]
    if found.to_do is not None:
        given = [f"{name} {value}" for name, value in found.to_do.fields if value]
        about = [] if found.to_do.about == JOB else [_called(job, found.to_do)]
        return [" ".join((f"Next: {found.to_do.act}", *about, *given)), *why]
    if found.waits == SCAN:
        return ["Next: scan the part that goes in.", *why]
    if found.waits:
        return [f"Wait: {found.waits}", *why]
    return [*[f"Look: {one.wrong} {one.clears}" for one in _last(found)], *why] or ["Nothing is next here."]


def _last(found: Next) -> tuple[Lack, ...]:
    return found.chain[-1:]


def _called(job: Job, to_do: ToDo) -> str:
    """What a command is given: a place, or the number on a label."""
    if is_position(to_do.about):
        return to_do.about[1:]
    return number_of(job, to_do.about) or str(job.value(to_do.about, "what", "") or to_do.about)


def _can_go_in(opened: OpenJob) -> Answer:
    found = next_in(opened.live)
    lines = [_next_line(opened.job, one) for one in found]
    return Answer([_next_row(opened.job, one) for one in found], lines or ["Nothing can go in now."])


def _next_row(job: Job, one: NextIn) -> dict[str, object]:
    return {
        "position": one.key,
        "description": job.positions[one.key].line.description,
        "part": one.part,
        "tag": number_of(job, one.part) if one.part else "",
        "where": one.where,
        "released": one.released,
    }


def _next_line(job: Job, one: NextIn) -> str:
    if not one.part:
        return f"{named(job, one.key)}: no part for it is known"
    tag = number_of(job, one.part) or "no label"
    state = "released" if one.released else "not released"
    return f"{named(job, one.key)}: {tag}, {one.where or 'place unknown'}, {state}"


COMMANDS = (
    looks(
        ("job", "next"),
        "What is next, of the tool, a place or a part, and why: the first act that nothing stands against.",
        "teardown-app job next PO-7781 10.20 --at assembly",
        next_,
        _arguments,
    ),
)
