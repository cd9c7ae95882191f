"""At each bench with real touches and a folder of pictures as the camera: one label, a tray, the part that goes in."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from kivy.clock import Clock
from kivy.graphics import Line

from teardown_app.domain.lacks.release import is_released
from teardown_app.domain.next.next_in import next_in
from teardown_app.domain.parts.filling import holder
from teardown_app.domain.parts.parts import came_from, number_of, own_place
from teardown_app.ui.camera import FRONT, ON
from teardown_app.ui.captures import opening_of
from teardown_app.ui.look.theme import theme
from teardown_app.ui.parts.live import LivePane
from teardown_app.ui.parts.tray import TrayPane
from tests.patience import WHOLE_RUN_S
from tests.ui.bench_pictures import put_picture
from tests.ui.ease import _at_one_operation
from tests.ui.glass_hand import GlassHand
from tests.ui.hands import Hand, answer_all, answer_tag, follow, take_apart


class Camera:
    """The folder that stands for the camera, and the hand that works with it."""

    def __init__(self, hand: GlassHand, folder: Path) -> None:
        self.hand, self.stage, self.folder, self._count = hand, hand.stage, folder, 0
        hand.desk.watching.camera.opening = opening_of(folder)

    def sees(self, *texts: str) -> None:
        """From now on these labels lie under the camera."""
        self._count += 1
        put_picture(self.folder, f"{self._count:03}", texts, self._count)

    def on(self) -> None:
        """Touches the plate beside the scan line and waits for the first picture."""
        self.hand.touch("Camera")
        self.stage.until(lambda: self.hand.desk.watching.camera.state == ON)


@pytest.fixture
def camera(hand: GlassHand, tmp_path: Path) -> Iterator[Camera]:
    """A camera that sees an empty bench; afterwards nothing of it is left."""
    made = Camera(hand, tmp_path / "camera")
    made.sees()
    yield made
    hand.stage.app.stop()
    for thread in (hand.desk.watching.camera.thread, hand.desk.watching.looking.thread):
        if thread is not None:
            thread.join(WHOLE_RUN_S)
            assert not thread.is_alive()
    callbacks = [event.get_callback() for event in Clock.get_events()]
    assert [one for one in callbacks if getattr(one, "__module__", "").startswith("teardown_app")] == []


def taken_apart(hand: GlassHand) -> Hand:
    """Everything is off, done at the desk: what is shown meanwhile is not looked at."""
    desk, at_desk = hand.desk, Hand(hand.desk)
    shown, desk.listeners = desk.listeners, []
    take_apart(at_desk)
    desk.listeners = shown
    desk._changed()
    hand.stage.frames(4)
    return at_desk


def test_at_the_teardown_bench_a_tag_is_bound_to_the_part_in_hand(camera: Camera) -> None:
    """Condition, then the next label of the roll held under the camera: recorded, with flash and word."""
    hand, stage, desk = camera.hand, camera.stage, camera.hand.desk
    hand.sign_on("MK")
    hand.row("BRD-25")
    hand.touch("Work on")
    hand.row("10.10")
    camera.on()
    stage.until(lambda: stage.widgets(LivePane))
    pane = stage.widgets(LivePane)[0]
    stage.until(lambda: pane.pictured)
    assert pane.ids.eye._box.texture is not None and pane.ids.eye.width > 30 * theme.mm
    heard: list[str] = []
    flashed: list[tuple[float, ...]] = []
    scan = stage.app.bench.ids.scan
    desk.feedback.append(heard.append)
    scan.bind(edge=lambda _, edge: flashed.append(tuple(edge)))
    number = answer_tag(desk)
    camera.sees(number)
    stage.until(lambda: came_from(desk.job, "10.10"))
    assert number_of(desk.job, came_from(desk.job, "10.10")[0]) == number
    assert heard == ["accept"] and tuple(theme.safe) in flashed and number in scan.said
    stage.until(lambda: desk.watching.outlines().labels)
    stage.until(lambda: len(pane.ids.eye._lines.children) > 0)  # the label is outlined
    camera.sees("MAKER 4711-AB")
    stage.until(lambda: "reject" in heard)
    assert tuple(theme.stop) in flashed and "no number of ours" in scan.said
    hand.touch("Other camera")
    stage.until(lambda: desk.watching.camera.side == FRONT and desk.watching.camera.state == ON)
    assert pane.ids.eye.mirrored and pane.ids.eye._box.tex_coords[0] == 1
    hand.touch("Office")
    assert not desk.watching.camera.is_on and not stage.widgets(LivePane)
    assert stage.app.on_pause() is True


def drawn_at(pane: TrayPane) -> list[tuple[float, float]]:
    """Corners of the second outline on the glass; the first one is left out, and broken."""
    closed = [one.points for one in pane.ids.marks.canvas.children if isinstance(one, Line) and one.close]
    return list(zip(closed[0][::2], closed[0][1::2], strict=True))


def test_in_the_cleaning_room_a_tray_goes_into_the_basket_with_one_touch(camera: Camera) -> None:
    """Nine labels and a foreign code in one picture; one is touched and left out, one touch takes the others."""
    hand, stage, desk = camera.hand, camera.stage, camera.hand.desk
    hand.sign_on("MK")
    hand.row("pump")
    hand.touch("Work on")
    taken_apart(hand)
    hand.touch("Cleaning")
    chosen = _at_one_operation(hand)
    camera.sees(*[number_of(desk.job, part) for part in chosen], "MAKER 55")
    camera.on()
    every = len(chosen) + 1
    says = f"All {len(chosen)} as a tray"
    stage.until(lambda: any(step.says == says for step in desk.view().live.steps))
    hand.touch(says)
    stage.until(lambda: desk.view().card.far == f"{len(chosen)} of {every}")
    pane = stage.widgets(TrayPane)[0]
    stage.until(lambda: pane.ids.picture.texture is not None and pane.ids.picture.texture.width > 100)
    spot = next(one for one in desk.view().tray.spots if one.key == number_of(desk.job, chosen[0]))
    corners = pane._points(spot)
    middle = [sum(axis) / 4 for axis in zip(*corners, strict=True)]
    stage.touch_at(*pane.to_window(*(a + b for a, b in zip(middle, pane.pos, strict=True))))
    assert hand.view.card.far == f"{len(chosen) - 1} of {every}"
    for sized in (lambda: desk.open("tray"), desk.leave_form):
        sized()
        desk._changed()
        stage.frames(4)
        assert drawn_at(pane) == pane._points(desk.view().tray.spots[1]), "the outlines go with the picture"
    before = hand.gestures
    hand.touch(f"Take {len(chosen) - 1} part")
    assert hand.gestures - before == 1
    assert desk.screen.name == "cleaning" and set(desk.screen.state["basket"]) == set(chosen[1:])


def test_at_the_assembly_bench_the_part_that_goes_in(camera: Camera) -> None:
    """A released part under the camera is fitted: yes, large. Held there, it is not fitted twice."""
    hand, stage, desk = camera.hand, camera.stage, camera.hand.desk
    hand.sign_on("MK")
    hand.row("pump")
    hand.touch("Work on")
    desk_hand = taken_apart(hand)
    part = next(one.part for one in next_in(desk.opened.live) if one.part)
    follow(desk_hand, part, ("Release it", "Fit it", "To its assembly"))
    desk.open("release ready")
    answer_all(desk_hand)
    assert is_released(desk.job, part)
    stage.frames(4)
    hand.touch("Assembly")
    camera.on()
    camera.sees(number_of(desk.job, part))
    stage.until(lambda: holder(desk.job, own_place(desk.job, part)) == part)
    assert hand.view.card.far == "YES"
    records = len(desk.job.records)
    stage.wait(0.5)
    assert len(desk.job.records) == records and hand.view.card.far == "YES"
