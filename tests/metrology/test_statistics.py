"""Limits of counts: what must hold for any counts, what is refused, and the kinds as a person uses them."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats

from teardown_app.metrology.binomial import clopper_pearson, wilson
from teardown_app.metrology.exact_test import two_sided_p
from teardown_app.metrology.kinds.statistics import KINDS
from teardown_app.metrology.poisson import compare, garwood
from teardown_app.metrology.success_run import reliability_shown, trials_needed
from tests.metrology.refusal import refuses

KIND = {kind.name: kind for kind in KINDS}
CONFIDENCE = st.floats(0.5, 0.9999)
SHARE = st.floats(0.01, 0.999)
TRIALS = st.integers(1, 5000).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
EXPOSURE = st.floats(0.1, 50.0)


@given(TRIALS, CONFIDENCE)
def test_exact_limits_of_a_share_are_those_of_scipy(seen: tuple[int, int], confidence: float) -> None:
    """Any counts, any confidence."""
    theirs = stats.binomtest(*seen).proportion_ci(confidence, "exact")
    assert clopper_pearson(*seen, confidence) == pytest.approx((theirs.low, theirs.high), rel=1e-9, abs=1e-12)


@given(TRIALS, CONFIDENCE, st.booleans())
def test_score_limits_stay_within_what_is_possible(seen: tuple[int, int], confidence: float, moved: bool) -> None:
    """0 <= low <= share <= high <= 1, and the corrected limits hold the plain ones within."""
    low, high = wilson(*seen, confidence, continuity=moved)
    plain = wilson(*seen, confidence)
    assert 0.0 <= low <= seen[0] / seen[1] + 1e-15 and seen[0] / seen[1] - 1e-15 <= high <= 1.0
    assert low <= plain.low + 1e-15 and plain.high <= high + 1e-15


@given(TRIALS, CONFIDENCE, st.sampled_from([clopper_pearson, wilson]))
def test_passes_and_failures_mirror_each_other(
    seen: tuple[int, int], confidence: float, limits: Callable[..., tuple[float, float]]
) -> None:
    """Limits of the failures are those of the passes, seen from the other end."""
    passed, failed = limits(*seen, confidence), limits(seen[1] - seen[0], seen[1], confidence)
    assert passed == pytest.approx((1 - failed[1], 1 - failed[0]), abs=1e-13)


@given(TRIALS, CONFIDENCE, CONFIDENCE)
def test_more_confidence_never_narrows_the_limits(seen: tuple[int, int], one: float, other: float) -> None:
    """Of shares and of rates."""
    assume(abs(one - other) > 1e-9)
    less, more = sorted((one, other))
    pairs = [(clopper_pearson(*seen, c), garwood(seen[0], 2.0, c)) for c in (less, more)]
    for narrow, wide in zip(*pairs, strict=True):
        assert wide.low <= narrow.low and narrow.high <= wide.high


@pytest.mark.parametrize("n", [5, 20, 60])
@pytest.mark.parametrize("confidence", [0.8, 0.95])
def test_exact_limits_cover_the_truth_at_least_as_often_as_promised(n: int, confidence: float) -> None:
    """Weighed over every outcome, at many true shares."""
    limits = [clopper_pearson(x, n, confidence) for x in range(n + 1)]
    for truth in [i / 97 for i in range(1, 97)]:
        covered = sum(stats.binom.pmf(x, n, truth) for x, (low, high) in enumerate(limits) if low <= truth <= high)
        assert covered >= confidence - 1e-12


@given(CONFIDENCE, SHARE)
def test_a_success_run_is_the_shortest_that_proves(confidence: float, reliability: float) -> None:
    """n passes show the reliability, one fewer do not."""
    n = trials_needed(confidence, reliability)
    assert reliability_shown(n, confidence) >= reliability - 1e-12
    assert n == 1 or reliability_shown(n - 1, confidence) < reliability
    assert reliability_shown(n, confidence) == pytest.approx(clopper_pearson(n, n, confidence, "lower").low, rel=1e-12)


@pytest.mark.parametrize(("confidence", "reliability", "n"), [(0.75, 0.5, 2), (0.19, 0.9, 2), (0.1, 0.9, 1)])
def test_a_run_that_just_proves_is_no_longer(confidence: float, reliability: float, n: int) -> None:
    """1 - C = R^n exactly, whatever the digits of the machine say."""
    assert trials_needed(confidence, reliability) == n


@given(st.integers(0, 100_000), EXPOSURE, CONFIDENCE)
def test_exact_limits_of_a_rate_are_those_of_chi_square(k: int, exposure: float, confidence: float) -> None:
    """Any count, any confidence."""
    risk = (1 - confidence) / 2
    low = stats.chi2.ppf(risk, 2 * k) / 2 if k else 0.0
    assert garwood(k, exposure, confidence) == pytest.approx(
        (low / exposure, stats.chi2.isf(risk, 2 * k + 2) / 2 / exposure), rel=1e-9
    )


@given(TRIALS, st.floats(0.001, 0.999))
def test_the_exact_test_is_that_of_scipy(seen: tuple[int, int], share: float) -> None:
    """Any share supposed; probabilities that matter."""
    assert two_sided_p(*seen, share) == pytest.approx(stats.binomtest(*seen, share).pvalue, rel=1e-8, abs=1e-200)


@given(st.integers(0, 300), EXPOSURE, st.integers(0, 300), EXPOSURE)
def test_comparing_the_other_way_round_says_the_same(a: int, t: float, b: int, s: float) -> None:
    """The same p, and limits that are one by the other."""
    assume(a and b)
    there, back = compare(a, t, b, s), compare(b, s, a, t)
    assert there.p == pytest.approx(back.p, rel=1e-9)
    assert (there.low, there.high) == pytest.approx((1 / back.high, 1 / back.low), rel=1e-9)
    assert there.ratio is not None and there.low <= there.ratio <= there.high


def test_the_conditional_test_is_the_careful_one() -> None:
    """The E-test of scipy gives a smaller p."""
    for seen, less_careful in [((12, 1, 3, 1), 0.019703), ((45, 1, 28, 1), 0.046794), ((0, 100, 3, 100), 0.088379)]:
        assert stats.poisson_means_test(*seen).pvalue == pytest.approx(less_careful, abs=6e-7)
        assert compare(*seen).p > less_careful


def test_nothing_counted_leaves_the_ratio_open() -> None:
    """Neither crashes nor pretends."""
    assert compare(0, 1, 0, 1) == (None, 0.0, math.inf, 1.0)
    assert compare(3, 1, 0, 1)[::2] == (math.inf, math.inf)
    assert reliability_shown(0, 0.9) == 0.0
    assert clopper_pearson(0, 1)[0] == 0.0 and clopper_pearson(1, 1)[1] == 1.0


def test_great_counts_are_as_exact_as_small_ones() -> None:
    """Against the normal limits, which are right there to the square root of n."""
    n = 10_000_000
    low, high = clopper_pearson(n // 2, n)
    assert (low, high) == pytest.approx((0.5 - 0.98 / math.sqrt(n), 0.5 + 0.98 / math.sqrt(n)), abs=2e-7)
    assert garwood(n).high == pytest.approx(n + 1.96 * math.sqrt(n), abs=3)


REFUSED: list[tuple[Callable[[], Any], str, str]] = [
    (lambda: clopper_pearson(5, 4), "passes", "from 0 to the 4 trials"),
    (lambda: clopper_pearson(-1, 4), "passes", "from 0 to the 4 trials"),
    (lambda: clopper_pearson(1.5, 4), "passes", "a whole number"),
    (lambda: clopper_pearson(0, 0), "trials", "a whole number from 1"),
    (lambda: clopper_pearson(0, 10**8), "trials", "to 10000000"),
    (lambda: wilson(1, 2, 1.0), "confidence", "below 1"),
    (lambda: wilson(1, 2, 95), "confidence", "0.95 for 95 %"),
    (lambda: wilson(1, 2, sided="left"), "sided", "two or lower or upper"),
    (lambda: trials_needed(0.9, 1.0), "reliability", "below 1"),
    (lambda: trials_needed(math.nan, 0.9), "confidence", "above 0"),
    (lambda: reliability_shown(2.5, 0.9), "passes", "a whole number"),
    (lambda: two_sided_p(1, 2, 0.0), "share", "above 0"),
    (lambda: garwood(-1), "count", "a whole number from 0"),
    (lambda: garwood(1, 0.0), "exposure", "above 0"),
    (lambda: compare(1, 1, 10**7, 1), "other_count", "to 5000000"),
    (lambda: compare(1, 1, 1, math.inf), "other_exposure", "above 0"),
    (lambda: compare(0, 1, 0, 1, 2.0), "confidence", "below 1"),
]


@pytest.mark.parametrize(("call", "field", "allowed"), REFUSED)
def test_a_number_that_cannot_be_right_is_refused(call: Callable[[], Any], field: str, allowed: str) -> None:
    """The field is named, and what is allowed in it."""
    refuses(call, field, allowed)


@pytest.mark.parametrize(("name", "value", "is_"), [
    ("success-run", "reliability_shown", 0.900628),
    ("success-run", "trials_needed", 22),
    ("success-run", "trials_with_uniform_prior", 21),
    ("proportion", "lower_limit", 0.605837),
    ("proportion", "wilson_low", 0.595850),
    ("particle-counts", "rate", 12.0),
    ("particle-counts", "p", 0.03515625),
    ("particle-counts", "ratio_low", 1.079473),
])  # fmt: skip
def test_the_example_of_each_kind_is_computed(name: str, value: str, is_: float) -> None:
    """As the command shows it, and what is judged is a number of it."""
    kind = KIND[name]
    found = kind.compute(**kind.example)
    assert found[value] == pytest.approx(is_, abs=6e-7)
    assert isinstance(found[kind.judged], float)
    assert {field.name for field in kind.fields} == set(kind.example)


def test_a_run_that_is_too_short_says_how_many_are_missing() -> None:
    """Five of 22."""
    found = KIND["success-run"].compute(passes=17, confidence=0.9, reliability=0.9)
    assert "5 more passes" in " ".join(found.notes)


def test_particles_without_an_earlier_count_and_with_none_in_it() -> None:
    """No comparison without one; no upper limit of the ratio where nothing was counted."""
    common = {"exposure": 1.0, "exposure_before": 1.0, "confidence": 0.95}
    alone = KIND["particle-counts"].compute(count=0, count_before=None, **common)
    assert alone["upper_limit"] == pytest.approx(2.995732, abs=6e-7)
    assert "p" not in [value.name for value in alone.values]
    clean = KIND["particle-counts"].compute(count=3, count_before=0, **common)
    assert clean["ratio"] is None and clean["ratio_high"] is None and clean["differs"] == "no"
    assert "no upper limit" in " ".join(clean.notes)
