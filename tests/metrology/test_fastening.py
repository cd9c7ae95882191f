"""Screws: laws that hold for every thread and torque, refusals, what each kind says."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.metrology.fastener import (
    COARSE_PITCH_MM,
    PROOF_STRESS_MPA,
    pitch_diameter,
    proof_force,
    stress_area,
)
from teardown_app.metrology.kinds.fastening import KINDS
from teardown_app.metrology.tightening import NEWTON_METRES, convert_torque, friction_factor, preload, torque
from tests.metrology.refusal import refuses

KIND = {kind.name: kind for kind in KINDS}
near = pytest.approx
forces, diameters, factors = st.floats(1, 1e6), st.floats(1, 100), st.floats(0.05, 1)
FRICTION = {"thread_friction": 0.12, "bearing_friction": 0.12, "bearing_diameter": 11.0}
DRY = {"size": "M8", "property_class": "8.8"}


@given(forces, diameters, factors)
def test_torque_and_preload_come_back(force: float, diameter: float, factor: float) -> None:
    """There and back, and torque goes with each of the three."""
    found = torque(force, diameter, factor)
    assert preload(found, diameter, factor) == near(force)
    assert torque(2 * force, diameter, factor) == near(2 * found) == near(torque(force, 2 * diameter, factor))


@given(st.floats(-1e6, 1e6), st.sampled_from(list(NEWTON_METRES)), st.sampled_from(list(NEWTON_METRES)))
def test_units_of_torque_come_back(value: float, first: str, second: str) -> None:
    """There and back."""
    assert convert_torque(convert_torque(value, first, second), second, first) == near(value, rel=1e-12)


@given(diameters, st.floats(0.05, 0.3))
def test_areas_lie_between_root_and_pitch_diameter(diameter: float, share: float) -> None:
    """The stress area is that of a rod thicker than the root and thinner than the pitch diameter."""
    pitch = share * diameter
    rod = (stress_area(diameter, pitch) / 0.7853981633974483) ** 0.5
    assert diameter - 1.226869 * pitch < rod < pitch_diameter(diameter, pitch) < diameter


@given(st.floats(0.01, 0.4), st.floats(0.01, 0.4), st.floats(0.01, 0.2))
def test_more_friction_needs_more_torque(thread: float, head: float, more: float) -> None:
    """In the thread as well as under the head."""

    def factor(in_thread: float, beneath: float) -> float:
        return friction_factor(8, 1.25, 7.188, thread_friction=in_thread, bearing_friction=beneath, bearing_diameter=11)

    assert factor(thread + more, head) > factor(thread, head) < factor(thread, head + more)


def test_larger_screws_and_better_classes_bear_more() -> None:
    """Over all sizes and classes that are known."""
    for grade in PROOF_STRESS_MPA:
        forces_of = [proof_force(size, grade) for size in COARSE_PITCH_MM]
        assert forces_of == sorted(forces_of) and len(set(forces_of)) == len(forces_of)
    for size in COARSE_PITCH_MM:
        steel = [proof_force(size, grade) for grade in ("4.6", "8.8", "10.9", "12.9")]
        assert steel == sorted(steel)


def test_class_8_8_is_stronger_above_m16() -> None:
    """600 MPa for M20, 580 MPa for M14."""
    assert proof_force("M20", "8.8") == near(600 * stress_area(20, 2.5))
    assert proof_force("M14", "8.8") == near(580 * stress_area(14, 2))


def test_a_stress_of_ones_own_goes_before_the_table() -> None:
    """As the printed stress is to be verified."""
    assert proof_force("M8", "8.8", proof_stress=640) == near(640 * 36.60846)


REFUSED: list[tuple[Callable[[], object], str, str]] = [
    (lambda: stress_area(8, 0), "pitch", "above 0"),
    (lambda: stress_area(1, 1.2), "diameter", "times the pitch"),
    (lambda: pitch_diameter(-8, 1), "diameter", "times the pitch"),
    (lambda: proof_force("M7.3", "8.8"), "size", "M8"),
    (lambda: proof_force("M8", "8.9"), "property_class", "A2-70"),
    (lambda: proof_force("M8", "8.8", proof_stress=0), "proof_stress", "above 0"),
    (lambda: torque(-1, 8, 0.2), "preload", "0 N or above"),
    (lambda: torque(1, 0, 0.2), "diameter", "above 0"),
    (lambda: torque(1, 8, 0), "nut_factor", "above 0, at most 1"),
    (lambda: preload(-1, 8, 0.2), "torque", "0 N m or above"),
    (lambda: preload(1, 8, 20), "nut_factor", "at most 1"),
    (lambda: convert_torque(1, "kg", "N m"), "given", "lbf in"),
    (lambda: convert_torque(1, "N m", "kg"), "wanted", "lbf in"),
    (lambda: convert_torque(float("nan"), "N m", "N m"), "value", "a number"),
    (lambda: friction_factor(0, 1, 7, **FRICTION), "diameter", "above 0"),
    (lambda: friction_factor(8, 0, 7, **FRICTION), "pitch", "above 0"),
    (lambda: friction_factor(8, 1, 9, **FRICTION), "pitch_diameter", "at most diameter"),
    (lambda: friction_factor(8, 1, 7, **FRICTION | {"thread_friction": 12.0}), "thread_friction", "0 to 1"),
    (lambda: friction_factor(8, 1, 7, **FRICTION | {"bearing_friction": -1.0}), "bearing_friction", "0 to 1"),
    (lambda: friction_factor(8, 1, 7, **FRICTION | {"bearing_diameter": 0.0}), "bearing_diameter", "above 0"),
    (lambda: KIND["torque"].compute(**DRY), "nut_factor", "or thread_friction"),
    (lambda: KIND["torque"].compute(**DRY, nut_factor=0.2, **FRICTION), "nut_factor", "not both"),
    (lambda: KIND["torque"].compute(**DRY, nut_factor=0.2, share=1.1), "share", "at most 1"),
    (lambda: KIND["preload"].compute(torque=1, size="M8", thread_friction=0.1), "nut_factor", "or thread_friction"),
    (lambda: KIND["preload"].compute(torque=1, size="8", nut_factor=0.2), "size", "M8"),
]


@pytest.mark.parametrize(("wrong", "field", "allowed"), REFUSED)
def test_what_cannot_be_is_refused(wrong: Callable[[], object], field: str, allowed: str) -> None:
    """The field is named, and what is allowed in it."""
    refuses(wrong, field, allowed)


def test_every_kind_computes_its_example() -> None:
    """The judged value is among the results; each says that bill or maker decides."""
    for kind in KINDS:
        found = kind.compute(**kind.example)
        assert set(kind.example) <= {field.name for field in kind.fields}
        assert not kind.judged or isinstance(found[kind.judged], float)
        assert any("bill" in note and "maker" in note for note in found.notes)


def test_torque_holds_the_factor_it_stands_for() -> None:
    """By friction the worked M8 needs what the nut factor of friction says; both units follow."""
    found = KIND["torque"].compute(size="M8", property_class="A4-70", share=0.75, **FRICTION)
    assert found["nut_factor"] == near(0.16966, abs=1e-5)
    assert found["torque"] == near(found["nut_factor"] * 8e-3 * found["preload"])
    assert found["torque_foot"] * 12 == near(found["torque_inch"])
    worked = KIND["torque"].compute(**DRY, nut_factor=0.2)
    assert worked["torque"] == near(25.44) and worked["preload"] == near(0.75 * worked["proof_force"])


def test_notes_follow_the_screw() -> None:
    """Galling for stainless, doubt for a stress from a table, nothing of it for the printed proof load."""
    said = {grade: " ".join(KIND["torque"].compute(size="M8", property_class=grade, nut_factor=0.2).notes)
            for grade in ("8.8", "A4-80")}  # fmt: skip
    assert "galls" in said["A4-80"] and "verify" in said["A4-80"]
    assert "galls" not in said["8.8"] and "verify" not in said["8.8"]
    sharp = KIND["torque"].compute(**DRY, nut_factor=0.2, share=0.95)
    assert any("Close to proof" in note for note in sharp.notes)


def test_preload_is_held_against_proof() -> None:
    """In any unit of torque; beyond proof it is said."""
    inch = KIND["preload"].compute(torque=225.163, torque_unit="lbf in", nut_factor=0.2, **DRY)
    assert inch["preload"] == near(15900, rel=1e-5) and inch["share"] == near(0.75, rel=1e-5)
    beyond = KIND["preload"].compute(torque=40, nut_factor=0.2, **DRY)
    assert any("Beyond" in note for note in beyond.notes)
    assert any("Close" in note for note in KIND["preload"].compute(torque=32, nut_factor=0.2, **DRY).notes)
    assert KIND["preload"].compute(torque=40, size="M8", nut_factor=0.2)["share"] is None
    large = KIND["preload"].compute(torque=40, size="M20", property_class="8.8", nut_factor=0.2)
    assert any("verify" in note for note in large.notes) and not any("verify" in note for note in beyond.notes)
