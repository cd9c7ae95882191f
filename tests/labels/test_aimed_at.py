"""Which code of a picture was aimed at, and when all of a picture are told.

Decision 9: "one code in the middle 60 % was aimed at, and the looking ends; several codes, or one at the edge, are a
tray, and zbar looks all over as well. Of picture files nobody knows what was aimed at: always all over."
"""

from __future__ import annotations

from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from teardown_app.domain.tags.tag import issue
from teardown_app.intake.code_readers import Corners, Readers, zbar, zxing
from teardown_app.intake.pictures import Grey
from teardown_app.intake.read_codes import read_grey, read_still
from teardown_app.labels.label import Label
from teardown_app.labels.picture import png

NUMBERS, _ = issue("P", "7K3M", 1, 2)
CLEAN, DIRTY = NUMBERS
BOTH = Readers(zxing=zxing(), zbar=zbar())
HIGH, WIDE = 500, 900
AIMED, BESIDE = 450, 110
"""Where the middle of a label lies, from the left; the picture is 900 pixels wide."""

both = pytest.mark.skipif(BOTH.zxing is None or BOTH.zbar is None, reason="one of the readers is not installed")


def label(number: str, *, dirty: bool = False) -> Grey:
    """One label, 5 dots a module; a blot on a finder mark blinds zxing-cpp and not zbar."""
    grey = np.array(Image.open(BytesIO(png(Label(number), dots=5))).convert("L"))
    if dirty:
        grey[20:32, 20:32] = 120
    return grey


def bench(*labels: tuple[Grey, int]) -> Grey:
    """Labels on a grey bench at half its height, each with its middle so far from the left."""
    grey = np.full((HIGH, WIDE), 120, np.uint8)
    for one, at in labels:
        high, wide = one.shape
        top, left = (HIGH - high) // 2, at - wide // 2
        grey[top : top + high, left : left + wide] = one
    return grey


@both
def test_of_two_labels_the_clean_one_in_the_middle_is_the_one_aimed_at() -> None:
    """The dirty one beside it was not meant: it is read only where nobody aimed."""
    grey = bench((label(CLEAN), AIMED), (label(DIRTY, dirty=True), BESIDE))
    assert [code.text for code in read_grey(grey, BOTH)] == [CLEAN]
    assert [code.text for code in read_still(grey, BOTH)] == [CLEAN, DIRTY]


@both
def test_of_two_labels_the_one_at_the_edge_is_never_read_alone() -> None:
    """What lies in the middle may be the dirty one: it is looked for, and both are told."""
    grey = bench((label(DIRTY, dirty=True), AIMED), (label(CLEAN), BESIDE))
    assert [code.text for code in read_grey(grey, BOTH)] == [CLEAN, DIRTY]


@both
def test_two_clean_labels_are_a_tray_wherever_they_lie() -> None:
    """Nothing is chosen for the person who aimed between them."""
    for first, second in ((AIMED, BESIDE), (340, 560)):
        grey = bench((label(NUMBERS[0]), first), (label(NUMBERS[1]), second))
        assert {code.text for code in read_grey(grey, BOTH)} == set(NUMBERS)


def square(x: float, y: float, side: float = 20) -> Corners:
    """Corners of a code whose middle lies there."""
    half = side / 2
    ends = ((-half, -half), (half, -half), (half, half), (-half, half))
    return tuple((round(x + across), round(y + down)) for across, down in ends)


class Told:
    """Two readers that see what they are told to; how often the second one was asked is counted."""

    def __init__(self, first: list[tuple[str, Corners]], second: list[tuple[str, Corners]] | None = None) -> None:
        self.asked = 0
        self._second = second or []
        self.readers = Readers(zxing=lambda grey: first, zbar=self._look)

    def _look(self, grey: Grey) -> list[tuple[str, Corners]]:
        self.asked += 1
        return self._second


PICTURE = np.full((100, 200), 128, np.uint8)
"""High and wide; the middle 60 % reach from 20 to 80 down, and from 40 to 160 across."""


@pytest.mark.parametrize(
    ("x", "y", "aimed"),
    [
        (100, 50, True),
        (40, 50, True),
        (39, 50, False),
        (160, 50, True),
        (161, 50, False),
        (100, 20, True),
        (100, 19, False),
        (100, 80, True),
        (100, 81, False),
        (40, 80, True),
        (39, 81, False),
        (60, 90, False),
        (170, 50, False),
    ],
)
def test_the_middle_of_a_code_lies_in_the_middle_60_percent(x: float, y: float, aimed: bool) -> None:
    """Inside, at all four ends, outside."""
    told = Told([(CLEAN, square(x, y))])
    assert [code.text for code in read_grey(PICTURE, told.readers)] == [CLEAN]
    assert (told.asked == 0) is aimed


def test_a_code_without_corners_was_not_aimed_at() -> None:
    """Nobody can say where it lies."""
    told = Told([(CLEAN, ())])
    assert [code.text for code in read_grey(PICTURE, told.readers)] == [CLEAN]
    assert told.asked == 1


def test_two_codes_in_the_middle_are_a_tray_and_the_second_reader_adds_to_it() -> None:
    """In the order in which they were found."""
    told = Told([(CLEAN, square(80, 50)), (DIRTY, square(120, 50))], [("X", square(20, 20))])
    assert [code.text for code in read_grey(PICTURE, told.readers)] == [CLEAN, DIRTY, "X"]


@pytest.mark.parametrize(
    ("text", "x", "y", "told_too"),
    [
        (CLEAN, 150, 50, False),  # the same text: the same code, wherever the reader saw it
        ("X", 20, 50, False),  # another text, its middle on the first code: read in two ways
        ("X", 27, 56, False),
        ("X", 31, 50, True),  # beside it
        ("X", 20, 61, True),
        ("X", 9, 50, True),
        ("X", 20, 39, True),
        ("X", 150, 50, True),
    ],
)
def test_what_lies_on_a_code_already_read_is_that_code(text: str, x: float, y: float, told_too: bool) -> None:
    """The first one lies at 20, 50 and is 20 wide; what the first reader read stays."""
    told = Told([(CLEAN, square(20, 50))], [(text, square(x, y, side=8))])
    found = [code.text for code in read_grey(PICTURE, told.readers)]
    assert found == ([CLEAN, text] if told_too else [CLEAN])


def test_of_a_picture_file_all_codes_are_told_also_when_one_lies_in_the_middle() -> None:
    """Nobody knows what was aimed at."""
    told = Told([(CLEAN, square(100, 50))], [(DIRTY, square(20, 20))])
    assert [code.text for code in read_still(PICTURE, told.readers)] == [CLEAN, DIRTY]
