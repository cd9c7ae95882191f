"""The tool as an indented list with a bar per assembly: the open assembly and the way to it, the rest closed."""

from __future__ import annotations

from collections.abc import Callable

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.next.next_off import off_state
from teardown_app.domain.places.scope import scope_of
from teardown_app.ui.view import Row
from teardown_app.workshop import OpenJob


class Tally:
    """Counts, per assembly, of places beneath that are done of those asked for; kept current record by record.

    `done` says it of one place: True, False, or None where it is not asked for.
    """

    def __init__(self, job: Job, done: Callable[[str], bool | None]) -> None:
        self._job, self._done = job, done
        self.counts: dict[str, tuple[int, int]] = {}
        self._state: dict[str, bool | None] = {}
        self._generation = -1
        self.take(None)

    def take(self, places: set[str] | None) -> None:
        """Looks again at these places, None for all: those that a record could change."""
        if places is None or self._job.generation != self._generation:
            self._generation = self._job.generation
            self.counts, self._state = {}, dict.fromkeys(self._job.positions)
            places = set(self._job.positions)
        for key in places & self._state.keys():
            before, now = self._state[key], self._done(key)
            if before is not now:
                self._state[key] = now
                self._add(key, int(now is True) - int(before is True), (now is not None) - (before is not None))

    def _add(self, key: str, done: int, wanted: int) -> None:
        for above in self._job.ancestors(key):
            have = self.counts.get(above, (0, 0))
            self.counts[above] = (have[0] + done, have[1] + wanted)


def _is_off(opened: OpenJob, key: str) -> bool | None:
    return off_state(opened.job, key)


def _stands(opened: OpenJob, key: str) -> bool | None:
    return opened.live.stands(key)


TALLIES = {"off": _is_off, "stands": _stands}
"""What is counted per assembly: places that came off, and places that are as they have to be."""


def tree_rows(job: Job, at: str, opened: str, mark: Callable[[str, str], str], tally: Tally) -> tuple[Row, ...]:
    """Rows of the tree: all top assemblies, and beneath the open ones their places."""
    here = opened or at
    way = {here, *(job.ancestors(here) if here in job.positions else ())}
    rows: list[Row] = []
    for position in job.positions.values():
        if position.parent not in job.positions:
            _add(job, position, at, way, mark, tally, rows, 0)
    return tuple(rows)


def _add(
    job: Job, position: Position, at: str, way: set[str], mark: Callable[[str, str], str], tally: Tally,
    rows: list[Row], depth: int,
) -> None:  # fmt: skip
    key = position.key
    done, wanted = tally.counts.get(key, (-1, 0))
    has_bar = wanted > 0
    scope = scope_of(job, key)
    trail = f"{done} of {wanted}" if has_bar else f"{position.count} pcs" if position.count else ""
    rows.append(
        Row(
            key,
            f"{key}  {position.line.description}",
            scope.word if scope.counts != "in" else "",
            mark(key, at),
            depth,
            trail,
            done if has_bar else -1,
            wanted if has_bar else 0,
            key == at,
        )
    )
    if key in way:
        for child in job.children(key):
            _add(job, child, at, way, mark, tally, rows, depth + 1)
