"""Who says what uncertainties and coverage factors are: JCGM 100, exact fractions, closed forms, scipy."""

from __future__ import annotations

import math
import statistics

import numpy as np
from scipy import stats

from teardown_app.metrology.coverage import coverage_factor, effective_degrees
from teardown_app.metrology.uncertainty import (
    combined,
    expanded,
    from_limits,
    from_resolution,
    of_instrument,
    repeated_readings,
    standard,
)
from tests.metrology.witness import Witness

READ = [10.01, 10.03, 10.02, 10.02, 10.04]
FAR = [1e6 + step / 1024 for step in (1, 5, 2, 2, 7)]

WITNESSES: list[Witness] = [
    Witness(
        "uncertainty.repeated_readings",
        "Python's statistics, exact fractions",
        lambda: repeated_readings(READ)[:3],
        lambda: [statistics.mean(READ), statistics.stdev(READ), statistics.stdev(READ) / math.sqrt(5)],
        1e-15,
    ),
    Witness(
        "uncertainty.repeated_readings",
        "closed form, mean of 1 to n",
        lambda: repeated_readings(range(1, 10))[:3],
        [5.0, math.sqrt(7.5), math.sqrt(7.5) / 3],
        1e-15,
    ),
    Witness(
        "uncertainty.repeated_readings",
        "closed form, the same moved to a million",
        lambda: repeated_readings(FAR).s,
        lambda: statistics.stdev([1, 5, 2, 2, 7]) / 1024,
        1e-15,
    ),
    Witness(
        "uncertainty.from_resolution",
        "scipy.stats.uniform",
        lambda: from_resolution(0.01),
        lambda: stats.uniform(-0.005, 0.01).std(),
        1e-14,
    ),
    Witness(
        "uncertainty.from_resolution",
        "JCGM 100:2008, F.2.2.1: 0.29 of the step",
        lambda: from_resolution(1.0),
        0.29,
        6e-3,
    ),
    Witness(
        "uncertainty.from_limits",
        "scipy.stats.uniform",
        lambda: from_limits(3.0),
        lambda: stats.uniform(-3.0, 6.0).std(),
        1e-14,
    ),
    Witness(
        "uncertainty.from_limits",
        "two resolutions of half the width",
        lambda: from_limits(3.0),
        lambda: from_resolution(6.0),
        1e-15,
    ),
    Witness(
        "uncertainty.of_instrument",
        "by hand, 0.1 % of reading + 0.02",
        lambda: of_instrument(-50.0, 0.02, 0.001),
        0.07,
        1e-14,
    ),
    Witness(
        "uncertainty.of_instrument",
        "by hand, fixed part only, and share only",
        lambda: [of_instrument(7.0, 0.3), of_instrument(7.0, 0.0, 0.5)],
        [0.3, 3.5],
        1e-15,
    ),
    Witness("uncertainty.standard", "by hand, U 0.2, k 2", lambda: standard(0.2), 0.1, 1e-15),
    Witness(
        "uncertainty.standard",
        "scipy.stats.norm: half width of 99 %",
        lambda: standard(stats.norm.ppf(0.995), 2.575829303549),
        1.0,
        1e-12,
    ),
    Witness("uncertainty.expanded", "by hand, u 0.1, k 2", lambda: expanded(0.1), 0.2, 1e-15),
    Witness("uncertainty.expanded", "by hand, u 0.25, k 3", lambda: expanded(0.25, 3.0), 0.75, 1e-15),
    Witness(
        "uncertainty.combined",
        "Pythagoras",
        lambda: [combined([3.0, 4.0]), combined([2.0, 3.0, 6.0])],
        [5.0, 7.0],
        1e-15,
    ),
    Witness(
        "uncertainty.combined",
        "numpy.linalg.norm",
        lambda: combined([0.1, 0.7, 1e-3, 2.5]),
        lambda: np.linalg.norm([0.1, 0.7, 1e-3, 2.5]),
        1e-15,
    ),
    Witness(
        "coverage.coverage_factor",
        "scipy.stats.t",
        lambda: [coverage_factor(v, p) for v in (1, 2, 3.7, 10, 100, 1e5) for p in (0.5, 0.95, 0.9545, 0.99)],
        lambda: [stats.t.ppf((1 + p) / 2, v) for v in (1, 2, 3.7, 10, 100, 1e5) for p in (0.5, 0.95, 0.9545, 0.99)],
        1e-10,
    ),
    Witness(
        "coverage.coverage_factor",
        "closed form, 1 and 2 degrees of freedom",
        lambda: [coverage_factor(1, 0.9), coverage_factor(2, 0.9)],
        [math.tan(math.pi * 0.45), 0.9 * math.sqrt(2 / (1 - 0.81))],
        1e-13,
    ),
    Witness(
        "coverage.coverage_factor",
        "JCGM 100:2008, table G.2, from memory",
        lambda: [coverage_factor(v) for v in (1, 2, 3, 4, 5, 10, 20, math.inf)],
        [13.97, 4.53, 3.31, 2.87, 2.65, 2.28, 2.13, 2.0],
        6e-3,
        absolute=True,
    ),
    Witness(
        "coverage.effective_degrees",
        "by hand, 625 / (81 / 4)",
        lambda: effective_degrees([3.0, 4.0], [4, math.inf]),
        625 / (81 / 4),
        1e-14,
    ),
    Witness(
        "coverage.effective_degrees",
        "scipy.stats.ttest_ind, Welch's degrees of freedom",
        lambda: effective_degrees([repeated_readings(READ).u, repeated_readings([1.0, 1.5, 0.2]).u], [4, 2]),
        lambda: stats.ttest_ind(READ, [1.0, 1.5, 0.2], equal_var=False).df,
        1e-13,
    ),
]
