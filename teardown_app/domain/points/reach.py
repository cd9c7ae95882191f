"""Which subjects a touched thing can change: the relations of the bill, turned round once."""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import Record, is_position, position_thing
from teardown_app.domain.nouns.came_with import CameWith
from teardown_app.domain.nouns.consumable import openers
from teardown_app.domain.nouns.job import JOB, Job
from teardown_app.domain.nouns.joint import held_places
from teardown_app.domain.nouns.parts import own_place

Subject = tuple[str, str]
"""What and which: a place's key, a part, something temporary, a number, something signed, or the job."""

CHANGES_ALL = ("job.opened", "job.amended", "line.added", "part.same_as")
"""Kinds after which everything is looked at again; they are rare."""


class Reach:
    """Relations of one job's places, from what is touched to what depends on it."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self._facets: set[str] = set()
        self._meant: dict[str, set[str]] = {}
        for thing in job.things("meant_for"):
            for entry in job.entries(thing, "meant_for"):
                self._meant.setdefault(entry.value, set()).add(thing)
        self._came_with = CameWith(job)
        self._joints: dict[str, list[str]] = {}
        self._consumables: dict[str, list[str]] = {}
        for position in job.positions.values():
            if position.line.joint is not None:
                for key in held_places(job, position):
                    self._joints.setdefault(key, []).append(position.key)
            if position.line.kind == "consumable":
                for key in openers(job, position):
                    self._consumables.setdefault(key, []).append(position.key)

    def heed(self, record: Record) -> None:
        """Keeps what the record can say of a place, a correction anything. Keeps for which place a part is meant, once
        for all: looking at a part too often does no harm."""
        key = record.body.get("meant_for")
        if isinstance(key, str):
            self._meant.setdefault(key, set()).update(record.ent)
        kind = KINDS.get(record.typ)
        self._facets = {*(kind.facets if kind else ())}
        if record.typ == "record.voided":
            self._facets = {"filled", "scope"}
        if record.typ == "part.fitted" and not record.body.get("came_with"):
            self._facets.discard("scope")

    def reaches_all(self, record: Record) -> bool:
        """True for records that can change any point."""
        if record.typ in CHANGES_ALL:
            return True
        if record.typ != "record.voided":
            return False
        targets = self.job.of_ref(record.body.get("record", ""))
        return any(target.typ in (*CHANGES_ALL, "record.voided") for target in targets)

    def subjects(self, touched: Iterable[str]) -> set[Subject]:
        """All subjects that things which the record last heeded touched can change."""
        found: set[Subject] = set()
        if "scope" in self._facets:
            self._came_with.heed(touched)
        for thing in touched:
            self._of_thing(thing, found)
        return found

    def _of_thing(self, thing: str, found: set[Subject]) -> None:
        self._of_signed(self.job.group(thing), found)
        if is_position(thing):
            self._of_place(thing[1:], found)
        elif thing.startswith("number:"):
            found.add(("number", thing.partition(":")[2]))
        elif thing.startswith("point:"):
            self._of_point(thing.partition(":")[2], found)
        elif thing != JOB and not thing.startswith("void:"):
            self._of_named(thing, found)

    def _of_signed(self, names: tuple[str, ...], found: set[Subject]) -> None:
        if any(self.job.speaks_of(name, "signature") for name in names):
            found.add(("signed", names[0]))

    def _of_point(self, key: str, found: set[Subject]) -> None:
        subject = key.partition("|")[2].partition("|")[0]
        for signed in (subject, position_thing(subject)):
            self._of_signed((signed,), found)
        if subject in self.job.positions:
            self._of_place(subject, found)
        elif ":" in subject:
            self._of_named(subject, found)
        else:
            found.add(("number", subject))

    def _of_named(self, thing: str, found: set[Subject]) -> None:
        """A part, or a finding or hold on one (or on a place), or something brought in for a time."""
        for owner in {entry.value for entry in self.job.entries(thing, "of")}:
            if is_position(owner):
                self._of_place(owner[1:], found)
            else:
                self._of_part(owner, found)
        self._of_part(thing, found)

    def _of_part(self, thing: str, found: set[Subject]) -> None:
        job = self.job
        names = job.group(thing)
        part = names[0]
        found.add(("part", part))
        if any(job.speaks_of(name, "what") for name in names):
            found.add(("temporary", part))
        self._of_signed(names, found)
        found.update(("number", entry.value) for entry in job.entries(part, "number"))
        keys = {entry.value[1:] for entry in job.entries(part, "fit") if entry.value}
        keys |= {entry.value for facet in ("out_of", "meant_for") for entry in job.entries(part, facet)}
        keys.add(own_place(job, part))
        for key in keys:
            if key in job.positions:
                self._of_place(key, found)

    def _of_place(self, key: str, found: set[Subject]) -> None:
        job = self.job
        if key not in job.positions:
            return
        above = job.ancestors(key)
        for thing in (JOB, *map(position_thing, (key, *above))):
            self._of_signed((thing,), found)
        keys = {key, *above, *self._matched(key), *self._in_one_bag(key), *self._scoped(key)}
        for one in [*keys]:
            keys |= set(self._joints.get(one, ())) | set(self._consumables.get(one, ()))
            if one in job.bill.positions:
                keys |= set(job.bill.closed_by(one))
        found.update(("place", one) for one in keys)
        for one in keys:
            found.update(("part", job.group(part)[0]) for part in self._ever_at(one))

    def _ever_at(self, key: str) -> set[str]:
        """Parts that came out of a place, were ever fitted there, or are meant for it."""
        facets = ("came_out", "filled", "taken_out")
        entries = [entry for facet in facets for entry in self.job.entries(position_thing(key), facet)]
        return {entry.value for entry in entries if entry.value} | self._meant.get(key, set())

    def _in_one_bag(self, key: str) -> set[str]:
        """Places whose hardware was ever counted together with this one's."""
        counts = self.job.entries(position_thing(key), "found")
        return {thing[1:] for entry in counts for thing in entry.value["with"]} & self.job.positions.keys()

    def _scoped(self, key: str) -> set[str]:
        """Places that may count otherwise now: what is said of a place counts for all beneath it, and a unit that goes
        takes what came with it."""
        job = self.job
        if "scope" in self._facets and job.speaks_of(position_thing(key), "scope"):
            return {one.key for one in job.beneath(key)}
        return self._came_with.moved_with(key) if "filled" in self._facets else set()

    def _matched(self, key: str) -> list[str]:
        position = self.job.bill.positions.get(key)
        if position is None or not position.line.matched_set:
            return []
        return [one.key for one in self.job.bill.matched(key)]
