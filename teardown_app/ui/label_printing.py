"""Printing at the tablet: drawn and sent off the screen's thread, recorded before and after, stopped by a touch.

Large libraries are loaded when the first label is drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from teardown_app.domain.record import Draft
from teardown_app.ui.slow import Report
from teardown_app.ui.view import ACCEPT
from teardown_app.ui.words import counted
from teardown_app.workflows.act import Refused, refuse
from teardown_app.workflows.label_queue import back_in_the_queue, printed, sent

if TYPE_CHECKING:
    from teardown_app.labels.label import Label
    from teardown_app.labels.order import Order
    from teardown_app.ui.desk import Desk


def print_queued(desk: Desk) -> None:
    """Everything that waits at this tablet."""
    queue = [(one.number, desk.workshop.label_for(one.number, one.job)) for one in desk.labels.waiting()]
    labels = [label for _, label in queue if label is not None]
    if not labels:
        refuse("No label waits to be printed.", "Labels queue up here when parts are tagged without a roll.")
    print_labels(desk, labels, f"labels-{labels[0].number}", queued=[label.number for label in labels])


def print_labels(
    desk: Desk, labels: Sequence[Label], name: str, *, queued: Sequence[str] = (), issued: Sequence[Draft] = ()
) -> None:
    """Prints labels on the stock in use. `queued` are those that leave the queue by it; `issued` says that their
    numbers are new, and is recorded at once, before anybody else can be given them."""
    from teardown_app.labels.order import order

    by, mine = desk.session.who(), desk.labels
    desk.workshop.shop_act(by).needs("record")
    folder = desk.workshop.home.path / "labels"
    ordered = order(labels, mine.stock(), folder, name, mine.printers, start_at=mine.start_at)
    if issued:
        desk.workshop.record(issued, by)
    desk.slow.start("Drawing labels:", ordered.draw, lambda pdf: _send(desk, ordered, pdf, queued, by))


def _send(desk: Desk, ordered: Order, pdf: bytes, queued: Sequence[str], by: str) -> None:
    """It is drawn: what is sent is recorded, then it is written and sent."""
    if queued:
        desk.workshop.record(sent(desk.workshop.shop_act(by), queued, where=ordered.where), by)

    def send(report: Report) -> str | Refused:
        try:
            return ordered.send(pdf, report)
        except Refused as fault:
            return fault

    says = f"Sending {counted(len(ordered.labels), 'label')} to {ordered.printer or 'a file'}:"
    desk.slow.start(says, send, lambda how: _sent(desk, ordered, queued, by, how))


def _sent(desk: Desk, ordered: Order, queued: Sequence[str], by: str, how: str | Refused) -> None:
    """It went through, or it did not: what the printer certainly did not take waits again."""
    if isinstance(how, Refused):
        if queued and not getattr(how, "perhaps", False):
            act = desk.workshop.shop_act(by)
            desk.workshop.record(back_in_the_queue(act, queued, "the printer did not take it"), by)
        raise how
    if queued:
        desk.workshop.record(printed(desk.workshop.shop_act(by), queued, where=ordered.where), by)
    desk.labels.written = str(ordered.file)
    desk.labels.printers.used(ordered.stock, ordered.start_at, len(ordered.labels))
    desk.labels.start_at = 1
    desk.say(f"{counted(len(ordered.labels), 'label')} {how}", ACCEPT)
