"""Each step on the distortion it cures, one reader alone, trays, and where the codes are."""

from __future__ import annotations

import numpy as np
import pytest

from teardown_app.domain.tags.tag import issue
from teardown_app.intake import reading_order
from teardown_app.intake.code_readers import Readers, zbar, zxing
from teardown_app.intake.read_codes import look
from teardown_app.intake.reading_order import PLAIN, PLAIN_ZBAR, Step, one_after_the_other
from teardown_app.intake.still_codes import read_still
from tests.scanbench import Drawn, Spec, frame

NUMBERS, _ = issue("P", "7K3M", 1, 40)
BOTH = Readers(zxing=zxing(), zbar=zbar())
STEPS = [step for step in vars(reading_order).values() if isinstance(step, Step)]
AS_IT_COMES = {"zxing": PLAIN, "zbar": PLAIN_ZBAR}

pytestmark = [
    pytest.mark.skipif(zxing() is None, reason="zxing-cpp is not installed"),
    pytest.mark.skipif(zbar() is None, reason="the zbar library is not installed"),
]


def aimed(**wrong: object) -> Spec:
    """A label of ours in the middle, with what is wrong with it."""
    return Spec(**{"version": 1, "characters": 10, "side": 126, "size": "s", "turn": 20, **wrong})


def read_by(step: Step, spec: Spec, tries: int = 8) -> int:
    """How many of some photographs with one distortion a step reads; a wrong text fails."""
    read = 0
    for i in range(tries):
        photo, _ = frame(i, spec, numbers=[NUMBERS[i]])
        texts = [code.text for code in look(photo, step, BOTH)]
        assert set(texts) <= {NUMBERS[i]}
        read += bool(texts)
    return read


CURES = [
    ("ALL_OVER", {"shadow": 160}),
    ("ALL_OVER_HALF", {"side": 250, "noise": 15}),
    ("HALF", {"side": 250, "noise": 15}),
    ("LARGER", {"side": 70, "motion": 4}),
    ("THREE_QUARTERS", {"noise": 25}),
    ("SMOOTH", {"side": 90, "noise": 45}),
    ("HALF_NEGATIVE", {"inverted": True}),
    ("EVENED", {"noise": 12, "shadow": 110}),
    ("SMOOTH_EVENED", {"noise": 20, "shadow": 110}),
    ("SMOOTH_NEGATIVE", {"inverted": True, "shadow": 60}),
    ("DOUBLE", {"side": 50, "noise": 8, "blur": 0.8}),
]


@pytest.mark.parametrize("name, wrong", CURES, ids=[name for name, _ in CURES])
def test_a_step_reads_what_its_reader_does_not_read_as_it_comes(name: str, wrong: dict) -> None:
    """Of eight labels with the distortion a step is for, it reads more than its reader on the plain picture."""
    step = getattr(reading_order, name)
    plain = AS_IT_COMES[step.how.split(",")[0]]
    assert read_by(step, aimed(**wrong)) > read_by(plain, aimed(**wrong))


def test_every_step_has_its_cure() -> None:
    """No step without a test; the two plain looks cure nothing, they are what the others are held against."""
    tested = [PLAIN, PLAIN_ZBAR, *(getattr(reading_order, name) for name, _ in CURES)]
    assert {step.how for step in STEPS} == {step.how for step in tested}


@pytest.mark.parametrize("step", STEPS, ids=[step.how for step in STEPS])
def test_corners_come_back_to_the_picture(step: Step) -> None:
    """Cropped, halved, enlarged or negative: corners are those of the symbol, in the picture handed in."""
    for side in (100, 150, 200):
        photo, (label,) = frame(3, aimed(side=side, inverted="negative" in step.how, size="m"), numbers=[NUMBERS[0]])
        for code in look(photo, step, BOTH):
            assert distance(np.array(code.corners), label) < 1.5 * label.module
            break
        else:
            continue
        return
    pytest.fail(f"{step.how} read no size at all")


def distance(corners: np.ndarray, label: Drawn) -> float:
    """Pixels from the farthest corner found to the next corner that is there."""
    return float(max(np.linalg.norm(label.corners - corner, axis=1).min() for corner in corners))


@pytest.mark.parametrize(
    "readers, least",
    [(BOTH, 4), (Readers(zbar=BOTH.zbar), 4), (Readers(zxing=BOTH.zxing), 3)],
    ids=["both", "pyzbar alone", "zxing-cpp alone"],
)
def test_one_reader_alone_reads_too(readers: Readers, least: int) -> None:
    """Small, large, shaded, noisy and laser-marked: with either library missing most are still read."""
    hard = [{"side": 80}, {"size": "l", "side": 400}, {"shadow": 110}, {"noise": 30}, {"inverted": True}]
    read = 0
    for i, wrong in enumerate(hard):
        photo, _ = frame(i, aimed(**wrong), numbers=[NUMBERS[i]])
        codes = read_still(photo, readers)
        assert {code.text for code in codes} <= {NUMBERS[i]} and all(code.ours for code in codes)
        read += bool(codes)
    assert read >= least


@pytest.mark.parametrize(
    "readers",
    [BOTH, Readers(zbar=BOTH.zbar), Readers(zxing=BOTH.zxing)],
    ids=["both", "pyzbar alone", "zxing-cpp alone"],
)
def test_a_tray_gives_every_tag(readers: Readers) -> None:
    """Thirty labels of ours in one photograph: all read, ours, none twice, each where it lies."""
    spec = Spec(labels=30, size="l", side=110, version=1, characters=10)
    photo, labels = frame(5, spec, numbers=NUMBERS[:30])
    codes = {code.text: code for code in read_still(photo, readers)}
    assert set(codes) == set(NUMBERS[:30]) and all(code.ours for code in codes.values())
    assert all(distance(np.array(codes[label.text].corners), label) < 2 * label.module for label in labels)


def test_in_a_tray_dirt_on_a_finder_mark_is_read_through() -> None:
    """Where zxing-cpp reads some of a tray only, zbar looks at each place it left: together they read more."""
    spec = Spec(labels=10, size="l", side=110, version=1, characters=10, stain=0.05)
    alone = together = 0
    for i in range(3):
        photo, _ = frame(i, spec, numbers=NUMBERS[:10])
        first = {code.text for code in look(photo, PLAIN, BOTH)}
        both = {code.text for code in read_still(photo, BOTH)}
        assert first <= both <= set(NUMBERS[:10])
        alone, together = alone + len(first), together + len(both)
    assert together > alone


def test_a_single_tag_ends_the_looking_wherever_it_lies() -> None:
    """zbar is not asked where zxing-cpp reads the one code and nothing else is like a label."""
    asked = []
    readers = Readers(zxing=BOTH.zxing, zbar=lambda grey: asked.append(grey.shape) or [])
    photo, (label,) = frame(0, aimed(side=80), numbers=[NUMBERS[0]])
    at_the_edge = np.roll(photo, 560 - round(label.corners[:, 0].mean()), axis=1)
    for grey in (photo, at_the_edge):
        assert [code.how for code in read_still(grey, readers)] == [PLAIN.how] and not asked


def test_without_a_code_every_step_had_its_look() -> None:
    """Nothing is given up early, and nothing is read where nothing is."""
    looks = []
    readers = Readers(zxing=lambda grey: looks.append("zxing") or [], zbar=lambda grey: looks.append("zbar") or [])
    assert read_still(np.full((120, 160), 128, np.uint8), readers) == []
    assert looks == [step.how.split(",")[0] for step in one_after_the_other(readers)]
