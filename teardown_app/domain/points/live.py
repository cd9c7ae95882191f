"""Open points kept current: after a record only what it can reach is looked at again.

`Live` holds points by subject (a place, a part, a number, something signed, the job). What a record
touches leads to subjects by the bill's own relations, worked out once in `reach.py`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.bill.gate import GATES, POWER_ON
from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.lacks.accepting import accepting_lacks
from teardown_app.domain.lacks.conflict import job_conflicts, origin_conflicts, part_conflicts, place_conflicts
from teardown_app.domain.lacks.consumable import consumable_lacks
from teardown_app.domain.lacks.debt import hardware_debts, part_debts
from teardown_app.domain.lacks.finding import finding_lacks
from teardown_app.domain.lacks.hardware import hardware_lacks
from teardown_app.domain.lacks.hold import part_holds, place_holds
from teardown_app.domain.lacks.joint import joint_lacks
from teardown_app.domain.lacks.label import label_lacks
from teardown_app.domain.lacks.lack import Lack
from teardown_app.domain.lacks.part import unaccounted
from teardown_app.domain.lacks.place import place_lacks
from teardown_app.domain.lacks.reading import part_readings, place_readings
from teardown_app.domain.lacks.record import absent_lacks, record_lacks, two_versions, uncounted_lacks, version_lacks
from teardown_app.domain.lacks.release import release_lacks
from teardown_app.domain.lacks.signature import recall_lacks, signature_lacks
from teardown_app.domain.lacks.temporary import added_temporary_lacks, temporary_lacks
from teardown_app.domain.lacks.twice import part_twice, place_twice
from teardown_app.domain.ledger.facts import Facts
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.parts.bound import Register, no_others
from teardown_app.domain.parts.going_back import is_to_go_in
from teardown_app.domain.parts.parts import is_part, own_place, parts
from teardown_app.domain.places.place import is_asked
from teardown_app.domain.points.faults import Faults
from teardown_app.domain.points.point import CONCEDED, Point, point_of
from teardown_app.domain.points.reach import Reach, Subject, spoken_of
from teardown_app.domain.points.versions import Versions
from teardown_app.domain.signed.signing import is_closed, signed

WHOLE: Subject = ("job", JOB)

BEFORE_RUNNING = GATES[: GATES.index(POWER_ON) + 1]
"""Gates whose points stop the tool from running."""

BY_KIND = {
    "assembly": (place_lacks,),
    "part": (place_lacks,),
    "hardware": (place_twice, hardware_lacks, joint_lacks),
    "consumable": (place_twice, consumable_lacks),
    "temporary": (place_twice, temporary_lacks),
}
"""Lacks that a place can have by the kind of its line."""


class Live:
    """All open points of one job, current after each record."""

    def __init__(self, job: Job, register: Register = no_others) -> None:
        self.job = job
        self._register = register
        self._points: dict[Subject, tuple[Point, ...]] = {}
        self._at: dict[str, set[Subject]] = {}
        self._looked_at: set[str] = set()
        self._meant: dict[str, set[str]] = {}
        self._meant_at: dict[str, str] = {}
        self._work_out_all()

    def points(self) -> list[Point]:
        """All points, conceded ones too, in the order of gates and of the bill."""
        return self._sorted([point for points in self._points.values() for point in points])

    def _sorted(self, found: list[Point]) -> list[Point]:
        order = {key: n for n, key in enumerate(self.job.positions)}
        return sorted(found, key=lambda one: (GATES.index(one.gate), order.get(one.position, len(order)), one.key))

    def open_points(self) -> list[Point]:
        """Points that nobody conceded."""
        return [point for point in self.points() if point.state != CONCEDED]

    def of_kind(self, kind: str) -> list[Point]:
        """Points of one kind, in the order of the bill; those about no place last."""
        found = [point for points in self._points.values() for point in points if point.kind == kind]
        return self._sorted(found) if len(found) > 1 else found

    def at(self, key: str) -> list[Point]:
        """Points at a place: its own, and those of parts that sit there or are meant for it."""
        subjects = sorted(self._at.get(key, ()))
        return [point for subject in subjects for point in self._points[subject] if point.position == key]

    def meant(self, key: str) -> list[str]:
        """Parts that are to go in at a place."""
        return sorted(self._meant.get(key, ()))

    def stands(self, key: str) -> bool | None:
        """True where a place is as it has to be before the tool runs, None where nothing is asked of it."""
        if not is_asked(self.job, key):
            return None
        return not any(one.state != CONCEDED and one.gate in BEFORE_RUNNING for one in self.at(key))

    def stops(self, gate: str) -> bool:
        """True while an open point stops this gate or one before it."""
        gates = GATES[: GATES.index(gate) + 1]
        return any(one.state != CONCEDED and one.gate in gates for points in self._points.values() for one in points)

    @property
    def complete(self) -> bool:
        """True when no point is open."""
        return not any(point.state != CONCEDED for points in self._points.values() for point in points)

    @property
    def closed(self) -> bool:
        """True while a closing stands with its signature and no point is open."""
        return is_closed(self.job, complete=self.complete)

    def labels_changed(self, numbers: Iterable[str]) -> None:
        """Called when these numbers are on other parts of other jobs than before."""
        for number in numbers:
            self._work_out(("number", number))

    def update(self, record: Record, touched: set[str]) -> set[str] | None:
        """Called after the job took a record in, with the things it touched. Gives the places that were
        looked at again; None when all were."""
        if self.job.generation != self._generation or self._reach.reaches_all(record):
            self._work_out_all()
            return None
        self._looked_at = set()
        subjects = self._heeding(record, touched)
        there = (self._at.get(name, ()) for what, name in subjects if what == "place")
        for subject in subjects.union(*there):
            self._work_out(subject)
        self._work_out(WHOLE)
        return self._looked_at

    def _heeding(self, record: Record, touched: set[str]) -> set[Subject]:
        """What is kept beside the points hears of the record; subjects that it can change."""
        self._reach.heed(record)
        self._faults.heed(record, touched)
        subjects = self._reach.subjects(record, touched)
        accepting = [name for what, name in subjects if what == "accepting"]
        return subjects | {("versions", name) for name in self._versions.heed(record, touched, accepting)}

    def _work_out_all(self) -> None:
        self._generation = self.job.generation
        self._reach = Reach(self.job)
        self._points.clear()
        self._at.clear()
        self._meant.clear()
        self._meant_at.clear()
        self._faults = Faults(self.job)
        self._versions = Versions(self.job)
        for subject in self._all_subjects():
            self._work_out(subject)

    def _all_subjects(self) -> Iterator[Subject]:
        job = self.job
        yield from (("place", key) for key in job.positions)
        yield from (("part", part) for part in parts(job))
        yield from {("temporary", job.group(thing)[0]) for thing in job.things("what")}
        yield from (("number", thing.partition(":")[2]) for thing in job.things("bound"))
        yield from (("signed", thing) for thing in signed(job))
        yield from sorted({("accepting", one) for record in job.records.values() for one in spoken_of(job, record)})
        yield from (("versions", name) for name in two_versions(job))
        yield WHOLE

    def _work_out(self, subject: Subject) -> None:
        if subject[0] == "part":
            self._heed_part(subject[1])
        points = tuple(point_of(self.job, one) for one in self._lacks_of(*subject))
        self._move(subject, self._points.pop(subject, ()), points)
        if points:
            self._points[subject] = points

    def _heed_part(self, part: str) -> None:
        """Keeps for which place a part waits: the old one is forgotten before the new one is taken."""
        before = self._meant_at.pop(part, None)
        if before is not None:
            self._meant[before].discard(part)
        if is_part(self.job, part) and self.job.group(part)[0] == part and is_to_go_in(self.job, part):
            key = self._meant_at[part] = own_place(self.job, part)
            self._meant.setdefault(key, set()).add(part)

    def _move(self, subject: Subject, before: tuple[Point, ...], now: tuple[Point, ...]) -> None:
        """Keeps which subjects have points at which place: a part's points move with it."""
        self._looked_at.update([subject[1]] if subject[0] == "place" else ())
        for one in before:
            self._at.get(one.position, set()).discard(subject)
            self._looked_at.add(one.position)
        for one in now:
            self._at.setdefault(one.position, set()).add(subject)
            self._looked_at.add(one.position)

    def _lacks_of(self, what: str, name: str) -> Iterator[Lack]:
        job = self.job
        if what == "place":
            yield from place_subject(job, name)
        elif what == "part":
            if is_part(job, name) and job.group(name)[0] == name:
                yield from part_subject(job, name)
        elif what == "temporary":
            if job.entries(name, "what") and job.group(name)[0] == name:
                yield from added_temporary_lacks(job, name)
        elif what == "number":
            yield from label_lacks(job, name, self._register)
        elif what == "signed":
            yield from signature_lacks(job, name)
        elif what == "accepting":
            if job.group(name)[0] == name:
                yield from accepting_lacks(job, name)
        elif what == "versions":
            yield from version_lacks(job, name)
        else:
            yield from job_conflicts(job)
            yield from recall_lacks(job)
            yield from record_lacks(job, self._faults.records())
            yield from uncounted_lacks(job)
            yield from absent_lacks(job)


def part_subject(job: Job, part: str) -> Iterator[Lack]:
    """All lacks of one part."""
    for lacks in (
        part_holds,
        finding_lacks,
        part_readings,
        release_lacks,
        part_twice,
        unaccounted,
        part_debts,
        part_conflicts,
    ):
        yield from lacks(job, part)


def place_subject(job: Job, key: str) -> Iterator[Lack]:
    """All lacks of one place."""
    position = job.positions.get(key)
    if position is None:
        return
    for lacks in BY_KIND[position.line.kind]:
        yield from lacks(job, position)
    if position.line.checks:
        yield from place_readings(job, position)
    if touched_by_records(job, key):
        yield from place_conflicts(job, position)
        yield from origin_conflicts(job, position)
        yield from place_holds(job, position)
        yield from hardware_debts(job, position)


def touched_by_records(job: Facts, key: str) -> bool:
    """False for a place of which no record speaks."""
    return job.speaks_of(position_thing(key))


def all_points(job: Job, register: Register = no_others) -> list[Point]:
    """All points of a job, worked out from nothing. `register` knows the labels of other jobs."""
    return Live(job, register).points()
