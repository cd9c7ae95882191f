"""Gases that tools are tested and fed with: what the formulas of flow need of them."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.metrology.fault import BadInput


class Gas(NamedTuple):
    """One gas near 20 degC and 1 atm."""

    molar_mass: float
    """g/mol."""
    heat_ratio: float
    """Heat capacity at constant pressure over that at constant volume."""
    viscosity: float
    """Dynamic, uPa s."""

    @classmethod
    def named(cls, name: str, field: str = "gas") -> Gas:
        """The gas of that name; `BadInput` that lists the known ones."""
        if name not in GASES:
            raise BadInput(field, name, ", ".join(GASES))
        return GASES[name]


GASES = {
    "air": Gas(28.96, 1.4, 18.1),
    "nitrogen": Gas(28.0134, 1.4, 17.6),
    "helium": Gas(4.0026, 5 / 3, 19.6),
    "argon": Gas(39.948, 5 / 3, 22.3),
}
"""Heat ratios are those of the ideal gas with two atoms (7/5) or one (5/3)."""
