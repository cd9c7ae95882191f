"""Labels past the readers' limit: how many known tags are recognised, at what cost, and that no other ever is.

Writes `docs/comparison.md`. Takes about half an hour on two cores, most of it for the strangers.
"""

from __future__ import annotations

import os
import random
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path
from time import process_time

from teardown_app.intake.code_readers import zxing
from teardown_app.intake.comparison.compare import compare
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.still_codes import DEADLINE_S, read_still
from tests.scanbench import MODERATE_FROM, Spec, frame, greased, moderate, stained
from tests.scanbench.held_against import NO_DEADLINE_S, Asked, Counts, count
from tests.scanbench.strangers import known_tags, seen, siblings, strangers

PAGE = Path(__file__).resolve().parents[2] / "docs" / "comparison.md"

PICTURES = 300
STRANGERS, SIBLINGS = 20_000, 600
SIZES = "s"
"""Sizes of pictures of strangers: small ones, for so many take long."""
KNOWN, MANY, MOST = known_tags(500), known_tags(5_000), known_tags(20_000)
SEED = 2027
MISSED, MISSED_FROM = 200, 4_000
"""So many of *moderate* are read before enough are found that every reader misses."""

Row = tuple[str, int, float, int, int, int, float]
"""What, pictures, share taken, wrong, offered, offered wrong, milliseconds a picture."""


def long() -> None:
    """Measures, prints and writes the page."""
    rows = [
        *(_row(f"stained {share:.0%}", stained(share, PICTURES, SEED)) for share in (0.2, 0.3, 0.4, 0.5)),
        *(_row(f"greased {share:.0%}", greased(share, PICTURES, SEED)) for share in (0.2, 0.3)),
        _row("stained 30%, 5,000 known tags", stained(0.3, PICTURES, SEED + 1), known=MANY),
        _row("the same, within 0.5 s as for a frame", stained(0.3, PICTURES, SEED + 1), known=MANY, deadline_s=0.5),
        _row("20,000 known tags, within 0.5 s", stained(0.3, PICTURES, SEED + 1), known=MOST, deadline_s=0.5),
        _counted("*moderate*, what the readers miss", count(_missed())),
    ]
    os.environ["OPENBLAS_NUM_THREADS"] = "1"  # of the processes that are started
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as alone_in_one:
        first = alone_in_one.submit(after_zxing).result()
    unknown = count(strangers(STRANGERS, SEED, KNOWN, SIZES))
    alone = _counted("unknown tags, foreign codes, no code", unknown)
    sibling = _counted("the tag unknown, its 99 neighbours known, 0 to 60% stained", count(siblings(SIBLINGS, SEED)))
    page = _page(rows, first, [alone, sibling], unknown.chances)
    print(page, flush=True)
    PAGE.write_text(page, encoding="utf-8")


def _row(what: str, specs: list[Spec], known: tuple[str, ...] = KNOWN, deadline_s: float = NO_DEADLINE_S) -> Row:
    return _counted(what, count(seen(specs, SEED, known, 1_000_000, deadline_s)))


def _counted(what: str, counts: Counts) -> Row:
    for one in counts.wrong:
        print(f"WRONG: {one}", flush=True)
    print(f"{what}: {counts}", flush=True)
    return (
        what,
        counts.pictures,
        counts.share,
        len(counts.wrong),
        counts.offered,
        counts.offered_wrong,
        counts.seconds / counts.pictures * 1e3,
    )


def _missed() -> list[Asked]:
    """Photographs of *moderate* in which the readers, one after the other, read nothing."""
    lot, missed = random.Random(SEED), []
    for i, spec in enumerate(moderate(MISSED_FROM, SEED)):
        one = Asked(spec, MODERATE_FROM + i, SEED, lot.choice(KNOWN), KNOWN)
        if not read_still(frame(one.place, spec, seed=SEED, numbers=[one.number])[0]):
            missed.append(one)
        if len(missed) == MISSED:
            break
    return missed


def after_zxing() -> tuple[float, float, int, float]:
    """*moderate(400)*: read by zxing-cpp, read or recognised, wrong, and mean processor time, on one core, as ratio
    to zxing-cpp alone."""
    read, known, lot = zxing(), KnownTags(KNOWN), random.Random(SEED)
    alone = after = 0.0
    by_reader = right = wrong = 0
    for i, spec in enumerate(moderate(400, SEED)):
        number = lot.choice(KNOWN)
        photo = frame(MODERATE_FROM + i, spec, seed=SEED, numbers=[number])[0]
        spent, texts = _timed(lambda photo=photo: [text for text, _ in read(photo)])  # type: ignore[misc]
        alone, by_reader = alone + spent, by_reader + (number in texts)
        if not texts:
            spent, found = _timed(lambda photo=photo: compare(photo, known, deadline_s=DEADLINE_S))  # type: ignore[misc]
            after += spent
            texts = [found.number] if found is not None and found.chance.sure else []
        right, wrong = right + (number in texts), wrong + bool(texts and number not in texts)
    return by_reader / 400, right / 400, wrong, (alone + after) / alone


def _timed(doing: Callable[[], object]) -> tuple[float, object]:
    began = process_time()
    done = doing()
    return process_time() - began, done


def _page(
    rows: list[Row], first: tuple[float, float, int, float], strange: list[Row], chances: tuple[float, ...]
) -> str:
    read, right, wrong, ratio = first
    below = {level: f"{sum(one < level for one in chances) / len(chances):.2%}" for level in (0.1, 0.01, 0.001)}
    table = "\n".join(
        f"| {what} | {pictures} | {share:.1%} | {bad} | {asked} ({asked_bad}) | {cost:.0f} |"
        for what, pictures, share, bad, asked, asked_bad, cost in rows
    )
    other = "\n".join(
        f"| {what} | {pictures:,} | {bad} | {asked} | {cost:.0f} |"
        for what, pictures, _, bad, asked, _, cost in strange
    )
    return f"""# Labels past the readers' limit

Written by `python -m tests.benchmarks comparison`; do not edit. **The pictures are drawn by program
(`tests/scanbench`), they are not photographs.** 500 tags of one series are known where nothing else is said. One
picture, no deadline, two processes on two cores; numpy and Pillow alone.

| what covers the label | pictures | taken | wrong | offered (wrong) | ms a picture |
|---|---|---|---|---|---|
{table}

*moderate*, 400 pictures: zxing-cpp alone reads {read:.1%}; with the comparison after it {right:.1%} are known,
{wrong} wrong, in {ratio:.2f} times the processor time of the reader alone. What `read` costs stands in `aimed.md`.

## Nothing known is in the picture

Pictures of 640 x 480 for the first row.

| what is in it | pictures | taken, all of them wrong | offered, all of them wrong | ms a picture |
|---|---|---|---|---|
{other}

Least chances computed for the strangers: below 0.1 in {below[0.1]}, below 0.01 in {below[0.01]}, below 0.001 in
{below[0.001]} of them. That is the direct evidence. The chance of 1e-9 is computed (`intake/comparison/chance.py`)
and lies far beyond what can be drawn: it is an extrapolation of the tail, on the assumption that modules which tell
tags apart are fair and independent.
"""
