"""A unit is scrapped after its inside was fitted: the assembly bench asks whether that is in the next one."""

from __future__ import annotations

from teardown_app.domain.parts.filling import gone_along, holder, place_of
from teardown_app.domain.parts.parts import number_of, parts
from teardown_app.domain.places.place import in_the_way
from teardown_app.ui.view import Fact
from teardown_app.workflows.bring_in import bring_in
from teardown_app.workflows.disposition import judge
from teardown_app.workflows.take_off import take_off
from teardown_app.workflows.take_out import take_out
from tests.ui.hands import Hand, answer_tag, at, clear_points, follow, make_good, take_apart


def scrapped_unit(hand: Hand) -> str:
    """A place whose unit was built up, fitted, taken out and scrapped, with what was in it recorded in its places."""
    at(hand, "BRD-25")
    take_apart(hand)
    desk, shop = hand.desk, hand.desk.workshop
    for key in [one.key for one in desk.job.positions.values() if one.line.kind == "assembly"]:
        shop.record(take_off(shop.act("MK", desk.job), key, number=answer_tag(desk)), "MK")
    make_good(hand)
    clear_points(hand)
    job = desk.job
    units = [one for one in job.positions.values() if one.line.kind == "assembly" and holder(job, one.key)]
    unit = next(
        one for one in units if not in_the_way(job, one) and any(holder(job, each.key) for each in job.beneath(one.key))
    )
    part = holder(job, unit.key)
    shop.record(take_out(shop.act("MK", job), [part], why="cracked"), "MK")
    shop.record(judge(shop.act("MK", job), [part], as_="scrap", why="cracked"), "MK")
    return next(one.key for one in job.beneath(unit.key) if gone_along(job, one.key))


def test_what_was_in_a_scrapped_unit_is_asked_for_and_may_be_said_to_be_in_the_next(hand: Hand) -> None:
    """A pump would have been shipped without the motor that went into the bin with the one before."""
    key = scrapped_unit(hand)
    job, part = hand.desk.job, gone_along(hand.desk.job, key)
    hand.touch("Assembly")
    hand.row(key)
    assert hand.view.card is not None and number_of(job, part) in hand.view.card.word
    assert hand.view.main is not None and hand.view.main.says.startswith("Take out")
    assert any(isinstance(one, Fact) and "which is gone" in one.says for one in hand.view.card.facts)
    hand.touch("It is in this one")
    assert holder(hand.desk.job, key) == part


def test_a_new_unit_goes_in_with_all_that_came_with_it(hand: Hand) -> None:
    """A bought unit would have had to be fitted at the desk: here too it is one touch, and the office agrees."""
    key = scrapped_unit(hand)
    desk, shop = hand.desk, hand.desk.workshop
    above = desk.job.positions[key].parent
    wanted = desk.job.positions[above].line.part_number
    inside = [one.key for one in desk.job.beneath(above)]
    for one in [one for one in inside if gone_along(desk.job, one)]:
        shop.record(take_out(shop.act("MK", desk.job), [gone_along(desk.job, one)], why="went along"), "MK")
    number = answer_tag(desk)
    shop.record(bring_in(shop.act("MK", desk.job), above, part_number=wanted, origin="new", number=number), "MK")
    unit = next(part for part in parts(desk.job) if number_of(desk.job, part) == number)
    follow(hand, unit, ("Fit it", "To its assembly"))
    hand.touch("Assembly")
    hand.scan(number)
    assert hand.view.card is not None and hand.view.card.far == "NO"
    fitted = next(part for part in parts(desk.job) if place_of(desk.job, part) and number_of(desk.job, part))
    hand.scan(number_of(desk.job, fitted))
    assert desk.screen.name == "part", "another label in between answers nothing"
    hand.touch("Assembly")
    assert not any(one.says.startswith("All inside") for one in (hand.view.main, *hand.view.quiet) if one)
    hand.scan(number)
    hand.touch("All inside came with it")
    assert holder(desk.job, above) == unit
    assert any(one.kind == "to be accepted" and one.position == above for one in desk.points())
