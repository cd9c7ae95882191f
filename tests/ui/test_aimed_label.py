"""At the desk only the label that is aimed at does something: the others are outlined, a dirty one is not replaced.

How long a label is away before it counts anew is our own choice (`ui/visits.py`).
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from teardown_app.domain.lacks.release import is_released
from teardown_app.domain.next.next_in import next_in
from teardown_app.domain.parts.parts import number_of, parts
from teardown_app.domain.tags.actions import NUMBERS
from teardown_app.domain.tags.tag import issue
from teardown_app.ui.view import REJECT
from teardown_app.ui.visits import GONE_S, REFUSED_GONE_S, Visits
from tests.labels.test_still_codes import label, laid
from tests.ui.hands import Hand, answer_all, answer_tag, at, follow, take_apart, taken_off
from tests.ui.test_recognised import shown
from tests.ui.test_watching import Eyes, between, cleaning, steps_of, touch

EDGE, BESIDE, A_LITTLE_OFF = (0.93, 0.9), (0.68, 0.5), (0.6, 0.5)
"""Where a neighbour lies; the mark is in the middle, and a label is a tenth wide."""
DIRTY = (0.46, 0.5)

Neighbour = Callable[[Hand], str]
"""Makes ready for an act by a scan, and names the label that would do it."""


def bound(hand: Hand) -> str:
    """A label of the roll, while a place of the tool is in hand."""
    at(hand, "BRD-25")
    hand.desk.row("choose", "10.20")
    return answer_tag(hand.desk)


def asked_for(hand: Hand) -> str:
    """A label of the roll, while one is asked for."""
    at(hand, "BRD-25")
    hand.scan(number_of(hand.desk.job, taken_off(hand.desk, "10.10")))
    hand.touch("New label")
    return answer_tag(hand.desk)


def opened(hand: Hand) -> str:
    """The label of a part, whose card would open."""
    at(hand, "BRD-25")
    return number_of(hand.desk.job, taken_off(hand.desk, "10.10"))


def fitted(hand: Hand) -> str:
    """The label of a released part, at the assembly bench."""
    at(hand, "pump")
    take_apart(hand)
    part = next(one.part for one in next_in(hand.desk.opened.live) if one.part)
    follow(hand, part, ("Release it", "Fit it", "To its assembly"))
    hand.desk.open("release ready")
    answer_all(hand)
    assert is_released(hand.desk.job, part)
    hand.touch("Assembly")
    return number_of(hand.desk.job, part)


def in_the_basket(hand: Hand) -> str:
    """The label of a part that waits for its bath, in the cleaning room."""
    at(hand, "pump")
    here, _ = cleaning(hand)
    return number_of(hand.desk.job, here[0])


def begun(hand: Hand) -> str:
    """The action code that begins an operation, with a part in the basket."""
    hand.scan(in_the_basket(hand))
    return NUMBERS["start"]


NEIGHBOURS = [bound, asked_for, opened, fitted, in_the_basket, begun]


def stands(hand: Hand) -> tuple[object, ...]:
    """What a label could have changed."""
    desk = hand.desk
    asked = desk.asking.field()
    return len(desk.job.records), desk.screen.name, dict(desk.screen.state), asked and asked.name, desk.said.count


@pytest.mark.parametrize("neighbour", NEIGHBOURS)
@pytest.mark.parametrize("lies", [EDGE, BESIDE, A_LITTLE_OFF])
def test_a_clean_neighbour_does_nothing_for_a_dirty_label(
    hand: Hand, neighbour: Neighbour, lies: tuple[float, float]
) -> None:
    """At the edge, beside it and near the mark; on the mark, alone, it does what it does."""
    text = neighbour(hand)
    eyes, before = Eyes(hand), stands(hand)
    for _ in range(20):
        eyes.look({text: lies}, unread=DIRTY)
    assert stands(hand) == before
    eyes.see(text)
    assert stands(hand) != before


@pytest.mark.parametrize("neighbour", [bound, opened, in_the_basket])
def test_a_neighbour_at_the_edge_does_nothing_beside_the_aimed_label(hand: Hand, neighbour: Neighbour) -> None:
    """Both are read; the aimed one acts once, and the neighbour when it is aimed at."""
    text = neighbour(hand)
    eyes, other = Eyes(hand), hand.desk.roll[60]
    eyes.look({other: (0.5, 0.5), text: EDGE})
    said = hand.desk.said
    assert other in said.says or other in [number_of(hand.desk.job, one) for one in parts(hand.desk.job)]
    after_it = stands(hand)
    for _ in range(5):
        eyes.look({other: (0.5, 0.5), text: EDGE})
    assert stands(hand) == after_it


def test_between_two_it_is_asked_which(hand: Hand) -> None:
    """Each is a plate; none of them is one too; aiming at one of them answers it."""
    text = opened(hand)
    eyes, other = Eyes(hand), number_of(hand.desk.job, taken_off(hand.desk, "10.20"))
    eyes.look(between(text, other))
    assert hand.view.live and hand.view.live.says == "Which label is meant?" and hand.desk.screen.name == "teardown"
    assert [one.says for one in steps_of(hand)] == [text, other, "None"]
    touch(hand, "None")
    assert not steps_of(hand) and hand.desk.screen.name == "teardown"
    eyes.look(between(text, other))
    assert not steps_of(hand), "asked once while they lie there"
    eyes.look(between(text, other), after=GONE_S)
    touch(hand, other)
    assert hand.desk.screen.state["part"] == taken_off(hand.desk, "10.20")
    hand.touch("Teardown")
    eyes.look(between(text, other), after=5)
    eyes.see(text)
    assert hand.desk.screen.state["part"] == taken_off(hand.desk, "10.10") and not steps_of(hand)


def test_a_label_acts_again_when_another_one_was_aimed_at(hand: Hand) -> None:
    """From one part to the other and back, both in the picture all the time; a hand that wavers does not count."""
    text = opened(hand)
    eyes, other = Eyes(hand), number_of(hand.desk.job, taken_off(hand.desk, "10.20"))
    opened_cards = []
    for one, two, after in ((text, other, 0.1), (other, text, 0.1), (text, other, 0.1), (text, other, GONE_S)):
        eyes.see(one, two, after=after)
        opened_cards.append(number_of(hand.desk.job, str(hand.desk.screen.state["part"])))
    assert opened_cards == [text, other, other, text]


def test_an_action_code_wants_the_mark_and_no_part_in_view(hand: Hand) -> None:
    """A little off the mark it does nothing, nor with a part's label anywhere in the picture."""
    start = begun(hand)
    part = hand.desk.job.records and number_of(hand.desk.job, str(hand.desk.screen.state["basket"][0]))
    eyes, before = Eyes(hand), stands(hand)
    eyes.look({start: A_LITTLE_OFF})
    eyes.look({start: (0.5, 0.5), str(part): EDGE})
    eyes.look({start: (0.5, 0.5)})
    assert stands(hand) == before, "the part's label was there a moment ago"
    eyes.look({start: (0.5, 0.5)}, after=GONE_S)
    assert stands(hand) != before


def test_a_refused_label_is_refused_once_while_it_stays(hand: Hand) -> None:
    """Away for less than three seconds is the same visit; another label in between does not end it."""
    at(hand, "BRD-25")
    eyes, text, heard = Eyes(hand), hand.desk.roll[60], list[str]()
    hand.touch("Office")
    hand.desk.feedback.append(heard.append)
    for _ in range(30):
        eyes.see(text)
    eyes.see(text, after=REFUSED_GONE_S - 0.01)
    eyes.see("A FOREIGN ONE", text, after=1.0)
    eyes.see(text, after=2.0)
    assert heard.count(REJECT) == 2, "the label once, the foreign code once"
    eyes.see(text, after=REFUSED_GONE_S)
    assert heard.count(REJECT) == 3


def test_visits_are_counted_by_what_was_seen() -> None:
    """A label that did something has to be gone; one that was only seen counts at once."""
    now = [0.0]
    visits = Visits(lambda: now[0])
    visits.see(["A", "B"])
    assert visits.counts("A") and visits.has(["B"]) and visits.seen_lately() == ["A", "B"]
    visits.done("A")
    assert not visits.counts("A") and visits.counts("B")
    now[0] = GONE_S
    visits.see(["B"])
    assert visits.counts("A") and not visits.has(["A"])
    visits.done("A", refused=True)
    now[0] += REFUSED_GONE_S - 0.01
    visits.see([])
    assert not visits.counts("A")
    now[0] += 0.01
    visits.see([])
    assert visits.counts("A")


def test_several_in_view_can_be_taken_as_a_tray(hand: Hand) -> None:
    """The plate says how many; nothing opens by itself, and it is not offered while something is asked."""
    text = opened(hand)
    eyes, other = Eyes(hand), number_of(hand.desk.job, taken_off(hand.desk, "10.20"))
    eyes.look({text: EDGE})
    assert hand.desk.watching.tray_steps() == ()
    eyes.look({text: EDGE, other: BESIDE})
    assert [one.says for one in hand.desk.watching.tray_steps()] == ["All 2 as a tray"]
    assert hand.desk.screen.name == "teardown"
    hand.desk.row("choose", "30.40")
    eyes.look({text: EDGE}, after=1.0)
    assert hand.desk.watching.tray_steps(), "one of them is not read in each look"
    eyes.look({}, after=GONE_S)
    assert hand.desk.watching.tray_steps() == ()


def test_in_a_picture_file_a_clean_label_does_nothing_for_one_nearer_the_middle(hand: Hand) -> None:
    """It is asked whether that one is meant."""
    text = opened(hand)
    unknown = label(issue("P", "ZZ9A", 5, 1)[0][0])
    unknown[20:90, 20:110] = 120
    shown(hand, laid((label(text), 200), (unknown, 480)))
    assert hand.desk.screen.name == "teardown"
    assert "could not be read" in hand.view.scan.says and steps_of(hand)[0].says == text
    touch(hand, text)
    assert hand.desk.screen.name == "part"
