"""What happened at each place and beneath it, kept from record to record, so that a verdict is held against all of it
without walking the tool.

A record adds itself along the path of its place. Of what nobody took back a place keeps the last record of each
tablet: whoever had seen these had seen all (`Knowing.last_of`). What was taken back is kept one by one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from teardown_app.domain.job.ground import lying, stands_on
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import Record, is_position, position_thing

CHANGED, HELD, FITTED, OFF, OPENED = "changed", "held", "fitted", "off", "opened"
"""What a reading at a place rests on; a torque that holds it; a renewal of what it lies on; what came off there; what
is put in at a joint without a torque."""

SORTS: dict[str, tuple[str, ...]] = {
    "part.fitted": (CHANGED, HELD, FITTED),
    "part.taken_out": (CHANGED, HELD, OFF),
    "consumable.renewed": (CHANGED, HELD),
    "joint.opened": (CHANGED, OPENED),
    "hardware.moved": (CHANGED,),
}
"""Kinds of records about a place -> on which grounds they lie."""


class Sum(NamedTuple):
    """What happened at a place and beneath it, of one sort."""

    last: tuple[Record, ...] = ()
    taken_back: tuple[tuple[Record, str], ...] = ()
    """With the place: of a record about several each taking back is accepted by itself."""


NOTHING = Sum()


class Happened:
    """What happened at the places of one job."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._own: dict[str, dict[str, list[Record]]] = {}
        self._sums: dict[str, dict[str, Sum]] = {}
        self._spoken: dict[str, dict[str, None]] = {}
        spoken = [key for key in job.positions if job.speaks_of(position_thing(key))]
        for key in spoken:
            self._read(key)
        for key in self._paths(spoken):
            self._sum_up(key)

    def _paths(self, keys: Iterable[str]) -> list[str]:
        """These places and all above them, the deepest first."""
        depths: dict[str, int] = {}
        for key in keys:
            above = self._job.ancestors(key)
            depths.update((one, len(above) - n) for n, one in enumerate((key, *above)))
        return sorted(depths, key=lambda key: -depths[key])

    def heed(self, touched: Iterable[str], record: Record) -> None:
        """Told of each record: it is added along the paths of its places; a taking back has them looked at anew."""
        keys = [thing[1:] for thing in touched if is_position(thing) and thing[1:] in self._job.positions]
        for key in keys:
            sorts = self._sorts(record, key)
            if record.typ == "record.voided" or self._job.takings_back(record):
                self._read(key)
                for one in (key, *self._job.ancestors(key)):
                    self._sum_up(one)
            elif sorts:
                self._add(record, key, sorts)

    def _sorts(self, record: Record, key: str) -> tuple[str, ...]:
        """On which grounds a record lies for a place; none where it would have no effect."""
        if not self._job.good(record):
            return ()
        if position_thing(key) not in record.ent:
            return (CHANGED, HELD, OFF) if record.body.get("out_of") == key else ()
        if record.typ == "hardware.moved" and "put_in" not in record.body:
            return ()
        back = (OFF,) if record.typ == "part.fitted" and self._job.takings_back(record) else ()
        return (*SORTS.get(record.typ, ()), *back)

    def _add(self, record: Record, key: str, sorts: tuple[str, ...]) -> None:
        own, last_of = self._own.setdefault(key, {}), self._job.knowing.last_of
        for sort in sorts:
            own.setdefault(sort, []).append(record)
        for one in (key, *self._job.ancestors(key)):
            self._spoken.setdefault(one, {})[key] = None
            sums = self._sums.setdefault(one, {})
            for sort in sorts:
                before = sums.get(sort, NOTHING)
                sums[sort] = before._replace(last=tuple(last_of([*before.last, record])))

    def _read(self, key: str) -> None:
        """All records that lie at a place."""
        job, thing = self._job, position_thing(key)
        found = {one.h: one for one in (*job.about(thing), *(entry.record for entry in job.ever(thing, "came_out")))}
        own: dict[str, list[Record]] = {}
        for record in found.values():
            for sort in self._sorts(record, key):
                own.setdefault(sort, []).append(record)
        self._own[key] = own
        for one in (key, *job.ancestors(key)) if own else ():
            self._spoken.setdefault(one, {})[key] = None

    def _sum_up(self, key: str) -> None:
        """The sums of a place from its own records and the sums right beneath it."""
        beneath = [self._sums[one.key] for one in self._job.children(key) if one.key in self._sums]
        own = self._own.get(key, {})
        sorts = {*own, *(sort for sums in beneath for sort in sums)}
        self._sums[key] = {
            sort: self._sum(key, own.get(sort, []), [sums.get(sort, NOTHING) for sums in beneath]) for sort in sorts
        }

    def _sum(self, key: str, own: list[Record], beneath: list[Sum]) -> Sum:
        back = [(one, position_thing(key)) for one in own if self._job.takings_back(one)]
        there = [one for one in own if not self._job.takings_back(one)]
        last = self._job.knowing.last_of([*there, *(one for each in beneath for one in each.last)])
        return Sum(tuple(last), (*back, *(one for each in beneath for one in each.taken_back)))

    def at(self, key: str, sort: str) -> list[Record]:
        """Records of a sort at a place itself."""
        return self._own.get(key, {}).get(sort, [])

    def beneath(self, key: str, sort: str) -> Iterator[Record]:
        """Records of a sort at a place and beneath it, one by one."""
        return (one for each in self._spoken.get(key, ()) for one in self.at(each, sort))

    def sum(self, key: str, sort: str) -> Sum:
        """Records of a sort at a place and beneath it, in short."""
        return self._sums.get(key, {}).get(sort, NOTHING)


def stand_on(job: Job, verdict: Record, keys: Iterable[str], sort: str) -> bool:
    """Had the author of a verdict seen all of a sort that happened at these places and beneath them?"""
    sums = [job.keep(Happened).sum(key, sort) for key in keys]
    return all(job.knowing.knew_all(verdict, one.last) for one in sums) and all(
        stands_on(job, verdict, [back], thing) for one in sums for back, thing in one.taken_back
    )


def happened_beneath(job: Job, keys: Iterable[str], sort: str) -> list[Record]:
    """All of a sort that happened at these places and beneath them."""
    kept = job.keep(Happened)
    return [one for key in keys for one in kept.beneath(key, sort)]


def happened_at(job: Job, keys: Iterable[str], sort: str) -> list[Record]:
    """All of a sort that happened at these places themselves."""
    kept = job.keep(Happened)
    return [one for key in keys for one in kept.at(key, sort)]


def came_off(job: Job, keys: Iterable[str]) -> bool:
    """Did anything come off at these places or beneath them?"""
    sums = [job.keep(Happened).sum(key, OFF) for key in keys]
    return any(one.last or any(lying(job, [back], thing) for back, thing in one.taken_back) for one in sums)
