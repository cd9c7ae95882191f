"""Witnesses for platinum thermometers, thermocouples and thermistors."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from scipy import differentiate, optimize

from teardown_app.metrology import ntc, pt100, steinhart_hart, thermocouple
from tests.metrology.witness import Witness

CASES = "worked cases, computed apart from this project"
WATLOW = "Watlow, table of classes A and B by DIN-IEC-751"
WATLOW_C = (-200, -100, 0, 100, 200, 300, 400, 500, 600, 650)
WATLOW_OHM = (18.52, 60.26, 100, 138.51, 175.86, 212.05, 247.09, 280.98, 313.71, 329.64)
PLATINUM_C = (-200, -100, -50, -40, 0, 25, 50, 100, 150, 200, 400, 600, 850)
PLATINUM_OHM = (18.5201, 60.2558, 80.3063, 84.2707, 100, 109.7347, 119.3971, 138.5055, 157.3251, 175.8560, 247.0920,
                313.7080, 390.4811)  # fmt: skip
FEED_OHM = (93, 250, 499.99, 500, 500.01, 900, 1950)
BANDS = (
    ("AA", -50, 80.23, 80.38),
    ("AA", 250, 193.91, 194.29),
    ("A", -100, 60.11, 60.40),
    ("A", 100, 138.37, 138.64),
    ("A", 450, 263.82, 264.53),
    ("B", -196, 19.69, 20.80),
    ("B", 20, 107.64, 107.95),
    ("B", 500, 280.04, 281.91),
)
TABLE_C = (-100, -50, 25, 50, 100, 150, 200, 300, 400, 500)
TABLE_MV = {
    "K": (-3.554, -1.889, 1.000, 2.023, 4.096, 6.138, 8.138, 12.209, 16.397, 20.644),
    "J": (-4.633, -2.431, 1.277, 2.585, 5.269, 8.010, 10.779, 16.327, 21.848, 27.393),
    "T": (-3.379, -1.819, 0.992, 2.036, 4.279, None, 9.288, 14.862, 20.872, None),
}
NIST_T = {-270: -6.258, -260: -6.232, -250: -6.180, -225: -5.950, -200: -5.603, -173: -5.128, -150: -4.648,
          -111: -3.684, -75: -2.633, -42: -1.545}  # fmt: skip
BEADS = ((10000, 3950, 50, 3588.18), (10000, 3950, 0, 33620.60), (10000, 3435, 85, 1451.35), (10000, 3977, 100, 684.94))
A, B, C = 1.125e-3, 2.347e-4, 8.566e-8
OF_BETA = (1 / 298.15 - float(np.log(1e4)) / 3950, 1 / 3950, 0.0)


def curve(t: float, r0: float = 100.0) -> float:
    """IEC 60751 as a full quartic by numpy."""
    a, b, c = 3.9083e-3, -5.775e-7, -4.183e-12
    return float(r0 * np.polynomial.Polynomial([1, a, b, -100 * c, c] if t < 0 else [1, a, b])(t))


def solved(of: Callable[[float], float], wanted: float, low: float, high: float) -> float:
    """Where a curve meets a value, by Brent's rule."""
    return float(optimize.brentq(lambda x: of(x) - wanted, low, high, xtol=1e-12, rtol=1e-15))


def slope(t: float) -> float:
    """Ohm per degree of a Pt100 by numerical differentiation."""
    return float(differentiate.derivative(np.vectorize(curve), t, initial_step=5.0).df)


def whole(letter: str) -> list[float]:
    """Every degree of the range."""
    low, high = thermocouple.RANGES_C[letter]
    return [float(t) for t in range(int(low), int(high) + 1)]


def rounded(letter: str) -> tuple[list[int], list[float]]:
    """Temperatures and printed values of a type."""
    pairs = [(t, mv) for t, mv in zip(TABLE_C, TABLE_MV[letter], strict=True) if mv is not None]
    return [t for t, _ in pairs], [mv for _, mv in pairs]


def other_emf(letter: str) -> list[float]:
    """The whole range in mV by the library thermocouples."""
    import thermocouples

    sensor = thermocouples.get_thermocouple(letter)
    return [1000 * sensor.temp_to_volt(t) for t in whole(letter)]


def third_emf(letter: str, junction: float = 0.0) -> list[float]:
    """The whole range in mV by the library thermocouple_its90."""
    import thermocouple_its90

    return [thermocouple_its90.get(letter).emf(t, junction) for t in whole(letter)]


def of_third(letter: str, junction: float) -> list[float]:
    """What ours makes of that library's voltages."""
    return [thermocouple.temperature(letter, e, junction=junction) for e in third_emf(letter, junction)]


def third_temperature(letter: str) -> list[float]:
    """What that library makes of a row of voltages."""
    import thermocouple_its90

    return [thermocouple_its90.get(letter).temperature(e, 21.5) for e in VOLTAGES[letter]]


VOLTAGES = {"K": np.linspace(-5.5, 53, 40).tolist(), "J": np.linspace(-7, 68, 40).tolist(),
            "T": np.linspace(-5.5, 19.5, 40).tolist()}  # fmt: skip


def of_letter(letter: str) -> list[Witness]:
    """Witnesses of one type of thermocouple."""
    back = "thermocouple.temperature"
    low, high = thermocouple.RANGES_C[letter]
    degrees, millivolts = rounded(letter)
    return [
        Witness("thermocouple.emf", f"printed ITS-90 table of type {letter}",
                lambda: [thermocouple.emf(letter, t) for t in degrees], millivolts, 5.5e-4, absolute=True),
        Witness("thermocouple.emf", f"library thermocouples, type {letter}, every degree",
                lambda: [thermocouple.emf(letter, t) for t in whole(letter)], lambda: other_emf(letter), 1e-9,
                absolute=True, needs="thermocouples"),
        Witness("thermocouple.emf", f"library thermocouple_its90, type {letter}, every degree",
                lambda: [thermocouple.emf(letter, t) for t in whole(letter)], lambda: third_emf(letter), 1e-11,
                absolute=True, needs="thermocouple_its90"),
        Witness(back, f"printed ITS-90 table of type {letter}, half a digit of 0.001 mV",
                lambda: [thermocouple.temperature(letter, mv) for mv in millivolts], degrees, 0.022, absolute=True),
        Witness(back, f"library thermocouple_its90 fed back, type {letter}, junction at 25 degC",
                lambda: of_third(letter, 25.0), lambda: whole(letter), 1e-6, absolute=True, needs="thermocouple_its90"),
        Witness(back, f"library thermocouple_its90 inverse, type {letter}, junction at 21.5 degC",
                lambda: [thermocouple.temperature(letter, e, junction=21.5) for e in VOLTAGES[letter]],
                lambda: third_temperature(letter), 1e-7, absolute=True, needs="thermocouple_its90"),
        Witness(back, f"emf of type {letter} solved by scipy.optimize.brentq",
                lambda: [thermocouple.temperature(letter, e) for e in VOLTAGES[letter]],
                lambda: [solved(lambda t: thermocouple.emf(letter, t), e, low, high) for e in VOLTAGES[letter]],
                1e-8, absolute=True),
    ]  # fmt: skip


WITNESSES: list[Witness] = [
    Witness("pt100.resistance", CASES, lambda: [pt100.resistance(t) for t in PLATINUM_C], PLATINUM_OHM, 5.1e-5,
            absolute=True),
    Witness("pt100.resistance", WATLOW, lambda: [pt100.resistance(t) for t in WATLOW_C], WATLOW_OHM, 5.1e-3,
            absolute=True),
    Witness("pt100.resistance", "Callendar-Van Dusen as numpy polynomial",
            lambda: [pt100.resistance(t, r0=1000) for t in range(-200, 851, 5)],
            lambda: [curve(t, 1000) for t in range(-200, 851, 5)], 1e-14),
    Witness("pt100.temperature", CASES, lambda: [pt100.temperature(110), pt100.temperature(80.31)],
            [25.68405, -49.9906], 5e-5, absolute=True),
    Witness("pt100.temperature", WATLOW, lambda: [pt100.temperature(r) for r in WATLOW_OHM], WATLOW_C, 0.02,
            absolute=True),
    Witness("pt100.temperature", "curve solved by scipy.optimize.brentq",
            lambda: [pt100.temperature(r, r0=500) for r in FEED_OHM],
            lambda: [solved(lambda t: curve(t, 500), r, -200.5, 851) for r in FEED_OHM],
            1e-9, absolute=True),
    Witness("pt100.tolerance", CASES,
            lambda: [pt100.tolerance(t, one) for one in "AB" for t in (-50, 0, 50, 100, 200)],
            [0.25, 0.15, 0.25, 0.35, 0.55, 0.55, 0.30, 0.55, 0.80, 1.30], 1e-12),
    Witness("pt100.tolerance", WATLOW, lambda: [pt100.tolerance(t, one) for one in "AB" for t in WATLOW_C[:-1]],
            [0.55, 0.35, 0.15, 0.35, 0.55, 0.75, 0.95, 1.15, 1.35, 1.3, 0.8, 0.3, 0.8, 1.3, 1.8, 2.3, 2.8, 3.3], 1e-12),
    Witness("pt100.tolerance", "classes AA and C by hammok-tech.com, 0, 100, 200, 400 degC",
            lambda: [pt100.tolerance(t, one) for one in ("AA", "C") for t in (0, 100, 200, 400)],
            [0.10, 0.27, 0.44, 0.78, 0.60, 1.60, 2.60, 4.60], 1e-12),
    Witness("pt100.tolerance_ohm", CASES,
            lambda: [pt100.tolerance_ohm(t, one) for t in (0, 100, 200) for one in "AB"],
            [0.0586, 0.1172, 0.13275, 0.30342, 0.2023, 0.4780], 5.1e-5, absolute=True),
    Witness("pt100.tolerance_ohm", WATLOW, lambda: [pt100.tolerance_ohm(t, one) for one in "AB" for t in WATLOW_C[:-1]],
            [0.24, 0.14, 0.06, 0.13, 0.20, 0.27, 0.33, 0.38, 0.43,
             0.56, 0.32, 0.12, 0.30, 0.48, 0.64, 0.79, 0.93, 1.06],
            6e-3, absolute=True),
    Witness("pt100.tolerance_ohm", "bands of resistance printed in WIKA 11208287",
            lambda: [pt100.resistance(t) + way * pt100.tolerance_ohm(t, c) for c, t, *_ in BANDS for way in (-1, 1)],
            [end for *_, low, high in BANDS for end in (low, high)], 5.1e-3, absolute=True),
    Witness("pt100.tolerance_ohm", "curve differentiated by scipy.differentiate",
            lambda: [pt100.tolerance_ohm(t, "C") for t in (-150, -40, 30, 333, 580)],
            lambda: [(0.6 + 0.01 * abs(t)) * slope(t) for t in (-150, -40, 30, 333, 580)], 1e-8),
    *of_letter("K"), *of_letter("J"), *of_letter("T"),
    Witness("thermocouple.emf", "NIST SRD 60, type_t.tab below 0 degC",
            lambda: [thermocouple.emf("T", t) for t in NIST_T], list(NIST_T.values()), 5.1e-4, absolute=True),
    Witness("thermocouple.emf", f"{CASES}: type K, junction at 25 degC",
            lambda: [thermocouple.emf("K", 25), thermocouple.emf("K", 200, junction=25)], [1.0002, 7.1383], 1e-4,
            absolute=True),
    Witness("thermocouple.temperature", f"{CASES}: type K, junction at 25 degC",
            lambda: thermocouple.temperature("K", 7.1383, junction=25), 200.0, 0.01, absolute=True),
    Witness("ntc.resistance", CASES, lambda: [ntc.resistance(t, n, beta) for n, beta, t, _ in BEADS],
            [ohms for *_, ohms in BEADS], 2e-7),
    Witness("ntc.resistance", "power law of numpy with kelvins",
            lambda: [ntc.resistance(t, 4700, 3600, nominal_temperature=20) for t in (-60, 20, 180)],
            lambda: 4700 * np.e ** (3600 / (np.array([-60, 20, 180]) + 273.15) - 3600 / 293.15), 1e-12),
    Witness("ntc.temperature", CASES, lambda: [ntc.temperature(ohms, n, beta) for n, beta, _, ohms in BEADS],
            [t for _, _, t, _ in BEADS], 1e-3, absolute=True),
    Witness("ntc.temperature", "beta equation solved by scipy.optimize.brentq",
            lambda: [ntc.temperature(ohms, 10000, 3435) for ohms in (50, 9000, 2e6)],
            lambda: [solved(lambda t: 3435 * (1 / (t + 273.15) - 1 / 298.15), np.log(ohms / 1e4), -100, 400)
                     for ohms in (50, 9000, 2e6)], 1e-9, absolute=True),
    Witness("steinhart_hart.temperature", "beta equation, the case c = 0",
            lambda: [steinhart_hart.temperature(r, *OF_BETA) for r in (500, 33620.60)],
            lambda: [1 / (1 / 298.15 + np.log(r / 1e4) / 3950) - 273.15 for r in (500, 33620.60)], 1e-10),
    Witness("steinhart_hart.temperature", "polynomial in ln R by numpy",
            lambda: [steinhart_hart.temperature(r, A, B, C) for r in (100, 1e4, 5e5)],
            lambda: 1 / np.polynomial.Polynomial([A, B, 0, C])(np.log([100, 1e4, 5e5])) - 273.15, 1e-12),
    Witness("steinhart_hart.resistance", "beta equation, the case c = 0",
            lambda: [steinhart_hart.resistance(t, *OF_BETA) for t in (0, 50)],
            [33620.60, 3588.18], 2e-7),
    Witness("steinhart_hart.resistance", "equation solved by scipy.optimize.brentq",
            lambda: [steinhart_hart.resistance(t, A, B, C) for t in (-60, 25, 199)],
            lambda: [np.exp(solved(lambda x: A + B * x + C * x**3, 1 / (t + 273.15), -5, 30)) for t in (-60, 25, 199)],
            1e-10),
]  # fmt: skip
