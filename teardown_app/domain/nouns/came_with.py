"""What came with a unit: of which places that is said, and which count otherwise once a unit went or came."""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.ledger.record import is_position
from teardown_app.domain.nouns.job import Job

UNIT = "came with the unit"
"""The word on a place that holds, there and beneath, only while at the nearest place above that anything claims that
unit is."""


class CameWith:
    """For each place those there and beneath of which it was ever said."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._said: dict[str, set[str]] = {}
        self.heed(job.things("scope"))

    def heed(self, touched: Iterable[str]) -> None:
        """Told of what a record touched that says how places count."""
        for key in (thing[1:] for thing in touched if is_position(thing)):
            if any(entry.value["as"] == UNIT for entry in self._job.entries("@" + key, "scope")):
                for one in (key, *self._job.ancestors(key)):
                    self._said.setdefault(one, set()).add(key)

    def moved_with(self, key: str) -> set[str]:
        """Places that may count otherwise when what claims this place changed."""
        job, said = self._job, self._said
        if any(one in said.get(one, ()) for one in (key, *job.ancestors(key))):
            return {one.key for one in job.beneath(key)}
        return {each for one in said.get(key, ()) for each in (one, *(place.key for place in job.beneath(one)))}
