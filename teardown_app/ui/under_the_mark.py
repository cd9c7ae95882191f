"""What is like a label under the mark of the camera's picture and was not read: compared now and then, and told.

A label on the mark that was read is all that counts, and nothing more is looked for. Else each place like a label
within reach of the mark is a candidate: what the comparison says stands for it while it stays there; where nothing
came out it is told as a code without a text, so that no label behind it acts for it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any

from teardown_app.intake.comparison.spots import Spot, spots
from teardown_app.intake.painted_out import without
from teardown_app.intake.still_codes import lies_on, unread_at
from teardown_app.ui.aiming import Lies, lies

COMPARE_EVERY_S, IN_VAIN_EVERY_S = 0.2, 0.5
"""From one comparison to the next; longer after one that told nothing."""
FRAME_DEADLINE_S = 0.2
PLACES = 8

Compare = Callable[[Any, Sequence[Spot], float], list[Any]]
"""From a picture, places in it and a deadline in seconds to the code compared, if any."""


class UnderTheMark:
    """The places under the mark, frame after frame."""

    def __init__(self, compared: Compare, clock: Callable[[], float]) -> None:
        self._compared, self._clock = compared, clock
        self._there: list[Any] = []
        self._again = -math.inf

    def also(self, codes: list[Any], grey: Any) -> list[Any]:
        """These codes of a grey picture, and what is under the mark besides."""
        high, wide = grey.shape
        if any((there := lies(code.corners, wide, high)) and there.on_mark for code in codes):
            self._there = []
            return codes
        bare = without(grey, [code.corners for code in codes])
        places = self._places(bare)
        self._there = [one for one in self._there if any(lies_on(place, one) for place in places)]
        if places and self._clock() >= self._again:
            self._compare(bare, places)
        unread = [place for place in places if not any(lies_on(place, one) for one in self._there)]
        return [*codes, *self._there, *(unread_at(place) for place in unread)]

    def _places(self, bare: Any) -> list[Spot]:
        """Like a label, and within reach; the likeliest first."""
        high, wide = bare.shape
        return [one for one in spots(bare, PLACES) if _reached(one, wide, high).in_reach]

    def _compare(self, bare: Any, places: list[Spot]) -> None:
        """What the likeliest places show; and what a nearer one shows, where that was farther off."""
        self._there = self._compared(bare, places, FRAME_DEADLINE_S)
        left = [place for place in places if not any(lies_on(place, one) for one in self._there)]
        if self._there and left:
            others = without(bare, [one.corners for one in self._there])
            self._there += self._compared(others, left, FRAME_DEADLINE_S)
        self._again = self._clock() + (COMPARE_EVERY_S if self._there else IN_VAIN_EVERY_S)


def _reached(place: Spot, wide: int, high: int) -> Lies:
    return Lies(math.dist((place.x, place.y), (wide / 2, high / 2)), place.width, min(wide, high))
