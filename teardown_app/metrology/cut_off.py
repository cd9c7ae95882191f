"""Which cut-off a drawing asks for, and what goes with it: lengths, short-wave cut-off, stylus tip, sampling step."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.metrology.fault import BadInput, number

ISO_21920_3, ISO_4288 = "ISO 21920-3", "ISO 4288"
STANDARDS = (ISO_21920_3, ISO_4288)
RA, RZ = "Ra", "Rz"
PARAMETERS = (RA, RZ)
CUT_OFFS_MM = (0.08, 0.25, 0.8, 2.5, 8.0)
SECTIONS = 5

LARGEST_UM: dict[tuple[str, str], tuple[float, ...]] = {
    (ISO_21920_3, RA): (0.02, 0.1, 2.0, 10.0, float("inf")),
    (ISO_21920_3, RZ): (0.16, 0.8, 16.0, 80.0, float("inf")),
    (ISO_4288, RA): (0.02, 0.1, 2.0, 10.0, 80.0),
    (ISO_4288, RZ): (0.1, 0.5, 10.0, 50.0, 200.0),
}
"""Largest value, um, at which each cut-off still serves."""
LARGEST_RSM_MM = (0.04, 0.13, 0.4, 1.3, 4.0)
SMALLEST_RSM_MM = 0.013
SHORT_WAVE_UM = (2.5, 2.5, 2.5, 8.0, 25.0)
RATIO = (30, 100, 300, 300, 300)
TIP_UM = (2.0, 2.0, 2.0, 5.0, 10.0)
STEP_UM = (0.5, 0.5, 0.5, 1.5, 5.0)
BLUNT_TIP_UM, BLUNT_FROM_RZ_UM = 5.0, 3.0
"""A tip of 5 um serves with a cut-off of 0.8 mm where Rz is above 3 um."""
_ROUNDING = 1e-9


class Lengths(NamedTuple):
    """A cut-off and the lengths that follow from it."""

    cut_off: float
    """Long-wave cut-off, mm."""
    section: float
    """Length of one section (sampling length), mm: the cut-off."""
    evaluation: float
    """Evaluation length, mm: five sections."""
    traverse: float
    """Shortest trace, mm: evaluation length and half a cut-off at both ends."""


class Stylus(NamedTuple):
    """What a cut-off asks of the instrument."""

    short_wave: float
    """Short-wave cut-off, um."""
    ratio: int
    """Long-wave cut-off over short-wave cut-off, rounded as the table gives it."""
    tip_radius: float
    """Largest radius of the stylus tip, um."""
    step: float
    """Largest step between points, um."""


def cut_off_for_limit(limit: float, parameter: str = RA, standard: str = ISO_21920_3) -> Lengths:
    """Cut-off from the upper limit on the drawing (ISO 21920-3), or from the value to be expected (ISO 4288:1996).

    The smallest cut-off whose border is not below the limit: for Ra at 0.02, 0.1, 2, 10 um in both standards (80 um
    is the end in ISO 4288); for Rz at 0.16, 0.8, 16, 80 um in ISO 21920-3, at 0.1, 0.5, 10, 50, 200 um in ISO 4288.
    A value on a border takes the smaller cut-off. ISO 4288 columns are those for profiles that are not periodic.

    Parameters: `limit` in um, above 0; `parameter` Ra or Rz; `standard` one of STANDARDS. Raises `BadInput` otherwise.

    >>> cut_off_for_limit(0.38)[::2]
    (0.8, 4.0)
    >>> cut_off_for_limit(12, "Rz").cut_off, cut_off_for_limit(12, "Rz", "ISO 4288").cut_off
    (0.8, 2.5)
    """
    if parameter not in PARAMETERS:
        raise BadInput("parameter", parameter, " or ".join(PARAMETERS))
    if standard not in STANDARDS:
        raise BadInput("standard", standard, " or ".join(STANDARDS))
    largest = LARGEST_UM[standard, parameter]
    allowed = "above 0 um" + (f", up to {largest[-1]:g} um" if standard == ISO_4288 else "")
    value = number("limit", limit, allowed, above=0, high=largest[-1] * (1 + _ROUNDING))
    return _lengths(_first(value, largest))


def cut_off_for_spacing(spacing: float) -> Lengths:
    """Cut-off for a periodic profile from the mean width of its elements RSm, ISO 4288:1996.

    The smallest cut-off whose border is not below RSm: 0.04, 0.13, 0.4, 1.3, 4 mm. ISO 21920-3 has no such column.

    Parameters: `spacing` RSm in mm, above 0.013, up to 4. Raises `BadInput` otherwise.

    >>> cut_off_for_spacing(0.2).cut_off, cut_off_for_spacing(0.13).cut_off
    (0.8, 0.25)
    """
    allowed = f"above {SMALLEST_RSM_MM:g} mm, up to {LARGEST_RSM_MM[-1]:g} mm"
    value = number("spacing", spacing, allowed, above=SMALLEST_RSM_MM, high=LARGEST_RSM_MM[-1] * (1 + _ROUNDING))
    return _lengths(_first(value, LARGEST_RSM_MM))


def stylus_for(cut_off: float, rz: float | None = None) -> Stylus:
    """Short-wave cut-off, ratio, tip radius and step that go with a cut-off, table of ISO 3274.

    Parameters: `cut_off` 0.08, 0.25, 0.8, 2.5 or 8 mm; `rz` of the surface in um, 0 or above, None where it is not
    known: with 0.8 mm a tip of 5 um serves where Rz is above 3 um. Raises `BadInput` otherwise.
    The largest step is from memory: verify against your copy of the standard.

    >>> stylus_for(0.8), stylus_for(0.8, rz=4).tip_radius
    (Stylus(short_wave=2.5, ratio=300, tip_radius=2.0, step=0.5), 5.0)
    """
    allowed = ", ".join(f"{one:g}" for one in CUT_OFFS_MM) + " mm"
    value = number("cut_off", cut_off, allowed)
    place = next((k for k, one in enumerate(CUT_OFFS_MM) if abs(value - one) <= _ROUNDING * one), None)
    if place is None:
        raise BadInput("cut_off", cut_off, allowed)
    rough = rz is not None and number("rz", rz, "0 um or above", low=0) > BLUNT_FROM_RZ_UM
    tip = BLUNT_TIP_UM if rough and CUT_OFFS_MM[place] == 0.8 else TIP_UM[place]
    return Stylus(SHORT_WAVE_UM[place], RATIO[place], tip, STEP_UM[place])


def _first(value: float, largest: tuple[float, ...]) -> int:
    """Place of the first border that the value does not pass; rounding of a converted unit passes none."""
    return next(k for k, one in enumerate(largest) if value <= one * (1 + _ROUNDING))


def _lengths(place: int) -> Lengths:
    """Lengths of a cut-off, free of binary rounding."""
    cut = CUT_OFFS_MM[place]
    return Lengths(cut, cut, round(SECTIONS * cut, 6), round((SECTIONS + 1) * cut, 6))
