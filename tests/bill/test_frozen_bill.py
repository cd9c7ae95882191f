"""A bill as the bytes a job freezes, and back."""

from __future__ import annotations

import json
from decimal import Decimal
from pathlib import Path

import attrs
import pytest

from teardown_app.domain.bill.bill import Bill, Joint
from teardown_app.intake.bill import read_bill
from teardown_app.intake.frozen_bill import NotABill, dump, load
from tests.bill.test_bill_broken import whole
from tests.bill.written import materials


def bill(place: Path) -> Bill:
    """A bill with something in every field."""
    found = read_bill(whole(place), materials()).bill
    assert found is not None
    return found


def test_the_whole_bill_comes_back(tmp_path: Path) -> None:
    frozen = bill(tmp_path)
    again = load(dump(frozen))
    assert again == frozen
    assert list(again.positions) == list(frozen.positions)
    assert list(again.gates) == list(frozen.gates)
    assert again.closes_over("20") == frozen.closes_over("20")


def test_no_sign_that_acts_is_frozen_or_comes_out_of_a_bill_of_another_hand(tmp_path: Path) -> None:
    """A colour for the terminal and a turned number, in a cell and in a frozen bill."""
    acts = "RING\x1b[31m \u202e7-P"
    frozen = bill(tmp_path)
    lines = (attrs.evolve(frozen.lines[0], description=acts), *frozen.lines[1:])
    raw = dump(attrs.evolve(frozen, lines=lines))
    assert raw.decode().isprintable() and load(raw).lines[0].description == "RING\ufffd[31m \ufffd7-P"
    held = json.loads(raw)
    held["bill"]["lines"][0]["description"] = acts
    assert load(json.dumps(held).encode()) == load(raw)


def test_the_same_bill_gives_the_same_bytes(tmp_path: Path) -> None:
    assert dump(bill(tmp_path / "a")) == dump(bill(tmp_path / "b"))
    assert dump(load(dump(bill(tmp_path / "a")))) == dump(bill(tmp_path / "a"))


def test_the_bytes_are_plain_json_in_one_line(tmp_path: Path) -> None:
    raw = dump(bill(tmp_path))
    assert b"\n" not in raw
    assert json.loads(raw)["bill"]["lines"][0]["part_number"] == "A"


def test_the_tolerance_of_a_joint_comes_back(tmp_path: Path) -> None:
    frozen = bill(tmp_path)
    joint = attrs.evolve(frozen.lines[2].joint or Joint(), tolerance_percent=Decimal("2.5"))
    lines = (*frozen.lines[:2], attrs.evolve(frozen.lines[2], joint=joint), *frozen.lines[3:])
    assert load(dump(attrs.evolve(frozen, lines=lines))).lines[2].joint == joint


def test_a_bill_frozen_before_there_was_a_tolerance_gets_what_an_empty_cell_gets(tmp_path: Path) -> None:
    frozen = bill(tmp_path)
    held = json.loads(dump(frozen))
    del held["bill"]["lines"][2]["joint"]["tolerance_percent"]
    assert load(json.dumps(held).encode()) == frozen
    del held["bill"]["lines"][2]["joint"]["size"]
    with pytest.raises(NotABill, match="Joint lacks or does not know size"):
        load(json.dumps(held).encode())


@pytest.mark.parametrize(
    "raw",
    [
        b"",
        b"{}",
        b"[]",
        b"\xff",
        b'{"format":"bill 1"}',
        b'{"format":"bill 1","bill":{"model":1}}',
        b'{"format":"bill 9","bill":{}}',
    ],
)
def test_other_bytes_are_refused(raw: bytes) -> None:
    with pytest.raises(NotABill):
        load(raw)
