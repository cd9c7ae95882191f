"""To be accepted: what somebody said that takes a demand away, until somebody with the second right accepts it."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.lacks.accepting_words import words_of
from teardown_app.domain.lacks.lack import TO_ACCEPT, Lack, Where, lack, of_part
from teardown_app.domain.ledger.record import Record, is_position
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.nouns.accepting import subjects_of, taken
from teardown_app.domain.nouns.job import JOB, Job
from teardown_app.domain.nouns.life import deed_of
from teardown_app.domain.nouns.measured import is_accepted
from teardown_app.domain.nouns.naming import named, part_named
from teardown_app.domain.nouns.narrowing import narrowings
from teardown_app.domain.nouns.parts import is_part


@remembered
def accepting_lacks(job: Job, thing: str) -> list[Lack]:
    """All that is to be accepted of a place (`@10.20`), a part, or another thing."""
    return [*_narrowed(job, thing), *_all_taken_back(job, thing)]


def _narrowed(job: Job, thing: str) -> Iterator[Lack]:
    for one in narrowings(job, thing):
        said = f"{_name(job, thing)}: {words_of(job, one)}."
        yield _lack(job, thing, one.record, one.right, said, one.cells, accepted=is_accepted(job, one))


def _all_taken_back(job: Job, thing: str) -> Iterator[Lack]:
    for target in job.about(thing):
        if job.takings_back(target) and thing in subjects_of(job, target):
            yield from _taken_back(job, target, thing)


def _taken_back(job: Job, target: Record, thing: str) -> Iterator[Lack]:
    """Of several takings back of one record one point: an accepted one, else the first of all."""
    found = taken(job, target, thing)
    if not found.is_point:
        return
    back = min(found.accepted or job.takings_back(target), key=lambda one: one.ref)
    said = f"{_name(job, thing)}: {back.act} took back that {target.act} {deed_of(target)}."
    yield _lack(job, thing, back, found.right, said, (target, back), accepted=bool(found.accepted))


def _lack(
    job: Job, thing: str, record: Record, right: str, wrong: str, cells: tuple[Record, ...], *, accepted: bool
) -> Lack:
    clears = f"Accept it (right: {right}), or do what it took away, or take it back."
    where, wrong = _where(job, thing), f"{wrong} {'Accepted' if accepted else 'Not accepted'}."
    return lack(TO_ACCEPT, where, wrong, clears=clears, ground=cells, which=record.ref, accepted=accepted)


def _where(job: Job, thing: str) -> Where:
    if is_position(thing):
        return Where(thing[1:], thing[1:] if thing[1:] in job.positions else "")
    return of_part(job, thing) if is_part(job, thing) else Where(thing)


def _name(job: Job, thing: str) -> str:
    if thing == JOB:
        return "The job"
    if is_position(thing):
        return named(job, thing[1:]) if thing[1:] in job.positions else thing[1:]
    return part_named(job, thing) if is_part(job, thing) else thing
