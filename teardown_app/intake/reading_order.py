"""Which reader looks at what, in which order, and what each is called when it has found a code.

The order was chosen by measuring: what reads most for its time comes first (`docs/readers.md`, decision 9).
Nothing is read here.
"""

from __future__ import annotations

from collections.abc import Callable

from attrs import frozen

from teardown_app.intake.code_readers import Reader, Readers
from teardown_app.intake.code_steps import (
    View,
    centre,
    double,
    evened,
    half,
    larger,
    negative,
    smooth,
    three_quarters,
    threshold,
    two_thirds,
)
from teardown_app.intake.pictures import Grey


@frozen
class Step:
    """One look of one reader."""

    how: str
    """What is said of a code that it finds; begins with the reader's name."""
    treatments: tuple[Callable[[View], View], ...] = ()
    """What is done to the picture before it, one after the other."""

    def reader(self, readers: Readers) -> Reader | None:
        """The reader that looks, or None where it is not at hand."""
        return readers.zxing if self.how.startswith("zxing") else readers.zbar

    def view(self, grey: Grey) -> View:
        """What the reader gets to see."""
        view = View(grey)
        for treatment in self.treatments:
            view = treatment(view)
        return view


PLAIN = Step("zxing")
ALL_OVER = Step("zbar, threshold", (threshold,))
"""The whole picture by the second reader: it reads through dirt on a finder mark, where the first is blind."""
PLAIN_ZBAR = Step("zbar")
"""As the picture is: of small tags side by side a threshold spoils some, and this reads them all."""
ALL_OVER_HALF = Step("zbar, half size", (half,))
"""The quickest look of zbar at the whole picture: for a dirty tag that nobody aimed at."""

HALF = Step("zbar, centre, half size", (centre, half))
LARGER = Step("zxing, centre, larger", (centre, larger))
THREE_QUARTERS = Step("zbar, centre, three quarters", (centre, three_quarters))
SMOOTH = Step("zxing, centre, smooth", (centre, smooth))
HALF_NEGATIVE = Step("zbar, centre, half size, negative", (centre, half, negative))
EVENED = Step("zbar, centre, two thirds, evened", (centre, two_thirds, evened))
SMOOTH_EVENED = Step("zbar, centre, smooth, evened", (centre, smooth, evened))
SMOOTH_NEGATIVE = Step("zbar, centre, smooth, evened, negative", (centre, smooth, evened, negative))
DOUBLE = Step("zbar, centre, double size", (centre, double))

_BOTH = (PLAIN, HALF, LARGER, THREE_QUARTERS, SMOOTH, HALF_NEGATIVE, EVENED, SMOOTH_EVENED, ALL_OVER_HALF)
_ZBAR_ALONE = (ALL_OVER, HALF, THREE_QUARTERS, HALF_NEGATIVE, EVENED, SMOOTH_EVENED, SMOOTH_NEGATIVE, DOUBLE)
_ZXING_ALONE = (PLAIN, LARGER, SMOOTH)

_LIVE_BOTH = (PLAIN, LARGER, PLAIN, SMOOTH_EVENED)
_LIVE_ZBAR_ALONE = (THREE_QUARTERS, SMOOTH_EVENED, HALF, THREE_QUARTERS, HALF_NEGATIVE, EVENED)
_LIVE_ZXING_ALONE = (PLAIN, LARGER, SMOOTH)


def one_after_the_other(readers: Readers) -> tuple[Step, ...]:
    """Steps for one picture, until one of them has found something."""
    return _for(readers, _BOTH, _ZBAR_ALONE, _ZXING_ALONE)


def over_a_tray(readers: Readers) -> tuple[Step, ...]:
    """Steps that look for more where several codes were found: all over, by what has not looked so yet."""
    return _for(readers, (ALL_OVER,), (PLAIN_ZBAR,), ())


def in_rotation(readers: Readers) -> tuple[Step, ...]:
    """Steps for live frames, one a frame, from the beginning again after the last."""
    return _for(readers, _LIVE_BOTH, _LIVE_ZBAR_ALONE, _LIVE_ZXING_ALONE)


def _for(
    readers: Readers, both: tuple[Step, ...], zbar_alone: tuple[Step, ...], zxing_alone: tuple[Step, ...]
) -> tuple[Step, ...]:
    if readers.zxing is None:
        return zbar_alone if readers.zbar is not None else ()
    return both if readers.zbar is not None else zxing_alone
