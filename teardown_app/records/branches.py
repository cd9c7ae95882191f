"""Branches on the disk: what two recorded under one tablet's name, each going on from a copy of the same files."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from teardown_app.domain.ledger.record import Record
from teardown_app.records.header import Seen
from teardown_app.records.journal import Reading
from teardown_app.records.names import device_of

Branch = Sequence[Record]
"""All records of one branch, those included that it shares with others, in the order of their numbers."""


def heads_of(readings: Mapping[str, Reading]) -> Seen:
    """The last record of every branch, as `seen` names it, of what the folders of one job hold: `<dev>` of the first
    branch of a tablet, `<dev>#<h8>` of each further one."""
    heads: Seen = {}
    for dev, branches in _by_tablet(readings).items():
        first = branches[0]
        heads[dev] = _last(first)
        for branch in branches[1:]:
            others = (other for other in branches if other is not branch)
            begins = max(shared(branch, other) for other in others)
            heads[f"{dev}#{branch[begins].h[:8]}"] = _last(branch)
    return heads


def _by_tablet(readings: Mapping[str, Reading]) -> dict[str, list[Branch]]:
    """The branches of each tablet, in the order of their folders; what is all in another one is none."""
    found: dict[str, list[Branch]] = {}
    for name, reading in readings.items():
        branches = found.setdefault(device_of(name), [])
        longer = any(continues(other, reading.records) for other in branches)
        if reading.records and not longer:
            branches[:] = [one for one in branches if not continues(reading.records, one)]
            branches.append(reading.records)
    return {dev: branches for dev, branches in found.items() if branches}


def _last(branch: Branch) -> tuple[int, str]:
    return branch[-1].seq, branch[-1].h[:8]


def shared(one: Branch, other: Branch) -> int:
    """How many records two branches share."""
    pairs = enumerate(zip(one, other, strict=False))
    return next((n for n, (mine, theirs) in pairs if mine.h != theirs.h), min(len(one), len(other)))


def continues(longer: Branch, branch: Branch) -> bool:
    """Are all records of a branch in the other one?"""
    return len(longer) >= len(branch) and (not branch or longer[len(branch) - 1].h == branch[-1].h)
