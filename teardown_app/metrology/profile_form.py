"""Form of a profile, found by least squares and taken off: mean height, line, polynomial to degree 5, circle arc."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from teardown_app.metrology.fault import BadInput, Floats, number, numbers

DEGREES = (0, 1, 2, 3, 4, 5)
"""0 is the mean height, 1 the line."""
_STEEPEST = 0.999
"""Sine of the steepest slope an arc may reach within the profile."""
_ROUNDS = 60


class Form(NamedTuple):
    """What was taken off, and what is left of the profile."""

    form: Floats
    """Form at every point, shape (n,), um."""
    rest: Floats
    """Heights less form, shape (n,), um."""


class Arc(NamedTuple):
    """A circle arc that was taken off."""

    form: Floats
    """Form at every point, shape (n,), um."""
    rest: Floats
    """Heights less form, shape (n,), um, along the height axis."""
    radius: float
    """Radius, mm; positive for a crest (centre below), negative for a hollow, infinite for a straight profile."""
    slope: float
    """Steepest slope of the arc within the profile, degrees."""


def polynomial_form(heights: Sequence[float] | Floats, degree: int) -> Form:
    """Least-squares polynomial along a profile of equally spaced points: form minimises sum (z - form)^2.

    It is built on orthogonal polynomials of the position, so that degree 5 is as sharp as degree 1. Association by
    least squares as in ISO 21920-2; degree 0 takes off the mean height, 1 the least-squares line.

    Parameters: `heights` of shape (n,), um, n above `degree`; `degree` 0 to 5. Raises `BadInput` otherwise.

    >>> polynomial_form([1.0, 3.0, 5.0, 7.0], 1).form.round(9).tolist()
    [1.0, 3.0, 5.0, 7.0]
    """
    if degree not in DEGREES or isinstance(degree, bool):
        raise BadInput("degree", degree, "0, 1, 2, 3, 4 or 5")
    z = numbers("heights", heights, at_least=degree + 1, unit="um")
    along = np.linspace(-1.0, 1.0, len(z))
    basis, _ = np.linalg.qr(np.polynomial.legendre.legvander(along, degree))
    level = z[len(z) // 2]
    rest = z - level
    form = np.zeros_like(rest)
    for _ in range(2):
        part = basis @ (basis.T @ rest)
        form, rest = form + part, rest - part
    return Form(form + level, rest)


def circle_form(heights: Sequence[float] | Floats, step: float) -> Arc:
    """Least-squares circle arc along a profile: the one that minimises sum (z - arc)^2 along the height axis.

    The arc is sought as level, slope at mid length and curvature, so that nearly straight profiles are no trouble.

    Parameters: `heights` of shape (n,), um, n 4 or more; `step` between points in mm, above 0. The rest is taken along
    the height axis, not square to the arc: on a slope s it is larger than square to the arc by 1 / cos s.
    Raises `BadInput` where the profile runs round the arc so far that it nearly stands upright.

    >>> x = 0.1 * (np.arange(41) - 20)
    >>> found = circle_form(1000 * np.sqrt(25.0**2 - x**2), 0.1)
    >>> round(found.radius, 9), bool(abs(found.rest).max() < 1e-9), round(found.slope, 3)
    (25.0, True, 4.589)
    """
    z = numbers("heights", heights, at_least=4, unit="um")
    half = number("step", step, "above 0 mm", above=0) * (len(z) - 1) / 2
    along = np.linspace(-1.0, 1.0, len(z))
    level = z[len(z) // 2]
    goal = (z - level) / (1000 * half)
    at = _settled(along, goal)
    rest = (goal - _arc(along, at)) * 1000 * half
    curvature = at[2] / half
    radius = -1 / curvature if abs(curvature) > 1e-12 / half else float("inf")
    steepest = max(abs(at[1] - at[2]), abs(at[1] + at[2]))
    return Arc(z - rest, rest, float(radius), float(np.degrees(np.arcsin(steepest))))


def _settled(along: Floats, goal: Floats) -> Floats:
    """Level, sine of the slope at mid length and curvature, in half lengths: Gauss-Newton with halved steps."""
    c2, c1, c0 = np.polynomial.Polynomial.fit(along, goal, 2, domain=[-1, 1]).coef[::-1]
    at = _within(np.array([c0, c1 / np.hypot(1, c1), 2 * c2 / np.hypot(1, c1) ** 3]))
    error = _error(along, goal, at)
    for _ in range(_ROUNDS):
        move = np.linalg.lstsq(_slopes(along, at), goal - _arc(along, at), rcond=None)[0]
        share = 1.0
        while share > 1e-9 and not _error(along, goal, at + share * move) < error:
            share /= 2
        if share <= 1e-9:
            break
        at = at + share * move
        error = _error(along, goal, at)
    if abs(at[1]) + abs(at[2]) >= _STEEPEST:
        raise BadInput("heights", "a profile that stands upright", "a profile of less than a half circle")
    return at


def _within(at: Floats) -> Floats:
    """A first guess that has an arc over the whole length."""
    steep = abs(at[1]) + abs(at[2])
    return at if steep < 0.9 else at * np.array([1, 0.9 / steep, 0.9 / steep])


def _error(along: Floats, goal: Floats, at: Floats) -> float:
    """Sum of squares; infinite where there is no such arc."""
    if abs(at[1]) + abs(at[2]) >= 1:
        return float("inf")
    return float(np.sum((goal - _arc(along, at)) ** 2))


def _arc(x: Floats, at: Floats) -> Floats:
    """Height of the arc, written so that curvature 0 is a line and not 0 / 0."""
    level, sine, curvature = at
    here = sine + curvature * x
    found: Floats = level + x * (sine + here) / (np.sqrt(1 - sine**2) + np.sqrt(1 - here**2))
    return found


def _slopes(x: Floats, at: Floats) -> Floats:
    """How the height changes with level, slope and curvature, shape (n, 3)."""
    sine, curvature = at[1], at[2]
    here = sine + curvature * x
    mid, cosine = np.sqrt(1 - sine**2), np.sqrt(1 - here**2)
    shared = (mid + sine * (sine + here) / (mid + cosine)) / cosine
    return np.column_stack([np.ones_like(x), x * shared / mid, x**2 * shared / (mid + cosine)])
