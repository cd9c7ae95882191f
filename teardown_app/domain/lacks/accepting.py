"""To be accepted: what somebody said that takes a demand away, until somebody with the second right accepts it."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.accepting import subjects_of, taken
from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.job.measured import is_accepted
from teardown_app.domain.job.taken_back import taken_back_about
from teardown_app.domain.lacks.accepting_words import words_of
from teardown_app.domain.lacks.lack import TO_ACCEPT, Lack, Where, lack, of_part
from teardown_app.domain.ledger.record import Record, is_position
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.life import deed_of
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.parts.parts import is_part
from teardown_app.domain.signed.narrowing import narrowings


@remembered
def accepting_lacks(job: Job, thing: str) -> list[Lack]:
    """All that is to be accepted of a place (`@10.20`), a part, or another thing."""
    return [*_narrowed(job, thing), *_all_taken_back(job, thing)]


def _narrowed(job: Job, thing: str) -> Iterator[Lack]:
    for one in narrowings(job, thing):
        said = f"{_name(job, thing)}: {words_of(job, one)}."
        yield _lack(job, thing, one.record, one.right, said, one.cells, accepted=is_accepted(job, one))


def _all_taken_back(job: Job, thing: str) -> Iterator[Lack]:
    for target in taken_back_about(job, thing):
        if thing in subjects_of(job, target):
            yield from _taken_back(job, target, thing)


def _taken_back(job: Job, target: Record, thing: str) -> Iterator[Lack]:
    """Of several takings back of one record one point: an accepted one, else the first of all."""
    found = taken(job, target, thing)
    if not found.is_point:
        return
    back = min(found.accepted or job.takings_back(target), key=lambda one: one.ref)
    said = f"{_name(job, thing, target)}: {back.act} took back that {target.act} {deed_of(target)}."
    yield _lack(job, thing, back, found.right, said, (target, back), accepted=bool(found.accepted))


def _lack(
    job: Job, thing: str, record: Record, right: str, wrong: str, cells: tuple[Record, ...], *, accepted: bool
) -> Lack:
    clears = f"Accept it (right: {right}), or do what it took away, or take it back."
    where, wrong = _where(job, thing), f"{wrong} {'Accepted' if accepted else 'Not accepted'}."
    return lack(TO_ACCEPT, where, wrong, clears=clears, ground=cells, which=record.ref, accepted=accepted, right=right)


def to_accept(job: Job, part: str) -> list[Lack]:
    """What of a part is still to be accepted, and a release of it accepts."""
    return [one for one in accepting_lacks(job, part) if not one.accepted and one.right == "release"]


def _where(job: Job, thing: str) -> Where:
    if is_position(thing):
        return Where(thing[1:], thing[1:] if thing[1:] in job.positions else "")
    return of_part(job, thing) if is_part(job, thing) else Where(thing)


def _name(job: Job, thing: str, about: Record | None = None) -> str:
    """A thing for the sentence; of a part that is not recorded any more, the place that the record was about."""
    if thing == JOB:
        return "The job"
    if is_position(thing):
        return named(job, thing[1:]) if thing[1:] in job.positions else thing[1:]
    if is_part(job, thing):
        return part_named(job, thing)
    place = str(about.body.get("out_of") or "") if about else ""
    return named(job, place) if place else str(job.value(thing, "what", "") or "A part without number")
