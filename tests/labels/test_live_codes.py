"""Frames of a camera: another step on each, and the same tag not again at once."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest
from attrs import evolve

from teardown_app.domain.tag import issue
from teardown_app.intake.code_readers import Readers, zbar, zxing
from teardown_app.intake.live_codes import NotTwice, Rotation
from teardown_app.intake.pictures import PictureFault
from teardown_app.intake.read_codes import Code
from teardown_app.intake.reading_order import PLAIN
from tests.scanbench import Spec, frame
from tests.scanbench.hands import FRAMES, frames

NUMBERS, _ = issue("P", "7K3M", 1, 3)
BOTH = Readers(zxing=zxing(), zbar=zbar())
ONE = Code(NUMBERS[0], True, "zxing", ((0, 0), (9, 0), (9, 9), (0, 9)))

needs_both = pytest.mark.skipif(not (BOTH.zxing and BOTH.zbar), reason="one of the readers is not installed")


class Clock:
    """A clock set by hand."""

    now = 100.0

    def __call__(self) -> float:
        return self.now


def texts(rotation: Rotation, photos: Iterator[np.ndarray]) -> set[str]:
    """What was read in all of them."""
    return {code.text for photo in photos for code in rotation.look(photo)}


@needs_both
def test_each_frame_gets_the_next_step_and_zxing_most_of_them() -> None:
    """One reader is asked a frame; after the last step the first comes again."""
    asked = []
    rotation = Rotation(Readers(zxing=lambda _: asked.append("zxing") or [], zbar=lambda _: asked.append("zbar") or []))
    for _ in range(2 * len(rotation.steps)):
        assert rotation.look(np.zeros((90, 160), np.uint8)) == []
    once = [step.how.split(",")[0] for step in rotation.steps]
    assert asked == once * 2 and once.count("zxing") > once.count("zbar")
    assert len(set(rotation.steps)) > 2 and rotation.steps.count(PLAIN) * 2 == len(rotation.steps)


@needs_both
def test_a_moving_hand_is_read_more_often_by_changing_steps() -> None:
    """Of five hands, ten frames each, rotation reads at least as many as the plain look on each frame."""
    plain, rotating = 0, 0
    for n in range(5):
        shown = list(frames(n, 4))
        wanted = {label.text for _, label in shown}
        found = texts(Rotation(BOTH), (photo for photo, _ in shown))
        assert found <= wanted and len(shown) == FRAMES
        rotating += bool(found)
        plain += any(zxing()(photo) for photo, _ in shown)
    assert rotating >= plain and rotating >= 2


@pytest.mark.parametrize("readers", [BOTH, Readers(zbar=BOTH.zbar), Readers(zxing=BOTH.zxing)],
                         ids=["both", "pyzbar alone", "zxing-cpp alone"])
@needs_both
def test_a_clean_tag_is_read_with_each_set_of_readers(readers: Readers) -> None:
    """Within one round, in the frame's own pixels."""
    photo, (label,) = frame(1, Spec(version=1, characters=10, side=140), numbers=[NUMBERS[0]])
    rotation = Rotation(readers)
    (code, *_) = [code for _ in rotation.steps for code in rotation.look(photo)]
    assert code.text == NUMBERS[0] and code.ours
    assert np.abs(np.mean(code.corners, axis=0) - label.corners.mean(0)).max() < label.module


def test_without_any_reader_it_is_said_at_once() -> None:
    """No rotation without a reader: the sentence says what to install."""
    with pytest.raises(PictureFault, match="nothing can be read here"):
        Rotation(Readers())


def test_the_same_tag_is_not_given_twice_within_a_second_and_a_half() -> None:
    """Given at once, kept back while it is still in the picture, given again after 1.5 s; others go through."""
    clock = Clock()
    not_twice = NotTwice(clock)
    other = evolve(ONE, text=NUMBERS[1])
    assert not_twice.fresh([ONE, ONE]) == [ONE]
    clock.now += 1.49
    assert not_twice.fresh([ONE, other]) == [other]
    clock.now += 0.02
    assert not_twice.fresh([ONE, other]) == [ONE]
    clock.now += 100
    assert not_twice.fresh([]) == [] and not_twice.fresh([other]) == [other]


def test_a_number_only_offered_does_not_keep_back_the_number_read() -> None:
    """Offered first, read a moment later: the reading goes through."""
    not_twice = NotTwice(Clock())
    weak = evolve(ONE, offered=True, chance=1e-5)
    assert not_twice.fresh([weak]) == [weak]
    assert not_twice.fresh([ONE, weak]) == [ONE]
