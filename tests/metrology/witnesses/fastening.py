"""Witnesses for screws and tightening."""

from __future__ import annotations

import math

from scipy import constants, optimize

from teardown_app.metrology.fastener import COARSE_PITCH_MM, pitch_diameter, proof_force, stress_area
from teardown_app.metrology.tightening import convert_torque, friction_factor, preload, torque
from tests.metrology.witness import Witness

CASES = "worked cases, computed apart from this project"
SIZES = ("M3", "M4", "M5", "M6", "M8", "M10", "M12", "M16")
CLASSES = ("4.6", "8.8", "10.9", "12.9")
STRESS = (225, 580, 830, 970)
THREADS = [(float(size[1:]), COARSE_PITCH_MM[size]) for size in SIZES]
AREAS = (5.0308, 8.7787, 14.1825, 20.1233, 36.6085, 57.9895, 84.2664, 156.668)
PRINTED_AREAS = (5.03, 8.78, 14.2, 20.1, 36.6, 58.0, 84.3, 157)
PRINTED_LOADS = (
    (1130, 1980, 3200, 4520, 8240, 13000, 19000, 35300), (2920, 5100, 8230, 11600, 21200, 33700, 48900, 91000),
    (4180, 7290, 11800, 16700, 30400, 48100, 70000, 130000), (4880, 8520, 13800, 19500, 35500, 56300, 81800, 152000),
)  # fmt: skip
HALF_ANGLE = math.radians(30)


def geometry(diameter: float, pitch: float) -> float:
    """Stress area from pitch and root diameter, themselves from the height of the thread's triangle."""
    height = pitch * math.sqrt(3) / 2
    pitch_line, root = diameter - 3 / 4 * height, diameter - 17 / 12 * height
    return math.pi / 4 * ((pitch_line + root) / 2) ** 2


def wedge(force: float, pitch: float, mean: float, in_thread: float, beneath: float, ring: float) -> float:
    """Torque in N m of a screw as a wedge wound up: tangent of lead and friction angle, no approximation."""
    lead = math.atan(pitch / (math.pi * mean))
    angle = math.atan(in_thread / math.cos(HALF_ANGLE))
    return force * (mean / 2 * math.tan(lead + angle) + beneath * ring / 2) * 1e-3


def by_friction(force: float, in_thread: float, beneath: float) -> float:
    """Torque of an M8 by our nut factor."""
    found = friction_factor(8, 1.25, pitch_diameter(8, 1.25), thread_friction=in_thread, bearing_friction=beneath,
                            bearing_diameter=11)  # fmt: skip
    return torque(force, 8, found)


def a4_70(size: str) -> float:
    """Torque at 75 % of Rp0.2, K 0.2."""
    return torque(0.75 * proof_force(size, "A4-70"), float(size[1:]), 0.2)


WITNESSES: list[Witness] = [
    Witness("fastener.stress_area", CASES, lambda: [stress_area(*one) for one in THREADS], AREAS, 1e-5),
    *(Witness("fastener.stress_area", f"ISO 898-1 table as printed, {size}", lambda thread=thread: stress_area(*thread),
              area, 3e-3) for size, thread, area in zip(SIZES, THREADS, PRINTED_AREAS, strict=True)),
    Witness("fastener.stress_area", "mean of pitch and root diameter, profile of ISO 68-1",
            lambda: [stress_area(*one) for one in THREADS], [geometry(*one) for one in THREADS], 1e-4),
    Witness("fastener.pitch_diameter", "profile of ISO 68-1: 3/8 of the triangle's height on each side",
            lambda: [pitch_diameter(d, p) for d, p in THREADS],
            [d - 2 * 3 / 8 * p * math.cos(HALF_ANGLE) for d, p in THREADS],
            1e-14),
    Witness("fastener.pitch_diameter", "ISO 724 table, from memory", lambda: [pitch_diameter(d, p) for d, p in THREADS],
            [2.675, 3.545, 4.480, 5.350, 7.188, 9.026, 10.863, 14.701], 5e-5),
    *(Witness("fastener.proof_force", f"ISO 898-1 proof loads as suppliers print them, class {grade}",
              lambda grade=grade: [proof_force(size, grade) for size in SIZES], loads, 0)
      for grade, loads in zip(CLASSES, PRINTED_LOADS, strict=True)),
    *(Witness("fastener.proof_force", f"stress area times stress for proof (from memory), {size}",
              lambda size=size, area=area: [proof_force(size, grade) / area for grade in CLASSES], STRESS, 0.01)
      for size, area in zip(SIZES, AREAS, strict=True)),
    Witness("fastener.proof_force", "ISO 898-1 proof loads of M20 and M24, from memory",
            lambda: [proof_force(size, grade) for size in ("M20", "M24") for grade in ("8.8", "10.9")],
            [147000, 203000, 212000, 293000], 3e-3),
    Witness("fastener.proof_force", "worked cases with Rp0.2 of ISO 3506-1",
            lambda: [*(proof_force(size, "A2-70") for size in ("M6", "M8", "M10", "M12")), proof_force("M8", "A4-80")],
            [9055, 16474, 26095, 37920, 21965], 2e-5),
    Witness("tightening.torque", CASES, lambda: [torque(15900, 8, 0.2), torque(25300, 10, 0.2), torque(5000, 6, 0.16),
                                                 torque(36675, 12, 0.2)], [25.44, 50.6, 4.8, 88.02], 1e-12),
    Witness("tightening.torque", "worked cases, A4-70 at 75 % of stress area times 450 MPa",
            lambda: [a4_70(size) for size in ("M4", "M5", "M6", "M8", "M10")],
            [2.37, 4.79, 8.14, 19.76, 39.15], 3e-4),
    Witness("tightening.torque", "screw as a wedge wound up, exact tangents", lambda: by_friction(15000, 0.12, 0.14),
            wedge(15000, 1.25, 7.18810, 0.12, 0.14, 11), 5e-3),
    Witness("tightening.preload", CASES, lambda: [preload(25.44, 8, 0.2), preload(4.8, 6, 0.16)], [15900, 5000], 1e-12),
    Witness("tightening.preload", "root of the wedge's torque, scipy.optimize",
            lambda: preload(20, 8, by_friction(1000, 0.1, 0.12) / 8),
            lambda: optimize.brentq(lambda force: wedge(force, 1.25, 7.18810, 0.1, 0.12, 11) - 20, 1, 1e6), 5e-3),
    Witness("tightening.friction_factor", CASES,
            lambda: [by_friction(15000, 0.12, 0.12), by_friction(1000, 0.12, 0.12) / 8],
            [20.3598, 0.16966], 5e-6),
    Witness("tightening.friction_factor", "screw as a wedge wound up, exact tangents",
            lambda: [by_friction(1000, *mu) for mu in ((0, 0), (0.08, 0.1), (0.12, 0.12), (0.2, 0.2))],
            [wedge(1000, 1.25, 7.18810, *mu, 11) for mu in ((0, 0), (0.08, 0.1), (0.12, 0.12), (0.2, 0.2))], 8e-3),
    Witness("tightening.convert_torque", "printed factors 0.737562 and 8.850746",
            lambda: [convert_torque(1, "N m", "lbf ft"), convert_torque(1, "N m", "lbf in")], [0.737562, 8.850746],
            1e-7),
    Witness("tightening.convert_torque", "scipy.constants: lbf, foot, inch",
            lambda: [convert_torque(1, "lbf ft", "N m"), convert_torque(1, "lbf in", "N m"),
            convert_torque(1, "lbf ft", "lbf in")],
            [constants.lbf * constants.foot, constants.lbf * constants.inch, 12], 1e-14),
]  # fmt: skip
