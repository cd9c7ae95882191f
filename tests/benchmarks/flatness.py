"""Minimum-zone flatness against scipy's linear programme (HiGHS) iterated to the new normal, in one run."""

from __future__ import annotations

from statistics import median
from time import perf_counter

from teardown_app.metrology.minimum_zone_plane import minimum_zone
from tests.metrology.witnesses.form import by_programme, cloud

SIZES = (10, 50, 200, 1_000, 2_000)
ROUNDS = 7
AIM_SAME = 1e-9


def main() -> None:
    """One line a size: how many times as long the linear programme takes, and the largest difference."""
    for size in SIZES:
        ours, theirs, apart = [], [], 0.0
        for n in range(ROUNDS):
            plate = cloud(n, size)
            start = perf_counter()
            found = minimum_zone(plate).deviation
            middle = perf_counter()
            wanted = by_programme(plate)
            theirs.append(perf_counter() - middle)
            ours.append(middle - start)
            apart = max(apart, abs(found - wanted) / wanted)
        ratio = median(theirs) / median(ours)
        print(
            f"minimum zone of {size} points: {median(ours) * 1e3:.2f} ms, "
            f"linear programme {median(theirs) * 1e3:.2f} ms, {ratio:.1f} times as long; "
            f"difference {apart:.1e} (aim {AIM_SAME:g})",
            flush=True,
        )
