"""A record as a line of bytes, and back."""

from __future__ import annotations

import json
import sys
import unicodedata
from hashlib import blake2b
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.domain.ledger.harmless import harmless, harmless_all
from teardown_app.records import envelope
from teardown_app.records.envelope import BadLine, parse, write
from teardown_app.records.trouble import NotWritable

texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=30)
keys = texts.filter(lambda key: key not in ("h", "s"))
scalars = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | texts
values = st.recursive(scalars, lambda v: st.lists(v, max_size=4) | st.dictionaries(keys, v, max_size=4), max_leaves=12)
bodies = st.dictionaries(keys, values, max_size=5)


def fields(**changed: Any) -> dict[str, Any]:
    """A record's fields up to `body`."""
    return {
        "v": 1, "dev": "t7k3m9~0", "job": "J1", "seq": 12, "hlc": "0194ab12cd34-0001",
        "wall": "2026-03-14T09:30:00+01:00", "clk": "ok", "prev": "0" * 32, "act": "P1", "typ": "check_read",
        "ent": ["J1:t7k3m9~0:3:1"], "seen": {"t9~0": [12, "abcdef12"]}, "body": {}, **changed,
    }  # fmt: skip


@given(bodies, st.lists(texts, max_size=4), st.booleans())
def test_a_line_gives_back_what_was_written(body: dict[str, Any], ent: list[str], trial: bool) -> None:
    """Any text, any nesting; also a text that looks like the end of a line."""
    line, record = write(fields(body=body, ent=ent), trial=trial)
    assert line.count(b"\n") == 1 and line.endswith(b'"}\n')
    assert parse(line[:-1]) == record
    assert (record.body, record.ent, record.trial) == (harmless_all(body), tuple(map(harmless, ent)), trial)
    assert record.seen == {"t9~0": (12, "abcdef12")}


def test_a_line_is_hashed_and_ordered_as_the_format_says() -> None:
    """Computed here from the document, not by the code under test."""
    line, record = write(fields(body={"note": 'x","h":"y'}), trial=True)
    stem, _, rest = line.rpartition(b',"h":"')
    assert rest == blake2b(stem, digest_size=16).hexdigest().encode() + b'"}\n' and record.h == rest[:32].decode()
    assert " ".join(json.loads(line)) == "v dev job seq hlc wall clk prev act typ ent seen body trial h"
    assert b'"trial"' not in write(fields(), trial=False)[0]


@pytest.mark.parametrize(
    ("body", "says"),
    [
        ({"h": 1}, "'h'"), ({"a": [{"b": {"s": 1}}]}, r"body\.a\[0\]\.b"), ({"a": float("nan")}, "no number"),
        ({"a": float("inf")}, "no number"), ({"a": {1: 2}}, "not a text"), ({"a": b"x"}, "bytes"),
        ({"a": "\ud800"}, "cannot be stored"), ({"a": "x" * 65_536}, "at most 65536"), ({"a": {3}}, "set"),
    ],
)  # fmt: skip
def test_what_cannot_be_stored_is_refused_with_the_place(body: dict[str, Any], says: str) -> None:
    with pytest.raises(NotWritable, match=says):
        write(fields(body=body), trial=False)


def test_a_line_of_exactly_the_most_bytes_is_written_and_read() -> None:
    room = envelope.LINE_BYTES - len(write(fields(body={"a": ""}), trial=False)[0])
    line, record = write(fields(body={"a": "x" * room}), trial=False)
    assert len(line) == 65_536 and parse(line[:-1]) == record
    with pytest.raises(NotWritable):
        write(fields(body={"a": "x" * (room + 1)}), trial=False)


def test_nested_too_deep_is_refused() -> None:
    body: dict[str, Any] = {}
    for _ in range(60):
        body = {"a": body}
    with pytest.raises(NotWritable, match="deep"):
        write(fields(body=body), trial=False)


@given(st.data())
def test_any_changed_byte_is_noticed(data: st.DataObject) -> None:
    line = write(fields(body={"a": "ä"}), trial=False)[0][:-1]
    at = data.draw(st.integers(0, len(line) - 1))
    other = data.draw(st.integers(0, 255).filter(lambda byte: byte != line[at]))
    with pytest.raises(BadLine):
        parse(line[:at] + bytes([other]) + line[at + 1 :])


@given(st.binary(max_size=200))
def test_foreign_bytes_are_refused_and_nothing_else_happens(junk: bytes) -> None:
    with pytest.raises(BadLine):
        parse(junk)


def sealed(**changed: Any) -> bytes:
    """A line with a right hash, whatever its fields."""
    given = {key: value for key, value in fields(**changed).items() if value is not ...}
    return envelope.seal(given)[:-1]


@pytest.mark.parametrize(
    "changed",
    [
        {"seq": "1"}, {"seq": 0}, {"seq": True}, {"body": []}, {"ent": "x"}, {"ent": [1]}, {"seen": [1]},
        {"typ": 3},
        {"seen": {"a": 1}}, {"seen": {"a": ["x", "y"]}}, {"hlc": ...}, {"v": "1"}, {"v": 0}, {"wall": None},
    ],
)  # fmt: skip
def test_a_line_with_a_right_hash_and_wrong_fields_is_a_bad_line(changed: dict[str, Any]) -> None:
    with pytest.raises(BadLine):
        parse(sealed(**changed))


def test_a_record_of_a_newer_app_is_kept_with_what_can_be_understood() -> None:
    record = parse(sealed(v=2, body="packed", hlc=..., extra=[1]))
    assert (record.v, record.seq, record.typ, record.body, record.hlc) == (2, 12, "check_read", {}, "")


def test_a_signature_stands_behind_the_hash() -> None:
    line = sealed()[:-1] + b',"s":"c2lnbmVk"}'
    assert parse(line).s == "c2lnbmVk"


def acting() -> list[str]:
    """Signs that act, by what the Unicode Character Database (of this Python) says of every one: all controls (Cc), and
    those that change direction (bidirectional classes of UAX 9: embeddings, overrides, isolates, marks)."""
    turns = {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"}
    marks = {"\u200e", "\u200f", "\u061c"}  # UAX 9, 2.6: LRM, RLM, ALM
    every = map(chr, range(sys.maxunicode + 1))
    return [
        one
        for one in every
        if unicodedata.category(one) == "Cc" or unicodedata.bidirectional(one) in turns or one in marks
    ]


@pytest.mark.parametrize("escaped", [False, True], ids=["as UTF-8", "as escapes"])
def test_no_sign_that_acts_comes_in_with_a_line_of_another_hand(escaped: bool) -> None:
    """Every one of them, in a body and in what a record is about, in a line whose check value is right."""
    signs = acting()
    assert len(signs) == 65 + 9 + 3  # 65 of Cc (Unicode, chapter 23.1); the others as counted above
    for sign in signs:
        held = {**fields(body={"note": f"a{sign}b", "deep": [{"x": sign}]}, ent=[f"P{sign}"]), "seen": {}}
        stem = json.dumps(held, ensure_ascii=escaped, separators=(",", ":"))[:-1].encode()
        record = parse(stem + b',"h":"' + blake2b(stem, digest_size=16).hexdigest().encode() + b'"}')
        for text in (record.body["note"], record.body["deep"][0]["x"], record.ent[0]):
            assert sign not in text and text.isprintable(), repr(sign)


def test_no_sign_that_acts_is_written() -> None:
    for sign in acting():
        line, record = write(fields(body={"note": f"a{sign}b"}), trial=False)
        assert sign not in line.decode()[:-1] and record.body["note"] in ("a b", "a\ufffdb")


def test_joiners_accents_and_scripts_stay() -> None:
    """What people write with: Arabic with a joiner, Hebrew, Hindi, combining accents, a no-break space."""
    said = "\u0645\u06cc\u200c\u062e\u0648\u0627\u0647 \u05d0\u05d8\u05dd \u0915\u094d\u200d\u0937 e\u0301 10\u00a0N"
    assert write(fields(body={"note": said}), trial=False)[1].body["note"] == said
