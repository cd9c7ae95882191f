"""`measure KIND INPUT` as a person or a program calls it: numbers of every kind, and what is said of bad input."""

from __future__ import annotations

import io
import json
import math
import os
import sys
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from teardown_app.cli.main import main
from teardown_app.domain.measure.measuring import fields_of
from teardown_app.metrology.kinds import all_kinds

KINDS = all_kinds()


class Known(NamedTuple):
    """What a kind gives for an input, and who says so."""

    kind: str
    given: dict[str, Any]
    values: dict[str, float | str]
    source: str
    within: float = 1e-9
    """Share of the value; of 1 where it is 0."""


def _lobed(lobes: int, radius: float, height: float, count: int = 36) -> list[float]:
    return [radius + height * math.cos(lobes * n * math.tau / count) for n in range(count)]


def _sine(length: float, step: float, count: int) -> list[float]:
    return [math.sin(math.tau * n * step / length) for n in range(count)]


def _passed(share: float) -> float:
    """Share of a sine's amplitude in the roughness profile, at a wavelength by cut-off of `share`."""
    return 1 - 2 ** -((1 / share) ** 2)


MIXED = {"readings": [0.35, 0.38, "0,43 um", 0.36, 0.31, 0.39], "limit": "0.0004 mm", "standard": "ISO 4288"}
NIST = "NIST Monograph 175, table of the type"
IEC_60751 = "IEC 60751, table of resistances"
PLATES = {"grade": 2.5, "mass": "3600 kg", "speed": 3000, "centre_from_a": "1.5 m", "span": "2.4 m"}
ISO_286 = "ISO 286-2, tables of limit deviations"
SADDLE = [[0.001 * x * y for x in range(-2, 3)] for y in range(-2, 3)]
GUM = [10.01, 10.03, 10.02, 10.02, 10.04]
WATER = {"weighings": [100.0] * 10, "nominal": 100}
NTC = {"a": 1.129148e-3, "b": 2.34125e-4, "c": 8.76741e-8}

KNOWN = (
    Known("roughness", MIXED, {"share_over": 100 / 6, "mean": 0.37, "cut_off": 0.8}, "arithmetic; ISO 4288:1996"),
    Known("roughness", {"readings": ["12 uin"], "limit": "16 uin"}, {"largest": 0.3048, "cut_off": 0.8},
          "1 uin = 0.0254 um, NIST SP 811"),
    Known("cut-off", {"limit": "63 uin"}, {"cut_off": 0.8, "evaluation_length": 4.0, "short_wave": 2.5}, "ISO 21920-3"),
    Known("cut-off", {"limit": "80 uin"}, {"cut_off": 2.5, "short_wave": 8.0, "tip_radius": 5.0},
          "ISO 21920-3; ISO 3274: 2.032 um lies above the border at 2 um"),
    Known("cut-off", {"limit": 16, "parameter": "Rz"}, {"cut_off": 0.8}, "ISO 21920-3: up to 16 um"),
    Known("cut-off", {"limit": 16, "parameter": "Rz", "standard": "ISO 4288"}, {"cut_off": 2.5},
          "ISO 4288:1996, table 2: 10 to 50 um"),
    Known("roughness-trace", {"heights": _sine(0.8, 0.002, 4800), "step": "2 um", "cut_off": 0.8, "short_wave": 0},
          {"ra": 2 / math.pi * 0.5, "rt": 1.0}, "ISO 16610-21: half of a sine as long as the cut-off", 1e-3),
    Known("roughness-trace", {"heights": _sine(0.4, 0.002, 4800), "step": 0.002, "cut_off": 0.8, "short_wave": 0},
          {"ra": 2 / math.pi * _passed(0.5), "rq": _passed(0.5) / math.sqrt(2)}, "ISO 16610-21: 1 - 2^-4", 1e-3),
    Known("roughness-before-after", {"as_found": [0.82, 0.76, 0.91], "as_left": [0.38, 0.35, 0.47]},
          {"mean_reduction": 100 * 1.29 / 2.49, "least_reduction": 100 * 0.44 / 0.91}, "arithmetic"),
    Known("flatness", {"points": [[0, 0, 0], [100, 0, 0], [0, 100, 0], [100, 100, "30 um"]]}, {"flatness": 0.015},
          "one corner off by d: a zone of d / 2, by symmetry", 1e-6),
    Known("flatness-grid", {"heights": SADDLE, "pitch_x": 10, "pitch_y": 10}, {"flatness": 0.008},
          "z = k x y: no plane is better than z = 0, Chebyshev's alternation"),
    Known("roundness", {"radii": _lobed(3, 25, 0.01)},
          {"roundness": 0.02, "diameter": 50.0, "diameter_around": 50.02, "diameter_within": 49.98},
          "three lobes hold every centre in the middle"),
    Known("roundness", {"points": [[30, 0], [0, 20], [-30, 0], [0, -20]]}, {"roundness": 10.0, "diameter_around": 60.0},
          "ends of the axes of an ellipse: a - b"),
    Known("runout", {"readings": [0.05 * math.cos(n * math.tau / 8) for n in range(8)]},
          {"runout": 0.1, "eccentricity": 0.05, "missed": 100 * (1 - math.cos(math.pi / 8))}, "a centre off the axis"),
    Known("bend", {"thickness": 3, "chord": "10 cm", "height": 5}, {"radius": 252.5, "strain": 100 * 3 / 505},
          "intersecting chords: c^2 / 8h + h / 2"),
    Known("diameters", {"diameters": [25.002, 25.008, 25.004], "nominal": 25},
          {"out_of_round": 0.006, "two_point_roundness": 0.003, "off_nominal": 0.014 / 3}, "arithmetic", 1e-6),
    Known("residual-unbalance", PLATES, {"u_per": 28.6e3, "u_per_a": 10.7e3, "u_per_b": 17.9e3},
          "ISO 1940-1:2003, example of a turbine rotor, from memory", 5e-3),
    Known("vibration", {"acceleration": 10, "speed": 60 * 1000 / math.tau},
          {"velocity": 10.0, "displacement": 10 * math.sqrt(8)}, "vibration calibrators at 159.15 Hz: 10 in each unit"),
    Known("vibration", {"velocity": 4.5, "machine_class": "III"}, {"zone": "B"}, "ISO 10816-1:1995, table B.1"),
    Known("vibration", {"velocity": 4.51, "machine_class": "III"}, {"zone": "C"}, "ISO 10816-1:1995, table B.1"),
    Known("relative-centrifugal-force", {"radius": "10 cm", "speed": 3000}, {"rcf": 1.118e-5 * 10 * 3000**2},
          "laboratory rule 1.118e-5 r n^2", 3e-4),
    Known("winding", {"resistance": 2, "temperature": 20, "conductor": "copper 235", "hot_resistance": "2,6 ohm",
                      "coolant": 25}, {"rise": 0.3 * 255 + 20 - 25}, "IEC 60034-1, 8.6.2.3.3"),
    Known("winding", {"resistance": "2000 mohm", "temperature": 20, "reference": 25}, {"resistance": 2 * 259.5 / 254.5},
          "IEEE 112, constant 234.5"),
    Known("winding-unbalance", {"resistances": [1.02, 1.0, 1.01]}, {"unbalance": 100 * 0.01 / 1.01}, "arithmetic"),
    Known("insulation", {"resistance": "0.2 Gohm", "temperature": 20, "system": "thermoplastic"},
          {"resistance_40": 50.0}, "IEEE 43: halves every 10 K"),
    Known("polarisation-index", {"one_minute": "100 Mohm", "ten_minutes": "0.25 Gohm", "half_minute": 80},
          {"index": 2.5, "absorption_ratio": 1.25}, "IEEE 43, definition"),
    Known("bonding", {"voltage": "850 mV", "current": 10, "length": 5, "area": 2.5},
          {"resistance": 0.085, "expected": 5 * 7.41e-3}, "Ohm's law; IEC 60228: 7.41 ohm/km at most", 0.05),
    Known("heater", {"voltage": 208, "power": "2 kW", "measured": 22.1, "supply": 200},
          {"resistance": 21.632, "power": 208**2 / 22.1, "power_at_supply": 2000 * (200 / 208) ** 2}, "U^2 / P"),
    *(Known("pt100", {"resistance": ohm}, {"temperature": float(t)}, IEC_60751, 1.5e-4)
      for t, ohm in ((-200, 18.52), (-100, 60.26), (100, 138.51), (400, 247.09), (850, 390.48))),
    Known("pt100", {"temperature": 100, "r0": "1 kohm", "tolerance_class": "A"}, {"resistance": 1385.1,
          "tolerance": 0.35}, IEC_60751, 1e-4),
    Known("pt100", {"temperature": 600, "tolerance_class": "B"}, {"tolerance": 3.3, "tolerance_ohm": 1.06},
          "IEC 60751:1983, table 2: 600 degC, class B", 5e-3),
    Known("ntc", {"resistance": "10 kohm", **NTC}, {"temperature": 25.0}, "coefficients printed for 10 kohm at 25 degC",
          1e-3),
    *(Known("thermocouple", {"type": letter, "temperature": t}, {"voltage": mv}, NIST, 1.2e-4)
      for letter, t, mv in (("J", 500, 27.393), ("K", -200, -5.891), ("K", 1372, 54.886), ("T", -200, -5.603),
                            ("T", 400, 20.872))),
    Known("thermocouple", {"type": "K", "voltage": "40276 uV", "junction": "25 °C"}, {"temperature": 1000.0},
          f"{NIST}: 41.276 less 1.000 mV", 2e-5),
    Known("pressure-decay", {"volume": "10000 ml", "start": "6 bar", "end": "5.99 bar", "duration": 3600},
          {"leak_rate": 1 / 36, "leak_rate_si": 1 / 360}, "V dP / t"),
    Known("pressure-decay", {"volume": 1, "start": 3000, "end": 3010.2337, "duration": 1, "temperature_start": 20,
                             "temperature_end": 21}, {"leak_rate": 0.0}, "Gay-Lussac: a tight vessel", 1e-3),
    Known("allowed-pressure-drop", {"leak_rate": 0.01, "volume": "5000 ml", "duration": 600, "pressure": "3 bar"},
          {"drop": 1.2, "per_kelvin": 3000 / 293.15}, "Q t / V; P / T"),
    Known("leak-rate", {"rate": 1, "unit": "sccm"}, {"amount": 7.4358e-7, "molecules": 4.4780e17},
          "molar volume 22.41396 l, CODATA", 2e-5),
    Known("leak-rate", {"rate": 1, "unit": "Torr l/s"}, {"mbar_litres": 1.333224, "atmosphere_cc": 1 / 0.76},
          "NIST SP 811", 1e-6),
    Known("leak-rate", {"rate": 1, "unit": "mbar l/s", "gas_temperature": 20},
          {"standard_cc": 59.2154 * 273.15 / 293.15}, "ideal gas", 1e-6),
    Known("gas-leak", {"leak_rate": 1, "measured": "helium", "wanted": "air", "regime": "molecular"},
          {"leak_rate": math.sqrt(4.0026 / 28.96)}, "Graham"),
    Known("water-resistivity", {"resistivity": "18.18 Mohm cm", "temperature": 25},
          {"pure": 18.18, "conductivity_25": 0.055}, "T. S. Light, Anal. Chem. 56 (1984) 1138", 2e-3),
    *(Known("dispensed-volume", {**WATER, "temperature": t, "pressure": 1013}, {"z": z, "mean": 100 * z},
            "ISO 8655-6, table of Z", 6e-5) for t, z in ((20, 1.0029), (22, 1.0033), (25, 1.0040))),
    Known("choked-flow", {"diameter": 1, "before": "500 kPa", "behind": 1, "temperature": 20, "discharge": 1,
                          "gas": "air"}, {"mass_flow": 0.92697, "critical_ratio": 0.5283, "choked": "yes"},
          "F. M. White, Fluid Mechanics: 0.6847 p A / sqrt(R T), R = 287", 3e-4),
    Known("bubble-point", {"pressure": "1.44 MPa", "surface_tension": 72}, {"pore": 0.2, "bubble_point": 1440.0},
          "4 gamma / P"),
    Known("torque", {"size": "M10", "property_class": "10.9", "nut_factor": 0.2},
          {"torque": 0.2 * 0.010 * 0.75 * 48100, "stress_area": 58.0, "proof_force": 48100.0}, "ISO 898-1", 3e-4),
    Known("preload", {"torque": 10, "torque_unit": "lbf ft", "size": "M8", "nut_factor": 0.2},
          {"preload": 13.5582 / (0.2 * 0.008)}, "NIST SP 811: 1 lbf ft = 1.35582 N m", 1e-5),
    Known("fit", {"nominal": 50, "fit": "H7/g6"}, {"hole_upper_deviation": 0.025, "shaft_upper_deviation": -0.009,
          "shaft_lower_deviation": -0.025, "least_clearance": 0.009, "largest_clearance": 0.050}, ISO_286),
    Known("fit", {"nominal": 25, "fit": "H7/p6"}, {"least_clearance": -0.035, "largest_clearance": -0.001,
          "fit": "interference"}, ISO_286),
    Known("fit", {"nominal": 8, "fit": "N9"}, {"lower_deviation": -0.036, "upper_deviation": 0.0}, ISO_286),
    *(Known("success-run", {"passes": 22, "confidence": c, "reliability": r}, {"trials_needed": float(n)},
            "tables of zero-failure plans") for c, r, n in ((0.9, 0.9, 22), (0.95, 0.95, 59), (0.95, 0.99, 299))),
    Known("proportion", {"passes": 10, "trials": 10}, {"lower_limit": 0.05**0.1, "low": 0.025**0.1, "high": 1.0},
          "closed form without failures"),
    Known("particle-counts", {"count": 0}, {"upper_limit": -math.log(0.05), "rate": 0.0}, "rule of three"),
    Known("particle-counts", {"count": 12, "count_before": 3}, {"low": 6.2006, "high": 20.9616,
          "p": 2 * (1 + 15 + 105 + 455) / 2**15}, "Garwood's table; binomial of 15", 1e-5),
    Known("decision", {"value": 9.83, "limit_max": 10, "uncertainty": 0.2, "rule": "guarded"},
          {"guard_band": 0.1644854, "conformity": 0.955435}, "normal table", 1e-6),
    Known("repeated-readings", {"readings": GUM}, {"mean": 10.024, "s": math.sqrt(0.00052 / 4), "k_95": 2.87},
          "arithmetic; JCGM 100, table G.2 for 4 degrees", 1e-3),
    Known("uncertainty-budget", {"reading": 50, "resolution": 1, "instrument": 0.1, "instrument_share": 0.002},
          {"u_resolution": 0.288675, "u_instrument": 0.1, "combined": math.hypot(1 / math.sqrt(12), 0.1)},
          "JCGM 100, F.2.2.1: 0.29 of the step", 1e-6),
)  # fmt: skip


class Said(NamedTuple):
    """What a call gave."""

    code: int
    out: str
    err: str

    @property
    def data(self) -> Any:
        """Answer as JSON, which has no NaN and no Infinity."""
        return json.loads(self.out, parse_constant=lambda token: pytest.fail(f"{token} is not JSON"))


@pytest.fixture
def measured(tmp_path: Path, capsys: pytest.CaptureFixture[str]):  # type: ignore[no-untyped-def]
    """Calls `measure` with the words, and with a file that holds `given`."""

    def call(kind: str, given: Any = None, *words: str) -> Said:
        file = tmp_path / "given"
        if given is not None:
            file.write_bytes(given if isinstance(given, bytes) else json.dumps(given).encode())
            words = (str(file), *words)
        code = main(["measure", kind, *words, "--home", str(tmp_path / "data")])
        return Said(code, *capsys.readouterr())

    return call


def refused(said: Said, field: str, value: str = "") -> None:
    """Exit code 2, nothing printed, and words that name field, value and what is allowed."""
    assert (said.code, said.out) == (2, "")
    assert said.err.startswith("teardown-app: ") and said.err.count("\n") == 1 and len(said.err) < 2000
    assert field in said.err and value in said.err and "allowed: " in said.err


@pytest.mark.parametrize("known", KNOWN, ids=lambda known: f"{known.kind}: {known.source}")
def test_numbers_that_somebody_else_says(measured, known: Known) -> None:  # type: ignore[no-untyped-def]
    said = measured(known.kind, known.given, "--json")
    assert said.code == 0, said.err
    for name, theirs in known.values.items():
        ours = said.data["values"][name]["value"]
        assert ours == theirs if isinstance(theirs, str) else abs(ours - theirs) <= known.within * (abs(theirs) or 1)


def test_every_kind_is_compared() -> None:
    assert {known.kind for known in KNOWN} == set(KINDS)
    assert sum(isinstance(one, float) for known in KNOWN for one in known.values.values()) >= 100


@pytest.mark.parametrize("name", KINDS)
def test_a_kind_tells_its_fields_and_computes_its_example(measured, name: str) -> None:  # type: ignore[no-untyped-def]
    told = measured(name, None, "--json").data
    assert [one["name"] for one in told["fields"]] == [field.name for field in fields_of(KINDS[name])]
    said = measured(name, told["example"], "--json")
    assert said.code == 0 and said.data["kind"] == name
    assert set(said.data) == {"kind", "values", "judged", "verdict", "decision", "notes"}
    judged = said.data["judged"]
    units = {one["name"]: one["unit"] for one in told["fields"]}
    assert judged is None or units["limit_max"] == said.data["values"][judged]["unit"]
    for_people = measured(name, told["example"])
    assert for_people.code == 0 and all(note in for_people.out for note in said.data["notes"])


LIMITED = {"resistance": 0.1, "limit_max": 0.2}


@pytest.mark.parametrize(("kind", "given", "field"), [
    ("bonding", {**LIMITED, "limit_min": 0.3}, "limit_min"),
    ("bonding", {**LIMITED, "rule": "guarded"}, "uncertainty"),
    ("bonding", {**LIMITED, "rule": "four-way", "uncertainty": 0}, "uncertainty"),
    ("bonding", {**LIMITED, "uncertainty": -0.1}, "uncertainty"),
    ("bonding", {"resistance": 0.1, "uncertainty": 0.1}, "uncertainty"),
    ("bonding", {**LIMITED, "limit_max": "200 mm"}, "limit_max"),
    ("pt100", {"resistance": 110, "limit_max": 1}, "limit_max"),
    ("pt100", {"resistance": 110, "colour": "red"}, "colour"),
    ("heater", {"voltage": 208}, "power"),
    ("particle-counts", {"count": 1, "count_before": -1}, "count_before"),
    ("uncertainty-budget", {"reading": 1, "instrument": -1}, "instrument"),
    ("uncertainty-budget", {"reading": 1, "instrument": 1, "instrument_k": 0}, "instrument_k"),
    ("uncertainty-budget", {"reading": 1, "others": [0.1, -1]}, "others, no. 2"),
    ("relative-centrifugal-force", {"radius": -1, "speed": 1}, "radius"),
    ("flatness-grid", {"heights": [[1, 2], [3]], "pitch_x": 1, "pitch_y": 1}, "heights"),
    ("roughness", {"readings": [0.1, 0.2], "limit": 0.4, "places": "A"}, "places"),
])  # fmt: skip
def test_what_cannot_go_together_is_refused(measured, kind: str, given: Any, field: str) -> None:  # type: ignore[no-untyped-def]
    refused(measured(kind, given, "--json"), field)


@pytest.mark.parametrize(("raw", "value"), [
    (b"", "empty"), (b" \n", "empty"), (b"\x00\x01\xff\x02" * 50, "not a text"), (b"PK\x03\x04", "workbook"),
    (b'{"readings": [1,', "no JSON"), (b"[1, 2]", "a list"), (b"[" * 100_000, "lists in lists"),
    (b'{"limit": 1' + b"0" * 5000 + b"}", "no JSON"),
])  # fmt: skip
def test_files_that_hold_nothing_to_compute_are_refused(measured, raw: bytes, value: str) -> None:  # type: ignore[no-untyped-def]
    refused(measured("roughness", raw), "file", value)


def test_what_is_not_there_is_said(measured, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    refused(measured("roughness", None, str(tmp_path / "nowhere")), "INPUT", "nowhere")
    refused(measured("roughness", None, str(tmp_path)), "INPUT", str(tmp_path))
    refused(measured("roughness", None, "/dev/zero"), "INPUT", "device")
    os.mkfifo(tmp_path / "pipe")
    refused(measured("roughness", None, str(tmp_path / "pipe")), "INPUT", "pipe")
    with (tmp_path / "long").open("wb") as file:
        file.truncate(2**40)  # a hole: it takes no room on the disk
    refused(measured("roughness", None, str(tmp_path / "long")), "INPUT", "larger than 64 MB")
    unknown = measured("rougness", None, "--json")
    assert (unknown.code, unknown.out) == (2, "") and "rougness" in unknown.err and "roughness-trace" in unknown.err
    refused(measured("roughness", None, "--set", "limits=3"), "--set", "limits=3")
    refused(measured("roughness", None, "--set", "limit"), "--set", "limit")


def test_fields_may_be_set_or_piped(measured, monkeypatch: pytest.MonkeyPatch) -> None:  # type: ignore[no-untyped-def]
    words = ["--set", "readings=0,35 um; 0.00038 mm 15 uin", "--set", "limit=0,4", "--json"]
    mean = measured("roughness", None, *words).data["values"]["mean"]["value"]
    assert mean == pytest.approx((0.35 + 0.38 + 0.381) / 3)
    words = ["--set", "resistance=100 mohm", "--set", "limit_max=100 mohm", "--json"]
    over = measured("bonding", {"resistance": 0.3}, *words)
    assert over.data["verdict"] == "accept", "what is set goes before the file; on the limit is within"
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(b"resistance;0,1\nlimit_max;50 mohm\n")))
    assert measured("bonding", None, "-", "--json").data["verdict"] == "reject"


@pytest.mark.parametrize(("kind", "given", "verdict", "note"), [
    ("flatness", {"points": [[0, 0, 0], [1, 0, 0], [0, 1, 0.9]], "limit_max": 0.01}, "inconclusive", "Three points"),
    ("roundness", {"radii": [25, 26, 27], "limit_max": 0.01}, "inconclusive", "Three points"),
    ("polarisation-index", {"one_minute": 6000, "ten_minutes": 24000, "limit_min": 2}, "inconclusive", "5 Gohm"),
    ("pt100", {"resistance": 280, "reference": 500, "tolerance_class": "A", "limit_max": 9}, "inconclusive", "500"),
    ("pt100", {"resistance": 100, "reference": 30, "limit_max": 0.5}, "reject", "its size"),
    ("particle-counts", {"count": 0, "limit_max": 0.5}, "accept", "upper limit"),
    ("bonding", {**LIMITED, "uncertainty": 0.15}, "accept", "is not proven"),
    ("bonding", {**LIMITED, "uncertainty": 0.15, "rule": "guarded"}, "inconclusive", ""),
    ("roughness", {"readings": [0.35, 0.41, 0.3], "limit": 0.4}, "reject", "No rule given: maximum"),
    ("roughness", {"readings": [0.35, 0.41, 0.3], "limit": 0.4, "rule": "16 %"}, "inconclusive", "Read 3 more"),
    ("roughness", {"readings": [0.35] * 5 + [0.41], "limit": 0.4, "rule": "16 % share"}, "reject", ""),
    ("residual-unbalance", {**PLATES, "residual_a": 10000, "residual_b": 0, "machine_error": 1000}, "inconclusive", ""),
])  # fmt: skip
def test_a_verdict_says_no_more_than_can_be_known(measured, kind: str, given: Any, verdict: str, note: str) -> None:  # type: ignore[no-untyped-def]
    assert measured(kind, given, "--json").data["verdict"] == verdict
    assert note in measured(kind, given).out
