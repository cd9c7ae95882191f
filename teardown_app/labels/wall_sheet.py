"""The wall sheet of the cleaning room: action codes so large that a scanner reads them from arm's length."""

from __future__ import annotations

from fpdf import FPDF

from teardown_app.domain.tags.actions import ACTIONS, NUMBERS
from teardown_app.labels.layout import PT_PER_MM
from teardown_app.labels.lettering import NUMBER_FACE, TEXT_FACE, width
from teardown_app.labels.sheet import FAMILIES, draw_symbol, grid, paper
from teardown_app.labels.stock import MM_PER_INCH, Pair, StockFault
from teardown_app.labels.symbol import ACROSS, QUIET

PAGES: dict[str, Pair] = {"a4": (210, 297), "letter": (215.9, 279.4)}
COLUMNS, ROWS = 2, 3
EDGE_MM, HEAD_MM = 10.0, 12.0
DPI, DOTS = 600, 48
MODULE_MM = MM_PER_INCH / DPI * DOTS
"""2.03 mm: the code is 43 mm wide and read from about 40 cm by a camera (common practice, no source)."""

HEAD = "Cleaning room: scan instead of touching"
WORD_PT, SAYS_PT, NUMBER_PT, HEAD_PT = 40.0, 13.0, 9.0, 16.0


def wall_sheet_pdf(page: str = "a4") -> bytes:
    """One page with six actions: word, code, what it does, number in clear."""
    if page not in PAGES:
        raise StockFault(f"There is no page {page!r}.", f"Take one of {', '.join(PAGES)}.")
    pdf = paper(PAGES[page])
    pdf.add_page()
    wide, high = PAGES[page]
    _centred(pdf, HEAD, TEXT_FACE, HEAD_PT, wide / 2, EDGE_MM + 5)
    tile = (wide - 2 * EDGE_MM) / COLUMNS, (high - 2 * EDGE_MM - HEAD_MM) / ROWS
    for n, word in enumerate(ACTIONS):
        row, column = divmod(n, COLUMNS)
        _tile(pdf, word, (EDGE_MM + column * tile[0], EDGE_MM + HEAD_MM + row * tile[1]), tile)
    return bytes(pdf.output())


def _tile(pdf: FPDF, word: str, corner: Pair, size: Pair) -> None:
    """A frame with gaps to its neighbours: cut out, it is a card."""
    pdf.set_line_width(1.0)
    pdf.rect(grid(corner[0] + 1.5), grid(corner[1] + 1.5), grid(size[0] - 3), grid(size[1] - 3))
    middle, side = corner[0] + size[0] / 2, ACROSS * MODULE_MM
    foot = corner[1] + 1.5
    _centred(pdf, word.upper(), NUMBER_FACE, WORD_PT, middle, foot + 13)
    first = middle - side / 2 + QUIET * MODULE_MM, foot + 12 + QUIET * MODULE_MM
    draw_symbol(pdf, NUMBERS[word], first, MODULE_MM)
    below = foot + 12 + side
    _centred(pdf, ACTIONS[word], TEXT_FACE, SAYS_PT, middle, below + 2)
    _centred(pdf, NUMBERS[word], NUMBER_FACE, NUMBER_PT, middle, below + 7)


def _centred(pdf: FPDF, text: str, face: str, size: float, middle: float, foot: float) -> None:
    pdf.set_font(FAMILIES[face], size=size)
    left = middle - width(face)(text, size) / PT_PER_MM / 2
    pdf.text(grid(left), grid(foot), text)
