"""Colours: a quiet base, and colour only with meaning.

The four safety colours mean what ISO 3864-1 gives them (red stop or prohibited, yellow caution, green
safe condition, blue must be done); their values are those of RAL 3001, 1003, 6032 and 5005, from
memory. The accent marks what can be touched and is none of these four.
"""

from __future__ import annotations

from attrs import frozen

Colour = tuple[float, float, float, float]


def colour(code: str) -> Colour:
    """`#rrggbb` as fractions.

    >>> colour("#ff0000")
    (1.0, 0.0, 0.0, 1.0)
    """
    red, green, blue = (int(code[n : n + 2], 16) / 255 for n in (1, 3, 5))
    return (red, green, blue, 1.0)


@frozen
class Palette:
    """One set of colours. `over_accent` is written on the accent."""

    name: str
    base: Colour
    plate: Colour
    ink: Colour
    quiet: Colour
    line: Colour
    accent: Colour
    over_accent: Colour
    stop: Colour = colour("#9b2423")
    caution: Colour = colour("#f9a800")
    safe: Colour = colour("#237f52")
    must: Colour = colour("#154889")


LIGHT = Palette(
    "light",
    base=colour("#dcd7ce"),
    plate=colour("#f4f1eb"),
    ink=colour("#17150f"),
    quiet=colour("#3b3831"),
    line=colour("#8d877b"),
    accent=colour("#4a1f4f"),
    over_accent=colour("#fffdf8"),
)
DARK = Palette(
    "dark",
    base=colour("#1b1c1e"),
    plate=colour("#2a2c2f"),
    ink=colour("#f6f3ec"),
    quiet=colour("#d6d2c9"),
    line=colour("#77746d"),
    accent=colour("#e6c3ec"),
    over_accent=colour("#1b1c1e"),
)
CONTRAST = Palette(
    "high contrast",
    base=colour("#ffffff"),
    plate=colour("#ffffff"),
    ink=colour("#000000"),
    quiet=colour("#000000"),
    line=colour("#000000"),
    accent=colour("#000000"),
    over_accent=colour("#ffffff"),
)
PALETTES = {palette.name: palette for palette in (LIGHT, DARK, CONTRAST)}


def luminance(one: Colour) -> float:
    """Relative luminance 0..1 (WCAG 2.2, definition of relative luminance)."""
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in one[:3]]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: Colour, other: Colour) -> float:
    """Contrast ratio 1..21 (WCAG 2.2, definition of contrast ratio).

    >>> round(contrast(colour("#000000"), colour("#ffffff")), 1)
    21.0
    """
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)
