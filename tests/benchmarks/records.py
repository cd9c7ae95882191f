"""Records: one made durable against a bare append and sync, and a job of 20,000 opened from its files."""

from __future__ import annotations

import gc
import json
import os
from hashlib import blake2b
from pathlib import Path
from statistics import median
from tempfile import mkdtemp
from time import perf_counter

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import SHOP
from teardown_app.domain.shop.shop import Shop
from teardown_app.records.clock import source_of
from teardown_app.records.home import Home
from tests.benchmarks._shop import CLOCK, Bench, large_bill

ROUNDS = 300
RECORDS = 20_000


def durable() -> None:
    """Pairs of a record and a bare append of as many bytes, in turn, so that both meet the same disk."""
    bench = Bench(large_bill(500))
    path = Path(mkdtemp()) / "bare"
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
    ours, bare = [], []
    for n in range(ROUNDS):
        draft = bench.draft("thing.put", "new:1", place=f"RACK {n}")
        seen = bench.home.heads(bench.number)
        start = perf_counter()
        record = bench.home.append([draft], "OF", seen)[0]
        ours.append(perf_counter() - start)
        line = json.dumps(record._asdict()).encode() + b"\n"
        start = perf_counter()
        os.write(handle, line)
        os.fsync(handle)
        bare.append(perf_counter() - start)
    os.close(handle)
    ratios = sorted(one / other for one, other in zip(ours, bare, strict=True))
    print(
        f"record durable: {median(ours) * 1e6:.0f} us, bare append and sync {median(bare) * 1e6:.0f} us, "
        f"ratio pair by pair {ratios[len(ratios) // 2]:.2f} (middle half {ratios[len(ratios) // 4]:.2f} "
        f"to {ratios[3 * len(ratios) // 4]:.2f})"
    )


def opened() -> None:
    """From files to state, against reading, hashing and parsing the same lines with nothing else."""
    bench = Bench(large_bill(5_500))
    bench.work(RECORDS)
    bench.home.close()
    files = sorted((bench.home.path / "out" / "journals").glob(f"*/{bench.number.lower()}.*.jsonl"))
    home = Home(bench.home.path, source_of(CLOCK)).open_to_read()
    shop = Shop()
    shop.take_all(home.records(SHOP))
    gc.disable()
    start = perf_counter()
    job = Job(bench.number, shop, lambda digest: bench.bill)
    job.take_all(home.records(bench.number))
    whole = perf_counter() - start
    start = perf_counter()
    lines = 0
    for file in files:
        for line in file.read_bytes().splitlines():
            blake2b(line[: line.rindex(b',"h":"')], digest_size=16).digest()
            json.loads(line)
            lines += 1
    floor = perf_counter() - start
    gc.enable()
    count = len(job.records)
    print(
        f"{count} records opened: {whole / count * 1e6:.1f} us a record, {whole / floor:.2f} times parsing and hashing "
        f"their lines ({floor / lines * 1e6:.1f} us a line)"
    )


def main() -> None:
    """Both."""
    durable()
    opened()
