"""Coefficients of the ITS-90 reference functions of thermocouples K, J and T: data, nothing is computed here.

NIST Monograph 175 (Burns et al., 1993), which is also the ground of IEC 60584-1: E = sum of c_i t^i, E in mV against
a junction at 0 degC, t in degC. Type K has a0 exp(a1 (t - a2)^2) on top above 0 degC.
"""

from __future__ import annotations

from typing import NamedTuple


class Piece(NamedTuple):
    """One range of temperature with its polynomial."""

    low: float
    """degC."""
    high: float
    """degC."""
    coefficients: tuple[float, ...]
    """c_0 first, mV/degC^i."""
    bump: tuple[float, float, float] | None = None
    """a0 in mV, a1 in 1/degC^2, a2 in degC; None where there is no exponential."""


PIECES: dict[str, tuple[Piece, ...]] = {
    "K": (
        Piece(-270.0, 0.0, (
            0.0, 0.394501280250e-01, 0.236223735980e-04, -0.328589067840e-06, -0.499048287770e-08, -0.675090591730e-10,
            -0.574103274280e-12, -0.310888728940e-14, -0.104516093650e-16, -0.198892668780e-19, -0.163226974860e-22,
        )),
        Piece(0.0, 1372.0, (
            -0.176004136860e-01, 0.389212049750e-01, 0.185587700320e-04, -0.994575928740e-07, 0.318409457190e-09,
            -0.560728448890e-12, 0.560750590590e-15, -0.320207200030e-18, 0.971511471520e-22, -0.121047212750e-25,
        ), (0.1185976, -0.1183432e-03, 0.1269686e03)),
    ),
    "J": (
        Piece(-210.0, 760.0, (
            0.0, 0.503811878150e-01, 0.304758369300e-04, -0.856810657200e-07, 0.132281952950e-09, -0.170529583370e-12,
            0.209480906970e-15, -0.125383953360e-18, 0.156317256970e-22,
        )),
        Piece(760.0, 1200.0, (
            0.296456256810e03, -0.149761277860e01, 0.317871039240e-02, -0.318476867010e-05, 0.157208190040e-08,
            -0.306913690560e-12,
        )),
    ),
    "T": (
        Piece(-270.0, 0.0, (
            0.0, 0.387481063640e-01, 0.441944343470e-04, 0.118443231050e-06, 0.200329735540e-07, 0.901380195590e-09,
            0.226511565930e-10, 0.360711542050e-12, 0.384939398830e-14, 0.282135219250e-16, 0.142515947790e-18,
            0.487686622860e-21, 0.107955392700e-23, 0.139450270620e-26, 0.797951539270e-30,
        )),
        Piece(0.0, 400.0, (
            0.0, 0.387481063640e-01, 0.332922278800e-04, 0.206182434040e-06, -0.218822568460e-08, 0.109968809280e-10,
            -0.308157587720e-13, 0.454791352900e-16, -0.275129016730e-19,
        )),
    ),
}  # fmt: skip
"""By letter, from cold to hot; a border belongs to the colder piece."""
