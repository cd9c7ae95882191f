"""Jobs in memory that grow one way each, written by tablets that know what they record. Invented; nothing on disk."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from decimal import Decimal
from statistics import median
from time import process_time
from typing import Any

from teardown_app.domain.bill.bill import Bill, Check, Joint, Line
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.kinds.kind import RIGHTS
from teardown_app.domain.ledger.record import SHOP, Record
from teardown_app.domain.points.live import Live
from teardown_app.domain.shop.shop import Shop
from teardown_app.domain.signed.signing import signature_covers
from teardown_app.workshop import no_collecting
from tests.open_points.acts import opening
from tests.open_points.tablets import JOB, Clock, Tablet

PERSON = "OF"
SCANS, LONGEST_S = 41, 4.0
"""So many scans are measured, fewer where they take longer than this together (never fewer than three)."""


class Floor:
    """Tablets at work on one job. `write` only records; `open` takes all in at once, `scan` one by one."""

    def __init__(self, bill: Bill) -> None:
        self.bill = bill
        self.first = Tablet("t1~0", Clock())
        self.tablets = [self.first]
        self.give(PERSON, list(RIGHTS))
        self.write("job.opened", "job", **opening())
        self.written: set[str] = set()

    def give(self, code: str, rights: list[str], on: Tablet | None = None) -> Record:
        """Somebody gets rights."""
        body = {"code": code, "rights": rights}
        return (on or self.first).write(PERSON, "person.given", (f"person:{code}",), body, journal=SHOP)

    def write(self, typ: str, *ent: str, on: Tablet | None = None, **body: Any) -> Record:
        """Something is recorded about the job; `as_` stands for the field `as`."""
        fields = {name.rstrip("_"): value for name, value in body.items()}
        return (on or self.first).write(PERSON, typ, ent, fields)

    def records(self, journal: str) -> list[Record]:
        """All records of all tablets, each once."""
        found = {each.h: each for tablet in self.tablets for each in tablet.view(journal)}
        return list(found.values())

    def open(self) -> float:
        """Takes all in from nothing; seconds of the job's opening."""
        shop, job = self.records(SHOP), self.records(JOB)
        self.shop = Shop()
        self.shop.take_all(shop)
        self.job = Job(JOB, self.shop, lambda digest: self.bill)
        with no_collecting():
            start = process_time()
            self.job.take_all(job)
            self.live = Live(self.job)
            return process_time() - start

    def take(self, record: Record) -> float:
        """Takes one record in; seconds until the points are right again."""
        start = process_time()
        if record.job == SHOP:
            self.shop.take(record)
            if self.job.shop_took(record):
                self.live = Live(self.job)
        else:
            self.live.update(record, self.job.take(record))
        return process_time() - start

    def scan(
        self, part: str, key: str, before: Callable[[int], Record] | None = None, on: Tablet | None = None
    ) -> float:
        """Median seconds of a scan (a part is taken out and fitted again, in turn), with what is recorded before it."""
        found: list[float] = []
        for n in range(SCANS):
            seconds = self.take(before(n)) if before else 0.0
            typ = ("part.taken_out", "part.fitted")[n % 2]
            found.append(seconds + self.take(self.write(typ, part, "@" + key, on=on)))
            if n > 1 and sum(found) > LONGEST_S:
                break
        return median(found)

    # work

    def part_in(self, key: str, check: str = "seen", on: Tablet | None = None) -> str:
        """A part comes off, is found good, released and fitted again: five records."""
        tablet = on or self.first
        part = self.write("part.taken_off", tablet.thing(), on=on, out_of=key).ent[0]
        word = self.write("disposition.given", part, on=on, as_="use as is")
        read = self.write("check.read", part, on=on, check=check, when="finished", verdict="accept")
        covers = sorted((word.ref, read.ref) if check in self.bill.positions[key].line.checks else (word.ref,))
        self.write("part.released", part, on=on, covers={part: covers})
        self.write("part.fitted", part, "@" + key, on=on)
        return part

    def work(self, records: int) -> None:
        """All there is to do at one place after the other, until so many records stand."""
        done = len(self.first.own(JOB))
        for key, position in self.bill.positions.items():
            if len(self.first.own(JOB)) - done >= records:
                return
            self._work_at(key, position.line.kind)

    def _work_at(self, key: str, kind: str) -> None:
        thing = "@" + key
        if kind == "part":
            self.part_in(key)
        elif kind == "hardware":
            self.write("hardware.counted", thing, found=8)
            self.write("hardware.moved", thing, put_in=8)
            self.write("joint.torqued", thing, pass_="100", screws=8)
        elif kind == "consumable":
            self.write("consumable.renewed", thing, as_="renewed")
        elif kind == "temporary":
            self.write("temporary.out", thing)

    def sign(self, things: Iterable[str]) -> None:
        """Everything named is signed as it stands, by somebody who had seen all that is written."""
        self.open()
        for thing in things:
            self.write("work.signed", thing, meaning="reviewed", covers=signature_covers(self.job, thing))


def deep_bill(depth: int) -> Bill:
    """Assemblies one in the other, so many deep; in each a part, what it is closed with, and a reading at the place."""
    lines = []
    for n in range(1, depth + 1):
        key, parent = ".".join(["10"] * n), ".".join(["10"] * (n - 1))
        lines.append(Line(key, parent, n, f"A-{n}", "chamber", kind="assembly", checks=("tight",)))
        lines.append(Line(f"{key}.20", key, n, f"P-{n}", "plate", checks=("seen",)))
        joint = Joint(torque_nm=Decimal(6), holds=(f"{key}.20",))
        lines.append(Line(f"{key}.30", key, n, "M6", "screw", Decimal(8), kind="hardware", joint=joint))
    checks = {"seen": Check("seen", when=("finished",)), "tight": Check("tight", when=("fitted",))}
    return Bill("DEEP", "A", lines=tuple(lines), checks=checks)


def covered_bill(parts: int) -> Bill:
    """One lid that closes over so many parts."""
    keys = [f"10.{n}" for n in range(1, parts + 1)]
    lines = [Line("10", "", 1, "A", "chamber", kind="assembly")]
    lines += [Line(key, "10", n, f"P-{n}", "pin", checks=("seen",)) for n, key in enumerate(keys, 2)]
    lines.append(Line(f"10.{parts + 1}", "10", parts + 2, "L", "lid", checks=("seen",), fit_after=tuple(keys)))
    return Bill("LID", "A", lines=tuple(lines), checks={"seen": Check("seen", when=("finished",))})
