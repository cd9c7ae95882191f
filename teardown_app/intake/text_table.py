"""Text tables (.csv) as spreadsheets write them: which letters, which separator, which rows.

Understands no headings; `best_separator` is told how to count those that are known.
"""

from __future__ import annotations

import codecs
import re
from collections.abc import Callable, Iterator
from itertools import islice

from teardown_app.intake.sheet import COLUMNS_MAX, Cell, Row, row_of

SEPARATORS = (";", ",", "\t")
TITLE_ROWS = 20
"""Rows in which the headings are looked for."""

_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
_CONTROLS = re.compile(r"[\x00-\x08\x0e-\x1b\x7f]")
_BLANKS = dict.fromkeys(map(ord, "\u00a0\u2007\u202f\u2009\u2002\u2003\u3000"), " ")
_NOTHING = dict.fromkeys(map(ord, "\u200b\u200c\u200d\u2060\ufeff\u00ad"), None)


class NotText(ValueError):
    """The bytes are no text table; the message says why and what to do."""


def decode(raw: bytes) -> str:
    """Text of a table with `\\n` line ends and plain blanks.

    >>> decode(b"10;Sch\\xfcssel\\r\\n") == decode("10;Schüssel\\n".encode("utf-16"))
    True
    """
    if raw[:4] == b"PK\x03\x04":
        raise NotText("is a workbook and not a text table; rename it to .xlsx or save it as CSV")
    text = _letters(raw)
    if _CONTROLS.search(text):
        raise NotText("is not a text table; save it as CSV")
    return clean(text.replace("\r\n", "\n").replace("\r", "\n"))


def clean(text: str) -> str:
    """Text with plain blanks and without letters that nobody sees."""
    return text if text.isascii() else text.translate(_BLANKS | _NOTHING)


def _letters(raw: bytes) -> str:
    for mark, encoding in _MARKS:
        if raw.startswith(mark):
            return _strictly(raw[len(mark) :], encoding)
    hidden = _utf16_without_mark(raw)
    if hidden:
        return _strictly(raw, hidden)
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError:
        return _strictly(raw, "cp1252")


def _strictly(raw: bytes, encoding: str) -> str:
    try:
        return raw.decode(encoding)
    except UnicodeDecodeError as error:
        raise NotText(f"is not written in {encoding} throughout; save it as CSV in UTF-8") from error


def _utf16_without_mark(raw: bytes) -> str:
    """Every second byte of plain text is 0 in UTF-16."""
    start = raw[:4096]
    half = len(start) // 2
    if half < 4:
        return ""
    if start[1::2].count(0) > half * 0.6:
        return "utf-16-le"
    return "utf-16-be" if start[0::2].count(0) > half * 0.6 else ""


def best_separator(text: str, known: Callable[[list[str]], int]) -> str:
    """The separator that makes most headings known in one of the first rows; else the one with most cells."""
    found = [
        (known(cells), -number, len(cells), -place)
        for place, separator in enumerate(SEPARATORS)
        for number, cells in enumerate(islice(split(text, separator), TITLE_ROWS))
    ]
    return SEPARATORS[-max(found)[3]] if found else ","


def told_separator(text: str) -> str:
    """The separator of a first line `sep=;`, else empty. That line is not shown by a spreadsheet.

    >>> told_separator("sep=;\\nPos;Qty\\n"), told_separator("Pos;Qty\\n")
    (';', '')
    """
    found = re.match(r'"?sep=(.)"?[ ;,\t]*(?:\n|$)', text, re.IGNORECASE)
    return found[1] if found else ""


def numbered(text: str, separator: str) -> Iterator[Row]:
    """Rows that are not empty, numbered as a spreadsheet would."""
    for number, cells in enumerate(split(text, separator), start=1):
        stripped: list[Cell] = [cell.strip() for cell in cells]
        row = row_of(number, stripped)
        if row:
            yield Row(number, row.cells, width=len(cells))


def split(text: str, separator: str) -> Iterator[list[str]]:
    """Cells of every row, empty rows too. A quote that never closes is an ordinary letter.

    >>> list(split('a;"b;1\\n2";3/4"\\n\\nc', ";"))
    [['a', 'b;1\\n2', '3/4"'], [], ['c']]
    """
    if '"' in text:
        yield from _split_quoted(text, separator)
        return
    lines = text.split("\n")
    if lines and not lines[-1]:
        lines.pop()
    for line in lines:
        yield _parted(line, separator) if line else []


def _parted(line: str, separator: str) -> list[str]:
    """Cells of a line without quotes; no more than a bill can have and one."""
    return line.split(separator, COLUMNS_MAX)


def _split_quoted(text: str, separator: str) -> Iterator[list[str]]:
    mark = re.escape(separator)
    cell = re.compile(rf'[ ]*"((?>[^"]*(?:""[^"]*)*))"[ ]*(?={mark}|\n|\Z)|([^{mark}\n]*)')
    last_quote = text.rfind('"')
    place, end, row = 0, len(text), list[str]()
    while place < end:
        found = cell.match(text, place) if place <= last_quote else None
        if found is None:
            yield from _rest(text[place:], separator, row)
            return
        row.append(found[2] if found[1] is None else found[1].replace('""', '"'))
        place = found.end()
        if place < end and text[place] == separator:
            place += 1
            if place == end:
                row.append("")
            continue
        yield [] if row == [""] else row
        row = []
        place += 1
    if row:
        yield row


def _rest(text: str, separator: str, row: list[str]) -> Iterator[list[str]]:
    """What follows the last quote; `row` is the part of its row already read."""
    for line in split(text, separator):
        yield [*row, *(line or ([""] if row else []))]
        row = []
