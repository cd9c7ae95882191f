"""Commands that fit parts and take them out again, and the list of what can go in now."""

from __future__ import annotations

from teardown_app.cli.command import Answer, Call, cautions, job_argument, looks
from teardown_app.cli.deed import Doing, Told, made, told
from teardown_app.domain.next.closing import due_beneath
from teardown_app.domain.next.next_in import NextIn, next_in
from teardown_app.domain.nouns.caution import at_place
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named
from teardown_app.domain.nouns.parts import number_of
from teardown_app.workflows.fit import FIT
from teardown_app.workflows.take_out import OUT


def _fitted(doing: Doing) -> Told:
    job, rows = doing.act.job, _rows(doing)
    places = [job.positions[row["position"]] for row in rows]
    due = list(dict.fromkeys(said for position in places for said in due_beneath(job, position)))
    closed = [f"  closed over: {said}" for said in due]
    return [*told(doing)[0], *closed, *_care(doing, rows)], {"fitted": rows, "due_beneath": due}


def _taken_out(doing: Doing) -> Told:
    rows = _rows(doing)
    return [*told(doing)[0], *_care(doing, rows)], {"taken_out": rows}


def _rows(doing: Doing) -> list[dict[str, str]]:
    return [{"part": part, "position": place[1:]} for part, place in (draft.ent for draft in doing.drafts)]


def _care(doing: Doing, rows: list[dict[str, str]]) -> list[str]:
    return cautions(said for row in rows for said in at_place(doing.act.job, row["position"]))


def next_(call: Call) -> Answer:
    """What can go in now."""
    job = call.job().job
    found = next_in(job)
    rows = [_next_row(job, one) for one in found]
    return Answer(rows, [_next_line(job, one) for one in found] or ["Nothing can go in now."])


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
    made(FIT, _fitted),
    made(OUT, _taken_out),
    looks(
        ("job", "next"),
        "What can go in now: the place, the part meant for it, where that is, and whether it is released.",
        "teardown-app job next PO-7781",
        next_,
        job_argument,
    ),
)
