"""Witnesses for balance, vibration and spinning bowls."""

from __future__ import annotations

import math
from bisect import bisect_left

import numpy as np
from scipy import constants, fftpack, linalg, optimize, stats

from teardown_app.metrology.balance import centrifugal_force, permissible_unbalance, plane_allocation
from teardown_app.metrology.centrifuge import relative_centrifugal_force, speed_for
from teardown_app.metrology.vibration import (
    ZONE_BORDERS_MM_S,
    from_acceleration,
    from_displacement,
    from_velocity,
    velocity_rms,
    zone,
)
from tests.metrology.witness import Witness

CASES = "worked cases, computed apart from this project"
GRADED = [(2.5, 12, 1500), (6.3, 50, 3000), (6.3, 3.6, 2950)]
TURNS = 2 * math.pi / constants.minute
ANNEX_B = {"I": (0.71, 1.8, 4.5), "II": (1.12, 2.8, 7.1), "III": (1.8, 4.5, 11.2), "IV": (2.8, 7.1, 18)}
TRACE = 5e6 + np.array([3.1, -0.4, 2.2, -5.9, 0.3, 4.4, -1.7])
WAVE = 2.0 * np.sin(2 * math.pi * np.arange(400) / 40)


def balance_of_moments(u_per: float, from_a: float, span: float) -> np.ndarray:
    """Shares that add up to the whole and have no moment about the mass centre."""
    return linalg.solve([[1, 1], [from_a, from_a - span]], [u_per, 0])


def spectral(displacement: float, speed: float) -> tuple[float, float]:
    """Velocity in mm/s and acceleration in m/s2, r.m.s., by derivatives of a sampled sine."""
    period = constants.minute / speed
    wave = displacement / 2 * np.sin(2 * math.pi * np.arange(64) / 64)
    rms = [float(np.sqrt(np.mean(fftpack.diff(wave, order, period) ** 2))) for order in (1, 2)]
    return rms[0] * 1e-3, rms[1] * 1e-6


def zones(velocities: list[tuple[float, str]]) -> list[int]:
    """0 for A to 3 for D."""
    return ["ABCD".index(zone(velocity, machine)) for velocity, machine in velocities]


EVERYWHERE = [
    (velocity, machine) for machine in ANNEX_B for velocity in (0.5, 0.71, 0.72, 1.2, 2.81, 4.51, 7.1, 11.3, 19)
]

WITNESSES: list[Witness] = [
    Witness("balance.permissible_unbalance", CASES, lambda: [permissible_unbalance(*one) for one in GRADED],
            [[15.915494, 190.985932], [20.053523, 1002.676141], [20.393413, 73.416287]], 1e-8),
    Witness("balance.permissible_unbalance", "definition G = e omega with scipy.constants",
            lambda: [permissible_unbalance(*one) for one in GRADED],
            [[g * 1e3 / (n * TURNS), g * 1e3 * m / (n * TURNS)] for g, m, n in GRADED], 1e-14),
    Witness("balance.plane_allocation", CASES, lambda: plane_allocation(191, 200, 500)[:2], [114.6, 76.4], 1e-14),
    Witness("balance.plane_allocation", "moments about the mass centre, scipy.linalg",
            lambda: [plane_allocation(73.4, at, 640, least_share=0)[:2] for at in (30, 320, 601.5)],
            [balance_of_moments(73.4, at, 640) for at in (30, 320, 601.5)], 1e-13),
    Witness("balance.plane_allocation", "70:30 limit of ISO 21940-11, from memory and a public page",
            lambda: [plane_allocation(100, at, 500)[:2] for at in (50, 150, 450)], [[70, 30], [70, 30], [30, 70]],
            1e-14),
    Witness("balance.centrifugal_force", CASES, lambda: centrifugal_force(190.985932, 1500), 4.712389, 1e-7),
    Witness("balance.centrifugal_force", "mass on a circle, second derivative, scipy.fftpack",
            lambda: centrifugal_force(500.0, 1200),
            lambda: 0.5 * float(np.max(fftpack.diff(1e-3 * np.sin(2 * math.pi * np.arange(64) / 64), 2, 0.05))), 1e-10),
    Witness("vibration.from_displacement", CASES, lambda: from_displacement(50, 1500).velocity, 2.776802, 1e-6),
    Witness("vibration.from_displacement", "derivatives of a sampled sine, scipy.fftpack",
            lambda: [from_displacement(80, n)[1:] for n in (600, 1480, 9000)],
            lambda: [spectral(80, n) for n in (600, 1480, 9000)], 1e-10),
    Witness("vibration.from_velocity", CASES, lambda: from_velocity(2.776802, 1500).displacement, 50, 1e-6),
    Witness("vibration.from_velocity", "derivatives of a sampled sine, scipy.fftpack",
            lambda: from_velocity(spectral(35, 2950)[0], 2950), lambda: [35, *spectral(35, 2950)], 1e-10),
    Witness("vibration.from_acceleration", "derivatives of a sampled sine, scipy.fftpack",
            lambda: from_acceleration(spectral(12, 5800)[1], 5800), lambda: [12, *spectral(12, 5800)], 1e-10),
    Witness("vibration.from_acceleration", "closed form: 1 g r.m.s. at 159.155 Hz is 9.80665 mm/s, scipy.constants",
            lambda: from_acceleration(constants.g, 60 * 1000 / (2 * math.pi)).velocity, 9.80665, 1e-14),
    Witness("vibration.velocity_rms", "closed form of a sine, A / sqrt 2", lambda: velocity_rms(WAVE), math.sqrt(2),
            1e-14),
    Witness("vibration.velocity_rms", "scipy.stats, on an offset of 5e6", lambda: velocity_rms(TRACE),
            lambda: math.sqrt(stats.describe(TRACE - 5e6, ddof=0).variance), 1e-9),
    Witness("vibration.zone", "ISO 10816-1:1995 Annex B as public pages print it, and worked cases",
            lambda: zones([(3.2, "II"), (0.71, "I"), (4.6, "I"), (7.1, "IV")]), [2, 0, 3, 1], 0, True),
    Witness("vibration.zone", "classes I to IV of ISO 2372:1974, from memory", lambda: zones(EVERYWHERE),
            [bisect_left(ANNEX_B[machine], velocity) for velocity, machine in EVERYWHERE], 0, True),
    Witness("vibration.zone", "borders as printed", lambda: list(ZONE_BORDERS_MM_S.values()), list(ANNEX_B.values()),
            0),
    Witness("centrifuge.relative_centrifugal_force", CASES,
            lambda: [relative_centrifugal_force(100, 3000), relative_centrifugal_force(250, 1500)], [1006.42, 629.01],
            1e-5),
    Witness("centrifuge.relative_centrifugal_force", "printed constant 1.118e-5 r n^2, r in cm",
            lambda: [relative_centrifugal_force(100, 3000), relative_centrifugal_force(250, 1500)], [1006.2, 628.88],
            3e-4),
    Witness("centrifuge.relative_centrifugal_force", "scipy.constants.g", lambda: relative_centrifugal_force(183, 2200),
            0.183 * (2200 * TURNS) ** 2 / constants.g, 1e-14),
    Witness("centrifuge.speed_for", CASES, lambda: [speed_for(1006.42, 100), speed_for(629.01, 250)], [3000, 1500],
            1e-5),
    Witness("centrifuge.speed_for", "root of r omega^2 = RCF g, scipy.optimize", lambda: speed_for(850, 165),
            lambda: optimize.brentq(lambda n: 0.165 * (n * TURNS) ** 2 - 850 * constants.g, 1, 1e5, rtol=1e-14), 1e-12),
]  # fmt: skip
