"""Numbers that come wrong, on the glass: a scanner on another keyboard, wrong characters on the tag pad, keys alone."""

from __future__ import annotations

from kivy.core.window import Window

from teardown_app.domain.parts.parts import number_of, parts
from teardown_app.domain.tags.tag import issue
from teardown_app.ui.not_issued import YES
from teardown_app.ui.parts.plate import Plate
from teardown_app.ui.view import TAG
from tests.labels.test_tag_keyboards import slipped
from tests.ui.glass_hand import GlassHand
from tests.ui.hands import answer_tag, taken_off, to_the_label


def at_the_label(hand: GlassHand) -> str:
    """The next part wants its label; gives the number of the one at hand."""
    to_the_label(hand)
    return answer_tag(hand.desk)


def numbers_on(hand: GlassHand) -> list[str]:
    """Numbers of the parts that are off."""
    return [number_of(hand.desk.job, part) for part in parts(hand.desk.job)]


def marked(hand: GlassHand) -> list[int]:
    """Places that the pad marks, in sight and within it."""
    pad = hand.stage.app.bench.pad
    cells = pad.cells.children[::-1]
    assert pad.cells.get_root_window() and all(pad.x - 1 <= one.x and one.right <= pad.right + 1 for one in cells)
    return [place for place, cell in enumerate(cells) if cell.wrong]


def test_a_burst_through_another_keyboard(hand: GlassHand) -> None:
    """Scanner US, tablet French: put right, said, and nothing of it stays on the pad."""
    number = at_the_label(hand)
    hand.stage.wedge(slipped(number, "us", "fr"))
    assert numbers_on(hand) == [number]
    assert hand.stage.app.bench.ids.scan.said.startswith(f"Read as {number}:")
    assert hand.stage.app.bench.pad.text == ""


def test_a_burst_that_nobody_knows_stands_on_the_pad(hand: GlassHand) -> None:
    """The second Enter of CR and LF does not say OK to it; a touch does, and another one that it is a label of ours."""
    at_the_label(hand)
    number = issue("P", "ZY3Y", 7, 1)[0][0]
    hand.stage.wedge(slipped(number, "us", "de"))
    Window.dispatch("on_key_down", 13, 40, None, [])
    hand.stage.frames()
    pad = hand.stage.app.bench.pad
    assert pad.text == pad.cells.text == number and "compare it with the label" in pad.hint and numbers_on(hand) == []
    hand.stage.touch(hand.stage.plate_on_pad("OK"))
    assert numbers_on(hand) == []
    hand.stage.touch(hand.stage.plate_on_pad(YES))
    assert numbers_on(hand) == [number]


def test_a_wrong_character_is_marked_at_its_place(hand: GlassHand) -> None:
    """As soon as ten stand there; OK records nothing and leaves them; put right with real touches, it goes in."""
    number = at_the_label(hand)
    wrong = number[:8] + ("8" if number[8] != "8" else "B") + number[9]
    for sign in wrong:
        assert marked(hand) == []
        hand.stage.touch(hand.stage.plate_on_pad(sign))
    pad = hand.stage.app.bench.pad
    assert 8 in marked(hand) and number in pad.hint
    hand.stage.touch(hand.stage.plate_on_pad("OK"))
    assert numbers_on(hand) == [] and pad.text == wrong and 8 in marked(hand)
    assert number in hand.stage.app.bench.ids.scan.said
    keys = [one for one in pad.walk(restrict=True) if isinstance(one, Plate)]
    assert len(keys) == 36 and all(one.top <= pad.cells.y for one in keys), "34 signs, back and OK, below the cells"
    for _ in range(2):
        hand.stage.touch(hand.stage.plate_on_pad("⌫"))
    assert marked(hand) == [] and pad.text == number[:8]
    hand.stage.keys(number[8:])
    assert numbers_on(hand) == [number]


def test_keys_alone_are_a_scan_and_a_reading(hand: GlassHand) -> None:
    """As on Android, where no text comes without a field of the system."""
    number = at_the_label(hand)
    keys_alone(hand, number)
    assert numbers_on(hand) == [number]
    bowl = taken_off(hand.desk, "10.10")
    hand.desk.open("check", thing=bowl, check="bowl-roughness", when="as found", spot="wall 0")
    if hand.view.field.name == "tool":
        hand.desk.entered("tool", hand.view.field.choices[0])
    hand.desk._changed()
    hand.stage.frames()
    keys_alone(hand, "0.31")
    read = [one.body for one in hand.desk.job.records.values() if one.typ == "check.read"]
    assert [one["value"]["text"] for one in read] == ["0.31"]


def keys_alone(hand: GlassHand, text: str) -> None:
    """Keys of a US keyboard and Enter, with shift beside them."""
    for sign in text:
        Window.dispatch("on_key_down", ord(sign.lower()), 0, sign.lower(), ["shift"] if sign.isupper() else [])
    Window.dispatch("on_key_down", 13, 40, None, [])
    hand.stage.frames()


def test_a_number_with_blanks_keeps_its_cells(hand: GlassHand) -> None:
    """A keyboard's hyphens and blanks are not shown; too many characters are marked beyond the tenth."""
    number = at_the_label(hand)
    pad = hand.stage.app.bench.pad
    assert hand.view.field.kind == TAG
    hand.stage.wedge("-".join((number[:5], number[5:8])), enter=False)
    assert pad.cells.text == number[:8] and marked(hand) == []
    hand.stage.app.wedge.forget()
    hand.stage.wedge(" " + number[8:] + "77", enter=False)
    assert marked(hand) and min(marked(hand)) == 10
