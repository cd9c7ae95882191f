"""Label stocks: what the files of sizes may say, entries that are wrong, and stocks that are refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from teardown_app.domain.tags.tag import issue
from teardown_app.labels.label import Label
from teardown_app.labels.nudged import nudge_caution
from teardown_app.labels.picture import png, stock_png
from teardown_app.labels.sheet import sheet_pdf
from teardown_app.labels.stock import StockFault, read_from
from teardown_app.labels.stock_file import own_file, read_stocks, shelf_of

LABEL = Label(issue("P", "7K3M", 1, 1)[0][0])
OURS = {"a4-40", "letter-30", "roll-25x25", "roll-50x25", "tie-on-120x60"}

ROLL = {"says": '"roll"', "page_mm": "[25, 25]", "margin_mm": "1", "dpi": "203", "dots": "4", "text": '"below"'}


def entry(name: str, **changed: str | None) -> str:
    """One stock as it stands in a file, the good roll with some keys changed or taken away."""
    keys = {key: value for key, value in {**ROLL, **changed}.items() if value is not None}
    return f"[{name}]\n" + "".join(f"{key} = {value}\n" for key, value in keys.items())


def stock_file(folder: Path, *entries: str) -> Path:
    """A file of the shop's own."""
    path = own_file(folder)
    path.parent.mkdir(exist_ok=True)
    path.write_text("\n".join(entries), encoding="utf-8")
    return path


def test_every_stock_that_comes_along_can_be_printed() -> None:
    """The five stocks are there without a fault, and each takes a label."""
    shelf = shelf_of()
    assert set(shelf.stocks) == OURS and not shelf.faults
    assert all(sheet_pdf([LABEL], stock).startswith(b"%PDF") for stock in shelf.stocks.values())


@pytest.mark.parametrize(
    "changed, said",
    [
        ({"page_mm": "[15, 25]"}, "the code with its quiet zone is 14.6 mm, the label leaves 13.0 x 23.0 mm"),
        ({"dots": "8"}, "the code with its quiet zone is 29.2 mm"),
        ({"hole_mm": "10"}, "fewer dots a module, or take a larger label"),
        ({"text": '"right"'}, "text right: the number in clear needs 12.7 x 5.3 mm, there are 8.4 x 23.0 mm"),
        ({"page_mm": "[25, 18]"}, "Take a larger label, or the other side for text"),
    ],
)
def test_a_stock_too_small_is_refused_with_why(tmp_path: Path, changed: dict[str, str], said: str) -> None:
    """Code and number have room, or the refusal gives the lengths that are wanting."""
    stock_file(tmp_path, entry("mine", **changed))
    with pytest.raises(StockFault) as refused:
        sheet_pdf([LABEL], shelf_of(tmp_path).find("mine"))
    assert said in str(refused.value)


@pytest.mark.parametrize(
    "changed, key, said, right",
    [
        ({"dots": None}, "dots", "it is missing", "a whole number from 3 on"),
        ({"colour": '"red"'}, "colour", "there is no such key", "one of says, page_mm"),
        ({"dots": "2"}, "dots", "a module of fewer than 3 dots", "3 or more"),
        ({"dots": "4.5"}, "dots", "4.5 must be a whole number", "from 3 on"),
        ({"dpi": "0"}, "dpi", "0 must be a whole number", "such as 203"),
        ({"dpi": "72"}, "dpi", "no printer has 72 dots per inch", "100 to 2400"),
        ({"dpi": "60000"}, "dpi", "no printer has 60000 dots per inch", "100 to 2400"),
        (
            {"dpi": "600", "dots": "5"},
            "dots",
            "5 dots at 600 dpi is 0.21 mm: too small",
            "6 or more, which are 0.25 mm",
        ),
        ({"columns": "true"}, "columns", "True must be a whole number", "a count"),
        ({"margin_mm": "-1"}, "margin_mm", "-1 must be a length", "such as 1.5"),
        ({"text": '"above"'}, "text", "must be right or below", "of the code"),
        ({"says": "3"}, "says", "3 is no text", "in quotes"),
        ({"page_mm": "25"}, "page_mm", "25 must be two lengths", "[210, 297]"),
        ({"page_mm": "[25, nan]"}, "page_mm", "must be two lengths", "[210, 297]"),
        ({"page_mm": "[25, 0]"}, "page_mm", "has no size", "above 0"),
        ({"columns": "2"}, "columns", "its labels end at 50.00 mm, the page at 25.00 mm", "fewer or smaller"),
        (
            {"columns": "2", "label_mm": "[12, 25]", "pitch_mm": "[10, 25]"},
            "pitch_mm",
            "its labels overlap",
            "12.00 mm",
        ),
    ],
)
def test_a_wrong_entry_is_told_and_stops_no_good_one(
    tmp_path: Path, changed: dict[str, str | None], key: str, said: str, right: str
) -> None:
    """File, table, key, what is wrong, what would be right; the stock beside it is there, and so are the app's own."""
    stock_file(tmp_path, entry("wrong", **changed), entry("good"))
    shelf = shelf_of(tmp_path)
    (fault,) = shelf.faults
    assert (fault.file, fault.table, fault.key) == ("label_stock.toml", "wrong", key)
    assert said in fault.wrong and right in fault.right
    assert str(fault).startswith(f"label_stock.toml [wrong] {key}: ")
    assert set(shelf.stocks) == {*OURS, "good"}
    with pytest.raises(StockFault, match="Stock wrong is wrongly described"):
        shelf.find("wrong")


def test_all_faults_of_an_entry_are_told_at_once(tmp_path: Path) -> None:
    """Nobody mends one to be told the next."""
    stock_file(tmp_path, entry("wrong", dpi='"203"', dots=None, text="7"))
    assert {fault.key for fault in shelf_of(tmp_path).faults} == {"dpi", "dots", "text"}


def test_the_shop_s_entry_holds_over_ours(tmp_path: Path) -> None:
    """A stock of the same name is the shop's; a wrong one is refused, and the app's own does not slip in its place."""
    stock_file(tmp_path, entry("roll-25x25", dots="3"), entry("roll-50x25", dots="2"))
    shelf = shelf_of(tmp_path)
    assert shelf.find("roll-25x25").dots == 3 and set(shelf.stocks) == OURS - {"roll-50x25"}
    with pytest.raises(StockFault, match="Stock roll-50x25 is wrongly described.*fewer than 3 dots"):
        shelf.find("roll-50x25")
    assert [fault.table for fault in shelf.faults] == ["roll-50x25"]


def test_an_unreadable_file_and_an_unknown_name_are_said(tmp_path: Path) -> None:
    """No TOML, not text, nested too deep, no table, no such stock: each its own sentence, and ours are there."""
    path = stock_file(tmp_path)
    for text in "[mine", "\udcff":
        path.write_text(text, encoding="utf-8", errors="surrogateescape")
        (fault,) = shelf_of(tmp_path).faults
        assert "cannot be read" in str(fault) and set(shelf_of(tmp_path).stocks) == OURS
    path.write_text(f"mine = {'[' * 5000}{']' * 5000}", encoding="utf-8")
    (fault,) = shelf_of(tmp_path).faults
    assert "nested too deep" in str(fault) and set(shelf_of(tmp_path).stocks) == OURS
    path.write_text(entry("mine"), encoding="utf-8-sig")
    assert not shelf_of(tmp_path).faults and shelf_of(tmp_path).find("mine"), "as editors of Windows write it"
    path.write_text("mine = 3", encoding="utf-8")
    (fault,) = shelf_of(tmp_path).faults
    assert fault.table == "mine" and "3 is no table" in fault.wrong
    assert read_stocks(tmp_path / "gone.toml").faults
    with pytest.raises(StockFault, match="there are a4-40, letter-30"):
        shelf_of().find("a4-41")


def test_places_on_a_page_are_counted_from_one() -> None:
    """Neither place 0 nor one beyond the sheet, nor a print of nothing, makes a PDF."""
    stock = shelf_of().find("a4-40")
    for start_at in (0, 41):
        with pytest.raises(StockFault, match="has labels 1 to 40"):
            sheet_pdf([LABEL], stock, start_at=start_at)
    with pytest.raises(StockFault, match="no labels"):
        sheet_pdf([], stock)


def test_a_picture_of_too_few_dots_is_refused() -> None:
    """Two dots a module are not read by every reader."""
    with pytest.raises(StockFault, match="needs 3 dots"):
        png(LABEL, dots=2)


@pytest.mark.parametrize("dots, dpi", [(100_000, 203), (101, 203), (4, 2401), (4, 10**6)])
def test_a_picture_of_too_many_dots_is_refused(dots: int, dpi: int) -> None:
    """Before memory is asked for it; what is just within is drawn."""
    with pytest.raises(StockFault, match="100 dots a module and 2400 dpi at most"):
        png(LABEL, dots=dots, dpi=dpi)
    assert png(LABEL, dots=100).startswith(b"\x89PNG")


def test_a_picture_of_a_very_large_label_is_refused(tmp_path: Path) -> None:
    """The label itself can be printed."""
    stock_file(tmp_path, entry("mine", page_mm="[9000, 9000]"))
    stock = shelf_of(tmp_path).find("mine")
    with pytest.raises(StockFault, match="too large to be shown"):
        stock_png(LABEL, stock)
    assert sheet_pdf([LABEL], stock).startswith(b"%PDF")


@pytest.mark.parametrize(
    "x, said",
    [
        # roll of 25 mm, module 0.5 mm (254 dpi, 5 dots), symbol with quiet zone 14.5 mm and one dot (0.1 mm) more, in
        # the middle of what the margin of 1 mm leaves: 1 + (23 - 14.6) / 2 = 5.2 mm free at the left, 5.3 at the right
        (0.0, ""),
        (5.3, ""),
        (-5.2, ""),
        (6.3, "1.0 mm over the edge of the label"),
        (-6.2, "1.0 mm over the edge"),
        (7.3, "2.0 mm over"),
        (7.5, "cut by 0.2 mm"),
        (-7.4, "cut by 0.2 mm"),
        (-10.0, "cut by 2.8 mm"),
    ],
)
def test_a_nudge_over_the_edge_is_said(tmp_path: Path, x: float, said: str) -> None:
    """Worked out by hand. Over the edge of label and quiet zone it is a caution; cut modules are refused."""
    stock_file(tmp_path, entry("mine", dpi="254", dots="5"))
    stock = shelf_of(tmp_path).find("mine")
    if said.startswith("cut"):
        with pytest.raises(StockFault, match=said):
            sheet_pdf([LABEL], stock, nudge=(x, 0))
        return
    assert sheet_pdf([LABEL], stock, nudge=(x, 0)).startswith(b"%PDF")
    assert said in nudge_caution(stock, (x, 0)) and bool(said) == bool(nudge_caution(stock, (x, 0)))


def test_a_nudge_into_the_next_label_is_said() -> None:
    """On a sheet the page is far: the neighbour's label is not. Every side is looked at."""
    stock = shelf_of().find("a4-40")
    assert not nudge_caution(stock, (0.3, -0.5))
    assert all("over the edge" in nudge_caution(stock, nudge) for nudge in ((-9, 0), (0, -9), (0, 9)))


def test_module_and_reading_distance_are_said() -> None:
    """5 dots at 203 dpi are 0.626 mm, 21 of them 13.1 mm; ten times that is 13 cm (common practice, no source)."""
    assert read_from(shelf_of().find("roll-50x25")) == "module 0.63 mm, code 13.1 mm wide, read from about 13 cm"
