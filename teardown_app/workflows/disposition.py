"""What is to become of a part: use as is, rework, repair, spare, return unrepaired, scrap."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.ledger.facets import severity
from teardown_app.domain.ledger.kinds.part import DISPOSITIONS
from teardown_app.domain.parts.filling import place_of
from teardown_app.domain.parts.going_back import GONE
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import disposition_of
from teardown_app.workflows.act import RIGHT_WORDS, Act, Drafts, refuse
from teardown_app.workflows.approval import what_waits
from teardown_app.workflows.deed import PARTS, Deed, Field, one_of


def judge(act: Act, parts: Sequence[str], *, as_: str, why: str = "") -> Drafts:
    """Gives parts a disposition. A milder one than before needs the right to release, to leave scrap that to scrap."""
    act.working()
    if as_ not in DISPOSITIONS:
        refuse(f"{as_} is no disposition.", f"It is one of {', '.join(DISPOSITIONS)}.")
    for part in parts:
        _check(act, part, as_)
    return [act.draft("disposition.given", tuple(parts), **{"as": as_, "why": why or None})]


def is_milder(act: Act, part: str, as_: str) -> bool:
    """True when the part would get a milder disposition than it has."""
    before = disposition_of(act.job, part)
    return bool(before) and severity(as_) < severity(before)


def right_for(act: Act, part: str, as_: str) -> str:
    """The right that this disposition of the part needs."""
    if as_ == "scrap":
        return "scrap"
    if not is_milder(act, part, as_):
        return "record"
    return "scrap" if disposition_of(act.job, part) == "scrap" else "release"


def _now(act: Act, part: str, as_: str) -> str:
    before = disposition_of(act.job, part)
    return f" is dispositioned {before}, and {as_} is milder" if is_milder(act, part, as_) else ""


def _check(act: Act, part: str, as_: str) -> None:
    right = right_for(act, part, as_)
    if right not in act.rights():
        refuse(
            f"{act.name(part)}{_now(act, part, as_)}: {act.by} has no right to {RIGHT_WORDS[right]}.",
            "Ask somebody who has it, or put the part on hold until then.",
            "part hold",
        )
    waits = what_waits(act, part)
    if as_ == "scrap" and waits:
        refuse(
            f"{act.name(part)} is not scrapped while a finding waits for the customer: {waits}.",
            "Record the answer first.",
            "finding answer",
        )
    fitted = place_of(act.job, part)
    if as_ in GONE and fitted:
        refuse(f"{act.name(part)} is fitted in {named(act.job, fitted)}.", "Take it out first.", "part out")


JUDGE = Deed(
    name="part judge", about=PARTS, do=judge, writes=("disposition.given",),
    says="Give parts a disposition.",
    example="PO-7781 10.20 10.30 --as 'use as is' --by MK",
    done="{name}: {as}.",
    fields=(
        Field("as_", "What is to become of it?", one_of(DISPOSITIONS), offers=lambda act: DISPOSITIONS, needed=True),
        Field("why", "Why?", "the reason"),
    ),
)  # fmt: skip
