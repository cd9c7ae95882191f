"""What commands about labels share - stock, start, printer, file - and the commands about stocks and printers."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Sequence
from pathlib import Path

from teardown_app.cli.command import Answer, Call, Command, cautions, looks
from teardown_app.cli.said import complain
from teardown_app.labels.label import Label
from teardown_app.labels.layout import layout
from teardown_app.labels.nudged import check_nudge, nudge_caution
from teardown_app.labels.order import Order, order, write
from teardown_app.labels.outline import outline_pdf
from teardown_app.labels.print_queue import queues
from teardown_app.labels.printers import Printers
from teardown_app.labels.stock import Pair, Stock, StockFault, read_from
from teardown_app.labels.stock_file import Shelf, shelf_of
from teardown_app.records.own_notes import OwnNotes

FILE = "file"
"""As a printer: none, the file alone."""


def paper(parser: ArgumentParser) -> None:
    """Arguments of every command that prints labels."""
    parser.add_argument("--stock", default="a4-40", help="label stock, as label stocks lists them")
    parser.add_argument("--start-at", type=int, default=1, metavar="N", help="first free label of a sheet begun")
    parser.add_argument(
        "--printer",
        default=None,
        help="system printer; kept for this stock on this tablet once it took labels. 'file': none",
    )
    parser.add_argument("--out", type=Path, metavar="FILE.pdf", help="else a file in labels of the data folder")


def shelf(call: Call) -> Shelf:
    """The stocks there are; what is wrong with entries of the shop's file is said and stops nothing."""
    found = shelf_of(call.home)
    for fault in found.faults:
        complain(str(fault))
    return found


def printers(call: Call) -> Printers:
    """What this tablet keeps of its printers."""
    home = call.workshop.home
    return Printers(OwnNotes(home.disk, home.path / "private"))


def print_plain(call: Call, labels: Sequence[Label], name: str) -> tuple[Order, bytes]:
    """An order as the arguments say, and its PDF; nothing is written or sent yet."""
    args, known = call.args, printers(call)
    stock = shelf(call).find(args.stock)
    named = _printer(args.printer)
    if args.printer is None and args.out is not None:
        named = ""  # who names a file wants the file
    ordered = order(
        labels, stock, call.home / "labels", name, known, start_at=args.start_at, printer=named, file=args.out
    )
    if ordered.lacks:
        complain(f"CAUTION: {ordered.lacks}")
    return ordered, ordered.draw(lambda how_far: None)


def _printer(named: str | None) -> str | None:
    """The printer that an argument names, empty for the file alone; None where it names none."""
    return "" if named == FILE else named


def send_plain(call: Call, ordered: Order, pdf: bytes) -> str:
    """Writes and hands over; a printer that was named is kept for the stock once it took the labels."""
    done = ordered.send(pdf, lambda how_far: None)
    if ordered.caution:
        complain(f"CAUTION: {ordered.caution}")
    if call.args.printer is not None:
        printers(call).choose(ordered.stock.name, ordered.printer)
    return done


def stocks(call: Call) -> Answer:
    """All stocks with what they are good for on this tablet."""
    found, known, rows = shelf(call), printers(call), []
    for name, stock in sorted(found.stocks.items()):
        printer = known.chosen(name)
        rows.append({
            "stock": name, "says": stock.says, "labels": stock.per_page, "module_mm": round(stock.module_mm, 3),
            "symbol_mm": round(stock.symbol_mm, 2), "read_from_cm": round(stock.distance_cm),
            "printer": printer, "nudge_mm": list(known.nudge(name, printer)), "too_small": too_small(stock),
        })  # fmt: skip
    lines = []
    for row in rows:
        about = _about(found.stocks[str(row["stock"])], row)
        lines += [f"{row['stock']:<16} {row['says']}", f"{'':<16} {about}"]
    faults = [str(fault) for fault in found.faults]
    return Answer({"stocks": rows, "faults": faults}, lines, 2 if faults else 0)


def _about(stock: Stock, row: dict[str, object]) -> str:
    if row["too_small"]:
        return f"TOO SMALL: {row['too_small']}"
    x, y = row["nudge_mm"]  # type: ignore[misc]
    nudge = f", nudged {x:+.1f} {y:+.1f} mm" if x or y else ""  # type: ignore[has-type]
    return f"{read_from(stock)}; {row['printer'] or 'file only'}{nudge}"


def too_small(stock: Stock) -> str:
    """Why a stock takes no label; empty when it does."""
    try:
        layout(stock)
    except StockFault as fault:
        return str(fault)
    return ""


def _test_page(parser: ArgumentParser) -> None:
    parser.add_argument("stock", metavar="STOCK")
    parser.add_argument("--printer", default=None, help="the nudge of this printer; else that of the stock's own")
    parser.add_argument("--out", type=Path, required=True, metavar="FILE.pdf")


def test_page(call: Call) -> Answer:
    """Outlines, crosshairs and rulers, to be printed on the stock."""
    args, known = call.args, printers(call)
    stock = shelf(call).find(args.stock)
    printer = _printer(args.printer)
    nudge = known.nudge(stock.name, known.chosen(stock.name) if printer is None else printer)
    write(args.out, outline_pdf(stock, nudge=nudge))
    hint = "Print it on the stock at 100 %. Where the cut edge crosses the scales is the nudge: label nudge."
    return Answer({"file": str(args.out), "nudge_mm": list(nudge)}, [f"Test page of {stock.name}: {args.out}", hint])


def _nudge(parser: ArgumentParser) -> None:
    parser.add_argument("stock", metavar="STOCK")
    parser.add_argument("x", metavar="RIGHT", type=float, help="mm to the right; negative to the left")
    parser.add_argument("y", metavar="DOWN", type=float, help="mm down; negative up")
    parser.add_argument("--printer", default=None, help="else the printer of the stock")


def nudge(call: Call) -> Answer:
    """Keeps how far prints of a stock are moved on this printer."""
    args, known = call.args, printers(call)
    stock = shelf(call).find(args.stock)
    printer = _printer(args.printer)
    printer = known.chosen(stock.name) if printer is None else printer
    x, y = known.keep_nudge(stock.name, printer, args.x, args.y)
    said = f"{stock.name} on {printer or FILE}: {x:+.1f} mm to the right, {y:+.1f} mm down."
    care = over_the_edge(stock, (x, y))
    answer = {"stock": stock.name, "printer": printer, "nudge_mm": [x, y], "caution": care}
    return Answer(answer, [said, *cautions([care] * bool(care))])


def over_the_edge(stock: Stock, nudge: Pair) -> str:
    """What such a nudge does to the codes, in words; of a stock that takes no label nothing is said here."""
    if too_small(stock):
        return ""
    try:
        check_nudge(stock, nudge)
    except StockFault as fault:
        return str(fault)
    return nudge_caution(stock, nudge)


def list_printers(call: Call) -> Answer:
    """The system's print queues."""
    found = queues()
    rows = [{"printer": one.name, "stopped": one.stopped} for one in found]
    lines = [f"{one.name:<24} {f'stopped: {one.stopped}' if one.stopped else 'ready'}" for one in found]
    return Answer(rows, lines or ["The system has no printer. Labels are written as files all the same."])


COMMANDS = (
    looks(
        ("label", "stocks"),
        "Label stocks with module, reading distance, printer and nudge. Exit 2 when an entry is wrong.",
        "teardown-app label stocks",
        stocks,
    ),
    looks(
        ("label", "test-page"),
        "Outlines of all labels of a stock with rulers and crosshairs, to see how far a print has to be nudged.",
        "teardown-app label test-page a4-40 --out test.pdf",
        test_page,
        _test_page,
    ),
    Command(
        ("label", "nudge"),
        "Move prints of a stock on this tablet's printer, in steps of 0.1 mm.",
        "teardown-app label nudge a4-40 0.3 -0.5",
        nudge,
        _nudge,
        by=False,
    ),
    looks(
        ("label", "printers"),
        "The system's printers, and which of them are stopped.",
        "teardown-app label printers",
        list_printers,
    ),
)
