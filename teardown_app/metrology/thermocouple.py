"""Thermocouples K, J and T: thermal voltage and temperature both ways, with the cold junction taken in."""

from __future__ import annotations

import math

from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.thermocouple_its90 import PIECES, Piece

LETTERS = tuple(PIECES)
RANGES_C = {letter: (pieces[0].low, pieces[-1].high) for letter, pieces in PIECES.items()}
OF_PRINT = 5e-4
"""mV by which a reading may pass the ends of the curve: half the last digit of the printed table."""


def emf(letter: str, temperature: float, *, junction: float = 0.0) -> float:
    """Voltage in mV that a thermocouple gives: E(t) - E(junction), E the reference function of ITS-90.

    NIST Monograph 175, IEC 60584-1. Ranges: K -270 to 1372, J -210 to 1200, T -270 to 400 degC.

    Parameters: `letter` K, J or T; `temperature` t of the measuring junction and `junction`, where the wires meet
    the instrument, in degC within the range of the letter. Raises `BadInput`.

    >>> round(emf("K", 200), 4), round(emf("K", 200, junction=25), 4), round(emf("J", 100), 3)
    (8.1385, 7.1382, 5.269)
    """
    pieces = _pieces(letter)
    return _emf(pieces, _within("temperature", temperature, letter)) - _junction_emf(letter, junction)


def temperature(letter: str, voltage: float, *, junction: float = 0.0) -> float:
    """Temperature in degC that a voltage tells: E(t) = voltage + E(junction) solved for t.

    The reference function itself is solved (Newton's rule held in an interval), none of the inverse polynomials that
    are good to some 0.05 K. Half the last digit of the printed table beyond an end is taken for the end.

    Parameters: `letter` K, J or T; `voltage` in mV as read; `junction` in degC, 0 where the instrument compensates
    or an ice bath is used. Raises `BadInput`.

    >>> round(temperature("K", 7.1383, junction=25), 2), round(temperature("T", -6.258), 1)
    (200.0, -270.0)
    """
    pieces = _pieces(letter)
    cold = _junction_emf(letter, junction)
    low, high = _emf(pieces, pieces[0].low), _emf(pieces, pieces[-1].high)
    allowed = f"{low - cold:.3f} to {high - cold:.3f} mV for type {letter}, junction at {junction:g} degC"
    read = number("voltage", voltage, allowed, low=low - cold - OF_PRINT, high=high - cold + OF_PRINT)
    return _solved(pieces, min(max(read + cold, low), high))


def _pieces(letter: str) -> tuple[Piece, ...]:
    if letter not in PIECES:
        raise BadInput("letter", letter, ", ".join(LETTERS))
    return PIECES[letter]


def _within(field: str, value: float, letter: str) -> float:
    low, high = RANGES_C[letter]
    return number(field, value, f"{low:g} to {high:g} degC for type {letter}", low=low, high=high)


def _junction_emf(letter: str, junction: float) -> float:
    return _emf(PIECES[letter], _within("junction", junction, letter))


def _emf(pieces: tuple[Piece, ...], t: float) -> float:
    return _of_piece(next(piece for piece in pieces if t <= piece.high), t)[0]


def _of_piece(piece: Piece, t: float) -> tuple[float, float]:
    """E in mV and its slope in mV/degC."""
    value = slope = 0.0
    for coefficient in reversed(piece.coefficients):
        slope = slope * t + value
        value = value * t + coefficient
    if piece.bump is None:
        return value, slope
    height, width, centre = piece.bump
    bump = height * math.exp(width * (t - centre) ** 2)
    return value + bump, slope + bump * 2 * width * (t - centre)


def _solved(pieces: tuple[Piece, ...], wanted: float) -> float:
    """Where E meets `wanted`. E rises throughout; where two pieces meet it jumps up by less than 1e-7 mV."""
    piece = next(one for one in pieces if wanted <= _of_piece(one, one.high)[0])
    low, high = piece.low, piece.high
    t = 0.5 * (low + high)
    for _ in range(200):
        value, slope = _of_piece(piece, t)
        low, high = (t, high) if value < wanted else (low, t)
        nearer = t - (value - wanted) / slope
        nearer = nearer if low <= nearer <= high else 0.5 * (low + high)
        if abs(nearer - t) < 1e-12 * max(1.0, abs(t)):
            return nearer
        t = nearer
    return t
