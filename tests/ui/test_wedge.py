"""Keyboard-wedge scanners: bursts with and without a field, ended by Enter or by silence, and people who type."""

from __future__ import annotations

from teardown_app.domain.tag import issue
from teardown_app.ui.wedge import SILENCE_S, Wedge

TAG = issue("P", "7K3M", 0, 1)[0][0]


class Ear:
    """Hears what a wedge tells."""

    def __init__(self) -> None:
        self.scans: list[str] = []
        self.field = ""
        self.wedge = Wedge(self.scans.append, self._type, self._un_type)

    def _type(self, text: str) -> None:
        self.field += text

    def _un_type(self, count: int) -> None:
        self.field = self.field[: len(self.field) - count]

    def burst(self, text: str, *, at: float = 0.0, into_field: bool = False) -> None:
        """All characters in one frame."""
        for sign in text:
            self.wedge.take(sign, at, into_field=into_field)


def test_a_burst_without_a_field_is_a_scan() -> None:
    """Enter ends it and presses nothing."""
    ear = Ear()
    ear.burst(TAG)
    assert ear.wedge.end() and ear.scans == [TAG]
    assert not ear.wedge.end(), "a second Enter ends nothing"


def test_a_burst_into_a_field_comes_out_of_it_again() -> None:
    """What was typed before stays."""
    ear = Ear()
    ear.burst("seal", into_field=True)
    ear.burst(TAG, at=5.0, into_field=True)
    assert ear.wedge.end() and ear.scans == [TAG] and ear.field == "seal"


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
    assert not ear.wedge.end() and ear.scans == [] and ear.field == "0.38"


def test_a_foreign_code_without_a_field_is_told_and_with_one_is_left_there() -> None:
    """It is the desk that says it is foreign; in a field it may be a serial number."""
    ear = Ear()
    ear.burst("https://example.org/1")
    assert ear.wedge.end() and ear.scans == ["https://example.org/1"]
    ear.burst("4006381333931", at=9.0, into_field=True)
    assert not ear.wedge.end() and ear.field == "4006381333931"


def test_two_bursts_in_a_row_are_two_scans() -> None:
    """Twenty parts of a basket, one after the other."""
    ear, numbers = Ear(), issue("P", "7K3M", 0, 20)[0]
    for n, number in enumerate(numbers):
        ear.burst(number, at=n * 0.05)
        ear.wedge.end()
    assert ear.scans == list(numbers)
