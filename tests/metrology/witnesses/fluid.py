"""Witnesses for leaks: pressure decay, units, another gas."""

from __future__ import annotations

import math
from collections.abc import Callable

from scipy import constants, integrate, stats

from teardown_app.metrology.gas_leak import with_other_gas
from teardown_app.metrology.gases import Gas
from teardown_app.metrology.leak import allowed_drop, pressure_decay, pressure_per_kelvin
from teardown_app.metrology.leak_unit import convert
from tests.metrology.witness import Witness

CASES = "worked cases, computed apart from this project"
NITROGEN, HELIUM, AIR = Gas.named("nitrogen"), Gas.named("helium"), Gas.named("air")


def lost_moles(volume: float, start: float, end: float, t1: float, t2: float, duration: float) -> float:
    """Leak rate in mbar l/s at the first temperature from moles before and after."""
    k1, k2 = t1 + constants.zero_Celsius, t2 + constants.zero_Celsius
    before, after = (p * 1e2 * volume * 1e-3 / (constants.R * k) for p, k in ((start, k1), (end, k2)))
    return (before - after) * constants.R * k1 / duration * 10


def compensated(*case: float) -> float:
    """Ours, of the same six numbers."""
    volume, start, end, t1, t2, duration = case
    return pressure_decay(volume, start, end, duration, temperature_start=t1, temperature_end=t2).compensated


def cool(wanted: str, *state: object) -> Callable[[], float]:
    """A property by CoolProp, asked when it is needed."""

    def ask() -> float:
        from CoolProp.CoolProp import PropsSI

        return float(PropsSI(wanted, *state))

    return ask


WITNESSES: list[Witness] = [
    Witness("leak.pressure_decay", "published example, 5 l, 1000 to 998 mbar in 30 s",
            lambda: pressure_decay(5, 1000, 998, 30).raw, 0.333333, 2e-6),
    Witness("leak.pressure_decay", CASES, lambda: pressure_decay(1.5, 3013.25, 3008.25, 300, temperature_start=22,
            temperature_end=22.5), [2.5e-2, 5.0437595e-2], 1e-8),
    Witness("leak.pressure_decay", "moles before and after, scipy.constants.R",
            lambda: [compensated(3.3, 5000, 4990, 20, 17.2, 900), compensated(0.2, 2013, 2013, 20, 21, 60)],
            [lost_moles(3.3, 5000, 4990, 20, 17.2, 900), lost_moles(0.2, 2013, 2013, 20, 21, 60)], 1e-10),
    Witness("leak.pressure_per_kelvin", CASES, lambda: pressure_per_kelvin(5000, 20), 17.056, 1e-5),
    Witness("leak.pressure_per_kelvin", "nitrogen at constant density, CoolProp",
            lambda: pressure_per_kelvin(5000, 20) * 100,
            cool("d(P)/d(T)|D", "P", 5e5, "T", 293.15, "Nitrogen"), 0.015, needs="CoolProp"),
    Witness("leak.pressure_per_kelvin", "ideal gas, difference of n R T / V", lambda: pressure_per_kelvin(2000, 50),
            2000 / (constants.R * 323.15) * constants.R * 324.15 - 2000, 1e-10),
    Witness("leak.allowed_drop", "published example backwards: 1/3 mbar l/s, 5 l, 30 s",
            lambda: allowed_drop(1 / 3, 5, 30),
            2, 1e-14),
    Witness("leak.allowed_drop", "emptying at a steady rate, scipy.integrate", lambda: allowed_drop(0.02, 8, 600),
            lambda: -float(integrate.solve_ivp(lambda _, __: [-0.02 / 8], (0, 600), [0.0]).y[0, -1]), 1e-12),
    Witness("leak_unit.convert", CASES, lambda: [
            convert(1, "Pa m3/s", "mbar l/s"), convert(1, "Pa m3/s", "sccm"), convert(1, "mbar l/s", "sccm"),
            convert(1, "Pa m3/s", "sccm", gas_temperature=20)], [10, 592.15396, 59.215396, 551.7546], 1e-7),
    Witness("leak_unit.convert", "worked cases, one sccm", lambda: [
            convert(1e3, "sccm", "Pa m3/s"), convert(1e3, "sccm", "mbar l/s"), convert(1e6, "sccm", "mol/s"),
            convert(1e-17, "sccm", "molecules/s")], [1.68875, 16.8875, 0.7435839, 4.477967], 3e-7),
    Witness("leak_unit.convert", "scipy.constants: atm, torr, R, Avogadro", lambda: [
            convert(1, "atm cm3/s", "Pa m3/s"), convert(1, "Torr l/s", "Pa m3/s"), convert(1, "slm", "mol/s"),
            convert(1e-23, "mol/s", "molecules/s"), convert(1, "mol/s", "Pa m3/s", gas_temperature=25) * 1e-3],
            [constants.atm * 1e-6, constants.torr * 1e-3, constants.atm * 1e-3 / 60 / (constants.R * 273.15),
             constants.N_A * 1e-23, constants.R * 298.15 * 1e-3], 1e-9),
    Witness("gas_leak.with_other_gas", CASES, lambda: [with_other_gas(1, AIR, HELIUM, one)
            for one in ("viscous", "molecular")],
            [18.1 / 19.6, 2.68985], 1e-6),
    Witness("gas_leak.with_other_gas", "viscosities of CoolProp", lambda: [with_other_gas(1, AIR, HELIUM, "viscous"),
            with_other_gas(1, NITROGEN, AIR, "viscous")], lambda: [
            cool("V", "P", 1e5, "T", 293.15, "Air")() / cool("V", "P", 1e5, "T", 293.15, "Helium")(),
            cool("V", "P", 1e5, "T", 293.15, "Nitrogen")() / cool("V", "P", 1e5, "T", 293.15, "Air")()], 0.01,
            needs="CoolProp"),
    Witness("gas_leak.with_other_gas", "mean speeds of Maxwell, scipy.stats",
            lambda: with_other_gas(1, NITROGEN, HELIUM, "molecular"),
            stats.maxwell(scale=math.sqrt(1 / 4.0026)).mean() / stats.maxwell(scale=math.sqrt(1 / 28.0134)).mean(),
            1e-12),
]  # fmt: skip
