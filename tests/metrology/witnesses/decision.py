"""Who says what decision rules give: JCGM 106, ISO 14253-1, ILAC-G8, closed forms, scipy."""

from __future__ import annotations

import math

import numpy as np
from scipy import optimize, stats

from teardown_app.metrology.conformity import probability_of_conformity
from teardown_app.metrology.decision import STATES, decide
from teardown_app.metrology.guard_band import guard_factor
from tests.metrology.witness import Witness

JCGM_106 = [
    ((0.0075, None, 0.008, 0.0005), 0.841345),
    ((0.008, None, 0.008, 0.0005), 0.5),
    ((0.48, None, 0.51, 0.02), 0.933193),
    ((3.0, 2.8, None, 0.4), 0.691462),
    ((10.03, 9.90, 10.05, 0.02), 0.841345),
    ((10.0, 9.8, 10.2, 0.1), 0.954500),
    ((10.0, 9.7, 10.3, 0.1), 0.997300),
]
NARROW = (3.92, 3.95, 4.0, 4.5, 5.0, 6.0, 9.0)
LINE = np.linspace(9.5, 10.5, 401)


def _guard_of_scipy(t: float, p: float = 0.95) -> float:
    return float(optimize.brentq(lambda g: stats.norm.cdf(g) - stats.norm.cdf(g - t) - p, 1.0, t / 2 + 1e-9))


def _guarded_by_probability(y: float) -> int:
    """1 accept, 0 inconclusive, -1 reject: 9.8 to 10.2, u 0.05, from probabilities of scipy alone."""
    above, below = stats.norm.sf(10.2, y, 0.05), stats.norm.cdf(9.8, y, 0.05)
    return int(above + below <= 0.05) - int(max(above, below) > 0.95)


def _states_by_hand(y: float) -> int:
    """Number of the state in STATES: upper limit 10, U 0.2, compared in whole steps of 0.0025."""
    step = round(y * 400)
    return sum(step > edge for edge in (3920, 4000, 4080))


def _verdicts(values: np.ndarray) -> list[int]:
    word = {"accept": 1, "inconclusive": 0, "reject": -1}
    return [word[decide(float(y), 9.8, 10.2, 0.1, "guarded").verdict] for y in values]


WITNESSES: list[Witness] = [
    Witness(
        "conformity.probability_of_conformity",
        "JCGM 106, worked cases",
        lambda: [probability_of_conformity(*one) for one, _ in JCGM_106],
        [p for _, p in JCGM_106],
        6e-7,
        absolute=True,
    ),
    Witness(
        "conformity.probability_of_conformity",
        "scipy.stats.norm, far out on either side",
        lambda: [math.log(probability_of_conformity(y, -1.0, 1.0, 0.2)) for y in (-6.0, -1.5, 0.0, 0.3, 2.0, 7.0)],
        lambda: [
            stats.norm.logcdf(-(abs(y) - 1) / 0.2)
            + math.log1p(-stats.norm.sf((abs(y) + 1) / 0.2) / stats.norm.sf((abs(y) - 1) / 0.2))
            for y in (-6.0, -1.5, 0.0, 0.3, 2.0, 7.0)
        ],
        1e-13,
    ),
    Witness(
        "guard_band.guard_factor", "ISO 14253-1, factor from memory", lambda: guard_factor(), 1.65, 6e-3, absolute=True
    ),
    Witness(
        "guard_band.guard_factor",
        "table of the normal distribution",
        lambda: [guard_factor(), guard_factor(2 * 1.9599639845400545), guard_factor(1e6), guard_factor(math.inf, 0.99)],
        [1.644854, 1.959964, 1.644854, 2.326348],
        6e-7,
        absolute=True,
    ),
    Witness(
        "guard_band.guard_factor",
        "scipy.optimize.brentq on scipy.stats.norm",
        lambda: [guard_factor(t) for t in NARROW],
        lambda: [_guard_of_scipy(t) for t in NARROW],
        1e-7,
    ),
    Witness(
        "decision.decide",
        "JCGM 106: upper limit 10, u 0.1, accepted up to 9.835515; 9.8 by U = 2 u",
        lambda: [decide(9.0, high=10.0, uncertainty=0.2, rule=rule).accept_high for rule in ("guarded", "four-way")],
        [9.835515, 9.8],
        6e-7,
        absolute=True,
    ),
    Witness(
        "decision.decide",
        "scipy.stats.norm: 95 % conform, 95 % do not",
        lambda: _verdicts(LINE),
        lambda: [_guarded_by_probability(float(y)) for y in LINE],
        0.0,
    ),
    Witness(
        "decision.decide",
        "ILAC-G8, four states, counted in steps by hand",
        lambda: [STATES.index(decide(float(y), high=10.0, uncertainty=0.2, rule="four-way").state) for y in LINE],
        lambda: [_states_by_hand(float(y)) for y in LINE],
        0.0,
    ),
    Witness(
        "decision.decide",
        "closed form, TUR and margins",
        lambda: [
            one or 0.0 for one in (*decide(10.1, 9.8, 10.2, 0.05)[7:10], decide(10.1, high=10.2, uncertainty=0.2)[9])
        ],
        [4.0, 0.1, 2.0, 0.5],
        1e-13,
    ),
]
