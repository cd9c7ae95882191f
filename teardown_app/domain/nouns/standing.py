"""What signatures on places and on the job cover, and whether they stand: kept from record to record.

After a record only what it changed is looked at. A signature is overtaken while anything that it would have to
cover today is by somebody who had seen it; only where nothing is, all that it covers is compared.
"""

from __future__ import annotations

from collections.abc import Iterable
from hashlib import blake2b
from typing import NamedTuple

from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.reassembly import MOVES
from teardown_app.domain.ledger.record import SHOP, Record, is_position, position_thing
from teardown_app.domain.nouns.checking import part_doubts, place_doubts
from teardown_app.domain.nouns.job import JOB, Job

PLACE_FACETS = ("filled", "renewal", "temporary", "found", "scope")
PLACE_UNIONS = ("torque", *MOVES)
MOST_NAMED = 200
"""Above this many records a signature names their digest instead of each."""


class Verdict(NamedTuple):
    """Whether the signatures on a thing are stale; how many there are, and the last of each tablet: whoever had seen
    these had seen all; what overtakes them, at which place."""

    stale: bool
    signatures: int
    last: tuple[Record, ...]
    place: str = ""
    overtaken_by: str = ""


class Standing:
    """Signatures on places and on the job, and what is covered at each place."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._touched: set[str] = set()
        self._covered: dict[str, dict[str, Record]] = {}
        self._verdicts: dict[str, Verdict] = {}
        self._changed: dict[str, set[str]] = {}

    def heed(self, touched: set[str]) -> None:
        """What a record touched is looked at when somebody asks."""
        self._touched |= touched

    def is_stale(self, thing: str) -> bool:
        """True when a signed place, or the signed job, was changed since, and nobody signed again."""
        self._catch_up()
        known, changed = self._verdicts.get(thing), self._changed.pop(thing, ())
        if known is None:
            known = self._compared(thing)
        elif changed and known.overtaken_by not in self._at(known.place):
            overtaken = self._overtaken(known.last, changed)
            known = Verdict(True, *known[1:3], *overtaken) if overtaken else self._compared(thing)
        self._verdicts[thing] = known
        return known.stale

    def names(self, thing: str) -> list[str]:
        """What a signature on a place or on the job names today."""
        self._catch_up()
        return or_digest({record.ref for key in self._places(thing) for record in self._at(key).values()})

    def _compared(self, thing: str) -> Verdict:
        """The verdict on a thing's signatures: one has to name exactly what is covered today."""
        entries = self._job.entries(thing, "signature")
        last = tuple(self._job.knowing.last_of(entry.record for entry in entries))
        names = self.names(thing) if entries else []
        if not entries or any(entry.value["covers"] == names for entry in entries):
            return Verdict(False, len(entries), last)
        return Verdict(True, len(entries), last, *self._overtaken(last, self._places(thing)))

    def _overtaken(self, last: tuple[Record, ...], places: Iterable[str]) -> tuple[str, ...]:
        """One of these places and a record covered there whose author had seen the last signatures; empty without."""
        for key in places:
            for record in self._at(key).values():
                if record.job != SHOP and self._job.knowing.knew_all(record, last):
                    return key, record.h
        return ()

    def _places(self, thing: str) -> list[str]:
        """The places that a signed thing stands for: itself and all beneath it."""
        key = "" if thing == JOB else thing[1:]
        return [*([key] if key in self._job.positions else ()), *(one.key for one in self._job.beneath(key))]

    def _at(self, key: str) -> dict[str, Record]:
        known = self._covered.get(key)
        if known is None:
            known = {entry.record.h: entry.record for entry in place_entries(self._job, key)} if key else {}
            self._covered[key] = known
        return known

    def _catch_up(self) -> None:
        """Looks again at what was touched; where that changed what is covered, the signatures above are judged anew."""
        touched, self._touched = self._touched, set()
        for key in {key for thing in touched for key in self._places_of(thing)} & self._covered.keys():
            before = self._covered.pop(key)
            if self._at(key).keys() != before.keys():
                for thing in (JOB, *map(position_thing, (key, *self._job.ancestors(key)))):
                    if thing in self._verdicts:
                        self._changed.setdefault(thing, set()).add(key)
        for thing in touched & self._verdicts.keys():
            if len(self._job.entries(thing, "signature")) != self._verdicts[thing].signatures:
                del self._verdicts[thing]

    def _places_of(self, thing: str) -> list[str]:
        """A place itself, or those that a part was ever fitted to."""
        if is_position(thing):
            return [thing[1:]]
        return [entry.value[1:] for entry in self._job.entries(thing, "fit") if entry.value]


def or_digest(names: Iterable[str]) -> list[str]:
    """These names, sorted; their number and digest where they are too many."""
    found = sorted(names)
    if len(found) <= MOST_NAMED:
        return found
    return [f"{len(found)} records {blake2b(' '.join(found).encode(), digest_size=16).hexdigest()}"]


def place_entries(job: Job, key: str) -> list[Entry]:
    """What a signature covers at one place: what is there, what was read, and what was found out of that."""
    thing = position_thing(key)
    entries = [head for facet in PLACE_FACETS for head in job.heads(thing, facet)]
    entries += [head for facet in job.facets(thing, "check") for head in job.heads(thing, facet)]
    entries += [entry for facet in PLACE_UNIONS for entry in job.entries(thing, facet)]
    entries += place_doubts(job, job.positions[key])
    parts = [job.group(head.value)[0] for head in job.heads(thing, "filled") if head.value]
    return entries + [entry for part in parts for entry in (*job.entries(part, "released"), *part_doubts(job, part))]
