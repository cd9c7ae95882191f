"""Shapes that say a state without colour, as points in a square of one by one, y upwards.

Accept is a filled square, reject a ring with a bar, inconclusive a triangle, to do a filled disc, empty
an open square, hold a flag on a pole. The geometry follows ISO 3864-1 (circle with bar: prohibited,
triangle: caution, disc: must be done, square: safe condition), from memory.
"""

from __future__ import annotations

from math import cos, pi, sin
from typing import NamedTuple

from kivy.graphics import Color, Ellipse, Line, Mesh, Rectangle
from kivy.graphics.instructions import InstructionGroup

from teardown_app.ui.look.palette import Colour
from teardown_app.ui.look.theme import Theme
from teardown_app.ui.view import ACCEPT, EMPTY, HOLD, REJECT, TO_DO, UNSURE


class Paints(NamedTuple):
    """Colours that marks are drawn with: the outline and the four of meaning."""

    ink: Colour
    safe: Colour
    stop: Colour
    caution: Colour
    must: Colour


def paints(theme: Theme, *, pale: bool = False) -> Paints:
    """The paints of a theme; on the dark scan line the outline is light."""
    ink = theme.plate if pale else theme.ink
    return Paints(tuple(ink), tuple(theme.safe), tuple(theme.stop), tuple(theme.caution), tuple(theme.must))


def draw_mark(mark: str, x: float, y: float, size: float, theme: Paints) -> InstructionGroup:
    """Instructions that draw a mark into the square at (x, y)."""
    group = InstructionGroup()
    if mark in _DRAWN:
        _DRAWN[mark](group, x, y, size, theme)
    return group


def _outline(group: InstructionGroup, theme: Paints, points: list[float], size: float) -> None:
    group.add(Color(*theme.ink))
    group.add(Line(points=points, width=max(1.0, size / 18), close=True, joint="miter"))


def _square(x: float, y: float, size: float) -> list[float]:
    edge = size * 0.1
    low_x, low_y, high_x, high_y = x + edge, y + edge, x + size - edge, y + size - edge
    return [low_x, low_y, high_x, low_y, high_x, high_y, low_x, high_y]


def _accept(group: InstructionGroup, x: float, y: float, size: float, theme: Paints) -> None:
    points = _square(x, y, size)
    group.add(Color(*theme.safe))
    group.add(Rectangle(pos=points[:2], size=(points[4] - points[0], points[5] - points[1])))
    _outline(group, theme, points, size)


def _empty(group: InstructionGroup, x: float, y: float, size: float, theme: Paints) -> None:
    _outline(group, theme, _square(x, y, size), size)


def _reject(group: InstructionGroup, x: float, y: float, size: float, theme: Paints) -> None:
    middle, radius = (x + size / 2, y + size / 2), size * 0.36
    reach = radius * cos(pi / 4)
    bar = [middle[0] - reach, middle[1] + reach, middle[0] + reach, middle[1] - reach]
    for paint, width in ((theme.ink, size / 6.5), (theme.stop, size / 9)):
        group.add(Color(*paint))
        group.add(Line(circle=(*middle, radius), width=width / 1.4))
        group.add(Line(points=bar, width=width / 1.4))


def _unsure(group: InstructionGroup, x: float, y: float, size: float, theme: Paints) -> None:
    points = [x + size * 0.06, y + size * 0.1, x + size * 0.94, y + size * 0.1, x + size / 2, y + size * 0.9]
    group.add(Color(*theme.caution))
    vertices = [part for n in range(0, 6, 2) for part in (points[n], points[n + 1], 0, 0)]
    group.add(Mesh(vertices=vertices, indices=[0, 1, 2], mode="triangles"))
    _outline(group, theme, points, size)


def _to_do(group: InstructionGroup, x: float, y: float, size: float, theme: Paints) -> None:
    edge = size * 0.08
    group.add(Color(*theme.must))
    group.add(Ellipse(pos=(x + edge, y + edge), size=(size - 2 * edge, size - 2 * edge)))
    ring = [
        part
        for n in range(32)
        for part in (
            x + size / 2 + (size / 2 - edge) * cos(n * pi / 16),
            y + size / 2 + (size / 2 - edge) * sin(n * pi / 16),
        )
    ]
    _outline(group, theme, ring, size)


def _hold(group: InstructionGroup, x: float, y: float, size: float, theme: Paints) -> None:
    pole = x + size * 0.25
    group.add(Color(*theme.ink))
    group.add(Line(points=[pole, y + size * 0.06, pole, y + size * 0.94], width=max(1.0, size / 14)))
    corners = [pole, y + size * 0.92, x + size * 0.92, y + size * 0.7, pole, y + size * 0.48]
    vertices = [part for n in range(0, 6, 2) for part in (corners[n], corners[n + 1], 0, 0)]
    group.add(Mesh(vertices=vertices, indices=[0, 1, 2], mode="triangles"))


_DRAWN = {
    ACCEPT: _accept,
    REJECT: _reject,
    UNSURE: _unsure,
    TO_DO: _to_do,
    EMPTY: _empty,
    HOLD: _hold,
}
