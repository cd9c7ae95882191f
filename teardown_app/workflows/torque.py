"""A joint is tightened, pass by pass, when everything it holds and every screw is in; or it is opened."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from teardown_app.domain.against.torque import against_torque
from teardown_app.domain.bill.bill import Joint, Position
from teardown_app.domain.ledger.record import Draft
from teardown_app.domain.measure.torque import read_torque
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.joint import (
    AFTER_HEAT,
    AGAIN,
    has_torque,
    hours_to_rest,
    pass_says,
    passes_left,
    passes_of,
    torques_that_count,
)
from teardown_app.workflows.act import Act, Drafts, refuse, refuse_for
from teardown_app.workflows.called import in_scope, places_meant, thing_of
from teardown_app.workflows.deed import FLAG, NUMBER, PLACES, WHOLE, Deed, Field

NEXT = "next"
"""In place of a pass: the first that is due."""


def tighten(
    act: Act,
    keys: Sequence[str],
    *,
    pass_: str = NEXT,
    screws: int | None = None,
    torque: str = "",
    instrument: str = "",
    by_hand: bool = False,
    note: str = "",
    early: str = "",
) -> Drafts:
    """One pass (in percent, or again) on joints: on all screws that are left of the pass where none are counted.

    Where no torque is given, the target of the pass is recorded as the wrench was set to it; `by_hand` records
    neither value nor wrench, which counts before the last pass.
    `early` says why a joint is tightened again before it has rested; that needs the right to release.
    """
    act.working("release" if early.strip() else "record")
    if by_hand and (torque or instrument):
        refuse("What is tightened by hand has neither value nor wrench.", "Leave one of them out.")
    said = {"instrument": instrument or None, "note": note or None}
    return [
        _tightened(act, position, pass_, screws, early.strip(), None if by_hand else torque, **said)
        for position in places_meant(act, keys, "hardware")
    ]


def _measured(torque: str) -> dict[str, str] | None:
    if not torque:
        return None
    read = read_torque(torque)
    if isinstance(read, str):
        refuse(f"{read[0].upper()}{read[1:]}.", "Write it as 6 N m, 4.4 lbf ft or 53 lbf in.")
    return read.written()


def _tightened(
    act: Act, position: Position, pass_: str, screws: int | None, early: str, torque: str | None, **body: object
) -> Draft:
    if not has_torque(position):
        refuse(f"{named(act.job, position.key)} has no torque in the bill.", "Nothing needs to be recorded.")
    chosen = _pass(act, position, pass_.removesuffix("%").strip())
    refuse_for(against_torque(act.job, position, act.now, early))
    if chosen == AGAIN and hours_to_rest(act.job, position, act.now) > 0:
        body["early"] = early
    left = (position.count or 0) - screws_done(act, position, chosen)
    number = left if screws is None else screws
    if not 1 <= number <= left:
        place = named(act.job, position.key)
        refuse(
            f"{place}: {number} screws cannot be tightened at {pass_says(chosen)}, {left} are left.",
            "Count the screws that were tightened in this pass.",
        )
    if torque is not None:
        body["torque"] = _measured(torque or f"{target_of(_joint(position), chosen):f} N m")
    return act.draft("joint.torqued", (thing_of(position),), **{"pass": chosen, "screws": number, **body})


def target_of(joint: Joint, pass_: str) -> Decimal:
    """The torque that a pass is tightened to, in newton metres."""
    share = Decimal(100) if pass_ in (AGAIN, AFTER_HEAT) else Decimal(pass_)
    return ((joint.torque_nm or Decimal(0)) * share / 100).normalize()


def _pass(act: Act, position: Position, name: str) -> str:
    """The pass that is due; an earlier or later one is refused."""
    place, known, left = (
        named(act.job, position.key),
        passes_of(_joint(position)),
        passes_left(act.job, position),
    )
    if not left:
        refuse(f"{place} is torqued, all passes.", "To tighten it again, open it first.", "joint open")
    if name not in (NEXT, *known):
        refuse(f"{place} has no pass of {pass_says(name)}.", f"Its passes are {', '.join(map(pass_says, known))}.")
    if name not in (NEXT, left[0]):
        refuse(f"{place}: the pass of {pass_says(name)} is not due.", f"Next is {pass_says(left[0])}.")
    return left[0]


def _joint(position: Position) -> Joint:
    return position.line.joint or Joint()


def screws_done(act: Act, position: Position, pass_: str) -> int:
    """Screws tightened in a pass since the joint was last put together."""
    counted = torques_that_count(act.job, position)
    return sum(int(one.value.screws) for one in counted if one.value.name == pass_)


def open_joint(act: Act, keys: Sequence[str], *, why: str = "") -> Drafts:
    """Opens joints: their torque is due again; where none is asked, what is put in."""
    act.working()
    places = places_meant(act, keys, "hardware")
    for position in places:
        in_scope(act, position)
        if position.line.joint is None:
            refuse(f"{named(act.job, position.key)} is no joint in the bill.", "Nothing needs to be recorded.")
    if not places:
        refuse("No joint is named.", "Name the places of its screws.")
    return [act.draft("joint.opened", tuple(thing_of(one) for one in places), why=why.strip() or None)]


def how(position: Position, pass_: str) -> str:
    """How the joint is tightened, as the bill says: size, torque of the pass, pattern, lubricant."""
    joint = _joint(position)
    target = ""
    if joint.torque_nm is not None:
        target = f"{target_of(joint, pass_):f} N m"
    said = [joint.size, joint.strength_class, target, joint.pattern and f"pattern {joint.pattern}"]
    said += [f"lubricant {joint.lubricant}" if joint.lubricant else "no lubricant named"]
    return ", ".join(word for word in said if word)


TORQUE = Deed(
    name="joint torque", about=PLACES, do=tighten, writes=("joint.torqued",),
    says="Record one pass of torque on joints; says pattern and lubricant.",
    example="PO-7781 10.90 --torque '1.8 N m' --by AS",
    done="{name}: {pass} % on {screws} screws.",
    fields=(Field("pass_", says="the pass, in percent; else the next due"),
            Field("screws", says="how many; else all that are left of the pass", sort=WHOLE),
            Field("torque", says="as on the wrench: '6 N m', '4.4 lbf ft'; else what the pass asks for"),
            Field("instrument", says="number of the torque wrench", sort=NUMBER),
            Field("by_hand", says="tightened without a wrench; not the last pass", sort=FLAG),
            Field("note"),
            Field("early", says="why it is tightened again before it rested")),
)  # fmt: skip
OPEN = Deed(
    name="joint open", about=PLACES, do=open_joint, writes=("joint.opened",),
    says="Say that joints were opened; their torque is due again.",
    example="PO-7781 10.90 --why 'seal pinched' --by AS",
    done="{name} is open: its torque is due again.",
    fields=(Field("why", "Why is it opened?", "the reason"),),
)  # fmt: skip
