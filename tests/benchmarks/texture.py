"""A trace of 8,000 points filtered and evaluated, against the reference library in the same run."""

from __future__ import annotations

from importlib.util import find_spec
from statistics import median
from time import perf_counter

import numpy as np

from teardown_app.metrology.gaussian_profile import gaussian_filter
from teardown_app.metrology.texture_parameters import roughness_parameters
from teardown_app.metrology.trace import evaluate_trace

POINTS, STEP_MM, CUT_OFF_MM = 8_000, 0.0005, 0.8
ROUNDS = 15


def trace() -> np.ndarray:
    """Turned grooves on a wave, with noise; heights in um. Invented."""
    x = STEP_MM * np.arange(POINTS)
    rough = 0.4 * np.sin(2 * np.pi * x / 0.11) + 2.0 * np.sin(2 * np.pi * x / 3.7)
    return np.asarray(rough + np.random.default_rng(7).normal(0, 0.05, POINTS))


def main() -> None:
    """Ratios of the library's time to ours, for the same steps."""
    heights = trace()
    ours, whole = [], []
    for _ in range(ROUNDS):
        start = perf_counter()
        parted = gaussian_filter(heights, STEP_MM, CUT_OFF_MM, ends="renormalise")
        roughness_parameters(parted.roughness)
        ours.append(perf_counter() - start)
        start = perf_counter()
        evaluate_trace(heights, STEP_MM, CUT_OFF_MM, ends="renormalise")
        whole.append(perf_counter() - start)
    print(f"filter and height parameters of {POINTS} points: {median(ours) * 1e3:.2f} ms", flush=True)
    print(f"  with checks, form and short-wave filter: {median(whole) * 1e3:.2f} ms", flush=True)
    if find_spec("surfalize") is None:
        print("  surfalize comes with `make witnesses`: not compared in this run", flush=True)
        return
    theirs = [_reference(heights) for _ in range(ROUNDS)]
    print(
        f"  surfalize, the same filter and parameters: {median(theirs) * 1e3:.2f} ms, "
        f"{median(theirs) / median(ours):.1f} times as long, {median(theirs) / median(whole):.1f} times the whole",
        flush=True,
    )


def _reference(heights: np.ndarray) -> float:
    from surfalize import Profile

    start = perf_counter()
    profile = Profile(heights, STEP_MM * 1000, STEP_MM * 1000 * len(heights))
    rough = profile.filter("highpass", CUT_OFF_MM * 1000)
    for name in ("Ra", "Rq", "Rz", "Rt", "Rp", "Rv", "Rsk", "Rku"):
        getattr(rough, name)()
    return perf_counter() - start
