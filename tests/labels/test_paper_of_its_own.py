"""The test page of a stock and the wall sheet of action codes, measured and read back."""

from __future__ import annotations

import re
import zlib

import numpy as np
import pypdfium2
import pytest

from teardown_app.domain.tags.actions import ACTIONS, NUMBERS, action_of
from teardown_app.domain.tags.tag import is_ours, parse
from teardown_app.intake.code_readers import zbar, zxing
from teardown_app.labels.outline import outline_pdf, ruler_mm
from teardown_app.labels.stock import StockFault
from teardown_app.labels.stock_file import shelf_of
from teardown_app.labels.wall_sheet import PAGES, wall_sheet_pdf

MM = 25.4 / 72
STOCKS = sorted(shelf_of().stocks)


def orders(pdf: bytes) -> str:
    """What a PDF draws."""
    streams = re.findall(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.DOTALL)
    return b"".join(zlib.decompress(one) for one in streams if one[:1] == b"\x78").decode("latin-1")


def lines(pdf: bytes) -> np.ndarray:
    """Every straight line in mm: x, y, x, y, from the lower left."""
    found = re.findall(r"([-\d.]+) ([-\d.]+) m ([-\d.]+) ([-\d.]+) l S", orders(pdf))
    return np.array(found, float) * MM


def outlines(pdf: bytes) -> np.ndarray:
    """Every drawn rectangle in mm: left, top edge from the foot of the page, width, height."""
    found = re.findall(r"([-\d.]+) ([-\d.]+) ([-\d.]+) ([-\d.]+) re S", orders(pdf))
    return np.abs(np.array(found, float) * MM)


@pytest.mark.parametrize("nudge", [(0.0, 0.0), (-0.4, 1.2)])
@pytest.mark.parametrize("name", STOCKS)
def test_every_label_has_its_outline_where_it_lies(name: str, nudge: tuple[float, float]) -> None:
    """To 0.01 mm, moved by the nudge; a crosshair in the middle of each."""
    stock = shelf_of().find(name)
    pdf = outline_pdf(stock, nudge=nudge)
    drawn, crossing = outlines(pdf), lines(pdf)
    assert len(drawn) == stock.per_page
    for n, (left, top, wide, high) in enumerate(drawn):
        row, column = divmod(n, stock.columns)
        x = stock.first_mm[0] + column * stock.pitch_mm[0] + nudge[0]
        y = stock.first_mm[1] + row * stock.pitch_mm[1] + nudge[1]
        assert abs(left - abs(x)) < 0.01 and abs(abs(stock.page_mm[1] - top) - abs(y)) < 0.01
        assert abs(wide - stock.label_mm[0]) < 0.01 and abs(high - stock.label_mm[1]) < 0.01
        middle = np.array([x + wide / 2, stock.page_mm[1] - y - high / 2])
        centres = (crossing[:, :2] + crossing[:, 2:]) / 2
        assert (np.abs(centres - middle).max(1) < 0.01).sum() >= 2


@pytest.mark.parametrize("name", STOCKS)
def test_rulers_have_the_length_they_say(name: str) -> None:
    """The longest lines across and down are whole rulers, ticked every millimetre, and the page says how long."""
    stock = shelf_of().find(name)
    pdf = outline_pdf(stock)
    drawn = lines(pdf)
    text = pypdfium2.PdfDocument(pdf)[0].get_textpage().get_text_bounded()
    across, down = (ruler_mm(side) for side in stock.page_mm)
    assert f"rulers {across}, {down} mm" in text and name in text
    lengths = np.abs(drawn[:, 2:] - drawn[:, :2])
    assert lengths.max(0) == pytest.approx([across, down], abs=0.01)
    for side, long in ((0, across), (1, down)):
        ruler = drawn[lengths[:, side].argmax()]
        low, foot = min(ruler[side], ruler[side + 2]), ruler[1 - side]
        ticks = drawn[(lengths[:, side] < 0.01) & (np.abs(np.delete(drawn, [side, side + 2], 1) - foot) < 0.02).any(1)]
        at = np.sort((ticks[:, side] - low).round(2))
        assert all(np.abs(at - mm).min() < 0.02 for mm in range(long + 1))


def test_action_numbers_never_change() -> None:
    """They are printed and hang on walls: written out here, and right by the check character of the numbers."""
    assert NUMBERS == {
        "start": "A00000001L", "out": "A00000002J", "next": "A00000003H",
        "pause": "A00000004F", "yes": "A00000005D", "no": "A00000006B",
    }  # fmt: skip
    assert all(is_ours(number) and action_of(parse(number)) == word for word, number in NUMBERS.items())
    assert action_of(parse("AAB12000AE")) == "", "an action of no sheet (example of docs/formats/tag.md)"


@pytest.mark.skipif(zxing() is None or zbar() is None, reason="needs zxing-cpp and zbar")
@pytest.mark.parametrize("page", PAGES)
def test_the_wall_sheet_is_read_and_says_what_each_code_does(page: str) -> None:
    """Six codes, by both readers, in the whole page at 100 and at 50 dots per inch."""
    pdf = pypdfium2.PdfDocument(wall_sheet_pdf(page))
    assert len(pdf) == 1
    text = pdf[0].get_textpage().get_text_bounded()
    assert all(word.upper() in text and says in text and NUMBERS[word] in text for word, says in ACTIONS.items())
    for dpi in (100, 50):
        grey = np.asarray(pdf[0].render(scale=dpi / 72).to_pil().convert("L"))
        for reader in (zxing(), zbar()):
            assert sorted(found for found, _ in reader(grey)) == sorted(NUMBERS.values())


def test_a_page_that_is_none_is_refused() -> None:
    """With those there are."""
    with pytest.raises(StockFault, match="a4, letter"):
        wall_sheet_pdf("a3")
