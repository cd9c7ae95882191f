"""Small bills, each with one word that asks in vain or is worth a note, and where that is told.

By section and word of the table "What each word asks", and whether it is a fault or a note.
"""

from __future__ import annotations

from typing import NamedTuple

from tests.bill.written import lines


class Example(NamedTuple):
    """Where it is told (file, row, column), the lines, and the other files."""

    at: tuple[str, int, str]
    bill: str
    files: dict[str, str]


def _line(column: str, value: str, kind: str = "part", unit: str = "EA", **files: str) -> Example:
    """The second of two lines, in row 3, says this in a column; it is told there."""
    head = f"position,part_number,quantity,unit,kind,{column}"
    return Example(("bill.csv", 3, column), lines("10,A,1,,part,", f"20,B,2,{unit},{kind},{value}", head=head), files)


def _joint(text: str) -> Example:
    return _line("joint", text, kind="hardware")


def _check(key: str, value: str, **files: str) -> Example:
    """A part, in row 2, names a check that says this in row 2 of its file; it is told there."""
    bill = lines("10,A,1,play", head="position,part_number,quantity,checks")
    return Example(("checks.toml", 2, key), bill, {"checks": f"[play]\n{key} = {value}\n", **files})


def _read_on(kind: str, when: str) -> Example:
    """A check of this moment on a line of this kind."""
    return _line("checks", "play", kind=kind, checks=f'[play]\nwhen = ["{when}"]\n')


def _operation(key: str, value: str, material: str = "1.4404") -> Example:
    """A part, in row 2, goes through an operation that says this in row 4 of its file; it is told there."""
    identity = f"id = {value}" if key == "id" else f'{key} = {value}\nid = "wash"'
    bill = lines(f"10,A,1,{material},wash", head="position,part_number,quantity,material,route")
    return Example(("routes.toml", 3, key), bill, {"routes": f"[wash]\n[[wash.operation]]\n{identity}\n"})


def _at_the_line(example: Example, column: str) -> Example:
    """The same, but told at its line."""
    return example._replace(at=("bill.csv", 2, column))


def _file(name: str, file: str, text: str, row: int, column: str) -> Example:
    """One part, and another file that says this."""
    bill = lines("10,A,1", head="position,part_number,quantity")
    return Example((file, row, column), bill, {name: text, "drawings": "10.png"})


LINES, JOINT, FACTS = "Columns of `bill`", "Words of `joint`", "Columns of `components`"
UNITS, CHECK, LIMIT = "Units", "Keys of `checks`", "Limits, rules, comparisons"
TIMES, ROUTE, OTHERS = "Times and needs of checks", "Keys of `routes`", "Other files"

_WASH = '[wash]\n[[wash.operation]]\nid = "wash"\n'
_FACTS = "part_number,shelf_life_days\n"

FAULTS: dict[tuple[str, str], Example] = {
    (LINES, "part_number"): Example(
        ("bill.csv", 2, "part_number"), lines("10,,1", head="position,part_number,quantity"), {}
    ),
    (LINES, "unit"): _line("unit", "M", kind="hardware")._replace(
        bill=lines("10,A,1,,part", "20,B,2,M,hardware", head="position,part_number,quantity,unit,kind")
    ),
    (LINES, "material"): _at_the_line(_operation("medium", '"nitric acid"', "6061"), "route"),
    (LINES, "route"): _line("route", "wash", kind="consumable", routes=_WASH),
    (LINES, "checks"): _read_on("hardware", "finished"),
    (LINES, "fit_after"): _line("fit_after", "99"),
    (LINES, "matched_set"): _line("matched_set", "pair", kind="temporary"),
    (LINES, "joint"): _line("joint", "torque_nm=6 holds=10", kind="part"),
    (LINES, "renew"): _line("renew", "always", kind="hardware"),
    (LINES, "write_down"): _line("write_down", "serial", kind="consumable"),
    (LINES, "ships"): _line("ships", "out", kind="part"),
    (LINES, "photo"): _line("photo", "gone.png"),
    (UNITS, "KG"): _line("unit", "KG", kind="hardware")._replace(
        bill=lines("10,A,1,,part", "20,B,2,KG,hardware", head="position,part_number,quantity,unit,kind")
    ),
    (UNITS, "AR"): _line("write_down", "lot", unit="AR"),
    (JOINT, "torque_nm"): _joint("torque_nm=6"),
    (JOINT, "tolerance"): _joint("torque_nm=6 tolerance=0 holds=10"),
    (JOINT, "passes"): _joint("torque_nm=6 passes=30/70 holds=10"),
    (JOINT, "retighten_h"): _joint("retighten_h=24 holds=10"),
    (JOINT, "holds"): _joint("torque_nm=6 holds=10;99"),
    (FACTS, "part_number"): _file("components", "components.csv", _FACTS + ",1\n", 2, "part_number"),
    (FACTS, "shelf_life_days"): _file("components", "components.csv", _FACTS + "A,365\n", 2, "shelf_life_days"),
    (CHECK, "values"): _check("values", '"16 %"'),
    (CHECK, "rule"): _check("rule", '"guarded"'),
    (CHECK, "spots"): _check("spots", '["inlet/outlet", "rim"]'),
    (CHECK, "readings"): _check("readings", "3"),
    (CHECK, "when"): _check("when", '["water on"]', gates="[ship]\n"),
    (CHECK, "outlasts"): _check("outlasts", '["boil"]'),
    (CHECK, "given"): _check("given", '["voltage = 208 V"]'),
    (LIMIT, "picture"): _check("picture", '"gone.png"'),
    (TIMES, "arrival"): _read_on("hardware", "arrival"),
    (TIMES, "finished"): _read_on("temporary", "finished"),
    (TIMES, "new"): _read_on("hardware", "new"),
    (TIMES, "power on"): _check("when", '["power on"]', gates="[ship]\n"),
    (ROUTE, "origin"): _operation("origin", '"new"'),
    (ROUTE, "id"): _operation("id", '""'),
    (ROUTE, "trade"): _at_the_line(_operation("trade", '"electropolish"', "PTFE"), "route"),
    (ROUTE, "medium"): _at_the_line(_operation("medium", '"bleach"', "304"), "route"),
    (ROUTE, "check"): _operation("check", '"nothing"'),
    (ROUTE, "spoils"): _operation("spoils", '["nothing"]'),
    (ROUTE, "not_with"): _operation("not_with", '["moondust"]'),
    (OTHERS, "name"): _file("gates", "gates.toml", "[lunch]\n", 1, "lunch"),
    (OTHERS, "assemblies"): _file("gates", "gates.toml", '[ship]\nassemblies = ["99"]\n', 2, "assemblies"),
    (OTHERS, "drawing"): _file("callouts", "callouts.csv", "drawing,position,x,y\n10.png,10,2,0\n", 2, "x"),
    (OTHERS, "model"): _file("about", "bill.toml", 'revision = "A"\n', 1, "model"),
    (OTHERS, "columns"): _file("about", "bill.toml", 'model = "M"\nrevision = "A"\n[columns]\n"No" = "nr"\n', 4, "No"),
}

NOTES: dict[tuple[str, str], Example] = {
    (LINES, "checks"): _read_on("part", "finished"),
    (LINES, "matched_set"): _line("matched_set", "pair")._replace(
        bill=lines("10,A,1,", "20,B,1,pair", head="position,part_number,quantity,matched_set")
    ),
    (LINES, "renew"): _line("renew", "on condition"),
    (LINES, "ships"): _line("ships", "in"),
    (CHECK, "name"): _file("checks", "checks.toml", "[play]\n", 1, "name"),
    (ROUTE, "name"): _file("routes", "routes.toml", _WASH, 1, "name"),
    (TIMES, "arrival"): _check("when", '["arrival"]'),
    (TIMES, "as found"): _check("when", '["as found"]'),
    (OTHERS, "approved_by"): _file("about", "bill.toml", 'model = "M"\nrevision = "A"\n', 1, "approved_by"),
}
