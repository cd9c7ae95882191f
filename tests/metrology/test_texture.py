"""Surface texture: what must hold for every profile, what is refused, and what every kind gives."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teardown_app.domain.measure.measuring import measure
from teardown_app.metrology.cut_off import cut_off_for_limit, cut_off_for_spacing, stylus_for
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.gaussian_profile import (
    ENDS,
    gaussian_filter,
    gaussian_transmission,
    gaussian_weight,
)
from teardown_app.metrology.kinds.texture import KINDS
from teardown_app.metrology.profile_form import circle_form, polynomial_form
from teardown_app.metrology.texture_acceptance import STAGES, maximum_rule, sixteen_percent_rule, stop_rule
from teardown_app.metrology.texture_change import change_by_place
from teardown_app.metrology.texture_parameters import STANDARDS, roughness_parameters
from teardown_app.metrology.trace import FORMS, evaluate_trace
from teardown_app.metrology.trace_checks import point_spacing, points_at_stop

BY_NAME = {kind.name: kind for kind in KINDS}
heights = st.lists(st.integers(-5000, 5000).map(lambda k: k / 1000), min_size=20, max_size=120)
ends = st.sampled_from(ENDS)
standards = st.sampled_from(STANDARDS)


def noise(n: int, seed: int = 1) -> np.ndarray:
    """A profile such as grinding leaves."""
    return np.convolve(np.random.default_rng(seed).normal(0, 1, n + 20), np.ones(21) / 5, "valid")


@given(heights, standards)
def test_a_mirrored_profile_keeps_its_heights_and_turns_its_skewness(z: list[float], standard: str) -> None:
    """Peaks become valleys; nothing else changes."""
    up, down = (roughness_parameters(sign * np.array(z), standard=standard) for sign in (1.0, -1.0))
    same = [down.ra, down.rq, down.rz, down.rt, down.rv, down.rp, down.rzx]
    assert np.allclose([up.ra, up.rq, up.rz, up.rt, up.rp, up.rv, up.rzx], same, rtol=1e-12, atol=1e-12)
    if up.rsk is not None and down.rsk is not None and up.rku is not None and down.rku is not None:
        assert up.rsk == pytest.approx(-down.rsk, abs=1e-9)
        assert up.rku == pytest.approx(down.rku, rel=1e-9)


@given(heights, st.floats(0.01, 100), st.floats(-1e4, 1e4))
def test_heights_scale_and_the_level_does_not_matter(z: list[float], scale: float, level: float) -> None:
    """um or nm, near the datum or far above it."""
    one = roughness_parameters(z)
    other = roughness_parameters(scale * np.array(z) + level)
    for name in ("ra", "rq", "rz", "rt", "rp", "rv", "rzx"):
        assert getattr(other, name) == pytest.approx(scale * getattr(one, name), rel=1e-6, abs=1e-9)


@given(heights, standards)
def test_the_parameters_keep_their_order(z: list[float], standard: str) -> None:
    """Ra <= Rq <= Rt, Rz <= Rzx <= Rt, Rku >= 1 + Rsk^2."""
    found = roughness_parameters(z, standard=standard)
    slack = 1e-9 * (1 + found.rt)
    assert found.ra <= found.rq + slack <= found.rt + 2 * slack
    assert found.rz <= found.rzx + slack <= found.rt + 2 * slack
    assert found.rz == pytest.approx(found.rp + found.rv)
    if found.rsk is not None and found.rku is not None and standard == "ISO 21920-2":
        assert found.rku >= 1 + found.rsk**2 - 1e-9


@given(heights)
def test_direction_does_not_matter(z: list[float]) -> None:
    """A trace run backwards gives the same parameters where the sections divide evenly."""
    row = np.array(z[: len(z) // 5 * 5])
    there, back = roughness_parameters(row), roughness_parameters(row[::-1])
    assert np.allclose(there[:6], back[:6], rtol=1e-9, atol=1e-12)


def test_a_level_profile_at_a_great_height_has_no_roughness() -> None:
    """Rounding is no roughness, and its skewness is not defined."""
    found = roughness_parameters(np.full(1000, 1e6 / 3))
    assert found[:6] == (0, 0, 0, 0, 0, 0)
    assert found.rsk is None
    assert found.rku is None


def test_heights_of_any_size_are_borne() -> None:
    """Fourth powers neither overflow nor vanish."""
    for scale in (1e-120, 1e120):
        found = roughness_parameters(np.array([1.0, -1, 2, -2, 3, -3, 1, -1, 2, -2]) * scale)
        assert found.rku == pytest.approx(23 / 3.8**2)


@given(st.integers(0, 5), st.lists(st.floats(-100, 100), min_size=6, max_size=6), st.floats(-1e6, 1e6))
def test_a_polynomial_of_the_degree_taken_off_leaves_nothing(degree: int, c: list[float], level: float) -> None:
    """Whatever its coefficients."""
    x = np.linspace(0, 1, 300)
    z = level + sum(c[k] * x**k for k in range(degree + 1))
    assert np.abs(polynomial_form(z, degree).rest).max() <= 1e-12 * (abs(level) + 600)


@given(heights, st.integers(0, 5))
def test_form_and_rest_are_the_profile_and_taking_off_twice_changes_nothing(z: list[float], degree: int) -> None:
    """The rest holds no more of the form."""
    once = polynomial_form(z, degree)
    assert np.allclose(once.form + once.rest, z, atol=1e-12)
    assert np.abs(polynomial_form(once.rest, degree).form).max() < 1e-10


@given(st.floats(1.0, 1000), st.floats(-0.5, 0.5), st.sampled_from([1.0, -1.0]), st.floats(-1e5, 1e5))
def test_any_arc_is_found(radius: float, aside: float, crest: float, level: float) -> None:
    """Crest and hollow, its top anywhere, at any height."""
    x = np.linspace(-0.4, 0.4, 401)
    found = circle_form(level + 1000 * crest * np.sqrt(radius**2 - (x - aside) ** 2), 0.002)
    assert found.radius == pytest.approx(crest * radius, rel=1e-6)
    assert np.abs(found.rest).max() < 1e-8


def test_a_straight_profile_is_an_arc_without_radius() -> None:
    """Its slope is that of the line: 1 um in 0.001 mm stands at 45 degrees."""
    found = circle_form(np.arange(100.0), 0.001)
    assert found.radius == float("inf")
    assert found.slope == pytest.approx(45)
    assert np.abs(found.rest).max() < 1e-9


@settings(max_examples=50)
@given(heights, heights, st.floats(-5, 5), ends, st.sampled_from([0.006, 0.011, 0.05, 0.2]))
def test_the_filter_is_linear(a: list[float], b: list[float], share: float, way: str, cut: float) -> None:
    """The mean line of a sum is the sum of mean lines."""
    n = min(len(a), len(b))
    if way == "discard" and n <= 2 * np.ceil(cut / 0.002):
        way = "renormalise"
    one, two, both = (gaussian_filter(z, 0.001, cut, ends=way).mean_line
                      for z in (a[:n], b[:n], np.array(a[:n]) + share * np.array(b[:n])))  # fmt: skip
    assert np.allclose(both, one + share * two, atol=1e-10)


@given(heights, ends)
def test_the_filter_is_symmetric_and_parts_the_profile(z: list[float], way: str) -> None:
    """Backwards in, backwards out; mean line and roughness are the profile."""
    there, back = gaussian_filter(z, 0.001, 0.01, ends=way), gaussian_filter(z[::-1], 0.001, 0.01, ends=way)
    assert np.allclose(there.mean_line, back.mean_line[::-1], atol=1e-12)
    kept = np.array(z)[there.first : len(z) - there.first]
    assert np.allclose(there.mean_line + there.roughness, kept, atol=1e-12)


@given(st.floats(-1e6, 1e6), ends, st.integers(3, 200))
def test_a_constant_is_its_own_mean_line_up_to_the_ends(level: float, way: str, per_cut_off: int) -> None:
    """Whatever the kernel reaches over."""
    found = gaussian_filter(np.full(500, level), 0.8 / (per_cut_off + 1), 0.8, ends=way)
    assert np.all(found.roughness == 0)


@pytest.mark.parametrize("points", [30, 300, 3000])
def test_a_straight_profile_is_its_own_mean_line(points: int) -> None:
    """Within the ends for every way, up to the ends where a line is fitted there."""
    z = 3 + 0.02 * np.arange(points)
    assert np.abs(gaussian_filter(z, 0.001, 0.4, ends="line").roughness).max() < 1e-8
    if points > 900:
        assert np.abs(gaussian_filter(z, 0.001, 0.4, ends="renormalise").roughness[401:-401]).max() < 1e-9


@given(st.floats(1e-4, 1000), st.floats(1e-4, 1000))
def test_transmission_falls_with_the_cut_off(a: float, b: float) -> None:
    """The longer the wave the more of it stays in the mean line; half at the cut-off."""
    short, long = gaussian_transmission([min(a, b), max(a, b)], 0.8)
    assert 0 <= short <= long < 1 or long == 1
    assert gaussian_transmission(a, a) == 0.5


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 1000), st.floats(-100, 100), st.floats(-1e4, 1e4), ends, standards)
def test_tilt_level_and_direction_of_a_trace_do_not_matter(
    seed: int, tilt: float, level: float, way: str, standard: str
) -> None:
    """They are taken off with the form."""
    z = noise(2400, seed)
    plain, tilted = (evaluate_trace(one, 0.001, 0.4, ends=way, standard=standard, short_wave=8)
                     for one in (z, (z + tilt * 0.001 * np.arange(2400) + level)[::-1]))  # fmt: skip
    for name in ("ra", "rq", "rz", "rt", "rp", "rv", "rsk", "rku"):
        assert getattr(tilted.parameters, name) == pytest.approx(getattr(plain.parameters, name), rel=1e-7, abs=1e-8)
    assert np.array_equal(plain.profile, plain.mean_line + plain.roughness)
    assert len(plain.x) == len(plain.roughness) == 2000


@pytest.mark.parametrize("form", FORMS)
def test_nothing_is_left_of_a_trace_that_is_all_form(form: str) -> None:
    """A curve of the form that is taken off has no roughness, and it is said."""
    x = 0.001 * (np.arange(2400) - 1200)
    degree = FORMS.index(form)
    z = 1000 * np.sqrt(25.0 - x**2) if form == "circle" else 3 + (40 * x**degree if degree else 0 * x)
    found = evaluate_trace(z, 0.001, 0.4, form=form, short_wave=0)
    assert found.parameters.ra < 1e-9
    assert found.notes[0].startswith("Nothing is left") == (found.parameters.ra == 0)


def test_roughness_on_an_arc_is_found_and_a_steep_arc_is_told() -> None:
    """The sine on it comes back; on a small radius the slope is named."""
    x = 0.0005 * (np.arange(9600) - 4800)
    wave = 0.5 * np.sin(2 * np.pi * x / 0.05)
    for radius, steep in ((50.0, False), (5.0, True)):
        found = evaluate_trace(wave + 1000 * np.sqrt(radius**2 - x**2), 0.0005, 0.8, form="circle")
        assert found.parameters.ra == pytest.approx(0.5 * 2 / np.pi, rel=3e-3)
        assert any("slopes by up to" in note for note in found.notes) == steep


def test_the_middle_of_a_long_trace_is_evaluated() -> None:
    """Five cut-offs, as much left out before as after."""
    found = evaluate_trace(noise(20_000), 0.0005, 0.8)
    assert len(found.x) == 8000
    assert found.x[0] + found.x[-1] == pytest.approx(0.0005 * 19_999)


@pytest.mark.parametrize(("points", "way", "enough"), [
    (9600, "discard", True), (9599, "discard", True), (9500, "discard", False), (8000, "discard", False),
    (8000, "line", True), (7900, "renormalise", False),
])  # fmt: skip
def test_a_trace_must_be_long_enough(points: int, way: str, enough: bool) -> None:
    """Six cut-offs where half a one is left out at both ends, else five; the needed length is named."""
    if enough:
        assert len(evaluate_trace(noise(points), 0.0005, 0.8, ends=way).x) >= 7999
        return
    with pytest.raises(BadInput, match=r"4\.8 mm or more" if way == "discard" else r"4 mm or more"):
        evaluate_trace(noise(points), 0.0005, 0.8, ends=way)


@pytest.mark.parametrize("last_digit", [0, 0.001, 0.01])
def test_a_clipped_trace_is_refused_and_others_are_not(last_digit: float) -> None:
    """Noise and sines clipped at one side or both; not rounded tops, square grooves, arcs, level traces."""
    x, ground = 0.0005 * np.arange(9600), noise(9600)
    sine, square = 2 * np.sin(2 * np.pi * x / 0.1), np.where(np.arange(9600) % 400 < 200, 1.0, -1.0)
    whole = [ground, 0.1 * ground, sine, sine + 30 * x, 1000 * x**2, np.cumsum(square), 0 * x]
    whole += [square, np.sign(np.round(sine, 9))]
    clipped = [np.minimum(ground, 1), np.clip(ground, -1, 2), np.maximum(sine, -1.5), np.minimum(sine + 30 * x, 100)]
    for z, expected in [(one, False) for one in whole] + [(one, True) for one in clipped]:
        assert bool(points_at_stop(np.round(z / last_digit) * last_digit if last_digit else z)) == expected
    assert "a square profile, or a pick-up" in evaluate_trace(square, 0.0005, 0.8).notes[0]
    with pytest.raises(BadInput, match="clipped at"):
        evaluate_trace(np.minimum(ground, 1), 0.0005, 0.8)


def test_coarse_steps_are_told() -> None:
    """Coarser than ISO 3274: a note; too coarse for the short waves: none are taken off, and it is said."""
    found = evaluate_trace(noise(1200), 0.004, 0.8)
    assert found.short_wave == 0
    assert [note[:17] for note in found.notes] == ["A step of 4 um is", "A step of 4 um is"]
    assert evaluate_trace(noise(9600), 0.0005, 0.8).notes == ()
    assert "no cut-off of 0.5 mm" in evaluate_trace(noise(9600), 0.0005, 0.5).notes[0]


def test_gaps_in_positions_are_found() -> None:
    """One point left out of many; but rounded positions are none, nor do they run backwards in vain."""
    x = 0.001 * np.arange(1000)
    assert point_spacing(np.delete(x, 500)).uneven == 500
    assert point_spacing(np.delete(x, [500, 501, 502])).uneven == 500
    assert point_spacing(x[::-1])[:2] == (pytest.approx(-0.001), -1)
    assert point_spacing(np.round(0.0008 * np.arange(1000), 3)).uneven == -1
    assert point_spacing([1.0, 1.0, 1.0]).uneven == 1
    assert point_spacing([0.0, 1.0, 0.0, 1.0]).uneven > 0


readings = st.lists(st.floats(0.0, 1.0), min_size=1, max_size=15)
RANK = ("reject", "read more", "accept")


@given(readings, st.integers(0, 14), st.floats(0.0, 1.0),
       st.sampled_from([maximum_rule, sixteen_percent_rule, stop_rule]))  # fmt: skip
def test_a_smoother_reading_never_makes_the_verdict_worse(values, place, factor, rule) -> None:
    """Each rule is monotone in every reading, and in the limit."""
    better = list(values)
    better[place % len(values)] *= factor
    before = RANK.index(rule(values, 0.5).verdict)
    assert RANK.index(rule(better, 0.5).verdict) >= before
    assert RANK.index(rule(values, 0.6).verdict) >= before


@given(readings)
def test_as_many_more_readings_as_asked_for_decide_or_ask_again(values: list[float]) -> None:
    """With good readings at the next places the stage asked for accepts."""
    found = stop_rule(values, 0.5)
    assert (found.more > 0) == (found.verdict == "read more")
    if found.more:
        assert len(values) + found.more in [count for count, _ in STAGES]
        assert stop_rule([*values, *[0.5] * found.more], 0.5).verdict == "accept"
        assert stop_rule([*values, *[0.51] * (found.more + 9)], 0.5).verdict == "reject"


def test_a_reading_at_the_limit_or_at_seventy_percent_keeps_it() -> None:
    """Also where binary numbers fall short: 0.7 x 0.4 is not quite 0.28."""
    assert stop_rule([0.28], 0.4).verdict == stop_rule([0.4, 0.4, 0.4], 0.4).verdict == "accept"
    assert maximum_rule([0.1 + 0.2], 0.3).verdict == "accept"
    assert maximum_rule([0.3001], 0.3).verdict == "reject"


@given(st.floats(1e-3, 79), st.floats(1e-3, 79), st.sampled_from(["Ra", "Rz"]),
       st.sampled_from(["ISO 21920-3", "ISO 4288"]))  # fmt: skip
def test_a_finer_limit_never_takes_a_longer_cut_off(a: float, b: float, parameter: str, standard: str) -> None:
    """And lengths are five and six cut-offs."""
    fine, coarse = (cut_off_for_limit(one, parameter, standard) for one in sorted((a, b)))
    assert fine.cut_off <= coarse.cut_off
    assert fine.evaluation == pytest.approx(5 * fine.section)
    assert fine.traverse == pytest.approx(6 * fine.cut_off)


ROW = [1.0, -1.0] * 20
REFUSALS = [
    (lambda: roughness_parameters([1.0, 2.0]), "heights", "10 or more"),
    (lambda: roughness_parameters([*ROW, float("nan")]), "heights, no. 41", "numbers"),
    (lambda: roughness_parameters(ROW, sections=2.5), "sections", "whole number"),
    (lambda: roughness_parameters(ROW, sections=0), "sections", "1 or above"),
    (lambda: roughness_parameters(ROW, standard="ISO 1"), "standard", "ISO 21920-2 or ISO 4287"),
    (lambda: roughness_parameters(ROW, mean_line="top"), "mean_line", "mean or zero"),
    (lambda: polynomial_form(ROW, 6), "degree", "0, 1, 2, 3, 4 or 5"),
    (lambda: polynomial_form([1.0, 2.0], 2), "heights", "3 or more"),
    (lambda: circle_form([1.0, 2.0, 1.0], 0.1), "heights", "4 or more"),
    (lambda: circle_form(ROW, 0), "step", "above 0"),
    (lambda: circle_form(2000 * np.sqrt(1 - np.linspace(-1, 1, 99) ** 2), 2 / 98), "heights", "half circle"),
    (lambda: gaussian_weight(0.0, 0), "cut_off", "above 0"),
    (lambda: gaussian_weight([np.inf], 0.8), "position, no. 1", "mm"),
    (lambda: gaussian_transmission([0.8, 0.0], 0.8), "wavelength", "above 0"),
    (lambda: gaussian_filter(ROW, 0.1, 0.3), "cut_off", "4 steps or more"),
    (lambda: gaussian_filter(ROW, -0.1, 0.3), "step", "above 0"),
    (lambda: gaussian_filter(ROW, 0.01, 0.1, ends="cut"), "ends", "discard or renormalise or line"),
    (lambda: gaussian_filter(ROW, 0.01, 0.4), "heights", "above 40"),
    (lambda: cut_off_for_limit(0.0), "limit", "above 0"),
    (lambda: cut_off_for_limit(81, "Ra", "ISO 4288"), "limit", "up to 80"),
    (lambda: cut_off_for_limit(1, "Rq"), "parameter", "Ra or Rz"),
    (lambda: cut_off_for_limit(1, "Ra", "DIN"), "standard", "ISO 4288"),
    (lambda: cut_off_for_spacing(0.013), "spacing", "above 0.013"),
    (lambda: cut_off_for_spacing(4.1), "spacing", "up to 4"),
    (lambda: stylus_for(1.0), "cut_off", "0.08, 0.25, 0.8, 2.5, 8"),
    (lambda: stylus_for(0.8, -1), "rz", "0 um or above"),
    (lambda: maximum_rule([], 0.4), "readings", "1 or more"),
    (lambda: sixteen_percent_rule([0.3, -0.1], 0.4), "readings, no. 2", "0 um or above"),
    (lambda: stop_rule([0.3], 0.0), "limit", "above 0"),
    (lambda: change_by_place([1.0], [0.5, 0.4]), "as_left", "1, one for every place"),
    (lambda: change_by_place([0.0], [0.5]), "as_found, no. 1", "above 0"),
    (lambda: change_by_place([1.0], [-0.5]), "as_left, no. 1", "0 um or above"),
    (lambda: point_spacing([1.0]), "x", "2 or more"),
    (lambda: points_at_stop([np.nan]), "heights, no. 1", "um"),
    (lambda: evaluate_trace(noise(960), 0.0005, 0.08, form="bow"), "form", "circle"),
    (lambda: evaluate_trace(noise(960), 0.0005, 0.08, ends="cut"), "ends", "discard"),
    (lambda: evaluate_trace(noise(960), 0.01, 0.08), "step", "a twentieth of the cut-off"),
    (lambda: evaluate_trace(noise(960), 0.0005, 0.08, short_wave=80), "short_wave", "below the cut-off"),
    (lambda: evaluate_trace(noise(960), 0.0005, 0.08, sections=1.5), "sections", "whole number"),
    (lambda: evaluate_trace(noise(960), 0.0005, 0.08, standard="DIN"), "standard", "ISO 21920-2"),
    (lambda: evaluate_trace([*noise(960), np.nan], 0.0005, 0.08), "heights, no. 961", "um"),
]  # fmt: skip


@pytest.mark.parametrize(("call", "field", "allowed"), REFUSALS)
def test_what_cannot_be_is_refused(call, field: str, allowed: str) -> None:
    """The field is named and what is allowed."""
    with pytest.raises(BadInput) as wrong:
        call()
    assert wrong.value.field == field
    assert allowed in wrong.value.allowed


def _given(name: str, **fields):
    return measure(BY_NAME[name], fields)


@pytest.mark.parametrize("kind", KINDS, ids=[kind.name for kind in KINDS])
def test_every_example_is_computed(kind) -> None:
    """And has the value that is judged."""
    found = measure(kind, kind.example)
    assert all(value.value is None or np.isfinite(value.value) for value in found.result.values
               if not isinstance(value.value, str))  # fmt: skip
    assert not kind.judged or isinstance(found.result[kind.judged], float)


def test_readings_are_judged_by_the_rule_of_the_drawing() -> None:
    """The same six readings pass the 16 % rule and fail the maximum rule, which ISO 21920 takes by itself."""
    six = [0.35, 0.38, 0.43, 0.36, 0.31, 0.39]
    assert _given("roughness", readings=six, limit=0.4, rule="16 %").verdict == "accept"
    assert _given("roughness", readings=six, limit=0.4, rule="maximum").verdict == "reject"
    assert _given("roughness", readings=six, limit=0.4).verdict == "reject"
    assert _given("roughness", readings=six, limit=0.4, standard="ISO 4288").verdict == "accept"
    assert _given("roughness", readings=six, limit=0.4, rule="16 % share").verdict == "reject"
    few = _given("roughness", readings=six[:3], limit=0.4, rule="16 %", places="A, B, C")
    assert (few.verdict, few.result["more_readings"], few.result["at"]) == ("inconclusive", 3, "C")


def test_a_cut_off_that_does_not_fit_the_limit_is_told() -> None:
    """0.8 mm goes with 0.4 um; 0.25 mm does not."""
    for cut, told in ((0.8, False), (0.25, True)):
        notes = _given("roughness", readings=[0.3], limit=0.4, cut_off=cut, rule="maximum").result.notes
        assert any("does not fit the limit" in note for note in notes) == told
    late = _given("roughness", readings=[0.2, 0.5, 0.5], limit=0.4, rule="16 %")
    assert late.verdict == "accept"
    assert "Of all 3 readings 2 are over the limit (66.7 %)." in late.result.notes


def test_a_trace_is_judged_by_the_parameter_asked_for() -> None:
    """The cut-off follows from the limit on the drawing, step from the positions."""
    x = 0.0005 * np.arange(9600)
    z = (2 * np.sin(2 * np.pi * x / 0.1)).tolist()
    found = _given("roughness-trace", heights=z, x=x.tolist(), limit=6.0, parameter="Rz", limit_max=3.9)
    assert (found.result["cut_off"], found.result["evaluation_length"], found.verdict) == (0.8, 4.0, "reject")
    assert found.result["roughness"] == found.result["rz"] == pytest.approx(4, rel=1e-3)
    assert _given("roughness-trace", heights=z, step=0.0005, cut_off=0.8, limit_max=1.3).verdict == "accept"
    told = _given("roughness-trace", heights=z, step=0.0005, cut_off=0.25, limit=1.5).result.notes
    assert "The cut-off of 0.25 mm does not fit the limit, which asks for 0.8 mm." in told


def test_before_and_after_is_judged_where_least_has_changed() -> None:
    """A place that became rougher is named."""
    found = _given("roughness-before-after", as_found=[0.8, 0.5], as_left=[0.4, 0.6], places="seat, bore", limit_min=30)
    assert found.verdict == "reject"
    assert found.result.notes == ("Rougher than before at bore.",)
    assert found.result["reduction_1"] == pytest.approx(50)


KIND_REFUSALS = [
    ("roughness", {"readings": [0.3], "limit": 0.4, "places": "A, B"}, "places"),
    ("cut-off", {}, "limit"),
    ("cut-off", {"limit": 1, "rsm": 0.2}, "limit"),
    ("cut-off", {"rsm": 0.2}, "standard"),
    ("roughness-trace", {"heights": [0.0] * 9, "step": 0.1}, "cut_off"),
    ("roughness-trace", {"heights": [0.0] * 9, "step": 0.1, "limit": 1, "parameter": "Rq"}, "cut_off"),
    ("roughness-trace", {"heights": [0.0] * 9, "cut_off": 0.8}, "step"),
    ("roughness-trace", {"heights": [0.0] * 3, "cut_off": 0.8, "x": [0, 0.1]}, "x"),
    ("roughness-trace", {"heights": [0.0] * 4, "cut_off": 0.8, "x": [0, 0.1, 0.2, 0.5]}, "x, no. 4"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "fields", "field"), KIND_REFUSALS)
def test_a_kind_says_which_field_is_wrong(name: str, fields: dict, field: str) -> None:
    """And the periodic column is found where it is allowed."""
    with pytest.raises(BadInput) as wrong:
        _given(name, **fields)
    assert wrong.value.field == field
    assert _given("cut-off", rsm=0.2, standard="ISO 4288").result["cut_off"] == 0.8
