"""Keyboard-wedge scanners: bursts with and without a field, ended by Enter or by silence, and people who type."""

from __future__ import annotations

from teardown_app.domain.tags.tag import is_ours, issue
from teardown_app.ui.wedge import AFTER_S, SILENCE_S, Wedge, sign_of

TAG = issue("P", "7K3M", 0, 1)[0][0]


class Ear:
    """Hears what a wedge tells."""

    def __init__(self) -> None:
        self.scans: list[str] = []
        self.field = ""
        self.wedge = Wedge(self.scans.append, self._type, self._un_type)

    def _type(self, text: str) -> int:
        self.field += text
        return len(text)

    def _un_type(self, count: int) -> None:
        self.field = self.field[: len(self.field) - count]

    def burst(self, text: str, *, at: float = 0.0, into_field: bool = False) -> None:
        """All characters in one frame."""
        for sign in text:
            self.wedge.take(sign, at, into_field=into_field)

    def keys(self, text: str, *, at: float = 0.0, into_field: bool = False) -> None:
        """The same as keys go down on a US keyboard: no text, shift for capitals."""
        for sign in text:
            self.wedge.press(sign_of(ord(sign.lower()), shift=sign.isupper()), at, into_field=into_field)


def test_a_burst_without_a_field_is_a_scan() -> None:
    """Enter ends it and presses nothing."""
    ear = Ear()
    ear.burst(TAG)
    assert ear.wedge.end(0.0) and ear.scans == [TAG]
    assert not ear.wedge.end(AFTER_S), "an Enter later ends nothing: it is a person's"


def test_the_second_end_of_a_scan_presses_nothing() -> None:
    """CR and LF, or an Enter that a slow radio sends after the silence already ended the scan."""
    ear = Ear()
    ear.burst(TAG)
    assert ear.wedge.end(0.0) and ear.wedge.end(0.01), "CR, then LF"
    ear.burst(TAG, at=5.0)
    ear.wedge.silence(5.2)
    assert ear.wedge.end(5.5) and ear.scans == [TAG, TAG]
    ear.burst("8", at=6.0, into_field=True)
    assert not ear.wedge.end(6.0), "what was typed since is entered"


def test_a_burst_into_a_field_comes_out_of_it_again() -> None:
    """What was typed before stays."""
    ear = Ear()
    ear.burst("seal", into_field=True)
    ear.burst(TAG, at=5.0, into_field=True)
    assert ear.wedge.end(5.0) and ear.scans == [TAG] and ear.field == "seal"


def test_silence_ends_a_scan_too() -> None:
    """A scanner without a suffix; not before 150 ms."""
    ear = Ear()
    ear.burst(TAG, at=1.0)
    ear.wedge.silence(1.0 + SILENCE_S / 2)
    assert ear.scans == []
    ear.wedge.silence(1.0 + SILENCE_S * 1.1)
    assert ear.scans == [TAG]


def test_typing_into_a_field_is_typing() -> None:
    """Enter is left to the field."""
    ear = Ear()
    for n, sign in enumerate("0.38"):
        ear.wedge.take(sign, n * 0.3, into_field=True)
    ear.wedge.silence(9.0)
    assert not ear.wedge.end(9.0) and ear.scans == [] and ear.field == "0.38"


def test_a_foreign_code_without_a_field_is_told_and_with_one_is_left_there() -> None:
    """It is the desk that says it is foreign; in a field it may be a serial number."""
    ear = Ear()
    ear.burst("https://example.org/1")
    assert ear.wedge.end(0.0) and ear.scans == ["https://example.org/1"]
    ear.burst("4006381333931", at=9.0, into_field=True)
    assert not ear.wedge.end(9.0) and ear.field == "4006381333931"


def test_two_bursts_in_a_row_are_two_scans() -> None:
    """Twenty parts of a basket, one after the other."""
    ear, numbers = Ear(), issue("P", "7K3M", 0, 20)[0]
    for n, number in enumerate(numbers):
        ear.burst(number, at=n * 0.05)
        ear.wedge.end(n * 0.05)
    assert ear.scans == list(numbers)


def test_keys_alone_are_a_scan_too() -> None:
    """Android without a field of the system: only keys as they lie, with shift beside them; a field gets nothing."""
    for ended_by_enter in (True, False):
        for into_field in (False, True):
            ear = Ear()
            ear.keys(TAG, at=1.0, into_field=into_field)
            if ended_by_enter:
                assert ear.wedge.end(1.0)
            else:
                ear.wedge.silence(1.2)
            assert ear.scans == [TAG] and ear.field == ""


def test_keys_that_are_no_scan_go_into_the_field() -> None:
    """A gauge's reading with Enter, a person's figure after the silence; shifted signs are those of the keyboard."""
    ear = Ear()
    ear.keys("0.31", into_field=True)
    assert not ear.wedge.end(0.0) and ear.field == "0.31"
    ear.keys("4", at=3.0, into_field=True)
    ear.keys("2", at=4.0, into_field=True)
    ear.wedge.silence(5.0)
    assert ear.field == "0.3142" and ear.scans == []
    assert [sign_of(key, shift=True) for key in (61, 49, 256, 304)] == ["+", "!", "0", ""]


def test_keys_beside_text_say_nothing() -> None:
    """On other systems each key comes before its text, and a dead key without any."""
    ear = Ear()
    for sign in TAG:
        ear.wedge.press(sign.lower(), 0.0, into_field=True)
        ear.wedge.take(sign, 0.0, into_field=True)
    ear.wedge.press("^", 0.0, into_field=True)
    assert ear.wedge.end(0.0) and ear.scans == [TAG] and ear.field == ""


def test_what_comes_out_of_a_field_is_what_went_in() -> None:
    """A field may take fewer characters, or more: a capital sharp s is two."""
    ear = Ear()
    ear.wedge = Wedge(ear.scans.append, lambda text: ear._type(text.upper()), ear._un_type, lambda text: "ß" in text)
    ear._type("seal ")
    ear.burst("P7Kß", into_field=True)
    assert ear.field == "seal P7KSS"
    assert ear.wedge.end(0.0) and ear.field == "seal " and ear.scans == ["P7Kß"]


def test_a_scan_without_an_end_is_not_lost_to_the_next_key() -> None:
    """The clock did not come round between the scan and what follows it."""
    ear = Ear()
    ear.burst(TAG, at=1.0)
    ear.burst("8", at=1.4)
    assert ear.scans == [TAG] and is_ours(ear.scans[0])


def test_keys_alone_are_a_scan_again_after_text_once_came() -> None:
    """A note typed on the system's keyboard gives text; the scanner after it still sends keys only."""
    ear = Ear()
    ear.wedge.take("a", 0.0, into_field=True)
    ear.wedge.end(0.1)
    ear.keys(TAG, at=5.0)
    assert ear.wedge.end(5.0) and ear.scans == [TAG]


def test_what_was_pressed_is_typed_before_something_is_touched() -> None:
    """OK or Backspace right after the last key: the digits are in the field, and none is lost."""
    ear = Ear()
    ear.field = "4"
    ear.keys("25", into_field=True)
    ear.wedge.let_go()
    assert ear.field == "425" and not ear.scans
    ear.wedge.silence(1.0)
    assert ear.field == "425"
