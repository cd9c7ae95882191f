"""Printing at the tablet: drawn and sent off the screen's thread, recorded before and after, stopped by a touch.

Large libraries are loaded when the first label is drawn.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, NoReturn

from attrs import frozen

from teardown_app.domain.ledger.record import Draft
from teardown_app.ui.slow import Report
from teardown_app.ui.view import ACCEPT, UNSURE
from teardown_app.ui.words import counted
from teardown_app.workflows.act import Refused, refuse
from teardown_app.workflows.label_queue import back_in_the_queue, printed, roll_waits, sent, waits_said

if TYPE_CHECKING:
    from teardown_app.labels.label import Label
    from teardown_app.labels.order import Order
    from teardown_app.ui.desk import Desk


@frozen
class Printing:
    """An order under way: who gave it, which of its labels leave the queue by it, which numbers are new by it."""

    ordered: Order
    by: str
    queued: tuple[str, ...] = ()
    roll: tuple[str, ...] = ()


def print_queued(desk: Desk) -> None:
    """Everything that waits at this tablet."""
    labels = [label for label in map(desk.workshop.label_in_queue, desk.labels.waiting()) if label is not None]
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
    desk.slow.must_be_free()
    folder = desk.workshop.home.path / "labels"
    ordered = order(labels, mine.in_use(), folder, name, mine.printers, start_at=mine.start_at)
    _checked(desk, ordered)
    if issued:
        desk.workshop.record(issued, by)
    roll = tuple(label.number for label in labels) if issued else ()
    one = Printing(ordered, by, tuple(queued), roll)
    desk.slow.start(
        "Drawing labels:", _or_fault("The labels could not be drawn", ordered.draw), lambda pdf: _send(desk, one, pdf),
        holds=True, stopped=lambda: _stopped(desk, one, ""),
    )  # fmt: skip


def _checked(desk: Desk, ordered: Order) -> None:
    """Refuses what could not be drawn, and says what the letters lack."""
    ordered.check()
    if ordered.lacks:
        desk.say(ordered.lacks, UNSURE)


def _or_fault(wrong: str, work: Callable[[Report], Any]) -> Callable[[Report], Any]:
    """The work, giving back what went wrong in it."""

    def doing(report: Report) -> Any:
        try:
            return work(report)
        except Refused as fault:
            return fault
        except (OSError, ValueError, MemoryError) as fault:
            return Refused(f"{wrong}: {fault or type(fault).__name__}.", "Try it once more, with fewer labels.")

    return doing


def _send(desk: Desk, one: Printing, pdf: bytes | Refused) -> None:
    """It is drawn: what is sent is recorded, then it is written and sent."""
    if isinstance(pdf, Refused):
        _failed(desk, Printing(one.ordered, one.by, roll=one.roll), pdf)  # what waited waits still
    if one.queued:
        desk.workshop.record(sent(desk.workshop.shop_act(one.by), one.queued, where=one.ordered.where), one.by)
    says = f"Sending {counted(len(one.ordered.labels), 'label')} to {one.ordered.printer or 'a file'}:"
    desk.slow.start(
        says, _or_fault("The labels could not be sent", lambda report: one.ordered.send(pdf, report)),
        lambda how: _sent(desk, one, how), holds=True, stopped=lambda: _stopped(desk, one, one.ordered.where),
    )  # fmt: skip


def _sent(desk: Desk, one: Printing, how: str | Refused) -> None:
    """It went through, or it did not: what the printer certainly did not take waits again."""
    if isinstance(how, Refused):
        _failed(desk, one, how)
    ordered = one.ordered
    if one.queued:
        desk.workshop.record(printed(desk.workshop.shop_act(one.by), one.queued, where=ordered.where), one.by)
    desk.labels.written = str(ordered.file)
    desk.labels.printers.used(ordered.stock, ordered.start_at, len(ordered.labels))
    desk.labels.start_at = 1
    care = "".join(f" {said}" for said in (ordered.caution, ordered.lacks) if said)
    desk.say(f"{counted(len(ordered.labels), 'label')} {how}{care}", UNSURE if care else ACCEPT)


def _failed(desk: Desk, one: Printing, fault: Refused) -> NoReturn:
    """Says why, after what was in the queue is in it again and a roll's new numbers are."""
    perhaps, act = getattr(fault, "perhaps", False), desk.workshop.shop_act(one.by)
    if one.queued and not perhaps:
        desk.workshop.record(back_in_the_queue(act, one.queued, "the printer did not take it"), one.by)
    if not one.roll:
        raise fault
    desk.workshop.record(roll_waits(act, one.roll, perhaps_at=one.ordered.where if perhaps else ""), one.by)
    raise Refused(f"{fault.wrong} {waits_said(one.roll)}", fault.instead)


def _stopped(desk: Desk, one: Printing, where: str) -> None:
    """A person stopped it: new numbers of a roll are in the queue, perhaps printed where it was sent already."""
    if one.roll:
        drafts = roll_waits(desk.workshop.shop_act(one.by), one.roll, perhaps_at=where)
        desk.workshop.record(drafts, one.by)
        desk.say(f"Stopped. {waits_said(one.roll)}", UNSURE)
