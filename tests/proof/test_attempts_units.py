"""Attempts on what sits inside a unit: a pump is built up, goes, and another one takes its place.

Each story says what a shop would have suffered."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from teardown_app.domain.bill.bill import Check
from tests.open_points.story import line
from tests.open_points.tablets import Tablet
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale, screws

INSULATION = Check("insulation", type="insulation", when=("fitted",))
OVER = "fitted over an empty position"
UNACCOUNTED = "tagged but unaccounted for"
INSIDE = [
    "check due|20.10|check/insulation//fitted",
    "consumable not renewed or expired|20.50|",
    f"{OVER}|20|20.10",
    "hardware does not balance|20.40|",
    "joint not torqued or due again|20.40|",
]
"""All that is asked inside a bare pump; that nobody knows where the old motor is, is told by its hole alone."""


def pump_off(points: Twin | App) -> tuple[Tale, str, str]:
    """A pump is off, and its motor out of it. Gives both."""
    rows = (
        line("20", "assembly"), line("20.10", checks=("insulation",)),
        screws("20.40", 1, torque=6, holds=("20.10",)), line("20.50", "consumable"),
    )  # fmt: skip
    tale = Tale(points, *rows, checks=(INSULATION,))
    pump = tale.off("20")
    return tale, pump, tale.ready(tale.off("20.10"))


def build(tale: Tale, motor: str, on: Tablet | None = None) -> None:
    """A pump is built up: motor, screw and its torque, seal; the insulation is read."""
    tale.fit(motor, "20.10", on=on)
    tale.say("hardware.counted", "@20.40", on=on, found=1)
    tale.say("hardware.moved", "@20.40", on=on, put_in=1)
    tale.tighten("20.40", on=on)
    tale.say("consumable.renewed", "@20.50", on=on, as_="renewed")
    tale.read("@20.10", "insulation", "accept", on=on)


def pump_in(points: Twin | App) -> tuple[Tale, str, str]:
    """The pump is built up and in. Gives it and its motor."""
    tale, pump, motor = pump_off(points)
    build(tale, motor)
    tale.fit(tale.ready(pump), "20")
    assert tale.open_now() == []
    return tale, pump, motor


def scrap(tale: Tale, part: str) -> None:
    """A part is beyond repair."""
    tale.say("disposition.given", part, as_="scrap")


def exchanged(points: Twin | App) -> tuple[Tale, str]:
    """The pump cracked after it was in, and a bare one sits in its place. Gives the motor of the old one."""
    tale, pump, motor = pump_in(points)
    tale.out(pump, "20")
    scrap(tale, pump)
    tale.fit(tale.ready(tale.bring("PN-20", meant_for="20")), "20")
    return tale, motor


# -- a unit that was in --------------------------------------------------------------------------------


def test_a_bare_pump_has_nothing_of_the_one_that_cracked(points: Twin | App) -> None:
    """The tool would have shipped without a motor: the one in the scrap bin counted, and its insulation too."""
    tale, _ = exchanged(points)
    assert sorted(tale.open_now()) == INSIDE
    tale.close()
    assert not tale.is_closed()


def test_the_old_motor_goes_into_the_new_pump(points: Twin | App) -> None:
    """Nobody is stuck with a motor that is recorded where it sits: fitted once more, it is in the new one."""
    tale, motor = exchanged(points)
    tale.fit(motor, "20.10")
    assert OVER not in {key.partition("|")[0] for key in tale.open_now()}
    build(tale, motor)
    assert tale.open_now() == []
    tale.close()
    assert tale.is_closed()


def test_a_new_motor_goes_into_the_new_pump(points: Twin | App) -> None:
    """The old one went to scrap inside its pump, and that is said of it too."""
    tale, motor = exchanged(points)
    tale.out(motor, "20.10")
    assert tale.stands(UNACCOUNTED) == [motor], "it claims the hole no more, so somebody says what became of it"
    scrap(tale, motor)
    assert sorted(tale.open_now()) == INSIDE
    build(tale, tale.ready(tale.bring("PN-20.10", meant_for="20.10")))
    assert tale.open_now() == []


def test_the_old_motor_is_asked_for_once_another_one_fills_its_place(points: Twin | App) -> None:
    """A motor would have left the shop in a scrapped pump, and nobody would have written it off."""
    tale, motor = exchanged(points)
    assert tale.stands(UNACCOUNTED) == [], "its hole says it"
    build(tale, tale.ready(tale.bring("PN-20.10", meant_for="20.10")))
    assert tale.open_now() == [f"{UNACCOUNTED}|{motor}|"]
    tale.concede(f"{UNACCOUNTED}|{motor}|", by="KK")
    assert tale.open_now() == []


def test_a_motor_put_in_by_who_had_not_heard_that_the_pump_is_gone(points: Twin | App) -> None:
    """The other bench would have built up the cracked pump, and the bare one would have been ready by it."""
    tale, pump, motor = pump_in(points)
    other = tale.second()
    tale.out(pump, "20")
    scrap(tale, pump)
    tale.fit(tale.ready(tale.bring("PN-20", meant_for="20")), "20")
    build(tale, motor, on=other)
    tale.carry()
    assert sorted(tale.open_now()) == INSIDE
    other.sync(tale.first)
    build(tale, motor, on=other)
    tale.carry()
    assert tale.open_now() == []


def test_a_pump_that_goes_back_where_it_was_keeps_its_inside(points: Twin | App) -> None:
    """A pump that was lifted out for a look beneath it would have been taken apart."""
    tale, pump, _ = pump_in(points)
    tale.out(pump, "20")
    assert sorted(tale.open_now()) == ["missing|20|", f"{UNACCOUNTED}|{pump}|"]
    tale.fit(pump, "20")
    assert tale.open_now() == []


GONE: dict[str, Callable[[Tale, str], object]] = {
    "scrap": scrap,
    "spare": lambda t, p: t.say("disposition.given", p, as_="spare"),
    "sent back": lambda t, p: t.say("disposition.given", p, as_="return unrepaired"),
    "lent": lambda t, p: t.say("goods.handed_over", p, by="OO", to="J7K3M00024", consent="mail 3"),
}


@pytest.mark.parametrize("how", GONE)
def test_a_pump_that_goes_takes_its_inside_along(points: Twin | App, how: str) -> None:
    """The place would have been empty, and its motor fitted in the air."""
    tale, pump, _ = pump_in(points)
    tale.out(pump, "20")
    GONE[how](tale, pump)
    alone = [key.replace(f"{OVER}|20|20.10", "missing|20.10|") for key in INSIDE]
    debt = [f"debt|{pump}|"] if how == "lent" else []
    assert sorted(tale.open_now()) == sorted([*alone, *debt, "missing|20|"])


def test_a_pump_that_came_back_from_the_job_next_door_brings_its_inside(points: Twin | App) -> None:
    """What was lent for a day would have been built up a second time."""
    tale, pump, _ = pump_in(points)
    tale.out(pump, "20")
    GONE["lent"](tale, pump)
    tale.say("goods.given_back", pump, by="OO", job="J7K3M00024", consent="mail 4")
    tale.fit(tale.release(pump), "20")
    assert tale.open_now() == []


def test_a_tool_that_ships_without_its_pump_is_closed(points: Twin | App) -> None:
    """The customer keeps the place empty: nobody would have got past the motor of a pump that is in the bin."""
    tale, pump, motor = pump_in(points)
    tale.out(pump, "20")
    tale.out(motor, "20.10")
    for part in (pump, motor):
        scrap(tale, part)
    for key in [key for key in tale.open_now() if not key.startswith("check due")]:
        tale.concede(key)
    assert tale.open_now() == [], "where nothing sits, nothing is read"
    tale.close()
    assert tale.is_closed()


def test_screws_of_the_pump_that_is_gone_are_taken_out_of_no_other(points: Twin | App) -> None:
    """An honest shop would have had to say twice that its one screw is in."""
    tale, pump, motor = pump_in(points)
    tale.out(pump, "20")
    tale.say("hardware.moved", "@20.40", put_in=-1)
    tale.out(motor, "20.10")
    for part in (pump, motor):
        scrap(tale, part)
    tale.fit(tale.ready(tale.bring("PN-20.10", meant_for="20.10")), "20.10")
    tale.say("hardware.moved", "@20.40", put_in=1)
    tale.tighten("20.40")
    tale.say("consumable.renewed", "@20.50", as_="renewed")
    tale.read("@20.10", "insulation", "accept")
    tale.fit(tale.ready(tale.bring("PN-20", meant_for="20")), "20")
    assert tale.open_now() == []
