"""A scanner through another keyboard, and numbers with a slip, at a desk with labels printed ahead."""

from __future__ import annotations

from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import SHOP, Draft
from teardown_app.domain.parts.parts import number_of, parts
from teardown_app.domain.tags.tag import issue
from teardown_app.domain.tags.tag_form import ALPHABET, fits
from teardown_app.ui.keyed import is_scan
from teardown_app.ui.known_here import is_known, looked_at, perhaps
from teardown_app.ui.not_issued import YES
from teardown_app.ui.view import ACCEPT, REJECT, TAG, UNSURE
from tests.labels.test_tag_keyboards import EXCHANGED, slipped
from tests.ui.hands import Hand, answer_tag, to_the_label
from tests.ui.shop import DemoDesk, filled_desk


@pytest.fixture
def desk(tmp_path: Path) -> DemoDesk:
    """A technician on the rinser-dryer, where the next part wants its label."""
    desk = filled_desk(tmp_path / "home")
    hand = Hand(desk)
    to_the_label(hand)
    assert hand.view.field and hand.view.field.kind == TAG
    return desk


def test_a_slip_is_put_right_and_said(desk: DemoDesk) -> None:
    """The label that was printed here answers the question, and the scan line says how it was read."""
    number = answer_tag(desk)
    sent = slipped(number, "us", "fr")
    assert is_scan(desk, sent) and sent != number
    desk.keyed(sent)
    scan = desk.view().scan
    assert [number_of(desk.job, part) for part in parts(desk.job)] == [number]
    assert scan.says.startswith(f"Read as {number}: ") and "signs for digits" in scan.says and scan.mark == ACCEPT
    assert "taken off" in scan.says, "what was done is said too"


def test_what_was_put_right_and_then_refused_says_both(desk: DemoDesk) -> None:
    """A badge that nobody has, sent with shift lock on."""
    number = desk.workshop.new_numbers("W", 1)
    desk.workshop.record([number[1]], "MK")
    desk.keyed(slipped(number[0][0], "us", "us", lock=True))
    scan = desk.view().scan
    assert scan.mark == REJECT and scan.says.startswith("Read as W") and "nobody's badge" in scan.says


def test_a_number_nobody_here_knows_is_compared_with_the_label(desk: DemoDesk) -> None:
    """It stands on the pad; nothing is recorded before OK, and before it is said to be a label of ours."""
    number = issue("P", "ZY3Y", 7, 1)[0][0]
    before = len(desk.job.records)
    desk.keyed(slipped(number, "us", "de"))
    field = desk.view().field
    assert field and field.kind == TAG and field.draft == number and "compare it with the label" in field.fault
    assert len(desk.job.records) == before and desk.view().scan.mark == UNSURE
    desk.entered(field.name, field.draft)
    asked = desk.view().field
    assert asked and "was not issued here" in asked.asks and len(desk.job.records) == before
    desk.entered(asked.name, YES)
    assert [number_of(desk.job, part) for part in parts(desk.job)] == [number]


def test_without_a_question_it_stands_in_the_search(desk: DemoDesk) -> None:
    """And with a question that is no label nothing half-entered is lost."""
    number = issue("P", "ZY3Y", 7, 1)[0][0]
    desk.asking.close()
    desk.keyed(slipped(number, "us", "de"))
    field = desk.view().field
    assert field and field.name == "words" and field.draft == number
    desk.asking.close()
    desk.open("person")
    desk.keyed(slipped(number, "us", "de"))
    assert desk.view().scan.mark == REJECT and desk.asking.entry and desk.asking.entry.form == "person"
    assert not is_scan(desk, slipped(number, "us", "de")), "typed words are left in their field"


def test_right_as_it_stands_but_known_only_otherwise_names_both(desk: DemoDesk) -> None:
    """The tablet knows the one with Y and Z exchanged: neither is taken."""
    series = [issue("P", letters, 0, 500)[0] for letters in ("7YZ3", "Z7Y3", "Y33Z", "ZY99", "AYBZ", "ZZZZ")]
    number = next(one for numbers in series for one in numbers if fits(one.translate(EXCHANGED)))
    shop = desk.workshop.shop
    body = {"letter": "P", "letters": number[1:5], "first": 0, "next": 600, "count": 500}
    desk.workshop.record([Draft(SHOP, "numbers.issued", ("numbers:" + number[1:5],), body)], "MK")
    assert shop.next_counter(number[1:5], "P") == 600
    before = len(desk.job.records)
    desk.keyed(number.translate(EXCHANGED))
    said = desk.view().scan
    assert said.mark == REJECT and number in said.says and number.translate(EXCHANGED) in said.says
    assert len(desk.job.records) == before
    desk.keyed(number)
    assert [number_of(desk.job, part) for part in parts(desk.job)] == [number], "known as it stands: taken"


def test_every_wrong_character_of_a_known_number_is_named_at_its_place(desk: DemoDesk) -> None:
    """The tablet knows its roll: the place is named for almost every slip, and the true number is among them."""
    number = answer_tag(desk)
    first = desk.workshop.shop.next_counter(number[1:5], "P")
    assert is_known(desk, number) and not is_known(desk, issue("P", number[1:5], first, 1)[0][0])
    named = 0
    for place in range(1, 10):
        for other in ALPHABET.replace(number[place], "")[::4]:
            looked = perhaps(desk, number[:place] + other + number[place + 1 :])
            assert looked is None or place in looked.places and number in looked.says
            named += looked is not None
    assert named >= 60, named


def exchanged(number: str) -> str:
    """Two neighbours changed places, so that it does not fit any more."""
    pairs = (number[:n] + number[n + 1] + number[n] + number[n + 2 :] for n in range(1, 9))
    return next(one for one in pairs if one != number and not fits(one))


def test_other_slips_of_a_known_number(desk: DemoDesk) -> None:
    """Neighbours exchanged, one character too few, one too many."""
    number = answer_tag(desk)
    spoilt = {exchanged(number): "characters", number[:8] + number[9:]: "is missing", number[:2] + number[1:]: "is too"}
    for text, says in spoilt.items():
        looked = looked_at(desk, text)
        assert looked and number in looked.says and says in looked.says and looked.places


def test_a_wrong_number_stays_on_the_pad(desk: DemoDesk) -> None:
    """Marked, said on the scan line, nothing recorded; put right, it is entered."""
    number = answer_tag(desk)
    wrong = number[:8] + ("8" if number[8] != "8" else "B") + number[9]
    field = desk.view().field
    assert field
    desk.typed(wrong)
    marked = desk.view().field
    assert marked and marked.draft == wrong and 8 in marked.wrong and number in marked.fault
    desk.entered(field.name, wrong)
    assert desk.view().scan.mark == REJECT and number in desk.view().scan.says
    again = desk.view().field
    assert again and again.draft == wrong and 8 in again.wrong
    desk.typed(number)
    assert desk.view().field and not desk.view().field.fault
    desk.entered(field.name, number)
    assert [number_of(desk.job, part) for part in parts(desk.job)] == [number]


def test_a_searched_number_with_a_slip_names_the_known_one(desk: DemoDesk) -> None:
    """The search lists what it finds, and says which known number was perhaps meant."""
    number = answer_tag(desk)
    desk.asking.close()
    desk.find(exchanged(number))
    assert desk.screen.name == "found" and number in desk.view().scan.says
