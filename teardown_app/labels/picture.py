"""One label as a black and white PNG: modules of whole dots, the number in clear under the code or as on its stock."""

from __future__ import annotations

import math
from functools import lru_cache
from io import BytesIO

from PIL import Image, ImageDraw, ImageFont

from teardown_app.labels.label import Label
from teardown_app.labels.layout import first_module, layout, words
from teardown_app.labels.lettering import NUMBER_FACE, TEXT_FACE, fitted, needs_shaping, overhang, printable
from teardown_app.labels.lettering import width as letters
from teardown_app.labels.stock import FINEST_DOTS, MM_PER_INCH, Stock, StockFault
from teardown_app.labels.supplies import supply
from teardown_app.labels.symbol import ACROSS, QUIET, runs, symbol

NUMBER_MM = 3.6
LINE_MM = 2.6
"""Sizes of the letters; smaller ones are not told apart at 203 dpi without shades."""

WIDEST_MM = 50
"""No line makes the picture wider than this."""

ROWS = 12
"""Rows of text under the number."""

MOST_DOTS, FINEST_DPI = 100, 2400
"""No printer of labels needs more; a picture of more would not fit into memory."""

MOST_PIXELS = 100_000_000

LEADING = 1.25
POINTS_PER_INCH = 72
LIGHT, DARK = 1, 0

Placed = tuple[str, str, int]
"""Text, face, size in dots."""


def png(label: Label, *, dpi: int = 203, dots: int = 4) -> bytes:
    """The label as 1-bit PNG that knows its resolution; `dots` is the side of a module. Never scale it."""
    if dots < FINEST_DOTS or dpi < 1:
        raise StockFault(
            f"{dots} dots at {dpi} dpi: a module needs {FINEST_DOTS} dots at least to be read.",
            "Take more dots a module.",
        )
    if dots > MOST_DOTS or dpi > FINEST_DPI:
        raise StockFault(
            f"{dots} dots at {dpi} dpi: a picture has {MOST_DOTS} dots a module and {FINEST_DPI} dpi at most.",
            "Take fewer, such as 4 dots at 203 dpi.",
        )
    side = ACROSS * dots
    stack = [(label.number, NUMBER_FACE, _dots(NUMBER_MM, dpi)), *_rows(label, dpi, side)]
    wide = max([side, *(_width(text, face, size) + 2 * dots for text, face, size in stack)])
    high = side + sum(round(size * LEADING) for *_, size in stack)
    image = Image.new("1", (wide, high), LIGHT)
    draw = ImageDraw.Draw(image)
    _draw_symbol(draw, label.number, dots, (QUIET * dots, QUIET * dots))
    _draw_words(draw, stack, dots, side)
    return _saved(image, dpi)


def stock_png(label: Label, stock: Stock) -> bytes:
    """The label as it comes out on a stock, dot for dot at its printer's resolution."""
    place = layout(stock)
    wide, high = (_dots(side, stock.dpi) for side in stock.label_mm)
    if wide * high > MOST_PIXELS:
        raise StockFault(
            f"Stock {stock.name}: a picture of the label would have {wide} x {high} dots.",
            "It is too large to be shown; it can be printed.",
        )
    image = Image.new("1", (wide, high), LIGHT)
    draw = ImageDraw.Draw(image)
    draw.fontmode = "1"
    left, top = (_dots(side, stock.dpi) for side in first_module(place, (0, 0), stock))
    _draw_symbol(draw, label.number, stock.dots, (left, top))
    for line in words(label, place):
        font = _font(line.face, max(1, int(line.size / POINTS_PER_INCH * stock.dpi)), needs_shaping(line.text))
        corner = _dots(line.left, stock.dpi), _dots(line.foot, stock.dpi)
        draw.text(corner, line.text, font=font, fill=DARK, anchor="ls")
    return _saved(image, stock.dpi)


def _rows(label: Label, dpi: int, side: int) -> list[Placed]:
    """The lines, broken where they are too wide."""
    texts = [text for text in map(printable, label.lines) if text]
    size = _dots(LINE_MM, dpi)
    rows = fitted(
        texts,
        max(side, _dots(WIDEST_MM, dpi)),
        lambda _size: ROWS,
        sizes=[size],
        width=lambda text, size: _width(text, TEXT_FACE, int(size)),
    )
    return [(row, TEXT_FACE, size) for row, _ in rows]


def _dots(mm: float, dpi: int) -> int:
    return max(1, round(mm / MM_PER_INCH * dpi))


def _draw_symbol(draw: ImageDraw.ImageDraw, number: str, dots: int, first: tuple[int, int]) -> None:
    for column, row, wide, high in runs(symbol(number)):
        left, top = first[0] + column * dots, first[1] + row * dots
        draw.rectangle((left, top, left + wide * dots - 1, top + high * dots - 1), fill=DARK)


def _draw_words(draw: ImageDraw.ImageDraw, stack: list[Placed], dots: int, top: int) -> None:
    """Below the quiet zone, which stays free of ink."""
    draw.fontmode = "1"
    for text, face, size in stack:
        left = dots + math.ceil(overhang(face, text, size))
        draw.text((left, top), text, font=_font(face, size, needs_shaping(text)), fill=DARK)
        top += round(size * LEADING)


def _saved(image: Image.Image, dpi: int) -> bytes:
    out = BytesIO()
    image.save(out, "PNG", dpi=(dpi, dpi))
    return out.getvalue()


def _width(text: str, face: str, size: int) -> int:
    length = _font(face, size, needs_shaping(text)).getlength(text, mode="1")
    return int(max(length + overhang(face, text, size), letters(face)(text, size)) + 1)


@lru_cache(maxsize=32)
def _font(face: str, size: int, shaped: bool) -> ImageFont.FreeTypeFont:
    """Without shaping letters come out alike wherever the label is drawn; scripts that need it have it."""
    engine = ImageFont.Layout.RAQM if shaped else ImageFont.Layout.BASIC
    return ImageFont.truetype(supply(face), size, layout_engine=engine)
