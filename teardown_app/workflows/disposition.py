"""What is to become of a part: use as is, rework, repair, spare, return unrepaired, scrap."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.filling import GONE, place_of
from teardown_app.domain.kinds.part import DISPOSITIONS
from teardown_app.domain.merge import severity
from teardown_app.domain.parts import disposition_of
from teardown_app.domain.points.point import named
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.approval import what_waits


def judge(act: Act, parts: Sequence[str], *, as_: str, why: str = "") -> Drafts:
    """Gives parts a disposition. A milder one than before needs the right to release, to leave scrap that to scrap."""
    act.working()
    if as_ not in DISPOSITIONS:
        refuse(f"{as_} is no disposition.", f"It is one of {', '.join(DISPOSITIONS)}.")
    if as_ == "scrap":
        act.needs("scrap")
    for part in parts:
        _check(act, part, as_)
    return [act.draft("disposition.given", tuple(parts), **{"as": as_, "why": why or None})]


def _check(act: Act, part: str, as_: str) -> None:
    before = disposition_of(act.job, part)
    if before and severity(as_) < severity(before):
        act.needs("scrap" if before == "scrap" else "release")
    waits = what_waits(act, part)
    if as_ == "scrap" and waits:
        refuse(
            f"{act.name(part)} is not scrapped while a finding waits for the customer: {waits}.",
            "Record the answer first: finding answer.",
        )
    fitted = place_of(act.job, part)
    if as_ in GONE and fitted:
        refuse(f"{act.name(part)} is fitted in {named(act.job, fitted)}.", "Take it out first: part out.")
