"""Signatures: what they cover, and whether that still stands."""

from __future__ import annotations

from hashlib import blake2b

from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.reassembly import MOVES
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.checking import part_doubts, place_doubts
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.job import JOB, Job
from teardown_app.domain.nouns.parts import is_part
from teardown_app.domain.nouns.release import covers

PLACE_FACETS = ("filled", "renewal", "temporary", "found", "scope")
PLACE_UNIONS = ("torque", *MOVES)
MOST_NAMED = 200
"""Above this many records a signature names their digest instead of each."""


def scope_entries(job: Job, key: str) -> list[Entry]:
    """What a signature on a place (and all beneath it) covers."""
    keys = [key] if key in job.positions else []
    keys += [one.key for one in job.beneath(key)]
    return [entry for one in keys for entry in _place_entries(job, one)]


def _place_entries(job: Job, key: str) -> list[Entry]:
    thing = position_thing(key)
    entries = [head for facet in PLACE_FACETS for head in job.heads(thing, facet)]
    entries += [head for facet in job.facets(thing, "check") for head in job.heads(thing, facet)]
    entries += [entry for facet in PLACE_UNIONS for entry in job.entries(thing, facet)]
    entries += place_doubts(job, job.positions[key])
    parts = [job.group(head.value)[0] for head in job.heads(thing, "filled") if head.value]
    return entries + [entry for part in parts for entry in (*job.entries(part, "released"), *part_doubts(job, part))]


def signature_covers(job: Job, thing: str) -> list[str]:
    """What a signature on a thing (a part, a place, the job) covers today: names, or their digest."""
    if is_part(job, thing):
        names = sorted({*covers(job, thing), *refs(part_doubts(job, thing))})
    else:
        names = list(refs(scope_entries(job, "" if thing == JOB else thing[1:])))
    if len(names) <= MOST_NAMED:
        return names
    return [f"{len(names)} records {blake2b(' '.join(names).encode(), digest_size=16).hexdigest()}"]


def signed(job: Job) -> list[str]:
    """What was signed; a part by its smallest name."""
    return sorted({job.group(thing)[0] for thing in job.things("signature")})


def is_stale(job: Job, thing: str) -> bool:
    """True when something signed was changed since, and nobody signed again."""
    signatures = job.entries(thing, "signature")
    if not signatures:
        return False
    wanted = signature_covers(job, thing)
    return not any(entry.value["covers"] == wanted for entry in signatures)
