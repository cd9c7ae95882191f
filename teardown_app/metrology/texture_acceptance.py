"""Whether readings of a roughness parameter keep an upper limit: maximum rule, 16 % rule, and its stop rule."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from teardown_app.metrology.fault import Floats, number, numbers

Flags = NDArray[np.bool_]

ACCEPT, REJECT, READ_MORE = "accept", "reject", "read more"
SHARE_PERCENT = 16
FIRST_SHARE_PERCENT = 70
STAGES = ((3, 0), (6, 1), (12, 2))
"""Readings, and how many of them may be over the limit; from memory: verify against your copy of the standard."""
_ROUNDING = 1e-9


class Acceptance(NamedTuple):
    """What a rule says of the readings."""

    verdict: str
    """accept, reject or read more."""
    over: int
    """Readings over the limit, of those used."""
    used: int
    """Readings the verdict rests on, from the first on."""
    share: float
    """Share over the limit of the readings used, 0 to 1."""
    more: int
    """Readings still wanted before the next decision; 0 unless read more."""


def maximum_rule(readings: Sequence[float] | Floats, limit: float) -> Acceptance:
    """No reading is over the limit. What ISO 21920-3 takes where nothing is said, and ISO 4288 where `max` is said.

    Parameters: `readings` of shape (n,), um, 0 or above, one or more; `limit` in um, above 0. A reading at the limit
    keeps it. Raises `BadInput` otherwise.

    >>> maximum_rule([0.35, 0.38, 0.43], 0.40)[:2]
    ('reject', 1)
    """
    over = _over(readings, limit)
    return _said(REJECT if over.any() else ACCEPT, over)


def sixteen_percent_rule(readings: Sequence[float] | Floats, limit: float) -> Acceptance:
    """At most 16 % of all readings are over the limit: the plain share, ISO 4288:1996 clause 5.2.

    Parameters: `readings` of shape (n,), um, 0 or above, one or more; `limit` in um, above 0. A reading at the limit
    keeps it. With fewer than 7 readings a single one over the limit is more than 16 %; `stop_rule` is meant for those.
    Raises `BadInput` otherwise.

    >>> sixteen_percent_rule([0.38] * 21 + [0.43] * 4, 0.40)[:4]
    ('accept', 4, 25, 0.16)
    """
    over = _over(readings, limit)
    return _said(ACCEPT if 100 * int(over.sum()) <= SHARE_PERCENT * len(over) else REJECT, over)


def stop_rule(readings: Sequence[float] | Floats, limit: float) -> Acceptance:
    """The 16 % rule with few readings, in the order they were taken; ISO 4288:1996 clause 5.2, from memory.

    Accepted, and no more need be read, when the first is at most 70 % of the limit; when none of the first 3 is over;
    when at most 1 of the first 6 is; when at most 2 of the first 12 are. Rejected as soon as a third is over, for
    then none of these can be met. Readings beyond those that decide are not looked at.

    Parameters: `readings` of shape (n,), um, 0 or above, one or more, places where the largest values are to be
    expected; `limit` in um, above 0. Raises `BadInput` otherwise.

    >>> stop_rule([0.27], 0.40).verdict, stop_rule([0.35, 0.38, 0.39], 0.40).verdict
    ('accept', 'accept')
    >>> stop_rule([0.35, 0.43, 0.38], 0.40)
    Acceptance(verdict='read more', over=1, used=3, share=0.3333333333333333, more=3)
    """
    values, over = numbers("readings", readings, unit="um"), _over(readings, limit)
    if values[0] <= FIRST_SHARE_PERCENT / 100 * limit * (1 + _ROUNDING):
        return _said(ACCEPT, over[:1])
    for count, may in STAGES:
        seen = over[:count]
        if seen.sum() <= may:
            missing = count - len(seen)
            return _said(READ_MORE if missing else ACCEPT, seen, missing)
    one_too_many = int(np.flatnonzero(over)[STAGES[-1][1]])
    return _said(REJECT, over[: one_too_many + 1])


def _over(readings: Sequence[float] | Floats, limit: float) -> Flags:
    """Which readings are over; rounding of a converted unit is not."""
    values = numbers("readings", readings, unit="um")
    for k, one in enumerate(values):
        number(f"readings, no. {k + 1}", float(one), "0 um or above", low=0)
    over: Flags = values > number("limit", limit, "above 0 um", above=0) * (1 + _ROUNDING)
    return over


def _said(verdict: str, over: Flags, more: int = 0) -> Acceptance:
    count = int(over.sum())
    return Acceptance(verdict, count, len(over), count / len(over), more)
