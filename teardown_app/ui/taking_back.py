"""Taking back the last act from the strip: each of its records, the last one first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from attrs import frozen

from teardown_app.workflows.act import Drafts, ShopAct
from teardown_app.workflows.correct import take_back

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

WHY = "taken back right after it was recorded"
WEIGHTY = ("part.released", "point.conceded", "work.signed", "job.closed", "disposition.given")


@frozen
class Undo:
    """How one record of an act is undone: in a job by taking it back, in a register by `anew`, which says
    again what was said before."""

    job: str = ""
    ref: str = ""
    typ: str = ""
    anew: Callable[[ShopAct], Drafts] | None = None


def take_all_back(desk: Desk, undo: Sequence[Undo]) -> None:
    """Takes every record of an act back."""
    weighty = any(one.typ in WEIGHTY for one in undo)
    by = desk.session.who(weighty="to take this back" if weighty else "")
    for one in reversed(undo):
        if one.anew is not None:
            desk.workshop.record(one.anew(desk.workshop.shop_act(by)), by)
            continue
        opened = desk.workshop.job(one.job)
        drafts = take_back(desk.workshop.act(by, opened.job), one.ref, opened.live.points(), why=WHY)
        desk.workshop.record(drafts, by)
    desk.session.done()
