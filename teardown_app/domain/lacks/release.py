"""Release of a part: what still stands against it, and whether the part counts as released."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.lacks.finding import finding_lacks
from teardown_app.domain.lacks.hold import part_holds
from teardown_app.domain.lacks.lack import (
    DISPOSITION,
    GONE_PART,
    NOT_RELEASED,
    OPERATION,
    RELEASE,
    WAIT,
    Lack,
    ToDo,
    lack,
    of_part,
    standing,
)
from teardown_app.domain.lacks.reading import release_readings
from teardown_app.domain.nouns.filling import GONE, handed_over, places_of
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import part_named
from teardown_app.domain.nouns.parts import disposition_of
from teardown_app.domain.nouns.release import covers
from teardown_app.domain.nouns.routing import Moment, begun, out_of_order, remaining, route_of, state_of, waits_open

FIT_FOR_USE = ("use as is", "rework", "repair")


def against_release(job: Job, part: str, moment: Moment | None) -> list[Lack]:
    """All that stands between a part and its release at a moment (None: waits are not asked)."""
    found = [*part_holds(job, part), *_disposition(job, part), *finding_lacks(job, part)]
    if moment is not None:
        found += wait_lacks(job, part, moment)
    found += [*operation_lacks(job, part), *release_readings(job, part)]
    return list(standing(job, found))


def against_going_on(job: Job, part: str) -> Iterator[Lack]:
    """A part that is not to go back into the tool: by its disposition, or because another job has it."""
    word = disposition_of(job, part)
    if word in GONE:
        yield _of(job, part, GONE_PART, f"{_name(job, part)} is dispositioned {word}.", to_do=ToDo("part judge", part))
    yield from away(job, part)


def away(job: Job, part: str) -> Iterator[Lack]:
    """A part that another job has."""
    if handed_over(job, part):
        to = job.entries(part, "handed_over")[0].value["to"]
        wrong, clears = f"{_name(job, part)} was handed over to job {to}.", "Record that it was given back first."
        yield _of(job, part, GONE_PART, wrong, clears, ToDo("part give-back", part))


def against_releasing(job: Job, part: str, moment: Moment) -> list[Lack]:
    """What stands against releasing a part now: where it is with another job, and what stands against its release."""
    return [*away(job, part), *against_release(job, part, moment)]


def _disposition(job: Job, part: str) -> Iterator[Lack]:
    word = disposition_of(job, part)
    if word in FIT_FOR_USE:
        return
    said = f"is dispositioned {word}" if word else "has no disposition"
    yield _of(job, part, DISPOSITION, f"{_name(job, part)} {said}.", to_do=ToDo("part judge", part))


def operation_lacks(job: Job, part: str) -> Iterator[Lack]:
    """Operations of the part's route that are not over, or were recorded out of order."""
    left, route = remaining(job, part), route_of(job, part)
    if left and route is not None:
        step = (("operation", left[0].id), ("route", route.name))
        wrong = f"{_name(job, part)}: still to do: {'; '.join(one.says or one.id for one in left)}."
        clears = f"Do {left[0].says or left[0].id} next."
        begun_already = state_of(job, part, route.name, left[0].id) == "started"
        act = "part done" if begun_already else "part start"
        yield _of(job, part, OPERATION, wrong, clears, ToDo(act, part, step))
        return
    unended = [facet.split("/")[2] for facet in begun(job, part)]
    early = out_of_order(job, part)
    if unended:
        wrong = f"{_name(job, part)}: begun and not ended: {', '.join(unended)}."
        yield _of(job, part, OPERATION, wrong, f"Bring {unended[0]} to its end.")
    elif early:
        wrong = f"{_name(job, part)}: {early} was recorded out of order."
        yield _of(job, part, OPERATION, wrong, "Do it again, or skip it by name.")


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


def is_released(job: Job, part: str) -> bool:
    """True while a release covers today's facts and all of its conditions still hold."""
    entries = job.entries(part, "released")
    if not entries:
        return False
    wanted = covers(job, part)
    records = [entry.record for entry in entries if entry.value == wanted]
    return any(not against_release(job, part, Moment(one.dev, one.wall, one.clk)) for one in records)


def why_not_released(job: Job, part: str) -> list[Lack]:
    """What has to happen before the part counts as released; empty when it does."""
    if is_released(job, part):
        return []
    found = against_release(job, part, None)
    if found:
        return found
    if job.entries(part, "released"):
        wrong, clears = f"{_name(job, part)} has changed since its release.", "Release it again."
    else:
        wrong, clears = f"{_name(job, part)} is not released.", "Release it."
    return [_of(job, part, RELEASE, wrong, clears, ToDo("part release", part))]


def release_lacks(job: Job, part: str, *, claims_none: bool = False) -> Iterator[Lack]:
    """One lack while a part that claims a place (or, where that is asked, may claim none yet) is not released."""
    if not places_of(job, part) and not claims_none:
        return
    found = why_not_released(job, part)
    if not found:
        return
    yield lack(
        NOT_RELEASED,
        of_part(job, part),
        f"{_name(job, part)} is fitted but not released: {' '.join(one.wrong for one in found)}",
        clears=found[0].clears,
        to_do=found[0].to_do,
        ground=covers(job, part),
    )
