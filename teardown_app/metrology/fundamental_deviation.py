"""Fundamental deviations: where a tolerance class lies, by its letter."""

from __future__ import annotations

from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.standard_tolerance import TOLERANCE_UM, _grade, _range

BELOW_UM = {
    "d": (20, 30, 40, 50, 65, 80, 100, 120, 145, 170, 190, 210, 230),
    "e": (14, 20, 25, 32, 40, 50, 60, 72, 85, 100, 110, 125, 135),
    "f": (6, 10, 13, 16, 20, 25, 30, 36, 43, 50, 56, 62, 68),
    "g": (2, 4, 5, 6, 7, 9, 10, 12, 14, 15, 17, 18, 20),
    "h": (0,) * 13,
}
"""How far the upper deviation of a shaft lies below nominal, for each range of size; holes lie above by as much."""
ABOVE_UM = {
    "k": (0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5),
    "m": (2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23),
    "n": (4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40),
    "p": (6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68),
}
"""How far the lower deviation of a shaft lies above nominal, k in grades 4 to 7."""
SHAFTS = (*BELOW_UM, "js", *ABOVE_UM)
LETTERS = (*(letter.upper() for letter in SHAFTS), *SHAFTS)
"""Those that are known: capitals for holes, small ones for shafts."""
LARGEST_GRADE = {"K": 8, "M": 8}
"""Where it is not 11."""
_HIGHEST_WITH_DELTA = {"K": 8, "M": 8, "N": 8, "P": 7}


def fundamental_deviation(nominal: float, letter: str, grade: int) -> float:
    """The deviation in mm that a letter fixes, ISO 286-1. The other one is a standard tolerance away.

    Shafts d to h: upper deviation, 0 or below. Shafts k to p: lower deviation, 0 or above; k is 0 to 3 mm and above
    grade 7. Holes D to H: lower deviation, the shaft's with the sign changed. js, JS: the lower one, -IT / 2.
    Holes K, M, N to grade 8 and P to grade 7: upper deviation, the shaft's with the sign changed, plus
    Delta = IT(grade) - IT(grade - 1) above 3 mm. P above grade 7: without Delta. N above grade 8: 0, to 3 mm -0.004.
    M6 above 250 to 315 mm is -0.009, an exception to the rule.

    `nominal` above 0 to 500 mm, `letter` of `LETTERS`, `grade` 5 to 11, K and M to 8; N above grade 8 not to 1 mm.
    Else `BadInput`.

    >>> fundamental_deviation(20, "g", 6), fundamental_deviation(25, "k", 6), fundamental_deviation(20, "P", 7)
    (-0.007, 0.002, -0.014)
    """
    place = _range(nominal)
    if letter not in LETTERS:
        raise BadInput("letter", letter, " ".join(LETTERS))
    _grade(grade, LARGEST_GRADE.get(letter, 11))
    if grade < 5:
        raise BadInput("grade", grade, "5 or more")
    if letter in ("js", "JS"):
        return -TOLERANCE_UM[grade][place] / 2000
    if letter.isupper():
        return _hole(nominal, letter, grade, place) / 1000
    if letter in BELOW_UM:
        return -BELOW_UM[letter][place] / 1000
    return (0 if letter == "k" and grade > 7 else ABOVE_UM[letter][place]) / 1000


def _hole(nominal: float, letter: str, grade: int, place: int) -> int:
    """Deviation of a hole in um."""
    if letter.lower() in BELOW_UM:
        return BELOW_UM[letter.lower()][place]
    if letter == "N" and grade > 8:
        if nominal <= 1:
            raise BadInput("grade", grade, "N 5 to 8 to 1 mm nominal")
        return 0 if place else -ABOVE_UM["n"][0]
    if letter == "M" and grade == 6 and place == 10:
        return -9
    with_delta = place > 0 and grade <= _HIGHEST_WITH_DELTA[letter]
    delta = TOLERANCE_UM[grade][place] - TOLERANCE_UM[grade - 1][place] if with_delta else 0
    return delta - ABOVE_UM[letter.lower()][place]
