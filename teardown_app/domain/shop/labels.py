"""Labels on their way to paper, as the shop's records tell it: what waits, what was perhaps printed, what is void.

Holds no paper and no printer; what a label says is in the labels room.
"""

from __future__ import annotations

from attrs import frozen

from teardown_app.domain.ledger.entry import display_order
from teardown_app.domain.ledger.kinds.shop import SENT, WAITING
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.shop.shop import Shop

THING = "number:"
ON_A_ROLL = "new roll"
"""Why a label is queued that stands for nothing yet: its roll did not come out."""


@frozen
class OnItsWay:
    """A label that is not on paper for certain: its number, job, why it was queued, where it was sent, which tablet;
    `blank` where it is one of a roll."""

    number: str
    stands: str
    job: str
    why: str
    where: str
    tablet: str
    since: str
    blank: bool = False


def waiting(shop: Shop, tablet: str = "") -> list[OnItsWay]:
    """Labels that are to be printed, in the order in which they were queued; those of one tablet where one is named,
    for what is queued at one is printed at one."""
    return [one for one in on_their_way(shop, "") if one.stands == WAITING and tablet in ("", one.tablet)]


def perhaps_printed(shop: Shop) -> list[OnItsWay]:
    """Labels that were sent to paper, and nobody recorded that they came there."""
    return [one for one in on_their_way(shop, "") if one.stands == SENT]


def tablet_of(dev: str) -> str:
    """The tablet, whatever its incarnation: the queue of one that was restored is still its own.

    >>> tablet_of("t7k3m9~2")
    't7k3m9'
    """
    return dev.partition("~")[0]


@remembered
def on_their_way(shop: Shop, _all: str) -> list[OnItsWay]:
    """Both, in the order in which they were queued."""
    found = []
    for thing in shop.things("label"):
        value = shop.value(thing, "label")
        if value is None or value.word not in (WAITING, SENT):
            continue
        entries = sorted(shop.entries(thing, "label"), key=lambda entry: display_order(entry.record))
        queued = [entry for entry in entries if entry.value.word == WAITING] or entries
        job = next((one.value.job for one in reversed(entries) if one.value.job), "")
        last = queued[-1].record
        blank = any(one.value.why == ON_A_ROLL for one in entries)
        found.append((
            display_order(last),
            OnItsWay(thing.removeprefix(THING), value.word, job, value.why,
                     value.where, tablet_of(last.dev), last.wall[:16].replace("T", " "), blank),
        ))  # fmt: skip
    order = {number: n for n, number in enumerate(_as_named(shop))}
    return [one for _, one in sorted(found, key=lambda pair: (pair[0], order.get(pair[1].number, 0)))]


def _as_named(shop: Shop) -> list[str]:
    """Numbers in the order in which records of queueing name them."""
    records = [one for one in shop.records.values() if one.typ == "label.queued"]
    return [str(number) for record in records for number in record.body.get("numbers", ())]


def why_void(shop: Shop, number: str) -> str:
    """When and why a label was made void, in words; empty for one that may be used."""
    for entry in shop.entries(THING + number, "label_voided"):
        return f"on {entry.record.wall[:10]} by {entry.record.act}: {entry.value}"
    return ""
