"""Kinds of form: flatness, roundness, runout, bend, diameters."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from teardown_app.metrology.bend import bend_strain, radius_of_bow
from teardown_app.metrology.diameters import out_of_round
from teardown_app.metrology.fault import BadInput, number, numbers
from teardown_app.metrology.flatness import least_squares
from teardown_app.metrology.kind import NUMBERS, TABLE, Field, Kind, Result, Value
from teardown_app.metrology.kinds.least import face_across, places_apart, whole_radii
from teardown_app.metrology.minimum_zone_plane import minimum_zone
from teardown_app.metrology.roundness import (
    least_squares_circle,
    maximum_inscribed_circle,
    minimum_circumscribed_circle,
    minimum_zone_circles,
)
from teardown_app.metrology.runout import circular_runout, missed_share, total_runout

FEW_READINGS = 12
"""Below this many readings a turn it is said how much they can miss: common practice, no source."""
QUESTION_STRAIN = 5.0
"""Percent from which it is asked whether a bent part may be straightened: common practice, no source."""


def _flat(points: Sequence[Sequence[float]]) -> Result:
    plane, zone = least_squares(points), minimum_zone(points)
    face_across(points, plane.normal)
    high, low = points[plane.high], points[plane.low]
    few = places_apart([one[:2] for one in points]) <= 3
    notes = ["Three points always lie in a plane: this says nothing of flatness."] if few else []
    values = [
        Value("flatness", zone.deviation, "mm", "flatness, minimum zone"),
        Value("flatness_least_squares", plane.deviation, "mm", "flatness about the least-squares plane"),
        Value("contact", zone.contact, "", "points that hold the zone"),
    ]
    for name, spot, place in (("high", high, plane.high), ("low", low, plane.low)):
        values += [
            Value(f"{name}_x", float(spot[0]), "mm", f"{name} spot"),
            Value(f"{name}_y", float(spot[1]), "mm"),
            Value(f"{name}_height", float(plane.residuals[place]), "mm", "over the least-squares plane"),
        ]
    return Result(tuple(values), tuple(notes), "inconclusive" if few else "")


def _grid(heights: Sequence[Sequence[float]], pitch_x: float, pitch_y: float) -> Result:
    if len({len(row) for row in heights}) != 1 or not heights[0]:
        raise BadInput("heights", "none, or rows of different length", "the same number of readings in every row")
    for name, pitch in (("pitch_x", pitch_x), ("pitch_y", pitch_y)):
        number(name, pitch, "above 0 mm", above=0)
    points = [(n * pitch_x, m * pitch_y, z) for m, row in enumerate(heights) for n, z in enumerate(row)]
    return _flat(points)


def _round(points: Sequence[Sequence[float]] | None = None, radii: Sequence[float] | None = None) -> Result:
    if (points is None) == (radii is None):
        raise BadInput("points", "missing" if points is None else "given beside radii", "points or radii, one of them")
    section = points if points is not None else _spread(radii or ())
    zone, mean = minimum_zone_circles(section), least_squares_circle(section)
    outer = minimum_circumscribed_circle(section)
    notes = []
    try:
        inner = maximum_inscribed_circle(section)
    except BadInput:
        inner = None
        notes.append("The points lie on part of a round: there is no inscribed circle.")
    few = places_apart(section) <= 3
    if few:
        notes.append("Three points always lie on a circle: this says nothing of roundness.")
    if len(section) < FEW_READINGS:
        notes.append(f"{len(section)} points show few lobes: more are better.")
    return Result((
        Value("roundness", zone.deviation, "mm", "roundness, minimum zone (MZC)"),
        Value("roundness_lsc", mean.deviation, "mm", "about the least-squares circle (LSC)"),
        Value("roundness_mcc", outer.deviation, "mm", "in the smallest circle around (MCC)"),
        Value("roundness_mic", inner.deviation if inner else None, "mm", "about the largest circle within (MIC)"),
        Value("centre_x", mean.centre[0], "mm", "centre of the LSC"), Value("centre_y", mean.centre[1], "mm"),
        Value("zone_x", zone.centre[0], "mm", "centre of the MZC"), Value("zone_y", zone.centre[1], "mm"),
        Value("diameter", 2 * mean.radius, "mm", "of the LSC"),
        Value("diameter_around", 2 * outer.radius, "mm", "of the MCC"),
        Value("diameter_within", 2 * inner.radius if inner else None, "mm", "of the MIC"),
    ), tuple(notes), "inconclusive" if few else "")  # fmt: skip


def _spread(radii: Sequence[float]) -> list[tuple[float, float]]:
    """Points of radii at equal angles."""
    read = numbers("radii", radii, at_least=3, unit="mm")
    wrong = np.flatnonzero(read <= 0)
    if len(wrong):
        raise BadInput(f"radii, no. {wrong[0] + 1}", float(read[wrong[0]]), "above 0 mm, whole radii")
    whole_radii(read)
    turn = 2 * math.pi / len(read)
    return [(float(r) * math.cos(n * turn), float(r) * math.sin(n * turn)) for n, r in enumerate(read)]


def _runout(readings: Sequence[float] | None = None, sections: Sequence[Sequence[float]] | None = None) -> Result:
    if (readings is None) == (sections is None):
        raise BadInput("readings", "missing" if readings is None else "given beside sections", "one of them")
    turns = [list(readings)] if readings is not None else [list(row) for row in sections or ()]
    if len({len(turn) for turn in turns}) != 1:
        raise BadInput("sections", "none, or rows of different length", "as many readings in every section")
    each = [circular_runout(turn) for turn in turns]
    count = len(turns[0])
    total = total_runout(turns)
    values = [Value("runout", max(each), "mm", "circular runout, the largest of the sections")]
    if len(turns) > 1:
        values.append(Value("total_runout", total, "mm", "total runout over all sections"))
    values.append(Value("eccentricity", max(each) / 2, "mm", "where all of it comes from a centre off the axis"))
    missed = 100 * missed_share(count)
    values.append(Value("missed", missed, "%", "of an eccentric runout that so few readings can miss"))
    few = f"{count} readings a turn can miss up to {missed:.1f} % of it: take more, or watch the needle all round."
    return Result(tuple(values), (few,) if count < FEW_READINGS else ())


def _bend(thickness: float, radius: float | None = None, chord: float | None = None,
          height: float | None = None) -> Result:  # fmt: skip
    if radius is None:
        if chord is None or height is None:
            raise BadInput("radius", "missing", "a radius, or chord and height of the bow in its place")
        radius = radius_of_bow(chord, height)
    elif chord is not None or height is not None:
        raise BadInput("radius", radius, "a radius, or chord and height, not both")
    strain = bend_strain(thickness, radius)
    asks = "More than 5 %: may it be straightened cold at all? Ask who knows the material, and look for cracks."
    return Result((
        Value("strain", strain, "%", "of the outer fibre, t / (2 R)"),
        Value("radius", radius, "mm", "of the middle of the thickness"),
    ), (asks,) if strain > QUESTION_STRAIN else ())  # fmt: skip


def _diameters(diameters: Sequence[float], nominal: float | None = None) -> Result:
    found = out_of_round(diameters)
    notes = ["Two points do not see an odd number of lobes: three lobes measure round."]
    values = [
        Value("out_of_round", found.out_of_round, "mm", "largest less smallest diameter"),
        Value("two_point_roundness", found.roundness, "mm", "half of it"),
        Value("mean", found.mean, "mm", "mean diameter"),
        Value("largest", found.largest, "mm"),
        Value("smallest", found.smallest, "mm"),
    ]
    if nominal is not None:
        off = found.mean - number("nominal", nominal, "above 0 mm", above=0)
        values.append(Value("off_nominal", off, "mm", "mean less nominal"))
    return Result(tuple(values), tuple(notes))


_TURN = [round(0.05 * math.cos(n * math.tau / 12) + 0.002 * (n % 3), 4) for n in range(12)]
_ROUND = [[round(25 * math.cos(a) + 0.01, 5), round(25 * math.sin(a) - 0.02 * math.cos(3 * a), 5)]
          for a in np.arange(16) * math.tau / 16]  # fmt: skip

KINDS = (
    Kind(
        "flatness", "Flatness of a face from points anywhere on it.", "ISO 12781-1; ISO 1101",
        (Field("points", "places and heights", "mm", TABLE, columns=("x", "y", "z"), allowed="three or more points"),),
        _flat, {"points": [[0, 0, 0], [100, 0, 0], [0, 100, 0], [100, 100, 0], [50, 50, 0.03]]}, "flatness",
    ),
    Kind(
        "flatness-grid", "Flatness of a plate from indicator readings on a grid.", "ISO 12781-1; ISO 1101",
        (
            Field("heights", "readings, row by row", "mm", TABLE, allowed="rows of the same length"),
            Field("pitch_x", "from reading to reading in a row", "mm", allowed="above 0"),
            Field("pitch_y", "from row to row", "mm", allowed="above 0"),
        ),
        _grid,
        {"heights": [[0, 0.004, 0.006], [-0.005, 0.02, -0.009], [-0.01, -0.003, 0.008]], "pitch_x": 50, "pitch_y": 50},
        "flatness",
    ),
    Kind(
        "roundness", "Roundness of a bore or shaft in one section.", "ISO 12181-1",
        (
            Field("points", "points round the section", "mm", TABLE, columns=("x", "y"), optional=True),
            Field("radii", "or radii at equal angles", "mm", NUMBERS, allowed="three or more", optional=True),
        ),
        _round, {"points": _ROUND}, "roundness",
    ),
    Kind(
        "runout", "Runout from indicator readings of one turn, or of several sections.", "ISO 1101",
        (
            Field("readings", "of one turn, evenly spaced", "mm", NUMBERS, allowed="three or more", optional=True),
            Field("sections", "or of each section a row", "mm", TABLE, optional=True),
        ),
        _runout, {"readings": _TURN}, "runout",
    ),
    Kind(
        "bend", "Strain of a plate or shaft that was bent.", "t / (2 R), pure bending",
        (
            Field("thickness", "across the bend", "mm", allowed="above 0"),
            Field("radius", "of the middle of the thickness", "mm", allowed="half of it or more", optional=True),
            Field("chord", "in its place: length of the bow", "mm", allowed="above 0", optional=True),
            Field("height", "and its height over the chord", "mm", allowed="above 0", optional=True),
        ),
        _bend, {"thickness": 2, "radius": 20}, "strain",
    ),
    Kind(
        "diameters", "Out of round from diameters read with a two-point instrument.", "ISO 4292",
        (
            Field("diameters", "of one section, in several directions", "mm", NUMBERS, allowed="two or more, above 0"),
            Field("nominal", "as drawn", "mm", allowed="above 0", optional=True),
        ),
        _diameters, {"diameters": [25.002, 25.008, 25.004, 25.005]}, "out_of_round",
    ),
)  # fmt: skip
