"""Kinds of measurement of surface texture: readings, traces, the cut-off, and what a rework has changed."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from teardown_app.metrology.cut_off import (
    ISO_4288,
    ISO_21920_3,
    LARGEST_UM,
    PARAMETERS,
    RA,
    RZ,
    STANDARDS,
    cut_off_for_limit,
    cut_off_for_spacing,
    stylus_for,
)
from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.kind import CHOICE, NUMBERS, TEXT, Field, Kind, Result, Value
from teardown_app.metrology.kinds.texture_trace import TRACE
from teardown_app.metrology.texture_acceptance import (
    READ_MORE,
    Acceptance,
    maximum_rule,
    sixteen_percent_rule,
    stop_rule,
)
from teardown_app.metrology.texture_change import change_by_place

SILENT = "A reading of 0: a stylus that lies on a surface never shows that; see that it touches, and read again."
MAXIMUM, SIXTEEN, SHARE = "maximum", "16 %", "16 % share"
RULES: dict[str, Callable[[Sequence[float], float], Acceptance]] = {
    MAXIMUM: maximum_rule, SIXTEEN: stop_rule, SHARE: sixteen_percent_rule}  # fmt: skip


def _roughness(readings: Sequence[float], limit: float, parameter: str = RA, rule: str | None = None,
               standard: str = ISO_21920_3, cut_off: float | None = None, places: str | None = None
               ) -> Result:  # fmt: skip
    chosen = rule or (MAXIMUM if standard == ISO_21920_3 else SIXTEEN)
    if chosen not in RULES:
        raise BadInput("rule", rule, " or ".join(RULES))
    found = RULES[chosen](readings, limit)
    every = sixteen_percent_rule(readings, limit)
    named = _named(places, len(readings))
    fitting = _fitting(limit, parameter, standard)
    notes = []
    if rule is None:
        notes.append(f"No rule given: {chosen} is what {standard} takes; verify against your copy of the standard.")
    if chosen == SIXTEEN:
        notes.append(f"Judged in the order of the readings after {found.used} of them, by the stop rule; it is from "
                     "memory: verify against your copy of ISO 4288.")  # fmt: skip
        if every.over > found.over:
            notes.append(f"Of all {every.used} readings {every.over} are over the limit ({100 * every.share:.1f} %).")
    if found.more:
        notes.append(f"Read {found.more} more, at further places.")
    if fitting is None:
        notes.append(f"{standard} has no cut-off for {parameter} {limit:g} um.")
    elif cut_off is not None and abs(number("cut_off", cut_off, "above 0 mm", above=0) - fitting) > 1e-9:
        notes.append(f"The cut-off of {cut_off:g} mm does not fit the limit: {standard} asks for {fitting:g} mm with "
                     f"{parameter} {limit:g} um, unless the drawing says otherwise.")  # fmt: skip
    silent = min(readings) <= 0
    if silent:
        notes.append(SILENT)
    largest = max(range(len(readings)), key=lambda k: readings[k])
    return Result((
        Value("largest", float(readings[largest]), "um", f"largest {parameter}"),
        Value("at", named[largest], "", "place of the largest"),
        Value("mean", sum(readings) / len(readings), "um", f"mean {parameter}"),
        Value("over", every.over, "", "readings over the limit"),
        Value("share_over", 100 * every.share, "%", "share of readings over the limit"),
        Value("more_readings", found.more, "", "readings still wanted"),
        Value("cut_off", fitting, "mm", "cut-off that fits the limit"),
    ), tuple(notes), "inconclusive" if silent or found.verdict == READ_MORE else found.verdict)  # fmt: skip


def _fitting(limit: float, parameter: str, standard: str) -> float | None:
    """Cut-off that fits a limit, mm; None beyond the end of the table."""
    end = LARGEST_UM.get((standard, parameter), (math.inf,))[-1]
    return None if limit > end * (1 + 1e-9) else cut_off_for_limit(limit, parameter, standard).cut_off


def _named(places: str | None, count: int) -> list[str]:
    """Names of the places, numbers where none are given."""
    if places is None:
        return [str(k + 1) for k in range(count)]
    named = [one.strip() for one in places.split(",")]
    if len(named) != count:
        raise BadInput("places", places, f"{count} names with commas between, one for every reading")
    return named


def _cut_off(limit: float | None = None, parameter: str = RA, standard: str = ISO_21920_3, rsm: float | None = None,
             rz: float | None = None) -> Result:  # fmt: skip
    if (limit is None) == (rsm is None):
        raise BadInput("limit", "missing" if limit is None else "given beside rsm", "limit or rsm, one of them")
    if rsm is not None and standard != ISO_4288:
        raise BadInput("standard", standard, f"{ISO_4288} with rsm; {ISO_21920_3} has no column for periodic profiles")
    lengths = cut_off_for_limit(limit, parameter, standard) if limit is not None else cut_off_for_spacing(rsm or 0.0)
    stylus = stylus_for(lengths.cut_off, rz)
    notes = ["Largest sampling step: verify against your copy of ISO 3274."]
    if standard == ISO_4288 and parameter == RZ and limit is not None:
        notes.append("Borders for Rz: verify against your copy of ISO 4288.")
    return Result((
        Value("cut_off", lengths.cut_off, "mm", "cut-off"),
        Value("section_length", lengths.section, "mm", "length of one section"),
        Value("evaluation_length", lengths.evaluation, "mm", "evaluation length, five sections"),
        Value("traverse", lengths.traverse, "mm", "shortest trace, half a cut-off more at both ends"),
        Value("short_wave", stylus.short_wave, "um", "short-wave cut-off"),
        Value("ratio", stylus.ratio, "", "cut-off over short-wave cut-off"),
        Value("tip_radius", stylus.tip_radius, "um", "largest radius of the stylus tip"),
        Value("step", stylus.step, "um", "largest sampling step"),
    ), tuple(notes))  # fmt: skip


def _before_after(as_found: Sequence[float], as_left: Sequence[float], places: str | None = None) -> Result:
    change = change_by_place(as_found, as_left)
    named = _named(places, len(as_found))
    rougher = [name for name, one in zip(named, change.difference, strict=True) if one < 0]
    notes = [f"Rougher than before at {', '.join(rougher)}."] if rougher else []
    silent = min(as_left) <= 0
    notes += [SILENT] if silent else []
    by_place = [value for k, name in enumerate(named) for value in (
        Value(f"difference_{k + 1}", float(change.difference[k]), "um", f"less at {name}"),
        Value(f"reduction_{k + 1}", float(change.percent[k]), "%", f"reduction at {name}"))]  # fmt: skip
    return Result((
        Value("mean_found", sum(as_found) / len(as_found), "um", "mean as found"),
        Value("mean_left", sum(as_left) / len(as_left), "um", "mean as left"),
        Value("largest_left", max(as_left), "um", "largest as left"),
        Value("mean_reduction", change.mean_percent, "%", "reduction of the mean"),
        Value("least_reduction", float(change.percent.min()), "%", "reduction at the place where it is least"),
        *by_place,
    ), tuple(notes), "inconclusive" if silent else "")  # fmt: skip


_PARAMETER = Field("parameter", "Parameter the limit is given for.", form=CHOICE, choices=PARAMETERS, default=RA)
_STANDARD = Field("standard", "What the drawing goes by.", form=CHOICE, choices=STANDARDS, default=ISO_21920_3)
_PLACES = Field("places", "Names of the places, commas between.", form=TEXT, allowed="one name for every reading",
                optional=True)  # fmt: skip

KINDS: tuple[Kind, ...] = (
    Kind("roughness", "Readings of Ra or Rz at marked places against the upper limit on the drawing.",
         "ISO 21920-3; ISO 4288:1996 clause 5", (
             Field("readings", "Values the instrument shows, in the order they were taken.", "um", NUMBERS,
                   allowed="1 or more, 0 or above"),
             Field("limit", "Upper limit on the drawing.", "um", allowed="above 0"),
             _PARAMETER,
             Field("rule", "How the limit is meant: no value over it, at most 16 % by the stop rule in the order of "
                   "reading, or at most 16 % of all; left out: what the standard takes.", form=CHOICE,
                   choices=tuple(RULES), optional=True),
             _STANDARD,
             Field("cut_off", "Cut-off the instrument was set to.", "mm", allowed="above 0", optional=True),
             _PLACES,
         ), _roughness,
         {"readings": [0.35, 0.38, 0.43, 0.36, 0.31, 0.39], "limit": 0.4, "rule": "16 %", "cut_off": 0.8}),
    TRACE,
    Kind("cut-off", "Cut-off, lengths, stylus and sampling step that a limit asks for.",
         "ISO 21920-3; ISO 4288:1996; ISO 3274", (
             Field("limit", "Upper limit on the drawing.", "um", allowed="above 0", optional=True),
             _PARAMETER,
             _STANDARD,
             Field("rsm", "Mean width of the profile elements of a periodic profile, in place of limit; ISO 4288.",
                   "mm", allowed="above 0.013, up to 4", optional=True),
             Field("rz", "Rz of the surface, where known: a blunter tip may serve.", "um", allowed="0 or above",
                   optional=True),
         ), _cut_off, {"limit": 0.38}),
    Kind("roughness-before-after", "Roughness as found and as left at the same places.", "common practice", (
        Field("as_found", "Readings before.", "um", NUMBERS, allowed="1 or more, above 0"),
        Field("as_left", "Readings after, the same places in the same order.", "um", NUMBERS,
              allowed="as many, 0 or above"),
        _PLACES,
    ), _before_after, {"as_found": [0.82, 0.76, 0.91], "as_left": [0.38, 0.35, 0.47], "places": "A, B, C"},
         "least_reduction"),
)  # fmt: skip
