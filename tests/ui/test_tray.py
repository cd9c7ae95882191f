"""A picture of a tray: a part counts once, a number of two parts stays out, of several carriers it is asked which."""

from __future__ import annotations

from typing import Any

import pytest

from teardown_app.domain.parts.parts import number_of, parts_of_number
from teardown_app.ui.view import Step
from teardown_app.workflows.number import relabel, same_part
from teardown_app.workflows.put import put
from teardown_app.workflows.shop import add_carrier, add_place
from tests.ui.hands import Hand, answer_tag, at, taken_off
from tests.ui.test_watching import Eyes, cleaning


@pytest.fixture
def eyes(hand: Hand) -> Eyes:
    """Eyes on the rinser-dryer."""
    at(hand, "BRD-25")
    return Eyes(hand)


@pytest.fixture
def pump(hand: Hand) -> Eyes:
    """Eyes on the pump, which is taken apart sooner."""
    at(hand, "pump")
    return Eyes(hand)


def carriers(hand: Hand, *names: str) -> list[str]:
    """Numbers of new carriers."""
    workshop = hand.desk.workshop
    numbers, draft = workshop.new_numbers("C", len(names))
    workshop.record([draft], "MK")
    for number, name in zip(numbers, names, strict=True):
        workshop.record(add_carrier(workshop.shop_act("MK"), number, name=name), "MK")
    return list(numbers)


def newly_labelled(hand: Hand, part: str) -> tuple[str, str]:
    """The old number and the one of a new label."""
    desk, old = hand.desk, number_of(hand.desk.job, part)
    act = desk.workshop.act("MK", desk.job)
    desk.workshop.record(relabel(act, part, number=answer_tag(desk), why="torn"), "MK")
    return old, number_of(desk.job, part)


def says(hand: Hand) -> str:
    """What the list of the tray says."""
    return " | ".join(fact.says for fact in hand.view.card.facts)


def spots(hand: Hand) -> dict[str, str]:
    """The marks of the labels."""
    tray = hand.view.tray
    assert tray
    return {spot.key: spot.mark for spot in tray.spots}


def step(hand: Hand, begins: str) -> Step:
    """What can be touched."""
    view = hand.view
    return next(one for one in [view.main, *view.quiet] if one and one.says.startswith(begins))


@pytest.mark.parametrize("old_first", [True, False])
def test_a_part_with_its_old_and_its_new_label_is_one_part(eyes: Eyes, old_first: bool) -> None:
    """It goes by the label it has now, wherever that lies; leaving out one of them leaves out the part."""
    hand, job = eyes.hand, eyes.hand.desk.job
    part, other = taken_off(hand.desk, "10.10"), taken_off(hand.desk, "10.20")
    old, new = newly_labelled(hand, part)
    (basket,) = carriers(hand, "basket 2")
    eyes.tray(*([old, new] if old_first else [new, old]), number_of(job, other), basket)
    assert hand.view.card.far == "2 of 2" and not hand.view.card.word
    assert spots(hand)[new] == "accept" and spots(hand)[old] == "empty"
    assert f"{old}: another label of {hand.desk.look.name(part)}" in says(hand)
    hand.desk.flag(old)
    assert hand.view.card.far == "1 of 2"
    hand.desk.flag(new)
    hand.touch("Put 2 parts into basket 2")
    last = [one for one in job.records.values() if one.typ == "thing.put"][-1]
    assert sorted(last.ent) == sorted([part, other]) and job.value(part, "place") == basket


def test_the_old_label_alone_still_stands_for_the_part(eyes: Eyes) -> None:
    """The new one is turned away from the camera."""
    hand, job = eyes.hand, eyes.hand.desk.job
    part, other = taken_off(hand.desk, "10.10"), taken_off(hand.desk, "10.20")
    old, _ = newly_labelled(hand, part)
    eyes.tray(old, number_of(job, other))
    assert hand.view.card.far == "2 of 2" and set(spots(hand).values()) == {"accept"}


def test_parts_in_the_cleaning_room_count_once_for_the_operation(pump: Eyes) -> None:
    """Two labels of one part do not outvote another part, and it lies in the basket once."""
    hand, job = pump.hand, pump.hand.desk.job
    here, others = cleaning(hand)
    labels = newly_labelled(hand, others[0])
    pump.tray(*labels, number_of(job, here[0]), number_of(job, here[1]), after=5)
    assert hand.view.card.far == "2 of 3" and spots(hand)[labels[1]] == "reject"
    hand.touch("Take 2 parts into the basket")
    assert sorted(hand.desk.screen.state["basket"]) == sorted(here[:2])


def test_a_number_of_two_parts_stays_out(eyes: Eyes) -> None:
    """Two tablets gave the same label out: nobody knows which part this is. Touching it leaves neither out."""
    hand, desk = eyes.hand, eyes.hand.desk
    part, twin, other = (taken_off(desk, key) for key in ("10.10", "10.20", "30.40"))
    number, own = number_of(desk.job, part), number_of(desk.job, twin)
    act = desk.workshop.act("MK", desk.job)
    desk.workshop.record([act.draft("part.renumbered", (twin,), number=number, why="from another tablet")], "MK")
    assert parts_of_number(desk.job, number) == sorted([part, twin])
    eyes.tray(number, number_of(desk.job, other), own)
    assert hand.view.card.far == "2 of 3" and spots(hand)[number] == "reject"
    assert f"{number} is on 2 parts: see the open points" in says(hand)
    desk.flag(number)
    assert hand.view.card.far == "2 of 3" and [one.part for one in desk.screen.found()] == ["", other, twin]  # type: ignore[attr-defined]


def test_of_two_carriers_in_the_picture_it_is_asked_which(eyes: Eyes) -> None:
    """Nothing goes into the first one silently: asked by name, with numbers where two have the same name."""
    hand, job = eyes.hand, eyes.hand.desk.job
    here = [taken_off(hand.desk, key) for key in ("10.10", "10.20")]
    red, blue, twin = carriers(hand, "red basket", "blue basket", "blue basket")
    eyes.tray(red, blue, *[number_of(job, part) for part in here])
    assert hand.view.card.far == "2 of 2"
    hand.touch("Choose where they go")
    assert hand.view.field and hand.view.field.choices == ("red basket", "blue basket")
    hand.enter("blue basket")
    assert {job.value(part, "place") for part in here} == {blue} and hand.desk.screen.name == "teardown"
    eyes.tray(twin, blue, *[number_of(job, part) for part in here], after=5)
    hand.touch("Choose where they go")
    assert hand.view.field and hand.view.field.choices == (twin, blue)
    hand.enter(twin)
    assert {job.value(part, "place") for part in here} == {twin}


@pytest.mark.parametrize("by", ["touch", "scan"])
def test_in_the_cleaning_room_it_has_to_be_said_first(pump: Eyes, by: str) -> None:
    """Done on all of them waits for it; a touch on the carrier's label or its scan says it."""
    hand, job = pump.hand, pump.hand.desk.job
    here, _ = cleaning(hand)
    red, blue = carriers(hand, "red basket", "blue basket")
    pump.tray(red, blue, *[number_of(job, part) for part in here], after=5)
    before, done = len(job.records), step(hand, "Done")
    assert not done.ready and "red basket and blue basket are in the picture" in done.why_not
    hand.desk.touch(Step("", "take"))
    assert hand.desk.screen.name == "tray" and hand.view.scan.mark == "reject" and len(job.records) == before
    if by == "touch":
        hand.desk.flag(blue)
    else:
        hand.scan(blue)
    assert step(hand, "Done").ready and spots(hand)[blue] == "to do" and spots(hand)[red] == "empty"
    hand.touch(f"Put {len(here)} parts into blue basket")
    assert {job.value(part, "place") for part in here} == {blue} and len(job.records) == before + 1


def test_a_place_goes_by_its_name_and_a_carrier_by_its_number(eyes: Eyes) -> None:
    """As `put` wants it; people read both names."""
    hand, desk = eyes.hand, eyes.hand.desk
    numbers, draft = desk.workshop.new_numbers("S", 1)
    desk.workshop.record([draft], "MK")
    desk.workshop.record(add_place(desk.workshop.shop_act("MK"), "RACK 3-2", number=numbers[0]), "MK")
    (basket,) = carriers(hand, "basket 2")
    part, other = taken_off(desk, "10.10"), taken_off(desk, "10.20")
    eyes.tray(numbers[0], number_of(desk.job, part), number_of(desk.job, other))
    goals = desk.screen._on().goals()  # type: ignore[attr-defined]
    assert goals[numbers[0]] == ("RACK 3-2",) * 2 and goals[basket] == (basket, "basket 2")
    hand.touch("Put 2 parts into RACK 3-2")
    assert desk.job.value(part, "place") == "RACK 3-2"


def test_put_takes_a_thing_once(eyes: Eyes) -> None:
    """Named twice, or by two names of one part."""
    desk = eyes.hand.desk
    part, twin, other = (taken_off(desk, key) for key in ("10.10", "10.20", "30.40"))
    (basket,) = carriers(eyes.hand, "basket 2")

    def things(*named: str) -> Any:
        return put(desk.workshop.act("MK", desk.job), named, basket)[0].ent

    assert things(part, other, part) == (part, other)
    desk.workshop.record(same_part(desk.workshop.act("MK", desk.job), [part, twin], why="counted twice"), "MK")
    assert len(things(part, twin, other)) == 2
