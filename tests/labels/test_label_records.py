"""How the records of several tablets become one queue: against a naive reading, in any order of arrival."""

from __future__ import annotations

from random import Random

import pytest

from teardown_app.domain.ledger.record import SHOP, Record
from teardown_app.domain.shop.labels import on_their_way, perhaps_printed, tablet_of, waiting, why_void
from teardown_app.domain.shop.shop import Shop
from tests.open_points.tablets import Clock, Tablet

STANDS = {"label.queued": "waiting", "label.sent": "sent", "label.printed": "printed", "label.dropped": "dropped"}
NUMBERS = ("P7K3M0001B", "P7K3M00029", "P7K3M000CQ")


def tablets(count: int) -> list[Tablet]:
    """Tablets that all know the first person."""
    clock = Clock()
    made = [Tablet(f"t{n}~0", clock) for n in range(1, count + 1)]
    rights = ["record", "office"]
    made[0].write("AA", "person.given", ("person:AA",), {"code": "AA", "rights": rights}, journal=SHOP)
    for one in made[1:]:
        one.sync(made[0])
    return made


def tell(tablet: Tablet, typ: str, *numbers: str) -> Record:
    """Something of these labels is recorded."""
    body = {"numbers": list(numbers), "where": "printer", "why": "w", "job": "J"}
    return tablet.write("AA", typ, ("labels",), body, journal=SHOP)


def shop_of(records: list[Record]) -> Shop:
    """The shop as these records tell it, one by one."""
    shop = Shop()
    for record in records:
        shop.take(record)
    return shop


def test_tablets_that_differ_send_somebody_to_the_printer() -> None:
    """One queued it again while the other printed it: perhaps printed, until somebody who saw both says."""
    one, other = tablets(2)
    tell(one, "label.queued", NUMBERS[0])
    other.sync(one)
    tell(other, "label.sent", NUMBERS[0])
    tell(other, "label.printed", NUMBERS[0])
    tell(one, "label.queued", NUMBERS[0])
    one.sync(other)
    assert [each.number for each in perhaps_printed(shop_of(one.view(SHOP)))] == [NUMBERS[0]]
    tell(one, "label.printed", NUMBERS[0])
    assert on_their_way(shop_of(one.view(SHOP)), "") == []


def test_a_restored_tablet_keeps_its_queue() -> None:
    """The queue belongs to the tablet, whatever its incarnation; another tablet's is its own affair."""
    one, other = tablets(2)
    tell(one, "label.queued", NUMBERS[0])
    tell(other, "label.queued", NUMBERS[1])
    other.sync(one)
    shop = shop_of(other.view(SHOP))
    assert [each.number for each in waiting(shop, tablet_of("t1~3"))] == [NUMBERS[0]]
    assert [each.number for each in waiting(shop)] == list(NUMBERS[:2])


@pytest.mark.parametrize("seed", range(60))
def test_the_queue_is_that_of_a_naive_reading(seed: int) -> None:
    """Random histories of three tablets: a label stands as the words say that nobody who had seen them replaced; where
    these differ it was perhaps printed. Whatever the order of arrival."""
    rng = Random(seed)
    made, known = tablets(3), {}
    for _ in range(rng.randrange(3, 18)):
        tablet = rng.choice(made)
        if rng.random() < 0.35:
            tablet.sync(rng.choice(made))
            continue
        seen = frozenset(each.ref for each in tablet.view(SHOP))
        record = tell(tablet, rng.choice(list(STANDS)), *rng.sample(NUMBERS, rng.randrange(1, 3)))
        known[record.ref] = (record, seen)
    wanted = {}
    for number in NUMBERS:
        about = [(record, seen) for record, seen in known.values() if number in record.body["numbers"]]
        heads = [record for record, _ in about if not any(record.ref in seen for _, seen in about)]
        words = {STANDS[record.typ] for record in heads}
        word = words.pop() if len(words) == 1 else "sent" if words else ""
        if word in ("waiting", "sent"):
            wanted[number] = word
    records = list({each.ref: each for tablet in made for each in tablet.view(SHOP)}.values())
    for _ in range(3):
        rng.shuffle(records)
        assert {each.number: each.stands for each in on_their_way(shop_of(records), "")} == wanted


def test_void_is_void_whoever_says_it_again() -> None:
    """A union: the first word of it is shown, and nothing takes it back."""
    one, other = tablets(2)
    for tablet, why in ((one, "torn"), (other, "lost")):
        tablet.write("AA", "label.voided", ("number:" + NUMBERS[0],), {"number": NUMBERS[0], "why": why}, journal=SHOP)
    one.sync(other)
    assert why_void(shop_of(one.view(SHOP)), NUMBERS[0]).endswith("by AA: torn")
    assert why_void(shop_of(one.view(SHOP)), NUMBERS[1]) == ""
    nobody = other.write("ZZ", "label.voided", ("x",), {"number": NUMBERS[1], "why": "w"}, journal=SHOP)
    assert why_void(shop_of([*other.view(SHOP)]), NUMBERS[1]) == "", f"{nobody.act} has no right to record"
