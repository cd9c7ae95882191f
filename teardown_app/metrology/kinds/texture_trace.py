"""The kind that evaluates a trace of a stylus instrument."""

from __future__ import annotations

import math
from collections.abc import Sequence

from teardown_app.metrology import cut_off as drawing
from teardown_app.metrology.cut_off import cut_off_for_limit
from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.gaussian_profile import DISCARD, ENDS
from teardown_app.metrology.kind import CHOICE, NUMBERS, Field, Kind, Result, Value
from teardown_app.metrology.kinds.least import longest_stand
from teardown_app.metrology.texture_parameters import ISO_4287, ISO_21920, STANDARDS
from teardown_app.metrology.trace import FORMS, evaluate_trace
from teardown_app.metrology.trace_checks import point_spacing

JUDGED = ("Ra", "Rq", "Rz", "Rt", "Rp", "Rv")
STANDS = "The trace stands at one height over more than half a cut-off: a stylus that did not move proves nothing."
SETTING = {ISO_21920: drawing.ISO_21920_3, ISO_4287: drawing.ISO_4288}
"""Standard the cut-off goes by, for the one the parameters go by."""
_EXAMPLE = [round(0.5 * math.sin(k * math.tau / 10) + 0.1 * math.cos(k * math.tau / 7) + 0.01 * k, 2)
            for k in range(120)]  # fmt: skip


def _trace(heights: Sequence[float], step: float | None = None, x: Sequence[float] | None = None,
           cut_off: float | None = None, limit: float | None = None, parameter: str = "Ra", form: str = "line",
           ends: str = DISCARD, short_wave: float | None = None, sections: float = drawing.SECTIONS,
           standard: str = ISO_21920) -> Result:  # fmt: skip
    if parameter not in JUDGED:
        raise BadInput("parameter", parameter, " or ".join(JUDGED))
    fitting = _fitting(limit, parameter, standard) if limit is not None else None
    cut = cut_off if cut_off is not None else fitting
    if cut is None:
        raise BadInput("cut_off", "missing", "a cut-off in mm, or in its place limit with Ra or Rz")
    apart = _step(step, x, len(heights))
    found = evaluate_trace(heights, apart, cut, form=form, ends=ends, short_wave=short_wave, sections=sections,
                           standard=standard)  # fmt: skip
    of = found.parameters
    stands = longest_stand(heights) * apart > cut / 2
    notes = [STANDS] if stands else []
    if fitting is not None and abs(fitting - cut) > 1e-9:
        notes.append(f"The cut-off of {cut:g} mm does not fit the limit, which asks for {fitting:g} mm.")
    return Result((
        Value("roughness", float(getattr(of, parameter.lower())), "um", f"{parameter}, which is judged"),
        Value("ra", of.ra, "um", "Ra"), Value("rq", of.rq, "um", "Rq"), Value("rz", of.rz, "um", "Rz"),
        Value("rt", of.rt, "um", "Rt"), Value("rp", of.rp, "um", "Rp"), Value("rv", of.rv, "um", "Rv"),
        Value("rsk", of.rsk, "", "Rsk"), Value("rku", of.rku, "", "Rku"),
        Value("rzx", of.rzx, "um", "largest Rz of a section"),
        Value("cut_off", found.cut_off, "mm", "cut-off"),
        Value("evaluation_length", round(len(found.x) * apart, 9), "mm", "evaluation length"),
        Value("short_wave", found.short_wave, "um", "short-wave cut-off; 0 where none was taken"),
        Value("step", apart, "mm", "sampling step"),
    ), tuple(notes) + found.notes, "inconclusive" if stands else "")  # fmt: skip


def _fitting(limit: float, parameter: str, standard: str) -> float | None:
    """Cut-off from the limit; there are borders for Ra and Rz only, and none beyond the end of the table."""
    if parameter not in drawing.PARAMETERS:
        return None
    if standard not in SETTING:
        raise BadInput("standard", standard, " or ".join(SETTING))
    end = drawing.LARGEST_UM.get((SETTING[standard], parameter), (math.inf,))[-1]
    return None if limit > end else cut_off_for_limit(limit, parameter, SETTING[standard]).cut_off


def _step(step: float | None, x: Sequence[float] | None, count: int) -> float:
    """The step given, or the one of evenly spaced positions."""
    if (step is None) == (x is None):
        raise BadInput("step", "missing" if step is None else "given beside x", "step or x, one of them")
    if x is None:
        return number("step", step or 0.0, "above 0 mm", above=0)
    if len(x) != count:
        raise BadInput("x", f"{len(x)} of them", f"{count}, one for every height")
    spacing = point_spacing(x)
    if spacing.uneven >= 0:
        place = spacing.uneven
        raise BadInput(f"x, no. {place + 1}", f"{x[place]:g} after {x[place - 1]:g} mm",
                       f"one step of {abs(spacing.usual):g} mm on: no gaps, evenly spaced")  # fmt: skip
    return abs(spacing.step)


TRACE = Kind("roughness-trace", "Roughness from the trace of a stylus instrument.",
             "ISO 21920-2; ISO 16610-21; ISO 3274", (
    Field("heights", "Heights as traced, one after the other.", "um", NUMBERS, allowed="evenly spaced, without gaps"),
    Field("step", "Distance from point to point.", "mm", allowed="above 0", optional=True),
    Field("x", "Positions of the points, in place of step.", "mm", NUMBERS, allowed="evenly spaced", optional=True),
    Field("cut_off", "Cut-off; in its place the limit it follows from.", "mm", allowed="above 0", optional=True),
    Field("limit", "Upper limit of Ra or Rz on the drawing, from which the cut-off follows; limit_max judges.", "um",
          allowed="above 0", optional=True),
    Field("parameter", "Parameter that is judged.", form=CHOICE, choices=JUDGED, default="Ra"),
    Field("form", "Form taken off the whole trace.", form=CHOICE, choices=FORMS, default="line"),
    Field("ends", "At both ends: discard half a cut-off, keep all and renormalise, or keep all and fit a line.",
          form=CHOICE, choices=ENDS, default=DISCARD),
    Field("short_wave", "Short-wave cut-off, 0 for none; left out: the one of ISO 3274.", "um", allowed="0 or above",
          optional=True),
    Field("sections", "Sections in the evaluation length.", allowed="1 or more", default=drawing.SECTIONS),
    Field("standard", "Ra, Rq, Rsk, Rku over the whole length, or averaged over sections (ISO 4287).", form=CHOICE,
          choices=STANDARDS, default=ISO_21920),
), _trace, {"heights": _EXAMPLE, "step": 0.004, "cut_off": 0.08}, "roughness")  # fmt: skip
