"""A short sound for what was taken, another for what was refused; always beside a visible sign, never instead.

Loading a sound can hang where no audio works, so it is done on a thread of its own, and given up for good
when the first one did not come.
"""

from __future__ import annotations

import math
import struct
import wave
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from typing import Any

from teardown_app.ui.view import ACCEPT, REJECT

RATE_HZ = 22050
TONES = {ACCEPT: ((1320.0, 0.07),), REJECT: ((330.0, 0.12), (0.0, 0.05), (330.0, 0.16))}
"""Pitch in hertz and length in seconds of each: one high and short, two low."""


def tone(parts: tuple[tuple[float, float], ...]) -> bytes:
    """Sixteen-bit samples of a row of tones; 0 Hz is silence."""
    samples = [
        int(12000 * math.sin(2 * math.pi * pitch * n / RATE_HZ))
        for pitch, length in parts
        for n in range(int(RATE_HZ * length))
    ]
    return struct.pack(f"<{len(samples)}h", *samples)


class Sounds:
    """Plays the sound of a mark."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._threads = ThreadPoolExecutor(max_workers=1, thread_name_prefix="sound")
        self._last: Future[Any] | None = None

    def play(self, mark: str) -> None:
        """Plays it if the last one is through; marks without a sound are silent."""
        if mark in TONES and (self._last is None or self._last.done()):
            self._last = self._threads.submit(self._play, mark)

    def _play(self, mark: str) -> None:
        from kivy.core.audio import SoundLoader

        path = self._folder / f"{mark}.wav"
        if not path.is_file():
            with wave.open(str(path), "wb") as file:
                file.setnchannels(1)
                file.setsampwidth(2)
                file.setframerate(RATE_HZ)
                file.writeframes(tone(TONES[mark]))
        sound = SoundLoader.load(str(path))
        if sound is not None:
            sound.play()

    def close(self) -> None:
        """Plays nothing more."""
        self._threads.shutdown(wait=False, cancel_futures=True)
