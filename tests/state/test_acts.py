"""The table of acts of the document is the table of the code, row by row; which records fall under which row."""

from __future__ import annotations

import re

import pytest

from teardown_app.domain.ledger import acts
from teardown_app.domain.ledger.acts import ROWS, Row, asks, right_for, rights_to_take_back, rows
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import Record
from tests.open_points import naive_acts
from tests.open_points.worlds import fixed
from tests.state.records_tables import DOCUMENT

RIGHTS = {
    "concede; of *to be accepted* also its second right": "concede",
    "record; to replace a graver one release, scrap to leave *scrap*": "record",
    "record; office with `added` below zero": "record",
    "record; release with `early`": "record",
}
TAKEN_BACK = {
    "asks; a protective one: release and a reference": acts.ASKS,
    "same; a taking out, until accepted": acts.SAME,
    "asks, of added above zero; put in: a taking out, until accepted": acts.SAME,
}
ACCEPTS = {
    "-": "",
    "release; office for owner, borrowed": "release",
    "office, where `covered`": "office",
    "release, over a graver one in one state": "release",
    "release, once for two *done*": "release",
    "office, for `came_with`": "office",
    "release, a lower count or another bag": "release",
    "release, *repaired* or another number than its line's": "release",
    "release, another number than its line's": "release",
}
"""What the document says with a condition -> the word; conditions are tried below, or asked of more than the record."""

TELL_APART = {
    "job.amended": ({"options": []}, {"order": "A1", "name": "", "serial": "7", "due": ""}, {"rules": 2}, {"why": "x"}),
    "configuration.received": ({"as": "received complete"}, {"as": "received short"}, {"as": "not on this tool"}),
    "disposition.given": ({"as": "scrap"}, {"as": "spare"}),
    "check.read": ({"verdict": "accept"}, {"verdict": "reject"}, {"verdict": "inconclusive"}),
    "part.noted": ({"number": "P1"}, {"place": "RACK 1"}, {"note": "x"}, {"part_number": "1", "set_mark": "I"},
                   {"out_of": "10", "origin": "new"}, {"condition": "worn"}, {"written": {}}, {"meant_for": "10"},
                   {"owner": "customer"}, {}),
    "hardware.moved": ({"put_in": -1}, {"put_in": 1}, {"put_in": 0}, {"added": 0}, {"added": -1}, {"added": 2},
                       {"scrapped": 1, "why": "bent"}, {"left_over": 1, "why": "x"}, {"lost": 1, "search": "tray"},
                       {"found_short": 1, "search": "tray"}, {"added": -1, "put_in": -1}, {"scrapped": 0}),
    "joint.torqued": ({}, {"early": "hot"}, {"early": ""}),
    "point.conceded": ({"key": "missing|10|"}, {"key": "to be accepted|10|J:t1~0:3:aa"}),
}  # fmt: skip
"""Bodies of each kind whose records are not all one act: each condition of the table met, and not met."""


def written() -> list[list[str]]:
    """Rows of the table in the document."""
    found = re.search(r"<!-- acts -->\n(.*?)<!-- /acts -->", DOCUMENT.read_text(encoding="utf-8"), re.DOTALL)
    assert found
    lines = found[1].strip().splitlines()[2:]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]


def kinds_named(cell: str) -> set[str]:
    """Kinds that the column *record* names; `label.*` are all of these."""
    named = set(re.findall(r"\b[a-z]+\.[a-z_]+", cell))
    return named | ({typ for typ in KINDS if typ.startswith("label.")} if "label.*" in cell else set())


@pytest.mark.parametrize(("row", "cells"), list(zip(ROWS, written(), strict=True)), ids=[row.act for row in ROWS])
def test_a_row_says_what_the_document_says(row: Row, cells: list[str]) -> None:
    act, record, right, taken_back, accepts = cells[:5]
    assert row.act == act
    assert set(row.of) == kinds_named(record)
    assert row.right == RIGHTS.get(right, right)
    assert row.taken_back == TAKEN_BACK.get(taken_back, taken_back)
    assert row.accepts == ACCEPTS.get(accepts, accepts)


def test_rights_with_a_condition_are_those_of_the_document() -> None:
    conditions = [cells[0] for cells in written() if cells[2] in RIGHTS]
    computed = [row.act for row in ROWS if row.instead] + ["other disposition"]
    assert sorted(conditions) == sorted(computed), "what replaces a graver disposition is a rule of merging"


def record(typ: str, **body: object) -> Record:
    """A record of a kind."""
    return Record(1, "t1~0", "J", 1, "", "", "ok", "", "AA", typ, ("@10",), {}, dict(body), "aa")


def bodies() -> list[Record]:
    """A record of every kind, of some several."""
    return [record(typ, **body) for typ in KINDS for body in TELL_APART.get(typ, ({},))]


def twins_say(one: Record) -> tuple[object, ...]:
    """What the naive table, written from the document alone, says of a record."""
    back = None if one.typ == "record.voided" else naive_acts.of_taking_back(one)
    return set(naive_acts.of_making(one)), back if back is None else set(back), naive_acts.asks(one)


def ours_say(one: Record) -> tuple[object, ...]:
    """The same from the table of the code."""
    back = rights_to_take_back(one)
    return set(right_for(one)), back if back is None else set(back), asks(one)


@pytest.mark.parametrize("one", bodies(), ids=lambda one: f"{one.typ} {one.body}")
def test_an_act_needs_what_the_naive_table_says(one: Record) -> None:
    assert ours_say(one) == twins_say(one)


def test_records_of_random_worlds_too() -> None:
    for seed in range(40):
        for one in (*fixed(seed).shop, *fixed(seed).job):
            if one.typ in KINDS:
                assert ours_say(one) == twins_say(one), one


def test_every_kind_is_in_the_table_and_every_right_is_its_own() -> None:
    """The right of a kind is the one of its rows."""
    assert {typ for row in ROWS for typ in row.of} == set(KINDS)
    for typ, kind in KINDS.items():
        named = {row.right for row in ROWS if typ in row.of} - {acts.ANYBODY, acts.AS_TARGET, "scrap"}
        assert named <= {kind.right}, typ


def test_the_right_of_who_takes_a_note_back_that_said_something_else_than_borrowed() -> None:
    """records.md, "noted owner or borrowed, said otherwise": office, where the origin was *borrowed*."""
    noted = record("part.noted", origin="new")
    assert rights_to_take_back(noted, was_borrowed=True) == (("office",), ("record",))
    assert rights_to_take_back(noted) == (("record",),)
    assert rights_to_take_back(record("part.noted", condition="worn"), was_borrowed=True) == (("record",),)


def test_an_act_that_no_row_names_is_taken_back_with_the_right_of_its_kind() -> None:
    nothing = record("hardware.moved", put_in=0)
    assert rows(nothing) == []
    assert right_for(nothing) == (("record",),)
    assert rights_to_take_back(nothing) == (("record",),)
