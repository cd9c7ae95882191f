"""What the instrument read, kind by kind: against its range and with its uncertainty that and nothing else; recall by
the formula. Readings are invented."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from teardown_app.domain.bill.check import Check
from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.ledger.kinds.work import Reading as Taken
from teardown_app.domain.measure.came_out import Error, came_out, sorts_read, verdict_without
from teardown_app.domain.measure.demanded import demanded, whole_fields
from teardown_app.domain.measure.judging import Reading, judge
from teardown_app.domain.measure.measuring import checked, verdict_of
from teardown_app.domain.measure.propagation import propagated
from teardown_app.domain.measure.raw import shown, unit_of
from teardown_app.domain.measure.units import factor
from teardown_app.domain.parts.doubt import could_change
from teardown_app.domain.parts.instrument import read_uncertainty
from teardown_app.metrology.kind import CHOICE, TEXT, Kind
from teardown_app.metrology.kinds import all_kinds
from teardown_app.metrology.kinds.roles import READS

KINDS = all_kinds()
ANYTHING = Limit("", max=Decimal(10) ** 9, min=-(Decimal(10) ** 9), unit="")


def test_every_kind_declares_its_raw_readings_as_numbers_it_takes() -> None:
    assert set(READS) == set(KINDS)
    for kind in KINDS.values():
        fields = {one.name: one for one in kind.fields}
        for raw in kind.reads:
            assert fields[raw.field].form not in (CHOICE, TEXT)
            assert set(raw.columns) <= set(fields[raw.field].columns)
            assert raw.field not in kind.demands


def recorded(kind: Kind, check: Check, given: dict[str, Any]) -> Taken:
    """A reading as it is recorded."""
    fields = whole_fields(kind, check, given)
    body = {"check": "c", "when": "finished", "kind": kind.name, "measured": fields, **came_out(kind, check, fields)}
    read = Reading.of(check, body)
    own = str(body.get("verdict", ""))
    body["verdict"] = verdict_of(own, judge(check, read).verdict) if read else own
    return Taken.told(body)


READ = [kind for kind in KINDS.values() if any(raw.own for raw in kind.reads)]


@pytest.mark.parametrize("kind", READ, ids=lambda kind: kind.name)
def test_what_it_shows_is_what_is_declared_and_nothing_else(kind: Kind) -> None:
    given = checked(kind.fields, kind.example)
    fields = {one.name: one for one in kind.fields}
    own = {raw.field for raw in kind.reads if raw.own}
    for unit in {unit_of(one, given) for one in kind.fields}:
        found = list(shown(kind, given, unit))
        wanted = [name for name in own if given.get(name) is not None and factor(unit_of(fields[name], given), unit)]
        assert {one.field for one in found} == set(wanted)
        assert all(one.unit == unit_of(fields[one.field], given) for one in found)


@pytest.mark.parametrize("kind", READ, ids=lambda kind: kind.name)
def test_recomputed_without_an_error_it_is_what_it_was(kind: Kind) -> None:
    values = came_out(kind, Check("c"), checked(kind.fields, kind.example)).get("value", {})
    limit = Limit("", max=ANYTHING.max, min=ANYTHING.min, unit=values["unit"]) if values else None
    given = tuple(f"{name} = {kind.example[name]}" for name in kind.demands if kind.example.get(name) is not None)
    check = Check("c", type=kind.name, limit=limit, given=given)
    rest = {name: value for name, value in kind.example.items() if name not in demanded(kind, check)}
    read = recorded(kind, check, rest)
    for unit in sorts_read(kind, read.body["measured"]):
        assert verdict_without(check, kind, read.body, unit, Error(Decimal(0), Decimal(0))) == read.verdict


def limited(name: str, unit: str, most: str = "", least: str = "", given: tuple[str, ...] = ()) -> Check:
    ends = {"max": Decimal(most) if most else None, "min": Decimal(least) if least else None}
    return Check("c", type=name, limit=Limit("", unit=unit, **ends), given=given)


BORE = Check("c", type="fit", limit=Limit("", nominal=Decimal(80), unit="mm", fit="H7"))
GRID = {"heights": [[0, 0.01], [0.005, 0.0]], "pitch_x": 50, "pitch_y": 50}
RECALL = (
    # an error that all readings share leaves largest less smallest as it is
    (limited("runout", "mm", "0.02"), {"sections": [[0.01, 0.02, 0.011], [0, 0.01, 0.019]]}, "0.5 mm", False),
    (limited("diameters", "mm", "0.02"), {"diameters": [25.0, 25.018]}, "0.5 mm", False),
    (limited("flatness-grid", "mm", "0.02"), GRID, "+3 mm", False),
    # a share does not: 0.018 / 0.8 = 0.0225
    (limited("runout", "mm", "0.02"), {"readings": [0.01, 0.028, 0.011]}, "-20 %", True),
    (limited("runout", "mm", "0.02"), {"readings": [0.01, 0.028, 0.011]}, "+20 %", False),
    (limited("runout", "mm", "0.02"), {"readings": [0.01, 0.028, 0.011]}, "20 %", True),
    # 0.9 V at 10 A: 0.09 ohm; the voltmeter showed 0.2 V too little: 0.11 ohm
    (limited("bonding", "ohm", "0.1"), {"voltage": 0.9, "current": 10}, "-0.2 V", True),
    (limited("bonding", "ohm", "0.1"), {"voltage": 0.9, "current": 10}, "+0.2 V", False),
    (limited("bonding", "ohm", "0.1"), {"voltage": 0.9, "current": 10}, "1 s", True),
    # 100.1 ohm is 0.256 K (IEC 60751: 0.3909 ohm per K at 0 degC); with 0.2 ohm less it is -0.256 K, with more 0.77 K
    (limited("pt100", "K", "0.5", given=("reference = 0 degC",)), {"resistance": 100.1}, "+0.2 ohm", False),
    (limited("pt100", "K", "0.5", given=("reference = 0 degC",)), {"resistance": 100.1}, "0.2 ohm", True),
    # 80 H7 ends at 80.030 mm (ISO 286-2)
    (BORE, {"reading": 80.029}, "-2 um", True),
    (BORE, {"reading": 80.029}, "+2 um", False),
    (limited("roughness", "um", "0.4"), {"readings": [0.39, 0.3]}, "0.005 um", False),
    (limited("roughness", "um", "0.4"), {"readings": [0.39, 0.3]}, "0.02 um", True),
)  # fmt: skip
"""What a reading was, what was found out of its instrument, and whether that makes another verdict: by arithmetic."""


@pytest.mark.parametrize(("check", "given", "error", "again"), RECALL)
def test_recall_takes_the_error_off_the_raw_readings(
    check: Check, given: dict[str, Any], error: str, again: bool
) -> None:
    read = recorded(KINDS[check.type], check, given)
    assert read.verdict == "accept"
    assert could_change(check, read, error) == again


def test_of_a_share_the_sort_that_the_instrument_reads_is_corrected() -> None:
    """0.9 V at 10 A, limit 0.1 ohm: a voltmeter that showed 12 % too little is in doubt, an ammeter that did is not."""
    check = limited("bonding", "ohm", "0.1")
    read = recorded(KINDS["bonding"], check, {"voltage": 0.9, "current": 10})
    assert could_change(check, read, "-12 %", "V") and not could_change(check, read, "-12 %", "A")
    assert could_change(check, read, "-12 %"), "where nobody knows what it reads, both are tried"


def test_long_readings_are_kept_apart_and_stay_in_doubt() -> None:
    check = limited("runout", "mm", "0.02")
    read = recorded(KINDS["runout"], check, {"readings": [0.01, 0.02, 0.011]})
    body = {**{name: value for name, value in read.body.items() if name != "measured"}, "raw": "0" * 64}
    assert could_change(check, Taken.told(body), "0.5 mm")


def test_a_pitch_adds_nothing_to_the_uncertainty_and_sections_do() -> None:
    """Two heights of a square move the zone by half each: U x sqrt(4) / 2 = U (JCGM 100, 5.1.2)."""
    error = read_uncertainty("0.004 mm")
    assert error is not None
    saddle = {"heights": [[0.01, -0.01], [-0.01, 0.01]], "pitch_x": 50.0, "pitch_y": 50.0}
    found = propagated(KINDS["flatness-grid"], saddle, error, "mm")
    assert found == pytest.approx(0.004, rel=1e-6)
    turns = {"sections": [[0.01, 0.03, 0.02], [0.0, 0.01, 0.005]]}
    assert propagated(KINDS["runout"], turns, error, "mm") == pytest.approx(0.004 * 2**0.5, rel=1e-6)
    pump = KINDS["dispensed-volume"]
    given = {"weighings": [0.0997] * 10, "nominal": 100, "temperature": 20, "mass_unit": "g"}
    found = propagated(pump, checked(pump.fields, given), error._replace(unit="mg", fixed=Decimal(1)), "mg")
    assert found == pytest.approx(1.0029 / 10**0.5, rel=1e-3), "1 mg of each of ten, a mean; Z at 20 degC: ISO 8655-6"
