"""Tablets that write records, know of each other's, are copied, and lose some on the way."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone
from hashlib import blake2b
from typing import Any

from attrs import Factory, define

from teardown_app.domain.ledger.record import SHOP, VERSION, Record

JOB = "J7K3M00012"
OTHER_JOB = "J7K3M00024"
LETTERS = "7K3M"
START = datetime(2026, 3, 2, 8, tzinfo=timezone(timedelta(hours=1)))

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

    def own(self, journal: str) -> list[Record]:
        """What this tablet wrote in one file."""
        return self.files.setdefault((self.dev, journal), [])

    def view(self, journal: str) -> list[Record]:
        """Everything of one file's kind that is on this tablet."""
        return [each for (_, name), records in self.files.items() if name == journal for each in records]

    def thing(self, n: int = 1, journal: str = JOB) -> str:
        """Name of the n-th new thing of the next record about a job."""
        return f"{journal}:{self.dev}:{len(self.own(journal)) + 1}:{n}"

    def sync(self, other: Tablet, journals: tuple[str, ...] = (JOB, SHOP)) -> None:
        """Takes over what the other tablet has and this one lacks."""
        for file, records in list(other.files.items()):
            if file[0] != self.dev and file[1] in journals and len(records) >= len(self.files.get(file, ())):
                self.files[file] = list(records)

    def copied(self) -> Tablet:
        """A second tablet that was started from a copy of this one."""
        files = {file: list(records) for file, records in self.files.items()}
        return Tablet(self.dev, self.clock, files, {name: dict(seen) for name, seen in self.told.items()}, self.clk)

    def vector(self, journal: str) -> dict[str, tuple[int, str]]:
        """What this tablet has of others' files, as `seen` says it."""
        found: dict[str, tuple[int, str]] = {}
        for (dev, name), records in self.files.items():
            if not records or (dev == self.dev and name == journal):
                continue
            if name == SHOP:
                found[f"{SHOP}/{dev}"] = (records[-1].seq, records[-1].h[:8])
            elif name == journal:
                found[dev] = (records[-1].seq, records[-1].h[:8])
        return found

    def write(
        self, act: str, typ: str, ent: tuple[str, ...], body: dict[str, Any], *, journal: str = JOB, v: int = VERSION,
        seen: dict[str, tuple[int, str]] | None = None, new_file: bool = False, trial: bool = False,
    ) -> Record:  # fmt: skip
        """Writes one record; `seen` is what the form knew when it was opened (default: everything here)."""
        own, before = self.own(journal), self.told.setdefault(journal, {})
        now = self.vector(journal) if seen is None else seen
        delta = {key: entry for key, entry in now.items() if before.get(key) != entry}
        delta |= {key: (0, "") for key in before if key not in now}
        self.told[journal] = dict(now)
        prev = own[-1].h if own and not new_file else "0" * 32 if new_file else ""
        record = Record(
            v, self.dev, journal, len(own) + 1, self.clock.hlc(), self.clock.wall(), self.clk, prev, act, typ, ent,
            delta, body, "", trial,
        )  # fmt: skip
        record = record._replace(h=blake2b(repr(record).encode(), digest_size=16).hexdigest())
        own.append(record)
        return record
