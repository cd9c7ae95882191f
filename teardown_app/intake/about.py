"""What a bill says of itself: model, revision, who approved it, which heading means which column."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from attrs import Factory, frozen

from teardown_app.intake.bill_files import WORDS, BillFiles
from teardown_app.intake.faults import Findings, Place
from teardown_app.intake.headings import plain_heading
from teardown_app.intake.sheet import Row, Sheet
from teardown_app.intake.table import Table, known_headings, rows_by_text, understand
from teardown_app.intake.told import Told
from teardown_app.intake.toml_text import TomlText

KEYS = ("model", "revision", "approved_by", "columns")
COLUMN_KEY = "columns."


@frozen
class About:
    """The first page of a bill."""

    model: str = ""
    revision: str = ""
    approved_by: str = ""
    columns: dict[str, str] = Factory(dict)
    """The shop's heading -> our column."""


def about_of_toml(text: TomlText, findings: Findings) -> About:
    """`bill.toml`."""
    told = Told(text.values, lambda key: Place(text.file, text.line(key), key), findings)
    given = text.values.get("columns", {})
    if not isinstance(given, dict):
        told.wrong("columns", 'is not a table; write [columns] and beneath it "Your heading" = "part_number"')
        given = {}
    pairs = (
        (heading, ours, Place(text.file, text.line("columns", heading), heading)) for heading, ours in given.items()
    )
    return _about(told, dict(_columns(pairs, findings)), lambda key: Place(text.file, 1, key))


def about_of_sheet(sheet: Sheet, findings: Findings) -> About:
    """The sheet `about`, with or without its headings `key` and `value`."""
    table = understand(_headed(sheet), WORDS["about"], {}, findings)
    values, places, pairs = _rows(table)
    told = Told(values, lambda key: places.get(key, table.place(key)), findings)
    return _about(told, dict(_columns(iter(pairs), findings)), table.place)


def _headed(sheet: Sheet) -> Sheet:
    first = [str(cell) for cell in sheet.rows[0].cells[:2]] if sheet.rows else []
    if known_headings(WORDS["about"], {})(first) == 2:
        return sheet
    return Sheet(sheet.file, sheet.name, (Row(1, ("key", "value")), *sheet.rows), cut=sheet.cut)


def _rows(table: Table) -> tuple[dict[str, str], dict[str, Place], list[tuple[str, str, Place]]]:
    values: dict[str, str] = {}
    places: dict[str, Place] = {}
    pairs: list[tuple[str, str, Place]] = []
    for name, entry in rows_by_text(table, "key"):
        if name.casefold().startswith(COLUMN_KEY):
            pairs.append((name[len(COLUMN_KEY) :].strip(), entry.text("value"), entry.place("value")))
            continue
        key = name.casefold().replace(" ", "_")
        values[key] = entry.text("value")
        places[key] = entry.place(key)
    return values, places, pairs


def _columns(pairs: Iterator[tuple[str, object, Place]], findings: Findings) -> Iterator[tuple[str, str]]:
    ours = {plain_heading(column): column for words in WORDS.values() for column in words}
    for heading, column, place in pairs:
        known = ours.get(plain_heading(column)) if isinstance(column, str) else None
        if known:
            yield heading, known
        else:
            wanted = ", ".join(WORDS["bill"])
            findings.fault(place, f"“{str(column)[:40]}” is no column of ours; write one of {wanted}")


def _about(told: Told, columns: dict[str, str], start: Callable[[str], Place]) -> About:
    told.note_unknown(KEYS)
    for key in ("model", "revision"):
        if key not in told.values:
            told.findings.fault(start(key), f'{key} is missing; write {key} = "…"')
        elif isinstance(told.values[key], str) and not told.text(key):
            told.wrong(key, "is empty; write it")
    if not told.values.get("approved_by"):
        told.findings.note(start("approved_by"), "approved_by is missing: nobody stands for this bill")
    return About(told.text("model"), told.text("revision"), told.text("approved_by"), columns)


def read_about(files: BillFiles, findings: Findings) -> About:
    """The first page of a bill, from whichever file holds it."""
    text = files.toml("about")
    if text is not None:
        return about_of_toml(text, findings)
    sheet = files.sheet("about")
    if sheet is not None:
        return about_of_sheet(sheet, findings)
    if "about" not in files.broken:
        findings.fault(Place(files.file("about")), files.missing("about"))
    return About()
