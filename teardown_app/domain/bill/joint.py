"""A joint: how a hardware line is tightened and what it holds. Its cell is read in the intake room."""

from __future__ import annotations

from decimal import Decimal

from attrs import frozen

TOLERANCE_PERCENT = Decimal(10)
"""How far a torque may lie off its target where the bill does not say: our own figure, no source."""


@frozen
class Joint:
    """How a hardware line is tightened."""

    size: str = ""
    strength_class: str = ""
    torque_nm: Decimal | None = None
    pattern: str = ""
    passes: tuple[Decimal, ...] = ()
    """Percent of the torque, pass after pass; empty means one pass at 100."""
    lubricant: str = ""
    retighten_h: Decimal | None = None
    """Hours after the last pass at which it is tightened once more."""
    holds: tuple[str, ...] = ()
    """Positions of *lines* this joint holds."""
    note: str = ""
    retighten_heat: bool = False
    """Tightened once more when the tool has been hot for the first time."""
    tolerance_percent: Decimal = TOLERANCE_PERCENT
    """How far a torque may lie off the target of its pass, either way; above 0, below 100."""
