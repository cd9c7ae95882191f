"""Kinds of measurement that count: runs without a failure, passes out of trials, particles."""

from __future__ import annotations

import math

from teardown_app.metrology.binomial import clopper_pearson, wilson
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import Field, Kind, Result, Value
from teardown_app.metrology.poisson import compare, garwood
from teardown_app.metrology.success_run import reliability_shown, trials_needed

_COUNT = "a whole number, 0 or above"
_SHARE = "above 0 and below 1, such as 0.95 for 95 %"


def _success_run(passes: float, confidence: float, reliability: float | None) -> Result:
    shown = reliability_shown(passes, confidence)
    needed = None if reliability is None else trials_needed(confidence, reliability)
    prior = None if reliability is None else trials_needed(confidence, reliability, uniform_prior=True)
    notes = ["It holds for like runs of which none failed; where one did, take the kind proportion."]
    if needed is not None and passes < needed:
        notes.append(f"{needed - int(passes)} more passes would show the reliability that is wanted.")
    return Result(
        (
            Value("reliability_shown", shown, says="least reliability shown at this confidence"),
            Value("trials_needed", needed, says="passes in a row that show the reliability wanted"),
            Value("trials_with_uniform_prior", prior, says="the same, all reliabilities held equally likely before"),
        ),
        tuple(notes),
    )


def _proportion(passes: float, trials: float, confidence: float) -> Result:
    lower = clopper_pearson(passes, trials, confidence, "lower").low
    exact = clopper_pearson(passes, trials, confidence)
    score = wilson(passes, trials, confidence)
    return Result(
        (
            Value("lower_limit", lower, says="one-sided exact limit: the share is at least this"),
            Value("share", passes / trials, says="passes by trials"),
            Value("low", exact.low, says="two-sided exact limits (Clopper-Pearson)"),
            Value("high", exact.high, says="two-sided exact limits (Clopper-Pearson)"),
            Value("wilson_low", score.low, says="two-sided score limits (Wilson)"),
            Value("wilson_high", score.high, says="two-sided score limits (Wilson)"),
        ),
        ("The lower limit is what the trials prove; the share seen proves nothing by itself.",),
    )


def _particle_counts(
    count: float, exposure: float, count_before: float | None, exposure_before: float, confidence: float
) -> Result:
    both = garwood(count, exposure, confidence)
    upper = garwood(count, exposure, confidence, "upper").high
    values = [
        Value("rate", count / exposure, says="counted per unit of exposure"),
        Value("low", both.low, says="two-sided exact limits of the rate (Garwood)"),
        Value("high", both.high, says="two-sided exact limits of the rate (Garwood)"),
        Value("upper_limit", upper, says="one-sided exact limit: the rate is at most this"),
    ]
    if count_before is None:
        return Result(tuple(values), (_SEEN, "There is no earlier count to compare with."))
    try:
        seen = compare(count, exposure, count_before, exposure_before, confidence)
    except BadInput as wrong:
        raise BadInput(_BEFORE.get(wrong.field, wrong.field), wrong.value, wrong.allowed) from None
    poisson = "The test holds both counts for Poisson counts; clusters of particles make it too sure of a difference."
    notes = [_SEEN, poisson]
    if math.isinf(seen.high):
        notes.append("Nothing was counted before, so the ratio has no upper limit.")
    values += [
        Value("rate_before", count_before / exposure_before, says="counted before, per unit of exposure"),
        Value("ratio", _finite(seen.ratio), says="rate by rate before"),
        Value("ratio_low", seen.low, says="two-sided exact limits of the ratio"),
        Value("ratio_high", _finite(seen.high), says="two-sided exact limits of the ratio; empty: none"),
        Value("p", seen.p, says="chance of a difference like this with equal rates"),
        Value("differs", "yes" if seen.p < 1.0 - confidence else "no", says="p is below 1 - confidence"),
    ]
    return Result(tuple(values), tuple(notes))


_SEEN = "The rate is what was seen, not what is proven: with few counts judge by the upper limit."
_BEFORE = {"other_count": "count_before", "other_exposure": "exposure_before"}
"""Fields by the names that the comparison has for them."""


def _finite(value: float | None) -> float | None:
    return None if value is None or math.isinf(value) else value


KINDS: tuple[Kind, ...] = (
    Kind(
        name="success-run",
        says="reliability shown by passes without a failure, and how many are needed",
        standard="binomial distribution, zero failures: R = (1 - C)^(1/n)",
        fields=(
            Field("passes", "runs passed in a row, none failed", allowed=_COUNT, default=0),
            Field("confidence", "confidence C", allowed=_SHARE, default=0.90),
            Field("reliability", "reliability R that is wanted", allowed=_SHARE, optional=True),
        ),
        compute=_success_run,
        example={"passes": 22, "confidence": 0.90, "reliability": 0.90},
        judged="reliability_shown",
    ),
    Kind(
        name="proportion",
        says="share of passes with its confidence limits",
        standard="Clopper and Pearson, Biometrika 26 (1934); Wilson (1927)",
        fields=(
            Field("passes", "trials passed", allowed="a whole number from 0 to the trials"),
            Field("trials", "trials made", allowed="a whole number, 1 or above"),
            Field("confidence", "confidence of the limits", allowed=_SHARE, default=0.95),
        ),
        compute=_proportion,
        example={"passes": 9, "trials": 10, "confidence": 0.95},
        judged="lower_limit",
    ),
    Kind(
        name="particle-counts",
        says="particles per pass, and against an earlier count whether they have changed",
        standard="Garwood, Biometrika 28 (1936); Przyborowski and Wilenski, Biometrika 31 (1940)",
        fields=(
            Field("count", "particles counted", allowed=_COUNT),
            Field("exposure", "passes, wafers or hours they were counted in", allowed="above 0", default=1.0),
            Field("count_before", "particles counted before", allowed=_COUNT, optional=True),
            Field("exposure_before", "exposure of the count before, alike", allowed="above 0", default=1.0),
            Field("confidence", "confidence of the limits", allowed=_SHARE, default=0.95),
        ),
        compute=_particle_counts,
        example={"count": 12, "exposure": 1.0, "count_before": 3, "exposure_before": 1.0, "confidence": 0.95},
        judged="rate",
    ),
)
