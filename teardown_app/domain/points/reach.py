"""Which subjects a touched thing can change: the relations of the bill, turned round once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.job.taken_back import taken_back_about
from teardown_app.domain.ledger.acts import ACCEPTING
from teardown_app.domain.ledger.kinds import KINDS, that_reach
from teardown_app.domain.ledger.kinds.kind import ALL, TOOL
from teardown_app.domain.ledger.record import Record, is_position, position_thing
from teardown_app.domain.parts.claiming import places_of
from teardown_app.domain.parts.filling import holder, may_be_lost
from teardown_app.domain.places.closing_over import closed_by, held_places, joints_around, reached_from, under
from teardown_app.domain.points.left_in import LeftIn
from teardown_app.domain.signed.scope_words import places_of_word, points_over, reached_by

Subject = tuple[str, str]
"""What and which: a place's key, a part, something temporary, a number, something signed, a number that stands for
different records, or the job."""

CHANGES_ALL = that_reach(ALL, TOOL)
"""Kinds after which everything is looked at again; they are rare."""

MOVES_UNITS = {"filled", "came_out", "out_of"}
"""Facets whose change can take a unit away, or bring one."""

LOSES = MOVES_UNITS | {"disposition", "handed_over", "given_back", "meant_for"}
"""Facets whose change can lose a unit with its inside, or give it back."""

NAMES_OVER = {"filled", "number"}
"""Facets whose change changes what closes over a place, or how that is called."""

AT_PLACES = ("came_out", "filled", "taken_out")
"""Facets of a place that name parts."""


def spoken_of(job: Job, record: Record) -> set[str]:
    """Things of which what is to be accepted a record can be: all it is about."""
    return {job.group(thing)[0] for thing in record.ent if thing != JOB}


class Reach:
    """Relations of one job's places, from what is touched to what depends on it."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self._facets: set[str] = set()
        self._reached: set[str] = set()
        self._meant: dict[str, set[str]] = {}
        for thing in job.things("meant_for"):
            for entry in job.ever(thing, "meant_for"):
                self._meant.setdefault(entry.value, set()).add(thing)
        self._left_in = LeftIn(job)
        self._joints: dict[str, list[str]] = {}
        self._consumables: dict[str, list[str]] = {}
        for position in job.positions.values():
            if position.line.joint is not None:
                for key in held_places(job, position.key):
                    self._joints.setdefault(key, []).append(position.key)
            if position.line.kind == "consumable":
                for key in dict.fromkeys([*reached_from(job, position.key), *joints_around(job, position.key)]):
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
            self._facets = {"scope", "number", *LOSES}
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

    def subjects(self, record: Record, touched: Iterable[str]) -> set[Subject]:
        """All subjects that a record, which touched these things, can change."""
        found: set[Subject] = set()
        self._reached.clear()
        touched = {*touched, *self._of_acceptance(record)}
        if "scope" in self._facets:
            self._left_in.heed(touched)
        for thing in touched:
            self._of_thing(thing, found)
        self._of_signed((JOB,), found)
        for what, name in [*found]:
            if what in ("place", "part"):
                found.add(("accepting", position_thing(name) if what == "place" else name))
        return found

    def _of_acceptance(self, record: Record) -> Iterator[str]:
        """What an acceptance takes off the grounds: all that was said by what was taken back."""
        if record.typ == "part.released":
            gone = (one for part in record.ent for one in taken_back_about(self.job, part))
            yield from (thing for one in gone for thing in self._said_by(one))
        key = str(record.body.get("key", "")) if record.typ == "point.conceded" else ""
        if key.startswith(ACCEPTING):
            for one in filter(self.job.good, self.job.of_ref(key.rpartition("|")[2])):
                yield from self._accepted(one)

    def _accepted(self, narrowing: Record) -> Iterator[str]:
        if narrowing.typ == "record.voided":
            for target in self.job.of_ref(narrowing.body.get("record", "")):
                yield from self._said_by(target)
        for place in places_of_word(narrowing):
            yield from map(position_thing, reached_by(self.job, narrowing, place))

    def _said_by(self, record: Record) -> set[str]:
        """What a record is about, and what it writes of."""
        writes = KINDS[record.typ].writes(record) if self.job.good(record) else ()
        return {*record.ent, *(thing for thing, _, _ in writes)}

    def _of_thing(self, thing: str, found: set[Subject]) -> None:
        names = self.job.group(thing)
        found.add(("accepting", names[0]))
        if any(self.job.speaks_of(name, "what") for name in names):
            found.add(("temporary", names[0]))
        self._of_signed(names, found)
        if is_position(thing):
            self._of_parts_named(thing, "came_out", found)
            self._of_place(thing[1:], found)
        elif thing.startswith("number:"):
            self._of_number(thing, found)
        elif thing.startswith("point:"):
            self._of_point(thing.partition(":")[2], found)
        elif thing != JOB and not thing.startswith("void:"):
            self._of_named(thing, found)

    def _of_signed(self, names: tuple[str, ...], found: set[Subject]) -> None:
        if any(self.job.speaks_of(name, "signature") for name in names):
            found.add(("signed", names[0]))

    def _of_number(self, thing: str, found: set[Subject]) -> None:
        found.add(("number", thing.partition(":")[2]))
        self._of_parts_named(thing, "bound", found)

    def _of_parts_named(self, thing: str, facet: str, found: set[Subject]) -> None:
        """What is to be accepted of each part that was ever named by this facet of a place or number."""
        found.update(("accepting", self.job.group(entry.value)[0]) for entry in self.job.ever(thing, facet))

    def _of_point(self, key: str, found: set[Subject]) -> None:
        subject = key.partition("|")[2].partition("|")[0]
        found.add(("accepting", position_thing(subject)))
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
        for owner in {entry.value for entry in self.job.ever(thing, "of")}:
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
        self._of_signed(job.group(thing), found)
        found.update(("number", entry.value) for entry in job.ever(part, "number"))
        keys = {entry.value[1:] for entry in job.ever(part, "fit") if entry.value}
        keys |= {entry.value for facet in ("out_of", "meant_for") for entry in job.ever(part, facet)}
        for key in keys:
            if key in job.positions:
                self._of_place(key, found)

    def _of_place(self, key: str, found: set[Subject]) -> None:
        job = self.job
        if key in self._reached:
            return
        self._reached.add(key)
        if key not in job.positions:
            found.update(("part", job.group(part)[0]) for part in self._ever_at(key))
            return
        above = job.ancestors(key)
        for thing in map(position_thing, (key, *above)):
            self._of_signed((thing,), found)
        keys = {key, *above, *self._matched(key), *self._scoped(key)}
        for one in [*keys]:
            keys |= {*self._joints.get(one, ()), *self._consumables.get(one, ()), *closed_by(job, one)}
        keys.update(*(self._left_in.beside(one) for one in [*keys]))
        keys = keys.union(*map(self._in_one_bag, keys))
        found.update(("place", one) for one in (*keys, *self._claimed_with(key)))
        for one in keys:
            found.update(("part", job.group(part)[0]) for part in self._ever_at(one))
            found.update(("accepting", thing) for thing in self._words_on(one))

    def _claimed_with(self, key: str) -> Iterator[str]:
        """Places that a part claims which was ever at this one: it may be in two of them, or be it no more."""
        for part in self._ever_at(key):
            claimed = places_of(self.job, self.job.group(part)[0])
            yield from claimed if len(claimed) > 1 else ()

    def _ever_at(self, key: str) -> set[str]:
        """Parts that came out of a place, were ever fitted there, or are meant for it."""
        thing, meant = position_thing(key), self._meant.get(key, set())
        if not self.job.speaks_of(thing):
            return meant
        entries = [entry for facet in AT_PLACES for entry in self.job.ever(thing, facet)]
        return {entry.value for entry in entries if entry.value} | meant

    def _words_on(self, key: str) -> set[str]:
        """Places that what is to be accepted of the words on a place, and above it, is about."""
        if not self.job.speaks("scope"):
            return set()
        things = map(position_thing, (key, *self.job.ancestors(key)))
        said = (entry.record for thing in things for entry in self.job.ever(thing, "scope"))
        return {place for record in said for place in points_over(self.job, key, record)}

    def _in_one_bag(self, key: str) -> set[str]:
        """Places whose hardware was ever counted together with this one's, and so on through them: what is put in at
        one, and what counts there, changes whether the bag balances."""
        found, waiting = set[str](), [position_thing(key)]
        while waiting:
            counts = self.job.ever(waiting.pop(), "found")
            more = {thing for entry in counts for thing in entry.value.places} - found
            found |= more
            waiting += more
        return {thing[1:] for thing in found} & self.job.positions.keys()

    def _scoped(self, key: str) -> set[str]:
        """Places that may count otherwise now: what is said of a place counts for all beneath it, and a unit that goes
        takes what was left in it. What is beneath a place that is filled or emptied, or whose part gets another number,
        is closed over by something else."""
        job, found = self.job, set[str]()
        if "scope" in self._facets and job.speaks_of(position_thing(key), "scope"):
            found = {one.key for one in job.beneath(key)}
        if self._facets & MOVES_UNITS:
            found |= self._left_in.moved_with(key)
        if self._facets & LOSES and may_be_lost(job, key):
            inside = [one.key for one in job.beneath(key)]
            found.update(inside, *(self._under(one) for one in inside))
        return found | self._under(key) if self._facets & NAMES_OVER else found

    def _under(self, key: str) -> set[str]:
        """Places over which this one may be the nearest filled one: beneath it, through what no part fills."""
        found, waiting = set[str](), [key]
        while waiting:
            more = [one for one in under(self.job, waiting.pop()) if one not in found]
            found.update(more)
            waiting += [one for one in more if not holder(self.job, one)]
        return found

    def _matched(self, key: str) -> list[str]:
        position = self.job.bill.positions.get(key)
        if position is None or not position.line.matched_set:
            return []
        return [one.key for one in self.job.bill.matched(key)]
