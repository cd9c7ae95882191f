"""Checks, routes and facts that nobody would ever be asked for are faults; what stops nothing is a note."""

from __future__ import annotations

from pathlib import Path

import pytest

from teardown_app.intake.bill import Reading
from tests.bill.written import lines, read, told

HEAD = "position,part_number,quantity,kind,material,route,checks"
LIMIT = 'limit = "max 0.02 mm"'


def check(*said: str) -> str:
    """A check named play that says this."""
    return "\n".join(("[play]", *said, ""))


def checked(place: Path, kind: str, *said: str, **files: str) -> Reading:
    """A line, in row 2, that names the check; the check itself begins at row 1 of its file."""
    return read(place, lines(f"10,A,1,{kind},,,play", head=HEAD), checks=check(*said), **files)


def notes_at(reading: Reading, file: str, row: int, column: str) -> list[str]:
    """Messages of the notes at one place."""
    return [one.message for one in reading.notes if (one.file, one.row, one.column) == (file, row, column)]


@pytest.mark.parametrize("kind", ["hardware", "temporary"])
@pytest.mark.parametrize("when", ["", 'when = ["finished"]', 'when = ["new", "arrival"]', 'when = ["as found"]'])
def test_a_check_whose_moment_never_comes_for_the_kind(tmp_path: Path, kind: str, when: str) -> None:
    reading = checked(tmp_path, kind, *([when] if when else []))
    assert told(reading) == [("bill.csv", 2, "checks")]
    assert "never comes" in reading.faults[0].message


@pytest.mark.parametrize("kind", ["hardware", "temporary", "part", "assembly", "consumable"])
@pytest.mark.parametrize("when", ["fitted", "closed up", "ship"])
def test_a_check_at_the_place_comes_for_every_kind(tmp_path: Path, kind: str, when: str) -> None:
    assert checked(tmp_path, kind, f'when = ["{when}"]').faults == []


@pytest.mark.parametrize("kind", ["part", "assembly", "consumable"])
def test_a_check_of_a_part_or_of_its_place(tmp_path: Path, kind: str) -> None:
    assert checked(tmp_path, kind, 'when = ["finished"]').faults == []


def test_a_moment_among_others_that_never_comes_is_a_note(tmp_path: Path) -> None:
    reading = checked(tmp_path, "hardware", 'when = ["finished", "fitted"]')
    assert reading.faults == []
    assert len(notes_at(reading, "bill.csv", 2, "checks")) == 1


def test_a_moment_that_is_no_word_is_told_once(tmp_path: Path) -> None:
    assert told(checked(tmp_path, "hardware", 'when = ["later"]')) == [("checks.toml", 2, "when")]


def test_a_gate_that_the_bill_does_not_have(tmp_path: Path) -> None:
    reading = checked(tmp_path, "part", LIMIT, 'when = ["fitted", "water on"]', gates="[ship]\n")
    assert told(reading) == [("checks.toml", 3, "when")]
    assert "water on" in reading.faults[0].message
    assert checked(tmp_path / "a", "part", 'when = ["wet check"]', gates='["water on"]\n').faults == []
    assert checked(tmp_path / "b", "part", 'when = ["water on"]').faults == [], "a bill that says no gates has all"


@pytest.mark.parametrize("when", ['["as found"]', '["arrival", "as found"]'])
def test_a_check_that_binds_nothing_is_a_note(tmp_path: Path, when: str) -> None:
    reading = checked(tmp_path, "part", f"when = {when}")
    assert reading.faults == []
    assert len(notes_at(reading, "checks.toml", 2, "when")) == 1


@pytest.mark.parametrize(
    ("said", "is_noted"),
    [
        ('when = ["finished"]', True),
        ('when = ["as found", "finished"]', True),
        ('when = ["finished", "new"]', False),
        ('when = ["fitted"]', False),
        ('when = ["closed up"]', False),
        ('type = "insulation"\nwhen = ["finished"]', False),  # a protective function: of every origin
    ],
)
def test_a_line_of_whose_checks_a_new_part_is_asked_none_is_a_note(tmp_path: Path, said: str, is_noted: bool) -> None:
    reading = checked(tmp_path, "part", said)
    assert reading.faults == []
    assert bool(notes_at(reading, "bill.csv", 2, "checks")) == is_noted


@pytest.mark.parametrize(
    ("said", "key"),
    [
        (['rule = "guarded"'], "rule"),
        (['rule = "four-way"', "limit = { count = 4 }"], "rule"),
        (['values = "16 %"', 'limit = { compare = "saved value" }'], "values"),
        (["readings = 5"], "readings"),
        (['rule = "guarded"', 'values = "16 %"', LIMIT], "rule"),
        (['rule = "four-way"', 'values = "16 %"', LIMIT], "rule"),
    ],
)
def test_what_is_asked_of_numbers_where_there_are_none(tmp_path: Path, said: list[str], key: str) -> None:
    assert told(checked(tmp_path, "part", *said)) == [("checks.toml", 2, key)]


@pytest.mark.parametrize(
    "said",
    [
        ['rule = "guarded"', LIMIT],
        ['rule = "guarded"', 'limit = "20 mm H7"'],
        ['rule = "simple"'],
        ['values = "16 %"', "readings = 7", LIMIT],
        ["readings = 5", 'limit = { compare = "pair", max = "6 ohm" }'],
        ["readings = 5", 'type = "flatness"'],
        ["readings = 5", "limit = { count = 0 }"],
    ],
)
def test_what_is_asked_of_numbers_where_there_are_some(tmp_path: Path, said: list[str]) -> None:
    assert checked(tmp_path, "part", *said).faults == []


@pytest.mark.parametrize(
    "said",
    [
        ['type = "roughness"', 'limit = "max 0.4 um"', 'given = ["limit = 0.6 um"]'],
        ['type = "roughness"', 'limit = "max 0.4 um"', 'given = ["rule = 16 %"]'],
        ['type = "fit"', 'limit = "20 mm H7"', 'given = ["fit = H8"]'],
        ['type = "fit"', 'limit = "20 mm H7"', 'given = ["nominal = 20.01 mm"]'],
    ],
)
def test_what_is_given_beside_a_limit_that_says_something_else(tmp_path: Path, said: list[str]) -> None:
    assert told(checked(tmp_path, "part", *said)) == [("checks.toml", 4, "given")]


@pytest.mark.parametrize(
    "said",
    [
        ['type = "roughness"', 'limit = "max 0.4 um"', 'given = ["limit = 400 nm", "rule = maximum"]'],
        ['type = "roughness"', 'limit = "max 0.4 um"', 'values = "16 %"', 'given = ["rule = 16 % share"]'],
        ['type = "fit"', 'limit = "20 mm H7"', 'given = ["fit = H7", "nominal = 20.0 mm"]'],
    ],
)
def test_what_is_given_beside_a_limit_that_says_the_same(tmp_path: Path, said: list[str]) -> None:
    assert checked(tmp_path, "part", *said).faults == []


@pytest.mark.parametrize(
    ("limit", "is_noted"),
    [('"max 0.5 K"', True), ('"min 0.1 K"', False), ('"0 ±0.5 K"', False), ('{ min = "-1 K", max = "1 K" }', False)],
)
def test_a_deviation_under_a_bare_max_is_noted(tmp_path: Path, limit: str, is_noted: bool) -> None:
    reading = checked(tmp_path, "part", 'type = "pt100"', f"limit = {limit}")
    assert reading.faults == []
    assert any("its size" in one for one in notes_at(reading, "checks.toml", 3, "limit")) == is_noted


def test_a_rule_beside_a_limit_that_is_wrong_is_told_once(tmp_path: Path) -> None:
    reading = checked(tmp_path, "part", 'rule = "guarded"', 'limit = "banana"')
    assert told(reading) == [("checks.toml", 3, "limit")]


def test_a_fit_that_cannot_be_computed_is_a_note(tmp_path: Path) -> None:
    reading = checked(tmp_path, "part", 'limit = "20 in H7"')
    assert reading.faults == []
    assert len(notes_at(reading, "checks.toml", 2, "limit")) == 1


def test_what_no_line_names_is_a_note_and_not_looked_at_further(tmp_path: Path) -> None:
    """A shop may keep one file of checks and routes for many models."""
    routes = '[wash]\n[[wash.operation]]\nid = "wash"\nnot_with = ["moondust"]\n'
    text = check('rule = "guarded"', 'when = ["water on"]', 'outlasts = ["boil"]')
    reading = read(tmp_path, lines("10,A,1,,,,", head=HEAD), checks=text, routes=routes, gates="[ship]\n")
    assert reading.faults == []
    assert len(notes_at(reading, "checks.toml", 1, "name")) == len(notes_at(reading, "routes.toml", 1, "name")) == 1


ROUTES = """
[wash]
[[wash.operation]]
id = "wash"
{said}
[wash-new]
origin = "new"
[[wash-new.operation]]
id = "unpack"
"""


def routed(place: Path, route: str, said: str = "", checks: str = "", text: str = "") -> Reading:
    """A part of steel 1.4404, in row 2, with these routes and checks; the operation begins at row 3 of its file."""
    rows = lines(f"10,A,1,part,1.4404,{route},{checks}", head=HEAD)
    return read(place, rows, routes=ROUTES.format(said=said), checks=text or check('when = ["finished"]'))


def test_a_second_route_for_parts_of_one_origin_is_never_worked(tmp_path: Path) -> None:
    more = ROUTES.format(said="") + '[boil]\n[[boil.operation]]\nid = "boil"\n'
    rows = lines("10,A,1,part,1.4404,wash;boil;wash-new,", "20,B,1,part,1.4404,wash;wash-new,", head=HEAD)
    reading = read(tmp_path, rows, routes=more)
    assert told(reading) == [("bill.csv", 2, "route")]
    assert "boil is never worked" in reading.faults[0].message


def test_a_check_after_an_operation_is_named_by_the_line(tmp_path: Path) -> None:
    reading = routed(tmp_path, "wash", 'check = "play"')
    assert told(reading) == [("bill.csv", 2, "checks")]
    assert "does not name it" in reading.faults[0].message
    assert routed(tmp_path / "b", "wash", 'check = "play"', "play").faults == []


@pytest.mark.parametrize(("when", "is_good"), [("new", False), ("finished", True), ("fitted", True)])
def test_a_check_after_an_operation_is_asked_of_parts_of_the_routes_origin(
    tmp_path: Path, when: str, is_good: bool
) -> None:
    reading = routed(tmp_path, "wash", 'check = "play"', "play", check(f'when = ["{when}"]'))
    assert told(reading) == ([] if is_good else [("bill.csv", 2, "checks")])


@pytest.mark.parametrize("word", ["moondust", "aluminim", "1.44O4", "?"])
def test_a_material_that_an_operation_could_never_meet(tmp_path: Path, word: str) -> None:
    assert told(routed(tmp_path, "wash", f'not_with = ["brass", "{word}"]')) == [("routes.toml", 5, "not_with")]


@pytest.mark.parametrize("word", ["brass", "copper alloy", "elastomer", "plastic", "6061", "EN AW-6082"])
def test_a_material_that_an_operation_could_meet(tmp_path: Path, word: str) -> None:
    assert routed(tmp_path, "wash", f'not_with = ["{word}"]').faults == []


def test_an_operation_that_a_check_outlasts_is_there(tmp_path: Path) -> None:
    reading = routed(tmp_path, "wash", "", "play", check('outlasts = ["wash", "Wash", "unpack"]'))
    assert told(reading) == [("checks.toml", 2, "outlasts")]
    assert "“Wash”" in reading.faults[0].message


def test_routes_that_cannot_be_read_make_no_other_faults(tmp_path: Path) -> None:
    text = check('outlasts = ["wash"]')
    reading = read(tmp_path, lines("10,A,1,part,,wash,play", head=HEAD), checks=text, routes="[wash\n")
    assert [(file, column) for file, _, column in told(reading)] == [("routes.toml", "")]


def test_an_operation_of_another_origin_than_its_route(tmp_path: Path) -> None:
    assert told(routed(tmp_path, "wash", 'origin = "new"')) == [("routes.toml", 5, "origin")]
    assert routed(tmp_path / "b", "wash", 'origin = "as received"').faults == []


COMPONENTS = "part_number,alternates,superseded_by,shelf_life_days\n"


@pytest.mark.parametrize(
    ("row", "is_good"),
    [
        ("SEAL,,,365", True),
        ("SEAL-ALT,,,365", True),
        ("SEAL-NEW,,,365", True),
        ("COVER,,,365", False),
        ("SAEL,,,365", False),
        ("SAEL,,,", True),
    ],
)
def test_a_shelf_life_is_asked_of_consumables(tmp_path: Path, row: str, is_good: bool) -> None:
    """Also of an alternate or a successor; a number that no line takes may be misspelt."""
    rows = lines("10,COVER,1,part,,,", "20,SEAL,1,consumable,,,", head=HEAD)
    other = "" if row.startswith("SEAL,") else "SEAL,SEAL-ALT,SEAL-NEW,\n"
    reading = read(tmp_path, rows, components=f"{COMPONENTS}{other}{row}\n")
    assert told(reading) == ([] if is_good else [("components.csv", 3, "shelf_life_days")])
