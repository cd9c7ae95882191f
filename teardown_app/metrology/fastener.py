"""Metric screws: sizes, stress area, and the force they are proved with.

Forces for tightening stand in `tightening`. Which torque is used is the bill's or the maker's to say.
"""

from __future__ import annotations

import math

from teardown_app.metrology.fault import BadInput, number

COARSE_PITCH_MM = {
    "M2": 0.4, "M2.5": 0.45, "M3": 0.5, "M4": 0.7, "M5": 0.8, "M6": 1.0, "M8": 1.25, "M10": 1.5, "M12": 1.75,
    "M14": 2.0, "M16": 2.0, "M20": 2.5, "M24": 3.0,
}  # fmt: skip
"""ISO 261, coarse series."""
PROOF_LOAD_N = {
    "4.6": {"M3": 1130, "M4": 1980, "M5": 3200, "M6": 4520, "M8": 8240, "M10": 13000, "M12": 19000, "M16": 35300},
    "8.8": {"M3": 2920, "M4": 5100, "M5": 8230, "M6": 11600, "M8": 21200, "M10": 33700, "M12": 48900, "M16": 91000},
    "10.9": {"M3": 4180, "M4": 7290, "M5": 11800, "M6": 16700, "M8": 30400, "M10": 48100, "M12": 70000, "M16": 130000},
    "12.9": {"M3": 4880, "M4": 8520, "M5": 13800, "M6": 19500, "M8": 35500, "M10": 56300, "M12": 81800, "M16": 152000},
}
"""ISO 898-1, coarse thread, as suppliers print it."""
PROOF_STRESS_MPA = {
    "4.6": 225.0, "8.8": 580.0, "10.9": 830.0, "12.9": 970.0, "A2-50": 210.0, "A2-70": 450.0, "A2-80": 600.0,
    "A4-50": 210.0, "A4-70": 450.0, "A4-80": 600.0,
}  # fmt: skip
"""Stress under proof (ISO 898-1), for stainless Rp0.2 (ISO 3506-1); verify against your copy of the standard."""
STRESS_8_8_ABOVE_M16_MPA = 600.0


def stress_area(diameter: float, pitch: float) -> float:
    """Stress area of a metric thread in mm2: As = pi / 4 (d - 0.9382 P)^2, ISO 898-1.

    Parameters: `diameter` d and `pitch` P in mm, above 0, 0.9382 P below d. Raises `BadInput`.

    >>> round(stress_area(8, 1.25), 4)
    36.6085
    """
    return math.pi / 4 * _less_depth(diameter, pitch, 0.9382) ** 2


def pitch_diameter(diameter: float, pitch: float) -> float:
    """Pitch diameter of a metric thread in mm: d2 = d - 0.649519 P, that is d - 3 sqrt(3) / 8 P.

    Parameters: `diameter` d and `pitch` P in mm, above 0. Raises `BadInput`.

    >>> round(pitch_diameter(8, 1.25), 3)
    7.188
    """
    return _less_depth(diameter, pitch, 3 * math.sqrt(3) / 8)


def proof_force(size: str, property_class: str, *, proof_stress: float | None = None) -> float:
    """Force in N that a screw is proved with, coarse thread.

    The printed proof load of ISO 898-1 where the table has it, else stress area times stress under proof;
    for stainless steel stress area times Rp0.2 (ISO 3506-1). A `proof_stress` in MPa, above 0, is taken in its place.

    Parameters: `size` of `COARSE_PITCH_MM`, `property_class` of `PROOF_STRESS_MPA`. Raises `BadInput`.

    >>> proof_force("M8", "8.8"), round(proof_force("M8", "A2-70"))
    (21200.0, 16474)
    """
    diameter, pitch = _thread(size)
    if property_class not in PROOF_STRESS_MPA:
        raise BadInput("property_class", property_class, ", ".join(PROOF_STRESS_MPA))
    if proof_stress is not None:
        return stress_area(diameter, pitch) * number("proof_stress", proof_stress, "above 0 MPa", above=0)
    printed = PROOF_LOAD_N.get(property_class, {}).get(size)
    if printed is not None:
        return float(printed)
    large = property_class == "8.8" and diameter > 16
    return stress_area(diameter, pitch) * (STRESS_8_8_ABOVE_M16_MPA if large else PROOF_STRESS_MPA[property_class])


def _thread(size: str) -> tuple[float, float]:
    """Diameter and coarse pitch, mm."""
    if size not in COARSE_PITCH_MM:
        raise BadInput("size", size, ", ".join(COARSE_PITCH_MM))
    return float(size[1:]), COARSE_PITCH_MM[size]


def _less_depth(diameter: float, pitch: float, share: float) -> float:
    """Diameter less a share of the pitch."""
    pitch = number("pitch", pitch, "above 0 mm", above=0)
    return number("diameter", diameter, f"above {share:.4f} times the pitch, mm", above=share * pitch) - share * pitch
