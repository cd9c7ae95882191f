"""A trace as a picture: heights without form, the mean line, the sections, and roughness beneath."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from teardown_app.figures.figure import MEAN, OTHER, Figure, Line, Point, Words
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.trace import Evaluation, evaluate_trace

MOST_POINTS = 600
"""Of a long trace the highest and lowest of each piece are drawn: peaks are never lost."""


def trace_figure(measured: Mapping[str, Any]) -> Figure | None:
    """Of the fields of a trace; while it cannot be evaluated yet, its heights alone."""
    heights = measured.get("heights") or []
    step = measured.get("step") or 0.0
    if len(heights) < 2 or not step:
        return None
    cut = measured.get("cut_off")
    if cut:
        try:
            form = str(measured.get("form") or "line")
            return profile_figure(evaluate_trace(heights, step, cut, form=form))
        except BadInput:
            pass
    points = thinned([n * step for n in range(len(heights))], list(heights))
    low, high = min(heights), max(heights)
    room = (high - low) * 0.2 or 1.0
    words = (Words(0.0, high + room / 2, f"{high - low:.3g} um over {len(heights) * step:.3g} mm", "left"),)
    return Figure(0.0, points[-1][0], low - room, high + room, (Line(points),), words=words, says="heights as measured")


def profile_figure(found: Evaluation) -> Figure:
    """Profile with its mean line above, roughness profile beneath, one stroke at every section's end.

    Heights in um, positions in mm; both halves have the same scale up.
    """
    x = [float(one) for one in found.x]
    above, mean, rough = ([float(one) for one in row] for row in (found.profile, found.mean_line, found.roughness))
    tall = max(max(above) - min(above), max(rough) - min(rough)) or 1.0
    lift = max(rough) - min(above) + 0.35 * tall
    raised = thinned(x, [one + lift for one in above])
    lines = [
        Line(raised),
        Line(thinned(x, [one + lift for one in mean]), MEAN),
        Line(thinned(x, rough)),
        Line(((x[0], 0.0), (x[-1], 0.0)), MEAN),
    ]
    low, high = min(rough) - 0.12 * tall, max(above) + lift + 0.3 * tall
    count = round((x[-1] - x[0]) / found.cut_off) if found.cut_off else 0
    for n in range(1, count):
        at = x[0] + n * found.cut_off
        lines.append(Line(((at, low), (at, max(rough) + 0.1 * tall)), OTHER, dashed=True))
    of = found.parameters
    said = f"Ra {of.ra:.3g}  Rz {of.rz:.3g}  Rt {of.rt:.3g} um, cut-off {found.cut_off:g} mm"
    words = (Words(x[0], high - 0.1 * tall, said, "left"),)
    return Figure(x[0], x[-1], low, high, tuple(lines), words=words, says=said)


def thinned(x: Sequence[float], z: Sequence[float]) -> tuple[Point, ...]:
    """At most about `MOST_POINTS` points, with the extremes of every piece kept.

    >>> len(thinned(range(10), [0.0] * 10))
    10
    >>> max(z for _, z in thinned(range(90_000), [0.0] * 44_444 + [7.0] + [0.0] * 45_555))
    7.0
    """
    if len(x) <= MOST_POINTS:
        return tuple((float(a), float(b)) for a, b in zip(x, z, strict=True))
    size = -(-len(x) * 2 // MOST_POINTS)
    found: list[Point] = []
    for start in range(0, len(x), size):
        piece = range(start, min(start + size, len(x)))
        ends = sorted({min(piece, key=lambda n: z[n]), max(piece, key=lambda n: z[n])})
        found += [(float(x[n]), float(z[n])) for n in ends]
    return tuple(found)
