"""Balance, vibration and spinning bowls: laws that hold for every rotor, refusals, what each kind says."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.metrology.balance import centrifugal_force, permissible_unbalance, plane_allocation
from teardown_app.metrology.centrifuge import relative_centrifugal_force, speed_for
from teardown_app.metrology.kinds.rotor import KINDS
from teardown_app.metrology.vibration import from_acceleration, from_displacement, from_velocity, velocity_rms, zone
from tests.metrology.refusal import refuses

KIND = {kind.name: kind for kind in KINDS}
near = pytest.approx
grades, masses, speeds = st.floats(0.4, 4000), st.floats(0.01, 1e4), st.floats(10, 1e5)
sizes = st.floats(1e-3, 1e4)


@given(grades, masses, speeds, st.floats(0.1, 10))
def test_permissible_unbalance_goes_with_mass_and_against_speed(g: float, m: float, n: float, k: float) -> None:
    """Twice the mass may hold twice the unbalance, twice the speed half of it."""
    u_per = permissible_unbalance(g, m, n).u_per
    assert permissible_unbalance(g, k * m, n).u_per == near(k * u_per)
    assert permissible_unbalance(g, m, k * n).u_per == near(u_per / k)
    assert permissible_unbalance(k * g, m, n).u_per == near(k * u_per)


@given(masses, st.floats(0.001, 0.999), st.floats(1, 1e4), st.floats(0, 0.5))
def test_the_two_planes_share_out_the_whole(u_per: float, at: float, span: float, least: float) -> None:
    """Nothing is lost or gained, and no plane has less than its least share."""
    found = plane_allocation(u_per, at * span, span, least_share=least)
    assert found.a + found.b == near(u_per)
    assert min(found.a, found.b) >= least * u_per * (1 - 1e-12)
    assert plane_allocation(u_per, (1 - at) * span, span, least_share=least).b == near(found.a)


@given(masses, st.floats(0.01, 0.98))
def test_the_plane_nearer_the_mass_centre_may_hold_more(u_per: float, at: float) -> None:
    """The lever rule alone, one step towards plane B."""
    first, second = (plane_allocation(u_per, x, 1, least_share=0) for x in (at, at + 0.01))
    assert first.a > second.a and first.b < second.b


def test_symmetric_rotor_is_halved() -> None:
    """Whatever least share is kept."""
    assert [plane_allocation(10, 5, 10, least_share=one)[:2] for one in (0, 0.3, 0.5)] == [(5, 5)] * 3


@given(sizes, speeds)
def test_force_of_the_permissible_unbalance_is_g_times_pulsation(mass: float, speed: float) -> None:
    """F = m G omega, in whatever way it is reckoned; it grows with the square of speed."""
    u = permissible_unbalance(2.5, mass, speed).u_per
    assert centrifugal_force(u, speed) == near(mass * 2.5e-3 * speed * 0.10471975511965977)
    assert centrifugal_force(u, 2 * speed) == near(4 * centrifugal_force(u, speed))


@given(sizes, speeds)
def test_displacement_velocity_and_acceleration_come_back(value: float, speed: float) -> None:
    """There and back by each way."""
    one = from_displacement(value, speed)
    assert one.displacement == near(value)
    assert from_velocity(one.velocity, speed) == near(one)
    assert from_acceleration(one.acceleration, speed) == near(one)


@given(st.lists(st.floats(-100, 100), min_size=2, max_size=50), st.floats(-1e6, 1e6))
def test_an_offset_of_the_sensor_is_no_vibration(record: list[float], offset: float) -> None:
    """r.m.s. stays, up to what the digits of the sum lose."""
    assert velocity_rms([one + offset for one in record]) == near(velocity_rms(record), abs=1e-7)


@given(st.floats(0, 30), st.floats(0, 30), st.sampled_from(["I", "II", "III", "IV"]))
def test_more_vibration_is_never_a_better_zone(a: float, b: float, machine: str) -> None:
    """And a larger class of machine is never judged more sharply."""
    low, high = sorted((a, b))
    assert zone(low, machine) <= zone(high, machine)
    assert zone(high, "IV") <= zone(high, machine) <= zone(high, "I")


@given(st.floats(1, 1e4), st.floats(0, 1e5))
def test_speed_for_a_pull_gives_that_pull(radius: float, speed: float) -> None:
    """There and back."""
    assert speed_for(relative_centrifugal_force(radius, speed), radius) == near(speed)


REFUSED: list[tuple[Callable[[], object], str, str]] = [
    (lambda: permissible_unbalance(0, 12, 1500), "grade", "above 0"),
    (lambda: permissible_unbalance(2.5, -1, 1500), "mass", "above 0 kg"),
    (lambda: permissible_unbalance(2.5, 12, 0), "speed", "above 0 r/min"),
    (lambda: permissible_unbalance(2.5, float("nan"), 1500), "mass", "above 0 kg"),
    (lambda: plane_allocation(0, 1, 2), "u_per", "above 0"),
    (lambda: plane_allocation(1, 1, 0), "span", "above 0"),
    (lambda: plane_allocation(1, 600, 500), "centre_from_a", "overhung"),
    (lambda: plane_allocation(1, 0, 500), "centre_from_a", "overhung"),
    (lambda: plane_allocation(1, 1, 2, least_share=0.6), "least_share", "0 to 0.5"),
    (lambda: centrifugal_force(-1, 100), "unbalance", "0 g mm or above"),
    (lambda: from_displacement(-1, 100), "displacement", "0 um or above"),
    (lambda: from_velocity(1, 0), "speed", "above 0"),
    (lambda: from_acceleration(-1, 100), "acceleration", "0 m/s2"),
    (lambda: velocity_rms([1.0]), "record", "2 or more"),
    (lambda: velocity_rms([1.0, float("inf")]), "record, no. 2", "2 or more"),
    (lambda: zone(-0.1, "I"), "velocity", "0 mm/s or above"),
    (lambda: zone(1, "V"), "machine_class", "I, II, III or IV"),
    (lambda: relative_centrifugal_force(0, 1), "radius", "above 0"),
    (lambda: relative_centrifugal_force(1, -1), "speed", "0 r/min"),
    (lambda: speed_for(-1, 1), "rcf", "0 or above"),
    (lambda: KIND["vibration"].compute(), "velocity", "one of"),
    (lambda: KIND["vibration"].compute(velocity=1, displacement=1, speed=100), "velocity", "one of"),
    (lambda: KIND["vibration"].compute(displacement=1), "speed", "a speed"),
    (lambda: KIND["relative-centrifugal-force"].compute(radius=1), "speed", "one of them"),
    (lambda: KIND["relative-centrifugal-force"].compute(radius=1, speed=1, wanted=1), "speed", "one of them"),
    (lambda: balanced(span=None), "span", "both"),
    (lambda: balanced(residual_b=None), "residual_b", "both planes"),
    (lambda: balanced(residual=3.0), "residual", "one plane"),
    (lambda: balanced(residual_a=-1.0), "residual_a", "0 g mm"),
    (lambda: balanced(machine_error=-1.0), "machine_error", "0 g mm"),
]


@pytest.mark.parametrize(("wrong", "field", "allowed"), REFUSED)
def test_what_cannot_be_is_refused(wrong: Callable[[], object], field: str, allowed: str) -> None:
    """The field is named, and what is allowed in it."""
    refuses(wrong, field, allowed)


def balanced(**changed: object):  # type: ignore[no-untyped-def]
    """The worked rotor with something else in it."""
    return KIND["residual-unbalance"].compute(**(dict(KIND["residual-unbalance"].example) | changed))


def test_the_worked_rotor_is_accepted() -> None:
    """Both planes within; the plane nearer its limit is told."""
    found = balanced()
    assert found.verdict == "accept"
    assert found["u_per_a"] == near(114.591559) and found["u_per_b"] == near(76.394373)
    assert found["used"] == near(90 / 114.591559) and found["force"] == near(4.712389)


@pytest.mark.parametrize(("a", "b", "error", "verdict"), [
    (114.5, 76.3, 0, "accept"), (114.7, 10, 0, "reject"), (10, 76.5, 0, "reject"), (110, 10, 5, "inconclusive"),
    (117, 10, 5, "inconclusive"), (120, 10, 5, "reject"), (109, 71, 5, "accept"), (0, 0, 0, "accept"),
])  # fmt: skip
def test_the_worse_plane_decides(a: float, b: float, error: float, verdict: str) -> None:
    """One plane out is enough; what the machine's error leaves open is not decided."""
    assert balanced(residual_a=a, residual_b=b, machine_error=error).verdict == verdict


def test_one_plane_is_held_against_the_whole() -> None:
    """A disc balanced in one plane may have all of U_per there."""
    found = balanced(residual=190.0, residual_a=None, residual_b=None)
    assert found.verdict == "accept" and found["used"] == near(190 / 190.985932)


def test_without_a_residual_nothing_is_judged() -> None:
    """Then the permissible values are the answer; without distances each plane has half."""
    found = balanced(residual_a=None, residual_b=None, centre_from_a=None, span=None)
    assert found.verdict == "" and found["used"] is None
    assert found["u_per_a"] == found["u_per_b"] == near(190.985932 / 2)
    assert any("midway" in note for note in found.notes)


def test_a_limited_share_and_an_unusual_grade_are_told() -> None:
    """The lever rule's own share stands in the note, and 0 brings it back; a grade may be a slip of the finger."""
    limited, lever = balanced(centre_from_a=50), balanced(centre_from_a=50, least_share=0.0)
    assert limited["u_per_b"] == near(0.3 * 190.985932) and lever["u_per_b"] == near(0.1 * 190.985932)
    assert any("90.0 %" in note and "verify" in note for note in limited.notes)
    assert not any("verify" in note for note in lever.notes)
    assert any("G 3 " in note for note in balanced(grade=3).notes)


def test_vibration_by_each_way_is_the_same() -> None:
    """Displacement, acceleration and velocity of one sine; without a speed there is no sine."""
    ways = {"displacement": 50.0, "velocity": 2.776801836, "acceleration": 0.436179012}
    for field, value in ways.items():
        found = KIND["vibration"].compute(**{field: value}, speed=1500, machine_class="II")
        assert [found[name] for name in ways] == near([50, 2.776801836, 0.436179012]) and found["zone"] == "B"
    bare = KIND["vibration"].compute(record=[1.0, 3.0, 1.0, 3.0])
    assert bare["velocity"] == 1 and bare["displacement"] is None and bare["zone"] is None


def test_slow_machines_and_old_classes_are_told() -> None:
    """Below 600 r/min the usual band misses the running frequency."""
    notes = " ".join(KIND["vibration"].compute(velocity=1, speed=500, machine_class="I").notes)
    assert "below 10 Hz" in notes and "superseded" in notes


def test_every_kind_computes_its_example_and_says_what_is_judged() -> None:
    """The judged value is among the results and is a number."""
    for kind in KINDS:
        found = kind.compute(**kind.example)
        assert set(kind.example) <= {field.name for field in kind.fields}
        assert not kind.judged or isinstance(found[kind.judged], float)
