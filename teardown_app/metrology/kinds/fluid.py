"""Kinds of measurement on fluids: leaks, water and what is dispensed, gas and filters."""

from __future__ import annotations

from teardown_app.metrology.kind import Kind
from teardown_app.metrology.kinds import gas, tightness, water

KINDS: tuple[Kind, ...] = (*tightness.KINDS, *water.KINDS, *gas.KINDS)
