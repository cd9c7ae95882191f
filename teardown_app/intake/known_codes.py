"""A number of ours that no reader can read: the known tag that the picture shows, taken or only offered."""

from __future__ import annotations

from teardown_app.intake.comparison.compare import compare
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.pictures import Grey
from teardown_app.intake.read_codes import Code

HOW = "compared with known tags"
DEADLINE_S = 1.0
"""For each picture that a command reads."""


def or_compared(codes: list[Code], grey: Grey, known: KnownTags) -> list[Code]:
    """What was read; where no number of ours is among it, also the one known tag that the picture shows."""
    return codes if any(code.ours for code in codes) else [*codes, *recognised(grey, known, deadline_s=DEADLINE_S)]


def recognised(grey: Grey, known: KnownTags, *, deadline_s: float) -> list[Code]:
    """The known tag that a picture shows, if any: taken, or offered where it is not sure."""
    found = compare(grey, known, deadline_s=deadline_s)
    if found is None:
        return []
    chance = found.chance
    return [Code(found.number, True, HOW, found.corners, chance=chance.larger, offered=not chance.sure)]
