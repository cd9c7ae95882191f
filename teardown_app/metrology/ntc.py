"""NTC thermistors by the beta equation: resistance and temperature both ways."""

from __future__ import annotations

import math

from teardown_app.metrology.fault import BadInput, number

ZERO = 273.15
"""0 degC in K."""
NOMINAL_C = 25.0
"""Temperature of the nominal resistance where nothing else is said, degC."""
LOWEST, HIGHEST = -100.0, 400.0
"""Range of temperature, degC. The beta equation is good to about 1 K only some 50 K around the nominal point."""
OF_ROUNDING = 1e-9
"""K by which a temperature that was computed may pass the range: last digits only."""


def resistance(temperature: float, nominal: float, beta: float, *, nominal_temperature: float = NOMINAL_C) -> float:
    """Resistance at a temperature: R = Rn exp(B (1 / T - 1 / Tn)), T in K; in the unit of the nominal resistance.

    Parameters: `temperature` -100 to 400 degC; `nominal` Rn above 0, at `nominal_temperature`; `beta` B 500 to
    10000 K, as the maker gives it for his pair of temperatures. Raises `BadInput`.

    >>> round(resistance(50, 10000, 3950), 2), round(resistance(0, 10000, 3950), 2)
    (3588.18, 33620.6)
    """
    t, tn = _degrees("temperature", temperature), _degrees("nominal_temperature", nominal_temperature)
    turned = (tn - t) / ((t + ZERO) * (tn + ZERO))
    return number("nominal", nominal, "above 0 ohm", above=0) * math.exp(_beta(beta) * turned)


def temperature(resistance: float, nominal: float, beta: float, *, nominal_temperature: float = NOMINAL_C) -> float:
    """Temperature in degC for a resistance: 1 / T = 1 / Tn + ln(R / Rn) / B.

    Parameters: `resistance` and `nominal` in one unit, above 0; others as for `resistance`. Raises `BadInput`, also
    where the temperature comes out beyond -100 to 400 degC.

    >>> round(temperature(3588.18, 10000, 3950), 3)
    50.0
    """
    read = number("resistance", resistance, "above 0 ohm", above=0)
    known = number("nominal", nominal, "above 0 ohm", above=0)
    tn = _degrees("nominal_temperature", nominal_temperature)
    turned = math.log(read / known) / _beta(beta)
    stretch = 1 + (tn + ZERO) * turned
    found = tn - (tn + ZERO) ** 2 * turned / stretch if stretch > 0 else math.inf
    if not LOWEST - OF_ROUNDING <= found <= HIGHEST + OF_ROUNDING:
        raise BadInput("resistance", resistance, f"that of {LOWEST:g} to {HIGHEST:g} degC")
    return found


def _degrees(field: str, value: float) -> float:
    return number(field, value, f"{LOWEST:g} to {HIGHEST:g} degC", low=LOWEST, high=HIGHEST)


def _beta(value: float) -> float:
    return number("beta", value, "500 to 10000 K", low=500, high=10000)
