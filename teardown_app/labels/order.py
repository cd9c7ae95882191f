"""One order to print labels: drawn, written as a file, handed to a printer. The same for the command and the tablet.

The file is always written; where there is no printer it is all there is. Recording is the caller's: what was *sent*
before `send`, what was *printed* after it.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

from attrs import frozen

from teardown_app.labels.label import Label, lacking_said
from teardown_app.labels.nudged import nudge_caution
from teardown_app.labels.print_queue import hand_over
from teardown_app.labels.printers import Printers
from teardown_app.labels.sheet import check_paper, sheet_pdf
from teardown_app.labels.stock import Pair, Stock, Tell
from teardown_app.workflows.act import refuse


@frozen
class Order:
    """Labels on a stock, into a file, and to a printer where one is named."""

    labels: tuple[Label, ...]
    stock: Stock
    file: Path
    printer: str = ""
    start_at: int = 1
    nudge: Pair = (0.0, 0.0)

    @property
    def where(self) -> str:
        """Where they go, in words."""
        return f"printer {self.printer}, {self.file.name}" if self.printer else f"file {self.file.name}"

    @property
    def caution(self) -> str:
        """What a person should look at on the paper, in words; empty where nothing is odd."""
        return nudge_caution(self.stock, self.nudge)

    @property
    def lacks(self) -> str:
        """What of the labels cannot be shown, in words, to be said before printing; empty where all can."""
        return lacking_said(self.labels)

    def check(self) -> None:
        """Refuses what could not be drawn, before any number is issued for it."""
        check_paper(self.stock, self.start_at, self.nudge)

    def draw(self, tell: Tell) -> bytes:
        """The PDF; a stock that is too small is refused here, before anything is recorded."""
        return sheet_pdf(self.labels, self.stock, start_at=self.start_at, nudge=self.nudge, tell=tell)

    def send(self, pdf: bytes, tell: Tell) -> str:
        """Writes the file and hands it over; what happened, in words."""
        write(self.file, pdf)
        if not self.printer:
            return f"written: {self.file}"
        said = hand_over(self.file, self.printer, f"labels {self.labels[0].number}", tell)
        return f"handed to printer {self.printer}{f' ({said})' if said else ''}"


def order(
    labels: Sequence[Label],
    stock: Stock,
    folder: Path,
    name: str,
    printers: Printers,
    *,
    start_at: int = 1,
    printer: str | None = None,
    file: Path | None = None,
) -> Order:
    """An order with what the tablet keeps of this stock: its printer unless one is named, and that one's nudge."""
    if not labels:
        refuse("There are no labels to print.", "Queue some, or take a roll.")
    to = printers.chosen(stock.name) if printer is None else printer
    nudge = printers.nudge(stock.name, to)
    return Order(tuple(labels), stock, file or folder / f"{name}.pdf", to, start_at, nudge)


def write(file: Path, data: bytes) -> None:
    """Writes a file where the printer's computer finds it: whole or not at all, what was there before stays."""
    beside = file.with_name(f"{file.name}.{os.getpid()}.new")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        beside.write_bytes(data)
        os.replace(beside, file)
    except OSError as fault:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
        refuse(f"{file} could not be written: {fault.strerror}.", _what_to_do(fault, file))


def _what_to_do(fault: OSError, file: Path) -> str:
    if fault.errno in (errno.ENOSPC, errno.EDQUOT):
        return "Make room on the disk, then do it again."
    if file.is_dir():
        return "A folder has that name: move it away, or take another name."
    if isinstance(fault, (NotADirectoryError, FileExistsError)):
        return "A file is where a folder should be: move it away, or take another folder."
    if isinstance(fault, PermissionError) or fault.errno == errno.EROFS:
        return "Nobody may write there: get the right to, or take another folder."
    return "Take another folder, or have the disk looked at."
