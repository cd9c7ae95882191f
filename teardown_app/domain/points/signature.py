"""Points about signatures: what they covered has changed."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.gate import SHIP
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.job import JOB, Job
from teardown_app.domain.nouns.naming import named
from teardown_app.domain.nouns.parts import own_place
from teardown_app.domain.nouns.signing import is_stale
from teardown_app.domain.points.point import Point, Where, point


def signature_points(job: Job, thing: str) -> Iterator[Point]:
    """One point while a signature on the thing is stale."""
    if not is_stale(job, thing):
        return
    place = thing.startswith("@")
    part = "" if place or thing == JOB else job.group(thing)[0]
    key = thing[1:] if place else own_place(job, part) if part else ""
    yield point(
        job,
        "sign again",
        Where(thing.removeprefix("@"), key, part),
        wrong=f"{named(job, key) if key else 'The job'} has changed since it was signed.",
        clears="Look at what changed and sign again.",
        behind=refs(job.entries(thing, "signature")),
        gate=SHIP,
    )
