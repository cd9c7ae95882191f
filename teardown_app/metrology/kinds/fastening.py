"""Kinds of reckoning on screws: torque from class and friction, preload from torque. None of them says what to use."""

from __future__ import annotations

from teardown_app.metrology.fastener import (
    COARSE_PITCH_MM,
    PROOF_LOAD_N,
    PROOF_STRESS_MPA,
    pitch_diameter,
    proof_force,
    stress_area,
)
from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.kind import CHOICE, Field, Kind, Result, Value
from teardown_app.metrology.tightening import NEWTON_METRES, convert_torque, friction_factor, preload, torque

DECIDES = "Reckoned only: the torque of the bill or of the maker decides."
TABLED = "Stress for proof or Rp0.2: verify against your copy of the standard."
LUBRICATION = "Holds for the stated nut factor or friction only; dry, oiled and anti-seize differ by half or more."
GALLING = "Stainless on stainless galls: anti-seize, turn slowly, and take the nut factor of that lubricant."
NEAR_PROOF = 0.9
"""Share of proof force above which a reckoned preload leaves no room for scatter of friction."""
Friction = tuple[float | None, float | None, float | None]


def _torque(size: str, property_class: str, share: float = 0.75, proof_stress: float | None = None,
            nut_factor: float | None = None, thread_friction: float | None = None,
            bearing_friction: float | None = None, bearing_diameter: float | None = None) -> Result:  # fmt: skip
    proof = proof_force(size, property_class, proof_stress=proof_stress)
    force = proof * number("share", share, "above 0, at most 1", above=0, high=1)
    factor = _factor(size, nut_factor, (thread_friction, bearing_friction, bearing_diameter))
    found = torque(force, _diameter(size), factor)
    said = (
        (True, DECIDES), (True, LUBRICATION), (property_class[0] == "A", GALLING),
        (proof_stress is None and not _printed(size, property_class), TABLED),
        (share > NEAR_PROOF, "Close to proof: scatter of friction can take the screw beyond it."),
    )  # fmt: skip
    return Result((
        Value("torque", found, "N m"),
        Value("torque_foot", convert_torque(found, "N m", "lbf ft"), "lbf ft"),
        Value("torque_inch", convert_torque(found, "N m", "lbf in"), "lbf in"),
        Value("preload", force, "N"),
        Value("proof_force", proof, "N", "printed proof load, or stress area times stress"),
        Value("stress_area", stress_area(_diameter(size), COARSE_PITCH_MM[size]), "mm2"),
        Value("nut_factor", factor, "", "K the torque holds for"),
    ), tuple(note for holds, note in said if holds))  # fmt: skip


def _preload(torque: float, size: str, torque_unit: str = "N m", property_class: str | None = None,
             nut_factor: float | None = None, thread_friction: float | None = None,
             bearing_friction: float | None = None, bearing_diameter: float | None = None) -> Result:  # fmt: skip
    factor = _factor(size, nut_factor, (thread_friction, bearing_friction, bearing_diameter))
    force = preload(convert_torque(torque, torque_unit, "N m"), _diameter(size), factor)
    share = force / proof_force(size, property_class) if property_class is not None else None
    said = (
        (True, DECIDES), (True, LUBRICATION), (property_class is not None and property_class[0] == "A", GALLING),
        (property_class is not None and not _printed(size, property_class), TABLED),
        (share is not None and share > 1, "Beyond the proof force of the screw."),
        (share is not None and NEAR_PROOF < share <= 1, "Close to the proof force of the screw."),
    )  # fmt: skip
    return Result((
        Value("preload", force, "N"),
        Value("share", share, "", "of the proof force"),
        Value("nut_factor", factor, "", "K the preload holds for"),
    ), tuple(note for holds, note in said if holds))  # fmt: skip


def _diameter(size: str) -> float:
    """Of a known size, mm."""
    if size not in COARSE_PITCH_MM:
        raise BadInput("size", size, ", ".join(COARSE_PITCH_MM))
    return float(size[1:])


def _printed(size: str, property_class: str) -> bool:
    """True where the proof load is a printed one, no product of area and stress."""
    return size in PROOF_LOAD_N.get(property_class, {})


def _factor(size: str, nut_factor: float | None, friction: Friction) -> float:
    """Nut factor as given, or from friction; one of them has to be known."""
    if nut_factor is not None:
        if any(one is not None for one in friction):
            raise BadInput("nut_factor", nut_factor, "nut factor or friction, not both")
        return nut_factor
    in_thread, beneath, ring = friction
    if in_thread is None or beneath is None or ring is None:
        raise BadInput("nut_factor", "missing", "nut_factor, or thread_friction, bearing_friction and bearing_diameter")
    diameter, pitch = _diameter(size), COARSE_PITCH_MM[size]
    return friction_factor(diameter, pitch, pitch_diameter(diameter, pitch), thread_friction=in_thread,
                           bearing_friction=beneath, bearing_diameter=ring)  # fmt: skip


_SIZE = Field("size", "Thread, coarse pitch.", form=CHOICE, choices=tuple(COARSE_PITCH_MM))
_CLASS = Field("property_class", "Property class, or steel group and class.", form=CHOICE,
               choices=tuple(PROOF_STRESS_MPA))  # fmt: skip
_FRICTION = (
    Field("nut_factor", "K for this lubrication; dry steel is often near 0.2: verify.", allowed="above 0, at most 1",
          optional=True),
    Field("thread_friction", "Coefficient of friction in the thread.", allowed="0 to 1", optional=True),
    Field("bearing_friction", "Coefficient of friction under the head.", allowed="0 to 1", optional=True),
    Field("bearing_diameter", "Mean diameter of the ring under the head.", "mm", allowed="above 0", optional=True),
)  # fmt: skip
KINDS: tuple[Kind, ...] = (
    Kind("torque", "Torque that a share of the proof force comes to, for comparison.",
         "ISO 898-1, ISO 3506-1; T = K d F", (
        _SIZE, _CLASS,
        Field("share", "Preload as share of the proof force; 0.75 is usual: verify.", allowed="above 0, at most 1",
              default=0.75),
        Field("proof_stress", "In place of the tabled stress under proof or Rp0.2.", "MPa", allowed="above 0",
              optional=True),
        *_FRICTION,
    ), _torque, {"size": "M8", "property_class": "8.8", "nut_factor": 0.2}),
    Kind("preload", "Preload that a torque makes.", "F = T / (K d)", (
        Field("torque", "Torque that was applied.", "", allowed="0 or above, in torque_unit", unit_in="torque_unit"),
        _SIZE,
        Field("torque_unit", "Unit of the torque.", form=CHOICE, choices=tuple(NEWTON_METRES), default="N m"),
        _CLASS._replace(optional=True), *_FRICTION,
    ), _preload, {"torque": 25.44, "size": "M8", "property_class": "8.8", "nut_factor": 0.2}, "preload"),
)  # fmt: skip
