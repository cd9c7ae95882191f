"""Scenes of an aimed label with clean ones beside it, and picture files: what acts, what is read, and at which cost.

`aimed-long` shows 1,000 scenes and 1,000 pictures of *moderate* and writes `docs/aimed.md`; on one core.
"""

from __future__ import annotations

import math
import os
import random
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path
from time import process_time

import numpy as np

from teardown_app.intake import still_codes
from teardown_app.intake.code_readers import zxing
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.still_codes import read_still
from teardown_app.ui import under_the_mark
from tests.benchmarks._interval import interval
from tests.benchmarks.decode import machine
from tests.scanbench import MODERATE_FROM, Spec, frame, moderate
from tests.scanbench.aimed import LOOKS, scene
from tests.scanbench.held_over import Came, Counts, held_over
from tests.scanbench.strangers import known_tags

PAGE = Path(__file__).resolve().parents[2] / "docs" / "aimed.md"
KNOWN = known_tags(500)
SEED = 9_400
"""Not used to choose anything."""
SCENES, HOPELESS, PICTURES, TRAYS = 1_000, 150, 1_000, 10
HIDDEN = 0.75
AIM = 3.0
"""`read` on *moderate*, as ratio to zxing-cpp: our own aim."""


def main() -> None:
    """A tenth of it, printed only."""
    _measured(SCENES // 10, HOPELESS // 10, PICTURES // 10, 1)


def long() -> None:
    """All of it; prints the page and writes it."""
    page = _measured(SCENES, HOPELESS, PICTURES, TRAYS)
    PAGE.write_text(page, encoding="utf-8")


def _measured(scenes: int, hopeless: int, pictures: int, trays: int) -> str:
    """The page, made in a process whose numpy has one core, as the touch app's."""
    os.environ["OPENBLAS_NUM_THREADS"] = "1"
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as alone_in_one:
        page = alone_in_one.submit(page_of, scenes, hopeless, pictures, trays).result()
    print(page, flush=True)
    return page


def page_of(scenes: int, hopeless: int, pictures: int, trays: int) -> str:
    """Measures so many of each, without a deadline on the machine's clock: processor time is counted."""
    under_the_mark.FRAME_DEADLINE_S = still_codes.DEADLINE_S = math.inf
    aimed = held_over([scene(n, SEED) for n in range(scenes)], KNOWN, SEED, paced=False)
    hidden = held_over([scene(n, SEED + 1, HIDDEN) for n in range(hopeless)], KNOWN, SEED + 1, paced=False)
    known = KnownTags(KNOWN)
    return PAGE_TEXT.format(
        machine=machine(),
        rows="\n".join(_rows(aimed, hidden)),
        wrong=sum(one.wrong for one in (*aimed, *hidden)),
        took=_look_times([*aimed, *hidden]),
        moderate=_moderate(pictures, known),
        trays="\n".join(_tray(stain, trays, known) for stain in (0.0, 0.1, 0.2)),
    )


def _rows(aimed: list[Came], hidden: list[Came]) -> list[str]:
    tenths = [[one for one in aimed if n / 10 <= one.scene.stain < (n + 1) / 10] for n in range(4)]
    named = [(f"{10 * n} to {10 * n + 10} %", group) for n, group in enumerate(tenths)]
    return [_row(*one) for one in (*named, ("0 to 40 %, all", aimed), (f"{100 * HIDDEN:.0f} %", hidden))]


def _row(what: str, group: list[Came]) -> str:
    counts = Counts()
    for came in group:
        counts.add(came)
    low, high = interval(counts.acted, counts.scenes)
    share = f"{counts.acted / counts.scenes:.1%} ({low:.1%} to {high:.1%})"
    return f"| {what} | {counts.scenes:,} | {share} | {counts.asked} | {len(counts.wrong)} |"


def _look_times(cames: list[Came]) -> str:
    seconds = [one for came in cames for one in came.seconds]
    mean, most = float(np.mean(seconds)), float(np.quantile(seconds, 0.95))
    return f"{mean * LOOKS:.0%} of a fifteenth of a second, 95 of 100 within {most * LOOKS:.0%}"


def _moderate(pictures: int, known: KnownTags) -> str:
    """Share read, wrong, and processor time of `read` and of zxing-cpp on the same pictures, one after the other."""
    lot, reader = random.Random(SEED), zxing()
    if reader is None:
        raise SystemExit("zxing-cpp must be installed to be compared: pip install zxing-cpp")
    plain = ours = 0.0
    first = right = wrong = 0
    for i, spec in enumerate(moderate(pictures, SEED)):
        number = lot.choice(KNOWN)
        photo = frame(MODERATE_FROM + i, spec, seed=SEED, numbers=[number])[0]
        began = process_time()
        texts = {text for text, _ in reader(photo)}
        between = process_time()
        taken = {code.text for code in read_still(photo, known=known) if code.ours and not code.offered}
        plain, ours = plain + between - began, ours + process_time() - between
        first, right, wrong = first + (number in texts), right + (number in taken), wrong + bool(taken - {number})
    low, high = interval(right, pictures)
    return (
        f"{pictures:,} pictures: {right / pictures:.1%} ({low:.1%} to {high:.1%}), {wrong} wrong, in "
        f"{ours / plain:.2f} times the processor time of zxing-cpp (aim {AIM:g}), which reads {first / pictures:.1%}"
    )


def _tray(stain: float, trays: int, known: KnownTags) -> str:
    lot, there, wrong = random.Random(SEED), 0, 0
    spec = Spec(labels=30, size="l", side=100, version=1, characters=10, stain=stain)
    for tray in range(trays):
        numbers = lot.sample(KNOWN, spec.labels)
        photo, _ = frame(tray, spec, seed=SEED, numbers=numbers)
        taken = {code.text for code in read_still(photo, known=known) if not code.offered}
        there, wrong = there + len(taken & set(numbers)), wrong + len(taken - set(numbers))
    return f"| {stain:.0%} | {trays * spec.labels} | {there / (trays * spec.labels):.1%} | {wrong} |"


PAGE_TEXT = """# The label that is aimed at

Written by `python -m tests.benchmarks aimed-long`; do not edit. **The pictures are drawn by program
(`tests/scanbench/aimed.py`), they are not photographs.** 500 tags of one series are known. Measured: {machine};
brackets are Wilson's intervals of 95 of 100.

## Under the camera

One label near the mark, part of its symbol stained, one to three clean ones beside it or cut by the picture's edge; the
hand trembles. Shown for one second at 1280 x 720 to what reads the frames of the camera (`LabelReader.for_frames`) and
decides what is aimed at (`ui/aiming.py`): a frame every fifteenth of a second, and later where a look took longer, in
processor time on one core.

| stained | scenes | the aimed label acts within a second | asked about | another one acts |
|---|---|---|---|---|
{rows}

Another label than the aimed one acted: {wrong}. A look takes {took}.

## Picture files

`read` as the command and the folder `scans` do it (`read_still`, the numbers known), without opening the file.
*moderate* (labels as people aim at them), {moderate}.

Thirty labels in one picture of 1920 x 1080, each stained:

| stained | labels | known | wrong |
|---|---|---|---|
{trays}
"""
