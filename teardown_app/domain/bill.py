"""The bill of one tool model: lines, positions, what fits, what closes over what.

Pure values; reading files into them is the intake room's business.
"""

from __future__ import annotations

from decimal import Decimal

from attrs import frozen


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
    holds: tuple[str, ...] = ()
    """Positions of *lines* this joint holds."""
    note: str = ""


@frozen
class Line:
    """One row of the bill."""

    position: str
    parent: str
    row: int
    part_number: str
    description: str = ""
    quantity: Decimal | None = Decimal(1)
    """Per next assembly; None for AR and REF."""
    unit: str = "EA"
    kind: str = "part"
    """assembly, part, hardware, consumable, temporary."""
    material: str = ""
    routes: tuple[str, ...] = ()
    checks: tuple[str, ...] = ()
    finish_ra_um: Decimal | None = None
    fit_after: tuple[str, ...] = ()
    """Positions of *lines* this line closes over."""
    matched_set: str = ""
    interchange_group: str = ""
    option: str = ""
    joint: Joint | None = None
    renew: str = ""
    """always, if opened, on condition, or empty (consumables without one: always)."""
    write_down: tuple[str, ...] = ()
    ships: str = ""
    """in or out, for temporary."""
    hazard: str = ""
    photo: str = ""


@frozen
class Position:
    """One place in the tool."""

    key: str
    """`10/2.20.5/3`: the third 5 of the only 20 in the second 10."""
    line: Line
    parent: str
    """Key of the position above, empty at the top."""
    count: int | None = None
    """Hardware: how many belong here."""
    amount: Decimal | None = None
    """Lengths, masses, volumes: how much belongs here."""
