"""What was left in a unit, or came with one: of which places that is said, and which count otherwise once it went."""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.job import UNIT
from teardown_app.domain.ledger.record import is_position, position_thing


class LeftIn:
    """For each place those there and beneath of which it was ever said that they were left."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._said: dict[str, set[str]] = {}
        self.heed(job.things("scope"))

    def heed(self, touched: Iterable[str]) -> None:
        """Told of what a record touched that says how places count."""
        for key in (thing[1:] for thing in touched if is_position(thing)):
            for entry in self._job.ever(position_thing(key), "scope"):
                if entry.value.counts == "left":
                    for one in (key, *self._job.ancestors(key), *self._units(entry)):
                        self._said.setdefault(one, set()).add(key)

    def _units(self, entry: Entry) -> list[str]:
        """Where the unit is that something came with, or may be: the places of one line."""
        if entry.value.word != UNIT:
            return []
        position = self._job.positions.get(entry.record.ent[1][1:])
        return [one.key for one in self._job.bill.positions_of(position.line.position)] if position else []

    def beside(self, key: str) -> list[str]:
        """Where this place would be in the other units of a line, if it was ever said to be left in one: a unit that
        takes another one's place takes along what was left in it."""
        job, said, above = self._job, self._said, self._job.ancestors(key)
        if key not in job.positions or not any(one in said.get(one, ()) for one in (key, *above)):
            return []
        units = [(unit, job.bill.positions_of(job.positions[unit].line.position)) for unit in above]
        found = (other.key + key.removeprefix(unit) for unit, others in units for other in others if other.key != unit)
        return [one for one in found if one in job.positions]

    def moved_with(self, key: str) -> set[str]:
        """Places that may count otherwise when what fills this place changed, or what came out of it."""
        job, said = self._job, self._said
        found = {each for one in said.get(key, ()) for each in (one, *(place.key for place in job.beneath(one)))}
        if any(one in said.get(one, ()) for one in (key, *job.ancestors(key))):
            found.update(one.key for one in job.beneath(key))
        return found
