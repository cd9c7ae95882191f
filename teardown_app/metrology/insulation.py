"""Resistance of insulation: brought to 40 degC, its rise while the voltage stands, the least that is advised."""

from __future__ import annotations

import math

from teardown_app.metrology.fault import BadInput, number

THERMOPLASTIC, THERMOSETTING = "thermoplastic", "thermosetting"
SYSTEMS = (THERMOPLASTIC, THERMOSETTING)
BELOW_40, ABOVE_40 = 1245.0, 4230.0
"""Constants in K of the thermosetting formula, 10 to 40 and 40 to 85 degC. From memory: verify against your copy of
IEEE 43."""
RANGES_C = {THERMOPLASTIC: (-10.0, 100.0), THERMOSETTING: (10.0, 85.0)}
"""Winding temperatures that can be corrected from. The thermosetting one is IEEE 43's; the other is this room's."""
FORM_WOUND, RANDOM_WOUND, OLD, ARMATURE = "form-wound", "random-wound", "before 1970", "dc armature"
WINDINGS = (FORM_WOUND, RANDOM_WOUND, OLD, ARMATURE)


def resistance_at_40(resistance: float, temperature: float, *, system: str, below_40: float = BELOW_40,
                     above_40: float = ABOVE_40) -> float:  # fmt: skip
    """Insulation resistance brought to 40 degC: R40 = K R; in the unit it came in.

    IEEE 43. Thermoplastic (most windings before 1970): K = 0.5^((40 - t) / 10). Thermosetting:
    K = exp(-c (1 / (t + 273) - 1 / 313)) with c = 1245 K from 10 to 40 degC and 4230 K from 40 to 85 degC; these two
    constants are from memory, verify against your copy.

    Parameters: `resistance` of one minute, above 0; `temperature` t of the winding, -10 to 100 degC thermoplastic,
    10 to 85 degC thermosetting; `system` one of SYSTEMS; `below_40`, `above_40` c in K, above 0. Raises `BadInput`.

    >>> resistance_at_40(100, 20, system="thermoplastic"), resistance_at_40(50, 60, system="thermoplastic")
    (25.0, 200.0)
    >>> [round(resistance_at_40(1, t, system="thermosetting"), 6) for t in (25, 60)]
    [0.818553, 2.251675]
    """
    resistance = number("resistance", resistance, "above 0", above=0)
    if system not in SYSTEMS:
        raise BadInput("system", system, " or ".join(SYSTEMS))
    low, high = RANGES_C[system]
    t = number("temperature", temperature, f"{low:g} to {high:g} degC for {system}", low=low, high=high)
    below_40 = number("below_40", below_40, "above 0 K", above=0)
    above_40 = number("above_40", above_40, "above 0 K", above=0)
    if system == THERMOPLASTIC:
        return resistance * math.pow(0.5, (40 - t) / 10)
    return resistance * math.exp((below_40 if t < 40 else above_40) * (1 / 313 - 1 / (t + 273)))


def polarisation_index(one_minute: float, ten_minutes: float) -> float:
    """Insulation resistance after ten minutes by that after one: PI = R10 / R1; no unit. IEEE 43.

    Both in one unit, above 0, at one temperature, of one test. Raises `BadInput`.

    >>> polarisation_index(150, 600)
    4.0
    """
    one = number("one_minute", one_minute, "above 0", above=0)
    return number("ten_minutes", ten_minutes, "above 0", above=0) / one


def absorption_ratio(half_minute: float, one_minute: float) -> float:
    """Insulation resistance after one minute by that after 30 s: DAR = R60s / R30s; no unit. Common practice.

    Both in one unit, above 0, at one temperature, of one test. Raises `BadInput`.

    >>> absorption_ratio(100, 140)
    1.4
    """
    half = number("half_minute", half_minute, "above 0", above=0)
    return number("one_minute", one_minute, "above 0", above=0) / half


def advised_minimum(winding: str, voltage: float) -> float:
    """Least insulation resistance in Mohm after one minute at 40 degC, as advice. IEEE 43; verify against your copy.

    Before 1970: rated kilovolts + 1. Form-wound: 100. Random-wound, form-wound below 1 kV, and d.c. armatures (since
    the edition of 2013): 5. Only the 5 Mohm of armatures was read on a page, the others are from memory.

    Parameters: `winding` one of WINDINGS; `voltage` rated, between lines, above 0 to 50000 V. Raises `BadInput`.

    >>> round(advised_minimum("before 1970", 480), 2), advised_minimum("random-wound", 480)
    (1.48, 5.0)
    """
    volts = number("voltage", voltage, "above 0 to 50000 V", above=0, high=50000)
    if winding not in WINDINGS:
        raise BadInput("winding", winding, ", ".join(WINDINGS))
    if winding == OLD:
        return volts / 1000 + 1
    return 100.0 if winding == FORM_WOUND and volts >= 1000 else 5.0
