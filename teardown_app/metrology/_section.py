"""A section's points in local size, its least-squares centre, and the search for the least bad centre."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from teardown_app.metrology.fault import BadInput, Floats, rows

_ROUNDS = 300
_ENOUGH = 1e-13
"""A point this far off, as a share of the radius, is on the circle."""
_DIGITS = 8 * float(np.finfo(float).eps)
"""Last digits of a coordinate, as a share of it: points no farther from a line lie on it."""
_NEAR = 1e-6
"""A step this short is taken as it is: sums of squares no longer tell which is better."""
_FEW = 8
"""Points round the section to begin with."""


class Section:
    """Points brought to their mean and to a size of about one, so that no digit is lost far from the origin."""

    def __init__(self, points: Sequence[Sequence[float]] | Floats) -> None:
        read = rows("points", points, columns=2, at_least=3, unit="mm")
        self._mean = read.mean(axis=0)
        local = read - self._mean
        spread = np.linalg.svd(local, compute_uv=False)
        rounded = _DIGITS * float(np.abs(read).max()) * len(read) ** 0.5
        if spread[1] <= max(1e-9 * spread[0], rounded):
            raise BadInput("points", "all on one line", "three or more points round a section")
        self._scale = float(np.abs(local).max())
        self._local = local / self._scale

    def fitted(self) -> Floats:
        """Centre of the LSC, local."""
        x, y = self._local.T
        known = np.column_stack([x, y, np.ones(len(x))])
        start = np.linalg.lstsq(known, x * x + y * y, rcond=None)[0]
        centre = start[:2] / 2
        last = np.inf
        for _ in range(_ROUNDS):
            step = self._step(centre)
            if np.abs(step).max() > _NEAR:
                step = self._shortened(centre, step)
            size = float(np.abs(step).max())
            centre = centre + step
            if size < 1e-16 or last <= size <= _NEAR:
                break
            last = size
        return np.asarray(centre, dtype=np.float64)

    def _step(self, centre: Floats) -> Floats:
        """Newton's step to the least sum of squares; that of Gauss where the sum does not curve upwards."""
        away = self._local - centre
        radii = np.maximum(np.hypot(*away.T), 1e-12)
        units = away / radii[:, None]
        off = radii - radii.mean()
        slope = units - units.mean(axis=0)
        gauss = slope.T @ slope
        newton = gauss + np.eye(2) * float((off / radii).sum()) - (units.T * (off / radii)) @ units
        curved = np.linalg.eigvalsh(newton)[0] > 0.01 * np.linalg.eigvalsh(gauss)[0]
        step: Floats = np.linalg.lstsq(newton if curved else gauss, units.T @ off, rcond=None)[0]
        return step

    def _shortened(self, centre: Floats, step: Floats) -> Floats:
        """The step, halved until the sum of squares falls."""
        before = self._squares(centre)
        for _ in range(40):
            if self._squares(centre + step) <= before:
                return step
            step = step / 2
        return step * 0

    def _squares(self, centre: Floats) -> float:
        radii = np.hypot(*(self._local - centre).T)
        return float(((radii - radii.mean()) ** 2).sum())

    def settled(self, centres: Callable[[Floats], Floats], badness: Callable[[Floats], Floats]) -> Floats:
        """The least bad centre: best of those that a few points make, points beyond taken in until none is."""
        middle = self.fitted()
        reach = float(self._radii(middle).mean())
        chosen = self._around(middle)
        for _ in range(_ROUNDS):
            few = self._local[chosen]
            tried = centres(few)
            tried = tried[np.hypot(*(tried - middle).T) <= reach] if len(tried) else tried
            if not len(tried):
                chosen, before = list(range(len(self._local))), len(chosen)
                if before == len(chosen):
                    raise BadInput("points", "on part of a round", "points all round the section")
                continue
            radii = np.hypot(tried[:, None, 0] - few[None, :, 0], tried[:, None, 1] - few[None, :, 1])
            bad = badness(radii)
            centre = tried[int(bad.argmin())]
            every = self._radii(centre)
            beyond = [one for one in (int(every.argmax()), int(every.argmin())) if one not in chosen]
            if float(badness(every)) - float(bad.min()) <= _ENOUGH or not beyond:
                return np.asarray(centre, dtype=np.float64)
            chosen = [*chosen, *dict.fromkeys(beyond)]
        return np.asarray(centre, dtype=np.float64)

    def _around(self, middle: Floats) -> list[int]:
        """The farthest and the nearest point of each part of the round."""
        away = self._local - middle
        part = np.floor((np.arctan2(away[:, 1], away[:, 0]) + np.pi) * (_FEW / 2) / np.pi).astype(int) % _FEW
        radii = np.hypot(*away.T)
        ends: dict[int, None] = {int(radii.argmax()): None, int(radii.argmin()): None}
        for one in range(_FEW):
            here = np.flatnonzero(part == one)
            if len(here):
                ends[int(here[radii[here].argmax()])] = None
        return list(ends)

    def _radii(self, centre: Floats) -> Floats:
        return np.asarray(np.hypot(*(self._local - centre).T), dtype=np.float64)

    def radii(self, centre: Floats) -> Floats:
        """Distances from a local centre, mm."""
        return self._radii(centre) * self._scale

    def world(self, centre: Floats) -> tuple[float, float]:
        """A local centre as it was measured, mm."""
        placed = centre * self._scale + self._mean
        return float(placed[0]), float(placed[1])
