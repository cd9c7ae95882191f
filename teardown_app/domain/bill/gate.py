"""The gates of a whole tool, in their fixed order."""

from __future__ import annotations

from attrs import frozen

CLOSED_UP, POWER_ON, SHIP = "closed up", "power on", "ship"

GATES = ("decontaminated", "isolated", CLOSED_UP, POWER_ON, "water on", "acceptance runs", SHIP)


@frozen
class Gate:
    """A gate this model has, and the assemblies (positions of lines) it needs; none: the whole tool."""

    name: str
    assemblies: tuple[str, ...] = ()
