"""Label stocks: sheets and rolls as data (`assets/label_stock.toml`), and the faults of such a file.

Holds the sizes only; where code and text go on a label is in `layout.py`.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from attrs import field, fields, frozen

from teardown_app.labels.supplies import supply

Pair = tuple[float, float]

MM_PER_INCH = 25.4
FINEST_DOTS = 3
"""Fewer dots a module are not read by every reader (measured)."""

SLACK_MM = 0.01
"""Rounding of trade sizes that is let pass."""


class StockFault(ValueError):
    """A stock is wrongly described, unknown, or too small for a label; the message says which and why."""


def _pair(value: object) -> Pair:
    if not isinstance(value, (list, tuple)) or len(value) != 2 or not all(_is_number(v) for v in value):
        raise StockFault(f"{value!r} must be two lengths in mm, across and down.")
    return float(value[0]), float(value[1])


def _is_number(value: object) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool) and 0 <= value < 10_000


@frozen(kw_only=True)
class Stock:
    """One kind of label paper; lengths in mm. The keys are explained in `docs/formats/tag.md`."""

    name: str
    says: str
    page_mm: Pair = field(converter=_pair)
    dpi: int
    dots: int
    text: str
    first_mm: Pair = field(default=(0, 0), converter=_pair)
    label_mm: Pair = field(converter=_pair)
    pitch_mm: Pair = field(converter=_pair)
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

    def __attrs_post_init__(self) -> None:
        for wrong in _faults(self):
            raise StockFault(f"Stock {self.name}: {wrong}")

    @property
    def dot_mm(self) -> float:
        """Side of one printer dot."""
        return MM_PER_INCH / self.dpi

    @property
    def per_page(self) -> int:
        """Labels on one page."""
        return self.columns * self.rows

    def place(self, n: int) -> Pair:
        """Left and top in mm of the n-th label (0, 1, …) of a page, row by row."""
        row, column = divmod(n, self.columns)
        return self.first_mm[0] + column * self.pitch_mm[0], self.first_mm[1] + row * self.pitch_mm[1]


def read_stocks(path: Path | None = None) -> dict[str, Stock]:
    """All stocks of a file by name; the app's own when no file is named."""
    path = path or supply("label_stock.toml")
    try:
        tables = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as wrong:
        raise StockFault(f"{path.name} cannot be read: {wrong}.") from wrong
    return {name: _stock(name, table) for name, table in tables.items()}


def find_stock(name: str, path: Path | None = None) -> Stock:
    """The stock of that name; an unknown one is refused with the names there are."""
    stocks = read_stocks(path)
    if name not in stocks:
        raise StockFault(f"There is no stock {name!r}; there are {', '.join(sorted(stocks))}.")
    return stocks[name]


def _stock(name: str, table: Any) -> Stock:
    if not isinstance(table, dict):
        raise StockFault(f"Stock {name}: a table [{name}] is needed, not {table!r}.")
    known = {entry.name for entry in fields(Stock)} - {"name"}
    missing = {"says", "page_mm", "dpi", "dots", "text"} - set(table)
    if missing or set(table) - known:
        raise StockFault(f"Stock {name}: missing {sorted(missing)}, unknown {sorted(set(table) - known)}.")
    return Stock(name=name, **table)


def _faults(stock: Stock) -> Iterator[str]:
    """What is wrong with the numbers of a stock, one sentence each."""
    whole = {"dpi": stock.dpi, "dots": stock.dots, "columns": stock.columns, "rows": stock.rows}
    yield from (f"{key} = {n!r} must be a whole number from 1 on." for key, n in whole.items()
                if type(n) is not int or n < 1)
    yield from (f"{key} = {n!r} must be a length in mm." for key, n in
                {"margin_mm": stock.margin_mm, "hole_mm": stock.hole_mm}.items() if not _is_number(n))
    if stock.dots < FINEST_DOTS:
        yield f"dots = {stock.dots}: a module of fewer than {FINEST_DOTS} dots is not read reliably."
    if stock.text not in ("right", "below"):
        yield f"text = {stock.text!r} must be right or below."
    yield from _overlaps(stock)


def _overlaps(stock: Stock) -> Iterator[str]:
    for side, count in (0, stock.columns), (1, stock.rows):
        end = stock.first_mm[side] + (count - 1) * stock.pitch_mm[side] + stock.label_mm[side]
        if end > stock.page_mm[side] + SLACK_MM:
            yield f"its labels end at {end:.2f} mm, the page at {stock.page_mm[side]:.2f} mm."
        if count > 1 and stock.pitch_mm[side] < stock.label_mm[side] - SLACK_MM:
            yield "its labels overlap: the pitch is smaller than the label."
