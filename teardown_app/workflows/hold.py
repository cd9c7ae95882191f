"""A hold stops a part or a place until somebody with the right lifts it."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.ledger.record import Draft
from teardown_app.domain.parts.parts import open_holds
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.deed import PARTS, Deed, Field


def place_hold(act: Act, things: Sequence[str], *, why: str) -> Drafts:
    """Puts parts or places on hold. Whoever records may hold; lifting needs the right to release."""
    act.working()
    if not why.strip():
        refuse("A hold needs its reason.", "Say why the part must not go on.")
    return [act.draft("hold.placed", tuple(things), why=why)]


def lift_hold(act: Act, things: Sequence[str], *, why: str) -> Drafts:
    """Lifts all holds on parts or places."""
    act.working("release")
    return [_lifted(act, thing, why) for thing in things]


def _lifted(act: Act, thing: str, why: str) -> Draft:
    holds = open_holds(act.job, thing)
    if not holds:
        refuse(f"{act.name(thing)} is not on hold.", "Nothing needs to be lifted.")
    return act.draft("hold.lifted", tuple(hold.value for hold in holds), why=why)


HOLD = Deed(
    name="part hold", about=PARTS, do=place_hold, writes=("hold.placed",),
    says="Put parts on hold; they are not released until it is lifted.",
    example="J7K3M00018 P7K3M0001Q --why 'wait for bearing lot report' --by MK",
    done="{name} is on hold: {why}",
    fields=(Field("why", "Why must it not go on?", "the reason", needed=True),),
)  # fmt: skip
LIFT = Deed(
    name="part lift", about=PARTS, do=lift_hold, writes=("hold.lifted",),
    says="Lift all holds on parts. Needs the right to release.",
    example="J7K3M00018 P7K3M0001Q --why 'report is in' --by OF",
    done="{name} is no longer on hold.",
    fields=(Field("why", "Why may it go on?", "the reason", needed=True),),
)  # fmt: skip
