"""What can come off now, held against the lines' own `fit_after` while a whole tool is taken apart."""

from __future__ import annotations

from typing import Any

import pytest

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.next.next_off import can_come_off, is_off, next_off, off_state
from tests.ui.hands import Hand, at, take_apart


def _covered(job: Job, cover: Position) -> set[str]:
    """What a place closes over, from its line alone: of the places of a named line those that share most of
    the way up with it."""
    found: set[str] = set()
    above = set(job.ancestors(cover.key))
    for line in cover.line.fit_after:
        shared = {
            one.key: len(above & {one.key, *job.ancestors(one.key)})
            for one in job.bill.positions.values()
            if one.line.position == line
        }
        found |= {key for key, many in shared.items() if many == max(shared.values())} - above
    return found


@pytest.mark.parametrize("tool", ["pump", "BRD-25"])
def test_nothing_comes_off_from_beneath_something(hand: Hand, tool: str) -> None:
    """After every record: what is proposed is free, and as long as anything is on, something is proposed."""
    at(hand, tool)
    job, seen = hand.desk.job, [0]

    def compare(*_: Any) -> None:
        still = [one for one in job.positions.values() if not is_off(job, one.key)]
        buried = {key for one in still for key in _covered(job, one)}
        free = [one.key for one in can_come_off(job)]
        assert not buried & set(free)
        assert bool(free) == bool(still)
        following = next_off(job)
        assert (following.key if following else None) == (free[0] if free else None)
        seen[0] += 1

    hand.desk.workshop.listeners.append(compare)
    take_apart(hand)
    assert seen[0] > 20
    assert not [key for key in job.positions if off_state(job, key) is False]
