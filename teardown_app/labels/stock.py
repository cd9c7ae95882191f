"""A label stock: the sizes of one sheet or roll, and from how far its codes are read.

Reading the files of stocks is in `stock_file.py`; where code and text go on a label in `layout.py`.
"""

from __future__ import annotations

from collections.abc import Callable

from attrs import field, frozen

from teardown_app.workflows.act import Refused

Pair = tuple[float, float]

Tell = Callable[[str], None]
"""Told now and then how far drawing or sending is; what it raises ends it."""

MM_PER_INCH = 25.4
FINEST_DOTS = 3
"""Fewer dots a module are not read by every reader (measured)."""

DISTANCE_TO_WIDTH = 10
"""A symbol is read from about ten times its width: common practice, no source."""


class StockFault(Refused):
    """A stock is wrongly described, unknown, or too small for a label; the message says which and why."""

    def __init__(self, wrong: str, instead: str = "") -> None:
        super().__init__(wrong, instead)

    def __str__(self) -> str:
        return f"{self.wrong} {self.instead}".strip()


@frozen(kw_only=True)
class Stock:
    """One kind of label paper; lengths in mm. The keys are explained in `docs/formats/tag.md`."""

    name: str
    says: str
    page_mm: Pair
    dpi: int
    dots: int
    text: str
    first_mm: Pair = (0, 0)
    label_mm: Pair = field()
    pitch_mm: Pair = field()
    columns: int = 1
    rows: int = 1
    margin_mm: float = 1.5
    hole_mm: float = 0

    @label_mm.default
    def _whole_page(self) -> Pair:
        return self.page_mm

    @pitch_mm.default
    def _label_beside_label(self) -> Pair:
        return self.label_mm

    @property
    def dot_mm(self) -> float:
        """Side of one printer dot."""
        return MM_PER_INCH / self.dpi

    @property
    def module_mm(self) -> float:
        """Side of one module of the code."""
        return self.dots * self.dot_mm

    @property
    def symbol_mm(self) -> float:
        """Width of the code without its quiet zone: 21 modules."""
        return 21 * self.module_mm

    @property
    def distance_cm(self) -> float:
        """From about how far the code is read."""
        return self.symbol_mm * DISTANCE_TO_WIDTH / 10

    @property
    def per_page(self) -> int:
        """Labels on one page."""
        return self.columns * self.rows

    def place(self, n: int) -> Pair:
        """Left and top in mm of the n-th label (0, 1, …) of a page, row by row."""
        row, column = divmod(n, self.columns)
        return self.first_mm[0] + column * self.pitch_mm[0], self.first_mm[1] + row * self.pitch_mm[1]


def read_from(stock: Stock) -> str:
    """Module and reading distance in words.

    >>> read_from(Stock(name="r", says="", page_mm=(25, 25), dpi=203, dots=4, text="below"))
    'module 0.50 mm, code 10.5 mm wide, read from about 11 cm'
    """
    return (
        f"module {stock.module_mm:.2f} mm, code {stock.symbol_mm:.1f} mm wide, "
        f"read from about {stock.distance_cm:.0f} cm"
    )
