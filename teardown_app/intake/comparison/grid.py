"""The grid of modules bent as the label is: where edges are in phase with the lattice, piece by piece.

A label lies tilted or on a pipe, so the steps of its grid change over the symbol. The phase of the edges against
the even lattice is taken at 9 x 9 places of the window and made smooth by a polynomial of second order.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from attrs import frozen

from teardown_app.intake.comparison.lattice import ACROSS, Lattice, Window, capped

PATCH = 35
"""Modules a side of what is sampled around the middle of the window."""
FINE = 4
"""Samples a module in each direction."""

PLACES = np.linspace(0.08, 0.92, 9) * ACROSS
REACH = 11.0
"""Pixels of the window a place looks around itself (standard deviation)."""
MIDDLE_REACH = 0.42
"""Share of the window in which places count most (standard deviation)."""
BOUND = 0.2
"""Modules a place may be off before it counts little."""
STIFF = 0.02
"""Of the weight of all places, what holds the curvature down."""
ORDERS = (3, 3, 6, 6, 6)
"""Terms fitted one after the other: an even lattice first, then its curvature."""
ROUNDS = 3


@frozen
class Patch:
    """35 x 35 modules around the middle of a window, straightened."""

    samples: np.ndarray
    """(140, 140) grey values, four a module each way."""
    lines: np.ndarray
    """(2, 36, 36): x and y in the window where the lines of the grid cross."""
    first: np.ndarray
    """(2,): which line of the lattice is the patch's first, across and down."""


def straightened(window: Window, edges: tuple[np.ndarray, np.ndarray], lattice: Lattice) -> Patch:
    """The modules of a window on their own grid, bent as its edges tell."""
    return laid(window, lattice, [_phases(axis, edges) for axis in (lattice.first, lattice.second)])


def laid(window: Window, lattice: Lattice, curves: Sequence[np.ndarray]) -> Patch:
    """The modules of a window on a lattice shifted and bent by six terms each way."""
    lines, first = _crossings(lattice, curves)
    x, y = (_BETWEEN @ one @ _BETWEEN.T for one in lines)
    return Patch(_sample(window.grey, x, y), lines, first)


def _phases(axis: np.ndarray, edges: tuple[np.ndarray, np.ndarray]) -> np.ndarray:
    """Six terms of how far the lines of one direction are from the even lattice, in modules."""
    strength = capped(np.abs(edges[0] * axis[0] + edges[1] * axis[1]))
    turns = np.exp(-2j * np.pi * axis[:, None] * np.arange(ACROSS)[None]).astype(np.complex64)
    waves = ((_NEAR * turns[1]) @ strength @ (_NEAR * turns[0]).T).ravel() * _WEIGHT
    terms = np.zeros(6)
    terms[0] = np.angle((waves * np.abs(waves)).sum()) / (2 * np.pi)
    for order in ORDERS:
        off = np.angle(waves * np.exp(-2j * np.pi * (_AT_PLACES @ terms))) / (2 * np.pi)
        weight = np.abs(waves) * np.exp(-((off / BOUND) ** 2))
        basis = _AT_PLACES[:, :order]
        stiff = np.diag(np.where(np.arange(order) < 3, 1e-6, STIFF)) * (weight.sum() + 1e-9)
        weighted = basis * weight[:, None]
        terms[:order] += np.linalg.solve(weighted.T @ basis + stiff, weighted.T @ off)
    return terms


def _basis(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    x, y = x * (2 / ACROSS) - 1, y * (2 / ACROSS) - 1
    return np.stack([np.ones_like(x), x, y, x * x, x * y, y * y], -1)


def _crossings(lattice: Lattice, curves: Sequence[np.ndarray]) -> tuple[np.ndarray, np.ndarray]:
    """Where whole modules begin in the window, and the number of the first across and down."""
    axes = np.stack([lattice.first, lattice.second])
    back = np.linalg.inv(axes)

    def counted(at: np.ndarray) -> np.ndarray:
        basis = _basis(at[0], at[1])
        return np.asarray(np.tensordot(axes, at, 1) + np.stack([basis @ curve for curve in curves]))

    middle = counted(np.full((2, 1), ACROSS / 2))[:, 0]
    first = np.floor(middle) - PATCH // 2
    lines = np.arange(PATCH + 1)
    wanted = np.stack(np.meshgrid(first[0] + lines, first[1] + lines))
    at = np.tensordot(back, wanted, 1)
    for _ in range(ROUNDS):
        at = at + np.tensordot(back, wanted - counted(at), 1)
    return at, first.astype(int)


def _sample(grey: np.ndarray, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Values between pixels; one pixel is added, for the frame around the edges."""
    high, wide = grey.shape
    x, y = np.clip(x + 1, 0, wide - 1.001), np.clip(y + 1, 0, high - 1.001)
    column, row = x.astype(int), y.astype(int)
    right, low = (x - column).astype(np.float32), (y - row).astype(np.float32)
    at, flat = row * wide + column, grey.ravel()
    upper = flat[at] * (1 - right) + flat[at + 1] * right
    lower = flat[at + wide] * (1 - right) + flat[at + wide + 1] * right
    return np.asarray(upper * (1 - low) + lower * low)


_NEAR = np.exp(-0.5 * ((np.arange(ACROSS)[None] - PLACES[:, None]) / REACH) ** 2).astype(np.float32)
_X, _Y = (one.ravel() for one in np.meshgrid(PLACES, PLACES))
_WEIGHT = np.exp(-0.5 * ((_X - ACROSS / 2) ** 2 + (_Y - ACROSS / 2) ** 2) / (MIDDLE_REACH * ACROSS) ** 2)
_AT_PLACES = _basis(_X, _Y)


def _between_lines() -> np.ndarray:
    """(140, 36): weights of the lines of the grid at each sample."""
    at = (np.arange(PATCH * FINE) + 0.5) / FINE
    weights = np.zeros((len(at), PATCH + 1))
    line = at.astype(int)
    weights[np.arange(len(at)), line] = 1 - (at - line)
    weights[np.arange(len(at)), line + 1] = at - line
    return weights


_BETWEEN = _between_lines()
