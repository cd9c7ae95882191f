"""Pictures from cameras and scanners, decoded to grey under a limit, upright. Keeps and changes no file."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from PIL import Image, ImageOps, UnidentifiedImageError

Grey = np.ndarray
"""Rows x columns, 0 black to 255 white, uint8."""

LARGEST_PIXELS = 64_000_000
"""More is refused before anything is decoded: a small file can unfold to more than a tablet's memory."""

FORMATS = ("JPEG", "PNG", "WEBP", "TIFF", "BMP", "GIF", "PPM")
"""Only the decoders for these are used, whatever the file's name says."""

_BROKEN = (OSError, SyntaxError, ValueError)
"""What Pillow raises on torn and garbled files, found by tearing and garbling them."""


class PictureFault(ValueError):
    """A file is no picture that can be read; the message names the file, says why and what to do."""


def open_grey(path: Path) -> Grey:
    """The picture as grey levels, turned upright, transparent places white; of several pages the first."""
    if not path.is_file():
        raise PictureFault(f"{path}: there is no such file.")
    try:
        with Image.open(path, formats=_formats_here()) as image:
            _check_size(path, image)
            return _upright_grey(image)
    except UnidentifiedImageError as wrong:
        raise PictureFault(f"{path}: this is no picture of a known kind; save it as JPEG or PNG.") from wrong
    except Image.DecompressionBombError as wrong:
        raise PictureFault(_too_large(path)) from wrong
    except PictureFault:
        raise
    except _BROKEN as wrong:
        raise PictureFault(f"{path}: torn or garbled ({wrong}); copy or take the picture again.") from wrong


def _formats_here() -> list[str]:
    """Pillow is built without some decoders on some systems, and fails on a name it does not have."""
    Image.init()
    return [name for name in FORMATS if name in Image.OPEN]


def _check_size(path: Path, image: Image.Image) -> None:
    if image.width * image.height > LARGEST_PIXELS:
        raise PictureFault(_too_large(path))


def _too_large(path: Path) -> str:
    return f"{path}: more than {LARGEST_PIXELS // 1_000_000} million pixels; make the picture smaller."


def _upright_grey(image: Image.Image) -> Grey:
    upright = ImageOps.exif_transpose(image)
    if upright.mode.startswith("I;16"):
        return (np.asarray(upright) >> 8).astype(np.uint8)
    if "A" in upright.getbands() or "transparency" in upright.info:
        white = Image.new("RGBA", upright.size, "white")
        upright = Image.alpha_composite(white, upright.convert("RGBA"))
    return np.asarray(upright.convert("L"))
