"""Labels queued, sent to paper, printed, dropped, made void; a part's label replaced by a new one that is queued."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from teardown_app.domain.ledger.record import SHOP
from teardown_app.domain.parts.parts import number_of
from teardown_app.domain.shop.labels import ON_A_ROLL, on_their_way, why_void
from teardown_app.domain.tags.tag import Tag
from teardown_app.workflows.act import Act, Drafts, ShopAct, refuse
from teardown_app.workflows.deed import PARTS, by_hand
from teardown_app.workflows.label import number_of_ours
from teardown_app.workflows.number import put_label, relabel

THINGS = ("labels",)
"""What records of the queue are about."""

MOST_AT_ONCE = 2000

BoundTo = Callable[[str], str]
"""A number -> what it stands for, in words; empty while it stands for nothing."""


def queue(act: ShopAct, numbers: Sequence[str], *, job: str = "", why: str = "") -> Drafts:
    """Labels are to be printed. `why` says why again: it came off, it cannot be read."""
    act.needs("record")
    for number in numbers:
        void = why_void(act.shop, number)
        if void:
            refuse(f"{number} was made void {void}.", "It is not printed again. Take a new number.")
    check_count(len(numbers))
    return [act.draft("label.queued", THINGS, numbers=list(numbers), job=job or None, why=why.strip() or None)]


def queue_for(act: Act, number: str) -> Drafts:
    """The label of something of this job is to be printed, in the act that gave it the number."""
    return queue(ShopAct(act.shop, act.by, act.now), [number], job=act.job.number)


def reprint(act: ShopAct, number: str, bound: BoundTo, *, job: str = "", why: str) -> Drafts:
    """The same number is printed again. `bound` tells what stands behind it; one that stands for nothing is refused."""
    number = number_of_ours(number).number
    if not why.strip():
        refuse("Printing a label again needs its reason.", "Say why: it came off, it cannot be read.")
    if any(one.number == number for one in on_their_way(act.shop, "")):
        refuse(f"{number} is in the queue already.", "Print what is queued.")
    if not bound(number):
        refuse(f"{number} stands for nothing yet.", "Take a new label from the roll and make this one void.")
    return queue(act, [number], job=job, why=why)


def sent(act: ShopAct, numbers: Sequence[str], *, where: str) -> Drafts:
    """Labels go to paper now: recorded first, so that a tablet that dies meanwhile says *perhaps printed*."""
    act.needs("record")
    check_count(len(numbers))
    return [act.draft("label.sent", THINGS, numbers=list(numbers), where=where)]


def printed(act: ShopAct, numbers: Sequence[str], *, where: str) -> Drafts:
    """They were handed over, or somebody saw them on paper."""
    act.needs("record")
    check_count(len(numbers))
    return [act.draft("label.printed", THINGS, numbers=list(numbers), where=where)]


def roll_waits(act: ShopAct, numbers: Sequence[str], *, perhaps_at: str = "") -> Drafts:
    """Numbers of a roll are issued and it did not come out: its labels wait. `perhaps_at` says where it perhaps did."""
    drafts = queue(act, numbers, why=ON_A_ROLL)
    return [*drafts, *sent(act, numbers, where=perhaps_at)] if perhaps_at else drafts


def waits_said(numbers: Sequence[str]) -> str:
    """The same in words."""
    many = f"numbers {numbers[0]} to {numbers[-1]} are" if len(numbers) > 1 else f"number {numbers[0]} is"
    return f"The {many} issued and in the label queue."


def back_in_the_queue(act: ShopAct, numbers: Sequence[str], why: str) -> Drafts:
    """The printer did not take them: they wait as before."""
    jobs = {one.number: one.job for one in on_their_way(act.shop, "")}
    by_job: dict[str, list[str]] = {}
    for number in numbers:
        by_job.setdefault(jobs.get(number, ""), []).append(number)
    return [draft for job, some in by_job.items() for draft in queue(act, some, job=job, why=why)]


def drop(act: ShopAct, numbers: Sequence[str], *, why: str) -> Drafts:
    """They are not to be printed any more."""
    act.needs("record")
    known = {one.number for one in on_their_way(act.shop, "")}
    strange = [number for number in numbers if number not in known]
    if strange or not numbers:
        refuse(f"{', '.join(strange) or 'Nothing'} is not in the queue.", "See what is.", "label queue")
    if not why.strip():
        refuse("Taking labels out of the queue needs its reason.", "Say why they are not wanted.")
    return [act.draft("label.dropped", THINGS, numbers=list(numbers), why=why)]


def void(act: ShopAct, number: str, bound: BoundTo, *, why: str, letters: str = "") -> Drafts:
    """A label was spoiled or lost before it was put on anything: its number is never used. `letters` are those of
    this tablet: what it or another known tablet has not issued yet is no label."""
    act.needs("record")
    tag = number_of_ours(number)
    number = tag.number
    _check_issued(act, tag, letters)
    before = why_void(act.shop, number)
    if before:
        refuse(f"{number} was made void already {before}.", "Nothing needs to be done.")
    what = bound(number)
    if what:
        refuse(
            f"{number} stands for {what}.",
            "Print it again, or replace it by a new number.",
            "label replace",
        )
    if not why.strip():
        refuse("Making a label void needs its reason.", "Say what became of it: spoiled in the printer, lost.")
    drafts = [act.draft("label.voided", ("number:" + number,), number=number, why=why.strip())]
    if any(one.number == number for one in on_their_way(act.shop, "")):
        drafts += drop(act, [number], why="made void")
    return drafts


def replace(act: Act, part: str, *, number: str, why: str) -> Drafts:
    """A part's label is lost or cannot be read: a new number, whose label is queued. The old one still answers."""
    old = number_of(act.job, part)
    drafts = relabel(act, part, number=number, why=why)
    shop = ShopAct(act.shop, act.by, act.now)
    if any(one.number == old for one in on_their_way(act.shop, "")):
        drafts = [*drafts, *drop(shop, [old], why=f"replaced by {number}")]
    return [*drafts, *queue(shop, [number], job=act.job.number, why=f"in place of {old}: {why}")]


def first_label(act: Act, part: str, *, number: str) -> Drafts:
    """A part that has no label gets a number, and its label is queued."""
    return [*put_label(act, part, number=number), *queue_for(act, number)]


def _check_issued(act: ShopAct, tag: Tag, letters: str) -> None:
    """Of a series that the records here do not know nothing can be said."""
    known = tag.incarnation == letters or "numbers:" + tag.incarnation in act.shop.things("issued")
    if known and tag.counter >= act.shop.next_counter(tag.incarnation, tag.letter):
        refuse(
            f"{tag.number} was not issued yet, as far as this tablet knows: there is no such label.",
            "Read the number again. A label of another tablet is made void there, or when its records have come.",
        )


def check_count(count: int) -> None:
    """Refuses more than are printed at once, and none."""
    if not 1 <= count <= MOST_AT_ONCE:
        refuse(f"{count} labels cannot be printed at once.", f"Take 1 to {MOST_AT_ONCE}.")


ROLL = by_hand(
    "label roll", SHOP, "{count} labels, {first} to {last}: {done}", "numbers.issued", "label.queued", "label.sent"
)
PRINT = by_hand("label print", SHOP, "{count} labels: {done}", "label.sent", "label.printed", "label.queued")
SEEN = by_hand("label seen", SHOP, "{count} labels are printed.", "label.printed", "label.queued")
REPRINT = by_hand("label reprint", SHOP, "{number} waits to be printed: {stands}", "label.queued")
REPLACE = by_hand(
    "label replace",
    PARTS,
    "{number} in place of {old}; its label waits to be printed. The old number still stands for the part.",
    "part.renumbered",
    "numbers.issued",
    "label.queued",
    "label.dropped",
)
VOID = by_hand(
    "label void", SHOP, "{number} is void: it will never be put on anything.", "label.voided", "label.dropped"
)
DROP = by_hand("label drop", SHOP, "{count} labels are not printed any more.", "label.dropped")
