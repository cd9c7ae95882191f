"""Photographs as they are kept: upright, not larger than needed, without anything but the picture.

Decodes under a pixel limit, turns as the camera says, brings the long edge to 2,000 px (or leaves the
full size, for name plates and cracks) and writes anew without metadata: no place, no time, no
camera, no name. Draws a ring or an arrow on a copy. Storing is `attachments.py`.
"""

from __future__ import annotations

import struct
from io import BytesIO
from typing import NamedTuple

from PIL import Image, ImageCms, ImageDraw, ImageOps, UnidentifiedImageError

from teardown_app.records.trouble import PictureError

PIXEL_LIMIT = 64_000_000
"""Most pixels that are decoded: 192 MB in memory; above the cameras of shop tablets (from memory)."""
LONG_EDGE_PX = 2_000
MARK_COLOUR = (230, 0, 120)
"""Magenta: on no metal, no seal and no residue (common practice, no source)."""

_FORMATS = ("JPEG", "PNG", "WEBP", "BMP")
_JPEG_QUALITY = 88
_TORN = (OSError, SyntaxError, ValueError, EOFError, struct.error, IndexError, KeyError)


class Picture(NamedTuple):
    """A picture ready to be kept."""

    data: bytes
    ext: str
    """`jpg`, or `png` for what came as PNG."""
    width: int
    height: int


class Ring(NamedTuple):
    """A ring around something; all as fractions of width and height, the radius of the long edge."""

    x: float
    y: float
    radius: float


class Arrow(NamedTuple):
    """An arrow from a place to the thing (the head is at `to`); fractions of width and height."""

    x: float
    y: float
    to_x: float
    to_y: float


def prepare(data: bytes, source: str, *, long_edge: int | None = LONG_EDGE_PX) -> Picture:
    """A picture as it is kept; `long_edge=None` leaves the full size.

    `source` is named in the error (a file, "the camera"). Raises `PictureError`.
    """
    image, is_png = _upright(data, source, long_edge)
    if long_edge:
        image.thumbnail((long_edge, long_edge), Image.Resampling.LANCZOS)
    return _bare(image, is_png)


def marked(data: bytes, source: str, marks: list[Ring | Arrow]) -> Picture:
    """A copy with rings and arrows drawn on it; the picture itself stays as it is."""
    image, is_png = _upright(data, source, None)
    pen = ImageDraw.Draw(image)
    for mark in marks:
        _draw(pen, image.size, mark)
    return _bare(image, is_png)


def _upright(data: bytes, source: str, long_edge: int | None) -> tuple[Image.Image, bool]:
    try:
        with Image.open(BytesIO(data), formats=_FORMATS) as opened:
            _within_limit(opened, source)
            is_png = opened.format == "PNG"
            if long_edge:
                opened.draft("RGB", (long_edge, long_edge))
            return _plain(ImageOps.exif_transpose(opened)), is_png
    except (UnidentifiedImageError, Image.DecompressionBombError) as fault:
        raise _refusal(source, data, fault) from fault
    except _TORN as fault:
        raise PictureError(
            f"{source}: the picture is torn or damaged ({fault}). Take it again, or copy the file again."
        ) from fault


def _within_limit(image: Image.Image, source: str) -> None:
    width, height = image.size
    if width * height > PIXEL_LIMIT:
        raise PictureError(
            f"{source}: {width} x {height} pixels are more than {PIXEL_LIMIT // 1_000_000} million. "
            "Take it with fewer pixels, or cut it to what matters."
        )


def _refusal(source: str, data: bytes, fault: Exception) -> PictureError:
    if isinstance(fault, Image.DecompressionBombError):
        return PictureError(f"{source}: far too many pixels. Take it with fewer, or cut it to what matters.")
    what = "the file is empty" if not data else "this is no JPEG, PNG, WebP or BMP picture"
    return PictureError(f"{source}: {what}. Take the picture again, or save it as JPEG.")


def _plain(image: Image.Image) -> Image.Image:
    """Three colours as screens show them, on white, and nothing else attached."""
    profile = image.info.get("icc_profile")
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        clear = image.convert("RGBA")
        image = Image.new("RGB", clear.size, "white")
        image.paste(clear, mask=clear.getchannel("A"))
    elif profile and image.mode in ("RGB", "CMYK"):
        image = _as_srgb(image, profile)
    colours = image.convert("RGB")
    bare = Image.new("RGB", colours.size)
    bare.paste(colours)
    return bare


def _as_srgb(image: Image.Image, profile: bytes) -> Image.Image:
    """Heat tints keep their colour when the profile is left out."""
    try:
        given = ImageCms.ImageCmsProfile(BytesIO(profile))
        return ImageCms.profileToProfile(image, given, ImageCms.createProfile("sRGB"), outputMode="RGB") or image
    except (ImageCms.PyCMSError, OSError):  # a profile that cannot be read: the colours as they are
        return image


def _bare(image: Image.Image, is_png: bool) -> Picture:
    out = BytesIO()
    if is_png:
        image.save(out, "PNG")
    else:
        image.save(out, "JPEG", quality=_JPEG_QUALITY)
    return Picture(out.getvalue(), "png" if is_png else "jpg", *image.size)


def _draw(pen: ImageDraw.ImageDraw, size: tuple[int, int], mark: Ring | Arrow) -> None:
    width, height = size
    line = max(3, max(size) // 200)
    if isinstance(mark, Ring):
        radius = mark.radius * max(size)
        x, y = mark.x * width, mark.y * height
        pen.ellipse((x - radius, y - radius, x + radius, y + radius), outline=MARK_COLOUR, width=line)
        return
    start, tip = (mark.x * width, mark.y * height), (mark.to_x * width, mark.to_y * height)
    pen.line([start, tip], fill=MARK_COLOUR, width=line)
    pen.polygon(_head(start, tip, 5.0 * line), fill=MARK_COLOUR)


def _head(start: tuple[float, float], tip: tuple[float, float], length: float) -> list[tuple[float, float]]:
    along_x, along_y = tip[0] - start[0], tip[1] - start[1]
    reach = (along_x**2 + along_y**2) ** 0.5 or 1.0
    along_x, along_y = along_x / reach * length, along_y / reach * length
    foot_x, foot_y = tip[0] - along_x, tip[1] - along_y
    return [tip, (foot_x - along_y / 2, foot_y + along_x / 2), (foot_x + along_y / 2, foot_y - along_x / 2)]
