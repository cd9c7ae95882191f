"""The picture that a kind of measurement has of its own: a plate's heights, a section's form, a profile."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from teardown_app.figures.figure import Figure
from teardown_app.figures.plate import grid_figure, points_figure
from teardown_app.figures.profile import trace_figure
from teardown_app.figures.section import section_figure
from teardown_app.metrology.fault import BadInput

DRAWN: dict[str, Callable[[Mapping[str, Any]], Figure | None]] = {
    "flatness": points_figure,
    "flatness-grid": grid_figure,
    "roundness": section_figure,
    "roughness-trace": trace_figure,
}


def figure_of(kind: str, measured: Mapping[str, Any]) -> Figure | None:
    """The picture of what was entered so far; None where the kind has none, or nothing can be drawn yet."""
    draw = DRAWN.get(kind)
    try:
        return draw(measured) if draw and measured else None
    except (BadInput, KeyError):
        return None
