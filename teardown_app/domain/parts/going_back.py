"""Which parts are to go back into the tool: not what went with a reason, nor what another job has."""

from __future__ import annotations

from teardown_app.domain.job.job import Job
from teardown_app.domain.parts.claiming import places_of
from teardown_app.domain.parts.parts import disposition_of

GONE = ("scrap", "spare", "return unrepaired")
"""Dispositions with which a part need not go back into the tool."""


def handed_over(job: Job, thing: str, to: str = "") -> int:
    """How many of it went to another job, or to this one, and were not given back."""
    given = _moved(job, thing, "handed_over", to)
    return given - _moved(job, thing, "given_back", to) if given else 0


def _moved(job: Job, thing: str, facet: str, to: str) -> int:
    return sum(entry.value.quantity for entry in job.entries(thing, facet) if not to or entry.value.job == to)


def is_to_go_in(job: Job, part: str) -> bool:
    """True for a part that claims no place, and that neither went with a reason nor to another job."""
    return not (places_of(job, part) or disposition_of(job, part) in GONE or handed_over(job, part))


def goes_back(job: Job, part: str) -> bool:
    """True for a part of which work, readings and answers are asked: one that claims a place, or has no disposition
    with which it need not go back."""
    return disposition_of(job, part) not in GONE or bool(places_of(job, part))
