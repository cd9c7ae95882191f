"""Checks, routes and materials. What harms what: from memory, as in assets/materials.toml."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.bill.route import Operation
from teardown_app.intake.materials import BrokenMaterials, materials_in
from tests.bill.written import faults, good, lines, materials, notes, read, told

HEAD = "position,part_number,quantity,material,route,checks"
ROUTE = '[clean]\n[[clean.operation]]\nid = "wash"\nmedium = "{medium}"\ntemperature = "{temperature}"\n'


def route(medium: str, temperature: str = "20 °C") -> str:
    """A route of one bath."""
    return ROUTE.format(medium=medium, temperature=temperature)


def harms(medium: str, material: str, temperature: str = "20 °C", trade: str = "") -> bool:
    """Whether the table of materials knows something against it."""
    return bool(materials().harm(Operation("x", medium=medium, temperature=temperature, trade=trade), material))


def test_unknown_route_and_check(tmp_path: Path) -> None:
    rows = lines("10,A,1,,nope,", "20,B,1,,,nope", "30,C,1,,clean;nope,play;nope", head=HEAD)
    assert faults(tmp_path, rows, routes=route("water"), checks="[play]\n") == [
        (2, "route"),
        (3, "checks"),
        (4, "route"),
        (4, "checks"),
    ]
    assert faults(tmp_path / "b", lines("10,A,1,,clean,play", head=HEAD)) == [(2, "route"), (2, "checks")]


def test_names_of_checks_and_routes_match_without_case(tmp_path: Path) -> None:
    bill = good(tmp_path, lines("10,A,1,PTFE,CLEAN,Play", head=HEAD), routes=route("water"), checks="[play]\n")
    assert (bill.lines[0].routes, bill.lines[0].checks) == (("clean",), ("play",))


def test_an_unknown_material_is_a_fault_with_a_route_and_else_a_note(tmp_path: Path) -> None:
    rows = lines("10,A,1,unobtainium,clean,", "20,B,1,unobtainium,,", "30,C,1,316L,clean,", head=HEAD)
    reading = read(tmp_path, rows, routes=route("water"))
    assert told(reading) == [("bill.csv", 2, "material")]
    assert notes(reading) == [(3, "material")]


def test_an_unknown_material_on_a_line_with_an_unknown_route_is_a_fault_too(tmp_path: Path) -> None:
    assert faults(tmp_path, lines("10,A,1,unobtainium,nope,", head=HEAD)) == [(2, "route"), (2, "material")]


def test_a_route_without_any_material_is_a_note(tmp_path: Path) -> None:
    reading = read(tmp_path, lines("10,A,1,,clean,", head=HEAD), routes=route("water"))
    assert reading.faults == []
    assert notes(reading) == [(2, "material")]


@pytest.mark.parametrize(
    ("material", "medium"),
    [
        ("316L", "hydrochloric acid 5 %"),
        ("1.4404", "bleach"),
        ("304", "sodium hypochlorite"),
        ("A4-70", "HCl"),
        ("V4A", "Salzsäure 10 %"),
        ("6061-T6", "nitric acid 20 %"),
        ("EN AW-6082", "HNO3"),
        ("brass", "nitric"),
        ("CuZn39Pb3", "Salpetersäure"),
        ("zinc", "nitric acid"),
        ("aluminium", "NaOH"),
        ("6082", "alkaline cleaner, pH 13"),
        ("brass", "caustic"),
        ("EPDM", "nitric acid"),
        ("FKM", "nitric acid"),
        ("Viton", "HNO3"),
        ("POM", "citric acid"),
        ("nylon", "nitric acid"),
        ("PA6", "phosphoric acid"),
        ("Delrin", "Citronensäure"),
        ("FKM", "acetone"),
        ("NBR", "methyl ethyl ketone"),
        ("Buna-N", "MEK"),
        ("303", "nitric acid 25 %"),
        ("1.4305", "nitric"),
        ("416", "nitric acid"),
    ],
)
def test_a_route_that_harms_the_material(tmp_path: Path, material: str, medium: str) -> None:
    rows = lines(f"10,A,1,{material},clean,", head=HEAD)
    assert faults(tmp_path, rows, routes=route(medium)) == [(2, "route")]


@pytest.mark.parametrize(
    ("material", "medium"),
    [
        ("316L", "nitric acid 25 %"),
        ("304", "citric acid 5 %"),
        ("PTFE", "nitric acid"),
        ("FFKM", "nitric acid"),
        ("EPDM", "citric acid"),
        ("FKM", "citric acid"),
        ("EPDM", "acetone"),
        ("6061", "mild alkaline detergent"),
        ("6061", "alkaline cleaner, pH 9-10"),
        ("aluminium", "DI water"),
        ("303", "nitric acid with sodium dichromate"),
        ("303", "citric acid"),
        ("POM", "DI water"),
        ("316L", "chloride-free cleaner"),
        ("PVDF", "nitric acid"),
        ("1.4404", "phosphoric and sulphuric acid"),
    ],
)
def test_a_route_that_does_no_harm(tmp_path: Path, material: str, medium: str) -> None:
    assert faults(tmp_path, lines(f"10,A,1,{material},clean,", head=HEAD), routes=route(medium)) == []


def test_hot_di_water_strips_copper_alloys() -> None:
    assert harms("DI water", "brass", "80 °C")
    assert harms("hot DI water", "CuSn8", "")
    assert harms("DI water", "brass", "140-160 °F")
    assert not harms("DI water", "brass", "25 °C")
    assert not harms("DI water", "316L", "80 °C")


def test_a_bath_may_be_named_by_the_trade_alone() -> None:
    assert harms("", "6061", trade="nitric passivation")


def test_short_words_are_whole_words() -> None:
    assert harms("HF 1 %", "quartz")
    assert not harms("HFE rinse", "quartz")


def test_a_bare_temperature_is_in_degrees_celsius() -> None:
    assert harms("DI water", "brass", "80")
    assert not harms("DI water", "brass", "25")


def test_plastics_are_not_electropolished() -> None:
    assert harms("", "PTFE", trade="electropolish")
    assert not harms("", "316L", trade="electropolish")


@pytest.mark.parametrize("word", ["aluminium", "6061", "metal", "AlMgSi1"])
def test_not_with_names_a_material_or_a_family(tmp_path: Path, word: str) -> None:
    text = f'[r]\n[[r.operation]]\nid = "x"\nmedium = "water"\nnot_with = ["{word}"]\n'
    material = "6061" if word == "6061" else "AlMgSi1"
    rows = lines(f"10,A,1,{material},r,", "20,B,1,PTFE,r,", head=HEAD)
    assert faults(tmp_path, rows, routes=text) == [(2, "route")]


def test_a_route_without_harm_for_one_and_with_harm_for_another_material_of_the_line(tmp_path: Path) -> None:
    rows = lines("10,A,1,316L;EPDM,clean,", "20,B,1,316L; PTFE,clean,", "30,C,1,316L;mystery,clean,", head=HEAD)
    assert faults(tmp_path, rows, routes=route("nitric acid")) == [(2, "route"), (4, "material")]


@pytest.mark.parametrize(
    ("name", "family"),
    [
        ("316L", "austenitic"),
        ("SS 316L", "austenitic"),
        ("stainless steel 316L", "austenitic"),
        ("1.4404", "austenitic"),
        ("AISI 304", "austenitic"),
        ("1.4571, pickled"[:6], "austenitic"),
        ("stainless steel 303", "free-machining"),
        ("6061-T6", "aluminium"),
        ("EN AW-6082 T6", "aluminium"),
        ("Aluminium 5083", "aluminium"),
        ("Ti-6Al-4V", "titanium"),
        ("PTFE, virgin", "fluoropolymer"),
        ("EPDM 70 Shore A", "epdm"),
        ("FKM 75", "fkm"),
        ("PEEK natural", "high-temperature-plastic"),
        ("PVDF-HP", "pvdf"),
        ("steel", "carbon-steel"),
        ("8.8", "carbon-steel"),
        ("17-4PH", "hardening"),
        ("PA 66 GF30", "nylon"),
        ("quartz glass", "glass"),
        ("Al2O3", "ceramic"),
        ("PE-HD", "polyolefin"),
        ("CuSn8", "copper-alloy"),
    ],
)
def test_materials_as_people_write_them(name: str, family: str) -> None:
    assert materials().families_of(name) == (family,)


@pytest.mark.parametrize("name", ["unobtainium", "mystery steel", "XYZ", "31", "316X", "PTFE on mystery", "", "?"])
def test_what_is_not_in_the_table(name: str) -> None:
    assert materials().families_of(name) == ()


def test_two_materials_in_one_name() -> None:
    assert set(materials().families_of("PTFE/EPDM")) == {"fluoropolymer", "epdm"}


def test_a_shop_adds_to_the_table(tmp_path: Path) -> None:
    own = tmp_path / "materials.toml"
    own.write_text(
        '[family.aluminium]\nmaterials = ["house alloy 7"]\n[family.felt]\nmaterials = ["grey felt"]\n'
        '[[harm]]\nfamilies = ["felt"]\nmedium = ["water"]\nwhy = "it shrinks"\n'
    )
    both = materials().with_more(materials_in(own))
    assert both.families_of("house alloy 7") == both.families_of("6061") == ("aluminium",)
    assert "shrinks" in both.harm(Operation("x", medium="water"), "grey felt")
    assert both.families["aluminium"].says == "aluminium"


@pytest.mark.parametrize(
    "text",
    ["[", "family = 3", "[family.x]\nmaterials = 3", "[[harm]]\nfamilies=['x']\nmedum=['y']", "harm = 3"],
)
def test_a_table_of_materials_that_cannot_be_read_says_so(tmp_path: Path, text: str) -> None:
    (tmp_path / "materials.toml").write_text(text)
    with pytest.raises(BrokenMaterials, match=r"materials\.toml"):
        materials_in(tmp_path / "materials.toml")


def test_every_harm_names_families_that_are_there_and_its_source() -> None:
    table = materials()
    for harm in table.harms:
        assert set(harm.families) <= table.families.keys()
        assert "from memory" in harm.source
        assert harm.why


def test_a_check_with_all_it_can_say(tmp_path: Path) -> None:
    text = """
[play]
says = "Shake the shaft"
type = "reading"
limit = { max = "0.02 mm" }
values = "16 %"
rule = "simple"
readings = 3
spots = ["front", "back"]
instrument = "dial gauge"
when = ["as found", "finished", "closed up"]
needs = ["power", "n2", "water"]
outlasts = ["wash"]
qualification = "measuring"
"""
    check = good(tmp_path, lines("10,A,1,,,play", head=HEAD), checks=text, routes=route("water")).checks["play"]
    assert check.limit == Limit("max 0.02 mm", max=Decimal("0.02"), unit="mm")
    assert (check.values_rule, check.rule, check.readings, check.spots) == (
        "16 %",
        "simple",
        3,
        ("front", "back"),
    )
    assert check.when == ("as found", "finished", "closed up")
    assert (check.needs, check.outlasts, check.qualification) == (
        ("power", "n2", "water"),
        ("wash",),
        "measuring",
    )


@pytest.mark.parametrize(
    ("limit", "expected"),
    [
        ('{ max = "0.02 mm" }', Limit("max 0.02 mm", max=Decimal("0.02"), unit="mm")),
        ('{ min = "5 N" }', Limit("min 5 N", min=Decimal(5), unit="N")),
        ('{ min = "5 N", max = "9 N" }', Limit("max 9 N min 5 N", max=Decimal(9), min=Decimal(5), unit="N")),
        (
            '{ nominal = "20 mm", tolerance = "0.01 mm" }',
            Limit(
                "20 mm ±0.01 mm",
                Decimal("20.01"),
                Decimal("19.99"),
                Decimal(20),
                (Decimal("-0.01"), Decimal("0.01")),
                unit="mm",
            ),
        ),
        (
            '{ nominal = "20 mm", tolerance = "+0.02/-0.01 mm" }',
            Limit(
                "20 mm +0.02/-0.01 mm",
                Decimal("20.02"),
                Decimal("19.99"),
                Decimal(20),
                (Decimal("-0.01"), Decimal("0.02")),
                unit="mm",
            ),
        ),
        ('{ nominal = "20 mm", fit = "H7" }', Limit("20 mm H7", nominal=Decimal(20), fit="H7", unit="mm")),
        ('{ compare = "as found" }', Limit("compare as found", compare="as found")),
        ('{ compare = "saved value" }', Limit("compare saved value", compare="saved value")),
        ("{ count = 4 }", Limit("count 4", count=4)),
        ("{ picture = true }", Limit("picture", picture="yes")),
        ('"max 0,02 mm"', Limit("max 0,02 mm", max=Decimal("0.02"), unit="mm")),
        ('"0.02 mm max"', Limit("0.02 mm max", max=Decimal("0.02"), unit="mm")),
        ('"20 mm H7"', Limit("20 mm H7", nominal=Decimal(20), fit="H7", unit="mm")),
        ('"pair"', Limit("pair", compare="pair")),
    ],
)
def test_limits(tmp_path: Path, limit: str, expected: Limit) -> None:
    assert good(tmp_path, lines("10,A,1"), checks=f"[c]\nlimit = {limit}\n").checks["c"].limit == expected


def test_limit_keys_may_stand_in_the_check_itself(tmp_path: Path) -> None:
    checks = good(tmp_path, lines("10,A,1"), checks='[c]\nmax = "0.02 mm"\n').checks
    assert checks["c"].limit == Limit("max 0.02 mm", max=Decimal("0.02"), unit="mm")


def test_a_quantity_alone_is_noted_and_left_to_a_person(tmp_path: Path) -> None:
    text = '[c]\nsays = "x"\nlimit = "0.02 mm"\nwhen = ["finished", "new"]\n'
    reading = read(tmp_path, lines("10,A,1,,,c", head=HEAD), checks=text)
    assert reading.faults == []
    assert [(note.file, note.row, note.column) for note in reading.notes] == [("checks.toml", 3, "limit")]


@pytest.mark.parametrize(
    ("line", "key"),
    [
        ('limit = "banana"', "limit"),
        ('limit = { max = "small" }', "limit"),
        ('limit = { nominal = "20 mm" }', "limit"),
        ("limit = { }", "limit"),
        ('limit = { max = "1 mm", min = "2 mm" }', "limit"),
        ('limit = { max = "1,500 mm" }', "limit"),
        ('limit = { compare = "before" }', "limit"),
        ("limit = { count = -1 }", "limit"),
        ('limit = { picture = "weld.png" }', "limit"),
        ("limit = true", "limit"),
        ('values = "mean"', "values"),
        ('rule = "kind"', "rule"),
        ("readings = 0", "readings"),
        ('readings = "some"', "readings"),
        ("spots = 0", "spots"),
        ("spots = [1, [2]]", "spots"),
        ('spots = ["rim", "inlet/outlet"]', "spots"),
        ('spots = ["in|out"]', "spots"),
        ('when = ["later"]', "when"),
        ("when = true", "when"),
        ('needs = ["love"]', "needs"),
        ("says = 1979-05-27", "says"),
        ("says = [1]", "says"),
    ],
)
def test_a_wrong_value_in_a_check_stands_at_its_line(tmp_path: Path, line: str, key: str) -> None:
    text = f'# checks\n[a]\nsays = "first"\n\n[b]\ntype = """\nlimit = 3\n"""\n{line}\n'
    assert told(read(tmp_path, lines("10,A,1"), checks=text)) == [("checks.toml", 9, key)]


@pytest.mark.parametrize("name", ["in/out", "in|out"])
def test_a_check_with_a_stroke_in_its_name_is_a_fault(tmp_path: Path, name: str) -> None:
    reading = read(tmp_path, lines("10,A,1"), checks=f'# checks\n["{name}"]\nwhen = ["new"]\n')
    assert told(reading) == [("checks.toml", 2, "name")]
    assert f"“{name}” has a stroke" in reading.faults[0].message


def test_unknown_keys_are_notes(tmp_path: Path) -> None:
    reading = read(
        tmp_path,
        lines("10,A,1,316L,r,c", head=HEAD),
        checks='[c]\ncolour = "red"\nwhen = ["new"]\n',
        routes='[r]\nowner = "x"\n[[r.operation]]\nid = "a"\nbath = 3\n',
    )
    assert reading.faults == []
    assert [(note.file, note.row, note.column) for note in reading.notes] == [
        ("checks.toml", 2, "colour"),
        ("routes.toml", 2, "owner"),
        ("routes.toml", 5, "bath"),
    ]


def test_a_route_with_all_it_can_say(tmp_path: Path) -> None:
    text = """
[r]
origin = "repaired"
[[r.operation]]
id = "wash"
says = "Wash"
trade = "clean"
medium = "water"
temperature = "50 °C"
time = "10 min"
wait = 1.5
record = ["bath", "time"]
check = "play"
spoils = ["play"]
not_with = ["brass"]
outside = true
[[r.operation]]
id = "dry"
wait = "24 h"
"""
    route = good(tmp_path, lines("10,A,1"), routes=text, checks="[play]\n").routes["r"]
    wash, dry = route.operations
    assert route.origin == "repaired"
    assert wash == Operation(
        "wash",
        "Wash",
        "clean",
        "water",
        "50 °C",
        "10 min",
        Decimal("1.5"),
        ("bath", "time"),
        ("play",),
        ("play",),
        ("brass",),
        True,
    )
    assert (dry.wait_h, dry.outside, dry.spoils) == (Decimal(24), False, ())


@pytest.mark.parametrize(
    ("line", "key"),
    [
        ("wait = -1", "wait"),
        ('wait = "soon"', "wait"),
        ('check = "nope"', "check"),
        ('spoils = ["nope"]', "spoils"),
        ("medium = [1]", "medium"),
        ('id = "first"', "id"),
        ('id = ""', "id"),
        ("wait = true", "wait"),
        ("wait = nan", "wait"),
        ("not_with = { }", "not_with"),
    ],
)
def test_a_wrong_value_in_a_route_stands_at_its_line(tmp_path: Path, line: str, key: str) -> None:
    name = "" if line.startswith("id") else 'id = "second"'
    text = f'[r]\n[[r.operation]]\nid = "first"\n\n[[r.operation]]\n{name}\n{line}\n'
    assert told(read(tmp_path, lines("10,A,1"), routes=text)) == [("routes.toml", 7, key)]


def test_a_route_that_names_no_origin_is_for_parts_as_received(tmp_path: Path) -> None:
    """Were it for new parts, what came off the tool dirty would be asked of no cleaning."""
    text = '[r]\n[[r.operation]]\nid = "wash"\norigin = "as received"\n[n]\norigin = "New"\n'
    routes = good(tmp_path, lines("10,A,1"), routes=text).routes
    assert {name: route.origin for name, route in routes.items()} == {"r": "as received", "n": "new"}


def test_an_origin_that_is_none_is_told_with_those_there_are(tmp_path: Path) -> None:
    """In the order in which the format's page names them, the usual one first."""
    (fault,) = read(tmp_path, lines("10,A,1"), routes='[r]\norigin = "borrowed"\n').faults
    assert "as received, new, repaired" in fault.message


def test_wrong_origin_missing_id_and_a_list_that_is_none(tmp_path: Path) -> None:
    text = '[r]\norigin = "borrowed"\n[[r.operation]]\nsays = "x"\n[s]\noperation = "wash"\n'
    assert told(read(tmp_path, lines("10,A,1"), routes=text)) == [
        ("routes.toml", 2, "origin"),
        ("routes.toml", 3, "id"),
        ("routes.toml", 6, "operation"),
    ]


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        ("max", "maximum"),
        ("Maximum rule", "maximum"),
        ("16%", "16 %"),
        ("16 % rule", "16 %"),
        ("16 %", "16 %"),
    ],
)
def test_rules_of_values_as_people_write_them(tmp_path: Path, text: str, rule: str) -> None:
    told_ = f'[c]\nvalues = "{text}"\nrule = "Four_Way"\nlimit = "max 0.4 um"\n'
    checks = good(tmp_path, lines("10,A,1"), checks=told_).checks
    assert (checks["c"].values_rule, checks["c"].rule) == (rule, "four-way")


def test_moments_and_gates_by_their_other_names(tmp_path: Path) -> None:
    text = '[c]\nwhen = ["As-Found", "dry check", "wet check", "acceptance_runs"]\nneeds = "N2; power"\n'
    check = good(tmp_path, lines("10,A,1"), checks=text).checks["c"]
    assert check.when == ("as found", "power on", "water on", "acceptance runs")
    assert check.needs == ("n2", "power")


def test_record_may_be_just_true(tmp_path: Path) -> None:
    text = '[r]\n[[r.operation]]\nid = "a"\nrecord = true\n[[r.operation]]\nid = "b"\nrecord = false\n'
    first, second = good(tmp_path, lines("10,A,1"), routes=text).routes["r"].operations
    assert (first.record, second.record) == (("done",), ())


def test_what_stands_outside_any_check_is_a_fault(tmp_path: Path) -> None:
    assert told(read(tmp_path, lines("10,A,1"), checks='says = "x"\n[c]\n')) == [("checks.toml", 1, "says")]
