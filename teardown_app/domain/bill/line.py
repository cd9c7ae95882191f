"""A line of a bill (one row) and a position (one place in the tool)."""

from __future__ import annotations

from decimal import Decimal

from attrs import frozen

from teardown_app.domain.bill.joint import Joint

KINDS = ("assembly", "part", "hardware", "consumable", "temporary")


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


def above(position: str) -> str:
    """Position of the line above a line, empty at the top.

    >>> above("10.20.5"), above("10")
    ('10.20', '')
    """
    return position.rpartition(".")[0]


def common(one: str, other: str) -> str:
    """Nearest line that two lines hang beneath or are, empty for the tool itself.

    >>> common("10.20.5", "10.30"), common("10.20", "10"), common("10", "100")
    ('10', '10', '')
    """
    steps = []
    for mine, theirs in zip(one.split("."), other.split("."), strict=False):
        if mine != theirs:
            break
        steps.append(mine)
    return ".".join(steps)
