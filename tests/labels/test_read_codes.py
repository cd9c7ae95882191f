"""Reading pictures: ours and foreign codes, hard pictures, broken files, missing readers."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
import qrcode
from PIL import Image

from teardown_app.domain.tags.tag import issue
from teardown_app.intake import code_readers, pictures
from teardown_app.intake.code_readers import missing_readers, zbar, zxing
from teardown_app.intake.pictures import PictureFault, open_grey
from teardown_app.intake.still_codes import read_picture, read_pictures, read_still
from teardown_app.labels.label import Label
from teardown_app.labels.picture import png
from teardown_app.labels.sheet import sheet_pdf
from teardown_app.labels.stock_file import shelf_of

NUMBERS, _ = issue("P", "7K3M", 1, 30)

needs_zxing = pytest.mark.skipif(zxing() is None, reason="zxing-cpp is not installed")
needs_zbar = pytest.mark.skipif(zbar() is None, reason="the zbar library is not installed")
needs_a_reader = pytest.mark.skipif(zxing() is None and zbar() is None, reason="no reader is installed")


def code(number: str, dots: int = 5) -> Image.Image:
    """One label as a grey picture."""
    return Image.open(BytesIO(png(Label(number), dots=dots))).convert("L")


def foreign(text: str) -> Image.Image:
    """A code that somebody else printed."""
    made = qrcode.QRCode(box_size=5)
    made.add_data(text)
    return made.make_image().get_image().convert("L")


def on_bench(*codes: Image.Image, grey: int = 120) -> Image.Image:
    """Codes side by side on a grey bench."""
    bench = Image.new("L", (sum(c.width + 60 for c in codes) + 60, max(c.height for c in codes) + 120), grey)
    left = 60
    for one in codes:
        bench.paste(one, (left, 60))
        left += one.width + 60
    return bench


@pytest.fixture
def without() -> Iterator[object]:
    """Takes a library away for one test."""
    taken = pytest.MonkeyPatch()

    def take(*modules: str) -> None:
        for module in modules:
            taken.setitem(sys.modules, module, None)
        code_readers.zxing.cache_clear()
        code_readers.zbar.cache_clear()

    yield take
    taken.undo()
    code_readers.zxing.cache_clear()
    code_readers.zbar.cache_clear()


@needs_a_reader
def test_ours_and_foreign_codes_are_both_told(tmp_path: Path) -> None:
    """One picture with a tag, a maker's code and a careless look-alike: all three, each once, ours marked."""
    path = tmp_path / "bench.png"
    on_bench(code(NUMBERS[0]), foreign("[)>\x1e06\x1dSN-0815\x1d\x1e\x04"), foreign("p7k3m0001b")).save(path)
    found = {c.text: c.ours for c in read_picture(path)}
    assert found == {NUMBERS[0]: True, "[)>\x1e06\x1dSN-0815\x1d\x1e\x04": False, "p7k3m0001b": False}
    assert len(read_picture(path)) == 3


@needs_a_reader
def test_foreign_letters_make_no_second_code() -> None:
    """A foreign code that the two readers spell differently is still one code."""
    assert len(read_still(np.asarray(on_bench(foreign("Größe 3 µm Ωハネ"), foreign("Ventil-Nr. ä12"))))) == 2


@needs_a_reader
def test_corners_lie_around_the_symbol() -> None:
    """Corners are pixels of the picture: 5 dots a module, quiet zone of 4, label at (60, 60)."""
    for found in read_still(np.asarray(on_bench(code(NUMBERS[0])))):
        xs, ys = zip(*found.corners, strict=True)
        for axis in xs, ys:
            assert abs(min(axis) - 80) <= 5 and abs(max(axis) - (80 + 21 * 5)) <= 5


@pytest.mark.parametrize("reader", ["zxingcpp", "pyzbar"])
@needs_zxing
@needs_zbar
def test_inverted_codes_are_read_by_each_reader_alone(without: object, reader: str) -> None:
    """Laser-marked, light on dark: read with either library missing."""
    without(reader, *(["pyzbar.pyzbar"] if reader == "pyzbar" else []))
    inverted = on_bench(Image.eval(code(NUMBERS[0]), lambda v: 255 - v), grey=30)
    assert [c.text for c in read_still(np.asarray(inverted))] == [NUMBERS[0]]


@needs_zbar
def test_dirt_on_a_finder_is_read_through_by_the_second_reader() -> None:
    """Of stained labels, both readers together read at least as many as one, and never a wrong number."""
    rng = np.random.default_rng(4)
    alone, together = 0, 0
    for number in NUMBERS:
        picture = np.array(on_bench(code(number, dots=6)))
        for _ in range(3):
            top, left = rng.integers(75, 190, 2)
            picture[top : top + 14, left : left + 14] = rng.integers(0, 255)
        texts = [c.text for c in read_still(picture)]
        assert texts in ([], [number])
        together += bool(texts)
        alone += bool(zxing() and zxing()(picture))
    assert together >= alone and together >= 20


@needs_a_reader
def test_a_tray_is_read_in_one_shot() -> None:
    """30 labels of a sheet in one picture: 30 numbers, all ours, none twice."""
    import pypdfium2

    page = pypdfium2.PdfDocument(sheet_pdf([Label(n) for n in NUMBERS], shelf_of().find("letter-30")))[0]
    found = read_still(np.asarray(page.render(scale=150 / 72).to_pil().convert("L")))
    assert sorted(c.text for c in found) == sorted(NUMBERS) and all(c.ours for c in found)


@needs_a_reader
def test_a_picture_without_code_has_none(tmp_path: Path) -> None:
    """Noise, one pixel and plain white hold no code and are no fault."""
    noise = Image.fromarray(np.random.default_rng(1).integers(0, 255, (300, 400), dtype=np.uint8))
    for n, image in enumerate([noise, Image.new("L", (1, 1)), Image.new("L", (300, 2), 255)]):
        image.save(tmp_path / f"{n}.png")
        assert read_picture(tmp_path / f"{n}.png") == []


@needs_a_reader
@pytest.mark.parametrize(
    "name, mode",
    [
        ("a.jpg", "RGB"),
        ("a.png", "P"),
        ("a.png", "1"),
        ("a.png", "LA"),
        ("a.png", "RGBA"),
        ("a.tif", "CMYK"),
        ("a.webp", "RGB"),
        ("a.bmp", "L"),
        ("a.gif", "P"),
    ],
)
def test_usual_kinds_of_pictures_are_read(tmp_path: Path, name: str, mode: str) -> None:
    """Whatever a camera or scanner writes, the code comes out."""
    on_bench(code(NUMBERS[0])).convert(mode).save(tmp_path / name)
    assert [c.text for c in read_picture(tmp_path / name)] == [NUMBERS[0]]


@needs_a_reader
def test_transparent_and_deep_and_turned_pictures_are_read(tmp_path: Path) -> None:
    """Dark modules on a transparent ground, 16 bits a pixel, and a camera's turned picture."""
    dark = code(NUMBERS[0])
    clear = Image.new("RGBA", dark.size, (0, 0, 0, 0))
    clear.paste((0, 0, 0, 255), mask=Image.eval(dark, lambda v: 255 - v))
    clear.save(tmp_path / "clear.png")
    Image.fromarray(np.asarray(on_bench(dark)).astype(np.uint16) * 257).save(tmp_path / "deep.png")
    turned = Image.Exif()
    turned[0x0112] = 6  # Exif orientation: the camera was held upright
    on_bench(dark, dark).save(tmp_path / "turned.jpg", exif=turned)
    for name in ("clear.png", "deep.png", "turned.jpg"):
        assert [c.text for c in read_picture(tmp_path / name)] == [NUMBERS[0]]
    high, wide = open_grey(tmp_path / "turned.jpg").shape
    assert high > wide


def test_broken_files_are_told_one_by_one(tmp_path: Path) -> None:
    """Torn, foreign, missing, a folder: each has its own sentence; the good one between is still read."""
    whole = png(Label(NUMBERS[0]))
    (tmp_path / "torn.png").write_bytes(whole[: len(whole) // 2])
    (tmp_path / "bill.png").write_text("position;part number", encoding="utf-8")
    (tmp_path / "empty.jpg").write_bytes(b"")
    (tmp_path / "good.png").write_bytes(whole)
    names = ["torn.png", "bill.png", "good.png", "empty.jpg", "gone.png", "."]
    readings = read_pictures(tmp_path / name for name in names)
    said = [
        "torn or garbled",
        "no picture of a known kind",
        "",
        "no picture of a known kind",
        "no such file",
        "no such file",
    ]
    assert [r.file for r in readings] == [str(tmp_path / name) for name in names]
    for words, reading in zip(said, readings, strict=True):
        assert words in reading.fault and bool(reading.fault) == bool(words)
    assert [c.text for c in readings[2].codes] == [NUMBERS[0]]


@pytest.mark.filterwarnings("ignore::UserWarning")
def test_a_picture_cut_anywhere_is_a_fault_or_a_picture(tmp_path: Path) -> None:
    """JPEG and PNG cut at every tenth byte and garbled in the head never end in anything but a sentence."""
    rng = np.random.default_rng(7)
    path = tmp_path / "cut"
    for kind in ("JPEG", "PNG", "TIFF"):
        whole = BytesIO()
        code(NUMBERS[0], dots=3).save(whole, kind)
        for cut in range(0, len(whole.getvalue()), max(10, len(whole.getvalue()) // 80)):
            data = bytearray(whole.getvalue()[:cut] if cut % 3 else whole.getvalue())
            for place in rng.integers(0, max(1, min(len(data), 100)), 2 if data else 0):
                data[place] = rng.integers(0, 256)
            path.write_bytes(data)
            try:
                assert open_grey(path).ndim == 2
            except PictureFault as fault:
                assert str(path) in str(fault)


def test_a_picture_too_large_is_refused_before_it_is_decoded(tmp_path: Path, monkeypatch: object) -> None:
    """A small file that unfolds to more pixels than the limit is refused by its size alone."""
    Image.new("1", (9000, 9000)).save(tmp_path / "large.png")
    monkeypatch.setattr(pictures, "_upright_grey", lambda _image: pytest.fail("it was decoded"))
    with pytest.raises(PictureFault, match="more than 64 million pixels"):
        open_grey(tmp_path / "large.png")


@needs_zxing
def test_without_zbar_the_other_reads_and_it_is_said(without: object) -> None:
    """The system's zbar library is not there: codes are read, and one sentence says what to install."""
    without("pyzbar", "pyzbar.pyzbar")
    assert [c.text for c in read_still(np.asarray(on_bench(code(NUMBERS[0]))))] == [NUMBERS[0]]
    (sentence,) = missing_readers()
    assert "libzbar0" in sentence


@needs_zbar
def test_without_zxing_the_other_reads_and_it_is_said(without: object) -> None:
    """zxing-cpp is not there: small, large, shaded and inverted codes are still read by the steps."""
    without("zxingcpp")
    shade = np.linspace(0.25, 1, 900)
    large = code(NUMBERS[0], dots=30)
    for picture in (on_bench(code(NUMBERS[0])), on_bench(large), on_bench(code(NUMBERS[0], dots=3))):
        array = np.asarray(picture)
        array = (array * np.resize(shade, array.shape[1]).clip(0.25)).astype(np.uint8)
        assert [c.text for c in read_still(array)] == [NUMBERS[0]]
    (sentence,) = missing_readers()
    assert "pip install zxing-cpp" in sentence


def test_without_any_reader_the_file_is_told_as_not_read(without: object, tmp_path: Path) -> None:
    """No reader at all is a fault of every file, never an empty answer."""
    without("zxingcpp", "pyzbar", "pyzbar.pyzbar")
    (tmp_path / "good.png").write_bytes(png(Label(NUMBERS[0])))
    (reading,) = read_pictures([tmp_path / "good.png"])
    assert reading.codes == () and "nothing can be read here" in reading.fault
    with pytest.raises(PictureFault, match="nothing can be read here.*pip install zxing-cpp.*pip install pyzbar"):
        read_still(np.asarray(code(NUMBERS[0])))
    assert len(missing_readers()) == 2
