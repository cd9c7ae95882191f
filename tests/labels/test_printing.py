"""Handing labels to the system's print queue, against a fake one that writes down how it was called."""

from __future__ import annotations

import errno
import os
import sys
from pathlib import Path

import pytest

from teardown_app.domain.tags.tag import issue
from teardown_app.labels.label import Label
from teardown_app.labels.order import order, write
from teardown_app.labels.print_queue import PrintFault, Queue, hand_over, queues
from teardown_app.labels.printers import Printers
from teardown_app.labels.stock_file import shelf_of
from teardown_app.records.disk import RealDisk
from teardown_app.records.own_notes import OwnNotes
from teardown_app.workflows.act import Refused
from tests.labels.fake_print_service import BUSY, HOLDING, READY, STOPPED, FakeService, on_path, put_on_path

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="lp and lpr are those of CUPS")

LABELS = [Label(number) for number in issue("P", "7K3M", 1, 3)[0]]
ROLL = shelf_of().find("roll-50x25")


def quiet(how_far: str) -> None:
    """Nobody looks."""


@pytest.fixture
def service(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> FakeService:
    """Two queues, both ready."""
    return on_path(tmp_path, monkeypatch)


@pytest.fixture
def printers(tmp_path: Path) -> Printers:
    """A tablet's own choices."""
    return Printers(OwnNotes(RealDisk(), tmp_path / "private"))


def test_the_queues_of_the_system_are_listed(service: FakeService) -> None:
    """Ready ones and stopped ones, with the reason that the service gives."""
    service.printers(bench="", office="out of labels")
    assert queues() == [Queue("bench"), Queue("office", "out of labels")]


def test_every_line_of_the_print_service_is_a_queue(service: FakeService) -> None:
    """Printing now and holding new jobs are no reason to say that there is none; only what is disabled is stopped."""
    old, new = "printer d is now printing d-3.  enabled since x\n", "printer e is thinking.  enabled since x\n"
    service.says(BUSY.format("a"), HOLDING.format("b"), STOPPED.format("c"), old, new, READY.format("disabled"))
    there = [Queue("a"), Queue("b"), Queue("c", "out of labels"), Queue("d"), Queue("e"), Queue("disabled")]
    assert queues() == there


@pytest.mark.parametrize("line", [BUSY, HOLDING])
def test_a_printer_at_work_takes_a_file(service: FakeService, tmp_path: Path, line: str) -> None:
    """The file goes behind what is printed or held."""
    file = tmp_path / "x.pdf"
    file.write_bytes(b"%PDF")
    service.says(line.format("bench"))
    hand_over(file, "bench", "labels", quiet)
    assert service.called()[1] == "bench"


def test_a_file_is_handed_over_unscaled(service: FakeService, printers: Printers, tmp_path: Path) -> None:
    """lp gets queue, title, no scaling, the file; the file that was written is the one the printer got."""
    printers.choose(ROLL.name, "bench")
    ordered = order(LABELS, ROLL, tmp_path / "labels", "three", printers)
    said = ordered.send(ordered.draw(quiet), quiet)
    assert said == "handed to printer bench (request id is bench-17 (1 file(s)))"
    file = tmp_path / "labels" / "three.pdf"
    title = f"labels {LABELS[0].number}"
    assert service.called() == ["-d", "bench", "-t", title, "-o", "print-scaling=none", "--", str(file)]
    assert service.taken == file.read_bytes()


def test_without_a_printer_the_file_is_all(service: FakeService, printers: Printers, tmp_path: Path) -> None:
    """Nothing is called; the file is there."""
    ordered = order(LABELS, ROLL, tmp_path, "three", printers)
    ordered.send(ordered.draw(quiet), quiet)
    assert (tmp_path / "three.pdf").read_bytes().startswith(b"%PDF") and not service.called()


def test_lpr_where_there_is_no_lp(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The older command has other letters for the same."""
    service = FakeService(tmp_path / "bin", programs=("lpr",))
    put_on_path(monkeypatch, service.folder)
    file = tmp_path / "x.pdf"
    file.write_bytes(b"%PDF")
    assert queues() == []
    hand_over(file, "bench", "labels", quiet)
    assert service.called("lpr") == ["-P", "bench", "-T", "labels", "-o", "print-scaling=none", str(file)]


@pytest.mark.parametrize(
    "printer, stopped, does, wrong, instead",
    [
        ("bench", "out of labels", "", "Printer bench is stopped: out of labels", "cupsenable bench"),
        ("gone", "", "", "There is no printer gone. There are bench, office", "Choose the printer"),
        ("bench", "", "refuses", "the scheduler is not responding", "Look at the printer, or choose another"),
    ],
)
def test_what_the_printer_does_not_take_is_said(
    service: FakeService, tmp_path: Path, printer: str, stopped: str, does: str, wrong: str, instead: str
) -> None:
    """Each with what is wrong and what to do; it certainly did not print."""
    file = tmp_path / "x.pdf"
    file.write_bytes(b"%PDF")
    service.printers(bench=stopped, office="")
    if does:
        service.does(does)
    with pytest.raises(PrintFault) as fault:
        hand_over(file, printer, "labels", quiet)
    assert wrong in fault.value.wrong and instead in fault.value.instead and not fault.value.perhaps


def test_no_print_service_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither lp nor lpr: the file's name is told."""
    service = FakeService(tmp_path / "bin", programs=())
    put_on_path(monkeypatch, service.folder)
    assert queues() == []
    with pytest.raises(PrintFault, match=r"neither lp nor lpr.*x\.pdf"):
        hand_over(tmp_path / "x.pdf", "bench", "labels", quiet)


def test_a_printer_that_never_answers_is_given_up(service: FakeService, tmp_path: Path) -> None:
    """After the time it may take: perhaps it was printed, and that is said; the hanging program is ended."""
    file = tmp_path / "x.pdf"
    file.write_bytes(b"%PDF")
    service.does("hangs")
    service.is_given_up()
    told: list[str] = []
    with pytest.raises(PrintFault, match="lp did not answer in 30 s: the labels were perhaps printed") as fault:
        hand_over(file, "bench", "labels", told.append)
    assert fault.value.perhaps
    assert told and told[0].startswith("waiting for the printer")


def test_a_service_that_never_lists_is_given_up(service: FakeService, tmp_path: Path) -> None:
    """The list of printers does not hang for ever either; nothing was sent, and nobody is told to look for labels."""
    service.does("asleep")
    service.is_given_up()
    file = tmp_path / "x.pdf"
    file.write_bytes(b"%PDF")
    for ask in (queues, lambda: hand_over(file, "bench", "labels", quiet)):
        with pytest.raises(PrintFault, match="lpstat did not answer") as fault:
            ask()
        assert not fault.value.perhaps and "perhaps" not in str(fault.value) and not service.called()


def test_a_program_that_is_killed_perhaps_printed(service: FakeService, tmp_path: Path) -> None:
    """Ended by a signal after it took the file: nobody can know."""
    file = tmp_path / "x.pdf"
    file.write_bytes(b"%PDF")
    service.does("dies")
    with pytest.raises(PrintFault, match="ended by signal 9: the labels were perhaps printed") as fault:
        hand_over(file, "bench", "labels", quiet)
    assert fault.value.perhaps


def test_sending_is_stopped_by_a_person(service: FakeService, tmp_path: Path) -> None:
    """What the teller raises ends it at once."""
    file = tmp_path / "x.pdf"
    file.write_bytes(b"%PDF")
    service.does("hangs")

    class Enough(Exception):
        """Somebody touched stop."""

    def stop(how_far: str) -> None:
        raise Enough

    with pytest.raises(Enough):
        hand_over(file, "bench", "labels", stop)


def test_printer_and_nudge_are_kept_by_stock(printers: Printers, tmp_path: Path) -> None:
    """Another stock, and the same stock on another printer, are not touched; a new start knows them."""
    printers.choose("a4-40", "office")
    printers.keep_nudge("a4-40", "office", 0.3, -0.5)
    again = Printers(OwnNotes(RealDisk(), tmp_path / "private"))
    assert again.chosen("a4-40") == "office" and again.chosen("letter-30") == ""
    assert again.nudge("a4-40", "office") == (0.3, -0.5)
    assert again.nudge("a4-40", "bench") == (0.0, 0.0)


@pytest.mark.parametrize("x", [0.25, 10.1, float("nan"), float("inf")])
def test_a_nudge_is_whole_steps_and_not_far(printers: Printers, x: float) -> None:
    """Tenths of a millimetre, 10 mm at most."""
    with pytest.raises(Refused):
        printers.keep_nudge("a4-40", "office", x, 0)


def test_the_next_free_label_of_a_sheet_is_counted(printers: Printers) -> None:
    """39 from label 1: 40 is free; two from 40: one on it, one on the next sheet, whose second is free."""
    stock = shelf_of().find("a4-40")
    assert printers.next_free(stock) == 1
    printers.used(stock, 1, 39)
    assert printers.next_free(stock) == 40
    printers.used(stock, 40, 2)
    assert printers.next_free(stock) == 2


def test_a_folder_and_a_file_in_the_way_are_said(printers: Printers, tmp_path: Path) -> None:
    """The file cannot be written: what, where, what to do; nothing half written is left."""
    (tmp_path / "three.pdf").mkdir()
    (tmp_path / "file").touch()
    for folder, instead in ((tmp_path, "A folder has that name"), (tmp_path / "file", "A file is where a folder")):
        ordered = order(LABELS, ROLL, folder, "three", printers)
        with pytest.raises(Refused, match="could not be written") as fault:
            ordered.send(ordered.draw(quiet), quiet)
        assert instead in fault.value.instead
    assert sorted(one.name for one in tmp_path.iterdir()) == ["file", "three.pdf"]


@pytest.mark.parametrize(
    "number, instead",
    [
        (errno.ENOSPC, "Make room"),
        (errno.EACCES, "Nobody may write there"),
        (errno.EROFS, "Nobody may write there"),
        (errno.EIO, "have the disk looked at"),
    ],
)
def test_a_disk_that_gives_out_leaves_the_file_before(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int, instead: str
) -> None:
    """Half of it is on the disk when it is full: the file of before stands whole, and nothing lies beside it."""
    file = tmp_path / "three.pdf"
    write(file, b"before")

    def half(path: Path, data: bytes) -> int:
        with path.open("wb") as out:
            out.write(data[: len(data) // 2])
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(Path, "write_bytes", half)
    with pytest.raises(Refused, match="could not be written") as fault:
        write(file, b"afterwards")
    assert instead in fault.value.instead
    assert file.read_bytes() == b"before" and list(tmp_path.iterdir()) == [file]
