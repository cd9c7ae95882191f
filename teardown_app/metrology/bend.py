"""How much a bent plate or shaft was strained."""

from __future__ import annotations

from teardown_app.metrology.fault import number


def radius_of_bow(chord: float, height: float) -> float:
    """Radius of an arc from its chord c and the height h over it: R = c^2 / (8 h) + h / 2, mm.

    Parameters: `chord` above 0 mm; `height` above 0 mm, up to half the chord. Raises `BadInput` otherwise.

    >>> radius_of_bow(200, 2)
    2501.0
    """
    c = number("chord", chord, "above 0 mm", above=0)
    h = number("height", height, f"above 0 mm, up to half the chord ({c / 2:g} mm)", above=0, high=c / 2)
    return c * c / (8 * h) + h / 2


def bend_strain(thickness: float, radius: float) -> float:
    """Strain of the outer fibre of a bent plate, t / (2 R), with the radius R of the middle of its thickness; in
    percent.

    Parameters: `thickness` above 0 mm; `radius` of the middle in mm, at least half the thickness. Raises `BadInput`
    otherwise.

    >>> bend_strain(2, 20)
    5.0
    """
    t = number("thickness", thickness, "above 0 mm", above=0)
    r = number("radius", radius, f"half the thickness or more ({t / 2:g} mm)", low=t / 2)
    return 100 * t / (2 * r)
