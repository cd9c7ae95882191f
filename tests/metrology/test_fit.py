"""Tolerance classes: laws that hold for every size and class, ends of ranges, refusals, what the kind says."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.metrology.fit_class import deviations, interference
from teardown_app.metrology.fundamental_deviation import BELOW_UM, LARGEST_GRADE, LETTERS, fundamental_deviation
from teardown_app.metrology.kind import Result
from teardown_app.metrology.kinds.fit import KINDS
from teardown_app.metrology.standard_tolerance import ENDS_MM, standard_tolerance
from tests.metrology.refusal import refuses

KIND = KINDS[0]
near = pytest.approx
CLASSES = [f"{letter}{grade}" for letter in LETTERS for grade in range(5, LARGEST_GRADE.get(letter, 11) + 1)]
HOLES = [fit for fit in CLASSES if fit[0].isupper()]
SHAFTS = [fit for fit in CLASSES if fit[0].islower()]
sizes, classes = st.floats(3, 500), st.sampled_from(CLASSES)


def fit(**read: object) -> Result:
    """The kind, computed."""
    return KIND.compute(**read)


def came_out(found: Result, *names: str) -> list[object]:
    """Values by name."""
    return [next(one.value for one in found.values if one.name == name) for name in names]


@given(sizes, classes)
def test_limits_lie_a_standard_tolerance_apart(nominal: float, one: str) -> None:
    """For every class, and the limits are nominal and deviation."""
    found = deviations(nominal, one)
    width = standard_tolerance(nominal, int(one.strip("".join(LETTERS))))
    assert found.upper - found.lower == near(width) == near(found.largest - found.smallest, abs=1e-8)
    assert found.smallest == near(nominal + found.lower, abs=1e-9) and found.lower <= found.upper


@given(sizes, st.sampled_from(sorted(BELOW_UM)), st.integers(5, 11))
def test_holes_mirror_shafts_that_have_clearance(nominal: float, letter: str, grade: int) -> None:
    """D to H lie above nominal by what d to h lie below."""
    shaft, hole = deviations(nominal, f"{letter}{grade}"), deviations(nominal, f"{letter.upper()}{grade}")
    assert (hole.lower, hole.upper) == (-shaft.upper, -shaft.lower)


@given(st.floats(3.001, 500), st.sampled_from([("K", 7), ("K", 8), ("M", 7), ("N", 6), ("N", 8), ("P", 6), ("P", 7)]))
def test_shaft_basis_gives_the_same_fit(nominal: float, one: tuple[str, int]) -> None:
    """What Delta is for: H7/p6 and P7/h6 clamp alike."""
    letter, grade = one
    small = 7 if (letter, grade) == ("K", 8) else grade - 1  # k has its value to grade 7
    on_hole = interference(nominal, f"H{grade}", f"{letter.lower()}{small}")
    on_shaft = interference(nominal, f"{letter}{grade}", f"h{small}")
    assert on_hole[:2] == near(on_shaft[:2], abs=1e-9)


@given(sizes, st.sampled_from(HOLES), st.sampled_from(SHAFTS))
def test_clearances_spread_by_both_tolerances(nominal: float, hole: str, shaft: str) -> None:
    """Largest less least is the sum of both; the word follows from the two."""
    one, other = deviations(nominal, hole), deviations(nominal, shaft)
    found = interference(nominal, hole, shaft)
    assert found.largest_clearance - found.least_clearance == near(one.upper - one.lower + other.upper - other.lower)
    words = {(True, True): "clearance", (False, True): "transition", (False, False): "interference"}
    assert found.fit == words[found.least_clearance >= 0, found.largest_clearance > 0]


@given(classes, st.data())
def test_wider_grades_and_larger_sizes_are_wider(one: str, data: st.DataObject) -> None:
    """Standard tolerances grow with grade and with size."""
    grade, small = data.draw(st.integers(4, 10)), data.draw(st.floats(0.1, 500))
    large = data.draw(st.floats(small, 500))
    assert standard_tolerance(small, grade) < standard_tolerance(small, grade + 1)
    assert standard_tolerance(small, grade) <= standard_tolerance(large, grade)


@pytest.mark.parametrize("end", ENDS_MM[:-1])
def test_a_size_on_an_end_belongs_to_the_smaller_range(end: int) -> None:
    """Over 3 up to and including 6 mm; noise of the number does not carry it over."""
    at, over = standard_tolerance(end, 7), standard_tolerance(end + 1e-6, 7)
    assert at < over and standard_tolerance(end * (1 + 2e-16), 7) == at == standard_tolerance(end * 0.999, 7)
    assert fundamental_deviation(end, "f", 7) > fundamental_deviation(end + 1e-6, "f", 7)


def test_noise_of_numbers_moves_no_limit() -> None:
    """0.1 * 3 * 10 is 3 mm; limits come out as they are written."""
    assert 0.1 * 3 * 10 > 3
    assert deviations(0.1 * 3 * 10, "H7").upper == 0.010
    assert deviations(500 * (1 + 1e-15), "H7").upper == 0.063
    assert deviations(19.7, "h6")[2:] == (19.687, 19.7) and deviations(0.3, "js5")[:2] == (-0.002, 0.002)


def test_to_three_millimetres_there_is_no_delta() -> None:
    """Holes K to P lie below nominal by what the shafts lie above."""
    lying = [deviations(2, one)[:2] for one in ("K6", "K8", "M7", "N6", "N9", "P7", "P9", "k6", "k9")]
    assert lying == [(-0.006, 0), (-0.014, 0), (-0.012, -0.002), (-0.010, -0.004), (-0.029, -0.004), (-0.016, -0.006),
                     (-0.031, -0.006), (0, 0.006), (0, 0.025)]  # fmt: skip


def test_h7_p6_turns_from_transition_to_interference() -> None:
    """Above 3 mm there is no clearance left; touching on both sides counts as H/h does, as clearance."""
    assert interference(3, "H7", "p6").fit == "transition" and interference(3.1, "H7", "p6").fit == "interference"
    assert interference(3.1, "H7", "p6").largest_clearance == 0
    assert interference(20, "H7", "h6") == (0, 0.034, "clearance")
    assert interference(20, "P7", "h6").fit == "interference"


def test_case_tells_hole_from_shaft() -> None:
    """Blanks around a class do not matter."""
    assert deviations(20, " H7 ").upper == 0.021 and deviations(20, "h7").upper == 0


REFUSED: list[tuple[Callable[[], object], str, str]] = [
    (lambda: standard_tolerance(0, 7), "nominal", "above 0 to 500 mm"),
    (lambda: standard_tolerance(500.001, 7), "nominal", "above 0 to 500 mm"),
    (lambda: standard_tolerance(float("nan"), 7), "nominal", "above 0"),
    (lambda: standard_tolerance(20, 12), "grade", "4 to 11"),
    (lambda: standard_tolerance(20, True), "grade", "a whole number"),
    (lambda: fundamental_deviation(-1, "h", 7), "nominal", "above 0"),
    (lambda: fundamental_deviation(20, "q", 7), "letter", "JS"),
    (lambda: fundamental_deviation(20, "h", 4), "grade", "5 or more"),
    (lambda: fundamental_deviation(20, "K", 9), "grade", "4 to 8"),
    (lambda: fundamental_deviation(1, "N", 9), "grade", "5 to 8"),
    (lambda: deviations(20, "K9"), "fit", "K M of 5 to 8"),
    (lambda: deviations(1, "N9"), "fit", "above 1 mm"),
    (lambda: deviations(20, "H7/g6"), "fit", "one class"),
    (lambda: deviations(20, "s6"), "fit", "write the limits out"),
    (lambda: deviations(20, "Js7"), "fit", "JS"),
    (lambda: deviations(20, "H12"), "fit", "5 to 11"),
    (lambda: deviations(20, "H07"), "fit", "H7"),
    (lambda: deviations(20, ""), "fit", "H7"),
    (lambda: deviations(0, "H7"), "nominal", "above 0"),
    (lambda: deviations(0.05, "d11"), "nominal", "above 0.08 mm"),
    (lambda: interference(20, "g6", "H7"), "hole", "in capitals"),
    (lambda: interference(20, "H7", "G6"), "shaft", "in small letters"),
    (lambda: interference(20, "H7", "s6"), "shaft", "write the limits out"),
    (lambda: interference(20, "R7", "h6"), "hole", "write the limits out"),
    (lambda: interference(600, "H7", "h6"), "nominal", "500"),
    (lambda: fit(nominal=20, fit="H7/g6", reading=20), "reading", "one class"),
    (lambda: fit(nominal=20, fit="g6/H7"), "fit", "hole/shaft"),
    (lambda: fit(nominal=20, fit="H7/"), "fit", "for the shaft"),
    (lambda: fit(nominal=0, fit="H7/h6"), "nominal", "above 0"),
    (lambda: fit(nominal=20, fit=7), "fit", "H7/g6"),
    (lambda: fit(nominal=20, fit="H7", reading=-20), "reading", "above 0 mm"),
    (lambda: fit(nominal=20, fit="H7", reading=float("inf")), "reading", "above 0 mm"),
]


@pytest.mark.parametrize(("wrong", "field", "allowed"), REFUSED)
def test_what_cannot_be_is_refused(wrong: Callable[[], object], field: str, allowed: str) -> None:
    """The field is named, and what is allowed in it."""
    refuses(wrong, field, allowed)


@pytest.mark.parametrize(("reading", "verdict", "margin"), [
    (20.013, "accept", 0.008), (20.0, "accept", 0), (20.021, "accept", 0), (20.0211, "reject", -0.0001),
    (19.999, "reject", -0.001)])  # fmt: skip
def test_a_reading_is_judged(reading: float, verdict: str, margin: float) -> None:
    """On a limit it is good."""
    found = fit(nominal=20.0, fit="H7", reading=reading)
    assert found.verdict == verdict and found["margin"] == near(margin, abs=1e-9)
    assert came_out(found, "smallest", "largest") == [20.0, 20.021]
    assert any("uncertainty is not known" in note for note in found.notes)


def test_without_reading_there_are_limits_and_no_verdict() -> None:
    """And the temperature they hold at."""
    found = fit(nominal=50, fit="f7")
    assert found.verdict == "" and came_out(found, "lower_deviation", "upper_deviation") == [-0.050, -0.025]
    assert "20 °C" in found.notes[0] and len(found.notes) == 1


def test_a_pair_gives_both_and_their_clearance() -> None:
    """H7/g6 slides, H7/k6 may do either."""
    found = fit(nominal=20, fit="H7 / g6")
    assert came_out(found, "least_clearance", "largest_clearance", "fit") == [0.007, 0.041, "clearance"]
    assert came_out(found, "hole_largest", "shaft_smallest") == [20.021, 19.98] and found.verdict == ""
    assert any("transition" in note for note in fit(nominal=60, fit="H7/k6").notes)


def test_halves_of_js_are_told() -> None:
    """In grades that some tables round, where there is a half."""
    told = {one: any("exact half" in note for note in fit(nominal=20, fit=one).notes) for one in
            ("JS7", "js7", "js6", "js8", "js9", "h7")}  # fmt: skip
    assert told == {"JS7": True, "js7": True, "js6": False, "js8": True, "js9": False, "h7": False}


def test_the_example_is_computed() -> None:
    """With fields that are there; it judges by itself."""
    assert set(KIND.example) <= {field.name for field in KIND.fields} and not KIND.judged
    assert KIND.compute(**KIND.example).verdict == "accept"
