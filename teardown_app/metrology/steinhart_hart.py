"""NTC thermistors by the Steinhart-Hart equation, three coefficients: resistance and temperature both ways."""

from __future__ import annotations

import math

from teardown_app.metrology.fault import BadInput, number

ZERO = 273.15
"""0 degC in K."""
LOWEST, HIGHEST = -100.0, 400.0
"""Range of temperature, degC."""
OF_ROUNDING = 1e-9
"""K by which a temperature that was computed may pass the range: last digits only."""


def temperature(resistance: float, a: float, b: float, c: float) -> float:
    """Temperature in degC for a resistance: 1 / T = a + b ln R + c (ln R)^3, T in K, R in ohm.

    Steinhart and Hart, Deep-Sea Research 15 (1968) 497.

    Parameters: `resistance` R in ohm, above 0; `a` -0.01 to 0.01, `b` 5e-5 to 0.01, `c` 0 to 1e-4, in 1/K. Raises
    `BadInput`, also where the temperature comes out beyond -100 to 400 degC.

    >>> round(temperature(10000, 1.125e-3, 2.347e-4, 8.566e-8), 1)
    25.0
    """
    a, b, c = _coefficients(a, b, c)
    log = math.log(number("resistance", resistance, "above 0 ohm", above=0))
    turned = a + log * (b + c * log * log)
    found = 1 / turned - ZERO if turned > 0 else math.inf
    if not LOWEST - OF_ROUNDING <= found <= HIGHEST + OF_ROUNDING:
        raise BadInput("resistance", resistance, f"that of {LOWEST:g} to {HIGHEST:g} degC")
    return found


def resistance(temperature: float, a: float, b: float, c: float) -> float:
    """Resistance in ohm at a temperature: the cubic c x^3 + b x + a = 1 / T solved for x = ln R.

    It rises, so it has one root, found in closed form: x = 2 sqrt(p) sinh(arsinh(q / p^1.5) / 3) with p = b / (3 c)
    and q = (1 / T - a) / (2 c).

    Parameters: `temperature` -100 to 400 degC; coefficients as for `temperature`. Raises `BadInput`.

    >>> found = resistance(25, 1.125e-3, 2.347e-4, 8.566e-8)
    >>> round(temperature(found, 1.125e-3, 2.347e-4, 8.566e-8), 9)
    25.0
    """
    a, b, c = _coefficients(a, b, c)
    degrees = number("temperature", temperature, f"{LOWEST:g} to {HIGHEST:g} degC", low=LOWEST, high=HIGHEST)
    rest = 1 / (degrees + ZERO) - a
    return math.exp(_log(rest, b, c))


def _log(rest: float, b: float, c: float) -> float:
    """Root of c x^3 + b x = rest, sharpened once or twice so that a small c costs no digits."""
    x = rest / b
    if c > 0 and b / c < 1e12:
        p = b / (3 * c)
        x = 2 * math.sqrt(p) * math.sinh(math.asinh(rest / (2 * c) / p**1.5) / 3)
    for _ in range(2):
        x -= (x * (b + c * x * x) - rest) / (b + 3 * c * x * x)
    return x


def _coefficients(a: float, b: float, c: float) -> tuple[float, float, float]:
    a = number("a", a, "-0.01 to 0.01 1/K", low=-0.01, high=0.01)
    b = number("b", b, "5e-5 to 0.01 1/K", low=5e-5, high=0.01)
    return a, b, number("c", c, "0 to 1e-4 1/K", low=0, high=1e-4)
