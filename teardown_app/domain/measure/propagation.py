"""The uncertainty of what is judged, from that of the instrument, through the formula of its kind."""

from __future__ import annotations

import math
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from teardown_app.domain.measure.measuring import judged_unit
from teardown_app.domain.measure.raw import Shown, one_moved, shown
from teardown_app.domain.measure.uncertainty import Uncertainty
from teardown_app.metrology.kind import Kind

MOST_PROPAGATED = 200
"""Of longer rows no uncertainty is worked out."""
AS_STATED = ("roughness-trace",)
"""Kinds whose instruments state the uncertainty of the result itself, a roughness, and not of each height (common
practice, no source)."""


def propagated(kind: Kind, given: Mapping[str, Any], error: Uncertainty, unit: str) -> float | None:
    """Expanded uncertainty of the judged value from that of the instrument, in the value's unit.

    JCGM 100, 5.1.2: root of the sum of squares of what each raw reading's own uncertainty changes, found by moving one
    reading at a time; readings count as independent of each other. `unit` is what the instrument shows: readings of
    that sort are moved, and nothing else. None where there are none, or too many.
    """
    if kind.name in AS_STATED:
        return _as_stated(kind, given, error)
    readings = list(shown(kind, given, unit)) if unit else []
    if not readings or len(readings) > MOST_PROPAGATED or not kind.judged:
        return None
    middle = kind.compute(**given).named(kind.judged)
    changes = [_change(kind, given, one, error) for one in readings]
    if middle is None or any(one is None for one in changes):
        return None
    return math.sqrt(sum((float(one or 0) - float(middle)) ** 2 for one in changes))


def _change(kind: Kind, given: Mapping[str, Any], one: Shown, error: Uncertainty) -> float | None:
    """The judged value with one reading moved by its uncertainty."""
    size = error.of(one.value, one.unit)
    if size is None:
        return None
    return float(kind.compute(**one_moved(given, one, float(size))).named(kind.judged))


def _as_stated(kind: Kind, given: Mapping[str, Any], error: Uncertainty) -> float | None:
    value = kind.compute(**given).named(kind.judged)
    size = None if value is None else error.of(Decimal(repr(float(value))), judged_unit(kind.name))
    return None if size is None else float(size)
