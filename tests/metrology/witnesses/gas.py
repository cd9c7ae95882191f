"""Witnesses for gas through an orifice and for filters."""

from __future__ import annotations

import math
from collections.abc import Callable

from scipy import constants, integrate, optimize

from teardown_app.metrology.bubble_point import capillary_pressure, pore_diameter
from teardown_app.metrology.choked_flow import OrificeFlow, critical_ratio, orifice_flow, standard_flow
from teardown_app.metrology.gases import Gas
from tests.metrology.witness import Witness

CASES = "worked cases, computed apart from this project"
NITROGEN, HELIUM, AIR = Gas.named("nitrogen"), Gas.named("helium"), Gas.named("air")
AREA_G = math.pi / 4 * 1e-6 * 1e3


def cool(wanted: str, *state: object) -> Callable[[], float]:
    """A property by CoolProp, asked when it is needed."""

    def ask() -> float:
        from CoolProp.CoolProp import PropsSI

        return float(PropsSI(wanted, *state))

    return ask


def jet(before: float, behind: float, gas: Gas, kelvin: float) -> float:
    """Flux in kg/(s m2): speed from the integral of v dp along an isentrope, times density in the jet."""
    rho = before * gas.molar_mass * 1e-3 / (constants.R * kelvin)
    work = integrate.quad(lambda p: (p / before) ** (-1 / gas.heat_ratio) / rho, behind, before, epsrel=1e-13)[0]
    return rho * (behind / before) ** (1 / gas.heat_ratio) * math.sqrt(2 * work)


def greatest(before: float, gas: Gas, kelvin: float) -> optimize.OptimizeResult:
    """Pressure behind that gives the greatest flux."""
    return optimize.minimize_scalar(lambda p: -jet(before, p, gas, kelvin), bounds=(0.3 * before, 0.8 * before),
                                    method="bounded", options={"xatol": 1e-3})  # fmt: skip


def through_hole(before: float, behind: float, gas: Gas = NITROGEN, discharge: float = 1.0) -> OrificeFlow:
    """1 mm, 20 degC."""
    return orifice_flow(1, before, behind, 20, gas=gas, discharge=discharge)


def by_fluids(behind: float) -> list[float]:
    """Choked or not, and critical pressure over 5 bar, by the library fluids."""
    from fluids.compressible import P_critical_flow, is_critical_flow

    return [float(is_critical_flow(5e5, behind * 1e5, 1.4)), float(P_critical_flow(5e5, 1.4)) / 5e5]


def real_nitrogen() -> float:
    """Flux of CoolProp's nitrogen through 1 mm from 5 bar, 20 degC, greatest over the throat's pressure, g/s."""
    from CoolProp.CoolProp import PropsSI

    h0, s0 = (PropsSI(name, "P", 5e5, "T", 293.15, "Nitrogen") for name in "HS")

    def flux(p: float) -> float:
        enthalpy, density = PropsSI("H", "P", p, "S", s0, "Nitrogen"), PropsSI("D", "P", p, "S", s0, "Nitrogen")
        return -float(density * math.sqrt(2 * (h0 - enthalpy)))

    return -optimize.minimize_scalar(flux, bounds=(2e5, 4e5), method="bounded").fun * math.pi / 4 * 1e-3


WITNESSES: list[Witness] = [
    Witness("choked_flow.critical_ratio", CASES, lambda: [critical_ratio(1.4), critical_ratio(5 / 3)],
            [0.528282, 0.487139], 1e-6),
    Witness("choked_flow.critical_ratio", "fluids.P_critical_flow", lambda: critical_ratio(1.4),
            lambda: by_fluids(1)[1],
            1e-12, needs="fluids"),
    Witness("choked_flow.critical_ratio", "pressure of greatest flux, scipy.optimize", lambda: critical_ratio(5 / 3),
            lambda: greatest(5e5, HELIUM, 293.15).x / 5e5, 1e-6),
    Witness("choked_flow.orifice_flow", CASES, lambda: [through_hole(5, 1, discharge=0.8).mass_flow,
            through_hole(7.01325, 1.01325).mass_flow], [0.729274, 1.278646], 1e-6),
    Witness("choked_flow.orifice_flow", "isentropic jet, integral of v dp, scipy.integrate",
            lambda: [through_hole(5, behind, gas).mass_flow for behind in (2.7, 3.5, 4.6, 4.999)
            for gas in (NITROGEN, HELIUM)],
            lambda: [jet(5e5, behind * 1e5, gas, 293.15) * AREA_G for behind in (2.7, 3.5, 4.6, 4.999)
            for gas in (NITROGEN, HELIUM)],
            1e-9),
    Witness("choked_flow.orifice_flow", "greatest flux over the throat, scipy.optimize",
            lambda: through_hole(5, 0, HELIUM).mass_flow,
            lambda: -greatest(5e5, HELIUM, 293.15).fun * AREA_G, 1e-9),
    Witness("choked_flow.orifice_flow", "fluids.is_critical_flow",
            lambda: [through_hole(5, p).choked for p in (1, 2.63, 2.65, 4)],
            lambda: [by_fluids(p)[0] for p in (1, 2.63, 2.65, 4)], 0, needs="fluids"),
    Witness("choked_flow.orifice_flow", "real nitrogen, 0.91328 g/s as worked", lambda: through_hole(5, 1).mass_flow,
            0.91328, 3e-3),
    Witness("choked_flow.orifice_flow", "real nitrogen, CoolProp", lambda: through_hole(5, 1).mass_flow, real_nitrogen,
            3e-3,
            needs="CoolProp"),
    Witness("choked_flow.standard_flow", CASES, lambda: [standard_flow(0.729274, 28.0134),
            standard_flow(0.729274, 28.0134, temperature=20)], [35.0103, 37.5737], 2e-6),
    Witness("choked_flow.standard_flow", "density of nitrogen at 0 degC and 1 atm, CoolProp",
            lambda: standard_flow(1, 28.0134),
            lambda: 60 / cool("D", "P", 101325, "T", 273.15, "Nitrogen")(), 1e-3, needs="CoolProp"),
    Witness("choked_flow.standard_flow", "molar volume of CODATA, scipy.constants",
            lambda: standard_flow(28.0134, 28.0134),
            constants.value("molar volume of ideal gas (273.15 K, 101.325 kPa)") * 6e4, 1e-8),
    Witness("bubble_point.capillary_pressure", CASES,
            lambda: [capillary_pressure(72, 0.2), capillary_pressure(21.7, 0.2),
            capillary_pressure(72, 0.2, shape_factor=0.715), capillary_pressure(21.7, 0.2, shape_factor=0.715)],
            [1440, 434, 1029.6, 310.31], 1e-12),
    Witness("bubble_point.capillary_pressure", "law of Laplace, 2 gamma / r, gamma of water by CoolProp",
            lambda: capillary_pressure(72.0550, 0.45),
            lambda: 2 * cool("I", "T", 298.15, "Q", 0, "Water")() / 0.225e-6 * 1e-3,
            1e-5, needs="CoolProp"),
    Witness("bubble_point.capillary_pressure", "balance of forces on the rim",
            lambda: capillary_pressure(30, 3, contact_angle=60),
            math.pi * 3 * 30 * 0.5 / (math.pi / 4 * 3**2), 1e-14),
    Witness("bubble_point.pore_diameter", CASES, lambda: [pore_diameter(1440, 72), pore_diameter(434, 21.7),
            pore_diameter(310.31, 21.7, shape_factor=0.715)], [0.2, 0.2, 0.2], 1e-12),
    Witness("bubble_point.pore_diameter", "constant 2860 of ASTM F316, from memory",
            lambda: pore_diameter(310, 21.7, shape_factor=0.715),
            2860 * 21.7 / 310e3, 1e-12),
]  # fmt: skip
