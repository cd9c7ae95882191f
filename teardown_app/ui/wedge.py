"""A keyboard-wedge scanner types: what comes is a scan when it is one of our numbers, by its form and check
character, ended by Enter, Tab or 150 ms of silence. Typing into a pad is left in the pad. No Kivy here.

On Android no text comes while no field of the system is open, only keys as they lie without shift.
"""

from __future__ import annotations

from collections.abc import Callable

from teardown_app.domain.tags.tag import is_ours
from teardown_app.domain.tags.tag_keyboards import KEYBOARDS

SILENCE_S = 0.15
AFTER_S = 0.5
"""An Enter that comes alone so soon after a scan is the scanner's too: CR and LF, or a slow radio (common practice)."""
LONGEST = 64
NUMBER_PAD = dict(zip(range(256, 271), "0123456789./*-+", strict=True))
"""Keys of the number block, as Kivy counts them."""
SHIFTED = str.maketrans(KEYBOARDS["us"][0] + "-=[]\\'`,./", KEYBOARDS["us"][1] + '_+{}|"~<>?')


def sign_of(key: int, *, shift: bool) -> str:
    """What a key says on a US keyboard, which Android takes every keyboard for; empty for one that says nothing.

    >>> sign_of(112, shift=True), sign_of(51, shift=True), sign_of(257, shift=False), sign_of(27, shift=False)
    ('P', '#', '1', '')
    """
    if key in NUMBER_PAD:
        return NUMBER_PAD[key]
    sign = chr(key) if 32 <= key < 127 else ""
    return sign.translate(SHIFTED) if shift else sign


class Wedge:
    """Collects characters; `scanned` gets what a scanner sent, `typed` what somebody typed and says how much was taken.

    `is_scan` tells a scanner's text among what is typed into a field.
    """

    def __init__(
        self,
        scanned: Callable[[str], object],
        typed: Callable[[str], int],
        un_type: Callable[[int], object],
        is_scan: Callable[[str], bool] = is_ours,
    ) -> None:
        self._scanned, self._typed, self._un_type, self._is_scan = scanned, typed, un_type, is_scan
        self._last = 0.0
        self._ended = -AFTER_S
        self.forget()

    def forget(self) -> None:
        """What came so far is no scan and stays where it is."""
        self._text = self._keys = ""
        self._shown = 0
        self._into_field = self._gives_text = False

    def let_go(self) -> None:
        """What was pressed so far is typed and no scan: something was touched, or a character taken back."""
        keys, into_field = self._keys, self._into_field
        if keys:
            self.forget()
            if into_field:
                self._typed(keys)

    def take(self, text: str, now: float, *, into_field: bool) -> None:
        """Characters that came at a moment; into an open field they go at once, and come out again if it was a scan."""
        self.silence(now)
        self._gives_text, self._keys = True, ""
        self._last = now
        self._text = (self._text + text)[-LONGEST:]
        if into_field:
            self._into_field = True
            self._shown += self._typed(text)

    def press(self, sign: str, now: float, *, into_field: bool) -> None:
        """A key went down. Where text comes with it the key says nothing more; else it is all there is."""
        if self._gives_text or not sign:
            return
        self.silence(now)
        self._last = now
        self._keys = (self._keys + sign)[-LONGEST:]
        self._into_field = self._into_field or into_field

    def end(self, now: float) -> bool:
        """Enter or Tab: true when it ended a scan, so that it presses nothing."""
        text, into_field = (self._text or self._keys).strip(), self._into_field
        if not text:
            self._settle()
            return now - self._ended < AFTER_S
        taken = self._settle()
        if not taken and not into_field:
            self._scanned(text)
            taken = True
        if taken:
            self._ended = now
        return taken

    def silence(self, now: float) -> None:
        """Called now and then: a number of ours that nothing ended is a scan all the same."""
        if (self._text or self._keys) and now - self._last > SILENCE_S and self._settle():
            self._ended = now

    def _settle(self) -> bool:
        """True when what came was a scan. Keys that were none are typed only now, since they could have been one."""
        text, keys, shown, into_field = self._text, self._keys, self._shown, self._into_field
        self.forget()
        came = (text or keys).strip()
        if came and self._is_scan(came):
            if shown:
                self._un_type(shown)
            self._scanned(came)
            return True
        if keys and not text and into_field:
            self._typed(keys)
        return False
