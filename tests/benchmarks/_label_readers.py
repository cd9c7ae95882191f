"""The readers that are set side by side, each as: grey picture in, texts out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache
from importlib.metadata import version

import cv2
import numpy as np

from teardown_app.intake.code_readers import Reader, Readers, installed
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.live_codes import Rotation
from teardown_app.intake.still_codes import read_still
from tests.benchmarks._label_pictures import KNOWN

Look = Callable[[np.ndarray], list[str]]
"""One look at one picture."""

ZXING, ZBAR, OPENCV = "zxing-cpp", "pyzbar", "OpenCV"
"""As they come, on the whole picture; times are compared with the first."""

READ, OURS, OURS_ZBAR, OURS_LIVE = "read", "ours", "ours, pyzbar alone", "ours, live"
SLOW = (ZBAR, OPENCV, OURS_ZBAR, OURS_LIVE)
"""Given only every fourth photograph of the largest group, to keep the run short."""
NAMES = (ZXING, ZBAR, OPENCV, READ, OURS, OURS_ZBAR, OURS_LIVE)
LIBRARIES = ("zxing-cpp", "pyzbar", "opencv-python-headless", "pillow", "numpy")


def readers() -> Mapping[str, Callable[[], list[Look]]]:
    """By name: what makes the looks that one picture gets, one after the other until something is read."""
    here, known = both(), _known()
    alone = Readers(zbar=here.zbar)
    return {
        ZXING: lambda: [zxing_as_it_comes],
        ZBAR: lambda: [_texts_of(here.zbar)],
        OPENCV: lambda: [_opencv()],
        READ: lambda: [lambda grey: [code.text for code in read_still(grey, here, known) if not code.offered]],
        OURS: lambda: [lambda grey: [code.text for code in read_still(grey, here)]],
        OURS_ZBAR: lambda: [lambda grey: [code.text for code in read_still(grey, alone)]],
        OURS_LIVE: lambda: _one_round(Rotation(here)),
    }


@lru_cache(maxsize=1)
def _known() -> KnownTags:
    return KnownTags(KNOWN)


def both() -> Readers:
    """Both libraries; a comparison without one of them would say nothing."""
    here = installed()
    if here.zxing is None or here.zbar is None:
        raise SystemExit("both readers must be installed to be compared: pip install zxing-cpp pyzbar")
    return here


def versions() -> str:
    """Which libraries were measured."""
    return ", ".join(f"{name} {version(name)}" for name in LIBRARIES)


def zxing_as_it_comes(grey: np.ndarray) -> list[str]:
    """zxing-cpp for QR codes, nothing else said."""
    import zxingcpp

    return [code.text for code in zxingcpp.read_barcodes(grey, formats=zxingcpp.BarcodeFormat.QRCode)]


def rotating(readers_at_hand: Readers) -> Look:
    """One step a frame, in rotation."""
    rotation = Rotation(readers_at_hand)
    return lambda grey: [code.text for code in rotation.look(grey)]


def _one_round(rotation: Rotation) -> list[Look]:
    return [lambda grey: [code.text for code in rotation.look(grey)]] * len(rotation.steps)


def _texts_of(reader: Reader) -> Look:
    return lambda grey: [text for text, _ in reader(grey)]


def _opencv() -> Look:
    detector = cv2.QRCodeDetector()

    def look(grey: np.ndarray) -> list[str]:
        _, texts, _, _ = detector.detectAndDecodeMulti(grey)
        return [text for text in texts if text]

    return look
