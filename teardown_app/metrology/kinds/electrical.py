"""Kinds of electrical measurement: windings and insulation, protective bonding, heating elements."""

from __future__ import annotations

from teardown_app.metrology.kind import Kind
from teardown_app.metrology.kinds import circuit, motor

KINDS: tuple[Kind, ...] = (*motor.KINDS, *circuit.KINDS)
