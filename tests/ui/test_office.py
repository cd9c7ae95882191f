"""The office: jobs from bills, registers, labels, and how the tablet looks."""

from __future__ import annotations

from pathlib import Path

from teardown_app.ui.view import Step
from tests.patience import WHOLE_RUN_S
from tests.ui.hands import Hand, answer_all, at, through


def test_a_broken_bill_opens_no_job_and_a_good_one_does(hand: Hand, tmp_path: Path) -> None:
    """The faults are said with file and row; the work is done off the screen's thread."""
    from shutil import copytree

    samples = Path(__file__).parents[2] / "sample_bills"
    for name in ("faulty", "kbw-60"):
        copytree(samples / name, hand.desk.workshop.home.path / "bills" / name)
    hand.sign_on("MK")
    hand.touch("Office")
    hand.touch("Job from a bill")
    jobs = len(hand.desk.workshop.home.jobs())
    for name, wanted in (("faulty", jobs), ("kbw-60", jobs + 1)):
        hand.row(name)
        for text in ("PO-9001", f"S-{name}", "", ""):
            field = hand.view.field
            assert field
            hand.desk.entered(field.name, text)
        assert hand.view.busy.startswith("Checking the bill") and hand.view.main == Step("Stop", "stop_slow")
        for _ in range(4000):
            hand.desk.tick()
            if not hand.desk.slow.says:
                break
            hand.desk.slow._under_way[0].exception(timeout=WHOLE_RUN_S)  # type: ignore[index]
        assert len(hand.desk.workshop.home.jobs()) == wanted, hand.view.scan.says
        if name == "faulty":
            assert "faults" in hand.view.scan.says and "row" in hand.view.scan.says
            hand.touch("Office")
            hand.touch("Job from a bill")


def test_a_one_person_job_shows_only_what_it_needs(hand: Hand) -> None:
    """No office and no cleaning tab where the bill has no routes."""
    hand.sign_on("MK")
    hand.touch("Office")
    hand.touch("This tablet")
    hand.row("one person")
    assert "Office" in [one.says for one in hand.view.tabs], "the page that is open stays reachable"
    hand.touch("Jobs")
    assert [one.says for one in hand.view.tabs] == ["Jobs", "Teardown", "Assembly", "Open points"]


def test_the_office_registers_and_takes_back(hand: Hand) -> None:
    """A place, a person's rights; what stood before stands again."""
    hand.sign_on("MK")
    shop = hand.desk.workshop.shop
    hand.touch("Office")
    hand.touch("Places")
    hand.touch("Register a place")
    hand.enter("RACK 9")
    assert shop.place("RACK 9")
    hand.take_back()
    assert shop.place("RACK 9") is None
    hand.touch("People")
    hand.row("TB")
    hand.enter("bench lead")
    hand.enter("")
    hand.pin()
    assert "scrap" in shop.people()["TB"].rights
    hand.take_back()
    hand.pin()
    assert shop.people()["TB"].rights == ["record"]
    hand.touch("Register a person")
    hand.enter("nn")
    hand.enter("record")
    hand.enter("")
    hand.pin()
    assert shop.people()["NN"].rights == ["record"]
    hand.take_back()
    hand.pin()
    assert shop.people()["NN"].revoked


def test_labels_are_written_and_read_back(hand: Hand, tmp_path: Path) -> None:
    """A part tagged without a roll queues its label; the sheet that is written reads as that number."""
    from pypdfium2 import PdfDocument

    from teardown_app.intake.still_codes import read_picture

    at(hand, "pump")
    while not (hand.view.main and hand.view.main.says.startswith(("Tag", "Scan a label"))):
        assert hand.view.main
        hand.touch(hand.view.main.says)
        answer_all(hand)
    key = hand.view.main.says.split()[-1]
    hand.desk.open("take off", **{"key": key, "with": "new", "how": "taken off"})
    (queued,) = hand.desk.labels.waiting()
    hand.touch("Office")
    hand.touch("Labels")
    hand.touch("Write the queued labels")
    through(hand)
    assert hand.desk.labels.waiting() == []
    page = PdfDocument(hand.desk.labels.written)[0]
    page.render(scale=4).to_pil().save(tmp_path / "sheet.png")
    assert {one.text for one in read_picture(tmp_path / "sheet.png")} == {queued.number}


def test_a_tool_opened_twice_is_said(hand: Hand) -> None:
    """Same order and serial number: perhaps somebody opened it already."""
    hand.sign_on("MK")
    hand.touch("Office")
    hand.row("brd-25")
    for text in ("PO-7781", "0417-22", "", ""):
        hand.enter(text)
    hand.desk.slow._under_way[0].exception(60)  # type: ignore[index]
    hand.desk.tick()
    assert "is open on the same order and serial number" in hand.view.scan.says


def test_a_day_that_is_none_is_refused_before_the_bill_is_read(hand: Hand) -> None:
    """The other answers stay."""
    hand.sign_on("MK")
    hand.touch("Office")
    hand.row("brd-25")
    for text in ("PO-1", "S-1", "", "soon"):
        hand.enter(text)
    field = hand.view.field
    assert field and field.name == "due" and "no day" in hand.view.scan.says
