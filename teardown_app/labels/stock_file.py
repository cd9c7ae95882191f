"""Files of label stocks: the app's own, and the shop's beside it, whose entries hold where both have one.

A wrong entry is told with file, table, key, what is wrong and what would be right; it never stops the good ones.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from attrs import fields, frozen

from teardown_app.labels.stock import FINEST_DOTS, Stock, StockFault
from teardown_app.labels.supplies import supply

SLACK_MM = 0.01
"""Rounding of trade sizes that is let pass."""

COARSEST_DPI, FINEST_DPI = 100, 2400
"""Label and laser printers have 203 to 1200 dots per inch (common practice, no source); with room to both sides."""

SMALLEST_MODULE_MM = 0.25
"""Below it cameras and hand-held readers do not tell the modules of a small label apart, and toner and thermal heads
fill the gaps: common practice, no source. Such a code is 5 mm wide and read from 5 cm."""

SHOWN = 60

NEEDED = {
    "says": "one line for people, in quotes",
    "page_mm": "width and height of the page in mm, as [210, 297]",
    "dpi": "dots per inch of the printer, a whole number such as 203",
    "dots": "dots a module, a whole number from 3 on",
    "text": '"right" of the code or "below" it',
}
PAIRS, LENGTHS, WHOLE = ("page_mm", "first_mm", "label_mm", "pitch_mm"), ("margin_mm", "hole_mm"), ("columns", "rows")
KNOWN = [one.name for one in fields(Stock) if one.name != "name"]

Wrong = tuple[str, str, str]
"""Key, what is wrong with it, what would be right."""


@frozen
class EntryFault:
    """A fault of one entry of a file of stocks; `table` is empty where the whole file cannot be read."""

    file: str
    table: str
    key: str
    wrong: str
    right: str

    def __str__(self) -> str:
        where = " ".join(part for part in (self.file, f"[{self.table}]" if self.table else "", self.key) if part)
        return f"{where}: {self.wrong}. Right would be: {self.right}."


@frozen
class Shelf:
    """All stocks by name, and what is wrong with the entries that are left out."""

    stocks: dict[str, Stock]
    faults: tuple[EntryFault, ...] = ()

    def find(self, name: str) -> Stock:
        """The stock of that name; an unknown or a wrong one is refused."""
        if name in self.stocks:
            return self.stocks[name]
        mine = [str(one) for one in self.faults if one.table == name]
        if mine:
            raise StockFault(f"Stock {name} is wrongly described. {' '.join(mine)}", "Put it right in that file.")
        there = ", ".join(sorted(self.stocks))
        raise StockFault(f"There is no stock {name!r}; there are {there}.", "Name one of these.")


def own_file(home: Path) -> Path:
    """Where the shop keeps its own stocks."""
    return home / "shop" / "label_stock.toml"


def shelf_of(home: Path | None = None) -> Shelf:
    """The stocks that come along, and over them those of the shop."""
    files = [supply("label_stock.toml")]
    if home is not None and own_file(home).exists():
        files.append(own_file(home))
    return read_stocks(*files)


def read_stocks(*files: Path) -> Shelf:
    """The entries of these files, a later one over an earlier one of the same name."""
    stocks: dict[str, Stock] = {}
    faults: list[EntryFault] = []
    for file in files:
        tables, unread = _tables(file)
        faults += unread
        for name, table in tables.items():
            wrong = [EntryFault(file.name, name, *one) for one in wrong_with(table)]
            faults += wrong
            stocks.pop(name, None)  # the shop's entry holds, also where it is wrong
            if not wrong:
                stocks[name] = _stock(name, table)
    return Shelf(stocks, tuple(faults))


def _tables(file: Path) -> tuple[dict[str, Any], list[EntryFault]]:
    try:
        return tomllib.loads(file.read_text(encoding="utf-8-sig")), []
    except RecursionError:
        return {}, [
            EntryFault(
                file.name,
                "",
                "",
                "the file cannot be read: its brackets are nested too deep",
                "a file of text in TOML, one table for each stock",
            )
        ]
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as wrong:
        return {}, [
            EntryFault(
                file.name,
                "",
                "",
                f"the file cannot be read: {wrong}",
                "a file of text in TOML, one table for each stock",
            )
        ]


def _stock(name: str, table: dict[str, Any]) -> Stock:
    pairs = {key: (float(table[key][0]), float(table[key][1])) for key in PAIRS if key in table}
    return Stock(name=name, **{**table, **pairs})


def wrong_with(table: object) -> list[Wrong]:
    """Everything that is wrong with one entry."""
    if not isinstance(table, dict):
        return [("", f"{_shown(table)} is no table", "a heading in square brackets, and its keys beneath it")]
    missing = [(key, "it is missing", right) for key, right in NEEDED.items() if key not in table]
    unknown = [(key, "there is no such key", f"one of {', '.join(KNOWN)}") for key in table if key not in KNOWN]
    values = [wrong for key in table if key in KNOWN for wrong in _value(key, table[key])]
    if missing or unknown or values:
        return [*missing, *unknown, *values]
    stock = _stock("", table)
    return [*_too_fine(stock), *_overlaps(stock)]


def _too_fine(stock: Stock) -> Iterator[Wrong]:
    if stock.module_mm < SMALLEST_MODULE_MM:
        enough = math.ceil(SMALLEST_MODULE_MM / stock.dot_mm)
        wrong = f"a module of {stock.dots} dots at {stock.dpi} dpi is {stock.module_mm:.2f} mm: too small to be read"
        yield "dots", wrong, f"{enough} or more, which are {SMALLEST_MODULE_MM} mm"


def _value(key: str, value: Any) -> Iterator[Wrong]:
    said = _shown(value)
    if key in PAIRS and not _is_pair(value):
        yield key, f"{said} must be two lengths in mm", NEEDED["page_mm"] if key == "page_mm" else "as [48.5, 25.4]"
    elif key == "page_mm" and 0 in value or key in ("label_mm", "pitch_mm") and 0 in value:
        yield key, f"{said} has no size", "two lengths above 0 mm"
    elif key in LENGTHS and not _is_length(value):
        yield key, f"{said} must be a length in mm", "a number from 0 on, such as 1.5"
    elif key in (*WHOLE, "dpi", "dots") and (type(value) is not int or value < 1):
        yield key, f"{said} must be a whole number from 1 on", NEEDED.get(key, "a count, such as 4")
    elif key == "dots" and value < FINEST_DOTS:
        yield key, f"a module of fewer than {FINEST_DOTS} dots is not read reliably", f"{FINEST_DOTS} or more"
    elif key == "dpi" and not COARSEST_DPI <= value <= FINEST_DPI:
        yield key, f"no printer has {value} dots per inch", f"{COARSEST_DPI} to {FINEST_DPI}, such as 203 or 600"
    elif key == "text" and value not in ("right", "below"):
        yield key, f"{said} must be right or below", NEEDED["text"]
    elif key == "says" and not isinstance(value, str):
        yield key, f"{said} is no text", NEEDED["says"]


def _overlaps(stock: Stock) -> Iterator[Wrong]:
    for side, count, many in (0, stock.columns, "columns"), (1, stock.rows, "rows"):
        first, pitch, label = stock.first_mm[side], stock.pitch_mm[side], stock.label_mm[side]
        page, end = stock.page_mm[side], first + (count - 1) * pitch + label
        if end > page + SLACK_MM:
            yield many, f"its labels end at {end:.2f} mm, the page at {page:.2f} mm", "fewer or smaller labels"
        if count > 1 and pitch < label - SLACK_MM:
            wrong = f"its labels overlap: from one to the next are {pitch:.2f} mm, a label has {label:.2f} mm"
            yield "pitch_mm", wrong, f"{label:.2f} mm or more"


def _is_pair(value: object) -> bool:
    return isinstance(value, list) and len(value) == 2 and all(_is_length(one) for one in value)


def _is_length(value: object) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool) and 0 <= value < 10_000


def _shown(value: object) -> str:
    text = repr(value)
    return text if len(text) <= SHOWN else text[:SHOWN] + "…"
