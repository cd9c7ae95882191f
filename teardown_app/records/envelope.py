"""The envelope: a record as one line of bytes, and back.

Holds the keys of a line, its hash and its checks (`docs/formats/journal-files.md` 2 and 4). What a
body means is no business of this file: unknown kinds pass through.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from hashlib import blake2b
from math import isfinite
from typing import Any, NoReturn

from teardown_app.domain.ledger.harmless import harmless_all
from teardown_app.domain.ledger.record import VERSION, Record
from teardown_app.records.trouble import NotWritable

LINE_BYTES = 65_536
"""Most bytes of a line, its line end included."""

_MARK = b',"h":"'
_KEY_H = b'"h":'
_HASH_DIGITS = 32
_DEEPEST = 50


class BadLine(ValueError):
    """A whole line that is not a record as written; the text says why."""


def _no_number(text: str) -> NoReturn:
    raise BadLine(f"{text} is no number")


_ACTS = re.compile(
    rb"\\[bfnrtu]|\x7f|\xc2[\x80-\x9f]|\xd8\x9c|\xe2\x80[\x8e\x8f\xa8-\xae]|\xe2\x81[\xa6-\xaf]|\xef\xbb\xbf|\xef\xbf[\xb9-\xbb]|\xf3\xa0"
).search
"""Finds in the bytes of a line what may be a sign that acts (`domain/ledger/harmless.py`), or the escape of one."""
_decode = json.JSONDecoder(parse_constant=_no_number).raw_decode
_encode = json.JSONEncoder(ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode


def hash_of(stem: bytes) -> str:
    """BLAKE2b with 16 bytes over the bytes before `,"h":"`, as 32 hexadecimal digits."""
    return blake2b(stem, digest_size=16).hexdigest()


def seal(fields: Mapping[str, Any]) -> bytes:
    """The line, with its line end, of an object that has no `h` yet."""
    try:
        stem = _encode(fields)[:-1].encode()
    except (ValueError, TypeError, RecursionError) as fault:
        raise NotWritable(f"This entry cannot be stored: {fault}. Change the text and save again.") from fault
    return stem + _MARK + hash_of(stem).encode() + b'"}\n'


def unseal(line: bytes) -> dict[str, Any]:
    """The object of a line without its line end, after its hash was found right.

    Raises `BadLine`.
    """
    cut = line.rfind(_MARK)
    if cut < 0:
        raise BadLine("it is not a record")
    end = cut + 6 + _HASH_DIGITS
    if blake2b(line[:cut], digest_size=16).hexdigest().encode() != line[cut + 6 : end]:
        raise BadLine("its check value does not fit its content")
    tail = line[end:]
    if tail != b'"}' and not (tail.startswith(b'","s":"') and tail.endswith(b'"}')):
        raise BadLine("it does not end as a record does")
    if len(line) >= LINE_BYTES:
        raise BadLine(f"it is longer than {LINE_BYTES} bytes")
    if line.count(_KEY_H) != 1:
        raise BadLine("it has more than one check value")
    try:
        text = line.decode()
        fields, stop = _decode(text)
    except (ValueError, RecursionError) as fault:
        raise BadLine(f"it cannot be read ({fault})") from fault
    if stop != len(text) or type(fields) is not dict:
        raise BadLine("there is something behind the record")
    return fields


def parse(line: bytes) -> Record:
    """The record of a line without its line end. Raises `BadLine`."""
    fields = unseal(line)
    if _ACTS(line):  # written by another hand, or by an app that did not look
        fields = harmless_all(fields)
    try:
        if fields["v"] != VERSION:
            return _newer(fields)
        seq, seen, body, ent = fields["seq"], fields["seen"], fields["body"], fields["ent"]
        if type(seq) is not int or seq < 1 or type(body) is not dict or type(ent) is not list:
            raise BadLine("a field is not of its kind")
        if seen:
            seen = {dev: (n + 0, h8 + "") for dev, (n, h8) in seen.items()}
        record = Record(
            fields["v"], fields["dev"], fields["job"], seq, fields["hlc"], fields["wall"], fields["clk"],
            fields["prev"], fields["act"], fields["typ"], tuple(ent), seen, body, fields["h"],
            fields.get("trial") is True, fields.get("s", ""),
        )  # fmt: skip
        "".join((*record[4:7], record.act, record.typ, *record.ent))  # a TypeError where one is no text
        return record
    except KeyError as missing:
        raise BadLine(f"its field {missing} is missing") from missing
    except (TypeError, ValueError, AttributeError) as fault:
        raise BadLine(f"a field is not of its kind ({fault})") from fault


def _newer(fields: dict[str, Any]) -> Record:
    """A record of a newer app: kept with what can be understood of it."""
    if type(fields["v"]) is not int or fields["v"] < VERSION or type(fields["seq"]) is not int:
        raise BadLine(f"{fields['v']!r} is no version of a record")
    blank: dict[str, Any] = {"hlc": "", "wall": "", "clk": "unset", "act": "", "typ": ""}
    blank |= {"ent": [], "seen": {}, "body": {}}
    blank.update((key, fields[key]) for key in blank if type(fields.get(key)) is type(blank[key]))
    seen = {dev: (n + 0, h8 + "") for dev, (n, h8) in blank["seen"].items()}
    return Record(
        fields["v"], fields["dev"], fields["job"], fields["seq"], blank["hlc"], blank["wall"], blank["clk"],
        fields["prev"], blank["act"], blank["typ"], tuple(blank["ent"]), seen, blank["body"], fields["h"],
        fields.get("trial") is True, fields.get("s", ""),
    )  # fmt: skip


def write(fields: Mapping[str, Any], *, trial: bool) -> tuple[bytes, Record]:
    """Line and record of the fields of a record up to `body`, in their order; nothing in them acts on a screen.

    Raises `NotWritable` for a body with a key `h` or `s`, something that is no JSON value, or a
    line that is too long.
    """
    check_body(fields["body"])
    fields = {**fields, "body": harmless_all(fields["body"]), "ent": harmless_all(fields["ent"])}
    line = seal({**fields, "trial": True} if trial else fields)
    if len(line) > LINE_BYTES:
        raise NotWritable(
            f"This entry is {len(line)} bytes long; an entry holds at most {LINE_BYTES}. "
            "Shorten the text, or add it as an attached file."
        )
    return line, _as_parsed(fields, line[-_HASH_DIGITS - 3 : -3].decode(), trial=trial)


def _as_parsed(fields: Mapping[str, Any], h: str, *, trial: bool) -> Record:
    """What `parse` makes of the line; a test holds the two together."""
    seen = {dev: (n, h8) for dev, (n, h8) in fields["seen"].items()}
    return Record(
        fields["v"], fields["dev"], fields["job"], fields["seq"], fields["hlc"], fields["wall"], fields["clk"],
        fields["prev"], fields["act"], fields["typ"], tuple(fields["ent"]), seen, fields["body"], h, trial,
    )  # fmt: skip


def check_body(value: Any, where: str = "body", depth: int = 0) -> None:
    """Raise `NotWritable`, naming the place, unless `value` is JSON that a record may hold."""
    if depth > _DEEPEST:
        raise NotWritable(f"{where}: nested more than {_DEEPEST} deep. Store it as an attached file.")
    if isinstance(value, dict):
        for key, item in value.items():
            _check_key(key, where)
            check_body(item, f"{where}.{key}", depth + 1)
    elif isinstance(value, (list, tuple)):
        for n, item in enumerate(value):
            check_body(item, f"{where}[{n}]", depth + 1)
    elif isinstance(value, float) and not isfinite(value):
        raise NotWritable(f"{where}: {value} is no number. Enter a number, or leave the field empty.")
    elif not (value is None or isinstance(value, (str, int, float))):
        raise NotWritable(f"{where}: {type(value).__name__} cannot be stored; hand it in as text.")


def _check_key(key: Any, where: str) -> None:
    if not isinstance(key, str):
        raise NotWritable(f"{where}: the key {key!r} is not a text; hand it in as text.")
    if key in ("h", "s"):
        raise NotWritable(f"{where}: a key may not be named {key!r}; choose another name.")
