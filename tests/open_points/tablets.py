"""Tablets that write records, know of each other's, are copied, and lose some on the way."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone
from hashlib import blake2b
from typing import Any

from attrs import Factory, define

from teardown_app.domain.ledger.record import SHOP, VERSION, Record
from tests.open_points.branches import further

JOB = "J7K3M00012"
OTHER_JOB = "J7K3M00024"
LETTERS = "7K3M"
START = datetime(2026, 3, 2, 8, tzinfo=timezone(timedelta(hours=1)))

NEW_FILE = "0" * 32
"""What the first record of a new file names as the one before it: a line that is no record."""

File = tuple[str, str]


@define(eq=False)
class Clock:
    """Hours since the start of the story; every record is a little later."""

    hours: float = 0.0
    ticks: int = 0

    def hlc(self) -> str:
        """The next hybrid time."""
        self.ticks += 1
        return f"{1_772_000_000_000 + self.ticks:012x}-0000"

    def wall(self) -> str:
        """The time of day now."""
        return (START + timedelta(hours=self.hours)).isoformat(timespec="seconds")


@define(eq=False)
class Tablet:
    """One tablet: what it wrote, and how much of others' files it has."""

    dev: str
    clock: Clock
    files: dict[File, list[Record]] = Factory(dict)
    """Own files and those of others, each as one unbroken branch."""
    told: dict[str, dict[str, tuple[int, str]]] = Factory(dict)
    """The whole `seen` after the last own record, by file."""
    clk: str = "ok"
    forks: dict[File, list[Record]] = Factory(dict)
    """Records of the same files that lie on further branches."""

    def own(self, journal: str) -> list[Record]:
        """What this tablet wrote in one file."""
        return self.files.setdefault((self.dev, journal), [])

    def view(self, journal: str) -> list[Record]:
        """Everything of one file's kind that is on this tablet."""
        there = [*self.files.items(), *self.forks.items()]
        return [each for (_, name), records in there if name == journal for each in records]

    def thing(self, n: int = 1, journal: str = JOB) -> str:
        """Name of the n-th new thing of the next record about a job."""
        return f"{journal}:{self.dev}:{len(self.own(journal)) + 1}:{n}"

    def sync(self, other: Tablet, journals: tuple[str, ...] = (JOB, SHOP)) -> None:
        """Takes over what the other tablet has and this one lacks."""
        self.take([each for journal in journals for each in other.view(journal)])

    def take(self, records: list[Record]) -> None:
        """Records come in: those that go on from the last one that is here of somebody else's file, and beside them
        those of further branches, also of its own."""
        known = {each.h for there in (self.files, self.forks) for found in there.values() for each in found}
        for record in sorted(records, key=lambda each: each.seq):
            if record.h not in known:
                file = (record.dev, record.job)
                here, beside = self.files.setdefault(file, []), self.forks.setdefault(file, [])
                (here if self._goes_on(record, here, beside) else beside).append(record)
                known.add(record.h)

    def _goes_on(self, record: Record, here: list[Record], beside: list[Record]) -> bool:
        """Whether a record was written behind these; where the one before it is not here, or it begins a new file,
        nobody can tell once the next number down stands for two."""
        if record.dev == self.dev or (here and record.seq <= here[-1].seq):
            return False
        is_known = any(each.h == record.prev for each in [*here[:-1], *beside])
        is_doubled = any(each.seq >= here[-1].seq for each in beside) if here else bool(beside)
        is_next = bool(here) and record.prev == here[-1].h
        return is_next or not (is_known or is_doubled)

    def copied(self) -> Tablet:
        """A second tablet that was started from a copy of this one."""
        files, forks = ({file: list(each) for file, each in there.items()} for there in (self.files, self.forks))
        told = {name: dict(seen) for name, seen in self.told.items()}
        return Tablet(self.dev, self.clock, files, told, self.clk, forks)

    def vector(self, journal: str, *, new_file: bool = False) -> dict[str, tuple[int, str]]:
        """What this tablet has of others' files, and of further branches of its own, as `seen` says it."""
        found: dict[str, tuple[int, str]] = {}
        for (dev, name), records in self.files.items():
            if name not in (journal, SHOP):
                continue
            key = f"{SHOP}/{dev}" if name == SHOP else dev
            is_own = dev == self.dev and name == journal
            if records and not is_own:
                found[key] = (records[-1].seq, records[-1].h[:8])
            if beside := self.forks.get((dev, name)):
                found |= further((dev, name), key, records, beside, new_file=is_own and new_file)
        return found

    def write(
        self, act: str, typ: str, ent: tuple[str, ...], body: dict[str, Any], *, journal: str = JOB, v: int = VERSION,
        seen: dict[str, tuple[int, str]] | None = None, new_file: bool = False, trial: bool = False, wall: str = "",
    ) -> Record:  # fmt: skip
        """Writes one record; `seen` is what the form knew when it was opened (default: everything here), `wall` what
        stands for the time of day (default: the time of day)."""
        own, before = self.own(journal), self.told.setdefault(journal, {})
        now = self.vector(journal, new_file=new_file) if seen is None else seen
        delta = {key: entry for key, entry in now.items() if before.get(key) != entry}
        delta |= {key: (0, "") for key in before if key not in now}
        self.told[journal] = dict(now)
        prev = own[-1].h if own and not new_file else NEW_FILE if new_file else ""
        record = Record(
            v, self.dev, journal, len(own) + 1, self.clock.hlc(), wall or self.clock.wall(), self.clk, prev, act, typ,
            ent, delta, body, "", trial,
        )  # fmt: skip
        record = record._replace(h=blake2b(repr(record).encode(), digest_size=16).hexdigest())
        own.append(record)
        return record
