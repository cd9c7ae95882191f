"""Readings of one place over the jobs there were, in their order, against today's limits."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from teardown_app.domain.measure.digits import told_apart
from teardown_app.domain.places.trend import Past
from teardown_app.figures.figure import DATA, LIMIT, Figure, Line, Mark, Words

ROOM = 0.2


def trend_figure(past: Sequence[Past], *, limits: tuple[float | None, float | None], unit: str) -> Figure | None:
    """One mark a reading from left to right, joined; None where there is nothing to draw."""
    if not past:
        return None
    values = [one.value for one in past]
    ends = [end for end in limits if end is not None]
    least, most = min([*values, *ends]), max([*values, *ends])
    room = ROOM * ((most - least) or abs(most) or 1.0)
    left, right = -0.7, len(past) - 0.3
    lines = [Line(((left, end), (right, end)), LIMIT) for end in ends]
    if len(past) > 1:
        lines.append(Line(tuple((float(n), one.value) for n, one in enumerate(past)), DATA))
    marks = tuple(Mark(float(n), one.value, one.verdict) for n, one in enumerate(past))
    last = told_apart(Decimal(repr(values[-1])), [Decimal(repr(one)) for one in ends])
    words = [Words(left, end + room * 0.3, f"limit {end:.6g} {unit}".strip(), "left") for end in ends]
    words += [Words(float(n), least - room * 0.8, past[n].day[2:7]) for n in sorted({0, len(past) - 1})]
    words.append(Words(float(len(past) - 1), values[-1] + room * 0.7, last))
    said = f"{len(past)} readings, last {last} {unit}".strip()
    low, high = least - room * 1.2, most + room
    return Figure(left, right, low, high, tuple(lines), marks=marks, words=tuple(words), says=said)
