"""Frames of a camera: another step on each."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest

from teardown_app.domain.tags.tag import issue
from teardown_app.intake.code_readers import Readers, zbar, zxing
from teardown_app.intake.live_codes import Rotation
from teardown_app.intake.pictures import PictureFault
from teardown_app.intake.reading_order import PLAIN
from tests.scanbench import Spec, frame
from tests.scanbench.hands import FRAMES, frames

NUMBERS, _ = issue("P", "7K3M", 1, 3)
BOTH = Readers(zxing=zxing(), zbar=zbar())

needs_both = pytest.mark.skipif(not (BOTH.zxing and BOTH.zbar), reason="one of the readers is not installed")


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


@pytest.mark.parametrize(
    "readers",
    [BOTH, Readers(zbar=BOTH.zbar), Readers(zxing=BOTH.zxing)],
    ids=["both", "pyzbar alone", "zxing-cpp alone"],
)
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
