"""Label stocks: what the file of sizes may say, and stocks that are refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from teardown_app.domain.tag import issue
from teardown_app.labels.label import Label
from teardown_app.labels.picture import png
from teardown_app.labels.sheet import sheet_pdf
from teardown_app.labels.stock import StockFault, find_stock, read_stocks

LABEL = Label(issue("P", "7K3M", 1, 1)[0][0])

ROLL = {"says": '"roll"', "page_mm": "[25, 25]", "margin_mm": "1", "dpi": "203", "dots": "4",
        "text": '"below"'}


def stock_file(folder: Path, **changed: str | None) -> Path:
    """A file with one stock, the good roll with some keys changed or taken away."""
    keys = {key: value for key, value in {**ROLL, **changed}.items() if value is not None}
    path = folder / "stock.toml"
    rows = "".join(f"{key} = {value}\n" for key, value in keys.items())
    path.write_text("[mine]\n" + rows, encoding="utf-8")
    return path


def test_every_stock_that_comes_along_can_be_printed() -> None:
    """The five stocks are there, and each takes a label."""
    stocks = read_stocks()
    assert set(stocks) == {"a4-40", "letter-30", "roll-25x25", "roll-50x25", "tie-on-120x60"}
    assert all(sheet_pdf([LABEL], stock).startswith(b"%PDF") for stock in stocks.values())


@pytest.mark.parametrize("changed, said", [
    ({"page_mm": "[15, 25]"}, "the code with its quiet zone is 14.6 mm, the label leaves 13.0 x 23.0 mm"),
    ({"dots": "8"}, "the code with its quiet zone is 29.2 mm"),
    ({"hole_mm": "10"}, "fewer dots a module or a larger label"),
    ({"text": '"right"'}, "text right: the number in clear needs 12.7 x 5.3 mm, there are 8.4 x 23.0 mm"),
    ({"page_mm": "[25, 18]"}, "choose a larger label or the other side"),
])
def test_a_stock_too_small_is_refused_with_why(tmp_path: Path, changed: dict[str, str], said: str) -> None:
    """Code and number have room, or the refusal gives the lengths that are wanting."""
    stock = find_stock("mine", stock_file(tmp_path, **changed))
    with pytest.raises(StockFault) as refused:
        sheet_pdf([LABEL], stock)
    assert said in str(refused.value)


@pytest.mark.parametrize("changed, said", [
    ({"dots": None}, "missing ['dots']"),
    ({"colour": '"red"'}, "unknown ['colour']"),
    ({"dots": "2"}, "a module of fewer than 3 dots"),
    ({"dots": "4.5"}, "dots = 4.5 must be a whole number"),
    ({"dpi": "0"}, "dpi = 0 must be a whole number"),
    ({"columns": "true"}, "columns = True must be a whole number"),
    ({"margin_mm": "-1"}, "margin_mm = -1 must be a length"),
    ({"text": '"above"'}, "must be right or below"),
    ({"page_mm": "25"}, "25 must be two lengths"),
    ({"page_mm": "[25, nan]"}, "must be two lengths"),
    ({"columns": "2"}, "its labels end at 50.00 mm, the page at 25.00 mm"),
    ({"columns": "2", "label_mm": "[12, 25]", "pitch_mm": "[10, 25]"}, "its labels overlap"),
])
def test_a_wrong_stock_is_named_with_its_fault(tmp_path: Path, changed: dict[str, str], said: str) -> None:
    """Each key that is missing, unknown or out of range is named."""
    with pytest.raises(StockFault) as refused:
        read_stocks(stock_file(tmp_path, **changed))
    assert said in str(refused.value)


def test_an_unreadable_file_and_an_unknown_name_are_said(tmp_path: Path) -> None:
    """No file, no TOML, not a table, no such stock: each its own sentence."""
    path = tmp_path / "stock.toml"
    with pytest.raises(StockFault, match="cannot be read"):
        read_stocks(path)
    for text in "[mine", "\udcff":
        path.write_text(text, encoding="utf-8", errors="surrogateescape")
        with pytest.raises(StockFault, match="cannot be read"):
            read_stocks(path)
    path.write_text("mine = 3", encoding="utf-8")
    with pytest.raises(StockFault, match=r"a table \[mine\] is needed"):
        read_stocks(path)
    with pytest.raises(StockFault, match="there are a4-40, letter-30"):
        find_stock("a4-41")


def test_places_on_a_page_are_counted_from_one() -> None:
    """Neither place 0 nor one beyond the sheet, nor a print of nothing, makes a PDF."""
    stock = find_stock("a4-40")
    for start_at in (0, 41):
        with pytest.raises(StockFault, match="has labels 1 to 40"):
            sheet_pdf([LABEL], stock, start_at=start_at)
    with pytest.raises(StockFault, match="no labels"):
        sheet_pdf([], stock)


def test_a_picture_of_too_few_dots_is_refused() -> None:
    """Two dots a module are not read by every reader."""
    with pytest.raises(StockFault, match="needs 3 dots"):
        png(LABEL, dots=2)
