"""Surface texture: height parameters, form, Gaussian filter and traces against closed forms and libraries."""

from __future__ import annotations

import numpy as np
import scipy.integrate
import scipy.ndimage
import scipy.optimize
import scipy.signal
import scipy.stats

from teardown_app.metrology import gaussian_profile as gauss
from teardown_app.metrology import profile_form as form
from teardown_app.metrology import texture_change as change
from teardown_app.metrology import texture_parameters as texture
from teardown_app.metrology import trace, trace_checks
from tests.metrology.witness import Witness

RNG = np.random.default_rng(20)
ROUGH = scipy.ndimage.gaussian_filter1d(RNG.normal(0, 1, 8000), 8)
SKEW = ROUGH + ROUGH**2
X = 0.0005 * np.arange(9600)
SIGMA = float(np.sqrt(np.log(2) / 2) / np.pi)
"""Standard deviation of the Gaussian weight, in cut-offs."""
WORKED = [1, 3, 2, -1, -2, 0, 4, -3, 1, -5]
HEIGHTS = "roughness_parameters"


def _all(z, **options):
    return texture.roughness_parameters(z, **options)


def _ra_rq(z):
    return _all(z)[:2]


def _surfalize(names):
    from surfalize import Profile

    profile = Profile(SKEW, 0.5)
    return [getattr(profile, name)() for name in names]


def _by_section(value):
    return float(np.mean([value(part) for part in np.split(SKEW - SKEW.mean(), 5)]))


def _amplitude(z, wavelength, x):
    """Amplitude of one sine in a profile."""
    basis = np.column_stack([np.sin(2 * np.pi * x / wavelength), np.cos(2 * np.pi * x / wavelength)])
    return float(np.hypot(*np.linalg.lstsq(basis, z, rcond=None)[0]))


def _gain(wavelength):
    """Share of a long sine that the filter keeps, cut-off 0.8 mm, step 0.5 um."""
    x = 0.0005 * np.arange(40_000)
    found = gauss.gaussian_filter(np.sin(2 * np.pi * x / wavelength), 0.0005, 0.8, ends="renormalise").mean_line
    return _amplitude(found[8000:-8000], wavelength, x[8000:-8000])


def _step_response():
    z = (np.arange(8001) >= 4000).astype(float)
    z[4000] = 0.5
    return gauss.gaussian_filter(z, 0.0005, 0.8, ends="renormalise").mean_line[[4000, 4200, 4400, 4800]]


def _weights(step, cut):
    reach = round(cut / step)
    weights = np.exp(-np.pi * (np.arange(-reach, reach + 1) * step / (0.46971863934983 * cut)) ** 2)
    return weights / weights.sum()


def _normalised_convolution():
    weights = _weights(0.0005, 0.8)
    return scipy.signal.convolve(SKEW, weights, "same", "direct") / scipy.signal.convolve(
        np.ones(8000), weights, "same", "direct")  # fmt: skip


def _weighted_lines():
    """Line fitted with the weights at some points near the start, by the normal equations of numpy."""
    z, x, found = SKEW[:3000], 0.0005 * np.arange(3000), []
    for k in (0, 7, 200, 900, 1599):
        weight = np.exp(-np.pi * ((x - x[k]) / (0.46971863934983 * 0.8)) ** 2) * (np.abs(x - x[k]) <= 0.8 + 1e-9)
        found.append(np.polynomial.Polynomial.fit(x, z, 1, w=np.sqrt(weight))(x[k]))
    return found


def _surfalize_mean_line():
    from surfalize import Profile
    from surfalize.filter import GaussianFilter

    return GaussianFilter(800, "lowpass")(Profile(SKEW, 0.5)).data[3000:5000]


def _arc(radius, x, crest=1.0):
    return 1000 * crest * np.sqrt(radius**2 - x**2)


ARC_X = 0.001 * (np.arange(4001) - 2000)
ROUGH_ARC = _arc(5.0, ARC_X - 0.3) + ROUGH[:4001]


def _arc_by_scipy():
    """Radius and rest of the arc that scipy's minimiser finds along the height axis."""

    def rest(p):
        return (ROUGH_ARC / 1000 - (p[1] + np.sqrt(p[0] ** 2 - (ARC_X - p[2]) ** 2))) * 1000

    found = scipy.optimize.least_squares(rest, [4.9, 0.0, 0.2], xtol=1e-15, ftol=1e-15, gtol=1e-15)
    return [found.x[0], float(np.std(rest(found.x)))]


def _traced(wavelength, **options):
    z = 2 * np.sin(2 * np.pi * X / wavelength) + 40 * X + 3
    return trace.evaluate_trace(z, 0.0005, 0.8, **options)


def _left_of_sine(wavelength):
    """Share of a sine in the roughness profile after the short-wave filter of 2.5 um."""
    return 2.0 ** -((0.0025 / wavelength) ** 2) * (1 - 2.0 ** -((0.8 / wavelength) ** 2))


NOISE = np.concatenate([SKEW, SKEW[:1600][::-1]])


def _traced_by_scipy():
    z = scipy.signal.detrend(NOISE)
    z = scipy.ndimage.gaussian_filter1d(z, SIGMA * 5, radius=5)
    z = (z - scipy.ndimage.gaussian_filter1d(z, SIGMA * 1600, radius=1600))[800:8800]
    parts = np.split(z, 5)
    return [np.mean(np.abs(z)), np.sqrt(np.mean(z**2)), np.mean([np.ptp(part) for part in parts]), np.ptp(z)]


def _traced_by_surfalize():
    from surfalize import Profile
    from surfalize.filter import GaussianFilter

    level = Profile(NOISE, 0.5).level()
    smooth = GaussianFilter(2.5, "lowpass")(level)
    rough = Profile(GaussianFilter(800, "highpass")(smooth).data[800:8800], 0.5)
    return [rough.Ra(), rough.Rq(), rough.Rz(), rough.Rt()]


def _noise_traced():
    found = trace.evaluate_trace(NOISE, 0.0005, 0.8).parameters
    return [found.ra, found.rq, found.rz, found.rt]


def _labelled(z):
    """Points in runs of three or more at the highest or lowest height, labelled by scipy."""
    sizes = []
    for stop in (z.max(), z.min()):
        runs, count = scipy.ndimage.label(z == stop)
        sizes += [size for size in scipy.ndimage.sum(z == stop, runs, range(1, count + 1)) if size >= 3]
    return sum(sizes)


SINE = 2 * np.sin(2 * np.pi * np.arange(2000) / 200)
SQUARE = np.where(np.arange(1000) % 100 < 50, 3.0, -3.0)
PULSE = np.where(np.arange(1000) % 100 < 30, 4.0, 0.0)
TRIANGLE = scipy.signal.sawtooth(2 * np.pi * (np.arange(200_000) + 0.5) / 20_000, 0.5) * 2
NORMAL = scipy.stats.norm.ppf((np.arange(200_000) + 0.5) / 200_000)[RNG.permutation(200_000)]

WITNESSES: list[Witness] = [
    Witness("texture_parameters.roughness_parameters", "worked case, ten heights (recomputed by hand)",
            lambda: np.array(_all(WORKED))[[0, 1, 2, 3, 6, 7]].astype(float),
            [2.2, 7**0.5, 4.0, 9.0, -6 / 7**1.5, 107.8 / 49], 1e-14),
    Witness("texture_parameters.roughness_parameters", "worked case, ten heights as one section: Rp, Rv, Rz",
            lambda: [(one := _all(WORKED, sections=1)).rp, one.rv, one.rz], [4, 5, 9], 1e-14),
    Witness("texture_parameters.roughness_parameters", "closed form of a sampled sine, (2A/n) cot(pi/n)",
            lambda: np.array(_all(SINE), float)[[0, 1, 2, 3, 4, 5, 7]],
            [2 * 2 / 200 / np.tan(np.pi / 200), 2**0.5, 4, 4, 2, 2, 1.5], 1e-14),
    Witness("texture_parameters.roughness_parameters", "sine of 200 points a period, published figures",
            lambda: _ra_rq(SINE), [1.2731348232574, 1.4142135624], 1e-10),
    Witness("texture_parameters.roughness_parameters", "closed form of a sine, 2A/pi and A/sqrt 2",
            lambda: _ra_rq(np.sin(2 * np.pi * np.arange(500_000) / 100_000)), [2 / np.pi, 0.5**0.5], 1e-8),
    Witness("texture_parameters.roughness_parameters", "closed form of a square wave",
            lambda: np.array(_all(SQUARE), float)[[0, 1, 3, 6, 7]], [3, 3, 6, 0, 1], 1e-14),
    Witness("texture_parameters.roughness_parameters", "closed form of a pulse, height 4, share 0.3",
            lambda: np.array(_all(PULSE), float)[[0, 1, 4, 5, 3, 6, 7]],
            [8 * 0.21, 4 * 0.21**0.5, 2.8, 1.2, 4, 0.4 / 0.21**0.5, 1 / 0.21 - 3], 1e-13),
    Witness("texture_parameters.roughness_parameters", "closed form of a triangle wave, A/2, A/sqrt 3, 1.8",
            lambda: np.array(_all(TRIANGLE), float)[[0, 1, 7]], [1, 2 / 3**0.5, 1.8], 1e-6),
    Witness("texture_parameters.roughness_parameters", "closed form of normal heights, sqrt(2/pi) and 3",
            lambda: [(one := _all(NORMAL)).ra / one.rq, one.rku], [np.sqrt(2 / np.pi), 3], 1e-3),
    Witness("texture_parameters.roughness_parameters", "surfalize, all eight",
            lambda: np.array(_all(SKEW), float)[:8],
            lambda: _surfalize(("Ra", "Rq", "Rz", "Rt", "Rp", "Rv", "Rsk", "Rku")), 1e-12, needs="surfalize"),
    Witness("texture_parameters.roughness_parameters", "scipy.stats skew and kurtosis",
            lambda: np.array(_all(SKEW), float)[[6, 7]],
            lambda: [scipy.stats.skew(SKEW), scipy.stats.kurtosis(SKEW, fisher=False)], 1e-12),
    Witness("texture_parameters.roughness_parameters", "ISO 4287 averages of sections, by numpy on its own",
            lambda: _all(SKEW, standard="ISO 4287")[:2],
            lambda: [_by_section(lambda z: np.mean(np.abs(z))), _by_section(lambda z: np.sqrt(np.mean(z**2)))], 1e-13),

    Witness("profile_form.polynomial_form", "numpy.polynomial.Chebyshev.fit, degree 5, on heights near 1e6",
            lambda: form.polynomial_form(SKEW + 1e6, 5).rest,
            lambda: SKEW - np.polynomial.Chebyshev.fit(np.arange(8000), SKEW, 5)(np.arange(8000)), 1e-9),
    Witness("profile_form.polynomial_form", "scipy.signal.detrend, line",
            lambda: form.polynomial_form(SKEW, 1).rest, lambda: scipy.signal.detrend(SKEW), 1e-12),
    Witness("profile_form.polynomial_form", "closed form: a quartic is its own form",
            lambda: form.polynomial_form((np.arange(500) / 100 - 2) ** 4, 4).form,
            lambda: (np.arange(500) / 100 - 2) ** 4, 1e-13),
    Witness("profile_form.circle_form", "closed form: arcs of 5 mm, crest and hollow, off centre, near 1e6 um",
            lambda: [form.circle_form(_arc(5, ARC_X - 0.7) + 1e6, 0.001).radius,
                     form.circle_form(_arc(5, ARC_X + 0.7, -1), 0.001).radius], [5, -5], 1e-11),
    Witness("profile_form.circle_form", "closed form: slope at the end of an arc of 30 degrees",
            lambda: form.circle_form(_arc(4.0, ARC_X), 0.001).slope, 30.0, 1e-11),
    Witness("profile_form.circle_form", "scipy.optimize.least_squares on a rough arc",
            lambda: [(one := form.circle_form(ROUGH_ARC, 0.001)).radius, float(np.std(one.rest))], _arc_by_scipy, 1e-7),

    Witness("gaussian_profile.gaussian_weight", "published figures for a cut-off of 0.8 mm",
            lambda: gauss.gaussian_weight([0, 0.4, -0.4], 0.8), [2.6611675486, 0.0757026330, 0.0757026330], 2e-9),
    Witness("gaussian_profile.gaussian_weight", "scipy.stats.norm, standard deviation sqrt(ln 2 / 2) / pi cut-offs",
            lambda: gauss.gaussian_weight(np.linspace(-0.8, 0.8, 41), 0.8),
            lambda: scipy.stats.norm.pdf(np.linspace(-0.8, 0.8, 41), scale=0.8 * SIGMA), 1e-13),
    Witness("gaussian_profile.gaussian_weight", "closed form: its integral is 1",
            lambda: scipy.integrate.quad(lambda x: gauss.gaussian_weight(x, 2.5), -8, 8)[0], 1.0, 1e-12),
    Witness("gaussian_profile.gaussian_transmission", "ISO 16610-21, table of transmission",
            lambda: gauss.gaussian_transmission([0.2, 1 / 3, 0.5, 0.8, 1, 1.25, 2, 3, 5, 10], 1.0),
            [2.98e-8, 2**-9, 0.0625, 0.338563887, 0.5, 0.641712949, 0.840896415, 0.925874712, 0.972654947, 0.993092495],
            1e-9),
    Witness("gaussian_profile.gaussian_transmission", "exp(-sigma^2 k^2 / 2), the transform of a normal curve",
            lambda: gauss.gaussian_transmission([0.25, 0.8, 2.5], 0.8),
            lambda: np.exp(-((0.8 * SIGMA * 2 * np.pi / np.array([0.25, 0.8, 2.5])) ** 2) / 2), 1e-13),

    Witness("gaussian_profile.gaussian_filter", "theory of the sampled filter, three wavelengths",
            lambda: [_gain(0.25), _gain(0.8), _gain(2.5)], [0.000826922, 0.49999996, 0.93148226], 1e-8),
    Witness("gaussian_profile.gaussian_filter", "closed form 2^-(c / wavelength)^2, three wavelengths",
            lambda: [_gain(0.25), _gain(0.8), _gain(2.5)], lambda: 2.0 ** -((0.8 / np.array([0.25, 0.8, 2.5])) ** 2),
            2e-7),
    Witness("gaussian_profile.gaussian_filter", "scipy.stats.norm: a step comes out as a normal curve",
            _step_response, lambda: scipy.stats.norm.cdf([0, 0.1, 0.2, 0.4], scale=0.8 * SIGMA), 1e-6),
    Witness("gaussian_profile.gaussian_filter", "step response, published figures", _step_response,
            [0.5, 0.7476317, 0.9089164, 0.9961873], 1e-6),
    Witness("gaussian_profile.gaussian_filter", "scipy.signal.convolve, direct, weights renormalised at the ends",
            lambda: gauss.gaussian_filter(SKEW, 0.0005, 0.8, ends="renormalise").mean_line, _normalised_convolution,
            1e-12),
    Witness("gaussian_profile.gaussian_filter", "numpy weighted line fits at the end, ends `line`",
            lambda: gauss.gaussian_filter(SKEW[:3000], 0.0005, 0.8, ends="line").mean_line[[0, 7, 200, 900, 1599]],
            _weighted_lines, 1e-10),
    Witness("gaussian_profile.gaussian_filter", "surfalize, which cuts the weight at four standard deviations",
            lambda: gauss.gaussian_filter(SKEW, 0.0005, 0.8, ends="renormalise").mean_line[3000:5000],
            _surfalize_mean_line, 3e-4, needs="surfalize"),

    Witness("trace_checks.point_spacing", "scipy.stats.linregress, even positions",
            lambda: trace_checks.point_spacing(1e6 + 0.0005 * np.arange(8000)).step,
            lambda: scipy.stats.linregress(np.arange(8000), 0.0005 * np.arange(8000)).slope, 1e-8),
    Witness("trace_checks.point_spacing", "closed form: positions rounded to three decimals",
            lambda: trace_checks.point_spacing(np.round(0.0005 * np.arange(8001), 3))[:2], [0.0005, -1], 1e-12),
    Witness("trace_checks.points_at_stop", "closed form: share arccos(level) / pi of a clipped sine",
            lambda: trace_checks.points_at_stop(np.minimum(SINE, 1.0)) / 2000, np.arccos(0.5) / np.pi, 0.02),
    Witness("trace_checks.points_at_stop", "scipy.ndimage.label, noise clipped at both sides",
            lambda: trace_checks.points_at_stop(np.clip(ROUGH, -0.2, 0.25)),
            lambda: _labelled(np.clip(ROUGH, -0.2, 0.25)), 0, absolute=True),

    Witness("trace.evaluate_trace", "closed form of a filtered sine, 0.1 mm: Ra, Rq, Rt",
            lambda: np.array(_traced(0.1).parameters, float)[[0, 1, 3]],
            lambda: 2 * _left_of_sine(0.1) * np.array([2 / np.pi, 0.5**0.5, 2]), 3e-4),
    Witness("trace.evaluate_trace", "closed form of a filtered sine, 0.8 mm: half is left",
            lambda: _traced(0.8).parameters.rq, lambda: 2 * _left_of_sine(0.8) / 2**0.5, 1e-4),
    Witness("trace.evaluate_trace", "scipy.signal.detrend and scipy.ndimage.gaussian_filter1d", _noise_traced,
            _traced_by_scipy, 1e-5),
    Witness("trace.evaluate_trace", "surfalize: level, both filters, parameters", _noise_traced, _traced_by_surfalize,
            1e-3, needs="surfalize"),

    Witness("texture_change.change_by_place", "numpy.diff and division",
            lambda: np.concatenate(change.change_by_place([0.82, 0.76, 0.91], [0.38, 0.35, 0.47])[:2]),
            lambda: np.concatenate([-np.diff([[0.82, 0.76, 0.91], [0.38, 0.35, 0.47]], axis=0)[0],
                                    100 - 100 * np.array([0.38 / 0.82, 0.35 / 0.76, 0.47 / 0.91])]), 1e-13),
    Witness("texture_change.change_by_place", "closed form: half everywhere is 50 %",
            lambda: (one := change.change_by_place([0.8, 0.6, 1.0], [0.4, 0.3, 0.5])).percent.tolist()
            + [one.mean_percent], [50, 50, 50, 50], 1e-14),
]  # fmt: skip
