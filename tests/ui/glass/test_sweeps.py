"""Sweeps over all screens on this tablet: sizes in millimetres, overlaps, text that fits, signs in the font,
contrast, nothing left behind."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from kivy.clock import Clock
from kivy.core.window import Window
from kivy.uix.label import Label
from kivy.uix.scrollview import ScrollView

from teardown_app.domain.parts.parts import number_of
from teardown_app.labels.supplies import supply
from teardown_app.ui.camera import NONE
from teardown_app.ui.captures import opening_of
from teardown_app.ui.label_reader import Label as Read
from teardown_app.ui.label_reader import Seen
from teardown_app.ui.look.lettering import lines_of
from teardown_app.ui.look.palette import PALETTES, contrast
from teardown_app.ui.look.theme import theme
from teardown_app.ui.parts.pad import Pad
from teardown_app.ui.parts.plate import Plate
from tests.ui.glass_hand import GlassHand
from tests.ui.hands import answer_tag, taken_off
from tests.ui.profiles import NAME, TABLET
from tests.ui.stage import Stage, corners

SMALLEST_MM = 9.0
KEY_MM = {"10 inch landscape": (8.0, 7.0), "8 inch portrait": (7.0, 9.0)}
"""Smallest key of the letter and tag pads: forty keys side by side do not reach 9 mm on these glasses."""


def screens(hand: GlassHand) -> Iterator[str]:
    """Walks through every screen and the kinds of fields."""
    stage, desk = hand.stage, hand.desk
    yield "sign on"
    hand.touch("MK")
    yield "pin"
    hand.enter("314159")
    hand.enter("314159")
    yield "jobs, none in hand"
    hand.who()
    yield "who"
    hand.touch("Cancel")
    hand.row("BRD-25")
    yield "jobs"
    hand.touch("Work on")
    yield "teardown, screws"
    hand.touch("Count")
    yield "number pad"
    hand.enter("1")
    yield "teardown, part"
    hand.touch("Scan a label")
    yield "tag pad"
    hand.touch("Cancel")
    number = answer_tag(desk)
    hand.scan(number)
    yield "recorded"
    hand.scan(number)
    yield "part"
    hand.touch("Finding")
    yield "words"
    hand.touch("In own words")
    yield "letter pad"
    hand.touch("Cancel")
    hand.touch("Photograph")
    yield "photograph"
    bowl = taken_off(desk, "10.10")
    desk.open("check", thing=bowl, check="bowl-roughness", when="as found", spot="wall 0")
    desk._changed()
    yield "instrument"
    desk.entered("tool", desk.asking.field().choices[0])
    stage.app.bench.pad.type("0.42")
    yield "reading"
    stage.app.bench.pad.done()
    stage.frames()
    desk.go("part", part=bowl)
    desk._changed()
    hand.touch("Trend")
    yield "trend"
    yield from with_the_camera(hand, bowl)
    for name in ("Cleaning", "Assembly", "Open points", "Office"):
        hand.touch(name)
        yield name
    for topic in ("People", "Places", "Instruments", "Scope", "Customer", "This tablet", "Labels"):
        hand.touch(topic)
        yield f"office, {topic}"
    hand.touch("Paper and printer")
    yield "office, paper of labels"
    stage.touch(stage.app.bench.ids.scan_touch)
    yield "search"
    hand.touch("Cancel")


def with_the_camera(hand: GlassHand, part: str) -> Iterator[str]:
    """The camera's pane above card and pads, its questions, and a tray."""
    stage, desk = hand.stage, hand.desk
    desk.watching.camera.opening = opening_of(Path("no such folder"))
    desk.go("part", part=part)
    desk._changed()
    hand.touch("Camera")
    stage.until(lambda: desk.watching.camera.state == NONE)
    yield "camera, none"
    for form, what in (("label", "tag pad"), ("extra part", "letter pad"), ("count", "number pad")):
        desk.open(form, part=part, key="10.90", how="extra")
        desk._changed()
        stage.frames(2)
        yield f"camera, {what}"
        desk.leave_form()
    desk.scan("HTTPS://EXAMPLE.COM/A-CODE-OF-ITS-MAKER")
    stage.frames(2)
    yield "camera, foreign"
    hand.touch("Camera")
    number = number_of(desk.job, part)
    square = ((0.1, 0.1), (0.4, 0.1), (0.4, 0.4), (0.1, 0.4))
    labels = (Read(number, True, False, square), Read(desk.roll[50], True, False, square))
    desk.did(lambda: desk.watching.read_picture(Seen(labels)))
    stage.frames(2)
    yield "tray"


def is_in_sight(widget: Plate) -> bool:
    """False where it is scrolled out of its pane."""
    parent = widget.parent
    left, low, right, top = corners(widget)
    while parent is not None and parent is not Window:
        if isinstance(parent, ScrollView):
            view = corners(parent)
            if low < view[1] - 1 or top > view[3] + 1:
                return False
        parent = parent.parent
    return True


def plates(stage: Stage) -> list[Plate]:
    """All plates that can be touched now."""
    return [one for one in stage.widgets(Plate) if one.opacity and not one.disabled and one.text and is_in_sight(one)]


def test_every_plate_is_large_enough_and_none_lies_over_another(hand: GlassHand) -> None:
    """look.md: rows 13 mm for gloves, nothing smaller than 9 mm but the keys of the large pads."""
    for name in screens(hand):
        hand.stage.frames(3)
        found = plates(hand.stage)
        boxes = [corners(one) for one in found]
        keys = [one for pad in hand.stage.widgets(Pad) for one in pad.walk() if isinstance(one, Plate)]
        for plate, (left, low, right, top) in zip(found, boxes, strict=True):
            said = f"{NAME}, {name}: {plate.text!r}"
            wide, high = (right - left) / theme.mm, (top - low) / theme.mm
            least = KEY_MM[NAME] if plate in keys else (SMALLEST_MM, SMALLEST_MM)
            assert wide >= least[0] - 0.05 and high >= least[1] - 0.05, f"{said} is {wide:.1f} x {high:.1f} mm"
            assert left >= -1 and low >= -1 and right <= TABLET.width + 1 and top <= TABLET.height + 1, said
        for n, one in enumerate(boxes):
            for m, other in enumerate(boxes[:n]):
                apart = (
                    one[0] >= other[2] - 1 or other[0] >= one[2] - 1 or one[1] >= other[3] - 1 or other[1] >= one[3] - 1
                )
                assert apart, f"{NAME}, {name}: {found[n].text!r} lies over {found[m].text!r}"


def test_the_one_next_step_is_20_mm_high(hand: GlassHand) -> None:
    """On every screen that has one."""
    seen = 0
    for name in screens(hand):
        filled = [
            one for one in plates(hand.stage) if one.filled and one in hand.stage.app.bench.ids.band.ids.steps.children
        ]
        assert len(filled) <= 1, name
        for one in filled:
            seen += 1
            assert one.height / theme.mm >= 19.9, f"{name}: {one.text}"
    assert seen >= 8


def test_words_fit_their_plates_and_every_sign_is_in_the_font(hand: GlassHand) -> None:
    """There is no fallback for a missing sign: it would be an empty box."""
    known = set(TTFont(str(supply("fonts/DejaVuSans.ttf"))).getBestCmap())
    for name in screens(hand):
        hand.stage.frames(3)
        for label in hand.stage.widgets(Label):
            missing = {sign for sign in label.text if ord(sign) not in known and sign != "\n"}
            assert not missing, f"{name}: {missing} in {label.text!r}"
        for plate in plates(hand.stage):
            words = plate.children[0]
            assert words.texture_size[0] <= plate.width + 2, f"{NAME}, {name}: {plate.text!r} is cut at the side"
            assert words.texture_size[1] <= plate.height + 2, f"{NAME}, {name}: {plate.text!r} is cut"
            lines = lines_of(plate.text, words.font_name, words.font_size, words.width)
            assert 0 < lines <= 2, f"{NAME}, {name}: {plate.text!r} needs more room and is cut or broken"


@pytest.mark.parametrize("name", PALETTES)
def test_contrast_is_seven_to_one(name: str) -> None:
    """WCAG 2.2, criterion 1.4.6 (enhanced): at least 7 : 1 for text."""
    one = PALETTES[name]
    for ground in (one.base, one.plate):
        assert contrast(one.ink, ground) >= 7 and contrast(one.quiet, ground) >= 7
    assert contrast(one.over_accent, one.accent) >= 7
    assert contrast(one.plate, one.ink) >= 7, "the scan line"
    assert contrast((0.05, 0.05, 0.05, 1), one.caution) >= 7, "the red list"


def test_closing_leaves_nothing_scheduled_or_bound(hand: GlassHand) -> None:
    """After the walk and the closing the clock has what it had before."""
    for _ in screens(hand):
        pass
    app = hand.stage.app
    app.stop()
    hand.stage.frames(2)
    callbacks = [event.get_callback() for event in Clock.get_events()]
    ours = [one for one in callbacks if getattr(one, "__module__", "").startswith("teardown_app")]
    assert ours == []
    assert not any("TeardownApp" in repr(one) for one in Window.get_property_observers("on_textinput") or [])


def test_every_palette_and_density_can_be_worn(hand: GlassHand) -> None:
    """The office's tablet page changes it at once, and rows become 9 mm for bare hands."""
    hand.sign_on("MK")
    hand.touch("Office")
    hand.touch("This tablet")
    for word in (*PALETTES, "bare hands", "gloves"):
        hand.row(word)
        assert word in (theme.name, hand.desk.choice.density)
        hand.stage.frames(2)
    assert theme.row == pytest.approx(13 * theme.mm)
    hand.row("bare hands")
    assert theme.row == pytest.approx(9 * theme.mm)
    hand.row("gloves")
