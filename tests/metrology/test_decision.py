"""Decision rules: what must hold for any reading and limits, what is refused, and the kinds as a person uses them."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.metrology.conformity import probability_of_conformity
from teardown_app.metrology.decision import ACCEPT, INCONCLUSIVE, REJECT, RULES, decide
from teardown_app.metrology.guard_band import guard_factor
from teardown_app.metrology.kinds.decision import KINDS
from tests.metrology.refusal import refuses

BETTER = (REJECT, INCONCLUSIVE, ACCEPT)
VALUE = st.floats(-20.0, 20.0)
LIMITS = st.one_of(
    st.tuples(st.floats(-10.0, 10.0), st.floats(-10.0, 10.0)).map(lambda two: (min(two), max(two))),
    st.tuples(st.none(), st.floats(-10.0, 10.0)),
    st.tuples(st.floats(-10.0, 10.0), st.none()),
)
UNCERTAINTY = st.floats(1e-4, 5.0)
RULE = st.sampled_from(RULES)
PROVING = st.sampled_from(RULES[1:])


@given(VALUE, LIMITS, UNCERTAINTY, RULE, st.floats(0.0, 1.0))
def test_moving_towards_the_middle_never_worsens_the_verdict(
    y: float, limits: tuple[float | None, float | None], big: float, rule: str, way: float
) -> None:
    """Part of the way there; with one limit the middle is far within."""
    low, high = limits
    middle = (low + high) / 2 if low is not None and high is not None else -1e3 if low is None else 1e3
    before = decide(y, low, high, big, rule).verdict
    assert BETTER.index(decide(y + way * (middle - y), low, high, big, rule).verdict) >= BETTER.index(before)


@given(VALUE, LIMITS, UNCERTAINTY)
def test_what_is_proven_is_accepted_simply_too(y: float, limits: tuple[float | None, float | None], big: float) -> None:
    """Guarded or four-way accept lies within the limits; what they reject lies beyond."""
    simple = decide(y, *limits, big).verdict
    for rule in RULES[1:]:
        assert decide(y, *limits, big, rule).verdict in (simple, INCONCLUSIVE)


@given(VALUE, LIMITS, UNCERTAINTY)
def test_what_is_accepted_conforms_as_probably_as_promised(
    y: float, limits: tuple[float | None, float | None], big: float
) -> None:
    """95 % by the guarded rule; by four-way 97.7 % against one limit, 95.4 % against two. Rejected: 5 % at most."""
    one_limit = None in limits
    for rule, least in (("guarded", 0.95), ("four-way", 0.977 if one_limit else 0.954)):
        found = decide(y, *limits, big, rule)
        assert found.conformity is not None
        assert found.verdict != ACCEPT or found.conformity >= least - 1e-6
        assert found.verdict != REJECT or found.conformity <= 0.05 + 1e-6


@given(VALUE, LIMITS, UNCERTAINTY, st.floats(1.0, 50.0), PROVING)
def test_a_greater_uncertainty_proves_nothing_new(
    y: float, limits: tuple[float | None, float | None], big: float, times: float, rule: str
) -> None:
    """Neither accept nor reject comes of measuring worse."""
    before, after = decide(y, *limits, big, rule).verdict, decide(y, *limits, big * times, rule).verdict
    assert after in (before, INCONCLUSIVE)


@given(VALUE, LIMITS, UNCERTAINTY, RULE)
def test_a_mirror_changes_sides_only(
    y: float, limits: tuple[float | None, float | None], big: float, rule: str
) -> None:
    """Signs of reading and limits turned."""
    low, high = (None if one is None else -one for one in reversed(limits))
    one, other = decide(y, *limits, big, rule), decide(-y, low, high, big, rule)
    assert (one.state, one.margin, one.guard) == (other.state, other.margin, other.guard)
    assert {one.side, other.side} in ({"upper", "lower"}, {"either"})
    assert one.conformity == pytest.approx(other.conformity, abs=1e-12)


@given(VALUE, LIMITS, UNCERTAINTY, RULE, st.sampled_from([4.0, 1024.0, 2.0**30]))
def test_another_unit_changes_no_verdict(
    y: float, limits: tuple[float | None, float | None], big: float, rule: str, by: float
) -> None:
    """Millimetres or nanometres: states, ratio and probability stay."""
    low, high = (None if one is None else one * by for one in limits)
    one, other = decide(y, *limits, big, rule), decide(y * by, low, high, big * by, rule)
    assert (one.state, one.side) == (other.state, other.side)
    assert (one.ratio, one.conformity) == (other.ratio, other.conformity)


@pytest.mark.parametrize("rule", RULES)
@pytest.mark.parametrize(("y", "low", "high"), [
    (0.1 + 0.2, None, 0.3), (0.3, 0.1 + 0.2, None), (0.3, None, 0.1 + 0.2), (1.1 * 3, 3.3, 3.3), (0.0, 0.0, None),
    (1e6 + 0.1 + 0.2, None, 1e6 + 0.3), (-0.3, -0.1 - 0.2, None),
])  # fmt: skip
def test_on_the_limit_is_within_it(rule: str, y: float, low: float | None, high: float | None) -> None:
    """Whatever the machine's digits; by the rules that want proof it is not proven."""
    found = decide(y, low, high, 0.01, rule)
    assert found.state == ("accept" if rule == "simple" else "conditional accept")


@pytest.mark.parametrize(("y", "state"), [
    (9.8, "accept"), (10 - 0.1 - 0.1, "accept"), (9.8000001, "conditional accept"), (10.0, "conditional accept"),
    (10.0000001, "conditional reject"), (10.2, "conditional reject"), (10.1 + 0.1, "conditional reject"),
    (10.2000001, "reject"),
])  # fmt: skip
def test_the_four_states_meet_at_their_edges(y: float, state: str) -> None:
    """Upper limit 10, U 0.2."""
    found = decide(y, high=10.0, uncertainty=0.2, rule="four-way")
    assert (found.state, found.side) == (state, "upper")
    assert found.verdict == (state if state in (ACCEPT, REJECT) else INCONCLUSIVE)


def test_a_zero_beside_a_great_limit_is_a_zero() -> None:
    """The noise that is let pass is that of the limit at hand, not of the other one."""
    assert decide(-1e-7, 0.0, 1e6).verdict == REJECT
    assert decide(1e-13, None, 0.0).verdict == REJECT


def test_the_ratio_is_shown_and_one_limit_has_none() -> None:
    """By the simple rule it decides nothing."""
    assert decide(5.0, 0.0, 10.0, 1.25).ratio == 4.0
    one = decide(5.0, None, 10.0, 1.25)
    assert one.ratio is None and "no ratio" in one.notes[0]
    unknown = decide(5.0, 0.0, 10.0)
    assert (unknown.verdict, unknown.ratio, unknown.conformity) == (ACCEPT, None, None)
    assert "not known" in unknown.notes[0]
    assert decide(5.0, 0.0, 10.0, 0.0) == unknown
    assert any("not proven" in note for note in decide(9.9, 0.0, 10.0, 1.25).notes)


@pytest.mark.parametrize(("rule", "big"), [("guarded", 1.03), ("four-way", 1.01)])
def test_guard_bands_that_swallow_the_tolerance_prove_nothing(rule: str, big: float) -> None:
    """A tolerance of 2 and an uncertainty that is too great for it."""
    for y in (-1.0, 0.0, 0.5):
        found = decide(y, -1.0, 1.0, big, rule)
        assert (found.verdict, found.guard, found.accept_low, found.accept_high) == (INCONCLUSIVE, None, None, None)
        assert "cannot prove conformity" in found.notes[0]
    assert decide(4.0, -1.0, 1.0, big, rule).verdict == REJECT
    assert decide(0.0, -1.0, 1.0, 1.0, rule).verdict == ACCEPT


def test_a_narrow_tolerance_asks_for_a_wider_guard_band() -> None:
    """From 1.645 to 1.960, wider where the tolerance is narrower."""
    factors = [guard_factor(t) or 0.0 for t in (4, 4.5, 5, 6, 8, 12, math.inf)]
    assert factors == sorted(factors, reverse=True)
    assert 1.644853 < factors[-1] < factors[0] < 1.96
    assert decide(0.0, -2.0, 2.0, 2.0, "guarded").guard == pytest.approx(factors[0])


REFUSED: list[tuple[Callable[[], Any], str, str]] = [
    (lambda: decide(1.0), "limit", "an upper limit, a lower limit or both"),
    (lambda: decide(1.0, 2.0, 1.0), "limit_min", "not above the upper limit"),
    (lambda: decide(math.nan, 0.0, 1.0), "value", "a number"),
    (lambda: decide(1.0, 0.0, math.inf), "limit_max", "a number"),
    (lambda: decide(1.0, 0.0, 1.0, -0.1), "uncertainty", "0 or above"),
    (lambda: decide(1.0, 0.0, 1.0, math.nan), "uncertainty", "0 or above"),
    (lambda: decide(1.0, 0.0, 1.0, None, "guarded"), "uncertainty", "uncertainty is needed"),
    (lambda: decide(1.0, 0.0, 1.0, 0.0, "guarded"), "uncertainty", "uncertainty is needed"),
    (lambda: decide(1.0, 0.0, 1.0, None, "four-way"), "uncertainty", "uncertainty is needed"),
    (lambda: decide(1.0, 0.0, 1.0, 0.0, "four-way"), "uncertainty", "uncertainty is needed"),
    (lambda: decide(1.0, 0.0, 1.0, 0.1, "lenient"), "rule", "simple, guarded, four-way"),
    (lambda: decide(1.0, 0.0, 1.0, 0.1, k=0.0), "k", "above 0"),
    (lambda: decide(1.0, 0.0, 1.0, 0.1, "guarded", probability=0.4), "probability", "0.95 for 95 %"),
    (lambda: guard_factor(-1.0), "tolerance_by_u", "0 or more"),
    (lambda: guard_factor(5.0, 1.0), "probability", "below 1"),
    (lambda: probability_of_conformity(1.0, None, 2.0, 0.0), "standard_uncertainty", "above 0"),
]  # fmt: skip


@pytest.mark.parametrize(("call", "field", "allowed"), REFUSED)
def test_a_number_that_cannot_be_right_is_refused(call: Callable[[], Any], field: str, allowed: str) -> None:
    """The field is named, and what is allowed in it."""
    refuses(call, field, allowed)


def test_the_example_of_the_kind_is_computed() -> None:
    """As the command shows it; the kind judges by itself."""
    (kind,) = (one for one in KINDS if one.name == "decision")
    found = kind.compute(**kind.example)
    assert found["accept_high"] == pytest.approx(9.835515, abs=6e-7)
    assert found["conformity"] == pytest.approx(0.955435, abs=6e-7)
    assert (found.verdict, found["state"], kind.judged) == ("accept", "accept", "")
    assert {field.name for field in kind.fields} == set(kind.example)
