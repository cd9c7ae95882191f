"""Reconciling: all points of a job, points after one scan, and how both grow with the job."""

from __future__ import annotations

from math import log
from time import perf_counter

from teardown_app.domain.points.live import Live
from teardown_app.domain.signed.release import covers
from teardown_app.workshop import no_collecting
from tests.benchmarks._shop import Bench, fastest, large_bill

SIZES = (500, 5_000, 50_000)
WORKED = 300
"""Records worked into each job before measuring; more would only wait for the disk."""


def measure(positions: int) -> tuple[int, float, float]:
    """Places, seconds for all points, and for the points after one scan (a fitting)."""
    bench = Bench(large_bill(positions))
    bench.work(min(WORKED, positions))
    with no_collecting():
        full = fastest(lambda: Live(bench.job), 3 if positions > 5_000 else 7)
    live = Live(bench.job)
    key = list(bench.bill.positions)[-10]
    part = bench.write(bench.draft("part.taken_off", "new:1", out_of=key))[0].thing()
    bench.write(bench.draft("disposition.given", part, **{"as": "use as is"}))
    bench.write(bench.draft("check.read", part, check="seen", when="finished", verdict="accept"))
    bench.write(bench.draft("part.released", part, covers={part: list(covers(bench.job, part))}))
    live = Live(bench.job)
    scans = []
    for n in range(21):
        typ = "part.taken_out" if n % 2 else "part.fitted"
        draft = bench.draft(typ, part, "@" + key)
        record = bench.home.append([draft], "OF", bench.home.heads(bench.number))[0]
        start = perf_counter()
        live.update(record, bench.job.take(record))
        scans.append(perf_counter() - start)
    return len(bench.bill.positions), full, sorted(scans)[len(scans) // 2]


def worked() -> None:
    """The same for a job on which everything was done: every part off, read, released and fitted."""
    bench = Bench(large_bill(5_000))
    bench.work(1_000_000)
    with no_collecting():
        full = fastest(lambda: Live(bench.job), 3)
    places = len(bench.bill.positions)
    print(
        f"{places:>6} places, all worked, {len(bench.job.records)} records: all points {full * 1e3:8.1f} ms "
        f"({full / places * 1e6:.1f} us a place)"
    )


def main() -> None:
    """Prints times, per place and as growth exponents."""
    rows = [measure(size) for size in SIZES]
    for places, full, scan in rows:
        print(
            f"{places:>6} places: all points {full * 1e3:8.1f} ms ({full / places * 1e6:.1f} us a place), "
            f"after one scan {scan * 1e3:6.3f} ms ({full / scan:.0f} times less)"
        )
    for (small, full_a, scan_a), (large, full_b, scan_b) in zip(rows, rows[1:], strict=False):
        factor = log(large / small)
        print(
            f"growth {small} -> {large}: all points n^{log(full_b / full_a) / factor:.2f}, "
            f"one scan n^{log(scan_b / scan_a) / factor:.2f}"
        )
    worked()
