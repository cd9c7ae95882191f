"""One measurement as a file gives it: JSON and the forms of CSV, units, and junk that is refused by its place."""

from __future__ import annotations

import json
import math
from typing import Any

import pytest

from teardown_app.domain.measure.measuring import Outcome, fields_of, measure
from teardown_app.intake.measured import read_measured
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import CHOICE, NUMBER, NUMBERS, TABLE, TEXT
from teardown_app.metrology.kinds import all_kinds

KINDS = all_kinds()
near = pytest.approx


def read(kind: str, text: str | bytes) -> dict[str, Any]:
    """Fields of a file."""
    return read_measured(KINDS[kind], text if isinstance(text, bytes) else text.encode())


def of_json(kind: str, given: Any) -> Outcome:
    """What comes of fields written as JSON."""
    return measure(KINDS[kind], read(kind, json.dumps(given)))


BEFORE_AFTER = {"as_found": [0.82, 0.76], "as_left": [0.4, 0.3]}
FORMS: dict[str, str | bytes] = {
    "comma": "as_found,as_left\n0.82,0.4\n0.76,0.3\n",
    "semicolon and decimal comma": "as_found;as_left\n0,82;0,4\n0,76;0,3\n",
    "tab and decimal comma": "as_found\tas_left\n0,82\t0,4\n0,76\t0,3\n",
    "units in brackets": "As found (um);As left [nm]\n0,82;400\n0,76;300\n",
    "unit after a stroke": "as_found/µm;as_left / mm\n0,82;0,0004\n0,76;0,0003\n",
    "units in cells": "as_found;as_left\n820 nm;0,4 µm\n0,00076 mm;0,3\n",
    "no headings": "0,82;0,4\n0,76;0,3\n",
    "other columns": "no;as_left;as_found;by\n1;0,4;0,82;AB\n2;0,3;0,76;AB\n",
    "a column of words after the first": "as_found;by;as_left\n0,82;AB;0,4\n0,76;CD;0,3\n",
    "byte order mark": "\ufeffas_found;as_left\r\n0,82;0,4\r\n0,76;0,3\r\n",
    "UTF-16": "as_found;as_left\n0,82;0,4\n0,76;0,3\n".encode("utf-16"),
    "UTF-16 without mark": "as_found;as_left\n0,82;0,4\n0,76;0,3\n".encode("utf-16-le"),
    "told separator": "sep=;\nas_found;as_left\n0,82;0,4\n0,76;0,3\n",
    "empty lines": "\n\nas_found;as_left\n\n0,82;0,4\n;\n0,76;0,3\n\n",
    "rows of field and value": "as_found;0,82;0,76\nas_left;0,4 0,3\n",
    "field, value and unit": "field;value\nas_found (nm)\u00a0;\nas_found;0,82 um;0,76\nas_left;0,4;0,3\n",
    "comment lines": "# as_found: 0,82; 760 nm\n# as_left = 0.4 0.3\n# operator: AB\n",
    "JSON": '{"as_found": [0.82, "0,76 um"], "as_left": "400 nm; 0,3"}',
    "JSON with mark": '\ufeff{"as_found": [0.82, 0.76], "as_left": [0.4, 0.3]}',
}  # fmt: skip


@pytest.mark.parametrize("form", FORMS)
def test_every_form_gives_the_same_fields(form: str) -> None:
    found = read("roughness-before-after", FORMS[form])
    assert set(found) == set(BEFORE_AFTER)
    assert all(found[name] == near(theirs, rel=1e-15) for name, theirs in BEFORE_AFTER.items())


@pytest.mark.parametrize(("kind", "text", "given"), [
    ("bonding", "voltage (mV);850\ncurrent;10 A\nlimit_max;0,1 ohm\n",
     {"voltage": 0.85, "current": 10, "limit_max": 0.1}),
    ("bonding", "voltage;850;mV\ncurrent;10;A\nlead_resistance;\n", {"voltage": 0.85, "current": 10}),
    ("bonding", "# limit_max (mohm): 100\n# rule: guarded\n# voltage: 850 mV\n# current = 10\n",
     {"limit_max": 0.1, "rule": "guarded", "voltage": 0.85, "current": 10}),
    ("pt100", "resistance,138.51\nreference,22.5 degC\n", {"resistance": 138.51, "reference": 22.5}),
    ("pt100", "resistance;138,51\nreference;22,5 °C\ntolerance_class;A\n",
     {"resistance": 138.51, "reference": 22.5, "tolerance_class": "A"}),
    ("roughness", "# limit: 0,4 um\nplaces;readings\nA;0,35\nB;0,41\n",
     {"limit": 0.4, "readings": [0.35, 0.41], "places": "A, B"}),
    ("roughness", "0,35\n0,38\n1\n", {"readings": [0.35, 0.38, 1]}),
    ("roughness", "readings (um)\n0,35\n0,38\n", {"readings": [0.35, 0.38]}),
    ("roughness", "readings,1,2\nlimit,4\n", {"readings": [1, 2], "limit": 4}),
    ("flatness", "x (cm);y (mm);z (um)\n0;0;0\n10;0;30\n0;100;0\n",
     {"points": [[0, 0, 0], [100, 0, 0.03], [0, 100, 0]]}),
    ("flatness", "0\t0\t0\n1\t0\t0,5\n", {"points": [[0, 0, 0], [1, 0, 0.5]]}),
    ("flatness-grid", "# pitch_x: 5 cm\n# pitch_y: 50\n0;0,004\n-0,005;0,02\n",
     {"pitch_x": 50, "pitch_y": 50, "heights": [[0, 0.004], [-0.005, 0.02]]}),
    ("runout", "readings (um)\n50\n0\n30\n", {"readings": [0.05, 0, 0.03]}),
    ("runout", "0.05\n0\n0.03\n", {"readings": [0.05, 0, 0.03]}),
    ("runout", "0.05;0;0.03\n0.06;0;0.02\n", {"sections": [[0.05, 0, 0.03], [0.06, 0, 0.02]]}),
    ("roundness", "radii (cm)\n2.5\n2.6\n2.7\n", {"radii": [25, 26, 27]}),
    ("roundness", "x;y\n25;0\n0;25\n-25;0\n", {"points": [[25, 0], [0, 25], [-25, 0]]}),
    ("fit", "nominal;20\nfit;H7/g6\n", {"nominal": 20, "fit": "H7/g6"}),
    ("roughness-trace", "\ufeff# cut_off: 0,08\n# limit_max: 300 nm\nx (mm);z (um)\n0;1,5\n0,0005;1,6\n",
     {"cut_off": 0.08, "limit_max": 0.3, "step": 0.0005, "heights": [1.5, 1.6]}),
])  # fmt: skip
def test_fields_of_tables(kind: str, text: str, given: dict[str, Any]) -> None:
    found = read(kind, text)
    assert set(found) == set(given)
    for name, theirs in given.items():
        rows = isinstance(theirs, list) and isinstance(theirs[0], list)
        for ours, row in zip(found[name], theirs, strict=True) if rows else [(found[name], theirs)]:
            assert ours == (row if isinstance(row, str) else near(row, rel=1e-15))


@pytest.mark.parametrize(("kind", "text", "field", "value"), [
    ("roughness", "readings (kg)\n0,35\n", "readings (kg)", "kg"),
    ("roughness", "Ra;where\n0,35;A\n", "headings", "ra"),
    ("roughness", "readings;readings\n1;2\n", "headings", "twice"),
    ("roughness", "readings,limit\n0.35,0.4\n", "heading limit", "column"),
    ("roughness", "readings\n0.35\nabout 3\n", "row 3", "about 3"),
    ("roughness", "readings\n0.35\n1,234.5\n", "row 3", "1"),
    ("roughness-before-after", "as_found;as_left\n0,82;0,4\n0,76;\n", "row 3, as_left", "empty"),
    ("roughness-before-after", "0,82\n0,76\n", "row 1", "0,82"),
    ("flatness", "x,y\n1,2\n", "headings", "x, y"),
    ("flatness-grid", "a;0,004\n-0,005;0,02\n", "row 1", "a"),
    ("bonding", "1;2\n3;4\n", "file", "table"),
    ("bonding", "voltage,0,85\ncurrent,10\n", "voltage", "0 85"),
    ("bonding", "voltage;0,85\ncurent;10\n", "curent", "10"),
    ("bonding", "voltage;0,85\ncurrent;10 degC\n", "current", "10 C"),
    ("pt100", "resistance;72 degF\n", "resistance", "72"),
    ("roughness", '{"readings": [0.1], "readings": [0.2]}', "readings", "twice"),
    ("roughness-trace", "# cut_off: 0.8\nz (um)\n1\n2\n", "file", "no trace"),
])  # fmt: skip
def test_what_is_not_clear_is_refused(kind: str, text: str, field: str, value: str) -> None:
    with pytest.raises(BadInput) as told:
        read(kind, text)
    assert field in told.value.field and value in str(told.value.value) and told.value.allowed


JUNK: dict[str, list[Any]] = {
    NUMBER: ["", "abc", "1 parsec", "1e999", True, [], [1.0], {"a": 1}, math.nan, math.inf, -math.inf, 1e308, -1e308,
             1e-320, 10**400],
    NUMBERS: ["abc", 5, {}, [None], ["x"], [True], [[1, [2]]], [math.nan, 1, 1], [1e308] * 12, [1, 10**400]],
    TABLE: ["abc", 5, {}, [None], [1, 2, 3], [["x"]], [[1, [2]]], [[1e308, 0, 1e308]] * 4, [[math.inf] * 3] * 3],
    CHOICE: ["nothing", 7, ["simple"], {}],
    TEXT: [7, True, [], {}],
}  # fmt: skip


@pytest.mark.parametrize("name", KINDS)
def test_junk_in_any_field_is_refused_by_its_name(name: str) -> None:
    for field in fields_of(KINDS[name]):
        for junk in JUNK[field.form] + [[]] * (field.form in (NUMBERS, TABLE) and not field.optional):
            with pytest.raises(BadInput) as told:
                of_json(name, {**KINDS[name].example, field.name: junk})
            assert told.value.field.partition(",")[0] == field.name and told.value.allowed, junk
            assert len(str(told.value)) < 2000


@pytest.mark.parametrize("name", KINDS)
def test_a_field_that_is_needed_and_one_that_is_unknown_are_named(name: str) -> None:
    example = dict(KINDS[name].example)
    needed = [field.name for field in fields_of(KINDS[name]) if field.default is None and not field.optional]
    for one in (*needed, "colour"):
        with pytest.raises(BadInput) as told:
            of_json(name, {**example, one: "red"} if one == "colour" else {**example, one: None})
        assert (told.value.field, told.value.value) == (one, "red" if one == "colour" else "missing")
        assert told.value.allowed


HARD = (0, -1, 1, 1e40, -1e40, 1e-40, 5, 1e6)
"""Allowed in size; a formula may still refuse them, or has to give finite numbers."""


@pytest.mark.parametrize("name", KINDS)
def test_extremes_are_refused_or_give_finite_numbers(name: str) -> None:
    for field in fields_of(KINDS[name]):
        hard: dict[str, list[Any]] = {NUMBER: list(HARD), NUMBERS: [[one] * 12 for one in HARD],
                                      TABLE: [[[one, -one, 0]] * 4 for one in HARD]}  # fmt: skip
        for one in hard.get(field.form, []):
            try:
                outcome = of_json(name, {**KINDS[name].example, field.name: one})
            except BadInput as wrong:
                assert wrong.field and wrong.allowed
                continue
            numbers = [value.value for value in outcome.result.values] + list(outcome.decision or ())
            assert all(math.isfinite(number) for number in numbers if isinstance(number, float)), (field.name, one)
