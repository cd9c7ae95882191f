"""The register of labels over all jobs that are here: which parts have which present numbers, and where they went."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import NamedTuple

from teardown_app.domain.job.job import Job
from teardown_app.domain.parts.parts import parts


class Bound(NamedTuple):
    """One part of one job with its present numbers: the jobs it was handed over to, and what it was taken over as (of
    which job, under which name there)."""

    job: str
    trial: bool
    names: tuple[str, ...]
    numbers: tuple[str, ...]
    gave: frozenset[str]
    took: frozenset[tuple[str, str]]


Register = Callable[[str], Iterable[Bound]]
"""A number -> parts of all jobs on which it is present."""


def no_others(number: str) -> Iterable[Bound]:
    """A register that knows no other job."""
    return ()


def register_of(every: Iterable[Bound]) -> Register:
    """The register of these parts."""
    found: dict[str, list[Bound]] = {}
    for one in every:
        for number in one.numbers:
            found.setdefault(number, []).append(one)
    return lambda number: found.get(number, ())


def bound_in(job: Job) -> list[Bound]:
    """All parts of a job that have a number."""
    return [one for part in parts(job) if (one := bound(job, part)).numbers]


def bound(job: Job, part: str) -> Bound:
    """One part of a job, as the register knows it."""
    gave = frozenset(entry.value.job for entry in job.entries(part, "handed_over"))
    took = frozenset((entry.value.job, entry.value.thing) for entry in job.entries(part, "taken_over"))
    return Bound(job.number, is_trial(job), job.group(part), present_numbers(job, part), gave, took)


def present_numbers(job: Job, part: str) -> tuple[str, ...]:
    """Numbers that are on a part now: more than one where two tablets differ."""
    return tuple(sorted({str(head.value) for head in job.heads(part, "number")}))


def is_trial(job: Job) -> bool:
    """Was the job opened as a trial?"""
    opening = job.opening
    return bool(opening and opening.record.trial)


def went(giving: Bound, taking: Bound) -> bool:
    """Was a part handed over by one job, and taken over by the other as that other part?"""
    return taking.job in giving.gave and any(of == giving.job and name in giving.names for of, name in taking.took)
