"""Attempts on units that change places: on the bench, by a slip, with a twin, with what sits two levels down.

Each story says what a shop would have suffered."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.open_points.story import line
from tests.open_points.tablets import JOB
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale
from tests.proof.test_attempts_units import INSIDE, OVER, build, pump_in, pump_off, scrap

# -- slips of the scanner ------------------------------------------------------------------------------


def scanned_wrong(points: Twin | App) -> tuple[Tale, str]:
    """The pump goes back in, but the record names a spare from the shelf. Gives the pump."""
    tale, pump, _ = pump_in(points)
    spare = tale.bring("PN-20")
    tale.say("disposition.given", spare, as_="spare")
    tale.out(pump, "20")
    tale.fit(spare, "20")
    return tale, pump


def test_a_pump_that_changed_with_a_spare_and_back_is_asked_its_inside(points: Twin | App) -> None:
    """By the records a spare was built up in between; nobody can tell that it was not, and to say it again is true."""
    tale, pump = scanned_wrong(points)
    spare = tale.records(JOB)[-1].ent[0]
    tale.out(spare, "20")
    tale.fit(pump, "20")
    assert sorted(tale.open_now()) == INSIDE
    build(tale, next(each.ent[0] for each in tale.records(JOB) if each.body.get("out_of") == "20.10"))
    assert tale.open_now() == []


def test_a_wrong_scan_that_release_took_back_costs_nothing(points: Twin | App) -> None:
    """A pump would have been taken apart because of a slip that somebody put right at once."""
    tale, pump = scanned_wrong(points)
    fitted = tale.records(JOB)[-1]
    tale.take_back(fitted, by="RR")
    tale.fit(pump, "20")
    assert sorted(tale.open_now()) == INSIDE, "a helper's word alone undoes no fitting"
    tale.take_back(fitted, by="EE", reference="NC-1")
    assert tale.open_now() == []


# -- a unit on the bench -------------------------------------------------------------------------------


@pytest.mark.parametrize("is_first", [True, False], ids=["the successor came before", "the successor came after"])
def test_a_pump_that_cracks_on_the_bench(points: Twin | App, is_first: bool) -> None:
    """Never fitted, it would have left its motor to the next one; what was built into the next one stays there."""
    tale, pump, motor = pump_off(points)
    successor = tale.bring("PN-20", meant_for="20") if is_first else ""
    build(tale, motor)
    scrap(tale, pump)
    successor = successor or tale.bring("PN-20", meant_for="20")
    tale.fit(tale.ready(successor), "20")
    assert sorted(tale.open_now()) == ([] if is_first else INSIDE)
    if not is_first:
        build(tale, motor)
    assert tale.open_now() == []


def test_a_successor_that_is_built_up_after_the_crack(points: Twin | App) -> None:
    """Who scraps first and builds then is asked nothing twice."""
    tale, pump, motor = pump_off(points)
    scrap(tale, pump)
    build(tale, motor)
    tale.fit(tale.ready(tale.bring("PN-20", meant_for="20")), "20")
    assert tale.open_now() == []


# -- two of one number ---------------------------------------------------------------------------------


def twins(points: Twin | App) -> tuple[Tale, list[str], list[str]]:
    """Two equal pumps are off, their motors refurbished and in. Gives pumps and motors."""
    tale = Tale(points, line("20", "assembly", quantity=Decimal(2)), line("20.10"))
    pumps = [tale.ready(tale.off(f"20/{n}")) for n in (1, 2)]
    motors = [tale.fit_ready(f"20/{n}.10") for n in (1, 2)]
    return tale, pumps, motors


def test_twins_that_change_places_take_their_motors_along(points: Twin | App) -> None:
    """One had a motor with a new bearing and one had not: each record would have been of the other pump."""
    tale, pumps, motors = twins(points)
    for n, pump in zip((2, 1), pumps, strict=True):
        tale.fit(pump, f"20/{n}")
    assert sorted(tale.open_now()) == [f"{OVER}|20/1|20/1.10", f"{OVER}|20/2|20/2.10"]
    for n, motor in zip((2, 1), motors, strict=True):
        tale.fit(motor, f"20/{n}.10")
    assert tale.open_now() == []


def test_a_slip_with_a_twin_that_was_taken_back_is_put_right_by_fitting_once_more(points: Twin | App) -> None:
    """The own pump would never have gone in again: whatever was fitted into it counted for nothing, for good."""
    tale, pumps, motors = twins(points)
    tale.fit(pumps[1], "20/1")
    tale.take_back(tale.records(JOB)[-1], by="RR")
    assert "missing|20/1.10|" in tale.open_now(), "whose motor it is, nobody can tell from the records"
    tale.fit(motors[0], "20/1.10")
    assert "missing|20/1.10|" not in tale.open_now(), "said anew, it is in, and the pump may go over it"
    for n, pump in zip((1, 2), pumps, strict=True):
        tale.fit(pump, f"20/{n}")
    assert tale.open_now() == []


def test_twins_that_go_back_where_they_were_keep_theirs(points: Twin | App) -> None:
    """The plain way, and nobody is asked anything."""
    tale, pumps, _ = twins(points)
    for n, pump in zip((1, 2), pumps, strict=True):
        tale.fit(pump, f"20/{n}")
    assert tale.open_now() == []


def test_a_unit_within_a_unit_goes_with_the_outer_one(points: Twin | App) -> None:
    """Two levels down a bearing would have been in the new pump by the record of the old one."""
    tale = Tale(points, line("20", "assembly"), line("20.10", "assembly"), line("20.10.10"))
    pump, motor, bearing = (tale.ready(tale.off(key)) for key in ("20", "20.10", "20.10.10"))
    tale.fit(bearing, "20.10.10")
    tale.fit(motor, "20.10")
    tale.fit(pump, "20")
    assert tale.open_now() == []
    tale.out(pump, "20")
    scrap(tale, pump)
    tale.fit(tale.ready(tale.bring("PN-20", meant_for="20")), "20")
    tale.fit(motor, "20.10")
    assert tale.open_now() == [f"{OVER}|20.10|20.10.10"]
    tale.fit(bearing, "20.10.10")
    assert tale.open_now() == []
