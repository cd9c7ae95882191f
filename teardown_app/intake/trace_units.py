"""Units of length as traces are labelled with them, and headings that hold a unit."""

from __future__ import annotations

import re

from teardown_app.domain.measure.units import factor, plain_unit

UM_IN_MM = 1000.0

_BRACKETED = re.compile(r"\s*(.*?)\s*[(\[<]\s*([^)\]>]*?)\s*[)\]>]?\s*")
_SLASHED = re.compile(r"\s*(.*?)\s*(?:/|\bin\b)\s*([^\s/]+)\s*")
_TRAILING = re.compile(r"\s*(.*?)[\s_]+([^\s_]+)\s*")


def length_in_mm(unit: str) -> float | None:
    """Millimetres in one of a unit, None where it is no length that is known.

    >>> length_in_mm("µm"), length_in_mm("IN"), length_in_mm("V"), length_in_mm("Å")
    (0.001, 25.4, None, 1e-07)
    """
    plain = plain_unit(unit)
    small = "Angstrom" if plain == "Angstrom" else plain.casefold()
    times = factor(small, "mm") if small else None
    return None if times is None else float(times)


def parted_heading(text: str) -> tuple[str, str]:
    """Name and unit of a heading; no unit where none stands there. A unit in brackets or after / need not be known.

    >>> [parted_heading(one) for one in ("x (mm)", "z [um]", "Z/µm", "Height in nm", "z_um", "profile")]
    [('x', 'mm'), ('z', 'um'), ('z', 'µm'), ('height', 'nm'), ('z', 'um'), ('profile', '')]
    """
    text = text.strip().strip('"')
    told = _BRACKETED.fullmatch(text) or _SLASHED.fullmatch(text)
    if told:
        return told[1].casefold(), told[2]
    told = _TRAILING.fullmatch(text)
    if told and length_in_mm(told[2]) is not None:
        return told[1].casefold(), told[2]
    return text.casefold(), ""
