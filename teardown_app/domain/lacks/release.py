"""Release of a part: what still stands against it, and whether the part counts as released."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.accepting import accepting_lacks
from teardown_app.domain.lacks.finding import declined_lacks, waiting_lacks
from teardown_app.domain.lacks.hold import every_hold
from teardown_app.domain.lacks.lack import (
    DISPOSITION,
    GONE_PART,
    NO_SEAT,
    NOT_RELEASED,
    OPERATION,
    RELEASE,
    WAIT,
    WRITTEN_DOWN,
    Lack,
    ToDo,
    lack,
    of_part,
    standing,
)
from teardown_app.domain.lacks.reading import release_readings
from teardown_app.domain.ledger.kinds.kind import is_said
from teardown_app.domain.ledger.kinds.work import operation_facet
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.claiming import places_of
from teardown_app.domain.parts.going_back import handed_over
from teardown_app.domain.parts.naming import part_named
from teardown_app.domain.parts.operations import OVER, Left, beginnings
from teardown_app.domain.parts.parts import disposition_of
from teardown_app.domain.parts.routing import Moment, begun, operations_left, state_of, waits_open
from teardown_app.domain.parts.seat import lines_of
from teardown_app.domain.signed.release import release_ground, releases, why_lapsed

FIT_FOR_USE = ("use as is", "rework", "repair")
WITHOUT_POINT = (NO_SEAT, DISPOSITION, OPERATION, WRITTEN_DOWN)
"""Kinds of what a release lacks that have no point of their own."""


@remembered
def release_conditions(job: Job, part: str) -> list[Lack]:
    """What a release of the part lacks whenever it was given, but for waits; what was conceded left out."""
    found = [*_seat(job, part), *every_hold(job, part), *_disposition(job, part), *waiting_lacks(job, part)]
    found += [*declined_lacks(job, part), *operation_lacks(job, part), *_written(job, part)]
    return list(standing(job, [*found, *release_readings(job, part)]))


def away(job: Job, part: str) -> Iterator[Lack]:
    """A part that another job has."""
    if handed_over(job, part):
        to = job.entries(part, "handed_over")[0].value.job
        wrong, clears = f"{_name(job, part)} was handed over to job {to}.", "Record that it was given back first."
        yield _of(job, part, GONE_PART, wrong, clears, ToDo("part give-back", part))


def _seat(job: Job, part: str) -> Iterator[Lack]:
    if not lines_of(job, part):
        yield _of(job, part, NO_SEAT, f"{_name(job, part)} is for no place of the tool.")


def _disposition(job: Job, part: str) -> Iterator[Lack]:
    word = disposition_of(job, part)
    if word in FIT_FOR_USE:
        return
    said = f"is dispositioned {word}" if word else "has no disposition"
    yield _of(job, part, DISPOSITION, f"{_name(job, part)} {said}.", to_do=ToDo("part judge", part))


def _written(job: Job, part: str) -> Iterator[Lack]:
    wanted = dict.fromkeys(name for line in lines_of(job, part) for name in line.write_down)
    lacking = [name for name in wanted if not is_said(job.value(part, f"written/{name}"))]
    if lacking:
        wrong = f"{_name(job, part)}: not written down: {', '.join(lacking)}."
        yield _of(job, part, WRITTEN_DOWN, wrong, to_do=ToDo("part note", part, (("what", lacking[0]),)))


def operation_lacks(job: Job, part: str) -> Iterator[Lack]:
    """Operations of the part's routes that are not over, or what was begun and not brought to its end."""
    left = list(operations_left(job, part))
    if left:
        yield _operation(job, part, left)
        return
    unended = [facet.split("/")[2] for facet in begun(job, part)]
    if unended:
        wrong = f"{_name(job, part)}: begun and not ended: {', '.join(unended)}."
        yield _of(job, part, OPERATION, wrong, f"Bring {unended[0]} to its end.")


def _operation(job: Job, part: str, left: list[Left]) -> Lack:
    first = left[0]
    says = [f"{one.operation.says or one.operation.id}{f' ({one.why})' if one.why else ''}" for one in left]
    wrong = f"{_name(job, part)}: still to do: {'; '.join(says)}."
    step = (("operation", first.operation.id), ("route", first.route.name))
    clears = f"Do {first.operation.says or first.operation.id} next."
    clears = "Do it again, or skip it by name." if first.why else clears
    return _of(
        job,
        part,
        OPERATION,
        wrong,
        clears,
        ToDo("part done" if _is_begun(job, part, first) else "part start", part, step),
    )


def _is_begun(job: Job, part: str, left: Left) -> bool:
    """Is what is left to be brought to its end: begun, or recorded done and nobody asks for a beginning?"""
    route, operation = left.route.name, left.operation
    state = state_of(job, part, route, operation.id)
    if state in OVER:
        return not operation.time or bool(beginnings(job, part, operation_facet(route, operation.id, 1)))
    return state == "started"


def wait_lacks(job: Job, part: str, moment: Moment) -> Iterator[Lack]:
    """Waits after operations that are not over at a moment."""
    for one, left in waits_open(job, part, moment):
        clock = "" if moment.clk == "ok" else "; this tablet's clock cannot be trusted"
        wrong = f"{_name(job, part)} rests after {one.says or one.id} for another {left:.1f} h{clock}."
        yield _of(job, part, WAIT, wrong, to_do=ToDo("part wait-over", part, (("operation", one.id),)))


def _of(job: Job, part: str, kind: str, wrong: str, clears: str = "", to_do: ToDo | None = None) -> Lack:
    return lack(kind, of_part(job, part), wrong, clears=clears, to_do=to_do)


def _name(job: Job, part: str) -> str:
    return part_named(job, part, of_part(job, part).position)


@remembered
def is_released(job: Job, part: str) -> bool:
    """True while a release had seen all it rests on, is for the lines of the part's seat, and lacks nothing."""
    if not job.entries(part, "released") or release_conditions(job, part):
        return False
    records = [entry.record for entry in releases(job, part)]
    return any(not waits_open(job, part, Moment(one.dev, one.wall, one.clk)) for one in records)


def why_not_released(job: Job, part: str) -> list[Lack]:
    """What has to happen before the part counts as released; empty when it does."""
    if is_released(job, part):
        return []
    found = release_conditions(job, part)
    if found:
        return found
    wrong = f"{_name(job, part)} {why_lapsed(job, part) or 'is not released'}."
    return [_of(job, part, RELEASE, wrong, "Release it.", ToDo("part release", part))]


def release_lacks(job: Job, part: str, *, claims_none: bool = False) -> Iterator[Lack]:
    """One lack while a part that claims a place (or, where that is asked, may claim none yet) is not released, and what
    it lacks has no point of its own."""
    if not places_of(job, part) and not claims_none:
        return
    found = why_not_released(job, part)
    own = [one for one in found if one.kind in WITHOUT_POINT]
    if not found or (not own and (found[0].kind != RELEASE or _waits(job, part))):
        return
    yield lack(
        NOT_RELEASED,
        of_part(job, part),
        f"{_name(job, part)} is fitted but not released: {' '.join(one.wrong for one in own or found)}",
        clears=(own or found)[0].clears,
        to_do=(own or found)[0].to_do,
        ground=lambda: release_ground(job, part),
    )


def _waits(job: Job, part: str) -> bool:
    """Has the part something that is to be accepted?"""
    return any(True for _ in standing(job, accepting_lacks(job, part)))
