"""Sounds: as long and as high as they say, and told apart by ear."""

from __future__ import annotations

import numpy as np
import pytest

from teardown_app.ui.sounds import RATE_HZ, TONES, tone
from teardown_app.ui.view import ACCEPT, REJECT


@pytest.mark.parametrize("mark", [ACCEPT, REJECT])
def test_a_sound_has_the_pitch_and_length_it_says(mark: str) -> None:
    """By the Fourier transform of numpy: the strongest pitch lies within one step of what is meant."""
    samples = np.frombuffer(tone(TONES[mark]), "<i2").astype(float)
    assert len(samples) == sum(int(RATE_HZ * length) for _, length in TONES[mark])
    spectrum = np.abs(np.fft.rfft(samples * np.hanning(len(samples))))
    pitch = np.fft.rfftfreq(len(samples), 1 / RATE_HZ)[spectrum.argmax()]
    assert pitch == pytest.approx(TONES[mark][0][0], abs=2 * RATE_HZ / len(samples))
    assert np.abs(samples).max() < 2**15 - 1


def test_refused_is_lower_and_longer_than_taken() -> None:
    """Two octaves and three times the length: no mistaking one for the other."""
    (high, short), low = TONES[ACCEPT][0], TONES[REJECT]
    assert high == 4 * max(pitch for pitch, _ in low)
    assert sum(length for _, length in low) > 3 * short
