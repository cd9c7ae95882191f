"""The test page of a stock: outlines of all its labels, crosshairs, rulers of known length, scales at the edge.

It is printed on the stock itself, so that a person sees how much the printer has to be nudged. No code on it.
"""

from __future__ import annotations

from fpdf import FPDF

from teardown_app.labels.layout import PT_PER_MM
from teardown_app.labels.lettering import TEXT_FACE, width
from teardown_app.labels.sheet import FAMILIES, NO_NUDGE, grid, paper
from teardown_app.labels.stock import Pair, Stock

HAIR_PT = 0.25
CROSS_MM = 2.0
"""From the middle of a crosshair to its ends."""

REACH_MM = 3
"""How far a scale goes to both sides of a label's edge."""

RULERS_MM = (100, 50, 20, 10)
LARGEST_PT, SMALLEST_PT = 9.0, 3.0


def outline_pdf(stock: Stock, *, nudge: Pair = NO_NUDGE) -> bytes:
    """One page with the outline of every label, moved as a print would be."""
    pdf = paper(stock.page_mm)
    pdf.add_page()
    pdf.set_line_width(HAIR_PT)
    for n in range(stock.per_page):
        left, top = (edge + moved for edge, moved in zip(stock.place(n), nudge, strict=True))
        pdf.rect(grid(left), grid(top), grid(stock.label_mm[0]), grid(stock.label_mm[1]))
        _cross(pdf, left + stock.label_mm[0] / 2, top + stock.label_mm[1] / 2)
    first = stock.place(0)[0] + nudge[0], stock.place(0)[1] + nudge[1]
    _scales(pdf, first, stock)
    _rulers(pdf, stock, nudge)
    _says(pdf, stock, nudge, first)
    return bytes(pdf.output())


def ruler_mm(room: float) -> int:
    """The longest ruler that has room.

    >>> ruler_mm(210), ruler_mm(25), ruler_mm(9)
    (100, 20, 0)
    """
    return next((mm for mm in RULERS_MM if mm + 2 <= room), 0)


def _line(pdf: FPDF, x1: float, y1: float, x2: float, y2: float) -> None:
    pdf.line(grid(x1), grid(y1), grid(x2), grid(y2))


def _cross(pdf: FPDF, x: float, y: float) -> None:
    _line(pdf, x - CROSS_MM, y, x + CROSS_MM, y)
    _line(pdf, x, y - CROSS_MM, x, y + CROSS_MM)


def _scales(pdf: FPDF, first: Pair, stock: Stock) -> None:
    """Ticks every half millimetre over the left and the upper edge of the first label: where the cut edge of the
    paper crosses them is the nudge; the longest tick is where the edge should be."""
    across, down = first[1] + stock.label_mm[1] * 0.75, first[0] + stock.label_mm[0] * 0.75
    for half in range(-2 * REACH_MM, 2 * REACH_MM + 1):
        long = 2.4 if half == 0 else 1.4 if half % 2 == 0 else 0.7
        at = half / 2
        _line(pdf, first[0] + at, across - long / 2, first[0] + at, across + long / 2)
        _line(pdf, down - long / 2, first[1] + at, down + long / 2, first[1] + at)


def _rulers(pdf: FPDF, stock: Stock, nudge: Pair) -> None:
    """Millimetres across and down: shorter or longer ones say that the printer scales. Beside the middle of a sheet,
    so that no outline runs along them."""
    beside = 0.2 if stock.per_page > 1 else 0.0
    middle = tuple(stock.page_mm[side] / 2 + beside * stock.label_mm[side] + nudge[side] for side in (0, 1))
    for side in 0, 1:
        long = ruler_mm(stock.page_mm[side])
        begin = middle[side] - long / 2
        for mm in range(long + 1):
            tick = 2.0 if mm % 10 == 0 else 1.4 if mm % 5 == 0 else 0.8
            ends = (begin + mm, middle[1], begin + mm, middle[1] + tick)
            _line(pdf, *(ends if side == 0 else (middle[0], begin + mm, middle[0] + tick, begin + mm)))
        ends = (begin, middle[1], begin + long, middle[1])
        _line(pdf, *(ends if side == 0 else (middle[0], begin, middle[0], begin + long)))


def _says(pdf: FPDF, stock: Stock, nudge: Pair, first: Pair) -> None:
    across, down = (ruler_mm(side) for side in stock.page_mm)
    lines = (
        stock.name,
        f"nudged {nudge[0]:+.1f} {nudge[1]:+.1f} mm",
        f"rulers {across}, {down} mm",
        "else print at 100 %",
    )
    room = stock.label_mm[0] * 0.5 - 2
    widest = max(width(TEXT_FACE)(line, 1) for line in lines) / PT_PER_MM
    size = max(SMALLEST_PT, min(LARGEST_PT, room / widest, stock.label_mm[1] * PT_PER_MM / 12))
    pdf.set_font(FAMILIES[TEXT_FACE], size=size)
    for n, line in enumerate(lines, 1):
        pdf.text(grid(first[0] + 1.0), grid(first[1] + 0.6 + n * size * 1.15 / PT_PER_MM), line)
