"""A route: the operations a part goes through on its way back to good."""

from __future__ import annotations

from decimal import Decimal

from attrs import frozen

ORIGINS = ("as received", "new", "repaired")


@frozen
class Operation:
    """One step of a route."""

    id: str
    says: str = ""
    trade: str = ""
    medium: str = ""
    temperature: str = ""
    time: str = ""
    wait_h: Decimal | None = None
    """Hours before the next operation."""
    record: tuple[str, ...] = ()
    """What is written down."""
    check: tuple[str, ...] = ()
    spoils: tuple[str, ...] = ()
    """Checks whose earlier readings it spoils; empty: all that do not outlast it."""
    not_with: tuple[str, ...] = ()
    """Materials or families it harms."""
    outside: bool = False


@frozen
class Route:
    """Operations in order, for parts of one origin."""

    name: str
    origin: str = "as received"
    operations: tuple[Operation, ...] = ()
