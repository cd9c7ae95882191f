"""Where code, number and lines stand on a label of one stock: mm from the label's top left, sizes in pt.

Refuses a stock on which the code with its quiet zone or the number in clear has no room.
"""

from __future__ import annotations

import math

from attrs import frozen

from teardown_app.domain.tags.tag_form import LENGTH
from teardown_app.labels.label import Label
from teardown_app.labels.lettering import NUMBER_FACE, TEXT_FACE, fitted, overhang, printable, width
from teardown_app.labels.stock import MM_PER_INCH, Pair, Stock, StockFault
from teardown_app.labels.symbol import ACROSS, QUIET

PT_PER_MM = 72 / MM_PER_INCH

LARGEST_NUMBER_PT, SMALLEST_NUMBER_PT = 26.0, 6.0
LINE_SIZES_PT = [12.0, 11.0, 10.0, 9.0, 8.0, 7.0, 6.5, 6.0, 5.5, 5.0]
NUMBER_SHARE = 0.4
"""Of the height for text, what the number may take."""
LEADING = 1.2
ASCENT = 0.8
"""Of the size, from the top of a line to the foot of its letters."""


@frozen
class Layout:
    """Free places of a label: the first module, side of a module, and the box for text. The code is put on the
    next whole dot of the page (`first_module`) when it is known where the label lies."""

    module_mm: float
    symbol_left: float
    symbol_top: float
    text_left: float
    text_top: float
    text_width: float
    text_height: float


@frozen
class Words:
    """One line of text: left end and foot in mm, size in pt."""

    text: str
    face: str
    size: float
    left: float
    foot: float


def layout(stock: Stock) -> Layout:
    """The places on a label of this stock; raises `StockFault` when there are none.

    The code has one dot more than it needs, because it begins on a whole one.
    """
    side = (ACROSS * stock.dots + 1) * stock.dot_mm
    left, top = stock.hole_mm + stock.margin_mm, stock.margin_mm
    free = stock.label_mm[0] - left - stock.margin_mm, stock.label_mm[1] - top - stock.margin_mm
    _check_symbol(stock, side, free)
    if stock.text == "right":
        text = left + side, top, free[0] - side, free[1]
        top += (free[1] - side) / 2
    else:
        text = left, top + side, free[0], free[1] - side
        left += (free[0] - side) / 2
    _check_number(stock, text[2], text[3])
    quiet = QUIET * stock.dots * stock.dot_mm
    return Layout(stock.module_mm, left + quiet, top + quiet, *text)


def first_module(place: Layout, corner: Pair, stock: Stock) -> Pair:
    """Left and top of the code on a page, for a label whose corner is there: every module begins on a whole dot."""
    return _on_dots(corner[0] + place.symbol_left, stock), _on_dots(corner[1] + place.symbol_top, stock)


def words(label: Label, place: Layout) -> list[Words]:
    """The number, whole, and below it the lines as far as there is room; together in mid-height."""
    height = place.text_height * PT_PER_MM
    size = _number_size(place.text_width * PT_PER_MM, height)
    rows = _rows(label, place.text_width * PT_PER_MM, height - size * LEADING)
    stack = [(label.number, NUMBER_FACE, size), *((row, TEXT_FACE, row_size) for row, row_size in rows)]
    top = place.text_top * PT_PER_MM + (height - sum(size * LEADING for *_, size in stack)) / 2
    placed = []
    for text, face, size in stack:
        placed.append(_placed(text, face, size, place, top))
        top += size * LEADING
    return placed


def _placed(text: str, face: str, size: float, place: Layout, top: float) -> Words:
    """A line whose ink begins where there is room for it, not in the quiet zone; `top` in points."""
    left = place.text_left + overhang(face, text, size) / PT_PER_MM
    return Words(text, face, size, left, (top + ASCENT * LEADING * size) / PT_PER_MM)


def _number_size(room: float, height: float) -> float:
    """Points; never below the smallest, because `layout` has refused such a stock."""
    widest = room / width(NUMBER_FACE)("0" * LENGTH, 1)
    return min(LARGEST_NUMBER_PT, height * NUMBER_SHARE, widest)


def _rows(label: Label, room: float, height: float) -> list[tuple[str, float]]:
    texts = [text for text in map(printable, label.lines) if text]
    return fitted(texts, room, lambda size: int(height / (size * LEADING)), sizes=LINE_SIZES_PT, width=width(TEXT_FACE))


def _on_dots(mm: float, stock: Stock) -> float:
    """The next whole dot of the printer."""
    return math.ceil(mm / stock.dot_mm - 1e-6) * stock.dot_mm


def _check_symbol(stock: Stock, side: float, free: tuple[float, float]) -> None:
    if side > min(free):
        raise StockFault(
            f"Stock {stock.name}: the code with its quiet zone is {side:.1f} mm, the label leaves "
            f"{free[0]:.1f} x {free[1]:.1f} mm.",
            "Give it fewer dots a module, or take a larger label.",
        )


def _check_number(stock: Stock, text_width: float, text_height: float) -> None:
    wide = width(NUMBER_FACE)("0" * LENGTH, SMALLEST_NUMBER_PT) / PT_PER_MM
    high = SMALLEST_NUMBER_PT / NUMBER_SHARE / PT_PER_MM
    if text_width < wide or text_height < high:
        raise StockFault(
            f"Stock {stock.name}: text {stock.text}: the number in clear needs {wide:.1f} x {high:.1f} mm, "
            f"there are {text_width:.1f} x {text_height:.1f} mm.",
            "Take a larger label, or the other side for text.",
        )
