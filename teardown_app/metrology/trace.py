"""A measured trace evaluated: checks, form, short-wave filter, long-wave filter, the middle sections, parameters."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from teardown_app.metrology.cut_off import CUT_OFFS_MM, SECTIONS, stylus_for
from teardown_app.metrology.fault import BadInput, Floats, number, numbers
from teardown_app.metrology.gaussian_profile import (
    DISCARD,
    ENDS,
    POINTS_PER_CUT_OFF,
    RENORMALISE,
    gaussian_filter,
)
from teardown_app.metrology.profile_form import circle_form, polynomial_form
from teardown_app.metrology.texture_parameters import ISO_21920, Roughness, roughness_parameters
from teardown_app.metrology.trace_checks import SQUARE_SHARE, points_at_stop

FORMS = ("mean", "line", "polynomial 2", "polynomial 3", "polynomial 4", "polynomial 5", "circle")
"""Forms that are taken off; the place of the first six is the degree."""
CIRCLE = FORMS[-1]
POINTS_PER_SECTION = 20
"""Fewest; coarser traces are refused. What ISO 3274 asks for is finer, and is said in a note."""
STEEP_DEGREES = 15.0
"""Slope of an arc from which it is said that heights are not taken square to it."""
_DUST = 64 * float(np.finfo(np.float64).eps)


class Evaluation(NamedTuple):
    """What a trace gives; the rows are those of the evaluation length, shape (k,)."""

    parameters: Roughness
    """Height parameters."""
    x: Floats
    """Position from the first point of the trace, mm."""
    profile: Floats
    """Heights without form and shortest waves, um: mean line plus roughness."""
    mean_line: Floats
    """Long waves, um."""
    roughness: Floats
    """Roughness profile, um."""
    cut_off: float
    """Long-wave cut-off, mm."""
    short_wave: float
    """Short-wave cut-off that was used, um; 0 where none was."""
    notes: tuple[str, ...]
    """What a person should know, as sentences."""


def evaluate_trace(heights: Sequence[float] | Floats, step: float, cut_off: float, *, form: str = "line",
                   ends: str = DISCARD, short_wave: float | None = None, sections: float = SECTIONS,
                   standard: str = ISO_21920) -> Evaluation:  # fmt: skip
    """Roughness of a trace: form off, short waves off, Gaussian filter, middle sections, height parameters.

    Order and definitions of ISO 21920-2 (earlier ISO 4287), filter of ISO 16610-21; heights of the roughness profile
    count from the mean line the filter draws. With `ends` "discard" the trace needs one cut-off more than the
    sections: half a cut-off at both ends is left out; with "renormalise" or "line" the sections alone do.

    Parameters: `heights` as measured, shape (n,), um; `step` in mm, at most a twentieth of the cut-off; `cut_off` in
    mm, above 0; `form` one of FORMS, taken off the whole trace by least squares; `short_wave` in um, 0 for none, None
    for the one of ISO 3274; `sections` 1 or more; `standard` as in `roughness_parameters`. Raises `BadInput`
    otherwise, and for a trace that is too short or clipped.

    >>> x = 0.0005 * np.arange(9600)
    >>> found = evaluate_trace(2 * np.sin(2 * np.pi * x / 0.1) + 0.3 * x, 0.0005, 0.8)
    >>> round(found.parameters.ra, 3), round(found.parameters.rt, 2), len(found.roughness)
    (1.273, 4.0, 8000)
    """
    z = numbers("heights", heights, at_least=2, unit="um")
    cut = number("cut_off", cut_off, "above 0 mm", above=0)
    step = number("step", step, f"above 0 mm, up to {cut / POINTS_PER_SECTION:g} mm, a twentieth of the cut-off",
                  above=0, high=cut / POINTS_PER_SECTION * (1 + 1e-9))  # fmt: skip
    count = _count(sections)
    if ends not in ENDS:
        raise BadInput("ends", ends, " or ".join(ENDS))
    _long_enough(len(z), step, cut, count, ends)
    notes: list[str] = []
    _not_clipped(z, notes)
    level = _without_form(z, step, form, notes)
    short = _short_wave(short_wave, step, cut, notes)
    if short:
        level = gaussian_filter(level, step, short / 1000, ends=RENORMALISE).mean_line
    parted = gaussian_filter(level, step, cut, ends=ends)
    points = min(round(count * cut / step), len(parted.roughness))
    start = (len(parted.roughness) - points) // 2
    middle = slice(start, start + points)
    line, roughness = parted.mean_line[middle], parted.roughness[middle]
    x = step * np.arange(start + parted.first, start + parted.first + points, dtype=np.float64)
    found = roughness_parameters(roughness, sections=count, standard=standard, mean_line="zero")
    return Evaluation(found, x, line + roughness, line, roughness, cut, short, tuple(notes))


def _count(sections: float) -> int:
    if number("sections", sections, "a whole number, 1 or above", low=1) != int(sections):
        raise BadInput("sections", sections, "a whole number, 1 or above")
    return int(sections)


def _long_enough(n: int, step: float, cut: float, sections: int, ends: str) -> None:
    """Each point stands for one step; one step is forgiven."""
    needed = (sections + (ends == DISCARD)) * cut
    if (n + 1) * step < needed * (1 - 1e-9):
        what = f"{sections} sections" + (" and half a cut-off at both ends" if ends == DISCARD else "")
        raise BadInput("heights", f"a trace of {n * step:g} mm",
                       f"{needed:g} mm or more for a cut-off of {cut:g} mm: {what}")  # fmt: skip


def _not_clipped(z: Floats, notes: list[str]) -> None:
    if np.ptp(z) > 0 and np.mean((z == z.max()) | (z == z.min())) >= SQUARE_SHARE:
        notes.append("Nearly all points lie at the highest or the lowest height: a square profile, or a pick-up that "
                     "stood at both ends of its range.")  # fmt: skip
    stopped = points_at_stop(z)
    if stopped:
        raise BadInput("heights", f"clipped at {stopped} points, {z.min():g} to {z.max():g} um",
                       "a trace within the pick-up's range: set it to mid range, or take a larger range")  # fmt: skip


def _without_form(z: Floats, step: float, form: str, notes: list[str]) -> Floats:
    if form not in FORMS:
        raise BadInput("form", form, " or ".join(FORMS))
    if form != CIRCLE:
        return _but_dust(polynomial_form(z, FORMS.index(form)).rest, z, notes)
    arc = circle_form(z, step)
    if arc.slope > STEEP_DEGREES:
        notes.append(f"The arc of radius {abs(arc.radius):.4g} mm slopes by up to {arc.slope:.0f} degrees; heights are "
                     "taken upright and not square to it, and come out too large there.")  # fmt: skip
    return _but_dust(arc.rest, z, notes)


def _but_dust(rest: Floats, z: Floats, notes: list[str]) -> Floats:
    """The rest, or nothing at all where no more than rounding is left."""
    if np.abs(rest).max() > _DUST * np.abs(z).max():
        return rest
    notes.append("Nothing is left when the form is taken off: was the stylus down, and did it move?")
    return np.zeros_like(rest)


def _short_wave(asked: float | None, step: float, cut: float, notes: list[str]) -> float:
    """Short-wave cut-off to be used, um; 0 for none."""
    known = any(abs(cut - one) <= 1e-9 * one for one in CUT_OFFS_MM)
    stylus = stylus_for(cut) if known else None
    if stylus and 1000 * step > stylus.step * (1 + 1e-9):
        notes.append(f"A step of {1000 * step:g} um is coarser than {stylus.step:g} um, the largest for a cut-off of "
                     f"{cut:g} mm; verify against your copy of the standard (ISO 3274).")  # fmt: skip
    if asked is None and stylus is None:
        notes.append(f"ISO 3274 has no cut-off of {cut:g} mm: no short waves were taken off.")
    short = asked if asked is not None else stylus.short_wave if stylus else 0.0
    number("short_wave", short, f"0 um for none, or below the cut-off of {1000 * cut:g} um", low=0, below=1000 * cut)
    if short and short < POINTS_PER_CUT_OFF * 1000 * step * (1 - 1e-9):
        notes.append(f"A step of {1000 * step:g} um is too coarse for a short-wave cut-off of {short:g} um: "
                     "no short waves were taken off.")  # fmt: skip
        return 0.0
    return float(short)
