"""What becomes of the labels that the camera reads: taken once, trays, foreign codes, likely ones, forms left alone."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from teardown_app.domain.parts.parts import number_of, parts, written_on
from teardown_app.domain.parts.routing import remaining
from teardown_app.ui import foreign
from teardown_app.ui.aiming import LOOKS, Aim
from teardown_app.ui.camera import FAILED, NONE, SAYS
from teardown_app.ui.captures import opening_of
from teardown_app.ui.label_reader import Label, Seen, in_rows
from teardown_app.ui.view import Step
from teardown_app.ui.visits import GONE_S, REFUSED_GONE_S, Visits
from teardown_app.workflows.shop import add_carrier
from tests.patience import WHOLE_RUN_S, until
from tests.ui.hands import Hand, answer_all, answer_tag, at, take_apart, taken_off
from tests.ui.test_camera import FakeCapture

ON_MARK, TO_THE_RIGHT, BENEATH = (0.5, 0.5), 0.3, 0.85
"""Where the middle of the first label lies, how far beside it each further one, and how low a tray; shares of the
picture, in which a label is a tenth."""


Place = tuple[float, float] | tuple[()]


def square(x: float, y: float) -> tuple[tuple[float, float], ...]:
    """Corners of a label whose middle lies there."""
    return ((x - 0.05, y - 0.05), (x + 0.05, y - 0.05), (x + 0.05, y + 0.05), (x - 0.05, y + 0.05))


class Eyes:
    """Shows labels to a desk as its camera would, with a clock by hand."""

    def __init__(self, hand: Hand) -> None:
        self.hand, self.now = hand, 0.0
        self.watching = hand.desk.watching
        self.watching.visits = Visits(lambda: self.now)
        self.watching.aim = Aim(lambda: self.now)

    def see(self, *texts: str, after: float = 0.1, likely: tuple[str, ...] = (), unread: Place = ()) -> None:
        """These labels, the first one on the mark, in as many looks as it takes; and a place that was not read."""
        places = [(ON_MARK[0] + n * TO_THE_RIGHT, ON_MARK[1]) for n in range(len(texts))]
        self.look(dict(zip(texts, places, strict=True)), after=after, likely=likely, unread=unread)

    def tray(self, *texts: str, after: float = 0.1) -> None:
        """These labels, none of them near the mark, and a touch on the plate that takes them together."""
        self.look({text: (0.1 + n / 20, BENEATH) for n, text in enumerate(texts)}, after=after)
        if self.hand.desk.screen.name != "tray":
            self.hand.desk.touch(self.watching.tray_steps()[0])

    def look(
        self,
        places: Mapping[str, tuple[float, float]],
        after: float = 0.1,
        likely: tuple[str, ...] = (),
        unread: Place = (),
    ) -> None:
        """Labels at these places."""
        self.now += after
        labels = [
            Label(text, text[:1] in "PCSWA" and len(text) == 10, text in likely, square(*at))
            for text, at in places.items()
        ]
        not_read = (Label("", False, False, square(*unread)),) if unread else ()
        for _ in range(LOOKS):
            self.watching.looking._found.append(Seen(tuple(labels), "tray.jpg", unread=not_read))
        self.hand.desk.tick()


@pytest.fixture
def eyes(hand: Hand) -> Eyes:
    """Eyes on the rinser-dryer."""
    at(hand, "BRD-25")
    return Eyes(hand)


def steps_of(hand: Hand) -> list[Step]:
    """What can be touched in the camera's pane."""
    live = hand.view.live
    return list(live.steps) if live else []


def between(*texts: str) -> dict[str, tuple[float, float]]:
    """Two labels with the mark between them."""
    return dict(zip(texts, ((0.43, 0.5), (0.57, 0.5)), strict=True))


def touch(hand: Hand, says: str) -> None:
    """Touches a plate of the pane."""
    hand.desk.touch(next(one for one in steps_of(hand) if one.says == says))


def test_a_label_counts_once_while_it_stays_in_the_picture(eyes: Eyes) -> None:
    """It has to be gone for a second and a half."""
    told: list[str] = []
    hand = eyes.hand
    hand.desk.feedback.append(told.append)
    part = taken_off(hand.desk, "10.10")
    number = number_of(hand.desk.job, part)
    for _ in range(40):
        eyes.see(number)
    assert len(told) == 1 and hand.desk.screen.name == "part"
    eyes.see(number, after=GONE_S - 0.01)
    assert len(told) == 1
    eyes.see(number, after=GONE_S)
    assert len(told) == 2


def test_no_form_is_lost_to_a_label_on_the_table(eyes: Eyes) -> None:
    """A scanner is aimed, a camera is not: what is asked stays asked, unless a label answers it."""
    hand = eyes.hand
    part = taken_off(hand.desk, "10.10")
    hand.scan(number_of(hand.desk.job, part))
    hand.touch("Finding")
    hand.enter("dent")
    eyes.see(answer_tag(hand.desk))
    eyes.see("A FOREIGN ONE")
    assert hand.view.field and hand.view.field.name == "cause"
    hand.touch("Cancel")
    hand.touch("New label")
    eyes.look(between(answer_tag(hand.desk), hand.desk.roll[40]))
    assert "Say which is meant" in hand.view.scan.says and hand.view.field and hand.view.field.name == "number"
    number = answer_tag(hand.desk)
    eyes.see(number, after=GONE_S)
    assert hand.view.field and hand.view.field.name == "why"


def test_a_foreign_code_is_said_noted_on_purpose_and_known_again(eyes: Eyes) -> None:
    """Nothing is recorded by the reading itself; taken back, it is foreign again."""
    hand, job = eyes.hand, eyes.hand.desk.job
    part = taken_off(hand.desk, "10.10")
    hand.scan(number_of(job, part))
    before, code = len(job.records), "(01)04012345678901(21)SN 77"
    eyes.see(code)
    assert hand.view.scan.mark == "reject" and "no number of ours" in hand.view.scan.says
    assert len(job.records) == before and [one.says for one in steps_of(hand)] == ["Note it", "No"]
    touch(hand, "Note it")
    assert written_on(job, part) == [code] and len(job.records) == before + 1
    hand.touch("Office")
    eyes.see(code, after=REFUSED_GONE_S)
    assert hand.desk.screen.name == "part" and hand.desk.screen.state["part"] == part
    hand.desk.find(code.lower()[:12])
    assert [row.key for row in hand.view.rows] == [part]
    hand.scan(number_of(job, part))
    other = "ANOTHER CODE OF ITS MAKER"
    hand.scan(other)
    touch(hand, "Note it")
    assert sorted(written_on(job, part)) == sorted([code, other])
    hand.take_back()
    assert written_on(job, part) == [code]
    hand.scan(other)
    assert hand.view.scan.mark == "reject"
    touch(hand, "No")
    assert not steps_of(hand) and written_on(job, part) == [code]


def test_a_foreign_code_on_two_parts_asks_which(eyes: Eyes) -> None:
    """The code of a kind of part: the list of both; one without our label opens its card."""
    hand = eyes.hand
    chosen = [taken_off(hand.desk, key) for key in ("10.10", "10.20")]
    for part in chosen:
        hand.desk.go("part", part=part)
        foreign.link(hand.desk, part, "KIND 5")
    hand.touch("Teardown")
    hand.scan("KIND 5")
    assert hand.desk.screen.name == "found" and {row.key for row in hand.view.rows} == set(chosen)


def test_what_cannot_be_noted_is_refused(eyes: Eyes) -> None:
    """Nothing, what does not print, what is too long; and a slip in a number of ours is not taken for foreign."""
    hand = eyes.hand
    part = taken_off(hand.desk, "10.10")
    number, before = number_of(hand.desk.job, part), len(hand.desk.job.records)
    for text in ("", "   ", "\x00\x1d", "P" * 121):
        hand.desk.say("")
        hand.desk.did(lambda text=text: foreign.link(hand.desk, part, text))  # type: ignore[misc]
        assert hand.view.scan.mark == "reject" and len(hand.desk.job.records) == before
    hand.scan(number)
    hand.scan(number[:-1] + ("7" if number[-1] != "7" else "8"))
    assert hand.view.scan.mark == "reject" and not steps_of(hand)


def test_a_likely_number_counts_only_when_a_person_says_so(eyes: Eyes) -> None:
    """Yes takes it; no does not, and is not asked again; beside a sure one on the mark it does nothing."""
    hand = eyes.hand
    part = taken_off(hand.desk, "10.10")
    number = number_of(hand.desk.job, part)
    eyes.see(number, likely=(number,))
    live = hand.view.live
    assert live and live.says == f"Does the label say {number}?" and hand.desk.screen.name == "teardown"
    touch(hand, "Yes, it does")
    assert hand.desk.screen.name == "part" and not steps_of(hand)
    hand.touch("Teardown")
    eyes.see(number, likely=(number,), after=5)
    touch(hand, "No")
    eyes.see(number, likely=(number,), after=5)
    assert not steps_of(hand) and hand.desk.screen.name == "teardown"
    hand.desk.row("choose", "10.20")
    other = answer_tag(hand.desk)
    eyes.see(other, number, likely=(number,), after=5)
    assert {number_of(hand.desk.job, one) for one in parts(hand.desk.job)} == {number, other}


@pytest.fixture
def pump(hand: Hand) -> Eyes:
    """Eyes on the pump, which is taken apart sooner."""
    at(hand, "pump")
    return Eyes(hand)


def cleaning(hand: Hand) -> tuple[list[str], list[str]]:
    """The cleaning room with everything off; parts at the most common operation, and others."""
    take_apart(hand)
    hand.touch("Cleaning")
    job = hand.desk.job
    at_next: dict[str, list[str]] = {}
    for part in parts(job):
        left = remaining(job, part)
        at_next.setdefault(left[0].says if left else "", []).append(part)
    chosen = max((name for name in at_next if name), key=lambda name: len(at_next[name]))
    return at_next[chosen], [part for name, there in at_next.items() if name != chosen for part in there]


def test_a_tray_goes_into_the_basket_and_says_what_stays(pump: Eyes) -> None:
    """Each label with its shape and its reason; one touch takes the rest."""
    hand, job = pump.hand, pump.hand.desk.job
    here, others = cleaning(hand)
    free = answer_tag(hand.desk)
    hand.desk.act(lambda act: _hold(act, here[0]), "held")
    pump.tray(*[number_of(job, part) for part in [*here, others[0]]], "FOREIGN 9", free, after=5)
    view = hand.view
    assert view.tray and view.card.far == f"{len(here) - 1} of {len(here) + 3}"
    marks = {spot.key: spot.mark for spot in view.tray.spots}
    assert marks[number_of(job, here[0])] == "hold" and marks[number_of(job, here[1])] == "accept"
    assert marks["FOREIGN 9"] == "inconclusive" and marks[free] == "empty"
    assert marks[number_of(job, others[0])] == "reject"
    says = " ".join(fact.says for fact in view.card.facts)
    assert "on hold" in says and "foreign" in says and "on nothing here" in says
    before = len(job.records)
    hand.desk.flag(number_of(job, here[1]))
    assert hand.view.card.far.startswith(f"{len(here) - 2} of")
    hand.desk.flag(number_of(job, here[1]))
    hand.touch(f"Take {len(here) - 1} parts into the basket")
    assert hand.desk.screen.name == "cleaning" and set(hand.desk.screen.state["basket"]) == set(here[1:])
    assert len(job.records) == before, "a basket on the screen is no record"


def _hold(act: Any, part: str) -> Any:
    from teardown_app.workflows.hold import place_hold

    return place_hold(act, [part], why="a crack")


def test_a_tray_goes_into_the_carrier_whose_label_is_in_the_picture(pump: Eyes) -> None:
    """One touch, one record of all of them, which waits for who it is; taken back, none of them is there."""
    hand, job = pump.hand, pump.hand.desk.job
    here, _ = cleaning(hand)
    carrier = new_carrier(hand)
    pump.tray(carrier, *[number_of(job, part) for part in here], after=5)
    before = len(job.records)
    assert hand.view.card.far == f"{len(here)} of {len(here)}", "the carrier itself is not counted"
    hand.desk.session.sign_off()
    hand.touch(f"Put {len(here)} parts into basket 2")
    hand.enter("MK")
    answer_all(hand)
    assert len(job.records) == before + 1 and hand.desk.screen.name == "cleaning"
    assert {job.value(part, "place") for part in here} == {carrier}
    assert set(hand.desk.screen.state["basket"]) == set(here)
    hand.take_back()
    assert carrier not in {job.value(part, "place") for part in here}


def new_carrier(hand: Hand) -> str:
    """A basket with a label."""
    workshop = hand.desk.workshop
    numbers, draft = workshop.new_numbers("C", 1)
    workshop.record([draft], "MK")
    workshop.record(add_carrier(workshop.shop_act("MK"), numbers[0], name="basket 2"), "MK")
    return numbers[0]


def test_from_elsewhere_a_tray_goes_into_a_place(eyes: Eyes) -> None:
    """The place is chosen, or its carrier scanned; a tray that is lying there is not shown again."""
    hand, job = eyes.hand, eyes.hand.desk.job
    here = [taken_off(hand.desk, key) for key in ("10.10", "10.20", "30.40")]
    numbers = [number_of(job, part) for part in here]
    eyes.tray(*numbers[:2])
    assert hand.view.card.far == "2 of 2"
    eyes.tray(*numbers)
    assert hand.view.card.far == "3 of 3", "a better picture of the same tray"
    eyes.see(numbers[0])
    assert hand.view.card.far == "3 of 3", "a worse one changes nothing"
    hand.touch("Put 3 parts into a carrier or place")
    hand.enter(hand.view.field.choices[0])  # type: ignore[union-attr]
    assert len({job.value(part, "place") for part in here}) == 1 and hand.desk.screen.name == "teardown"
    for _ in range(30):
        eyes.see(*numbers)
    assert hand.desk.screen.name == "teardown"
    carrier = new_carrier(hand)
    eyes.tray(*numbers, after=5)
    assert hand.desk.screen.name == "tray"
    hand.scan(carrier)
    hand.touch("Put 3 parts into basket 2")
    assert {job.value(part, "place") for part in here} == {carrier}


def test_a_second_label_beside_one_that_was_taken_is_a_scan(eyes: Eyes) -> None:
    """The tagged part still lies in the picture when the next label of the roll is held up."""
    hand = eyes.hand
    first = number_of(hand.desk.job, taken_off(hand.desk, "10.10"))
    eyes.see(first)
    hand.touch("Teardown")
    hand.desk.row("choose", "10.20")
    second = answer_tag(hand.desk)
    eyes.see(second, first)
    assert second in [number_of(hand.desk.job, part) for part in parts(hand.desk.job)]
    assert hand.desk.screen.name == "teardown"


def test_the_camera_is_let_go_of_on_leaving_and_on_closing(hand: Hand) -> None:
    """By a tab, by its own plate, by closing; a scan that opens a card is no leaving."""
    at(hand, "BRD-25")
    desk, made = hand.desk, []

    def opening(_side: str) -> FakeCapture:
        made.append(FakeCapture())
        return made[-1]

    desk.watching.camera.opening = opening
    part = taken_off(desk, "10.10")
    for leave in (
        lambda: hand.touch("Office"),
        lambda: idle(hand),
        lambda: desk.touch(desk.view().camera),
        lambda: desk.watching.close(),
    ):
        desk.touch(Step("", "switch_camera"))
        until(lambda: desk.watching.camera.newest() is not None)
        hand.scan(number_of(desk.job, part))
        assert desk.watching.camera.is_on
        leave()
        until(lambda: made[-1].released.is_set())
        for thread in (desk.watching.camera.thread, desk.watching.looking.thread):
            assert thread
            thread.join(WHOLE_RUN_S)
            assert not thread.is_alive()
        assert desk.view().live is None


def idle(hand: Hand) -> None:
    """Nobody touches the tablet for ten minutes."""
    session = hand.desk.session
    clock = session._clock
    session._clock = lambda: clock() + 601
    hand.desk.tick()
    session._clock = clock


def test_states_stand_on_the_screen_with_the_typing_field(hand: Hand) -> None:
    """None: a sentence, and the number can be typed; the side is kept; mirrored in front."""
    at(hand, "BRD-25")
    desk = hand.desk
    desk.watching.camera.opening = opening_of(Path("not there"))
    desk.touch(Step("", "switch_camera"))
    until(lambda: desk.watching.camera.state == NONE)
    live = hand.view.live
    assert live and live.says == SAYS[NONE] and live.mark == "reject" and not live.pictured
    touch(hand, "Type the number")
    assert hand.view.field
    desk.leave_form()
    desk.watching.camera.opening = lambda _side: FakeCapture(has_torch=True)
    touch(hand, "Other camera")
    until(lambda: desk.watching.camera.has_torch and desk.watching.camera.newest() is not None)
    assert hand.view.live and hand.view.live.mirrored and desk.settings.camera_side == "front"
    touch(hand, "Light")
    assert next(one for one in steps_of(hand) if one.says == "Light").chosen
    desk.watching.kept_off = True
    desk.watching.off()
    hand.desk.touch(Step("", "switch_camera"))
    assert "stays off" in hand.view.scan.says and not desk.watching.camera.is_on
    desk.watching.close()


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")
def test_a_reader_that_gives_up_is_said(hand: Hand) -> None:
    """The thread that reads has ended with an error: the pane does not go on as if labels were read."""
    at(hand, "pump")
    watching = hand.desk.watching

    def broken(_grey: Any) -> list[Any]:
        raise ZeroDivisionError

    watching.reader._frames = lambda: broken
    watching.camera.opening = lambda _side: FakeCapture()
    hand.desk.touch(Step("", "switch_camera"))
    until(lambda: watching.state == FAILED)
    hand.desk.tick()
    assert hand.view.live and hand.view.live.says == SAYS[FAILED] and not hand.view.live.pictured
    watching.close()


def test_labels_are_numbered_as_they_are_read() -> None:
    """Row by row from the left, though they lie a little askew."""

    def label(text: str, x: float, y: float) -> Label:
        return Label(text, True, False, ((x, y), (x + 0.1, y), (x + 0.1, y + 0.1), (x, y + 0.1)))

    shown = [label("D", 0.1, 0.33), label("B", 0.5, 0.1), label("C", 0.8, 0.12), label("A", 0.1, 0.13)]
    assert [one.text for one in in_rows(shown)] == ["A", "B", "C", "D"]
    assert in_rows([Label("X", False, False, ())]) != []


def test_a_reader_and_its_picture_are_one_at_a_time(hand: Hand) -> None:
    """The slow reader of a file and the camera's reader share the black box: one waits for the other."""
    import threading

    import numpy as np

    reader = hand.desk.watching.reader
    inside, most = [0], [0]

    def read(_grey: Any) -> list[Any]:
        inside[0] += 1
        most[0] = max(most[0], inside[0])
        threading.Event().wait(0.01)
        inside[0] -= 1
        return []

    grey = np.zeros((4, 4), np.uint8)
    doing: list[Callable[[], object]] = [lambda: reader._safely(read, grey)] * 4
    threads = [threading.Thread(target=one) for one in doing]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert most == [1]


def test_a_question_about_a_number_is_not_changed_under_the_finger(eyes: Eyes) -> None:
    """Another likely label comes into the picture: yes still means the number that stood there."""
    hand = eyes.hand
    one, other = (number_of(hand.desk.job, taken_off(hand.desk, key)) for key in ("10.10", "10.20"))
    eyes.see(one, likely=(one,))
    yes = steps_of(hand)[0]
    eyes.see(other, likely=(other,), after=2)
    hand.desk.touch(yes)
    assert hand.desk.screen.name == "part" and hand.desk.screen.state["part"] == taken_off(hand.desk, "10.10")


def test_a_likely_label_that_was_answered_is_not_asked_again_while_it_lies_there(eyes: Eyes) -> None:
    """Yes once is enough; read by a reader afterwards it is a scan all the same."""
    hand = eyes.hand
    number = number_of(hand.desk.job, taken_off(hand.desk, "10.10"))
    eyes.see(number, likely=(number,))
    hand.desk.touch(steps_of(hand)[0])
    eyes.see(number, likely=(number,))
    live = hand.view.live
    assert live is None or "Does the label say" not in live.says


def test_slowly_read_pictures_count_a_label_once(eyes: Eyes) -> None:
    """At half a second a picture a reader's turn comes every two seconds: the label that lies there is not new."""
    told: list[str] = []
    hand = eyes.hand
    number = number_of(hand.desk.job, taken_off(hand.desk, "10.10"))
    hand.desk.feedback.append(told.append)
    eyes.watching.looking.pace_s = 0.5
    for _ in range(6):
        eyes.see(number, after=2.0)
    assert len(told) == 1
