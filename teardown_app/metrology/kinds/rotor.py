"""Kinds of measurement on what turns: residual unbalance, vibration, the pull of a spinning bowl."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.metrology.balance import (
    GRADES,
    LEAST_SHARE,
    Permissible,
    centrifugal_force,
    permissible_unbalance,
    plane_allocation,
)
from teardown_app.metrology.centrifuge import relative_centrifugal_force, speed_for
from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.kind import CHOICE, NUMBERS, Field, Kind, Result, Value
from teardown_app.metrology.vibration import (
    ZONE_BORDERS_MM_S,
    from_acceleration,
    from_displacement,
    from_velocity,
    velocity_rms,
    zone,
)

Residuals = tuple[float | None, ...]


def _residual_unbalance(grade: float, mass: float, speed: float, centre_from_a: float | None = None,
                        span: float | None = None, least_share: float = LEAST_SHARE, residual: float | None = None,
                        residual_a: float | None = None, residual_b: float | None = None,
                        machine_error: float = 0.0) -> Result:  # fmt: skip
    allowed = permissible_unbalance(grade, mass, speed)
    notes = ["For rotors with rigid behaviour up to the highest service speed."]
    if grade not in GRADES:
        notes.append(f"G {grade:g} is no step of the usual row of grades.")
    a, b = _planes(allowed, centre_from_a, span, least_share, notes)
    measured = _measured(residual, residual_a, residual_b)
    limits = (allowed.u_per,) if residual is not None else (a, b)
    verdict, used = _judged(measured, limits, number("machine_error", machine_error, "0 g mm or above", low=0))
    if used is not None:
        notes.append("A residual is judged accept at permissible less machine error, reject above permissible plus it.")
    return Result((
        Value("e_per", allowed.e_per, "g mm/kg", "permissible specific unbalance; as um the mass centre's offset"),
        Value("u_per", allowed.u_per, "g mm", "permissible residual unbalance of the rotor"),
        Value("u_per_a", a, "g mm", "permissible at bearing plane A"),
        Value("u_per_b", b, "g mm", "permissible at bearing plane B"),
        Value("force", centrifugal_force(allowed.u_per, speed), "N", "centrifugal force of u_per at this speed"),
        Value("used", used, "", "largest residual over its permissible"),
    ), tuple(notes), verdict)  # fmt: skip


def _planes(allowed: Permissible, centre: float | None, span: float | None, least: float, notes: list[str]
            ) -> tuple[float, float]:  # fmt: skip
    """What each bearing plane may hold; says how it was shared out."""
    if (centre is None) != (span is None):
        raise BadInput("centre_from_a" if centre is None else "span", "missing", "both of them, or neither")
    if centre is None or span is None:
        notes.append("No bearing distances given: the mass centre is taken to be midway, half to each plane.")
        return plane_allocation(allowed.u_per, 1, 2)[:2]
    found = plane_allocation(allowed.u_per, centre, span, least_share=least)
    if found.a != allowed.u_per * found.lever_share_a:
        notes.append(f"The lever rule alone gives plane A {100 * found.lever_share_a:.1f} %; no plane is given less "
                     f"than {100 * least:g} %: verify against your copy of the standard.")  # fmt: skip
    notes.append("Permissible values hold in the bearing planes; bring residuals from correction planes to them first.")
    return found.a, found.b


def _measured(residual: float | None, residual_a: float | None, residual_b: float | None) -> Residuals:
    """Residuals of one plane, or of both, or none."""
    if residual is not None and (residual_a is not None or residual_b is not None):
        raise BadInput("residual", residual, "one plane, or residual_a and residual_b, not all of them")
    if (residual_a is None) != (residual_b is None):
        raise BadInput("residual_a" if residual_a is None else "residual_b", "missing", "both planes, or neither")
    return (residual,) if residual is not None else (residual_a, residual_b)


def _judged(measured: Residuals, limits: Sequence[float], error: float) -> tuple[str, float | None]:
    """Verdict over all planes and the largest share used; nothing where nothing was measured."""
    names = ("residual",) if len(measured) == 1 else ("residual_a", "residual_b")
    pairs = [(number(name, one, "0 g mm or above", low=0), limit)
             for name, one, limit in zip(names, measured, limits, strict=True) if one is not None]  # fmt: skip
    if not pairs:
        return "", None
    used = max(one / limit for one, limit in pairs)
    if any(one > limit + error for one, limit in pairs):
        return "reject", used
    return ("accept" if all(one <= limit - error for one, limit in pairs) else "inconclusive"), used


def _vibration(velocity: float | None = None, record: Sequence[float] | None = None, displacement: float | None = None,
               acceleration: float | None = None, speed: float | None = None, machine_class: str | None = None
               ) -> Result:  # fmt: skip
    given = {"velocity": velocity, "record": record, "displacement": displacement, "acceleration": acceleration}
    named = [name for name, one in given.items() if one is not None]
    if len(named) != 1:
        raise BadInput("velocity", " and ".join(named) or "missing", f"one of {', '.join(given)}")
    rms = velocity_rms(record) if record is not None else _velocity(velocity, displacement, acceleration, speed)
    number("velocity", rms, "0 mm/s or above", low=0)
    sine = from_velocity(rms, speed) if speed is not None else None
    said = (
        (rms == 0, "0 mm/s: a machine that runs is never still; see that it runs and the pick-up is fast."),
        (record is not None, "The mean of the record was taken out; it should hold whole turns, 10 Hz to 1000 Hz."),
        (speed is not None, "Displacement and acceleration stand for a single sine at running speed."),
        (speed is not None and speed < 600, "Running speed lies below 10 Hz: a band of 10 Hz to 1000 Hz cuts it off."),
        (machine_class is not None, "Zones are informative: ISO 10816-1 is superseded by ISO 20816-1; a value on a "
         "border counts as the better zone; enter the highest of all measuring points."),
    )  # fmt: skip
    return Result((
        Value("velocity", rms, "mm/s", "r.m.s."),
        Value("displacement", sine.displacement if sine else None, "um", "peak to peak"),
        Value("acceleration", sine.acceleration if sine else None, "m/s2", "r.m.s."),
        Value("zone", zone(rms, machine_class) if machine_class is not None else None, "", "A to D"),
    ), tuple(note for holds, note in said if holds), "" if rms else "inconclusive")  # fmt: skip


def _velocity(velocity: float | None, displacement: float | None, acceleration: float | None, speed: float | None
              ) -> float:  # fmt: skip
    """Velocity from the one that was read."""
    if velocity is not None:
        return velocity
    if speed is None:
        raise BadInput("speed", "missing", "a speed, to turn displacement or acceleration into velocity")
    if displacement is not None:
        return from_displacement(displacement, speed).velocity
    return from_acceleration(acceleration if acceleration is not None else 0.0, speed).velocity


def _relative_centrifugal_force(radius: float, speed: float | None = None, wanted: float | None = None) -> Result:
    if (speed is None) == (wanted is None):
        raise BadInput("speed", "missing" if speed is None else "given beside wanted", "speed or wanted, one of them")
    turns = speed if speed is not None else speed_for(wanted if wanted is not None else 0.0, radius)
    return Result((
        Value("rcf", relative_centrifugal_force(radius, turns), "", "multiple of standard gravity 9.80665 m/s2"),
        Value("speed", float(turns), "r/min", "speed it belongs to"),
    ), ("Never above the speed marked on the rotor.",))  # fmt: skip


KINDS: tuple[Kind, ...] = (
    Kind("residual-unbalance", "Residual unbalance of a rigid rotor against its balance quality grade.",
         "ISO 21940-11:2016", (
             Field("grade", "Balance quality grade G.", "mm/s", allowed="above 0; usual: 0.4, 1, 2.5, 6.3, 16 ..."),
             Field("mass", "Mass of the rotor.", "kg", allowed="above 0"),
             Field("speed", "Highest service speed.", "r/min", allowed="above 0"),
             Field("centre_from_a", "Mass centre from bearing plane A.", "mm", optional=True,
                   allowed="above 0, below span; left out with span: midway"),
             Field("span", "Bearing plane A to bearing plane B.", "mm", allowed="above 0", optional=True),
             Field("least_share", "Least share of one plane; verify against your copy of the standard, 0: lever rule.",
                   allowed="0 to 0.5", default=LEAST_SHARE),
             Field("residual", "Residual unbalance of a rotor balanced in one plane.", "g mm", allowed="0 or above",
                   optional=True),
             Field("residual_a", "Residual unbalance at bearing plane A.", "g mm", allowed="0 or above", optional=True),
             Field("residual_b", "Residual unbalance at bearing plane B.", "g mm", allowed="0 or above", optional=True),
             Field("machine_error", "Largest error of the balancing machine, per plane.", "g mm", allowed="0 or above",
                   default=0.0),
         ), _residual_unbalance,
         {"grade": 2.5, "mass": 12, "speed": 1500, "centre_from_a": 200, "span": 500, "residual_a": 90.0,
          "residual_b": 60.0}),
    Kind("vibration", "Vibration velocity of a running machine, read, or from a record, displacement or acceleration.",
         "ISO 10816-1:1995 Annex B", (
             Field("velocity", "Velocity, r.m.s.", "mm/s", allowed="0 or above", optional=True),
             Field("record", "Velocity over time, equal steps.", "mm/s", NUMBERS, allowed="2 or more", optional=True),
             Field("displacement", "Displacement, peak to peak.", "um", allowed="0 or above", optional=True),
             Field("acceleration", "Acceleration, r.m.s.", "m/s2", allowed="0 or above", optional=True),
             Field("speed", "Running speed.", "r/min", allowed="above 0", optional=True),
             Field("machine_class", "I to 15 kW, II to 75 kW, III large on a rigid base, IV large on a soft base.",
                   form=CHOICE, choices=tuple(ZONE_BORDERS_MM_S), optional=True),
         ), _vibration, {"displacement": 50, "speed": 1500, "machine_class": "II"}, "velocity"),
    Kind("relative-centrifugal-force", "Pull at a radius of a spinning bowl, as a multiple of gravity; or the speed "
         "for a wanted pull.", "r omega^2 / g, common practice", (
             Field("radius", "Distance from the axis.", "mm", allowed="above 0"),
             Field("speed", "Speed of the bowl.", "r/min", allowed="0 or above", optional=True),
             Field("wanted", "Wanted multiple of gravity, where the speed is asked for.", allowed="0 or above",
                   optional=True),
         ), _relative_centrifugal_force, {"radius": 100, "speed": 3000}, "rcf"),
)  # fmt: skip
