"""Kinds of measurement of temperature: refusals, class verdicts, what they say beside the numbers."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from teardown_app.metrology import pt100
from teardown_app.metrology.kinds.temperature import KINDS
from tests.metrology.refusal import refuses

KIND = {kind.name: kind for kind in KINDS}
near = pytest.approx
A, B, C = 1.125e-3, 2.347e-4, 8.566e-8

REFUSED: list[tuple[Callable[[], object], str, str]] = [
    (lambda: KIND["pt100"].compute(), "resistance", "either resistance or temperature"),
    (lambda: KIND["pt100"].compute(resistance=100, temperature=0), "temperature", "either"),
    (lambda: KIND["pt100"].compute(resistance=0), "resistance", "above 0 ohm"),
    (lambda: KIND["pt100"].compute(resistance=100, lead_resistance=100), "lead_resistance", "below the reading"),
    (lambda: KIND["pt100"].compute(resistance=100, lead_resistance=-1), "lead_resistance", "0 ohm or above"),
    (lambda: KIND["pt100"].compute(temperature=0, lead_resistance=1), "lead_resistance", "only with resistance"),
    (lambda: KIND["pt100"].compute(resistance=100, construction="film"), "tolerance_class", "needed"),
    (lambda: KIND["pt100"].compute(100, tolerance_class="A", construction="foil"), "construction", "film"),
    (lambda: KIND["pt100"].compute(resistance=100, reference=-300), "reference", "-200 to 850"),
    (lambda: KIND["thermocouple"].compute("R", voltage=1), "type", "K, J, T"),
    (lambda: KIND["thermocouple"].compute("K"), "voltage", "either voltage or temperature"),
    (lambda: KIND["thermocouple"].compute("K", voltage=1, reference=-274), "reference", "-273.15"),
    (lambda: KIND["ntc"].compute(beta=3950, nominal=1e4), "resistance", "either resistance or temperature"),
    (lambda: KIND["ntc"].compute(resistance=1e4), "beta", "either beta or a"),
    (lambda: KIND["ntc"].compute(resistance=1e4, beta=3950), "nominal", "needed with beta"),
    (lambda: KIND["ntc"].compute(resistance=1e4, a=A, c=C), "b", "together"),
]


@pytest.mark.parametrize(("wrong", "field", "allowed"), REFUSED)
def test_what_cannot_be_is_refused(wrong: Callable[[], object], field: str, allowed: str) -> None:
    """The field is named, and what is allowed in it."""
    refuses(wrong, field, allowed)


def test_without_a_reference_nothing_deviates() -> None:
    """Both ways, of all three."""
    for name, read in (
        ("pt100", {"resistance": 100.0}), ("pt100", {"temperature": 0.0}),
        ("thermocouple", {"type": "K", "voltage": 0.0}), ("thermocouple", {"type": "K", "temperature": 0.0}),
        ("ntc", {"resistance": 1e4, "beta": 3950, "nominal": 1e4}),
        ("ntc", {"temperature": 25.0, "a": A, "b": B, "c": C}),
    ):  # fmt: skip
        found = KIND[name].compute(**read)
        assert found["deviation"] is None and found.verdict == ""


def test_class_decides_within_its_range() -> None:
    """The edge belongs to the class; outside its range it says nothing; leads are taken off first."""
    judge = KIND["pt100"].compute
    edge = pt100.resistance(100.35)
    assert judge(resistance=edge, reference=100, tolerance_class="A").verdict == "accept"
    assert judge(resistance=edge + 0.001, reference=100, tolerance_class="A").verdict == "reject"
    assert judge(resistance=edge, reference=100, tolerance_class="AA").verdict == "reject"
    assert judge(resistance=edge + 0.5, lead_resistance=0.5, reference=100, tolerance_class="A").verdict == "accept"
    assert judge(temperature=320, reference=320, tolerance_class="A", construction="film").verdict == "inconclusive"
    assert judge(temperature=320, reference=320, tolerance_class="A", construction="wire-wound").verdict == "accept"
    assert judge(temperature=320, reference=320, tolerance_class="A").verdict == "accept"
    assert judge(temperature=700, reference=700, tolerance_class="B").verdict == "inconclusive"


def test_class_ranges_are_named_for_the_kind_of_resistor() -> None:
    """One where it is known, both where it is not; always to be verified."""
    judge = KIND["pt100"].compute
    both = judge(temperature=20, tolerance_class="B").notes[-1]
    assert "wire-wound from -196 to 600" in both and "film from -50 to 500" in both and "verify" in both
    assert "wire-wound" not in judge(temperature=20, tolerance_class="B", construction="film").notes[-1]


def test_cold_junction_is_remarked() -> None:
    """At 0 degC as an assumption, far off as a doubt; near the cold end the curve is flat."""
    couple = KIND["thermocouple"].compute
    assert any("ice bath" in note for note in couple("K", voltage=1).notes)
    assert couple("K", voltage=1, junction=25).notes == ()
    assert any("check it" in note for note in couple("K", voltage=1, junction=120).notes)
    assert any("hardly" in note for note in couple("T", temperature=-250, junction=20).notes)
    found = couple("K", temperature=200, junction=25)
    assert found["voltage"] == near(7.1382, abs=1e-4) and found["voltage_from_ice"] == near(8.1385, abs=1e-4)
    assert couple("K", temperature=0, junction=25)["voltage"] == near(-1.0002, abs=1e-4)


def test_beta_is_doubted_far_from_its_point() -> None:
    """Beyond 50 K; three coefficients are not doubted."""
    bead = KIND["ntc"].compute
    assert bead(temperature=76, nominal=1e4, beta=3950).notes and not bead(temperature=75, nominal=1e4, beta=3950).notes
    assert not bead(temperature=150, a=A, b=B, c=C).notes
    assert bead(resistance=1e4, a=A, b=B, c=C, reference=25)["deviation"] == near(0.0375, abs=1e-3)
