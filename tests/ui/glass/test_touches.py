"""Touches that go wrong: palms, doubles, turning the tablet, scanners into open fields."""

from __future__ import annotations

import pytest
from kivy.core.window import Window

from teardown_app.domain.parts.parts import number_of, parts
from teardown_app.ui.parts import plate as plates
from tests.ui.glass_hand import GlassHand
from tests.ui.hands import answer_tag, taken_off
from tests.ui.profiles import TABLET
from tests.ui.shop import reopened
from tests.ui.stage import Stage


def at_teardown(hand: GlassHand) -> None:
    """MK works on the rinser-dryer."""
    hand.sign_on("MK")
    hand.row("BRD-25")
    hand.touch("Work on")


def test_a_wet_palm_touches_nothing(hand: GlassHand) -> None:
    """Three at once: the third and what comes after it press nothing."""
    at_teardown(hand)
    stage = hand.stage
    before = hand.view
    main = stage.app.bench.ids.band.ids.steps.children[0]
    x, y = main.to_window(*main.center)
    fingers = [stage.down(5, 5), stage.down(9, TABLET.height / 2), stage.down(x, y)]
    for finger in fingers:
        stage.up(finger)
    assert hand.view.field is None and hand.view.main == before.main
    hand.touch("Count")
    assert hand.view.field is not None, "one finger alone works again"


def test_a_double_touch_acts_once(hand: GlassHand, monkeypatch: pytest.MonkeyPatch) -> None:
    """The second one within 300 ms is a slip; a third one later is meant."""
    now = [100.0]
    monkeypatch.setattr(plates, "perf_counter", lambda: now[0])
    at_teardown(hand)
    hand.touch("Count")
    hand.enter("1")
    hand.touch("Worn")
    plate = hand.stage.plate("Worn")
    place = plate.to_window(*plate.center)
    now[0] += 0.29
    hand.stage.touch_at(*place)
    assert hand.desk.screen.state["condition"] == "worn", "the second touch would have taken it away"
    now[0] += 0.31
    hand.stage.touch_at(*place)
    assert hand.desk.screen.state["condition"] == ""


def test_a_square_of_the_plate_is_touched_and_asked_again(hand: GlassHand) -> None:
    """A real touch on the first square; a touch on the empty middle does nothing."""
    at_teardown(hand)
    plate, desk = taken_off(hand.desk, "30.40"), hand.desk
    desk.open("check", thing=plate, check="plate-flatness", when="as found", spot="")
    for text in ("0", "0", "0.1", "90", "52", "0.012", "-90", "52"):
        desk.entered(desk.asking.field().name, text)
    hand.stage.frames()
    pane = hand.stage.app.bench.figure
    bands = pane.figure.bands
    first = pane.at((bands[0].left + bands[0].right) / 2, (bands[0].low + bands[0].high) / 2)
    hand.stage.touch_at(*pane.to_window(pane.x + 2, pane.y + 2))
    assert "row 3, z" in hand.view.field.asks
    hand.stage.touch_at(*pane.to_window(*first))
    assert "row 1, z" in hand.view.field.asks and hand.view.field.draft == "0.1"


def test_a_gauge_that_types_is_taken_like_fingers(hand: GlassHand) -> None:
    """Digits and Enter in one burst, with and without the unit; the reading is recorded and not taken for a label."""
    at_teardown(hand)
    bowl = taken_off(hand.desk, "10.10")
    for spot, sent in (("wall 0", "0.31"), ("wall 120", "0.32 um"), ("wall 240", "+0.33")):
        hand.desk.open("check", thing=bowl, check="bowl-roughness", when="as found", spot=spot)
        if hand.view.field.name == "tool":
            hand.desk.entered("tool", hand.view.field.choices[0])
        hand.desk._changed()
        hand.stage.frames()
        hand.stage.wedge(sent)
    read = [one.body for one in hand.desk.job.records.values() if one.typ == "check.read"]
    assert [one["value"] for one in read] == [{"text": text, "unit": "um"} for text in ("0.31", "0.32", "+0.33")]


def test_a_burst_with_and_without_a_field(hand: GlassHand) -> None:
    """Ours is the answer of a tag field; in a field of words it comes out again and shows the part."""
    at_teardown(hand)
    hand.touch("Count")
    hand.enter("1")
    first = answer_tag(hand.desk)
    hand.touch("Scan a label")
    hand.scan(first)
    job = hand.desk.job
    assert [number_of(job, part) for part in parts(job)] == [first]
    hand.stage.touch(hand.stage.app.bench.ids.scan_touch)
    hand.stage.wedge("sea", enter=False)
    assert hand.stage.app.bench.pad.text == "sea"
    hand.stage.now += 9.0  # the person stopped typing a while ago
    hand.scan(first)
    assert hand.desk.screen.name == "part" and hand.view.field is None
    records = len(job.records)
    hand.scan("https://example.org/x")
    assert "no number of ours" in hand.view.scan.says and len(job.records) == records


def test_turning_the_tablet_in_the_middle_of_an_entry(hand: GlassHand) -> None:
    """What stands on the pad stays, and the keys are still there."""
    at_teardown(hand)
    hand.touch("Count")
    hand.stage.touch(hand.stage.plate_on_pad("4"))
    Window.size = (TABLET.height, TABLET.width)
    hand.stage.frames(8)
    bench = hand.stage.app.bench
    assert bench.wide == (TABLET.height > TABLET.width) and bench.pad.text == "4"
    hand.stage.touch(hand.stage.plate_on_pad("2"))
    assert bench.pad.text == "42"
    Window.size = (TABLET.width, TABLET.height)
    hand.stage.frames(8)
    assert bench.pad.text == "42"


def test_half_entered_things_come_back_after_a_restart(hand: GlassHand) -> None:
    """The screen, the form and what stood on the pad; who it is is asked before anything is recorded."""
    at_teardown(hand)
    hand.touch("Count")
    hand.stage.touch(hand.stage.plate_on_pad("8"))
    hand.stage.app.stop()
    hand.stage.desk.workshop.close()
    again = Stage(reopened(hand.desk))
    again.open()
    try:
        assert again.app.bench.pad.text == "8" and again.desk.screen.name == "teardown"
        again.touch(again.plate_on_pad("OK"))
        field = again.desk.asking.field()
        assert field is not None and "Who is it" in field.asks
    finally:
        again.close()


def test_two_fingers_zoom_the_drawing_and_a_touch_finds_a_flag(hand: GlassHand) -> None:
    """The flag keeps its size, and is found where it lies after zooming."""
    at_teardown(hand)
    hand.touch("Assembly")
    stage = hand.stage
    stage.frames(6)
    pane = stage.app.bench.drawing
    x, y = pane.to_window(*pane.center)
    one, two = stage.down(x - 40, y), stage.down(x + 40, y)
    for n in range(1, 9):
        stage.move(one, x - 40 - 8 * n, y)
        stage.move(two, x + 40 + 8 * n, y)
    stage.up(one)
    stage.up(two)
    assert pane.ids.sheet.scale > 1.5
    shown = hand.view.drawing
    assert shown
    inside = []
    for flag in shown.flags:
        place = pane.ids.paper.to_parent(*pane.place_of(flag.x, flag.y))
        if pane.collide_point(*place):
            inside.append((flag.key, pane.to_window(*place)))
    assert inside, "zooming about the middle leaves flags in sight"
    key, place = inside[0]
    stage.touch_at(*place)
    assert hand.desk.screen.state["at"] in {flag for flag, _ in inside}
    assert hand.desk.screen.state["at"] == key or len(inside) > 1


def test_a_stroke_on_a_photograph_is_an_arrow_and_a_touch_a_ring(hand: GlassHand) -> None:
    """Fractions of the picture, from its top left."""
    from PIL import Image

    at_teardown(hand)
    folder = hand.desk.workshop.home.path / "pictures"
    folder.mkdir()
    Image.new("RGB", (800, 600), (90, 90, 90)).save(folder / "a.jpg")
    hand.touch("Photograph")
    stage = hand.stage
    stage.frames(12)
    picture = stage.app.bench.photo.ids.picture
    x, y = picture.to_window(*picture.center)
    stage.touch_at(x, y)
    finger = stage.down(x, y)
    stage.move(finger, x + 60, y + 60)
    stage.up(finger)
    ring, arrow = hand.desk.screen.state["rings"]
    assert ring[:2] == pytest.approx([0.5, 0.5], abs=0.01) and ring[2] < 0
    assert arrow[0] > 0.5 > arrow[1] and arrow[2:] == pytest.approx([0.5, 0.5], abs=0.01)
