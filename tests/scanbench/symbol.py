"""The label itself, seen straight from above: 16 pixels a module."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import qrcode
from attrs import frozen

from tests.scanbench.spec import Spec

MODULE = 16
"""Pixels a module before the label is laid into the photograph."""

TEXT = 3
"""Modules below the symbol where the number stands in clear; empty here."""

_CORRECTIONS = {
    "M": qrcode.constants.ERROR_CORRECT_M,
    "Q": qrcode.constants.ERROR_CORRECT_Q,
    "H": qrcode.constants.ERROR_CORRECT_H,
}


@frozen
class Flat:
    """A label lying flat: grey levels, and where the symbol is in it."""

    grey: np.ndarray
    symbol: np.ndarray
    """4 x 2: corners of the symbol (x, y), going round from the top left."""


@lru_cache(4096)
def matrix(text: str, correction: str, version: int) -> np.ndarray:
    """Modules of a symbol, 1 is dark."""
    code = qrcode.QRCode(version=version, error_correction=_CORRECTIONS[correction])
    code.add_data(text, optimize=0)
    code.make(fit=False)
    return np.array([[1 if dark else 0 for dark in row] for row in code.modules], np.uint8)


def flat_label(modules: np.ndarray, spec: Spec) -> Flat:
    """Symbol, quiet zone and the strip for the number, in the spec's dark and light."""
    white = np.kron(1 - modules, np.ones((MODULE, MODULE), np.uint8)).astype(np.float32)
    edge = spec.quiet * MODULE
    white = np.pad(white, edge, constant_values=1)
    if spec.quiet >= 2:
        white = np.pad(white, ((0, TEXT * MODULE), (0, 0)), constant_values=1)
    if spec.inverted:
        white = 1 - white
    near, far = edge, edge + len(modules) * MODULE
    corners = np.array([[near, near], [far, near], [far, far], [near, far]], np.float32)
    return Flat(spec.dark + white * (spec.light - spec.dark), corners)
