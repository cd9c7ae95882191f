"""Witnesses for de-ionised water and for what is dispensed."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from scipy import optimize, stats

from teardown_app.metrology.dispensed_volume import dispensed_volume
from teardown_app.metrology.pure_water import pure_water_resistivity, resistivity_at_25
from teardown_app.metrology.z_factor import air_density, water_density, z_factor
from tests.metrology.witness import Witness

CASES = "worked cases, computed apart from this project"
PUMP = [50.31, 49.87, 50.12, 50.02, 49.95, 50.40, 50.21, 49.78, 50.05, 50.16, 50.09]
DEGREES = (10, 15, 18, 20, 25, 30, 35, 40, 50)
WATER_C = (15.0, 17.5, 20.0, 22.5, 25.0, 27.5, 30.0)
WEATHER = [(t, p, h) for t in (15, 20, 27) for p in (930, 1013.25, 1040) for h in (20, 50, 80)]


def cool(wanted: str, *state: object) -> Callable[[], float]:
    """A property by CoolProp, asked when it is needed."""

    def ask() -> float:
        from CoolProp.CoolProp import PropsSI

        return float(PropsSI(wanted, *state))

    return ask


def moist_air(t: float, p_hpa: float, h: float) -> float:
    """CIPM-2007 (Picard et al., Metrologia 45 (2008) 149), kg/m3, 400 umol/mol of carbon dioxide."""
    kelvin, p = t + 273.15, p_hpa * 100
    saturated = math.exp(1.2378847e-5 * kelvin**2 - 1.9121316e-2 * kelvin + 33.93711047 - 6.3431645e3 / kelvin)
    vapour = h / 100 * (1.00062 + 3.14e-8 * p + 5.6e-7 * t**2) * saturated / p
    first = 1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t**2 + (5.707e-6 - 2.051e-8 * t) * vapour
    first += (1.9898e-4 - 2.376e-6 * t) * vapour**2
    factor = 1 - p / kelvin * first + (p / kelvin) ** 2 * (1.83e-11 - 0.765e-8 * vapour**2)
    return 3.483740e-3 * p / (factor * kelvin) * (1 - 0.3780 * vapour)


def steam_tables(t: float) -> float:
    """Density of water at 1 atm by IAPWS-95 as the library iapws has it, kg/m3."""
    from iapws import IAPWS95

    return float(IAPWS95(T=t + 273.15, P=0.101325).rho)


def kell(t: float) -> float:
    """Density of water at 1 atm after Kell 1975, kg/m3."""
    powers = (999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12)
    rising = sum(factor * t**power for power, factor in enumerate(powers))
    return rising / (1 + 16.879850e-3 * t)


def z_of_others(t: float, p: float) -> float:
    """Z from IAPWS-95 water and CIPM-2007 air."""
    air = moist_air(t, p, 50)
    return (1 - air / 8000) / (steam_tables(t) - air) * 1000


def own_ions() -> float:
    """Resistivity at 25 degC from the ion product (IAPWS) and conductivities of H+ and OH-."""
    from iapws._iapws import _Kw

    moles = 10 ** (-_Kw(997.047, 298.15) / 2) * 0.997047
    return 1e3 / ((349.85 + 198.6) * moles) * 1e-6


WITNESSES: list[Witness] = [
    Witness("pure_water.pure_water_resistivity", "fit after Marsh and Stokes, computed apart from this project",
            lambda: [pure_water_resistivity(t) for t in DEGREES],
            [43.119, 31.959, 26.827, 23.935, 18.188, 14.043, 11.014, 8.768, 5.785], 2e-5),
    Witness("pure_water.pure_water_resistivity", "18.18 Mohm cm, Morash 1994", lambda: pure_water_resistivity(25),
            18.18, 1e-3),
    Witness("pure_water.pure_water_resistivity", "ion product of IAPWS, conductivities of H+ and OH-",
            lambda: pure_water_resistivity(25), own_ions, 2e-3, needs="iapws"),
    Witness("pure_water.pure_water_resistivity", "table after Light 1984, from memory",
            lambda: [pure_water_resistivity(t) for t in DEGREES if t != 18],
            [43.43, 31.87, 23.85, 18.18, 14.09, 11.09, 8.85, 5.85], 0.01),
    Witness("pure_water.resistivity_at_25", CASES, lambda: [resistivity_at_25(10, 20), resistivity_at_25(1, 35),
            resistivity_at_25(23.8, 20), resistivity_at_25(18, 25)], [8.35634, 1.23054, 18.10157, 18], 1e-6),
    Witness("pure_water.resistivity_at_25", "1 ug/l of salt, 18.18 to 17.5 Mohm cm, Morash 1994; 126.45 S cm2/mol",
            lambda: resistivity_at_25(1 / (1 / pure_water_resistivity(25) + 126.45e-3 / 58.44), 25), 17.5, 1e-3),
    Witness("pure_water.resistivity_at_25", "salt follows temperature by 2 % of 25 degC per K, root by scipy.optimize",
            lambda: resistivity_at_25(1 / (1 / pure_water_resistivity(40) + 0.05 * 1.3), 40),
            lambda: 1 / (optimize.brentq(lambda k: k - 0.05 - 1 / pure_water_resistivity(25), 0, 1)), 1e-12),
    Witness("z_factor.water_density", "IAPWS-95 by the library iapws",
            lambda: [water_density(t) for t in (0.5, 4, *WATER_C, 40)],
            lambda: [steam_tables(t) for t in (0.5, 4, *WATER_C, 40)], 2e-6, needs="iapws"),
    Witness("z_factor.water_density", "IAPWS-95 by CoolProp", lambda: [water_density(t) for t in WATER_C],
            lambda: [cool("D", "P", 101325, "T", t + 273.15, "Water")() for t in WATER_C], 2e-6, needs="CoolProp"),
    Witness("z_factor.water_density", "printed densities 999.1026, 998.2067, 997.0470, from memory",
            lambda: [water_density(t) for t in (15, 20, 25)], [999.1026, 998.2067, 997.0470], 1e-7),
    Witness("z_factor.water_density", "Kell 1975, from memory", lambda: [water_density(t) for t in (1, *WATER_C, 39)],
            [kell(t) for t in (1, *WATER_C, 39)], 1e-5),
    Witness("z_factor.air_density", "CIPM-2007", lambda: [air_density(t, p, humidity=h) for t, p, h in WEATHER],
            [moist_air(*one) for one in WEATHER], 2e-4),
    Witness("z_factor.air_density", "simplified formula of NIST in a guidance note on buoyancy",
            lambda: [air_density(t, p, humidity=h) for t, p, h in WEATHER],
            [(0.348444 * p - h * (0.00252 * t - 0.020582)) / (273.15 + t) for t, p, h in WEATHER], 1.2e-3),
    Witness("z_factor.z_factor", "table of ISO 8655-6 at 1013 hPa, from memory",
            lambda: [z_factor(t, 1013) for t in WATER_C],
            [1.0020, 1.0024, 1.0029, 1.0034, 1.0040, 1.0047, 1.0054], 6e-5, True),
    Witness("z_factor.z_factor", "water after Kell 1975 (from memory) and CIPM-2007 air",
            lambda: [z_factor(t, 1013) for t in WATER_C],
            [1000 * (1 - moist_air(t, 1013, 50) / 8000) / (kell(t) - moist_air(t, 1013, 50)) for t in WATER_C], 1e-5),
    Witness("z_factor.z_factor", "IAPWS-95 water and CIPM-2007 air",
            lambda: [z_factor(t, p) for t in WATER_C for p in (950, 1013)],
            lambda: [z_of_others(t, p) for t in WATER_C for p in (950, 1013)], 3e-6, needs="iapws"),
    Witness("dispensed_volume.dispensed_volume", "scipy.stats, tstd and variation",
            lambda: dispensed_volume(PUMP, 50, 1.0032),
            lambda: [np.mean(PUMP) * 1.0032, np.mean(PUMP) * 1.0032 - 50, (np.mean(PUMP) * 1.0032 - 50) * 2,
                     stats.tstd(PUMP) * 1.0032, 100 * stats.variation(PUMP, ddof=1)], 1e-13),
    Witness("dispensed_volume.dispensed_volume",
            "closed form of two values five times each: half the gap times sqrt(10 / 9)",
            lambda: dispensed_volume([99, 101] * 5, 100, 1.003, evaporation=0.5),
            [100.8015, 0.8015, 0.8015, 1.003 * math.sqrt(10 / 9), 100 / 100.5 * math.sqrt(10 / 9)], 1e-13),
]  # fmt: skip
