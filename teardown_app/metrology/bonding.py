"""Protective bonding: resistance from voltage and current, and what a copper conductor should have."""

from __future__ import annotations

from teardown_app.metrology.fault import BadInput, number

COPPER = 0.0178
"""Resistivity of conductor copper at 20 degC, ohm mm2/m."""


def bonding_resistance(voltage: float, current: float, *, lead_resistance: float = 0.0) -> float:
    """Resistance of a bonding path in ohm: R = U / I less that of the test leads.

    Parameters: `voltage` U in V, 0 or above, read while `current` I in A, above 0, flows; `lead_resistance` in ohm,
    0 or above, at most U / I; 0 where four wires read it. Raises `BadInput`. The limit is always yours: IEC 60204-1
    gives no single one, the value has to fit length, area and material of the conductor.

    >>> round(bonding_resistance(0.85, 10), 6), round(bonding_resistance(1.2, 10, lead_resistance=0.05), 6)
    (0.085, 0.07)
    """
    amperes = number("current", current, "above 0 A", above=0)
    total = number("voltage", voltage, "0 V or above", low=0) / amperes
    leads = number("lead_resistance", lead_resistance, "0 ohm or above", low=0)
    if leads > total:
        raise BadInput("lead_resistance", lead_resistance, f"at most what was read, {total:.6g} ohm")
    return total - leads


def conductor_resistance(length: float, area: float, *, resistivity: float = COPPER) -> float:
    """Resistance of a conductor in ohm: R = rho L / A; of copper at 20 degC where nothing else is said.

    Parameters: `length` L in m, 0 or above; `area` A in mm2, above 0; `resistivity` rho in ohm mm2/m, above 0.
    Clamps and screws come on top. Raises `BadInput`.

    >>> round(conductor_resistance(5, 2.5), 6)
    0.0356
    """
    metres = number("length", length, "0 m or above", low=0)
    rho = number("resistivity", resistivity, "above 0 ohm mm2/m", above=0)
    return rho * metres / number("area", area, "above 0 mm2", above=0)
