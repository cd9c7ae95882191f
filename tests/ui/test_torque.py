"""A joint at the assembly bench: once the shop has a torque wrench, a torque counts only with one. Invented data."""

from __future__ import annotations

from typing import Any

import pytest

from teardown_app.domain.places.joint import passes_left
from teardown_app.workflows.configuration import received
from teardown_app.workflows.count import count
from teardown_app.workflows.hardware import move
from teardown_app.workflows.instrument import give_instrument
from tests.ui.hands import Hand, at

SCREWS = "20.90"
"""Four screws of the pump's sample bill: one pass of 1.5 N m."""


@pytest.fixture
def bench(hand: Hand) -> Hand:
    """What they hold stayed fitted; the screws are counted and in."""
    at(hand, "pump")
    desk, workshop = hand.desk, hand.desk.workshop
    held = list(desk.job.bill.holds(SCREWS))
    for draft in (
        lambda act: received(act, held, as_="left fitted", why="not ordered"),
        lambda act: count(act, [SCREWS], 4),
        lambda act: move(act, [SCREWS], {"put in": "all"}),
    ):
        workshop.record(draft(workshop.act("MK", desk.job)), "MK")
    return hand


def wrench(hand: Hand, name: str, **said: str) -> str:
    """One more torque wrench in the register; its number."""
    workshop = hand.desk.workshop
    (number,), issued = workshop.new_numbers("M", 1)
    given = {"reads": "torque wrench", "name": name, "unit": "N m", "low": "0.5", "high": "5"}
    given |= {"due": "2099-12-31", **said}
    workshop.record([issued, *give_instrument(workshop.shop_act("MK"), number, out=False, **given)], "MK")
    return number


def tighten(hand: Hand, step: str = "Torqued 100 %") -> None:
    hand.touch("Assembly")
    hand.desk.screen.choose(SCREWS)  # type: ignore[attr-defined]
    hand.touch(step)


def last(hand: Hand) -> dict[str, Any]:
    """The last torque."""
    return dict(next(one for one in reversed(hand.desk.job.records.values()) if one.typ == "joint.torqued").body)


def due(hand: Hand) -> bool:
    return bool(passes_left(hand.desk.job, hand.desk.job.positions[SCREWS]))


def test_without_a_wrench_in_the_register_it_is_one_touch(bench: Hand) -> None:
    tighten(bench)
    assert bench.view.field is None and "instrument" not in last(bench) and not due(bench)


def test_the_wrench_is_asked_once_and_the_torque_counts(bench: Hand) -> None:
    number = wrench(bench, "click 1")
    tighten(bench)
    assert bench.view.field and bench.view.field.choices[0] == f"{number} click 1, due 2099-12-31"
    bench.enter(bench.view.field.choices[0])
    assert last(bench)["instrument"] == number and not due(bench)
    bench.desk.open("open joint", key=SCREWS)
    bench.enter("seal pinched")
    assert due(bench)
    tighten(bench)
    assert bench.view.field is None and last(bench)["instrument"] == number and not due(bench)


def test_another_wrench_than_the_last_can_be_named_and_what_is_wrong_with_one_is_said(bench: Hand) -> None:
    first, late = wrench(bench, "click 1"), wrench(bench, "click 2", due="2020-01-31")
    bench.desk.settings.use_instrument("torque wrench", first)
    tighten(bench, "With another wrench")
    assert bench.view.field
    offered = bench.view.field.choices
    assert offered[0].startswith(first) and offered[1].startswith(f"{late} was due on 31 January")
    bench.enter(offered[1])
    assert last(bench)["instrument"] == late and due(bench)
    assert bench.desk.settings.instrument_for("torque wrench") == first


def test_where_no_wrench_serves_a_person_looks(bench: Hand) -> None:
    """Nothing is proposed there that would not count."""
    wrench(bench, "click 1", due="2020-01-31")
    bench.touch("Assembly")
    bench.desk.screen.choose(SCREWS)  # type: ignore[attr-defined]
    assert bench.view.main is None or not bench.view.main.says.startswith("Torqued")


def test_the_wrench_is_scanned_where_it_is_asked_which_one(bench: Hand) -> None:
    number = wrench(bench, "click 1")
    tighten(bench)
    bench.scan(number)
    assert bench.view.field is None and last(bench)["instrument"] == number and not due(bench)


def test_a_wrong_scan_at_the_question_tightens_nothing(bench: Hand) -> None:
    """A foreign code leaves the question open; another label of the shop is said for what it is."""
    serves, number = wrench(bench, "click 1"), wrench(bench, "bore gauge 3", reads="bore gauge")
    records = len(bench.desk.job.records)
    tighten(bench)
    bench.scan("4012345678901")
    assert bench.view.field and bench.view.field.choices[0].startswith(serves)
    bench.scan(number)
    assert f"{number} is bore gauge 3, a measuring instrument" in bench.view.scan.says
    tighten(bench)
    bench.scan(bench.desk.roll[0])
    assert due(bench) and len(bench.desk.job.records) == records
