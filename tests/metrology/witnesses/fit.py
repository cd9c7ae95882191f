"""Witnesses for tolerance classes: printed standard tolerances and fundamental deviations, and the rules behind them.

Limit deviations of whole classes stand in `fit_pages`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import product

from teardown_app.metrology.fit_class import deviations, interference
from teardown_app.metrology.fundamental_deviation import fundamental_deviation
from teardown_app.metrology.standard_tolerance import ENDS_MM, standard_tolerance
from tests.metrology.witness import Witness

TOLERANCE, DEVIATION = "standard_tolerance.standard_tolerance", "fundamental_deviation.fundamental_deviation"
TOLERANCES = {
    "Machine Drawing (Narayana, Kannaiah, Venkata Reddy), table 15.1, p. 213": (range(4, 12), """3 4 6 10 14 25 40 60
4 5 8 12 18 30 48 75
4 6 9 15 22 36 58 90
5 8 11 18 27 43 70 110
6 9 13 21 33 52 84 130
7 11 16 25 39 62 100 160
8 13 19 30 46 74 120 190
10 15 22 35 54 87 140 220
12 18 25 40 63 100 160 250
14 20 29 46 72 115 185 290
16 23 32 52 81 130 210 320
18 25 36 57 89 140 230 360
20 27 40 63 97 155 250 400"""),
    "mechguru.com, DIN ISO 286 standard tolerances": (range(5, 12), """4 6 10 14 25 40 60
5 8 12 18 30 48 75
6 9 15 22 36 58 90
8 11 18 27 43 70 110
9 13 21 33 52 84 130
11 16 25 39 62 100 160
13 19 30 46 74 120 190
15 22 35 54 87 140 220
18 25 40 63 100 160 250
20 29 46 72 115 185 290
23 32 52 81 130 210 320
25 36 57 89 140 230 360
27 40 63 97 155 250 400"""),
}  # fmt: skip
"""In um, a row for each range of size, a column for each grade."""
LETTERS = {
    "ZCC cutting tools, basic deviations of shafts, p. 256": (13, {
        "d": "20 30 40 50 65 80 100 120 145 170 190 210 230", "e": "14 20 25 32 40 50 60 72 85 100 110 125 135",
        "f": "6 10 13 16 20 25 30 36 43 50 56 62 68", "g": "2 4 5 6 7 9 10 12 14 15 17 18 20",
        "h": "0 0 0 0 0 0 0 0 0 0 0 0 0"}),
    "Machine Drawing, table 15.2, pp. 215 and 216": (9, {
        "m": "2 4 6 7 8 9 11 13 15", "n": "4 8 10 12 15 17 20 23 27", "p": "6 12 15 18 22 26 32 37 43"}),
    "mechguru.com, fundamental deviations of shafts": (10, {
        "d": "20 30 40 50 65 80 100 120 145 170", "e": "14 20 25 32 40 50 60 72 85 100",
        "f": "6 10 13 16 20 25 30 36 43 50", "k": "0 1 1 1 2 2 2 3 3 4", "m": "2 4 6 7 8 9 11 13 15 17",
        "n": "4 8 10 12 15 17 20 23 27 31", "p": "6 12 15 18 22 26 32 37 43 50"}),
}  # fmt: skip
"""Shafts, how far from nominal in um, for the first so many ranges of size."""
LARGE = (180.5, 300.0, 400.0, 500.0)
MEANS = [math.sqrt(low * high) for low, high in zip((1, *ENDS_MM), ENDS_MM, strict=False)]
GRADES = {5: 7, 6: 10, 7: 16, 8: 25, 9: 40, 10: 64, 11: 100}
POWERS = {"d": (16, 0.44), "e": (11, 0.41), "f": (5.5, 0.41), "g": (2.5, 0.34), "n": (5, 0.34)}


def tolerances(source: str, grades: range, table: str) -> Witness:
    """A printed table of standard tolerances, in the order of the page."""
    return Witness(TOLERANCE, source,
                   lambda: [standard_tolerance(end, grade) * 1e3 for end in ENDS_MM for grade in grades],
                   [float(one) for one in table.split()], 1e-9)  # fmt: skip


def letters(source: str, count: int, table: dict[str, str]) -> Witness:
    """A printed table of deviations without sign, ours in grade 6."""
    return Witness(DEVIATION, source,
                   lambda: [abs(fundamental_deviation(end, one, 6)) * 1e3 for one in table for end in ENDS_MM[:count]],
                   [float(one) for row in table.values() for one in row.split()], 1e-9)  # fmt: skip


def over_units(first: int, last: int) -> list[float]:
    """Tolerance by a times the tolerance unit i, over ranges and grades."""
    ranges = list(zip(ENDS_MM, MEANS, strict=True))[first:last]
    return [standard_tolerance(end, grade) * 1e3 / (a * (0.45 * mean ** (1 / 3) + 0.001 * mean))
            for end, mean in ranges for grade, a in GRADES.items()]  # fmt: skip


def over_powers(first: int) -> list[float]:
    """Deviation by its formula, over letters and ranges."""
    return [abs(fundamental_deviation(end, letter, 6)) * 1e3 / (factor * mean**power)
            for end, mean in list(zip(ENDS_MM, MEANS, strict=True))[first:]
            for letter, (factor, power) in POWERS.items()]  # fmt: skip


def large(letter: str, grade: int, said: Sequence[float], why: str = "") -> Witness:
    """A row of the book's tables 15.2 (shafts) and 15.3 (holes), in um, in the larger ranges."""

    def ours() -> list[float]:
        return [fundamental_deviation(size, letter, grade) * 1e3 for size in LARGE]

    table = "15.3" if letter.isupper() else "15.2"
    return Witness(DEVIATION, f"Machine Drawing, table {table}, {letter}{grade}{why}", ours, said, 1e-9, absolute=True)


def ruled(letter: str, grade: int) -> Witness:
    """The same by the book's rule: printed Delta less printed deviation."""
    return large(letter, grade, [d - far for d, far in zip(DELTAS[grade], RULED[letter], strict=True)])


def mating(source: str, asked: tuple[float, str, str], said: tuple[float, float]) -> Witness:
    """Least and largest clearance in mm."""
    return Witness("fit_class.interference", source, lambda: interference(*asked)[:2], said, 1e-9, True)


def worked(source: str, case: str, said: tuple[float, float]) -> Witness:
    """Lower and upper deviation in mm."""
    nominal, fit = case.split()
    return Witness("fit_class.deviations", f"{source}: {case}", lambda: deviations(float(nominal), fit)[:2], said,
                   1e-9, True)  # fmt: skip


def above_seven() -> list[float]:
    """p by IT7, m by IT7 - IT6, as differences in um."""
    ranges = [(end, [standard_tolerance(end, grade) for grade in (6, 7)]) for end in ENDS_MM[1:]]
    return [(fundamental_deviation(end, "m", 6) - (seven - six)) * 1e3 for end, (six, seven) in ranges] + [
        (fundamental_deviation(end, "p", 6) - seven) * 1e3 - 2.5 for end, (_, seven) in ranges]  # fmt: skip


DELTAS = {5: (6, 7, 7, 7), 6: (9, 9, 11, 13), 7: (17, 20, 21, 23), 8: (26, 29, 32, 34)}
"""Machine Drawing, table 15.3, p. 221, by grade: ranges from 180 mm on."""
RULED = {"K": (4, 4, 4, 5), "M": (17, 20, 21, 23), "N": (31, 34, 37, 40), "P": (50, 56, 62, 68)}
"""Same book, pp. 219 and 221, without sign."""
CLEARANCES = (
    ("DME, metric tolerances, table 8, worked 60 H7/k6", (60, "H7", "k6"), (-0.021, 0.028)),
    ("byjus.com, 64 H8/f7 by the formulas", (64, "H8", "f7"), (0.030, 0.106)),
    ("from memory: 20 H7/g6", (20, "H7", "g6"), (0.007, 0.041)),
    ("Machinery's Handbook: H7/p6 is a transition fit to 3 mm, deviations by JIS B 0401", (3, "H7", "p6"),
     (-0.012, 0.004)),
)  # fmt: skip
WORKED = (
    ("elesa-ganter, DIN ISO 286, example", "20 H7", (0, 0.021)),
    ("elesa-ganter, DIN ISO 286, example", "8 H11", (0, 0.090)),
    ("from memory", "20 g6", (-0.020, -0.007)), ("from memory", "50 H7", (0, 0.025)),
    ("from memory", "50 f7", (-0.050, -0.025)), ("from memory", "25 k6", (0.002, 0.015)),
    ("from memory", "80 H7", (0, 0.030)),
)  # fmt: skip
BOOK = "Machine Drawing, table 15.4: "
WITNESSES: list[Witness] = [
    *(tolerances(source, *table) for source, table in TOLERANCES.items()),
    Witness(TOLERANCE, "a (0.45 D^(1/3) + 0.001 D), above 10 mm: rounded within 6 %", lambda: over_units(3, 13),
            [1.0] * 70, 0.06),
    Witness(TOLERANCE, "a (0.45 D^(1/3) + 0.001 D), to 10 mm: rounded within 16 %", lambda: over_units(0, 3),
            [1.0] * 21, 0.16),
    *(letters(source, *table) for source, table in LETTERS.items()),
    Witness(DEVIATION, BOOK + "powers of D, above 3 mm, rounded within 4.5 %", lambda: over_powers(1), [1.0] * 60,
            0.045),
    Witness(DEVIATION, BOOK + "m = IT7 - IT6, p = IT7 + 0 to 5", above_seven, [0.0] * 24, 2.5 + 1e-9, True),
    *(ruled(letter, grade) for letter, grade in product(RULED, DELTAS) if letter + str(grade) not in ("M6", "P8")),
    large("M", 6, [-8, -9, -10, -10], ": -9, not -11, to 315 mm"),
    large("P", 8, [-50, -56, -62, -68], ": no Delta above grade 7"),
    large("N", 9, [0, 0, 0, 0], ": 0 above grade 8"),
    large("k", 6, [4, 4, 4, 5]),
    large("k", 8, [0, 0, 0, 0], ": 0 above grade 7"),
    *(mating(*one) for one in CLEARANCES),
    *(worked(*one) for one in WORKED),
]  # fmt: skip
