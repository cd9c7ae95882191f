"""A hand that moves over a label for ten frames: one step repeated against another step each frame."""

from __future__ import annotations

from collections.abc import Callable
from time import thread_time

import numpy as np
from attrs import Factory, define

from teardown_app.intake.code_readers import Readers
from teardown_app.intake.read_codes import look
from teardown_app.intake.reading_order import EVENED, HALF, LARGER, SMOOTH_EVENED, THREE_QUARTERS, Step
from tests.benchmarks._label_readers import Look, both, rotating, zxing_as_it_comes
from tests.scanbench.hands import FRAMES, frames

HANDS = 40
SEED = 9_300
"""Not used to choose the order of steps."""

ROTATION, ZXING_AGAIN = "ours, in rotation", "zxing-cpp, each frame"


@define
class Hands:
    """What one way of looking read of all hands."""

    read_after: list[int] = Factory(lambda: [0] * FRAMES)
    """Hands read after 1, 2, ... frames."""
    wrong: int = 0
    hands: int = 0
    seconds: list[float] = Factory(list)
    """Processor time of each look."""


def measure(hands: int = HANDS) -> dict[str, Hands]:
    """By the name of the way: every hand looked at in every way, all ten frames."""
    ways: dict[str, Hands] = {}
    for n in range(hands):
        looks = {name: start() for name, start in _ways(both()).items()}
        for name in looks:
            ways.setdefault(name, Hands()).hands += 1
        _look_at(n, looks, ways)
    return ways


def _ways(here: Readers) -> dict[str, Callable[[], Look]]:
    """Each begins anew with each hand."""
    again = {f"{step.how}, each frame": step for step in (THREE_QUARTERS, SMOOTH_EVENED, HALF, LARGER, EVENED)}
    return {
        ROTATION: lambda: rotating(here),
        ZXING_AGAIN: lambda: zxing_as_it_comes,
        **{name: lambda step=step: _repeated(step, here) for name, step in again.items()},
        "ours, pyzbar alone, in rotation": lambda: rotating(Readers(zbar=here.zbar)),
        "ours, zxing-cpp alone, in rotation": lambda: rotating(Readers(zxing=here.zxing)),
    }


def _repeated(step: Step, here: Readers) -> Look:
    return lambda grey: [code.text for code in look(grey, step, here)]


def _look_at(n: int, looks: dict[str, Look], ways: dict[str, Hands]) -> None:
    read: set[str] = set()
    for k, (photo, label) in enumerate(frames(n, SEED)):
        for name, one in looks.items():
            way = ways[name]
            start = thread_time()
            texts = set(one(photo))
            way.seconds.append(thread_time() - start)
            way.wrong += len(texts - {label.text})
            if label.text in texts:
                read.add(name)
            way.read_after[k] += name in read


def p95(way: Hands) -> float:
    """Seconds that 95 of 100 looks keep."""
    return float(np.quantile(way.seconds, 0.95))
