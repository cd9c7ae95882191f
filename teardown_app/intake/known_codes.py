"""A number of ours that no reader can read: the known tag that the picture shows, taken or only offered."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.intake.comparison.compare import MOST_LOOKS, compare
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.comparison.spots import Spot
from teardown_app.intake.pictures import Grey
from teardown_app.intake.read_codes import Code

HOW = "compared with known tags"


def recognised(
    grey: Grey,
    known: KnownTags,
    *,
    deadline_s: float,
    found: Sequence[Spot] | None = None,
    before: int = 0,
    most: int = MOST_LOOKS,
) -> list[Code]:
    """The known tag that a picture shows, if any: taken, or offered where it is not sure. The rest as in `compare`."""
    one = compare(grey, known, deadline_s=deadline_s, found=found, before=before, most=most)
    if one is None:
        return []
    chance = one.chance
    return [Code(one.number, True, HOW, one.corners, chance=chance.larger, offered=not chance.sure)]
