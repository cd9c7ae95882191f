"""Kinds that judge a reading, and those that say how far it can be trusted."""

from __future__ import annotations

import math
from collections.abc import Sequence

from teardown_app.metrology.coverage import coverage_factor, effective_degrees
from teardown_app.metrology.decision import RULES, SIMPLE, decide
from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.kind import CHOICE, NUMBERS, Field, Kind, Result, Value
from teardown_app.metrology.uncertainty import (
    combined,
    expanded,
    from_limits,
    from_resolution,
    of_instrument,
    repeated_readings,
    standard,
)

EXPANDED, LIMITS = "expanded", "limits"
_FEW = 1.05
"""How much larger than k Student's factor may be before it is said."""


def _decision(
    value: float, limit_max: float | None, limit_min: float | None, uncertainty: float | None, k: float, rule: str
) -> Result:
    seen = decide(value, low=limit_min, high=limit_max, uncertainty=uncertainty, rule=rule, k=k)
    return Result(
        (
            Value("state", seen.state, says="accept and reject are proven, but by the simple rule"),
            Value("side", seen.side, says="the limit that lies nearest, or is passed"),
            Value("accept_low", seen.accept_low, says="lowest value accepted"),
            Value("accept_high", seen.accept_high, says="highest value accepted"),
            Value("guard_band", seen.guard, says="how far the limits are drawn in"),
            Value("conformity", seen.conformity, says="probability of conformity (JCGM 106)"),
            Value("ratio", seen.ratio, says="tolerance by twice the expanded uncertainty (TUR)"),
            Value("margin", seen.margin, says="from the value to the nearest limit; below 0 beyond it"),
            Value("margin_by_uncertainty", seen.margin_by_uncertainty, says="the margin in expanded uncertainties"),
        ),
        seen.notes,
        seen.verdict,
    )


def _repeated(readings: Sequence[float]) -> Result:
    seen = repeated_readings(readings)
    k = coverage_factor(seen.n - 1)
    notes = ["All readings are equal: their spread is below the resolution, which then rules the uncertainty."]
    if seen.s > 0.0:
        notes = [f"The mean rests on {seen.n} readings: k = {k:.2f} covers 95.45 %, not 2."] * (k > 2.0 * _FEW)
    return Result(
        (
            Value("mean", seen.mean),
            Value("s", seen.s, says="standard deviation of one reading"),
            Value("u", seen.u, says="standard uncertainty of the mean (type A)"),
            Value("k_95", k, says="coverage factor for 95.45 % (Student's t)"),
            Value("expanded", expanded(seen.u, k), says="expanded uncertainty of the mean, k_95"),
            Value("readings", float(seen.n), says="how many"),
        ),
        tuple(notes),
    )


def _budget(readings: Sequence[float] | None, reading: float | None, resolution: float, instrument: float,
            instrument_share: float, instrument_says: str, instrument_k: float, others: Sequence[float] | None,
            k: float) -> Result:  # fmt: skip
    repeated = None if readings is None else repeated_readings(readings)
    value = repeated.mean if repeated and reading is None else reading
    if value is None and instrument_share:
        raise BadInput("reading", "missing", "a number, where part of the uncertainty is a share of the reading")
    number("instrument", instrument, "0 or above", low=0)
    number("instrument_share", instrument_share, "0 or above; 0.001 for 0.1 %", low=0)
    number("instrument_k", instrument_k, "above 0", above=0)
    for n, other in enumerate(others or (), 1):
        number(f"others, no. {n}", other, "0 or above", low=0)
    stated = of_instrument(value or 0.0, instrument, instrument_share)
    parts = {
        "u_readings": repeated.u if repeated else 0.0,
        "u_resolution": from_resolution(resolution),
        "u_instrument": _of(stated, instrument_says, instrument_k),
        "u_others": combined(others) if others is not None and len(others) else 0.0,
    }
    u = combined(list(parts.values()))
    if u == 0.0:
        raise BadInput("budget", "without any part", "readings that differ, a resolution, an instrument or others")
    degrees = effective_degrees(list(parts.values()), [repeated.n - 1 if repeated else math.inf, *[math.inf] * 3])
    k_95 = coverage_factor(degrees)
    few = f"With {degrees:.3g} effective degrees of freedom k = {k_95:.2f} covers 95.45 %, not k = {k:g}."
    return Result(
        (
            Value("expanded", expanded(u, k), says="expanded uncertainty U = k u"),
            Value("combined", u, says="combined standard uncertainty u"),
            *(Value(name, part, says="its part, as a standard uncertainty") for name, part in parts.items()),
            Value("largest", max(parts, key=lambda name: parts[name]), says="the part to make smaller first"),
            Value("reading", value, says="the reading, or the mean of the readings"),
            Value("effective_degrees", None if math.isinf(degrees) else degrees, says="empty: without end"),
            Value("k_95", k_95, says="coverage factor for 95.45 % (Student's t)"),
        ),
        (few,) * (k_95 > k * _FEW),
    )


def _of(stated: float, says: str, k: float) -> float:
    if says not in (EXPANDED, LIMITS):
        raise BadInput("instrument_says", says, f"{EXPANDED} or {LIMITS}")
    return standard(stated, k) if says == EXPANDED else from_limits(stated)


_K = Field("k", "coverage factor of the expanded uncertainty", allowed="above 0", default=2.0)

KINDS: tuple[Kind, ...] = (
    Kind(
        name="decision",
        says="one value against its limits by a decision rule",
        standard="JCGM 106; ISO 14253-1 (guarded); ILAC-G8 (four-way)",
        fields=(
            Field("value", "what was measured"),
            Field("limit_max", "upper limit, in the unit of the value", optional=True),
            Field("limit_min", "lower limit, in the unit of the value; one limit is needed", optional=True),
            Field(
                "uncertainty", "expanded uncertainty; guarded and four-way need it", allowed="0 or above", optional=True
            ),  # fmt: skip
            _K,
            Field("rule", "decision rule", form=CHOICE, choices=RULES, default=SIMPLE),
        ),
        compute=_decision,
        example={"value": 9.83, "limit_max": 10.0, "limit_min": None, "uncertainty": 0.2, "k": 2.0, "rule": "guarded"},
    ),
    Kind(
        name="repeated-readings",
        says="mean of repeated readings and its uncertainty",
        standard="JCGM 100:2008, 4.2",
        fields=(Field("readings", "readings of one thing, all in one unit", form=NUMBERS, allowed="2 or more"),),
        compute=_repeated,
        example={"readings": [10.01, 10.03, 10.02, 10.02, 10.04]},
        judged="mean",
    ),
    Kind(
        name="uncertainty-budget",
        says="uncertainty of a reading, put together from its parts",
        standard="JCGM 100:2008, 4, 5.1.2, 6.2.1 and G.4.1",
        fields=(
            Field(
                "readings",
                "repeated readings; their mean is the result",
                form=NUMBERS,
                allowed="2 or more",
                optional=True,
            ),  # fmt: skip
            Field("reading", "the single reading, where there are no readings", optional=True),
            Field("resolution", "smallest step shown, in the unit of the reading", allowed="0 or above", default=0.0),
            Field("instrument", "uncertainty of the instrument, fixed part", allowed="0 or above", default=0.0),
            Field(
                "instrument_share",
                "part of it that grows with the reading: 0.001 for 0.1 %",
                allowed="0 or above",
                default=0.0,
            ),  # fmt: skip
            Field(
                "instrument_says",
                "what its paper gives: an expanded uncertainty, or limits of error",
                form=CHOICE,
                choices=(EXPANDED, LIMITS),
                default=EXPANDED,
            ),  # fmt: skip
            Field(
                "instrument_k",
                "coverage factor of the instrument's expanded uncertainty",
                allowed="above 0",
                default=2.0,
            ),  # fmt: skip
            Field(
                "others",
                "further standard uncertainties, in the unit of the reading",
                form=NUMBERS,
                allowed="each 0 or above",
                optional=True,
            ),  # fmt: skip
            _K._replace(says="coverage factor of the result"),
        ),
        compute=_budget,
        example={
            "readings": [10.01, 10.03, 10.02, 10.02, 10.04],
            "reading": None,
            "resolution": 0.01,
            "instrument": 0.02,
            "instrument_share": 0.001,
            "instrument_says": "expanded",
            "instrument_k": 2.0,
            "others": [0.005],
            "k": 2.0,
        },  # fmt: skip
    ),
)
