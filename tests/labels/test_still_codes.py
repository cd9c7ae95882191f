"""Picture files: each place like a label is a candidate of its own, read, compared, or told as not read.

That of thirty stained labels at least so many are known is our own aim, no figure of a standard.
"""

from __future__ import annotations

import math
import random
from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from teardown_app.domain.tags.tag import issue
from teardown_app.intake.code_readers import Corners, Readers, zbar, zxing
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.comparison.spots import Spot
from teardown_app.intake.known_codes import HOW
from teardown_app.intake.pictures import Grey
from teardown_app.intake.read_codes import Code, add
from teardown_app.intake.still_codes import lies_on, read_still, whole_still
from teardown_app.labels.label import Label
from teardown_app.labels.picture import png
from tests.scanbench import Spec, frame
from tests.scanbench.aimed import bench, scene
from tests.scanbench.strangers import known_tags

NUMBERS, _ = issue("P", "7K3M", 1, 2)
CLEAN, DIRTY = NUMBERS
BOTH = Readers(zxing=zxing(), zbar=zbar())
HIGH, WIDE = 500, 900
KNOWN = known_tags(500)
TRAYS = 2

both = pytest.mark.skipif(BOTH.zxing is None or BOTH.zbar is None, reason="one of the readers is not installed")


@pytest.fixture(scope="module")
def known() -> KnownTags:
    """500 tags of one series."""
    return KnownTags(KNOWN)


def label(number: str, *, dirty: bool = False) -> Grey:
    """One label, 5 dots a module; a blot on a finder mark blinds zxing-cpp and not zbar."""
    grey = np.array(Image.open(BytesIO(png(Label(number), dots=5))).convert("L"))
    if dirty:
        grey[20:32, 20:32] = 120
    return grey


def laid(*labels: tuple[Grey, int]) -> Grey:
    """Labels on a grey bench at half its height, each with its middle so far from the left."""
    grey = np.full((HIGH, WIDE), 120, np.uint8)
    for one, at in labels:
        high, wide = one.shape
        top, left = (HIGH - high) // 2, at - wide // 2
        grey[top : top + high, left : left + wide] = one
    return grey


@both
@pytest.mark.parametrize(("clean", "dirty"), [(450, 110), (110, 450), (340, 560)])
def test_a_clean_label_and_one_that_one_reader_cannot_read_are_both_told(clean: int, dirty: int) -> None:
    """Wherever they lie: nobody knows what was aimed at."""
    grey = laid((label(CLEAN), clean), (label(DIRTY, dirty=True), dirty))
    assert {code.text for code in read_still(grey, BOTH)} == {CLEAN, DIRTY}
    assert {code.text for code in read_still(grey, Readers(zxing=BOTH.zxing))} == {CLEAN}


@both
@pytest.mark.parametrize(("stain", "least"), [(0.0, 30), (0.1, 28.5), (0.2, 27)], ids=["clean", "10 %", "20 %"])
def test_a_stained_tray_is_read_whole(known: KnownTags, stain: float, least: float) -> None:
    """Thirty labels in one photograph of 1920 x 1080: 95 and 90 of 100 at least, and no number that is not there."""
    lot, there = random.Random(3), 0
    spec = Spec(labels=30, size="l", side=100, version=1, characters=10, stain=stain)
    for tray in range(TRAYS):
        numbers = lot.sample(KNOWN, 30)
        photo, _ = frame(5_000 + tray, spec, seed=78, numbers=numbers)
        codes = read_still(photo, BOTH, known, deadline_s=math.inf)
        assert {code.text for code in codes} <= set(numbers)
        there += sum(not code.offered for code in codes)
    assert there >= TRAYS * least


@both
def test_a_tray_of_which_few_are_read_is_compared_too(known: KnownTags) -> None:
    """Two of thirty are read, and ten others are more like a label than these."""
    lot = random.Random(9_400)
    spec = Spec(labels=30, size="l", side=100, version=1, characters=10, stain=0.1)
    numbers = [lot.sample(KNOWN, 30) for _ in range(6)][-1]
    photo, _ = frame(5, spec, seed=9_400, numbers=numbers)
    assert len(read_still(photo, BOTH, known, deadline_s=math.inf)) >= 28.5


@both
def test_beside_clean_labels_a_stained_one_is_compared(known: KnownTags) -> None:
    """Three in ten of the symbol are covered, so that no reader reads it; the clean ones are read."""
    lot, compared = random.Random(4), 0
    for n in range(12):
        there = scene(n, 41, 0.3)
        numbers = lot.sample(KNOWN, len(there.specs))
        codes = read_still(np.clip(bench(there, numbers)[0], 0, 255).astype(np.uint8), BOTH, known, deadline_s=math.inf)
        assert {code.text for code in codes} <= set(numbers)
        compared += any(code.text == numbers[0] and code.how == HOW for code in codes)
    assert compared >= 6


@both
def test_a_label_whose_number_nobody_knows_is_told_as_a_place_not_read(known: KnownTags) -> None:
    """It lies where it lies, without a text."""
    there = scene(2, 42, 0.3)
    numbers = [issue("P", "ZZ9A", 5, 1)[0][0], *KNOWN[: len(there.specs) - 1]]
    photo, labels = bench(there, numbers)
    still = whole_still(np.clip(photo, 0, 255).astype(np.uint8), BOTH, known, deadline_s=math.inf)
    assert numbers[0] not in {code.text for code in still.codes} and still.codes
    middles = [np.mean(code.corners, 0) for code in still.unread]
    assert any(math.dist(one, labels[0].corners.mean(0)) < there.specs[0].side / 3 for one in middles)
    assert {code.text for code in still.unread} == {""}


def square(x: float, y: float, side: float = 20) -> Corners:
    """Corners of a code whose middle lies there."""
    half = side / 2
    ends = ((-half, -half), (half, -half), (half, half), (-half, half))
    return tuple((round(x + across), round(y + down)) for across, down in ends)


@pytest.mark.parametrize(
    ("text", "x", "y", "is_new"),
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
def test_what_lies_on_a_code_already_read_is_that_code(text: str, x: float, y: float, is_new: bool) -> None:
    """The first one lies at 20, 50 and is 20 wide; what the first reader read stays."""
    codes = [Code(CLEAN, True, "zxing", square(20, 50))]
    assert add(codes, [Code(text, False, "zbar", square(x, y, side=8))]) is is_new
    assert [code.text for code in codes] == ([CLEAN, text] if is_new else [CLEAN])


@pytest.mark.parametrize(("x", "on"), [(100, True), (109, True), (113, True), (115, False), (130, False)])
def test_a_place_on_a_code_that_was_read_is_no_other_label(x: float, on: bool) -> None:
    """Within 0.7 of its width: two labels, each 1.4 wide with its quiet zone, do not lie so near."""
    assert lies_on(Spot(x, 50, 20), Code(CLEAN, True, "zxing", square(100, 50))) is on
    assert not lies_on(Spot(x, 50, 20), Code(CLEAN, True, "zxing", ()))
