"""A shop, a large bill and a long history in memory, for the benchmarks. Invented; nothing on disk."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from tempfile import mkdtemp
from time import perf_counter

from teardown_app.domain.bill.bill import Bill, Check, Joint, Line
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.kinds.kind import RIGHTS
from teardown_app.domain.ledger.record import SHOP, Draft, Record
from teardown_app.domain.shop.shop import Shop
from teardown_app.domain.signed.release import covers
from teardown_app.records.clock import source_of
from teardown_app.records.home import Home

PERSON = "OF"
CLOCK = {"TEARDOWN_CLOCK": "2026-03-14T09:30:00+01:00"}


def large_bill(positions: int) -> Bill:
    """Assemblies of ten lines: seven parts in an order, a seal, screws with a joint, a bracket."""
    lines = []
    for n in range(max(1, positions // 11)):
        top = str(10 * (n + 1))
        lines.append(Line(top, "", n, f"A-{n}", "assembly", kind="assembly"))
        for k in range(1, 8):
            after = (f"{top}.{10 * (k - 1)}",) if k > 1 else ()
            lines.append(Line(f"{top}.{10 * k}", top, n, f"P-{n}-{k}", "plate", checks=("seen",), fit_after=after))
        lines.append(Line(f"{top}.80", top, n, "S-1", "seal", kind="consumable", renew="always"))
        joint = Joint(torque_nm=Decimal(6), holds=(f"{top}.70",))
        lines.append(Line(f"{top}.90", top, n, "M6", "screw", Decimal(8), kind="hardware", joint=joint))
        lines.append(Line(f"{top}.95", top, n, "BR", "bracket", kind="temporary", ships="out"))
    return Bill("LARGE", "A", lines=tuple(lines), checks={"seen": Check("seen", when=("finished",))})


class Bench:
    """One tablet at work on one job, every act recorded for real in a temporary folder."""

    def __init__(self, bill: Bill) -> None:
        self.home = Home(Path(mkdtemp()), source_of(CLOCK)).open()
        self.shop = Shop()
        self.bill = bill
        self.number = f"J{self.home.letters}0001X"
        self.job = Job(self.number, self.shop, lambda digest: bill)
        self.write(Draft(SHOP, "person.given", ("person:OF",), {"code": PERSON, "rights": list(RIGHTS)}))
        opening = {"number": self.number, "letters": self.home.letters, "order": "PO-1", "serial": "1", "options": []}
        opening |= {"bill": "0" * 64, "model": bill.model, "revision": "A", "rules": 1}
        self.write(self.draft("job.opened", "job", **opening))

    def draft(self, typ: str, *ent: str, **body: object) -> Draft:
        """A record for the job."""
        return Draft(self.number, typ, ent, body)

    def write(self, *drafts: Draft) -> list[Record]:
        """Records, and takes into state."""
        job = drafts[0].job
        records = self.home.append(drafts, PERSON, self.home.heads(job))
        for record in records:
            if record.job == SHOP:
                self.shop.take(record)
                self.job.shop_took(record)
            else:
                self.job.take(record)
        return records

    def work(self, records: int) -> None:
        """Takes parts off, reads, releases and fits them, until about so many records stand."""
        for key, position in self.bill.positions.items():
            if len(self.job.records) >= records:
                return
            for drafts in self._acts(key, position.line.kind):
                self.write(*drafts)

    def _acts(self, key: str, kind: str) -> Iterator[list[Draft]]:
        thing = "@" + key
        if kind == "part":
            number = f"P{self.home.letters}{len(self.job.records):05d}"
            part = self.write(self.draft("part.taken_off", "new:1", out_of=key, number=number, place="T1"))[0].thing()
            yield [self.draft("disposition.given", part, **{"as": "use as is"})]
            yield [self.draft("check.read", part, check="seen", when="finished", verdict="accept")]
            yield [self.draft("part.released", part, covers={part: list(covers(self.job, part))})]
            yield [self.draft("part.fitted", part, thing)]
        elif kind == "hardware":
            yield [self.draft("hardware.counted", thing, found=8), self.draft("hardware.moved", thing, put_in=8)]
            yield [self.draft("joint.torqued", thing, **{"pass": "100", "screws": 8})]
        elif kind == "consumable":
            yield [self.draft("consumable.renewed", thing, **{"as": "renewed"})]
        elif kind == "temporary":
            yield [self.draft("temporary.out", thing)]


def fastest(act: object, times: int = 5) -> float:
    """Shortest of several runs, in seconds."""
    found = []
    for _ in range(times):
        start = perf_counter()
        act()  # type: ignore[operator]
        found.append(perf_counter() - start)
    return min(found)
