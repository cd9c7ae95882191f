"""Labels as a PDF: a sheet of many or a roll of one a page, all drawn as vectors.

The same labels on the same stock are the same bytes, on every day and machine.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime

from fpdf import FPDF

from teardown_app.labels.label import Label
from teardown_app.labels.layout import PT_PER_MM, Layout, layout, words
from teardown_app.labels.lettering import NUMBER_FACE, TEXT_FACE
from teardown_app.labels.stock import Pair, Stock, StockFault
from teardown_app.labels.supplies import supply
from teardown_app.labels.symbol import MODULES, runs, symbol

MADE = datetime(2000, 1, 1, tzinfo=UTC)
"""Date written into every PDF: the day of printing would make equal sheets differ."""

_FAMILIES = {NUMBER_FACE: "number", TEXT_FACE: "text"}


def sheet_pdf(labels: Sequence[Label], stock: Stock, *, start_at: int = 1) -> bytes:
    """The labels in their order; `start_at` is the first label still on the first sheet, counted from 1."""
    if not labels:
        raise StockFault("There are no labels to print.")
    if not 1 <= start_at <= stock.per_page:
        raise StockFault(f"Stock {stock.name} has labels 1 to {stock.per_page} on a page, not {start_at}.")
    place = layout(stock)
    pdf = _paper(stock)
    for label, corner in zip(labels, _corners(pdf, stock, start_at - 1), strict=False):
        _draw(pdf, label, place, corner)
    return bytes(pdf.output())


def _paper(stock: Stock) -> FPDF:
    width, height = (_grid(mm) for mm in stock.page_mm)
    pdf = FPDF(unit="pt", format=(width, height))
    pdf.set_creation_date(MADE)
    pdf.set_auto_page_break(False)
    for face, family in _FAMILIES.items():
        pdf.add_font(family, fname=supply(face))
    return pdf


def _corners(pdf: FPDF, stock: Stock, taken: int) -> Iterator[Pair]:
    """Top left of one label after the other; begins pages as they are needed."""
    while True:
        pdf.add_page()
        for n in range(taken, stock.per_page):
            yield stock.place(n)
        taken = 0


def _draw(pdf: FPDF, label: Label, place: Layout, corner: Pair) -> None:
    _draw_symbol(pdf, label.number, place, corner)
    for line in words(label, place):
        pdf.set_font(_FAMILIES[line.face], size=line.size)
        pdf.text(_grid(corner[0] + line.left), _grid(corner[1] + line.foot), line.text)


def _draw_symbol(pdf: FPDF, number: str, place: Layout, corner: Pair) -> None:
    """Every edge is rounded by itself, so that neighbours meet exactly and no error adds up."""
    left, top = corner[0] + place.symbol_left, corner[1] + place.symbol_top
    across = [_grid(left + n * place.module_mm) for n in range(MODULES + 1)]
    down = [_grid(top + n * place.module_mm) for n in range(MODULES + 1)]
    for x, y, wide, high in runs(symbol(number)):
        pdf.rect(across[x], down[y], across[x + wide] - across[x], down[y + high] - down[y], style="F")


def _grid(mm: float) -> float:
    """Millimetres as points on the hundredths that a PDF of ours is written in."""
    return round(mm * PT_PER_MM, 2)
