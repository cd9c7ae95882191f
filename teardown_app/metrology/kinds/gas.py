"""Kinds of measurement on gas and filters: flow through an orifice, bubble point."""

from __future__ import annotations

from teardown_app.metrology.bubble_point import pore_diameter
from teardown_app.metrology.choked_flow import orifice_flow, standard_flow
from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.gases import GASES, Gas
from teardown_app.metrology.kind import CHOICE, Field, Kind, Result, Value

GAUGES = ("absolute", "gauge")
REAL_GAS_BAR = 20.0
"""Pressure above which the ideal gas is no longer good to about 1 %."""


def _choked_flow(diameter: float, before: float, behind: float, temperature: float, discharge: float,
                 gas: str = "nitrogen", pressure_is: str = "absolute", ambient: float | None = None,
                 standard_temperature: float = 0.0) -> Result:  # fmt: skip
    kind = Gas.named(gas)
    first, last = _absolute("before", before, pressure_is, ambient), _absolute("behind", behind, pressure_is, ambient)
    found = orifice_flow(diameter, first, last, temperature, gas=kind, discharge=discharge)
    flow = standard_flow(found.mass_flow, kind.molar_mass, temperature=standard_temperature)
    said = (
        (True, f"Litres a minute at {standard_temperature:g} degC and 101325 Pa."),
        (not found.choked, "Not choked: the flow depends on the pressure behind."),
        (first > REAL_GAS_BAR, "Above 20 bar the ideal gas is no longer good to about 1 %."),
    )
    return Result((
        Value("flow", flow, "l/min", "at the standard state"),
        Value("mass_flow", found.mass_flow, "g/s"),
        Value("choked", "yes" if found.choked else "no"),
        Value("pressure_ratio", found.pressure_ratio, "", "behind over before, absolute"),
        Value("critical_ratio", found.critical_ratio, "", "choked at and below it"),
    ), tuple(note for holds, note in said if holds))  # fmt: skip


def _absolute(field: str, pressure: float, pressure_is: str, ambient: float | None) -> float:
    """Absolute pressure, bar."""
    if pressure_is not in GAUGES:
        raise BadInput("pressure_is", pressure_is, " or ".join(GAUGES))
    if pressure_is == "absolute":
        return pressure
    if ambient is None:
        raise BadInput("ambient", "missing", "ambient pressure in bar absolute, needed with gauge pressure")
    ambient = number("ambient", ambient, "0.5 to 1.1 bar absolute", low=0.5, high=1.1)
    return number(field, pressure, f"{-ambient:g} bar gauge or above", low=-ambient) + ambient


def _bubble_point(pressure: float, surface_tension: float, contact_angle: float = 0.0, shape_factor: float = 1.0
                  ) -> Result:  # fmt: skip
    pore = pore_diameter(pressure, surface_tension, contact_angle=contact_angle, shape_factor=shape_factor)
    return Result((
        Value("bubble_point", float(pressure), "kPa", "pressure of the first steady stream of bubbles"),
        Value("pore", pore, "um", "diameter of an ideal pore that opens there"),
    ), ("A pass is at or above the maker's minimum for this filter and liquid; no limit comes from a pore size.",
        "A shape factor below 1 (0.715 in ASTM F316): verify against your copy of the standard."))  # fmt: skip


KINDS: tuple[Kind, ...] = (
    Kind("choked-flow", "Flow of a gas through an orifice, choked or not.", "ideal gas, isentropic", (
        Field("diameter", "Diameter of the hole.", "mm", allowed="above 0"),
        Field("before", "Pressure before the hole.", "bar"),
        Field("behind", "Pressure behind it.", "bar", allowed="no more than before"),
        Field("temperature", "Temperature of the gas before the hole.", "degC", allowed="above -273.15"),
        Field("discharge", "Discharge coefficient of the hole, from its maker or a calibration.",
              allowed="above 0, at most 1"),
        Field("gas", "Which gas.", form=CHOICE, choices=tuple(GASES), default="nitrogen"),
        Field("pressure_is", "How the gauges read.", form=CHOICE, choices=GAUGES, default="absolute"),
        Field("ambient", "Ambient pressure, for gauge readings.", "bar", allowed="0.5 to 1.1", optional=True),
        Field("standard_temperature", "Temperature that litres are counted at.", "degC", default=0.0),
    ), _choked_flow, {"diameter": 1, "before": 5, "behind": 1.01325, "temperature": 20, "discharge": 0.8}, "flow"),
    Kind("bubble-point", "Bubble point of a wetted filter.", "capillary law P = 4 gamma cos(theta) / d", (
        Field("pressure", "Pressure at the first steady stream of bubbles.", "kPa", allowed="above 0"),
        Field("surface_tension", "Of the wetting liquid at its temperature.", "mN/m", allowed="above 0"),
        Field("contact_angle", "Of liquid on filter.", "deg", allowed="0 to below 90", default=0.0),
        Field("shape_factor", "Of pores; 1: round.", allowed="above 0, at most 1", default=1.0),
    ), _bubble_point, {"pressure": 310, "surface_tension": 21.7}, "bubble_point"),
)  # fmt: skip
