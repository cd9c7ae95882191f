"""Labels at this tablet: the next one of the roll, those that wait to be printed, the stock and printer in use.

The queue itself is in the shop's records; here stand only this tablet's choices.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import display_order
from teardown_app.domain.parts.parts import parts_of_number
from teardown_app.domain.shop.labels import OnItsWay, perhaps_printed, tablet_of, waiting, why_void
from teardown_app.domain.tags.tag import issue, parse
from teardown_app.labels.printers import Printers
from teardown_app.records.own_notes import OwnNotes
from teardown_app.workflows.act import Refused, refuse
from teardown_app.workshop import Workshop

if TYPE_CHECKING:
    from teardown_app.labels.stock import Stock
    from teardown_app.labels.stock_file import Shelf

FIRST_STOCK = "a4-40"


class LabelQueue:
    """What this tablet prints, and on what."""

    def __init__(self, workshop: Workshop, notes: OwnNotes) -> None:
        self._workshop, self._notes = workshop, notes
        self._last = ""
        self.printers = Printers(notes)
        self.start_at = 1
        """The first label still on the sheet that lies in the printer."""
        self.written = ""
        """The file that was written last."""

    # the roll

    def put_on(self, number: str) -> None:
        """A label was put on a part: the roll goes on after it."""
        self._last = number

    def next_of_roll(self, job: Job) -> str:
        """The label after the last one put on a part of this job or at this tablet; empty when that is not free."""
        last = self._last or self._last_of(job)
        if not last:
            return ""
        following = issue("P", last[1:5], parse(last).counter + 1, 1)[0][0]
        taken = parts_of_number(job, following) or self._workshop.belongs_elsewhere(following, "")
        return "" if taken or why_void(self._workshop.shop, following) else following

    def _last_of(self, job: Job) -> str:
        """The label put on last, as the records of the job tell; asked once, after a start."""
        came_off = [one for one in job.records.values() if one.typ == "part.taken_off" and one.body.get("number")]
        self._last = str(max(came_off, key=display_order).body["number"]) if came_off else ""
        return self._last

    # the queue

    def waiting(self) -> list[OnItsWay]:
        """What waits at this tablet; what was taken back does not wait any more."""
        return [one for one in waiting(self._workshop.shop, self._here) if self._stands(one)]

    def elsewhere(self) -> list[OnItsWay]:
        """What waits at other tablets and is printed there."""
        return [one for one in waiting(self._workshop.shop) if one.tablet != self._here]

    def perhaps(self) -> list[OnItsWay]:
        """What was sent to paper, and nobody knows whether it came there."""
        return perhaps_printed(self._workshop.shop)

    @property
    def _here(self) -> str:
        return tablet_of(self._workshop.home.dev)

    def _stands(self, one: OnItsWay) -> bool:
        if one.blank or one.number[0] != "P":
            return True
        return bool(one.job and parts_of_number(self._workshop.job(one.job).job, one.number))

    # the stock

    def shelf(self) -> Shelf:
        """The stocks there are, the shop's own among them."""
        from teardown_app.labels.stock_file import shelf_of

        return shelf_of(self._workshop.home.path)

    def stock(self) -> Stock:
        """The stock in use, to be shown; where the kept one is gone or wrong another, on which nothing is printed."""
        from teardown_app.labels.stock_file import shelf_of

        there = self.shelf().stocks
        others = [*there.values(), shelf_of().find(FIRST_STOCK)]
        return there.get(self._kept) or there.get(FIRST_STOCK) or others[0]

    def in_use(self) -> Stock:
        """The stock in use, to be printed on; refuses while the kept one is gone or wrong."""
        from teardown_app.labels.stock import StockFault

        try:
            return self.shelf().find(self._kept)
        except StockFault as fault:
            refuse(fault.wrong, "Touch the stock that lies in the printer.")

    def no_stock(self) -> str:
        """Why nothing can be printed on the kept stock, in words; empty when it can."""
        try:
            self.in_use()
        except Refused as fault:
            return f"{fault.wrong} {fault.instead}"
        return ""

    @property
    def _kept(self) -> str:
        return str(self._notes.read("labels").get("stock", FIRST_STOCK))

    def use(self, stock: str) -> None:
        """Takes another stock; a new sheet begins at its first label."""
        self._notes.keep("labels", {"stock": stock})
        self.start_at = 1
