"""Surface texture: cut-off tables and acceptance rules against published cases."""

from __future__ import annotations

import numpy as np
import scipy.stats

from teardown_app.metrology import cut_off as drawing
from teardown_app.metrology import texture_acceptance as accept
from tests.metrology.witness import Witness

EASY, GUIDE, MEMORY = "roughness tester manual, table p. 14-5", "Swedish guide to ISO 21920", "from memory"
OLD = "ISO 4288"
VERDICTS = ("reject", "read more", "accept")


def _cut_offs(limits, parameter="Ra", standard="ISO 21920-3"):
    return [drawing.cut_off_for_limit(one, parameter, standard).cut_off for one in limits]


def _places(found):
    return [VERDICTS.index(one.verdict) for one in found]


def _digitized(limits):
    """Cut-off as counted by the borders that lie below, in whole borders of the Ra column."""
    return np.array([0.08, 0.25, 0.8, 2.5, 8.0])[np.digitize(limits, [0.02, 0.1, 2.0, 10.0], right=True)]


def _normal(count, limit_at):
    """Even quantiles of a normal distribution about 1, limit `limit_at` standard deviations of 0.1 over the mean."""
    return 1 + 0.1 * scipy.stats.norm.ppf((np.arange(count) + 0.5) / count), 1 + 0.1 * limit_at


def _naive_stop(values, limit):
    """The stages as they are told, one sentence after the other."""
    over = [value > limit for value in values]
    if values[0] <= 0.7 * limit or (len(over) >= 3 and sum(over[:3]) == 0):
        return 2
    if (len(over) >= 6 and sum(over[:6]) <= 1) or (len(over) >= 12 and sum(over[:12]) <= 2):
        return 2
    return 0 if sum(over[:12]) > 2 else 1


ROWS = np.random.default_rng(4).normal(0.36, 0.05, (400, 12)).clip(0.1)
LENGTHS = np.random.default_rng(5).integers(1, 13, 400)
CASES = [row[:length] for row, length in zip(ROWS, LENGTHS, strict=True)]

WITNESSES: list[Witness] = [
    Witness("cut_off.cut_off_for_limit", f"{EASY}: Ra column",
            lambda: _cut_offs([0.02, 0.1, 2, 10, 80], "Ra", OLD),
            [0.08, 0.25, 0.8, 2.5, 8], 0, absolute=True),
    Witness("cut_off.cut_off_for_limit", "ISO 4288 check cases: Ra 0.38, 0.10, 0.101",
            lambda: [one for limit in (0.38, 0.10, 0.101)
                     for one in drawing.cut_off_for_limit(limit, "Ra", OLD)[::2]],
            [0.8, 4, 0.25, 1.25, 0.8, 4], 0, absolute=True),
    Witness("cut_off.cut_off_for_limit", f"{MEMORY}: Rz column of ISO 4288",
            lambda: _cut_offs([0.1, 0.11, 0.5, 0.51, 10, 12, 50, 51, 200], "Rz", OLD),
            [0.08, 0.25, 0.25, 0.8, 0.8, 2.5, 2.5, 8, 8], 0, absolute=True),
    Witness("cut_off.cut_off_for_limit", f"{GUIDE}: Ra and Rz",
            lambda: _cut_offs([0.02, 0.1, 2, 10, 11]) + _cut_offs([0.16, 0.8, 12, 16, 80, 81], "Rz"),
            [0.08, 0.25, 0.8, 2.5, 8, 0.08, 0.25, 0.8, 0.8, 2.5, 8], 0, absolute=True),
    Witness("cut_off.cut_off_for_limit", "numpy.digitize over the Ra borders",
            lambda: _cut_offs(np.geomspace(1e-3, 79, 300)),
            lambda: _digitized(np.geomspace(1e-3, 79, 300)), 0, absolute=True),
    Witness("cut_off.cut_off_for_spacing", "ISO 4288:1996, RSm column as published",
            lambda: [drawing.cut_off_for_spacing(one).cut_off
                     for one in (0.0131, 0.04, 0.041, 0.13, 0.131, 0.4, 0.41, 1.3, 1.31, 4)],
            [0.08, 0.08, 0.25, 0.25, 0.8, 0.8, 2.5, 2.5, 8, 8], 0, absolute=True),
    Witness("cut_off.cut_off_for_spacing", "numpy.searchsorted over the RSm borders",
            lambda: [drawing.cut_off_for_spacing(one).cut_off for one in np.geomspace(0.01301, 4, 200)],
            lambda: np.array([0.08, 0.25, 0.8, 2.5, 8])[np.searchsorted([0.04, 0.13, 0.4, 1.3],
                                                                        np.geomspace(0.01301, 4, 200))],
            0, absolute=True),
    Witness("cut_off.stylus_for", "ISO 3274, table as published (studylib 18091676)",
            lambda: [value for cut in (0.08, 0.25, 0.8, 2.5, 8) for value in drawing.stylus_for(cut)[:3]]
            + [drawing.stylus_for(0.8, 3.1).tip_radius, drawing.stylus_for(0.8, 3.0).tip_radius],
            [2.5, 30, 2, 2.5, 100, 2, 2.5, 300, 2, 8, 300, 5, 25, 300, 10, 5, 2], 0, absolute=True),
    Witness("cut_off.stylus_for", f"{MEMORY}: largest sampling step",
            lambda: [drawing.stylus_for(cut).step for cut in (0.08, 0.25, 0.8, 2.5, 8)], [0.5, 0.5, 0.5, 1.5, 5], 0,
            absolute=True),
    Witness("cut_off.stylus_for", "closed form: ratio is cut-off over short-wave cut-off, to the rounding of the table",
            lambda: [drawing.stylus_for(cut).ratio * drawing.stylus_for(cut).short_wave / 1000
                     for cut in (0.08, 0.25, 0.8, 2.5, 8)], [0.08, 0.25, 0.8, 2.5, 8], 0.07),

    Witness("texture_acceptance.maximum_rule", f"check cases, limit 0.40; {MEMORY}",
            lambda: _places([accept.maximum_rule([0.35, 0.38, 0.39], 0.40), accept.maximum_rule([0.40], 0.40),
                             accept.maximum_rule([0.35, 0.38, 0.39, 0.43, 0.36, 0.31], 0.40)]), [2, 2, 0], 0,
            absolute=True),
    Witness("texture_acceptance.maximum_rule", "numpy: the largest against the limit",
            lambda: _places([accept.maximum_rule(one, 0.4) for one in CASES]),
            lambda: [2 * (np.max(one) <= 0.4) for one in CASES], 0, absolute=True),
    Witness("texture_acceptance.sixteen_percent_rule", "normal readings: 16 % is the mean plus one standard deviation",
            lambda: _places([accept.sixteen_percent_rule(*_normal(2000, z)) for z in (0.9, 0.99, 1.0, 1.1)]),
            [0, 0, 2, 2], 0, absolute=True),
    Witness("texture_acceptance.sixteen_percent_rule", "scipy.stats.norm: share over the limit",
            lambda: [accept.sixteen_percent_rule(*_normal(20_000, z)).share for z in (0.5, 1.0, 2.0)],
            lambda: scipy.stats.norm.sf([0.5, 1.0, 2.0]), 1e-4),
    Witness("texture_acceptance.sixteen_percent_rule", "plain share, ISO 4288:1996 (studylib 18091676)",
            lambda: _places([accept.sixteen_percent_rule([0.3] * 21 + [0.5] * 4, 0.4),
                             accept.sixteen_percent_rule([0.3] * 20 + [0.5] * 4, 0.4)]), [2, 0], 0, absolute=True),
    Witness("texture_acceptance.stop_rule", f"check cases, limit 0.40; {MEMORY}",
            lambda: _places([accept.stop_rule([0.27], 0.40), accept.stop_rule([0.28], 0.40),
                             accept.stop_rule([0.35, 0.38, 0.39], 0.40), accept.stop_rule([0.29], 0.40),
                             accept.stop_rule([0.35, 0.38, 0.43, 0.36, 0.31, 0.39], 0.40)]), [2, 2, 2, 1, 2], 0,
            absolute=True),
    Witness("texture_acceptance.stop_rule", "the four stages written out one by one, 400 rows of readings",
            lambda: _places([accept.stop_rule(one, 0.4) for one in CASES]),
            lambda: [_naive_stop(one, 0.4) for one in CASES], 0, absolute=True),
]  # fmt: skip
