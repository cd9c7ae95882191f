"""A reading drawn to scale against its limits: what is accepted, the guard band, the reading with its uncertainty."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import NamedTuple

from teardown_app.domain.measure.digits import told_apart
from teardown_app.figures.figure import BAD, DATA, GOOD, GUARD, LIMIT, OTHER, Band, Figure, Line, Mark, Words

ROOM = 0.18
"""Of the width, left free at either side."""

BAR_LOW, BAR_HIGH, MIDDLE, TICK = 0.36, 0.66, 0.51, 0.06


class Beside(NamedTuple):
    """Another value that is shown beside: as found, the last one, the pair's."""

    says: str
    value: float


def margin(
    value: float | None,
    *,
    low: float | None,
    high: float | None,
    unit: str,
    guard: float = 0.0,
    uncertainty: float = 0.0,
    verdict: str = "",
    beside: Sequence[Beside] = (),
) -> Figure | None:
    """A scale from side to side; None where neither limit is known.

    All numbers in `unit`; `guard` is the width w of the guard band, `uncertainty` expanded.

    >>> figure = margin(0.31, low=None, high=0.4, unit="um", verdict="accept")
    >>> figure.marks[0].x, figure.marks[0].sign
    (0.31, 'accept')
    """
    ends = [end for end in (low, high) if end is not None]
    if not ends:
        return None
    left, right = _span(ends, value, uncertainty, [one.value for one in beside])
    lines = [Line(((end, BAR_LOW - 0.06), (end, BAR_HIGH + 0.06)), LIMIT) for end in ends]
    words = [Words(end, BAR_LOW - 0.15, f"{end:.6g} {unit}".strip()) for end in ends]
    marks = []
    if value is not None:
        if uncertainty:
            lines.append(Line(((value - uncertainty, MIDDLE), (value + uncertainty, MIDDLE)), DATA))
            lines += [
                Line(((end, MIDDLE - TICK), (end, MIDDLE + TICK)), DATA)
                for end in (value - uncertainty, value + uncertainty)
            ]
        marks.append(Mark(value, MIDDLE, verdict or "to do"))
        words.append(Words(value, BAR_HIGH + 0.22, f"{_told(value, ends)} {unit}".strip(), large=True))
    for n, one in enumerate(beside):
        lines.append(Line(((one.value, BAR_LOW - 0.1), (one.value, BAR_HIGH)), OTHER, dashed=True))
        words.append(Words(one.value, 0.06, f"{one.says} {one.value:.6g}", ("centre", "left", "right")[n % 3]))
    bands = tuple(_bands(left, right, low, high, guard))
    return Figure(left, right, 0.0, 1.0, tuple(lines), bands, tuple(marks), tuple(words), says=_says(value, ends, unit))


def _told(value: float, ends: Sequence[float]) -> str:
    """In digits enough to tell it from the limits."""
    return told_apart(Decimal(repr(value)), [Decimal(repr(one)) for one in ends])


def _span(ends: list[float], value: float | None, uncertainty: float, others: list[float]) -> tuple[float, float]:
    shown = [*ends, *others]
    if value is not None:
        shown += [value - uncertainty, value + uncertainty]
    if len(ends) == 1:
        shown.append(0.0 if abs(ends[0]) < 5 * max(abs(one - ends[0]) for one in [*shown, 0.0]) else ends[0] * 0.9)
    least, most = min(shown), max(shown)
    width = (most - least) or abs(most) or 1.0
    return least - ROOM * width, most + ROOM * width


def _bands(left: float, right: float, low: float | None, high: float | None, guard: float) -> list[Band]:
    """Beyond the limits, inside them, and the guard bands just inside."""
    inner, outer = left if low is None else low, right if high is None else high
    found = [Band(inner, outer, BAR_LOW, BAR_HIGH, GOOD)]
    if low is not None:
        found.append(Band(left, low, BAR_LOW, BAR_HIGH, BAD))
    if high is not None:
        found.append(Band(high, right, BAR_LOW, BAR_HIGH, BAD))
    if guard > 0 and low is not None:
        found.append(Band(low, min(low + guard, outer), BAR_LOW, BAR_HIGH, GUARD))
    if guard > 0 and high is not None:
        found.append(Band(max(high - guard, inner), high, BAR_LOW, BAR_HIGH, GUARD))
    return found


def _says(value: float | None, ends: list[float], unit: str) -> str:
    limits = " to ".join(f"{end:.6g}" for end in ends)
    read = "nothing read yet" if value is None else f"{_told(value, ends)} {unit}"
    return f"{read}, limit {limits} {unit}".strip()
