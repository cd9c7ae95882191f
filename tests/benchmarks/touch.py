"""The touch app: first usable screen, one changed row, a camera's picture, a scan until it stands recorded,
memory of a long shift."""

from __future__ import annotations

import json
from pathlib import Path
from shutil import rmtree
from statistics import median
from tempfile import mkdtemp
from typing import Any

from teardown_app.domain.bill.bill import Bill
from teardown_app.domain.ledger.kinds.kind import RIGHTS
from teardown_app.intake.bill import read_bill
from teardown_app.intake.materials import read_materials
from teardown_app.workflows.open_job import open_job
from teardown_app.workflows.shop import give_rights
from teardown_app.workshop import assets_folder, open_workshop
from tests.benchmarks._glass import PERSON, PROJECT, run_child, there_is_glass
from tests.benchmarks._shop import large_bill

JOBS = (50, 2_000)
POSITIONS = 5_000
ROUNDS = 5
FRAME_S = 1 / 60
AIM_FIRST, AIM_ROW_MS, AIM_HANDED = 3.0, 2.0, 0.25


def shop_with(jobs: int, bill: Bill, drawings: Path) -> Path:
    """A data folder with so many jobs on a bill, left on the jobs screen with the first one in hand."""
    folder = Path(mkdtemp(prefix="teardown-bench-"))
    workshop = open_workshop(folder, assets_folder(), writes=True)
    workshop.record(give_rights(workshop.shop_act(PERSON), PERSON, rights=RIGHTS), PERSON)
    first, opened = workshop.open_from_bill(bill, drawings, PERSON, **_said(0))
    frozen = opened[-1].body
    more, issued = workshop.new_numbers("J", jobs - 1)
    workshop.record([issued], PERSON)
    act, home, numbers = workshop.shop_act(PERSON), workshop.home, [first, *more]
    for n, number in enumerate(more, 1):
        drafts = open_job(act, bill, digest=frozen["bill"], drawings=frozen["drawings"], number=number, **_said(n))
        home.append(drafts, PERSON, home.heads(number))
    note = {"person": PERSON, "job": numbers[0], "screen": "jobs", "state": {"at": numbers[0]}, "entry": None}
    (folder / "drafts").mkdir(exist_ok=True)
    (folder / "drafts" / "desk.json").write_text(json.dumps(note), encoding="utf-8")
    workshop.close()
    return folder


def _said(n: int) -> dict[str, str]:
    """What is said of the n-th tool."""
    due = f"2026-{n % 12 + 1:02d}-{n % 28 + 1:02d}"
    return {"order": f"PO-{n}", "serial": str(n), "name": f"tool {n}", "due": due}


def first_screen() -> None:
    """From starting the program to the jobs screen, against a window with one label started the same way."""
    pumps = PROJECT / "sample_bills" / "ddp-12"
    bill = read_bill(pumps, read_materials(assets_folder(), None)).bill
    assert bill is not None
    for jobs in JOBS:
        folder = shop_with(jobs, bill, pumps)
        cold, found = run_child("jobs", folder)
        assert found["rows"] == jobs and found["screen"] == "jobs", found
        pairs = [(run_child("bare")[0], *run_child("jobs", folder)) for _ in range(ROUNDS)]
        bare, warm = median(one[0] for one in pairs), median(one[1] for one in pairs)
        ratio = median(one[1] / one[0] for one in pairs)
        print(
            f"first screen with {jobs} jobs: {warm:.2f} s, bare window {bare:.2f} s, ratio {ratio:.2f} "
            f"(aim {AIM_FIRST:g}); without its index {cold:.2f} s, ratio {cold / bare:.2f}"
        )
        _print_stages("  with its index", [one[2]["stages"] for one in pairs])
        _print_stages("  without", [found["stages"]])
        rmtree(folder)


def _print_stages(says: str, runs: list[dict[str, float]]) -> None:
    stages = {name: median(run[name] for run in runs) for name in runs[0]}
    print(f"{says}: " + ", ".join(f"{name} {took * 1e3:.0f} ms" for name, took in stages.items()), flush=True)


def changed_row() -> None:
    """One row of a long list changed, against all of its rows anew."""
    _, found = run_child("rows")
    anew, anew_drawn = found["all anew"]
    for where in ("in sight", "out of sight"):
        took, drawn = found[where]
        print(
            f"one row {where} of 2000 changed: {took:.2f} ms (aim {AIM_ROW_MS:g}), with its frame {drawn:.2f} ms; "
            f"all anew {anew:.2f} and {anew_drawn:.2f} ms, {anew_drawn / drawn:.1f} times as long",
            flush=True,
        )


def scanned() -> None:
    """A free label scanned until it stands on the glass as recorded, against a bare append and sync; memory."""
    folder = shop_with(1, large_bill(POSITIONS), PROJECT / "sample_bills")
    _, found = run_child("scans", folder)
    takes = found["scans"]
    floor = median(one["floor"] for one in takes)
    whole = sorted(one["whole"] for one in takes)
    for name, took in (("p50", _at(whole, 0.5)), ("p95", _at(whole, 0.95)), ("p99", _at(whole, 0.99))):
        print(
            f"scan to recorded on the glass, {found['places']} places, {name}: {took * 1e3:.1f} ms, "
            f"{took / floor:.1f} times an append and sync ({floor * 1e3:.2f} ms), {took / FRAME_S:.2f} frames of 1/60 s"
        )
    first, last = takes[: len(takes) // 10], takes[-len(takes) // 10 :]
    print(f"  first tenth {_middle(first, 'whole'):.1f} ms, last tenth {_middle(last, 'whole'):.1f} ms (medians)")
    _print_shares(takes)
    for name, times in found["changes"].items():
        print(f"  change to {name}: {median(times) * 1e3:.1f} ms, worst {max(times) * 1e3:.1f} ms")
    _print_memory(found["memory"])
    rmtree(folder)


def handed_over() -> None:
    """What a new picture of the camera costs the screen's thread, as a share of a frame."""
    _, found = run_child("camera")
    fresh, again = sorted(found["fresh"]), sorted(found["again"])
    wide, high = found["size"]
    for name, share in (("median", 0.5), ("p95", 0.95), ("p99", 0.99)):
        print(
            f"a picture of {wide} x {high} handed over, {name}: {_at(fresh, share) * 1e3:.2f} ms, "
            f"{_at(fresh, share) / FRAME_S:.1%} of a frame of 1/60 s (aim {AIM_HANDED:.0%})"
        )
    print(
        f"  the same picture again: {median(again) * 1e3:.3f} ms; {found['read']} of {len(fresh)} pictures were read "
        f"for labels meanwhile, {found['labels']} on each",
        flush=True,
    )


def _at(ordered: list[float], share: float) -> float:
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def _middle(takes: list[dict[str, float]], name: str) -> float:
    return median(one[name] for one in takes) * 1e3


def _print_shares(takes: list[dict[str, float]]) -> None:
    """What of the whole each part takes; append and sync is within recording."""
    total = sum(one["whole"] for one in takes)
    names = [name for name in takes[0] if name not in ("whole", "floor")]
    spent = {name: sum(one[name] for one in takes) for name in names}
    spent["rest"] = total - sum(took for name, took in spent.items() if name != "append and sync")
    says = ", ".join(f"{name} {took / total:.0%} ({took / len(takes) * 1e3:.2f} ms)" for name, took in spent.items())
    print(f"  shares: {says}")


def _print_memory(memory: list[dict[str, Any]]) -> None:
    """What is held at each count of scans, and the growth over the second half."""
    for one in memory:
        print(
            f"memory after {one['scans']} scans: {one['kilobytes'] / 1024:.1f} MB, {one['widgets']} widgets, "
            f"{one['objects']} objects, {one['told']} told of a new look, {one['records']} records"
        )
    half, last = memory[-2:]
    grown, records = last["kilobytes"] - half["kilobytes"], last["records"] - half["records"]
    print(
        f"growth from scan {half['scans']} to {last['scans']}: {grown} kB ({grown / half['kilobytes']:+.1%}), "
        f"{grown / records:.2f} kB a record, {last['widgets'] - half['widgets']:+d} widgets, "
        f"{(last['objects'] - half['objects']) / records:.1f} objects a record"
    )


def main() -> None:
    """All of them, where there is a glass."""
    if not there_is_glass():
        print("no display here: skipped (set DISPLAY)")
        return
    changed_row()
    handed_over()
    scanned()
    first_screen()
