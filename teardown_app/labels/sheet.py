"""Labels as a PDF: a sheet of many or a roll of one a page, all drawn as vectors.

The same labels on the same stock are the same bytes, on every day and machine.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime

from fpdf import FPDF
from fpdf.enums import RenderStyle

from teardown_app.labels.label import Label
from teardown_app.labels.layout import PT_PER_MM, Layout, Words, first_module, layout, words
from teardown_app.labels.lettering import NUMBER_FACE, TEXT_FACE, needs_shaping
from teardown_app.labels.nudged import check_nudge
from teardown_app.labels.stock import Pair, Stock, StockFault, Tell
from teardown_app.labels.supplies import supply
from teardown_app.labels.symbol import MODULES, runs, symbol

MADE = datetime(2000, 1, 1, tzinfo=UTC)
"""Date written into every PDF: the day of printing would make equal sheets differ."""

FAMILIES = {NUMBER_FACE: "number", TEXT_FACE: "text"}
NO_NUDGE: Pair = (0.0, 0.0)
TELL_EVERY = 20


def sheet_pdf(
    labels: Sequence[Label],
    stock: Stock,
    *,
    start_at: int = 1,
    nudge: Pair = NO_NUDGE,
    tell: Tell = lambda how_far: None,
) -> bytes:
    """The labels in their order; `start_at` is the first label still on the first sheet, counted from 1.

    `nudge` moves everything to the right and down by so many mm, for a printer that does not print in place.
    """
    if not labels:
        raise StockFault("There are no labels to print.")
    check_paper(stock, start_at, nudge)
    place = layout(stock)
    pdf = paper(stock.page_mm)
    for n, (label, corner) in enumerate(zip(labels, _corners(pdf, stock, start_at - 1), strict=False)):
        if n % TELL_EVERY == 0:
            tell(f"{n} of {len(labels)}")
        _draw(pdf, label, place, (corner[0] + nudge[0], corner[1] + nudge[1]), stock)
    tell(f"{len(labels)} of {len(labels)}")
    return bytes(pdf.output())


def check_paper(stock: Stock, start_at: int, nudge: Pair) -> None:
    """Refuses what cannot be drawn: a stock too small, a label beyond its page, a nudge that cuts codes."""
    if not 1 <= start_at <= stock.per_page:
        raise StockFault(f"Stock {stock.name} has labels 1 to {stock.per_page} on a page, not {start_at}.")
    check_nudge(stock, nudge)


def paper(page_mm: Pair) -> FPDF:
    """An empty PDF for pages of that size, with our letters; lengths in points."""
    pdf = FPDF(unit="pt", format=(grid(page_mm[0]), grid(page_mm[1])))
    pdf.set_creation_date(MADE)
    pdf.set_auto_page_break(False)
    for face, family in FAMILIES.items():
        pdf.add_font(family, fname=supply(face))
    return pdf


def _corners(pdf: FPDF, stock: Stock, taken: int) -> Iterator[Pair]:
    """Top left of one label after the other; begins pages as they are needed."""
    while True:
        pdf.add_page()
        for n in range(taken, stock.per_page):
            yield stock.place(n)
        taken = 0


def _draw(pdf: FPDF, label: Label, place: Layout, corner: Pair, stock: Stock) -> None:
    draw_symbol(pdf, label.number, first_module(place, corner, stock), place.module_mm)
    for line in words(label, place):
        pdf.set_font(FAMILIES[line.face], size=line.size)
        left, foot = grid(corner[0] + line.left), grid(corner[1] + line.foot)
        if needs_shaping(line.text):
            _shaped(pdf, left, foot, line)
        else:
            pdf.text(left, foot, line.text)


def _shaped(pdf: FPDF, left: float, foot: float, line: Words) -> None:
    """Letters joined, and in the order in which they are read; a cell puts their foot at 0.8 of the size."""
    pdf.set_text_shaping(True)
    pdf.c_margin = 0
    pdf.set_xy(left, foot - 0.8 * line.size)
    pdf.cell(h=line.size, text=line.text)
    pdf.set_text_shaping(False)


def draw_symbol(pdf: FPDF, number: str, first: Pair, module_mm: float) -> None:
    """Every edge is rounded by itself, so that neighbours meet exactly and no error adds up."""
    across = [grid(first[0] + n * module_mm) for n in range(MODULES + 1)]
    down = [grid(first[1] + n * module_mm) for n in range(MODULES + 1)]
    for x, y, wide, high in runs(symbol(number)):
        pdf.rect(across[x], down[y], across[x + wide] - across[x], down[y + high] - down[y], style=RenderStyle.F)


def grid(mm: float) -> float:
    """Millimetres as points on the hundredths that a PDF of ours is written in."""
    return round(mm * PT_PER_MM, 2)
