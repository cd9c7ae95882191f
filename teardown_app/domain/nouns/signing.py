"""Signatures: what they cover, and whether that still stands."""

from __future__ import annotations

from teardown_app.domain.nouns.checking import part_doubts
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import is_part
from teardown_app.domain.nouns.release import covers
from teardown_app.domain.nouns.standing import Standing, or_digest


def signature_covers(job: Job, thing: str) -> list[str]:
    """What a signature on a thing (a part, a place, the job) covers today: names, or their digest."""
    if is_part(job, thing):
        return or_digest({*covers(job, thing), *refs(part_doubts(job, thing))})
    return standing(job).names(thing)


def standing(job: Job) -> Standing:
    """What is kept about signatures on places and on the job."""
    return job.keep(Standing)


def signed(job: Job) -> list[str]:
    """What was signed; a part by its smallest name."""
    return sorted({job.group(thing)[0] for thing in job.things("signature")})


def is_stale(job: Job, thing: str) -> bool:
    """True when something signed was changed since, and nobody signed again."""
    if not is_part(job, thing):
        return standing(job).is_stale(thing)
    signatures = job.entries(thing, "signature")
    wanted = signature_covers(job, thing) if signatures else []
    return bool(signatures) and not any(entry.value["covers"] == wanted for entry in signatures)
