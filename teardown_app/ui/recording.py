"""Recording what a person does, the strip that confirms it, and taking it back. No Kivy here."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from attrs import frozen

from teardown_app.domain.ledger.record import Draft, Record
from teardown_app.ui.view import ACCEPT, UNSURE, Step, Strip
from teardown_app.workflows.act import Act, Drafts, ShopAct
from teardown_app.workflows.correct import LASTING, take_back

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

WHY = "taken back right after it was recorded"
TAKE_BACK = Step("Take back", "take_back")


@frozen
class Undo:
    """How one record of an act is undone: in a job by taking it back, in a register by `anew`, which says
    again what was said before."""

    job: str = ""
    ref: str = ""
    typ: str = ""
    anew: Callable[[ShopAct], Drafts] | None = None


class Recording:
    """What was recorded last at one desk."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._undo: Sequence[Undo] = ()
        self.strip = Strip()

    def act(
        self, build: Callable[[Act], Drafts], says: str, *, weighty: str = "", first: Sequence[Draft] = ()
    ) -> list[Record]:
        """Records an act on the job in hand; `weighty` says what the PIN is asked for."""
        desk = self._desk
        by = desk.session.who(weighty=weighty)
        drafts = [*first, *build(desk.workshop.act(by, desk.job))]
        self._confirmed(by, drafts, says)
        records = desk.workshop.record(drafts, by)
        desk.session.done()
        own = [record for record in records if record.job == desk.job_number]
        lasting = any(record.typ in LASTING for record in own)
        self.confirm(says, [] if lasting else [Undo(record.job, record.ref, record.typ) for record in own])
        return records

    def shop_act(self, build: Callable[[ShopAct], Drafts], says: str, *, undo: Undo | None = None) -> None:
        """Records an act on the shop's registers."""
        desk = self._desk
        by = desk.session.who()
        drafts = build(desk.workshop.shop_act(by))
        self._confirmed(by, drafts, says)
        desk.workshop.record(drafts, by)
        desk.session.done()
        self.confirm(says, [undo] if undo else [])

    def _confirmed(self, by: str, drafts: Drafts, says: str) -> None:
        """Asks the person's PIN for what needs more than the right to record and can clear something, whoever was
        touched before. Raises `WhoIsIt`."""
        if self._desk.workshop.asks_pin(drafts):
            self._desk.session.confirmed(by, says.rstrip("."))

    def confirm(self, says: str, undo: Sequence[Undo] = ()) -> None:
        """Confirms what is on the disk now; without `undo` it is not taken back from the strip."""
        self.strip, self._undo = Strip(f"Recorded: {says}", ACCEPT, TAKE_BACK if undo else None), undo
        self._desk.say(says, ACCEPT)

    def take_back(self) -> None:
        """Takes the last act back, the last of its records first."""
        desk, undo = self._desk, self._undo
        by = desk.session.who()
        self._confirmed(by, [draft for one in undo for draft in self._undoing(one, by)], "to take this back")
        for one in reversed(undo):
            desk.workshop.record(self._undoing(one, by), by)
        desk.session.done()
        says = f"Taken back: {self.strip.says.removeprefix('Recorded: ')}"
        self.strip, self._undo = Strip(says, UNSURE), ()
        desk.say(says, UNSURE)

    def _undoing(self, one: Undo, by: str) -> Drafts:
        workshop = self._desk.workshop
        if one.anew is not None:
            return one.anew(workshop.shop_act(by))
        opened = workshop.job(one.job)
        return take_back(workshop.act(by, opened.job), one.ref, why=WHY)

    def forget(self) -> None:
        """The strip is empty: another job is in hand."""
        self.strip, self._undo = Strip(), ()
