"""Labels: what waits to be printed and what was perhaps printed, the stocks, and the one in use with its picture."""

from __future__ import annotations

from hashlib import sha256
from typing import TYPE_CHECKING

from teardown_app.ui.label_printing import print_queued
from teardown_app.ui.screen import Screen
from teardown_app.ui.slow import Report
from teardown_app.ui.view import ACCEPT, EMPTY, REJECT, TO_DO, UNSURE, Card, Fact, Row, Step, View
from teardown_app.ui.words import counted
from teardown_app.workflows.label_queue import back_in_the_queue, printed

if TYPE_CHECKING:
    from teardown_app.labels.stock import Pair, Stock

SAMPLE = ("P7K3M0001B", ("10/2.20.5", "Seal ring, example", "job J7K3M0001H"))
"""What the picture of a stock shows: invented."""
NO_PRINTER = "none: a file is written"


class Labels(Screen):
    """The queue of labels and the paper."""

    name = "labels"
    tab = "office"
    of_job = False

    def view(self) -> View:
        mine, stock = self.desk.labels, self.desk.labels.stock()
        main, quiet = self._steps(stock)
        rows = (*self._unsure(), *self._waiting(), *self._elsewhere(), *self._stocks(stock), *self._faults())
        unsure = mine.perhaps()
        care = ""
        if unsure:
            many = counted(len(unsure), "label")
            care = f"{many} perhaps printed: the tablet stopped, or the printer did not answer. Look at the printer."
        care = " ".join(said for said in (mine.no_stock(), care) if said)
        return View("Office · Labels", rows, card=self._card(stock), main=main, quiet=quiet, caution=care)

    # what is listed

    def _unsure(self) -> list[Row]:
        return [
            Row(one.number, one.number, f"perhaps printed at tablet {one.tablet}: look at its printer", UNSURE,
                trail=one.where, act="nothing")
            for one in self.desk.labels.perhaps()
        ]  # fmt: skip

    def _waiting(self) -> list[Row]:
        rows = []
        for one in self.desk.labels.waiting():
            label = self.desk.workshop.label_in_queue(one)
            says = ", ".join(label.lines[:2]) if label else "stands for nothing any more"
            rows.append(Row(one.number, f"{one.number}  {says}".strip(), one.why, TO_DO, trail="waits", act="nothing"))
        return rows

    def _elsewhere(self) -> list[Row]:
        return [
            Row(one.number, one.number, f"waits at tablet {one.tablet}", EMPTY, act="nothing")
            for one in self.desk.labels.elsewhere()
        ]

    def _stocks(self, chosen: Stock) -> list[Row]:
        stocks = sorted(self.desk.labels.shelf().stocks.items())
        return [
            Row(f"stock {name}", one.says, f"module {one.module_mm:.2f} mm, code {one.symbol_mm:.1f} mm",
                ACCEPT if name == chosen.name else EMPTY, trail=f"read from {one.distance_cm:.0f} cm",
                chosen=name == chosen.name, act="stock")
            for name, one in stocks
        ]  # fmt: skip

    def _faults(self) -> list[Row]:
        faults = self.desk.labels.shelf().faults
        return [Row(f"fault {n}", str(one), one.right, REJECT, act="fault") for n, one in enumerate(faults)]

    def _card(self, stock: Stock) -> Card:
        """The paper, once a stock was touched; else the queue."""
        return self._paper_card(stock) if self.state.get("paper") else self._queue_card(stock)

    def _queue_card(self, stock: Stock) -> Card:
        mine = self.desk.labels
        waits, printer = len(mine.waiting()), mine.printers.chosen(stock.name)
        steps = (
            Step("Paper and printer", "see_paper"),
            Step("Print again", "form", ("print again",)),
            Step("Make void", "form", ("void",)),
            Step("For places, tools", "form", ("labels for",)),
            Step("Wall sheet", "wall_sheet"),
        )
        word = "to be printed" if waits else "Parts tagged without a roll queue up here."
        facts = [Fact("paper", stock.says), Fact("printer", printer or NO_PRINTER)]
        if mine.written:
            facts.append(Fact("last file", mine.written))
        return Card(counted(waits, "label"), word=word, facts=tuple(facts), steps=steps)

    def _paper_card(self, stock: Stock) -> Card:
        from teardown_app.labels.stock import read_from

        mine = self.desk.labels
        printer = mine.printers.chosen(stock.name)
        x, y = mine.printers.nudge(stock.name, printer)
        picture, wrong = self._picture(stock)
        wrong, care = (wrong, "") if wrong else self._nudged(stock, (x, y))
        facts = [Fact("printer", printer or NO_PRINTER), Fact("nudged", f"{x:+.1f} mm right, {y:+.1f} mm down")]
        facts += [Fact("caution", care, UNSURE)] if care else []
        if stock.per_page > 1:
            free = mine.printers.next_free(stock)
            begun = f"; the last sheet has labels from {free} on free" if free > 1 else ""
            facts.append(Fact("starts at", f"label {mine.start_at} of {stock.per_page}{begun}"))
        start = (Step("Start at", "form", ("start at",)),) if stock.per_page > 1 else ()
        steps = (Step("Printer", "printer"), Step("Nudge", "form", ("nudge",)), *start)
        mark, word = (REJECT, wrong) if wrong else ("", read_from(stock))
        return Card("", stock.says, mark, word, tuple(facts), picture, steps)

    def _nudged(self, stock: Stock, nudge: Pair) -> tuple[str, str]:
        """Why nothing can be printed with this nudge, and what is to be looked at on the paper."""
        from teardown_app.labels.nudged import check_nudge, nudge_caution
        from teardown_app.labels.stock import StockFault

        try:
            check_nudge(stock, nudge)
        except StockFault as fault:
            return str(fault), ""
        return "", nudge_caution(stock, nudge)

    def _picture(self, stock: Stock) -> tuple[tuple[str, ...], str]:
        """A file with the label as it comes out; or why the stock takes none."""
        from teardown_app.labels.label import Label
        from teardown_app.labels.order import write
        from teardown_app.labels.picture import stock_png
        from teardown_app.labels.stock import StockFault

        name = sha256(repr(stock).encode()).hexdigest()[:12]
        file = self.desk.workshop.home.path / "drafts" / f"label-{name}.png"
        if not file.exists():
            try:
                write(file, stock_png(Label(*SAMPLE), stock))
            except StockFault as fault:
                return (), str(fault)
        return (str(file),), ""

    def _steps(self, stock: Stock) -> tuple[Step, tuple[Step, ...]]:
        mine = self.desk.labels
        roll = Step("New roll of labels", "form", ("roll",))
        paper = (Step("Test page", "test_page"), Step("Labels that wait", "see_queue"))
        unsure, waits = mine.perhaps(), mine.waiting()
        if unsure:
            came_out = Step(f"They came out: {counted(len(unsure), 'label')}", "came_out")
            return came_out, (Step("They did not", "did_not"),)
        if not waits:
            return roll, paper if self.state.get("paper") else ()
        printer = mine.printers.chosen(stock.name)
        how = f"Print {counted(len(waits), 'label')} on {printer}" if printer else "Write the queued labels"
        return Step(how, "print_queue"), paper if self.state.get("paper") else (roll,)

    # what is touched

    def stock(self, key: str) -> None:
        """Takes a stock in use, and shows it."""
        self.desk.labels.use(key.removeprefix("stock "))
        self.state["paper"] = True

    def see_paper(self) -> None:
        """Shows the stock in use: its printer, its nudge, its picture."""
        self.state["paper"] = True

    def see_queue(self) -> None:
        """Goes back to what waits."""
        self.state["paper"] = False

    def fault(self, key: str) -> None:
        """Says the whole of what is wrong with an entry."""
        self.desk.say(str(self.desk.labels.shelf().faults[int(key.split()[-1])]), REJECT)

    def print_queue(self) -> None:
        """Prints what waits."""
        print_queued(self.desk)

    def came_out(self) -> None:
        """Somebody looked: they are on paper."""
        numbers = [one.number for one in self.desk.labels.perhaps()]
        many = counted(len(numbers), "label")
        self.desk.shop_act(lambda act: printed(act, numbers, where="seen on paper"), f"{many} printed.")

    def did_not(self) -> None:
        """Somebody looked: they are not on paper and wait again."""
        numbers = [one.number for one in self.desk.labels.perhaps()]
        self.desk.shop_act(
            lambda act: back_in_the_queue(act, numbers, "it did not come out"),
            f"To be printed again: {counted(len(numbers), 'label')}.",
        )

    def printer(self) -> None:
        """Asks the system for its printers, off the screen's thread, then which one it is."""
        from teardown_app.labels.print_queue import Queue, queues
        from teardown_app.ui.forms.labels import FILE

        def ask(report: Report) -> list[Queue]:
            report("the print service answers in a moment")
            return queues()

        def choose(found: list[Queue]) -> None:
            there = [f"{one.name}  (stopped)" if one.stopped else one.name for one in found]
            self.desk.open("printer", there=[*there, FILE])

        self.desk.slow.start("Asking for printers:", ask, choose)

    def test_page(self) -> None:
        """Writes outlines and rulers, and sends them where the labels go."""
        from teardown_app.labels.outline import outline_pdf

        stock, mine = self.desk.labels.in_use(), self.desk.labels.printers
        printer = mine.chosen(stock.name)
        self._paper(outline_pdf(stock, nudge=mine.nudge(stock.name, printer)), "test-page.pdf", printer)

    def wall_sheet(self) -> None:
        """Writes the action codes of the cleaning room."""
        from teardown_app.labels.wall_sheet import wall_sheet_pdf

        self._paper(wall_sheet_pdf(), "wall-sheet.pdf", "")

    def _paper(self, pdf: bytes, name: str, printer: str) -> None:
        from teardown_app.labels.order import write
        from teardown_app.labels.print_queue import hand_over

        file = self.desk.workshop.home.path / "labels" / name
        write(file, pdf)
        if not printer:
            self.desk.say(f"Written: {file}. Print it at 100 %.", ACCEPT)
            return
        self.desk.slow.start(
            f"Sending to {printer}:",
            lambda report: hand_over(file, printer, name, report),
            lambda how: self.desk.say(f"Handed to {printer}. {how}", ACCEPT),
            holds=True,
        )

    def form(self, name: str) -> None:
        """Opens a form."""
        self.desk.open(name)

    def nothing(self, key: str) -> None:
        """A row that only tells."""
