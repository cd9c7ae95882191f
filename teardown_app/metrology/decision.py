"""One reading held against its limits: accepted, rejected or undecided, by an agreed decision rule.

Every check of the app judges with `decide`. Numbers that differ by less than 1e-12 of the larger one count as
equal, so that a reading of 0.3 meets a limit that was reckoned as 0.1 + 0.2.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from teardown_app.metrology.conformity import _read, probability_of_conformity
from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.guard_band import guard_factor

SIMPLE, GUARDED, FOUR_WAY = "simple", "guarded", "four-way"
RULES = (SIMPLE, GUARDED, FOUR_WAY)
ACCEPT, REJECT, INCONCLUSIVE = "accept", "reject", "inconclusive"
CONDITIONAL_ACCEPT, CONDITIONAL_REJECT = "conditional accept", "conditional reject"
STATES = (ACCEPT, CONDITIONAL_ACCEPT, CONDITIONAL_REJECT, REJECT)
"""Conformity proven; conform, not proven; non-conform, not proven; non-conformity proven."""

_NOISE = 1e-12


class Decision(NamedTuple):
    """What is decided, and how the reading lies."""

    verdict: str
    """accept, reject or inconclusive."""
    state: str
    """One of STATES. By the simple rule only accept and reject: it says nothing of proof."""
    side: str
    """upper, lower or either: the limit that lies nearest; the one that a rejected reading is beyond."""
    accept_low: float | None
    """Lowest reading that is accepted (unit of the value); None where none bounds it, or nothing is accepted."""
    accept_high: float | None
    """Highest reading that is accepted (unit of the value); None as above."""
    guard: float | None
    """Guard band w (unit of the value), 0 by the simple rule; None where the bands leave nothing to accept."""
    conformity: float | None
    """Probability of conformity p_c (no unit); None where the uncertainty is not known."""
    ratio: float | None
    """Test uncertainty ratio (T_U - T_L) / (2 U) (no unit); None for one limit, that has no tolerance, or without U."""
    margin: float
    """From the reading to the nearest limit (unit of the value); below 0 beyond it."""
    margin_by_uncertainty: float | None
    """margin / U (no unit); None where the uncertainty is not known."""
    notes: tuple[str, ...]
    """What a person should know, as sentences."""


class _Bands(NamedTuple):
    """How far within a limit a reading is accepted (None: nowhere), and how far beyond it is not yet rejected."""

    within: float | None
    beyond: float


def decide(
    value: float,
    low: float | None = None,
    high: float | None = None,
    uncertainty: float | None = None,
    rule: str = SIMPLE,
    *,
    k: float = 2.0,
    probability: float = 0.95,
) -> Decision:
    """A reading against a lower limit, an upper limit or both.

    simple: on the limit or within accepts, else rejects. JCGM 106, ILAC-G8 (simple acceptance); the uncertainty
    is shown and does not decide.
    guarded: ISO 14253-1. Accepts w or more within the limits, w = g u with u = U / k and g of
    `guard_band.guard_factor`, so that a reading accepted conforms with 95 % or more. Rejects where it lies
    more than 1.644854 u beyond a limit, so that it does not conform with 95 % or more. Inconclusive between.
    four-way: ILAC-G8. w = U. accept: w or more within; conditional accept: within; conditional reject: up to w
    beyond; reject: farther. Both conditional states are inconclusive.

    value, low <= high (at least one) and expanded uncertainty U in one unit; U 0 or above, None where not known;
    k above 0; probability 0.5 to below 1 (guarded rule only). `BadInput` else, and where guarded or four-way
    lack an uncertainty above 0.

    >>> decide(9.83, high=10.0, uncertainty=0.2, rule="guarded").verdict
    'accept'
    >>> decide(9.83, high=10.0, uncertainty=0.2, rule="four-way").state
    'conditional accept'
    """  # fmt: skip
    y, low, high = _read(value, low, high)
    spread = _expanded(uncertainty, rule)
    u = spread / number("k", k, "above 0", above=0)
    bands = _bands(rule, spread, u, low, high, probability)
    state = _state(y, low, high, bands)
    margin, side = _nearest(y, low, high)
    guard = bands.within
    ratio = (high - low) / (2.0 * spread) if spread and low is not None and high is not None else None
    by_uncertainty = margin / spread if spread else None
    return Decision(
        verdict=state if state in (ACCEPT, REJECT) else INCONCLUSIVE,
        state=state,
        side=side,
        accept_low=None if guard is None or low is None else low + guard,
        accept_high=None if guard is None or high is None else high - guard,
        guard=guard,
        conformity=probability_of_conformity(y, low, high, u) if u else None,
        ratio=ratio,
        margin=margin,
        margin_by_uncertainty=by_uncertainty,
        notes=tuple(_notes(rule, state, guard, ratio, by_uncertainty)),
    )


def _expanded(uncertainty: float | None, rule: str) -> float:
    """The expanded uncertainty, 0 where it is not known and the rule can do without."""
    if rule not in RULES:
        raise BadInput("rule", rule, ", ".join(RULES))
    allowed = "0 or above" if rule == SIMPLE else f"above 0; uncertainty is needed by the {rule} rule"
    if uncertainty is None and rule != SIMPLE:
        raise BadInput("uncertainty", "not known", allowed)
    spread = number("uncertainty", uncertainty or 0.0, allowed, low=0)
    if rule != SIMPLE and spread == 0.0:
        raise BadInput("uncertainty", spread, allowed)
    return spread


def _bands(rule: str, spread: float, u: float, low: float | None, high: float | None, probability: float) -> _Bands:
    if rule == SIMPLE:
        return _Bands(0.0, 0.0)
    tolerance = math.inf if low is None or high is None else high - low
    if rule == FOUR_WAY:
        fits = low is None or high is None or _at_most(low + spread, high - spread, low, high, spread)
        return _Bands(spread if fits else None, spread)
    factor = guard_factor(tolerance / u, probability)
    return _Bands(None if factor is None else factor * u, u * (guard_factor(math.inf, probability) or 0.0))


def _state(y: float, low: float | None, high: float | None, bands: _Bands) -> str:
    if _within(y, low, high, 0.0):
        proven = bands.within is not None and _within(y, low, high, bands.within)
        return ACCEPT if proven else CONDITIONAL_ACCEPT
    return CONDITIONAL_REJECT if _within(y, low, high, -bands.beyond) and bands.beyond else REJECT


def _within(y: float, low: float | None, high: float | None, by: float) -> bool:
    """Within both limits, drawn in by this much."""
    above = low is None or _at_most(low + by, y, low, by)
    return above and (high is None or _at_most(y, high - by, high, by))


def _at_most(one: float, other: float, *of: float) -> bool:
    """one <= other, but for the noise of the numbers that they were reckoned from."""
    return one <= other + _NOISE * max(map(abs, (one, other, *of)))


def _nearest(y: float, low: float | None, high: float | None) -> tuple[float, str]:
    to_low = math.inf if low is None else y - low
    to_high = math.inf if high is None else high - y
    if to_low == to_high:
        return to_low, "either"
    return (to_low, "lower") if to_low < to_high else (to_high, "upper")


def _notes(rule: str, state: str, guard: float | None, ratio: float | None, margin: float | None) -> Iterator[str]:
    if margin is None:
        yield "The uncertainty is not known: nothing can be said of its ratio to the tolerance, or of conformity."
        return
    if guard is None:
        yield ("The guard bands leave nothing of the tolerance: this instrument cannot prove conformity here. "
               "Measure with a smaller uncertainty.")  # fmt: skip
    if ratio is None:
        yield "One limit has no tolerance, so there is no ratio; the margin by uncertainty says how far away it lies."
    if rule == SIMPLE and abs(margin) < 1.0:
        yield f"The reading lies closer to the limit than its uncertainty: the {state} is not proven."
