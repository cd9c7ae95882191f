"""Every word of a bill stands in the table "What each word asks", and what the table says of it is so."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from teardown_app.domain.bill.check import MOMENTS, NEEDS, RULES, VALUES_RULES
from teardown_app.domain.bill.gate import GATES
from teardown_app.domain.bill.limit import COMPARISONS
from teardown_app.domain.bill.line import KINDS
from teardown_app.domain.bill.route import ORIGINS
from teardown_app.domain.bill.units import COUNTING, MEASURED, UNCOUNTED, UNITS
from teardown_app.intake import about, gate_book, headings
from teardown_app.intake.bill import Reading, read_bill
from teardown_app.intake.bill_lines import RENEWALS, SHIPPING, WRITTEN_DOWN
from teardown_app.intake.headings import BILL, CHECK_KEYS, CHECKS, COMPONENTS, LIMIT_KEYS, ROUTES
from teardown_app.intake.joint_words import WORDS
from teardown_app.intake.not_asked import NOT_ASKED
from tests.bill.asked_table import WHERE, Row, asked_rows, kinds_of_points, readers, refuser
from tests.bill.every_word import BILL as EVERY_BILL
from tests.bill.every_word import FILES, every_word
from tests.bill.vain import FAULTS, NOTES, Example
from tests.bill.written import folder, materials

LINES, KIND_WORDS, UNIT_WORDS = "Columns of `bill`", "Kinds", "Units"
CELLS, JOINT, FACTS = "Words of `renew`, `write_down`, `ships`", "Words of `joint`", "Columns of `components`"
CHECK, LIMIT, TIMES = "Keys of `checks`", "Limits, rules, comparisons", "Times and needs of checks"
ROUTE, OTHERS = "Keys of `routes`", "Other files"

KNOWN: dict[str, set[str]] = {
    LINES: set(BILL),
    KIND_WORDS: set(KINDS),
    UNIT_WORDS: set(UNITS),
    CELLS: {*RENEWALS, *WRITTEN_DOWN, *SHIPPING},
    JOINT: set(WORDS),
    FACTS: set(COMPONENTS),
    CHECK: {"name", *CHECK_KEYS},
    LIMIT: {*LIMIT_KEYS, *COMPARISONS, *RULES, *VALUES_RULES},
    TIMES: {*MOMENTS, *GATES, *NEEDS},
    ROUTE: {*ROUTES, *ORIGINS},
    OTHERS: {
        *("gates", *headings.GATES, *gate_book.KEYS, "recipes", *headings.RECIPES, "callouts", *headings.CALLOUTS),
        *("about", *about.KEYS, *headings.ABOUT),
    },
}
"""What the intake itself reads, section by section."""

OF_SHEETS = {"gates", "recipes", "callouts", "about", "key", "value", "name"}
"""Names of tables, and columns that only a workbook has."""

ROWS = [pytest.param(row, id=f"{row.section}: {', '.join(row.words)}"[:60]) for row in asked_rows()]


@pytest.mark.parametrize("section", KNOWN)
def test_the_table_names_every_word_that_the_intake_reads_and_no_other(section: str) -> None:
    named = [word for row in asked_rows() if row.section == section for word in row.words]
    assert set(named) == KNOWN[section]
    assert section == OTHERS or len(named) == len(set(named))


def test_the_table_has_no_other_section() -> None:
    assert {row.section for row in asked_rows()} == set(KNOWN)
    assert set(CHECKS) - {"name"} == {*CHECK_KEYS, *LIMIT_KEYS}


@pytest.fixture(scope="module")
def everything(tmp_path_factory: pytest.TempPathFactory) -> Reading:
    """The bill that uses every word, as the app reads it."""
    return every_word(tmp_path_factory.mktemp("every") / "bill")


def test_a_bill_with_every_word_is_taken_in(everything: Reading) -> None:
    assert everything.faults == []
    text = EVERY_BILL + "\n".join(FILES.values())
    words = {word for words in KNOWN.values() for word in words}
    unused = {word for word in words if not re.search(rf"(?<![\w]){re.escape(word)}(?!\w)", text)}
    assert unused <= OF_SHEETS


@pytest.mark.parametrize("row", ROWS)
def test_a_row_says_where_it_shows(row: Row) -> None:
    assert row.asks
    assert row.left_undone
    assert row.left_undone.keys() <= set(WHERE)
    if "point" in row.left_undone:
        assert set(row.left_undone["point"].split(", ")) <= kinds_of_points()


# a note where it is not asked yet, and nowhere else

NOTED: dict[tuple[str, str], tuple[str, str]] = {
    (LINES, "finish_ra_um"): ("bill", "finish_ra_um"),
    (LINES, "photo"): ("bill", "photo"),
    (LINES, "quantity"): ("bill", "quantity"),
    (LINES, "unit"): ("bill", "unit"),
    **{(UNIT_WORDS, unit): ("bill", "quantity") for unit in MEASURED},
    **{(UNIT_WORDS, unit): ("bill", "unit") for unit in UNCOUNTED},
    **{(FACTS, fact): ("components", fact) for fact in ("lead_days", "maker_number")},
    (CHECK, "needs"): ("checks", "needs"),
    **{(TIMES, need): ("checks", "needs") for need in NEEDS},
    (LIMIT, "picture"): ("checks", "picture"),
    (ROUTE, "outside"): ("routes", "outside"),
    **{(OTHERS, key): ("gates", "assemblies") for key in gate_book.KEYS},
    (OTHERS, "recipes"): ("recipes", "name"),
}
"""Words of the table -> table and word of what is not asked yet."""

AT = {"quantity": "quantity", "picture": "limit", "name": "rinse"}
"""Column of a note, where it is not the word."""


def test_what_is_not_asked_yet_is_noted_and_nothing_else_is(everything: Reading) -> None:
    """Every word of the intake's list is used in that bill, so every one of its notes is there, once."""
    texts = [text for words in NOT_ASKED.values() for text in words.values()]
    found = [note for note in everything.notes if any(note.message.startswith(text) for text in texts)]
    assert sorted(note.column for note in found) == sorted(
        AT.get(word, word) for words in NOT_ASKED.values() for word in words
    )
    assert set(NOTED.values()) == {(table, word) for table, words in NOT_ASKED.items() for word in words}


@pytest.mark.parametrize("row", ROWS)
def test_a_note_in_the_table_is_a_note_at_check_and_the_other_way_round(row: Row) -> None:
    noted = {(row.section, word) for word in row.words} & {*NOTED, *NOTES}
    assert bool(noted) == ("note" in row.left_undone)


FIELDS: dict[tuple[str, str], tuple[str, tuple[str, ...]]] = {
    ("bill", "finish_ra_um"): ("finish_ra_um", ()),
    ("bill", "photo"): ("photo", ("line",)),
    ("bill", "quantity"): ("amount", ()),
    **{("components", fact): (fact, ()) for fact in ("lead_days", "maker_number")},
    ("checks", "needs"): ("needs", ("check",)),
    ("checks", "picture"): ("picture", ("limit",)),
    ("routes", "outside"): ("outside", ()),
    ("gates", "assemblies"): ("assemblies", ()),
    ("recipes", "name"): ("recipes", ("bill",)),
}
"""The field of a frozen bill behind each word that is not asked yet; AR and REF have none."""


@pytest.mark.parametrize("word", FIELDS)
def test_what_is_not_asked_yet_is_read_by_nobody(word: tuple[str, str]) -> None:
    """The change that begins to ask for a word takes its note away, and says so in the document."""
    name, of = FIELDS[word]
    assert readers(name, *of) == [], f"{name} is asked now: take it out of intake/not_asked.py and of this table"


def test_a_field_that_is_read_is_found() -> None:
    """The test above can fail."""
    assert readers("instrument", "check") and readers("hazard", "line") and readers("torque_nm")
    assert not readers("instrument", "line")


def test_every_word_that_is_not_asked_yet_is_looked_at() -> None:
    words = {(table, word) for table, said in NOT_ASKED.items() for word in said}
    assert words - set(FIELDS) == {("bill", "unit")}


# shown or refused: somebody reads the field

SHOWN: dict[tuple[str, str], tuple[str, tuple[str, ...]]] = {
    (LINES, "description"): ("description", ("line",)),
    (LINES, "hazard"): ("hazard", ("line",)),
    (LINES, "write_down"): ("write_down", ("line",)),
    (CELLS, "serial"): ("write_down", ("line",)),
    (JOINT, "size"): ("size", ("joint",)),
    (JOINT, "class"): ("strength_class", ("joint",)),
    (JOINT, "pattern"): ("pattern", ("joint",)),
    (JOINT, "lubricant"): ("lubricant", ("joint",)),
    (CHECK, "says"): ("says", ("check",)),
    (TIMES, "arrival"): ("when", ("asked",)),
    (ROUTE, "says"): ("says", ("operation",)),
    (ROUTE, "medium"): ("medium", ("operation",)),
    (ROUTE, "temperature"): ("temperature", ("operation",)),
    (ROUTE, "time"): ("time", ("operation",)),
    (OTHERS, "callouts"): ("callouts", ("bill",)),
    (OTHERS, "model"): ("model", ("bill",)),
    (OTHERS, "revision"): ("revision", ("bill",)),
}
REFUSED: dict[tuple[str, str], tuple[str, str]] = {
    (LINES, "material"): ("against/work", ".material"),
    (LINES, "write_down"): ("consumable", ".write_down"),
    (CELLS, "lot"): ("consumable", ".write_down"),
    (JOINT, "holds"): ("against/torque", "held_places"),
    (CHECK, "type"): ("reading", "came_out(kind"),
    (CHECK, "given"): ("reading", "whole_fields(kind"),
    (CHECK, "readings"): ("reading", "check.readings"),
    (CHECK, "again"): ("against/reading", "again_h"),
    (ROUTE, "trade"): ("against/work", "operation.trade"),
    (ROUTE, "wait"): ("lacks/release", "waits_open"),
    (ROUTE, "record"): ("operation", "operation.record"),
    (ROUTE, "not_with"): ("against/work", "materials.harm"),
}
"""Words -> the act that refuses, and what it looks at."""


@pytest.mark.parametrize("row", [row for row in ROWS if "shown" in row.values[0].left_undone])
def test_what_is_shown_is_read_somewhere(row: Row) -> None:
    fields = [SHOWN[row.section, word] for word in row.words if (row.section, word) in SHOWN]
    assert fields, "name the field behind one of its words"
    for name, of in fields:
        assert readers(name, *of), name


@pytest.mark.parametrize("row", [row for row in ROWS if "refused" in row.values[0].left_undone])
def test_what_is_refused_is_looked_at_by_an_act(row: Row) -> None:
    acts = [REFUSED[row.section, word] for word in row.words if (row.section, word) in REFUSED]
    assert acts, "name the act that refuses"
    for act, looks_at in acts:
        text = refuser(act)
        assert looks_at in text and ("refuse(" in text or "lack(" in text or "_of(" in text)


# a fault, or a note of its own, where a word asks in vain


@pytest.mark.parametrize("row", [row for row in ROWS if "fault" in row.values[0].left_undone])
def test_a_fault_in_the_table_has_a_bill_that_shows_it(row: Row) -> None:
    assert any((row.section, word) in FAULTS for word in row.words)


def read_example(place: Path, example: Example) -> Reading:
    """A small bill as the app reads it."""
    return read_bill(folder(place / "bill", example.bill, **example.files), materials())


@pytest.mark.parametrize("word", FAULTS, ids=" ".join)
def test_a_word_that_asks_in_vain_is_a_fault(tmp_path: Path, word: tuple[str, str]) -> None:
    reading = read_example(tmp_path, FAULTS[word])
    assert [(one.file, one.row, one.column) for one in reading.faults] == [FAULTS[word].at]
    assert any("fault" in row.left_undone for row in asked_rows() if row.section == word[0] and word[1] in row.words)


@pytest.mark.parametrize("word", NOTES, ids=" ".join)
def test_a_word_that_stops_nothing_is_a_note(tmp_path: Path, word: tuple[str, str]) -> None:
    reading = read_example(tmp_path, NOTES[word])
    assert reading.faults == []
    assert NOTES[word].at in [(one.file, one.row, one.column) for one in reading.notes]


def test_units_of_the_table_are_grouped_as_they_count() -> None:
    grouped = [set(row.words) for row in asked_rows() if row.section == UNIT_WORDS]
    assert grouped == [set(COUNTING), set(MEASURED), set(UNCOUNTED)]
