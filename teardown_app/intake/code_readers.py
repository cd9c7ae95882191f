"""The two libraries that read QR codes, behind one shape: grey picture in, texts with corners out.

Either may be missing; then it is named with what to install, and the other one reads. Other symbologies are
switched off: they cost three times the time and bring wrong readings; Micro QR, which newer zxing-cpp counts
among the QR codes, was seen to be read out of a smeared label.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Any

from attrs import frozen

from teardown_app.intake.pictures import Grey, PictureFault

Corners = tuple[tuple[int, int], ...]
"""(x, y) of the symbol's corners in pixels, going round."""

Reader = Callable[[Grey], list[tuple[str, Corners]]]


@frozen(kw_only=True)
class Readers:
    """The readers at hand; one that is not is None."""

    zxing: Reader | None = None
    zbar: Reader | None = None

    def __bool__(self) -> bool:
        return self.zxing is not None or self.zbar is not None

    def needed(self) -> Readers:
        """These readers; raises `PictureFault` when there is none."""
        if not self:
            raise PictureFault("nothing can be read here. " + " ".join(missing_readers()))
        return self


def installed() -> Readers:
    """What this machine has."""
    return Readers(zxing=zxing(), zbar=zbar())


@lru_cache(maxsize=1)
def zxing() -> Reader | None:
    """The reader of zxing-cpp, or None where it is not installed."""
    try:
        import zxingcpp
    except (ImportError, OSError):
        return None
    only: Any = getattr(zxingcpp.BarcodeFormat, "QRCodeModel2", zxingcpp.BarcodeFormat.QRCode)

    def read(grey: Grey) -> list[tuple[str, Corners]]:
        found = zxingcpp.read_barcodes(grey, formats=only, text_mode=zxingcpp.TextMode.Plain)
        return [(code.text, _four(code.position)) for code in found]

    return read


@lru_cache(maxsize=1)
def zbar() -> Reader | None:
    """The reader of pyzbar, or None where it or the system's zbar library is not installed."""
    try:
        from pyzbar import pyzbar
    except (ImportError, OSError):
        return None

    def read(grey: Grey) -> list[tuple[str, Corners]]:
        found = pyzbar.decode(grey, symbols=[pyzbar.ZBarSymbol.QRCODE])
        return [
            (code.data.decode("utf-8", "replace"), tuple((point.x, point.y) for point in code.polygon))
            for code in found
        ]

    return read


def missing_readers() -> tuple[str, ...]:
    """One sentence for each reader that is not here, with what to do."""
    sentences = []
    if zxing() is None:
        sentences.append("zxing-cpp is not installed (pip install zxing-cpp): fewer codes are read.")
    if zbar() is None:
        sentences.append(
            "zbar is not installed (pip install pyzbar; on Debian also apt install libzbar0): "
            "fewer dirty labels are read."
        )
    return tuple(sentences)


def _four(position: object) -> Corners:
    names = ("top_left", "top_right", "bottom_right", "bottom_left")
    return tuple((getattr(position, name).x, getattr(position, name).y) for name in names)
