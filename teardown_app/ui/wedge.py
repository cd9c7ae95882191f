"""A keyboard-wedge scanner types: what comes is a scan when it is one of our numbers, by its form and check
character, ended by Enter, Tab or 150 ms of silence. Typing into a pad is left in the pad. No Kivy here.
"""

from __future__ import annotations

from collections.abc import Callable

from teardown_app.domain.tag import is_ours

SILENCE_S = 0.15
LONGEST = 64


class Wedge:
    """Collects characters; `scanned` gets a number of ours, `typed` what somebody typed on a keyboard."""

    def __init__(self, scanned: Callable[[str], None], typed: Callable[[str], None], un_type: Callable[[int], None]):
        self._scanned, self._typed, self._un_type = scanned, typed, un_type
        self._text = ""
        self._shown = 0
        self._last = 0.0

    def take(self, text: str, now: float, *, into_field: bool) -> None:
        """Characters that came at a moment; into an open field they go at once, and come out again if it was a scan."""
        if now - self._last > SILENCE_S:
            self._forget()
        self._last = now
        self._text = (self._text + text)[-LONGEST:]
        if into_field:
            self._typed(text)
            self._shown += len(text)

    def end(self) -> bool:
        """Enter or Tab: true when it ended a scan, so that it presses nothing."""
        text, shown = self._text.strip(), self._shown
        self._forget()
        if not text:
            return False
        if is_ours(text):
            if shown:
                self._un_type(shown)
            self._scanned(text)
            return True
        if not shown:
            self._scanned(text)
            return True
        return False

    def silence(self, now: float) -> None:
        """Called now and then: a number of ours that nothing ended is a scan all the same."""
        if self._text and now - self._last > SILENCE_S:
            text, shown = self._text.strip(), self._shown
            self._forget()
            if is_ours(text):
                if shown:
                    self._un_type(shown)
                self._scanned(text)

    def _forget(self) -> None:
        self._text, self._shown = "", 0
