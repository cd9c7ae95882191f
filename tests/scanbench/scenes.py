"""Specs of labels as they meet a tablet: aimed at and fairly clean, stained, greased."""

from __future__ import annotations

import math
import random

import numpy as np

from tests.scanbench.spec import Spec

MODERATE_FROM = 100_000
"""Photograph i of `moderate` is drawn by `frame(MODERATE_FROM + i, spec)`."""


def moderate(count: int = 400, seed: int = 77) -> list[Spec]:
    """What a technician would call normal: aimed, mild blur, some dirt, a label of ours (version 1-H)."""
    lot = random.Random(seed)
    return [_moderate(lot) for _ in range(count)]


def _moderate(lot: random.Random) -> Spec:
    """One of them. The lots are drawn in the order written here."""
    return Spec(
        group="moderate",
        version=1,
        characters=10,
        size=lot.choice("sml"),
        side=int(math.exp(lot.uniform(math.log(70), math.log(260)))),
        tilt=abs(lot.gauss(0, 15)),
        blur=0.3 + abs(lot.gauss(0, 0.5)),
        motion=lot.choice((0, 0, 0, 0, 3, 4)),
        noise=lot.uniform(2, 12),
        dark=lot.randint(20, 80),
        light=lot.randint(150, 240),
        glare=0.25 if lot.random() < 0.12 else 0,
        stain=lot.choice((0.01, 0.02, 0.04)) if lot.random() < 0.3 else 0,
        wrap=lot.choice((30, 50)) if lot.random() < 0.2 else 0,
        inverted=lot.random() < 0.06,
        quiet=lot.choice((4, 4, 2)),
        shadow=lot.choice((0, 0, 0, 60)),
    )


def stained(share: float, count: int = 60, seed: int = 5) -> list[Spec]:
    """Flat opaque stains over `share` (0 to 1) of the symbol, anywhere, finders included."""
    return [_plain("stained", share, turn, stain=share) for turn in _turns(count, seed)]


def greased(share: float, count: int = 60, seed: int = 5) -> list[Spec]:
    """Dark textured grease over `share` (0 to 1) of the symbol, anywhere, finders included."""
    return [_plain("greased", share, turn, grease=share) for turn in _turns(count, seed)]


def _turns(count: int, seed: int) -> list[float]:
    return [float(turn) for turn in np.random.default_rng(seed).uniform(0, 360, count)]


def _plain(group: str, level: float, turn: float, *, stain: float = 0, grease: float = 0) -> Spec:
    """A label of 6 pixels a module, sharp and straight from above."""
    return Spec(
        group=group, level=level, version=1, characters=10, side=126, blur=0.5, turn=turn, stain=stain, grease=grease
    )
