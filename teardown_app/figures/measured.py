"""The picture that a kind of measurement has of its own: a plate's heights, a section's form, a profile.

The pictures bring numpy with them, which is loaded when the first one is drawn.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from teardown_app.figures.figure import Figure
from teardown_app.metrology.fault import BadInput

DRAWN = ("flatness", "flatness-grid", "roundness", "roughness-trace")
"""Kinds that have one."""


def figure_of(kind: str, measured: Mapping[str, Any]) -> Figure | None:
    """The picture of what was entered so far; None where the kind has none, or nothing can be drawn yet."""
    if kind not in DRAWN or not measured:
        return None
    try:
        return _drawn(kind, measured)
    except (BadInput, KeyError):
        return None


def _drawn(kind: str, measured: Mapping[str, Any]) -> Figure | None:
    if kind == "roundness":
        from teardown_app.figures.section import section_figure

        return section_figure(measured)
    if kind == "roughness-trace":
        from teardown_app.figures.profile import trace_figure

        return trace_figure(measured)
    from teardown_app.figures.plate import grid_figure, points_figure

    return points_figure(measured) if kind == "flatness" else grid_figure(measured)
