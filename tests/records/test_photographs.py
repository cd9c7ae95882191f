"""Photographs are kept upright, small enough and with nothing in them but the picture."""

from __future__ import annotations

import struct
from io import BytesIO

import pytest
from PIL import Image, ImageCms, PngImagePlugin

from teardown_app.records.photographs import MARK_COLOUR, PIXEL_LIMIT, Arrow, Ring, marked, prepare
from teardown_app.records.trouble import PictureError

ORIENTATION = 0x0112
"""EXIF tag; value 6 = turned 90 degrees clockwise for viewing (CIPA DC-008 Exif 2.32, 4.6.4)."""
XMP = b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><secret>by Somebody</secret></x:xmpmeta>'


def photograph(width: int = 3000, height: int = 1500, orientation: int = 6) -> bytes:
    """A camera's JPEG with everything in it that must not stay: red above, blue below, as stored."""
    image = Image.new("RGB", (width, height), "blue")
    image.paste("red", (0, 0, width, height // 2))
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    exif[0x010F] = "SecretMaker"  # Make
    exif[0x013B] = "Somebody"  # Artist
    exif.get_ifd(0x8825)[1] = "N"  # a place
    out = BytesIO()
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    image.save(out, "JPEG", exif=exif, icc_profile=profile, comment=b"Somebody", xmp=XMP)
    return out.getvalue()


def segments_of_jpeg(data: bytes) -> set[int]:
    """Marker codes before the picture data."""
    found, at = set(), 2
    while data[at] == 0xFF and data[at + 1] != 0xDA:
        found.add(data[at + 1])
        at += 2 + struct.unpack(">H", data[at + 2 : at + 4])[0]
    return found


def chunks_of_png(data: bytes) -> list[bytes]:
    """Chunk names."""
    found, at = [], 8
    while at < len(data):
        found.append(data[at + 4 : at + 8])
        at += 12 + struct.unpack(">I", data[at : at + 4])[0]
    return found


def opened(data: bytes) -> Image.Image:
    image = Image.open(BytesIO(data))
    image.load()
    return image


@pytest.mark.parametrize("long_edge", [2000, None])
def test_a_photograph_keeps_nothing_but_the_picture(long_edge: int | None) -> None:
    """No EXIF, XMP, profile or comment, in the usual and in the full size."""
    given = photograph()
    assert {0xE1, 0xE2, 0xFE} <= segments_of_jpeg(given), "the picture given has what must go"
    kept = prepare(given, "camera", long_edge=long_edge)
    # APP0 (JFIF), DQT, SOF0, DHT: ITU-T T.81 table B.1, ITU-T T.871
    assert segments_of_jpeg(kept.data) <= {0xE0, 0xDB, 0xC0, 0xC4}
    for word in (b"Somebody", b"Secret", b"Exif", b"xmp", b"ICC_PROFILE"):
        assert word not in kept.data
    assert not opened(kept.data).getexif()


def test_a_photograph_is_turned_upright_and_brought_to_size() -> None:
    """Stored lying with red above; turned clockwise the red is at the right."""
    kept = prepare(photograph(), "camera")
    image = opened(kept.data)
    assert image.size == (kept.width, kept.height) == (1000, 2000)
    left, right = image.getpixel((100, 1000)), image.getpixel((900, 1000))
    assert left[2] > 200 > left[0] and right[0] > 200 > right[2]  # type: ignore[index,operator]
    full = prepare(photograph(), "camera", long_edge=None)
    assert (full.width, full.height) == (1500, 3000)


def test_a_small_picture_is_not_made_larger() -> None:
    kept = prepare(photograph(60, 40, 1), "camera")
    assert (kept.width, kept.height) == (60, 40)


def test_a_png_keeps_no_text_and_loses_its_transparency_to_white() -> None:
    text = PngImagePlugin.PngInfo()
    text.add_text("Author", "Somebody")
    text.add_itxt("XML:com.adobe.xmp", XMP.decode())
    out = BytesIO()
    Image.new("RGBA", (30, 20), (255, 0, 0, 0)).save(out, "PNG", pnginfo=text, dpi=(300, 300))
    kept = prepare(out.getvalue(), "screen.png")
    assert kept.ext == "png"
    assert set(chunks_of_png(kept.data)) == {b"IHDR", b"IDAT", b"IEND"}  # ISO/IEC 15948, critical chunks
    assert opened(kept.data).getpixel((5, 5)) == (255, 255, 255)


def png_that_claims(width: int, height: int) -> bytes:
    """The head of a PNG of this size with hardly any data: a decompression bomb's shape."""
    out = BytesIO()
    Image.new("1", (8, 8)).save(out, "PNG")
    data = bytearray(out.getvalue())
    data[16:24] = struct.pack(">II", width, height)
    import zlib

    data[29:33] = struct.pack(">I", zlib.crc32(bytes(data[12:29])))
    return bytes(data)


@pytest.mark.parametrize("edge", [int(PIXEL_LIMIT**0.5) + 1, 10_000, 60_000])
@pytest.mark.filterwarnings("ignore::PIL.Image.DecompressionBombWarning")
def test_too_many_pixels_are_refused_before_they_are_decoded(edge: int) -> None:
    with pytest.raises(PictureError, match=r"board\.png: .*pixels"):
        prepare(png_that_claims(edge, edge), "board.png")


def test_torn_pictures_are_refused_with_what_to_do() -> None:
    """Cut at many places: either refused in words or, never, an exception of another kind."""
    given = photograph(400, 300)
    for at in range(0, len(given) - 200, 97):
        with pytest.raises(PictureError, match="camera: .*(again|JPEG)"):
            prepare(given[:at], "camera")


def test_changed_pictures_never_end_in_another_error() -> None:
    out = BytesIO()
    Image.radial_gradient("L").save(out, "PNG")
    for given in (photograph(200, 150), out.getvalue()):
        for at in range(0, len(given), 31):
            try:
                prepare(given[:at] + bytes([given[at] ^ 0xFF]) + given[at + 1 :], "camera")
            except PictureError as told:
                assert str(told).startswith("camera: ")


@pytest.mark.parametrize("given", [b"", b"hello", b"%PDF-1.7 nothing", b"GIF89a" + bytes(50)])
def test_what_is_no_picture_is_refused(given: bytes) -> None:
    with pytest.raises(PictureError, match="nameplate: "):
        prepare(given, "nameplate")


def test_a_ring_and_an_arrow_are_drawn_on_a_copy() -> None:
    """The ring at its radius from the middle, the arrow's head at what it points to."""
    given = prepare(photograph(1000, 800, 1), "camera")
    before = bytes(given.data)
    copy = marked(given.data, "camera", [Ring(0.5, 0.5, 0.2), Arrow(0.05, 0.05, 0.2, 0.2)])
    image = opened(copy.data)

    def is_marked(x: int, y: int) -> bool:
        pixel = image.getpixel((x, y))
        return all(abs(a - b) < 60 for a, b in zip(pixel, MARK_COLOUR, strict=True))  # type: ignore[arg-type]

    assert is_marked(500 + 198, 400) and is_marked(500 - 198, 400) and not is_marked(500, 400)
    assert is_marked(194, 155) and not is_marked(220, 200)
    assert given.data == before and (copy.width, copy.height) == (given.width, given.height)


MODES = {
    "WEBP": ("RGB", "L", "P", "1", "RGBA", "CMYK", "I;16"),
    "BMP": ("RGB", "L", "P", "1", "RGBA"),
    "MPO": ("RGB", "L", "1", "CMYK"),
    "PNG": ("RGB", "L", "P", "1", "RGBA", "I;16"),
    "JPEG": ("RGB", "L", "1", "CMYK"),
}
"""What Pillow writes in each form (its handbook of image file formats)."""


@pytest.mark.parametrize("form, mode", [(form, mode) for form, modes in MODES.items() for mode in modes])
def test_the_usual_forms_of_picture_are_taken(form: str, mode: str) -> None:
    """In every colour mode that the library writes in them."""
    out = BytesIO()
    Image.new(mode, (40, 30)).save(out, form)
    kept = prepare(out.getvalue(), "camera")
    assert (kept.width, kept.height, opened(kept.data).mode) == (40, 30, "RGB")
    assert kept.ext == ("png" if form == "PNG" else "jpg")
