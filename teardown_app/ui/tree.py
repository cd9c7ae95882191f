"""The tool as an indented list with a bar per assembly: the open assembly and the way to it, the rest closed."""

from __future__ import annotations

from collections.abc import Callable

from teardown_app.domain.bill import Position
from teardown_app.domain.filling import goes_in_as_one
from teardown_app.domain.job import Job
from teardown_app.domain.parts import own_place
from teardown_app.domain.record import Record
from teardown_app.ui.view import Row


class Tally:
    """Counts, per assembly, of places beneath that are done of those asked for; kept current record by record."""

    def __init__(self, job: Job, done: Callable[[Job, str], bool]) -> None:
        self._job, self._done = job, done
        self._state: dict[str, tuple[int, int]] = {}
        self.counts: dict[str, tuple[int, int]] = {}
        self.count_all()

    def count_all(self) -> None:
        """Counts anew."""
        self._generation = self._job.generation
        self._state = {key: self._one(key) for key in self._job.positions}
        self.counts = {}
        for key, (done, wanted) in self._state.items():
            for above in self._job.ancestors(key):
                have = self.counts.get(above, (0, 0))
                self.counts[above] = (have[0] + done, have[1] + wanted)

    def _one(self, key: str) -> tuple[int, int]:
        position = self._job.positions[key]
        counted = position.line.kind == "hardware" and bool(position.count)
        if self._job.scope(key).counts != "in" or not (counted or goes_in_as_one(self._job, position)):
            return (0, 0)
        return (int(self._done(self._job, key)), 1)

    def take(self, record: Record) -> None:
        """Counts again what a record can have changed."""
        wide = record.typ.startswith(("configuration.", "record.", "job.", "line.", "part.same", "part.noted"))
        if wide or self._job.generation != self._generation:
            self.count_all()
            return
        things = [*record.ent, *(record.thing(n) for n in range(1, len(record.ent) + 1))]
        keys = {thing[1:] for thing in things if thing.startswith("@")}
        keys |= {own_place(self._job, self._job.group(thing)[0]) for thing in things if not thing.startswith("@")}
        for key in keys & self._state.keys():
            before, now = self._state[key], self._one(key)
            self._state[key] = now
            for above in self._job.ancestors(key):
                have = self.counts.get(above, (0, 0))
                self.counts[above] = (have[0] + now[0] - before[0], have[1] + now[1] - before[1])


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
    scope = job.scope(key)
    trail = f"{done}/{wanted}" if has_bar else f"{position.count} pcs" if position.count else ""
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
