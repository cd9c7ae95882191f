"""Places that any record speaks of, found from any place above them without walking all that is beneath it."""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.ledger.record import is_position, position_thing
from teardown_app.domain.nouns.job import Job


class Spoken:
    """For each place those there and beneath that records speak of. A record adds its places along their paths."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._at: dict[str, dict[str, None]] = {}
        self.heed(thing for key in job.positions if job.speaks_of(thing := position_thing(key)))

    def heed(self, touched: Iterable[str]) -> None:
        """Told of what a record touched."""
        for key in (thing[1:] for thing in touched if is_position(thing)):
            if key in self._job.positions and key not in self._at.get(key, ()):
                for one in (key, *self._job.ancestors(key)):
                    self._at.setdefault(one, {})[key] = None

    def at(self, key: str) -> list[str]:
        """Places spoken of: this one and those beneath it."""
        return [*self._at.get(key, ())]


def spoken_of(job: Job, keys: Iterable[str]) -> list[str]:
    """Places that records speak of, of these and all beneath them; each once."""
    kept = job.keep(Spoken)
    return list(dict.fromkeys(one for key in keys for one in kept.at(key)))
