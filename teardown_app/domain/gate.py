"""The gates of a whole tool, in their fixed order."""

from __future__ import annotations

from attrs import frozen

GATES = (
    "decontaminated",
    "isolated",
    "closed up",
    "power on",
    "water on",
    "acceptance runs",
    "ship",
)


@frozen
class Gate:
    """A gate this model has, and the assemblies (positions of lines) it needs; none: the whole tool."""

    name: str
    assemblies: tuple[str, ...] = ()
