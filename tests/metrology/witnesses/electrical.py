"""Witnesses for windings, insulation, bonding and heating elements."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import numpy as np
from scipy import constants, optimize

from teardown_app.metrology.bonding import bonding_resistance, conductor_resistance
from teardown_app.metrology.heater import power_at, rating, resistance_band
from teardown_app.metrology.insulation import absorption_ratio, advised_minimum, polarisation_index, resistance_at_40
from teardown_app.metrology.winding import hot_temperature, resistance_at, unbalance
from tests.metrology.witness import Witness

CASES = "worked cases, computed apart from this project"
MEMORY = "from memory"
SETTING_C = (10, 20, 25, 30, 40, 50, 60, 70)


def solved(curve: Callable[[float], float], wanted: float, low: float, high: float) -> float:
    """Where a curve meets a value, by Brent's rule."""
    return float(optimize.brentq(lambda x: curve(x) - wanted, low, high, xtol=1e-13, rtol=1e-15))


def exact_unbalance(*texts: str) -> float:
    """100 max|Ri - mean| / mean in fractions."""
    read = [Fraction(text) for text in texts]
    mean = sum(read, Fraction(0)) / len(read)
    return float(100 * max(abs(one - mean) for one in read) / mean)


def arrhenius(t: float) -> float:
    """The same law with activation energies instead of constants in K: E = c kB."""
    energy = (1245 if t < 40 else 4230) * constants.k
    return float(np.exp(energy / constants.k / 313) / np.exp(energy / (constants.k * (t + 273))))


WITNESSES: list[Witness] = [
    Witness("winding.resistance_at", CASES,
            lambda: [resistance_at(2, 20, 25), resistance_at(2, 20, 40), resistance_at(1.25, 60, 25),
                     resistance_at(1.25, 60, 20)], [2.039293, 2.157171, 1.101443, 1.080221], 5e-7),
    Witness("winding.resistance_at", "coefficient 0.00393 / K at 20 degC of annealed copper, IEC 60028; from memory",
            lambda: [resistance_at(1, 20, t) for t in (0, 50, 75, 120)],
            [1 + 0.00393 * (t - 20) for t in (0, 50, 75, 120)], 2e-4),
    Witness("winding.resistance_at", "straight line through zero at -k, numpy.interp",
            lambda: [resistance_at(3.7, 31, t, k=k) for t in (-40, 20, 155) for k in (225, 234.5, 235)],
            lambda: [np.interp(t, [-k, 31, 31 + 10 * (31 + k)], [0, 3.7, 37 + 3.7])
                     for t in (-40, 20, 155) for k in (225, 234.5, 235)], 1e-12),
    Witness("winding.hot_temperature", CASES, lambda: [hot_temperature(2, 20, 2.5), hot_temperature(2, 20, 2.5, k=235)],
            [83.625, 83.75], 1e-12),
    Witness("winding.hot_temperature", "straight line solved by scipy.optimize.brentq",
            lambda: [hot_temperature(0.321, 22.4, r, k=225) for r in (0.3, 0.35, 0.48)],
            lambda: [solved(lambda t: 0.321 * (225 + t) / (225 + 22.4), r, -50, 300) for r in (0.3, 0.35, 0.48)],
            1e-12),
    Witness("winding.unbalance", CASES, lambda: [unbalance([1.02, 1, 1.01]).percent, unbalance([2, 2.05, 2.1]).percent],
            [0.990099, 2.439024], 5e-7),
    Witness("winding.unbalance", "exact fractions",
            lambda: [unbalance([0.1231, 0.1255, 0.1249]).percent, unbalance([7, 7.2]).percent],
            lambda: [exact_unbalance("0.1231", "0.1255", "0.1249"), exact_unbalance("7", "7.2")], 1e-12),
    Witness("insulation.resistance_at_40", CASES,
            lambda: [resistance_at_40(r, t, system="thermoplastic") for r, t in ((100, 20), (200, 25), (50, 60))],
            [25, 70.710678, 200], 1e-8),
    Witness("insulation.resistance_at_40", f"thermosetting factors, constants {MEMORY}; computed apart",
            lambda: [resistance_at_40(1, t, system="thermosetting") for t in SETTING_C],
            [0.655959, 0.762227, 0.818553, 0.876976, 1, 1.519531, 2.251675, 3.260940], 5e-7),
    Witness("insulation.resistance_at_40", "law of Arrhenius with activation energies, scipy.constants",
            lambda: [resistance_at_40(1, t, system="thermosetting") for t in (10, 39.9, 40, 55, 85)],
            lambda: [arrhenius(t) for t in (10, 39.9, 40, 55, 85)], 1e-11),
    Witness("insulation.resistance_at_40", "half for every 10 K, page insulationtesting.com",
            lambda: [resistance_at_40(64, 40 - 10 * step, system="thermoplastic") for step in range(-6, 6)],
            [64 * 2.0**-step for step in range(-6, 6)], 1e-14),
    Witness("insulation.polarisation_index", CASES, lambda: polarisation_index(150, 600), 4.0, 1e-15),
    Witness("insulation.polarisation_index", "absorption current t^-n beside none by leakage: 10^n",
            lambda: [polarisation_index(1 / 1.0**-n, 1 / 10.0**-n) for n in (0, 0.5, 0.9)],
            [1, 10**0.5, 10**0.9], 1e-14),
    Witness("insulation.absorption_ratio", "quotient in fractions", lambda: absorption_ratio(123.4, 175.3),
            lambda: float(Fraction("175.3") / Fraction("123.4")), 1e-14),
    Witness("insulation.absorption_ratio", "absorption current t^-n beside none by leakage: 2^n",
            lambda: [absorption_ratio(1 / 0.5**-n, 1 / 1.0**-n) for n in (0, 0.5, 0.9)], [1, 2**0.5, 2**0.9], 1e-14),
    Witness("insulation.advised_minimum", CASES,
            lambda: [advised_minimum("before 1970", 480), advised_minimum("random-wound", 480)], [1.48, 5], 1e-14),
    Witness("insulation.advised_minimum", "EASA on IEEE 43-2013: 5 Mohm for d.c. armatures",
            lambda: advised_minimum("dc armature", 500), 5, 0),
    Witness("insulation.advised_minimum", f"{MEMORY}, IEEE 43: 100 Mohm form-wound, 5 Mohm below 1 kV, kV + 1",
            lambda: [advised_minimum("form-wound", 4160), advised_minimum("form-wound", 690),
                     advised_minimum("before 1970", 13800)], [100, 5, 14.8], 1e-14),
    Witness("bonding.bonding_resistance", CASES, lambda: bonding_resistance(0.85, 10), 0.085, 1e-14),
    Witness("bonding.bonding_resistance", "voltage of path and leads in series, scipy.optimize.brentq",
            lambda: [bonding_resistance(u, 25, lead_resistance=0.013) for u in (0.4, 2.5, 9.1)],
            lambda: [solved(lambda r: 25 * (r + 0.013), u, 0, 1) for u in (0.4, 2.5, 9.1)], 1e-12),
    Witness("bonding.conductor_resistance", CASES, lambda: conductor_resistance(5, 2.5), 0.0356, 1e-14),
    Witness("bonding.conductor_resistance", f"wire table AWG 10 and 14, annealed copper 1 / 58, ohm/km; {MEMORY}",
            lambda: [conductor_resistance(1000, a, resistivity=1 / 58) for a in (5.261, 2.081)], [3.277, 8.286], 3e-4),
    Witness("heater.rating", CASES,
            lambda: [*rating(208, 2000), *rating(230, 1500), rating(120, 500).resistance],
            [21.632, 9.615385, 35.266667, 6.521739, 28.8], 5e-8),
    Witness("heater.rating", "U = R I and P = R I^2 solved together, scipy.optimize.fsolve", lambda: rating(277, 4500),
            lambda: optimize.fsolve(lambda x: [x[0] * x[1] - 277, (x[0] * x[1] ** 2 - 4500) / 100], [10, 10],
                                    xtol=1e-13), 1e-10),
    Witness("heater.power_at", CASES, lambda: power_at(208, 2000, 200), 1849.112, 5e-7),
    Witness("heater.power_at", "exact fractions", lambda: [power_at(230, 1500, 240), power_at(480, 9000, 415)],
            lambda: [float(Fraction(1500) * Fraction(240, 230) ** 2), float(Fraction(9000) * Fraction(415, 480) ** 2)],
            1e-14),
    Witness("heater.resistance_band", CASES, lambda: [*resistance_band(208, 2000), *resistance_band(120, 500)],
            [20.601905, 24.035556, 27.428571, 32.0], 5e-8),
    Witness("heater.resistance_band", "resistance at which power reaches its limits, scipy.optimize.brentq",
            lambda: resistance_band(400, 6000, plus=7.5, minus=2.5),
            lambda: [solved(lambda r: 400**2 / r, p, 1, 1000) for p in (6000 * 1.075, 6000 * 0.975)], 1e-12),
]  # fmt: skip
