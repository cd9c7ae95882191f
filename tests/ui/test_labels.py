"""The screen of labels: queue, stock, nudge, printer, void, again; after a crash; the codes of the wall sheet."""

from __future__ import annotations

from pathlib import Path
from unittest.mock import Mock

import pytest
from pypdfium2 import PdfDocument

from teardown_app.domain.parts.parts import number_of, parts_of_number
from teardown_app.domain.tags.actions import NUMBERS
from teardown_app.labels.order import Order
from tests.labels.fake_print_service import FakeService, on_path
from tests.patience import WHOLE_RUN_S
from tests.ui.hands import Hand, answer_all, taken_off, through
from tests.ui.shop import reopened


@pytest.fixture
def service(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> FakeService:
    """A print service with the printers bench and office."""
    return on_path(tmp_path, monkeypatch)


def labels(hand: Hand) -> None:
    """Opens the labels."""
    hand.touch("Office")
    hand.touch("Labels")


def queue_one(hand: Hand) -> str:
    """A part whose label came off gets a new number that is printed later; that number."""
    part = taken_off(hand.desk, "10.10")
    hand.desk.go("part", part=part)
    hand.touch("New label, printed later")
    hand.enter("came off")
    assert hand.view.field is None, hand.view.scan.says
    return number_of(hand.desk.job, part)


@pytest.fixture
def working(hand: Hand) -> Hand:
    """A hand with the first job in hand."""
    hand.sign_on("MK")
    hand.row("BRD-25")
    hand.touch("Work on")
    return hand


def test_a_lost_label_is_replaced_queued_and_printed(working: Hand, service: FakeService) -> None:
    """On the tablet: why, new number, queue; then the stock's printer is chosen once, and one touch prints."""
    old = number_of(working.desk.job, taken_off(working.desk, "10.10"))
    new = queue_one(working)
    assert new != old and parts_of_number(working.desk.job, old) == parts_of_number(working.desk.job, new)
    labels(working)
    working.row("Roll, 50 x 25")
    working.touch("Printer")
    through(working)
    assert working.view.field and working.view.field.choices[:2] == ("bench", "office")
    working.enter("bench")
    working.touch("Print 1 label on bench")
    through(working)
    assert "handed to printer bench" in working.view.scan.says
    assert service.taken == Path(working.desk.labels.written).read_bytes()
    assert new in PdfDocument(working.desk.labels.written)[0].get_textpage().get_text_bounded()
    assert working.desk.labels.waiting() == []


def test_a_part_tagged_without_a_roll_queues_its_label(working: Hand) -> None:
    """One touch on the bench; what is taken back does not wait any more."""
    working.touch("Teardown")
    while working.view.main and not working.view.main.says.startswith(("Tag", "Scan a label")):
        working.touch(working.view.main.says)
        answer_all(working)
    working.touch("Label printed later")
    (one,) = working.desk.labels.waiting()
    assert parts_of_number(working.desk.job, one.number) and one.job == working.desk.job_number
    working.take_back()
    assert working.desk.labels.waiting() == []


def test_numbers_of_a_roll_are_nobody_else_s_while_it_is_drawn(working: Hand) -> None:
    """A part tagged meanwhile gets another number."""
    labels(working)
    working.touch("New roll")
    working.enter("parts")
    working.enter("40")
    assert working.desk.slow.says.startswith("Drawing")
    number, _ = working.desk.workshop.new_numbers("P", 1)
    through(working)
    assert number[0] not in "".join(
        page.get_textpage().get_text_bounded() for page in PdfDocument(working.desk.labels.written)
    )


def test_the_queue_survives_a_restart(working: Hand) -> None:
    """What waited waits, what was printed does not come again."""
    first = queue_one(working)
    fresh = Hand(reopened(working.desk))
    assert [one.number for one in fresh.desk.labels.waiting()] == [first]
    fresh.sign_on("MK")
    labels(fresh)
    fresh.touch("Write the queued labels")
    through(fresh)
    again = Hand(reopened(fresh.desk))
    assert again.desk.labels.waiting() == [] == again.desk.labels.perhaps()
    again.desk.slow.close()


def test_a_crash_between_sending_and_recording_is_told(working: Hand, service: FakeService) -> None:
    """The tablet dies while the printer has it: at the next start it says perhaps printed, and asks to look."""
    number = queue_one(working)
    working.desk.labels.printers.choose("a4-40", "bench")
    labels(working)
    working.touch("Print 1 label on bench")
    working.desk.slow._under_way[0].exception(timeout=WHOLE_RUN_S)  # type: ignore[index]
    working.desk.tick()  # drawn: from here on it is sent
    assert working.desk.slow.says.startswith("Sending")
    fresh = Hand(reopened(working.desk))
    assert [one.number for one in fresh.desk.labels.perhaps()] == [number] and fresh.desk.labels.waiting() == []
    fresh.sign_on("MK")
    labels(fresh)
    assert "Look at the printer" in fresh.view.caution
    fresh.touch("They did not")
    assert [one.number for one in fresh.desk.labels.waiting()] == [number]
    fresh.desk.slow.close()


def send_to_one_that_hangs(hand: Hand, service: FakeService) -> None:
    """The one queued label is on its way to a printer that does not answer."""
    service.does("hangs")
    hand.desk.labels.printers.choose("a4-40", "bench")
    labels(hand)
    hand.touch("Print 1 label on bench")
    hand.desk.slow._under_way[0].exception(timeout=WHOLE_RUN_S)  # type: ignore[index]
    hand.desk.tick()


def test_stopping_while_it_is_sent_leaves_it_open(
    working: Hand, service: FakeService, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Stop ends it at once; whether it came out is asked, not guessed."""
    queue_one(working)
    send_to_one_that_hangs(working, service)
    working.touch("Stop")
    assert not working.desk.slow.says and len(working.desk.labels.perhaps()) == 1
    working.touch("They came out")
    assert working.desk.labels.perhaps() == [] == working.desk.labels.waiting()


@pytest.mark.parametrize("does, says, perhaps", [("refuses", "did not take the labels", 0), ("hangs", "perhaps", 1)])
def test_trouble_at_the_printer_is_said(
    working: Hand, service: FakeService, does: str, says: str, perhaps: int
) -> None:
    """Refused: it waits as before. No answer: look at the printer. The window never stands still meanwhile."""
    queue_one(working)
    service.does(does)
    service.is_given_up()
    working.desk.labels.printers.choose("a4-40", "bench")
    labels(working)
    working.touch("Print 1 label on bench")
    assert working.view.main and working.view.main.says == "Stop"
    through(working)
    assert says in working.view.scan.says
    assert (len(working.desk.labels.perhaps()), len(working.desk.labels.waiting())) == (perhaps, 1 - perhaps)


def roll_of_three(hand: Hand) -> None:
    """Asks for three labels for parts."""
    labels(hand)
    hand.touch("New roll")
    hand.enter("parts")
    hand.enter("3")


def test_a_roll_that_comes_to_nothing_waits(working: Hand, monkeypatch: pytest.MonkeyPatch) -> None:
    """Drawing fails, writing fails, or it is stopped: the numbers are named and print with the next touch."""
    desk = working.desk
    for what in ("draw", "send", "stop"):
        with monkeypatch.context() as cut:
            if what != "stop":
                cut.setattr(Order, what, Mock(side_effect=MemoryError))
            roll_of_three(working)
            if what == "stop":
                working.touch("Stop")
            through(working)
        numbers = [one.number for one in desk.labels.waiting()]
        assert len(numbers) == 3
        assert f"numbers {numbers[0]} to {numbers[2]} are issued and in the label queue" in working.view.scan.says
        assert desk.workshop.new_numbers("P", 1)[0][0] not in numbers
        working.touch("Write the queued labels")
        through(working)
        text = PdfDocument(desk.labels.written)[0].get_textpage().get_text_bounded()
        assert desk.labels.waiting() == [] and all(number in text for number in numbers)


def test_a_roll_that_was_perhaps_printed_is_asked_about(working: Hand, service: FakeService) -> None:
    """Stopped while the printer has it: look; what did not come out waits."""
    service.does("hangs")
    working.desk.labels.printers.choose("a4-40", "bench")
    roll_of_three(working)
    working.desk.slow._under_way[0].exception(timeout=WHOLE_RUN_S)  # type: ignore[index]
    working.desk.tick()
    working.touch("Stop")
    assert len(working.desk.labels.perhaps()) == 3 and "at tablet" in working.view.rows[0].sub
    working.touch("They did not")
    assert len(working.desk.labels.waiting()) == 3 and working.view.main.says == "Print 3 labels on bench"


def test_printing_goes_on_whatever_else_is_touched(working: Hand, service: FakeService) -> None:
    """Another slow piece is refused with a sentence, and the code “yes” on the wall does not stop it; “no” does."""
    number = queue_one(working)
    send_to_one_that_hangs(working, service)
    sending = working.desk.slow._under_way
    working.desk.asking.attempt(working.desk.screen.printer)  # type: ignore[attr-defined]
    assert "goes on still" in working.view.scan.says
    working.desk.go("cleaning")
    working.scan(NUMBERS["yes"])
    assert "goes on still" in working.view.scan.says and working.desk.slow._under_way is sending
    working.scan(NUMBERS["no"])
    assert [one.number for one in working.desk.labels.perhaps()] == [number] and not working.desk.slow.says


def test_no_other_paper_slips_in_for_one_that_is_gone(working: Hand) -> None:
    """The stock in use is gone, or the shop's entry of one of our names is wrong: said, and nothing is printed."""
    desk = working.desk
    own = desk.workshop.home.path / "shop" / "label_stock.toml"
    own.parent.mkdir(exist_ok=True)
    own.write_text("[a4-40]\ndots = 1\n")
    fresh = desk.workshop.new_numbers("P", 1)
    for kept, says in (("a4-40", "a4-40 is wrongly described"), ("gone", "no stock 'gone'")):
        desk.labels.use(kept)
        roll_of_three(working)
        assert says in working.view.caution and says in working.view.scan.says
        assert "Touch the stock" in working.view.scan.says
        assert not desk.slow.says and desk.workshop.new_numbers("P", 1) == fresh, "no number is issued for it"
        working.touch("Cancel")
    working.row("Roll, 50 x 25")
    assert "Touch the stock" not in working.view.caution


def test_start_nudge_and_test_page(working: Hand) -> None:
    """The begun sheet, the nudge of this stock on this printer, and the page that shows it."""
    labels(working)
    working.touch("Paper and printer")
    working.touch("Start at")
    working.enter("39")
    working.touch("Nudge")
    working.enter("0,3 mm")
    working.enter("-0.5")
    facts = {one.name: one.says for one in working.view.card.facts}
    assert facts["nudged"] == "+0.3 mm right, -0.5 mm down" and facts["starts at"].startswith("label 39 of 40")
    working.touch("Test page")
    through(working)
    page = working.desk.workshop.home.path / "labels" / "test-page.pdf"
    assert "nudged +0.3 -0.5 mm" in PdfDocument(page)[0].get_textpage().get_text_bounded()
    working.touch("New roll")
    working.enter("parts")
    working.enter("3")
    through(working)
    assert len(PdfDocument(working.desk.labels.written)) == 2, "two on the begun sheet, one on the next"
    facts = {one.name: one.says for one in working.view.card.facts}
    assert "the last sheet has labels from 2 on free" in facts["starts at"]
    working.touch("Nudge")
    working.enter("0.35")
    working.enter("0")
    assert "steps of 0.1 mm" in working.view.scan.says
    working.touch("Cancel")
    for y, name, says in (("-9", "caution", "over the edge of the label"), ("0", "caution", "")):
        working.touch("Nudge")
        working.enter("0")
        working.enter(y)
        assert says in {one.name: one.says for one in working.view.card.facts}.get(name, "")
        assert ("caution" in {one.name for one in working.view.card.facts}) == bool(says)
    working.row("Roll, 25 x 25")
    working.touch("Nudge")
    working.enter("10")
    working.enter("0")
    assert "the code is cut by" in working.view.card.word
    working.touch("New roll")
    working.enter("parts")
    working.enter("3")
    assert "the code is cut by" in working.view.scan.says and working.desk.labels.waiting() == []


def test_a_wrong_entry_of_the_shop_is_shown_and_stops_nothing(working: Hand) -> None:
    """Its row says what; a stock too small says the lengths in the place of its picture."""
    own = working.desk.workshop.home.path / "shop" / "label_stock.toml"
    own.parent.mkdir(exist_ok=True)
    own.write_text("[tiny]\nsays = 'Tiny'\npage_mm = [12, 12]\ndpi = 203\ndots = 4\ntext = 'below'\n[bad]\ndots = 1\n")
    labels(working)
    working.touch("Paper and printer")
    assert working.view.card.photos and Path(working.view.card.photos[0]).is_file()
    working.row("[bad] dots")
    assert "not read reliably" in working.view.scan.says
    working.row("Tiny")
    assert "the code with its quiet zone is" in working.view.card.word and not working.view.card.photos


def test_a_void_label_says_so_when_it_is_scanned(working: Hand) -> None:
    """On the card of nothing and on the bench: never put on a part; the roll goes on after it."""
    desk = working.desk
    labels(working)
    working.touch("Make void")
    working.scan(desk.roll[5])
    working.enter("spoiled in the printer")
    assert f"{desk.roll[5]} is void" in working.view.scan.says
    working.scan(desk.roll[5])
    assert "made void" in working.view.scan.says and "next one" in working.view.scan.says
    working.touch("Teardown")
    working.scan(desk.roll[5])
    assert "made void" in working.view.scan.says and not parts_of_number(desk.job, desk.roll[5])
    working.desk.labels.put_on(desk.roll[4])
    assert desk.labels.next_of_roll(desk.job) == ""


def test_labels_of_places_and_people(working: Hand) -> None:
    """Those without a number get one when asked for; a badge has the code and no name."""
    labels(working)
    for what, said in (("places", "RACK 3-2"), ("people", "TB")):
        working.touch("For places")
        working.enter(what)
        working.enter("give numbers to the rest")
        if what == "people":
            working.pin()
        through(working)
        assert said in PdfDocument(working.desk.labels.written)[0].get_textpage().get_text_bounded()
    assert all(one.number for one in working.desk.workshop.shop.places())


def test_the_cleaning_room_works_by_codes_on_the_wall(working: Hand) -> None:
    """A basket through an operation by scans alone: no empties it; start, pause stops it, start goes on, out. What the
    route wants written down is asked for at the pad; no leaves that question, and what out took goes out again."""
    desk = working.desk
    part = taken_off(desk, "10.10")
    number = number_of(desk.job, part)
    desk.go("cleaning")

    def typs() -> list[str]:
        return [one.typ for one in desk.job.records.values() if one.typ.startswith("operation")]

    working.scan(number)
    assert desk.screen.basket() == [part]  # type: ignore[attr-defined]
    working.scan(NUMBERS["no"])
    assert not desk.screen.basket() and typs() == []  # type: ignore[attr-defined]
    working.scan(number)
    working.scan(NUMBERS["start"])
    assert typs() == ["operation.started"], working.view.scan.says
    working.scan(NUMBERS["pause"])
    assert typs()[-1] == "operation.stopped", working.view.scan.says
    working.scan(number)
    working.scan(NUMBERS["start"])
    working.touch("Empty the basket")
    working.scan(NUMBERS["out"])
    assert working.view.field and desk.screen.basket() == [part]  # type: ignore[attr-defined]
    working.scan(NUMBERS["no"])
    assert working.view.field is None and not desk.screen.basket()  # type: ignore[attr-defined]
    working.scan(number)
    working.scan(NUMBERS["out"])
    assert working.view.field
    working.scan(NUMBERS["no"])
    assert desk.screen.basket() == [part], "a person put it there"  # type: ignore[attr-defined]
    working.scan(NUMBERS["out"])
    working.scan(NUMBERS["yes"])
    assert "is no answer" in working.view.scan.says
    while working.view.field is not None:
        working.enter("40")
    assert typs() == ["operation.started", "operation.stopped", "operation.started", "operation.done"]
    assert not working.desk.screen.basket()  # type: ignore[attr-defined]


def test_yes_no_and_next_do_what_a_touch_does(working: Hand) -> None:
    """yes touches the large button, no empties the basket, next goes round the list; elsewhere they are refused."""
    desk = working.desk
    for key in ("10.10", "10.20"):
        taken_off(desk, key)
    working.scan(NUMBERS["yes"])
    assert "for the cleaning room" in working.view.scan.says
    desk.go("cleaning")
    names = [row.key[2:] for row in working.view.rows if row.key.startswith("= ")]
    seen = []
    for _ in names:
        working.scan(NUMBERS["next"])
        seen.append(desk.screen.state["at"])
    assert sorted(seen) == sorted(names)
    working.scan(NUMBERS["yes"])
    assert desk.screen.basket(), "the large button was: take all"  # type: ignore[attr-defined]
    working.scan(NUMBERS["no"])
    assert not desk.screen.basket()  # type: ignore[attr-defined]
    working.scan("AAB12000AE")
    assert "no action of the wall sheet" in working.view.scan.says
