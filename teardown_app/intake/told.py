"""What one table of a TOML file, or one row of a sheet, says: values by key, wrong ones told in place."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from decimal import Decimal
from typing import Any

from attrs import frozen

from teardown_app.intake.faults import Findings, Place
from teardown_app.intake.numbers import read_number
from teardown_app.intake.sheet import as_text
from teardown_app.intake.table import EMPTY, Entry, Table
from teardown_app.intake.toml_text import TomlText

NO = frozenset({"no", "n", "false", "nein", "falsch", "0", ""})


@frozen
class Told:
    """Values by key, and where each stands."""

    values: dict[str, Any]
    place: Callable[[str], Place]
    findings: Findings
    mark: str = ""
    """The decimal mark that other numbers of the file settled."""

    def text(self, key: str) -> str:
        """A word or sentence; a number is taken as written."""
        value = self.values.get(key, "")
        if isinstance(value, bool) or not isinstance(value, str | int | Decimal):
            self.wrong(key, "is not a text; write it in quotes")
            return ""
        text = value.strip() if isinstance(value, str) else str(value)
        return "" if text in EMPTY else text

    def many(self, key: str) -> tuple[str, ...]:
        """A list of texts, or one text with `;` between."""
        value = self.values.get(key, "")
        parts = (
            value
            if isinstance(value, list)
            else str(value).split(";")
            if isinstance(value, str | int | Decimal)
            else None
        )
        if parts is None or isinstance(value, bool) or not all(isinstance(part, str | int | Decimal) for part in parts):
            self.wrong(key, 'is not a list of texts; write ["one", "two"]')
            return ()
        return tuple(dict.fromkeys(text for text in (str(part).strip() for part in parts) if text not in EMPTY))

    def choice(self, key: str, words: tuple[str, ...], empty: str = "") -> str:
        """One of these words."""
        text = self.text(key)
        return self._chosen(key, text, words) if text else empty

    def choices(self, key: str, words: tuple[str, ...]) -> tuple[str, ...]:
        """Some of these words."""
        found = (self._chosen(key, text, words) for text in self.many(key))
        return tuple(dict.fromkeys(each for each in found if each))

    def whole(self, key: str, empty: int | None, least: int) -> int | None:
        """A whole number of at least `least`."""
        value = self.values.get(key, "")
        text = value.strip() if isinstance(value, str) else value
        if isinstance(text, str) and text in EMPTY:
            return empty
        number = self._number(text)
        if number is None or number != number.to_integral_value() or number < least:
            self.wrong(key, f"“{str(value)[:40]}” is not a whole number of {least} or more")
            return empty
        return int(number)

    def hours(self, key: str) -> Decimal | None:
        """Hours, 0 or more, with or without `h` behind."""
        value = self.values.get(key, "")
        text = re.sub(r"\s*(h|hours?|std\.?|stunden?)$", "", value.strip()) if isinstance(value, str) else value
        if isinstance(text, str) and text in EMPTY:
            return None
        number = self._number(text)
        if number is None or number < 0:
            self.wrong(key, f"“{str(value)[:40]}” is not a number of hours, 0 or more")
            return None
        return number

    def is_yes(self, key: str) -> bool:
        """True or yes; a text of another kind (who does it) counts as yes."""
        value = self.values.get(key, "")
        if not isinstance(value, str | int | Decimal):
            self.wrong(key, "is neither true nor false")
            return False
        return as_text(value if isinstance(value, str) else Decimal(value)).strip().casefold() not in NO

    def wrong(self, key: str, message: str) -> None:
        """Tell a wrong value at its place."""
        self.findings.fault(self.place(key), f"{key} {message}")

    def note_unknown(self, known: tuple[str, ...]) -> None:
        """Unknown keys are notes."""
        for key in self.values:
            if key not in known:
                self.findings.note(self.place(key), f"“{key}” is not known and not read")

    def _number(self, value: Any) -> Decimal | None:
        if isinstance(value, bool) or not isinstance(value, str | int | Decimal):
            return None
        number = read_number(value, self.mark).value if isinstance(value, str) else Decimal(value)
        return number if number is not None and number.is_finite() and abs(number) < 10**12 else None

    def _chosen(self, key: str, text: str, words: tuple[str, ...]) -> str:
        word = spaced(text)
        for each in words:
            if word == spaced(each):
                return each
        self.wrong(key, f"“{text[:40]}” is not known; write one of {', '.join(words)}")
        return ""


def spaced(text: str) -> str:
    """A word without case, with blanks for dashes and underlines.

    >>> spaced("Closed_Up"), spaced("four-way")
    ('closed up', 'four way')
    """
    return " ".join(re.split(r"[\s_-]+", text.strip().casefold()))


def told_tables(text: TomlText, what: str, findings: Findings) -> Iterator[tuple[str, Told]]:
    """Every `[name]` of a file."""
    for name, values in text.values.items():
        if isinstance(values, dict):
            yield name, Told(values, _toml_place(text, name), findings)
        else:
            place = Place(text.file, text.line(name), name)
            findings.fault(place, f"“{name}” stands outside any {what}; put it beneath a [name of the {what}]")


def told_list(text: TomlText, name: str, key: str, findings: Findings) -> Iterator[Told]:
    """Every `[[name.key]]` of a file."""
    values = text.values[name].get(key, [])
    if not isinstance(values, list):
        findings.fault(Place(text.file, text.line(name, key), key), f"{key} is not a list; write [[{name}.{key}]]")
        return
    for number, each in enumerate(values):
        if isinstance(each, dict):
            yield Told(each, _toml_place(text, name, key, number), findings)
        else:
            findings.fault(Place(text.file, text.line(name, key), key), f"{key} holds something that is no table")


def _toml_place(text: TomlText, *path: str | int) -> Callable[[str], Place]:
    return lambda key: Place(text.file, text.line(*path, key), key)


def told_row(entry: Entry, columns: tuple[str, ...], findings: Findings) -> Told:
    """A row of a sheet; its empty cells say nothing."""
    values = {column: entry.cell(column) for column in columns if entry.text(column)}
    return Told(dict(values), entry.place, findings)


def first_of_name(table: Table, findings: Findings) -> Iterator[tuple[str, Entry]]:
    """Rows with a name, each name once."""
    seen: dict[str, int] = {}
    for entry in table.entries:
        name = entry.text("name")
        if not name:
            findings.fault(entry.place("name"), "name is empty; every row needs one")
        elif name in seen:
            findings.fault(entry.place("name"), f"“{name[:60]}” stands in row {seen[name]} already")
        else:
            seen[name] = entry.row.number
            yield name, entry
