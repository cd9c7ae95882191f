"""Units of leak rates, and what they have in common: an amount of gas in a time.

Pressure times volume in a time says an amount only at a temperature; standard volumes have theirs in the unit.
"""

from __future__ import annotations

from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.leak import ZERO_CELSIUS

GAS_CONSTANT = 8.31446261815324
"""J/(mol K), exact since 2019."""
AVOGADRO = 6.02214076e23
"""1/mol, exact since 2019."""
ATMOSPHERE = 101325.0
"""Pa, exact."""
THROUGHPUT_PA_M3_S = {"Pa m3/s": 1.0, "mbar l/s": 0.1, "Torr l/s": ATMOSPHERE / 760e3, "atm cm3/s": ATMOSPHERE * 1e-6}
STANDARD_VOLUME_M3_S = {"sccm": 1e-6 / 60, "slm": 1e-3 / 60}
AMOUNT_MOL_S = {"mol/s": 1.0, "molecules/s": 1 / AVOGADRO}
UNITS = (*THROUGHPUT_PA_M3_S, *STANDARD_VOLUME_M3_S, *AMOUNT_MOL_S)


def convert(
    rate: float,
    given: str,
    wanted: str,
    *,
    gas_temperature: float | None = None,
    standard_temperature: float = 0.0,
    standard_pressure: float = ATMOSPHERE,
) -> float:
    """A leak rate in another unit, by way of the amount: n = Q / (R T), or n = P_std V_std / (R T_std).

    Parameters: `rate` in unit `given`, any sign; `given` and `wanted` of `UNITS`; `gas_temperature` in degC at which
    pressure times volume was or will be read, left out: that of the standard volume; `standard_temperature` in degC
    and `standard_pressure` in Pa of sccm and slm, 0 degC and 101325 Pa where nothing else is said.
    Temperatures above -273.15 degC, pressure above 0. Raises `BadInput`.

    >>> round(convert(1, "Pa m3/s", "sccm"), 5)
    592.15396
    >>> round(convert(1, "Pa m3/s", "sccm", gas_temperature=20), 4)
    551.7546
    """  # fmt: skip
    rate = number("rate", rate, "a number")
    if gas_temperature is None:
        gas_temperature = standard_temperature
    thermal = GAS_CONSTANT * _kelvin("gas_temperature", gas_temperature)
    standard = number("standard_pressure", standard_pressure, "above 0 Pa", above=0)
    standard /= GAS_CONSTANT * _kelvin("standard_temperature", standard_temperature)
    mol_s = AMOUNT_MOL_S | {unit: one / thermal for unit, one in THROUGHPUT_PA_M3_S.items()}
    mol_s |= {unit: one * standard for unit, one in STANDARD_VOLUME_M3_S.items()}
    return rate * (mol_s[_unit("given", given)] / mol_s[_unit("wanted", wanted)])


def _kelvin(field: str, temperature: float) -> float:
    """Kelvin from degC."""
    return number(field, temperature, "above -273.15 degC", above=-ZERO_CELSIUS) + ZERO_CELSIUS


def _unit(field: str, unit: str) -> str:
    """The unit itself where it is known."""
    if unit not in UNITS:
        raise BadInput(field, unit, ", ".join(UNITS))
    return unit
