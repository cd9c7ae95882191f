"""A hold stops a part or a place until somebody with the right lifts it."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.nouns.parts import open_holds
from teardown_app.workflows.act import Act, Drafts, refuse


def place_hold(act: Act, things: Sequence[str], *, why: str) -> Drafts:
    """Puts parts or places on hold. Whoever records may hold; lifting needs the right to release."""
    act.working()
    if not why.strip():
        refuse("A hold needs its reason.", "Say why the part must not go on.")
    return [act.draft("hold.placed", tuple(things), why=why)]


def lift_hold(act: Act, thing: str, *, why: str) -> Drafts:
    """Lifts all holds on a part or place."""
    act.working("release")
    holds = open_holds(act.job, thing)
    if not holds:
        refuse(f"{act.name(thing)} is not on hold.", "Nothing needs to be lifted.")
    return [act.draft("hold.lifted", tuple(hold.value for hold in holds), why=why)]
