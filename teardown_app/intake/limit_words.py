"""A limit in one text (`max 0.02 mm`, `20 ±0.01 mm`) taken apart into its keys, and put together."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from teardown_app.domain.bill.limit import COMPARISONS
from teardown_app.intake.told import spaced

QUANTITY = re.compile(r"([+\-−]?\s*[0-9.,][0-9.,'’]*(?: [0-9]{3})*)\s*([^0-9\s].*)?")
"""Number and unit."""

NUMBER = re.compile(r"[0-9][0-9.,'’]*[0-9]|[0-9]")
FIT_CLASS = re.compile(r"[A-Za-z]{1,2}[0-9]{1,2}(?:/[A-Za-z]{1,2}[0-9]{1,2})?")

ROOM = re.compile(r"(\+?\s*[0-9.,]+)[^/0-9]*/\s*([+\-−]?\s*[0-9.,]+)\s*(.*)")
"""Upper and lower deviation: `+0.02/-0.01 mm`."""

_MOST = r"max|maximum|at most|no more than|höchstens|<=|≤|<"
_LEAST = r"min|minimum|at least|no less than|mindestens|>=|≥|>"
_BEFORE = re.compile(rf"(?:({_MOST})|({_LEAST}))\.?\s*(.+)", re.IGNORECASE)
_BEHIND = re.compile(r"(.+?)\s*\b(?:(max|maximum)|(min|minimum))\.?", re.IGNORECASE)
_SPAN = re.compile(r"([0-9.,]+)\s*(?:-|–|…|\.\.\.?|\bto\b|\bbis\b)\s*([0-9.,]+\s*[^0-9\s].*|[0-9.,]+)")
_BAND = re.compile(r"([0-9.,\s]+)([^0-9±+]*)\s*(?:±|\+/-|\+-)\s*(.+)")
_DEVIATIONS = re.compile(r"([0-9.,]+)\s*([^0-9+±/]*)\s*(\+\s*[0-9.,]+[^/0-9]*/\s*[+\-−]?\s*[0-9.,]+)\s*(.*)")
_FITTED = re.compile(rf"([0-9.,]+\s*[^0-9\s]*?)\s*\b({FIT_CLASS.pattern})")
_NAMED = re.compile(r"(compare|count|picture)(?:d)?(?:\s+(?:to|with))?\s*[:=]?\s*(.*)", re.IGNORECASE)


def keys_of(text: str) -> dict[str, Any]:
    """The keys that a limit in one text stands for; empty when it is not understood.

    >>> keys_of("max 0.02 mm"), keys_of("20 ±0.01 mm")
    ({'max': '0.02 mm'}, {'nominal': '20 mm', 'tolerance': '0.01 mm'})
    """
    text = " ".join(text.split())
    if spaced(text) in COMPARISONS:
        return {"compare": text}
    named = _NAMED.fullmatch(text)
    if named:
        return {named[1].casefold(): named[2] or True}
    return _one_side(text) or _two_sides(text)


def _one_side(text: str) -> dict[str, Any]:
    before = _BEFORE.fullmatch(text)
    if before:
        return {"max" if before[1] else "min": before[3]}
    behind = _BEHIND.fullmatch(text)
    return {"max" if behind[2] else "min": behind[1]} if behind else {}


def _two_sides(text: str) -> dict[str, Any]:
    span, band, fitted = _SPAN.fullmatch(text), _BAND.fullmatch(text), _FITTED.fullmatch(text)
    deviations = _DEVIATIONS.fullmatch(text)
    if span:
        unit = QUANTITY.fullmatch(span[2])
        return {"min": f"{span[1]} {unit[2] or '' if unit else ''}".strip(), "max": span[2]}
    if band:
        unit = QUANTITY.fullmatch(band[3])
        return {
            "nominal": f"{band[1].strip()} {band[2].strip() or (unit[2] or '' if unit else '')}".strip(),
            "tolerance": band[3],
        }
    if deviations:
        unit_text = deviations[2].strip() or deviations[4].strip()
        return {"nominal": f"{deviations[1]} {unit_text}".strip(), "tolerance": deviations[3]}
    return {"nominal": fitted[1].strip(), "fit": fitted[2]} if fitted else {}


def written(given: Mapping[str, Any]) -> str:
    """A limit as it would be written in one text."""
    said = {key: str(value) for key, value in given.items()}
    if "nominal" in said and "tolerance" in said:
        sign = "" if said["tolerance"][:1] in "+±" else "±"
        return f"{said['nominal']} {sign}{said['tolerance']}"
    if "nominal" in said and "fit" in said:
        return f"{said['nominal']} {said['fit']}"
    return " ".join(key if value == "True" else f"{key} {value}" for key, value in said.items())
