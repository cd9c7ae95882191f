"""Who is signed on at this tablet, and who the next record is by.

A person signs on once a shift with the PIN; after that a badge or two touches change the person. After
ten untouched minutes the next record asks who; release, scrap, concession and signature ask the PIN each
time. PINs are on this tablet only.
"""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic

from teardown_app.records.pins import Pins

IDLE_S = 600.0
SHIFT_S = 12 * 3600.0


class WhoIsIt(Exception):
    """Nobody can be named for this record yet: a person or a PIN is asked for first."""

    def __init__(self, code: str, why: str) -> None:
        super().__init__(why)
        self.code = code
        """The person whose PIN is asked, empty when anybody may say who they are."""
        self.why = why


class Session:
    """People signed on since the shift began, the one in front of the glass, and when it was last touched."""

    def __init__(self, pins: Pins, clock: Callable[[], float] = monotonic) -> None:
        self.pins = pins
        self.current = ""
        self._clock = clock
        self._since: dict[str, float] = {}
        self._touched = clock()
        self._confirmed = ""

    def touched(self) -> None:
        """Somebody touched the glass; an idle tablet is not woken by that, it asks who first."""
        if not self.idle:
            self._touched = self._clock()

    @property
    def idle(self) -> bool:
        """True after ten untouched minutes."""
        return self._clock() - self._touched > IDLE_S

    def people(self) -> list[str]:
        """Codes signed on this shift."""
        return sorted(code for code, since in self._since.items() if self._clock() - since < SHIFT_S)

    def sign_on(self, code: str, pin: str) -> None:
        """Signs a person on for the shift. Raises `PinFault`."""
        self.pins.check(code, pin)
        self._since[code] = self._clock()
        self.change_to(code)

    def change_to(self, code: str) -> bool:
        """Changes the person in front of the glass; false when the PIN is needed first."""
        if code not in self.people():
            return False
        self.current, self._touched, self._confirmed = code, self._clock(), ""
        return True

    def sign_off(self) -> None:
        """The person in front of the glass has gone."""
        self._since.pop(self.current, None)
        self.current = self._confirmed = ""

    def confirm(self, code: str, pin: str) -> None:
        """The PIN for one weighty record. Raises `PinFault`."""
        self.sign_on(code, pin)
        self._confirmed = code

    def who(self, *, weighty: str = "") -> str:
        """Who the next record is by. `weighty` says what asks for the PIN. Raises `WhoIsIt`."""
        if not self.current or self.current not in self.people():
            raise WhoIsIt("", "Who is it?")
        if self.idle:
            raise WhoIsIt("", "Nobody touched the tablet for ten minutes. Who is it?")
        if weighty:
            self.confirmed(self.current, weighty)
        return self.current

    def confirmed(self, code: str, weighty: str) -> None:
        """Passes where the person entered the PIN for this act. Raises `WhoIsIt`."""
        if self._confirmed != code:
            raise WhoIsIt(code, f"{code}, your PIN: {weighty}")

    def done(self) -> None:
        """A confirmation counts for one act."""
        self._confirmed = ""
