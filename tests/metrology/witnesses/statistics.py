"""Who says what passes and trials prove: published examples, exact fractions, scipy, statsmodels."""

from __future__ import annotations

from fractions import Fraction

from scipy import stats

from teardown_app.metrology.binomial import clopper_pearson, wilson
from teardown_app.metrology.success_run import reliability_shown, trials_needed
from tests.metrology.witness import Witness

NEWCOMBE = "Newcombe, Stat. Med. 17 (1998) 857, examples"
SEEN = [(81, 263), (15, 148), (0, 20), (10, 10), (9, 10), (0, 30), (1, 29), (3, 100000), (499, 1000)]
RUNS = [(0.90, 0.90), (0.95, 0.90), (0.90, 0.95), (0.95, 0.95), (0.95, 0.99), (0.90, 0.99), (0.80, 0.90)]


def _limits(method: str, *, sided: str = "two") -> list[float]:
    """Of scipy, for SEEN."""
    alternative = {"two": "two-sided", "lower": "greater", "upper": "less"}[sided]
    found = [stats.binomtest(x, n, alternative=alternative).proportion_ci(0.95, method) for x, n in SEEN]
    return [side for one in found for side in (one.low, one.high)]


def _statsmodels(method: str) -> list[float]:
    from statsmodels.stats.proportion import proportion_confint

    found = [proportion_confint(x, n, 0.05, method) for x, n in SEEN]
    return [float(side) for one in found for side in one]


BINOMIAL = [
    Witness(
        "binomial.clopper_pearson",
        NEWCOMBE,
        lambda: [clopper_pearson(*one) for one in SEEN[:3]],
        [(0.2527, 0.3676), (0.0578, 0.1617), (0.0, 0.1684)],
        6e-5,
        absolute=True,
    ),
    Witness(
        "binomial.clopper_pearson",
        "scipy.stats.binomtest",
        lambda: [side for one in SEEN for side in clopper_pearson(*one)],
        lambda: _limits("exact"),
        2e-12,
    ),
    Witness(
        "binomial.clopper_pearson",
        "scipy.stats.binomtest, lower limit",
        lambda: [side for one in SEEN for side in clopper_pearson(*one, sided="lower")],
        lambda: _limits("exact", sided="lower"),
        2e-12,
    ),
    Witness(
        "binomial.clopper_pearson",
        "scipy.stats.binomtest, upper limit",
        lambda: [side for one in SEEN for side in clopper_pearson(*one, sided="upper")],
        lambda: _limits("exact", sided="upper"),
        2e-12,
    ),
    Witness(
        "binomial.clopper_pearson",
        "closed form, none or all of n",
        lambda: [clopper_pearson(10, 10).low, clopper_pearson(0, 30).high, clopper_pearson(0, 30, 0.95, "upper").high],
        [0.025 ** (1 / 10), 1 - 0.025 ** (1 / 30), 1 - 0.05 ** (1 / 30)],
        1e-14,
    ),
    Witness(
        "binomial.clopper_pearson",
        "scipy.stats, beta quantiles, rounded",
        lambda: [
            *clopper_pearson(10, 10),
            *clopper_pearson(9, 10),
            *clopper_pearson(0, 30),
            clopper_pearson(0, 30, 0.95, "upper").high,
        ],
        [0.691503, 1, 0.554984, 0.997471, 0, 0.115703, 0.095034],
        6e-7,
        absolute=True,
    ),
    Witness(
        "binomial.clopper_pearson",
        "statsmodels, proportion_confint beta",
        lambda: [side for one in SEEN for side in clopper_pearson(*one)],
        lambda: _statsmodels("beta"),
        1e-11,
        needs="statsmodels",
    ),
    Witness(
        "binomial.wilson",
        NEWCOMBE,
        lambda: [wilson(*one) for one in SEEN[:3]],
        [(0.2553, 0.3662), (0.0624, 0.1605), (0.0, 0.1611)],
        6e-5,
        absolute=True,
    ),
    Witness(
        "binomial.wilson",
        "Newcombe 1998, with continuity, from memory",
        lambda: [wilson(*one, continuity=True) for one in [*SEEN[:3], (1, 29)]],
        [(0.2535, 0.3682), (0.0598, 0.1644), (0.0, 0.2005), (0.0018, 0.1963)],
        6e-5,
        absolute=True,
    ),
    Witness(
        "binomial.wilson",
        "scipy.stats.binomtest, rounded",
        lambda: [*wilson(10, 10), *wilson(9, 10), *wilson(0, 30)],
        [0.722467, 1, 0.595850, 0.982124, 0, 0.113513],
        6e-7,
        absolute=True,
    ),
    Witness(
        "binomial.wilson",
        "scipy.stats.binomtest",
        lambda: [side for one in SEEN for side in wilson(*one)],
        lambda: _limits("wilson"),
        1e-12,
    ),
    Witness(
        "binomial.wilson",
        "scipy.stats.binomtest, with continuity",
        lambda: [side for one in SEEN for side in wilson(*one, continuity=True)],
        lambda: _limits("wilsoncc"),
        1e-12,
    ),
    Witness(
        "binomial.wilson",
        "statsmodels, proportion_confint wilson",
        lambda: [side for one in SEEN for side in wilson(*one)],
        lambda: _statsmodels("wilson"),
        1e-12,
        needs="statsmodels",
    ),
]

SUCCESS_RUN = [
    Witness(
        "success_run.trials_needed",
        "closed form, ln(1 - C) / ln R",
        lambda: [trials_needed(*one) for one in RUNS],
        [22, 29, 45, 59, 299, 230, 16],
        0.0,
    ),
    Witness(
        "success_run.trials_needed",
        "counted up: least n with R^n <= 1 - C, exact fractions",
        lambda: [trials_needed(c / 100, r / 100) for c in (50, 75, 80, 90, 95, 99) for r in (50, 80, 90, 95)],
        lambda: [
            next(n for n in range(1, 999) if Fraction(r, 100) ** n <= 1 - Fraction(c, 100))
            for c in (50, 75, 80, 90, 95, 99)
            for r in (50, 80, 90, 95)
        ],
        0.0,
    ),
    Witness(
        "success_run.trials_needed",
        "uniform prior, scipy.stats.beta",
        lambda: [trials_needed(*one, uniform_prior=True) for one in RUNS],
        lambda: [next(n for n in range(999) if stats.beta.sf(r, n + 1, 1) >= c) for c, r in RUNS],
        0.0,
    ),
    Witness(
        "success_run.trials_needed",
        "uniform prior, one run less",
        lambda: [trials_needed(*one, uniform_prior=True) for one in RUNS[:4]],
        [21, 28, 44, 58],
        0.0,
    ),
    Witness(
        "success_run.reliability_shown",
        "closed form, (1 - C)^(1/n), rounded",
        lambda: [reliability_shown(n, 0.90) for n in (3, 5, 10)],
        [0.4642, 0.6310, 0.7943],
        6e-5,
        absolute=True,
    ),
    Witness(
        "success_run.reliability_shown",
        "closed form, (1 - C)^(1/n), six digits",
        lambda: [reliability_shown(*one) for one in ((22, 0.90), (29, 0.90), (29, 0.95), (59, 0.95))],
        [0.900628, 0.923671, 0.901855, 0.950492],
        6e-7,
        absolute=True,
    ),
    Witness(
        "success_run.reliability_shown",
        "scipy.stats.binomtest, lower limit of n of n",
        lambda: [reliability_shown(n, c) for n in (1, 7, 22, 300) for c in (0.6, 0.9, 0.99)],
        lambda: [
            stats.binomtest(n, n, alternative="greater").proportion_ci(c).low
            for n in (1, 7, 22, 300)
            for c in (0.6, 0.9, 0.99)
        ],
        1e-12,
    ),
]

WITNESSES: list[Witness] = [*BINOMIAL, *SUCCESS_RUN]
