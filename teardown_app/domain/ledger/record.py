"""The record: one thing that happened, as written on one tablet, never changed afterwards.

Holds the envelope as values and the names that point at things and records. What the kinds
mean is in `kinds.py`; how bytes become records is the business of the records room.
"""

from __future__ import annotations

from typing import Any, NamedTuple

SHOP = "_shop"
"""Journal name of what is not about one job."""

VERSION = 1
"""Envelope version that this app writes."""

RULES_KNOWN = (1, 2)
"""Numbers of rules that jobs can live under here; the last is what this app opens jobs with."""


class Record(NamedTuple):
    """One line of a journal.

    `dev` is device and incarnation (`t7k3m9~0`), `job` the journal (a job's number or `_shop`),
    `seq` runs 1, 2, 3 … for one (dev, job). `ent` lists the things the record is about. `seen` holds
    only what changed since the tablet's own previous record of this journal. `wall` is the tablet's
    clock with its state in `clk` (`ok`, `unset`, `jumped`); it never decides an order. `trial` is true
    for records made under a handed-in clock.
    """

    v: int
    dev: str
    job: str
    seq: int
    hlc: str
    wall: str
    clk: str
    prev: str
    act: str
    typ: str
    ent: tuple[str, ...]
    seen: dict[str, tuple[int, str]]
    body: dict[str, Any]
    h: str
    trial: bool = False
    s: str = ""

    @property
    def ref(self) -> str:
        """The record's own name: `job:dev:seq:h8`."""
        return f"{self.job}:{self.dev}:{self.seq}:{self.h[:8]}"

    def thing(self, n: int = 1) -> str:
        """Name of the n-th new thing (1, 2, …) that this record brings in."""
        return f"{self.job}:{self.dev}:{self.seq}:{n}"

    def brings_in(self, thing: str) -> bool:
        """True for a name that this record may give: the n-th new thing of its own."""
        return thing.startswith(f"{self.job}:{self.dev}:{self.seq}:")


class Draft(NamedTuple):
    """A record before it is written: what a workflow returns.

    In `ent` and anywhere in `body` the text `new:N` stands for the N-th new thing of this draft and
    `new:K.N` for the N-th new thing of the K-th draft (0, 1, …) returned by the same act; the
    writer puts the full names in before the record is hashed. `job` is the journal it goes to.
    """

    job: str
    typ: str
    ent: tuple[str, ...]
    body: dict[str, Any]


def position_thing(key: str) -> str:
    """The thing name of a position: `@10/2.20.5/3`."""
    return "@" + key


def is_position(thing: str) -> bool:
    """True for the thing name of a position."""
    return thing.startswith("@")
