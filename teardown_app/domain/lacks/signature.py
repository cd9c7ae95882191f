"""Signatures: what they covered has changed."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.lacks.lack import SIGN_AGAIN, Lack, ToDo, Where, lack
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.job import JOB, Job
from teardown_app.domain.nouns.naming import named
from teardown_app.domain.nouns.parts import own_place
from teardown_app.domain.nouns.signing import is_stale


def signature_lacks(job: Job, thing: str) -> Iterator[Lack]:
    """One lack while a signature on the thing is stale."""
    if not is_stale(job, thing):
        return
    place = thing.startswith("@")
    part = "" if place or thing == JOB else job.group(thing)[0]
    key = thing[1:] if place else own_place(job, part) if part else ""
    wrong = f"{named(job, key) if key else 'The job'} has changed since it was signed."
    where = Where(thing.removeprefix("@"), key, part)
    ground = refs(job.entries(thing, "signature"))
    yield lack(SIGN_AGAIN, where, wrong, to_do=ToDo("job sign", thing), ground=ground)
