"""A number of ours that no reader can read: the known tag that the picture shows, taken or only offered."""

from __future__ import annotations

from teardown_app.intake.comparison.compare import DEADLINE_S, compare
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.pictures import Grey
from teardown_app.intake.read_codes import Code

HOW = "compared with known tags"


def or_compared(codes: list[Code], grey: Grey, known: KnownTags, *, deadline_s: float = DEADLINE_S) -> list[Code]:
    """What was read; where no number of ours is among it, also the one known tag that the picture shows."""
    if any(code.ours for code in codes):
        return codes
    found = compare(grey, known, deadline_s=deadline_s)
    if found is None:
        return codes
    sure = found.chance.sure
    return [*codes, Code(found.number, True, HOW, found.corners, chance=found.chance.larger, offered=not sure)]
