"""How opening a job and taking one scan in grow with the job: exponents of medians at sizes times ten."""

from __future__ import annotations

from collections.abc import Callable
from math import log10
from statistics import median
from typing import NamedTuple

from teardown_app.domain.lacks.lack import TWO_VERSIONS
from teardown_app.domain.ledger.record import SHOP, Record
from teardown_app.domain.signed.signing import signature_covers
from tests.benchmarks._growth_jobs import SCANS, Floor, covered_bill, deep_bill
from tests.benchmarks._shop import large_bill
from tests.open_points.tablets import JOB, Tablet

SCAN, LINEAR = 0.2, 1.1
"""Exponents asked for: a scan hardly grows, what has to look at everything grows as it does (and sorts)."""


class Way(NamedTuple):
    """One way in which a job grows: what is measured, the exponent asked for, sizes, seconds of a size."""

    name: str
    wanted: float
    sizes: tuple[int, ...]
    long: tuple[int, ...]
    seconds: Callable[[int], float]


def opening_places(places: int) -> float:
    """A job of which little is recorded yet."""
    floor = Floor(large_bill(places))
    floor.work(100)
    return min(floor.open() for _ in range(3))


def opening_records(records: int) -> float:
    """A bill of about 0.27 places a record, all worked: the tool grows with what is recorded."""
    floor = Floor(large_bill(max(22, records * 11 // 40)))
    floor.work(records)
    return min(floor.open() for _ in range(3))


def scan_places(places: int) -> float:
    """One part of a large tool; the job is signed."""
    floor, part, key = _one_in(places)
    floor.sign(["job"])
    floor.open()
    return floor.scan(part, key)


def _one_in(places: int, records: int = 100) -> tuple[Floor, str, str]:
    """A job on a bill of so many places, a part that sits in the last assembly, and its place."""
    floor = Floor(large_bill(places))
    floor.work(records)
    key = [each.key for each in floor.bill.positions.values() if each.line.kind == "part"][-3]
    return floor, floor.part_in(key), key


def scan_records(records: int) -> float:
    """A tool of 33,000 places, more and more of it worked."""
    floor, part, key = _one_in(33_000, records)
    floor.open()
    return floor.scan(part, key)


def taken_back(records: int) -> float:
    """Where a thing lies is recorded and taken back, on a tool that is all worked, and signed."""
    floor, part, _ = _one_in(110 + records * 11 // 40, records)
    floor.sign(["job"])
    floor.open()
    found = []
    for n in range(SCANS):
        put = floor.write("thing.put", part, place=f"RACK {n}")
        floor.take(put)
        found.append(floor.take(floor.write("record.voided", part, record=put.ref, why="slip")))
    return median(found)


def scan_one_place(records: int) -> float:
    """One part taken out of its place and fitted again so many times before."""
    floor, part, key = _one_in(110)
    for n in range(records):
        floor.write(("part.taken_out", "part.fitted")[n % 2], part, "@" + key)
    floor.open()
    return floor.scan(part, key)


def _staffed(entries: int) -> tuple[Floor, str, str]:
    """A shop in which so many person records stand, of thirty people; each seen by somebody's record in the job."""
    floor, part, key = _one_in(110)
    for n in range(entries):
        floor.give(f"P{n % 30}", ["record"])
        floor.write("thing.put", part, place=f"RACK {n}")
    floor.open()
    return floor, part, key


def scan_persons(entries: int) -> float:
    """Nothing new of the people."""
    floor, part, key = _staffed(entries)
    return floor.scan(part, key)


def rights_persons(entries: int) -> float:
    """Somebody gets rights, and the next scan is by one who has heard of it."""
    floor, part, key = _staffed(entries)
    return floor.scan(part, key, lambda n: floor.give(f"N{n}", ["record"]))


def number_persons(entries: int) -> float:
    """A number is issued, which changes nobody's rights, and then a scan."""
    floor, part, key = _staffed(entries)

    def issued(n: int) -> Record:
        body = {"letter": "P", "letters": "7K3M", "count": 1, "first": n, "next": n + 1}
        return floor.first.write("OF", "numbers.issued", ("numbers:7K3M",), body, journal=SHOP)

    return floor.scan(part, key, issued)


def _forked(length: int) -> tuple[Floor, str, str, Tablet]:
    """A tablet that went on twice from one copy, both branches so long."""
    floor, part, key = _one_in(110)
    twin = floor.first.copied()
    floor.tablets.append(twin)
    for n in range(length):
        floor.write("thing.put", part, place=f"RACK {n}")
        floor.write("photo.taken", "job", on=twin, photos=["0" * 64])
    floor.open()
    return floor, part, key, twin


def opening_fork(length: int) -> float:
    """Both branches so long."""
    floor, _, _, _ = _forked(length)
    return min(floor.open() for _ in range(3))


def scan_fork(length: int) -> float:
    """The first branch goes on."""
    floor, part, key, _ = _forked(length)
    return floor.scan(part, key)


def scan_fork_other(length: int) -> float:
    """The second branch goes on, beside the first."""
    floor, part, key, twin = _forked(length)
    return floor.scan(part, key, on=twin)


def scan_fork_in_turn(length: int) -> float:
    """Both branches go on, one record each: every number stands for two."""
    floor, part, key, twin = _forked(length)
    return floor.scan(part, key, lambda n: floor.write("thing.put", part, place=f"SHELF {n}"), on=twin)


def scan_fork_settled(length: int) -> float:
    """What the second branch recorded is taken back, and a tablet that knows the first one concedes each number."""
    floor, part, key, twin = _forked(length)
    other = Tablet("t2~0", floor.first.clock)
    other.sync(floor.first)
    floor.tablets.append(other)
    for one in twin.own(JOB)[-length:]:
        floor.write("record.voided", "job", on=twin, record=one.ref, why="twice", reference="K-7")
        body = {"key": f"{TWO_VERSIONS}|job|{one.dev}:{one.seq}", "why": "agreed", "reference": "K-7", "covers": []}
        floor.write("point.conceded", "job", on=other, **body)
    floor.open()
    return floor.scan(part, key)


def scan_conceded(points: int) -> float:
    """So many empty places conceded."""
    floor, part, key = _one_in(11 * points + 110, 0)
    for one in [each.key for each in floor.bill.positions.values() if each.line.kind == "part"][:points]:
        body = {"key": f"missing|{one}|", "why": "agreed", "reference": "K-7", "covers": []}
        floor.write("point.conceded", "job", **body)
    floor.open()
    return floor.scan(part, key)


def scan_signed(places: int) -> float:
    """So many assemblies signed, each by itself, and the job."""
    floor, part, key = _one_in(11 * places)
    floor.sign([f"@{each.key}" for each in floor.bill.positions.values() if not each.parent] + ["job"])
    floor.open()
    return floor.scan(part, key)


def scan_signed_again(times: int) -> float:
    """One assembly signed so many times."""
    floor, part, key = _one_in(110)
    floor.sign(["@" + key.rpartition(".")[0]] * times)
    floor.open()
    return floor.scan(part, key)


def scan_depth(depth: int) -> float:
    """The deepest part of assemblies one in the other, everything worked, read at the place and signed."""
    floor = Floor(deep_bill(depth))
    floor.work(1_000_000)
    parts = {each.body["out_of"]: each.ent[0] for each in floor.records(JOB) if each.typ == "part.taken_off"}
    return _scan_deep(floor, parts, depth)


def scan_units(depth: int) -> float:
    """The same where every assembly came off as a unit and sits in the one around it."""
    floor = Floor(deep_bill(depth))
    floor.work(1_000_000)
    for n in range(depth, 0, -1):
        floor.part_in(".".join(["10"] * n), check="tight")
    parts = {each.body["out_of"]: each.ent[0] for each in floor.records(JOB) if each.typ == "part.taken_off"}
    return _scan_deep(floor, parts, depth)


def _scan_deep(floor: Floor, parts: dict[str, str], depth: int) -> float:
    assemblies = [each.key for each in floor.bill.positions.values() if each.line.kind == "assembly"]
    for key in assemblies:
        floor.write("check.read", "@" + key, check="tight", when="fitted", verdict="accept")
    floor.sign([*("@" + key for key in assemblies), "job"])
    floor.open()
    key = assemblies[-1] + ".20"
    return floor.scan(parts[key], key)


def scan_cover(parts: int) -> float:
    """One part beneath a lid over so many, the assembly signed."""
    floor = Floor(covered_bill(parts))
    floor.work(1_000_000)
    floor.sign(["@10"])
    floor.open()
    part = next(each.ent[0] for each in floor.records(JOB) if each.body.get("out_of") == "10.3")
    return floor.scan(part, "10.3")


def signature(places: int) -> float:
    """The record of a signature itself, on one assembly among so many signed ones."""
    floor, _, key = _one_in(11 * places)
    tops = [f"@{each.key}" for each in floor.bill.positions.values() if not each.parent]
    floor.sign([*tops, "job"])
    floor.open()
    top = "@" + key.rpartition(".")[0]
    covers = signature_covers(floor.job, top)
    found = (floor.take(floor.write("work.signed", top, meaning="reviewed", covers=covers)) for _ in range(SCANS))
    return median(found)


WAYS = (
    Way("opening, places", LINEAR, (500, 5_000), (5_000, 50_000), opening_places),
    Way("opening, records", LINEAR, (400, 4_000), (10_000, 100_000), opening_records),
    Way("opening, fork length", LINEAR, (20, 200), (100, 1_000), opening_fork),
    Way("scan, places, job signed", SCAN, (500, 5_000), (5_000, 50_000), scan_places),
    Way("scan, records", SCAN, (1_000, 10_000), (10_000, 100_000), scan_records),
    Way("scan, records of one place", SCAN, (30, 300), (30, 300), scan_one_place),
    Way("taking back, records", SCAN, (400, 4_000), (10_000, 100_000), taken_back),
    Way("scan, person entries", SCAN, (30, 300), (30, 300), scan_persons),
    Way("rights and scan, person entries", SCAN, (30, 300), (30, 300), rights_persons),
    Way("number and scan, person entries", SCAN, (30, 300), (30, 300), number_persons),
    Way("scan, fork length", SCAN, (20, 200), (100, 1_000), scan_fork),
    Way("scan, fork length, other branch", SCAN, (20, 200), (100, 1_000), scan_fork_other),
    Way("scan, fork length, in turn", SCAN, (20, 200), (100, 1_000), scan_fork_in_turn),
    Way("scan, fork length, all settled", SCAN, (20, 200), (100, 1_000), scan_fork_settled),
    Way("scan, concessions", SCAN, (30, 300), (300, 3_000), scan_conceded),
    Way("scan, signed places", SCAN, (30, 300), (400, 4_000), scan_signed),
    Way("signature, signed places", SCAN, (30, 300), (400, 4_000), signature),
    Way("scan, signatures on one place", SCAN, (30, 300), (30, 300), scan_signed_again),
    Way("scan, depth, all signed", LINEAR, (10, 100), (10, 100), scan_depth),
    Way("scan, depth, all units", LINEAR, (4, 40), (10, 100), scan_units),
    Way("scan, beneath one cover", SCAN, (30, 300), (500, 5_000), scan_cover),
)


def run(long: bool, names: tuple[str, ...] = ()) -> None:
    """One line for each way: seconds at both sizes, the exponent, and what is asked."""
    for way in WAYS:
        if names and way.name not in names:
            continue
        small, large = sizes = way.long if long else way.sizes
        seconds = [way.seconds(size) for size in sizes]
        grows = log10(seconds[1] / seconds[0]) / log10(large / small)
        verdict = "" if grows <= way.wanted else "  ABOVE"
        print(
            f"{way.name + ':':34} {small:>6} {seconds[0] * 1e3:10.3f} ms, {large:>6} {seconds[1] * 1e3:10.3f} ms, "
            f"n^{grows:5.2f}, asked n^{way.wanted}{verdict}",
            flush=True,
        )


def main() -> None:
    """Sizes that take about a minute."""
    run(long=False)


def long() -> None:
    """Sizes of the largest shop there is: by the name `growth-long`."""
    run(long=True)
