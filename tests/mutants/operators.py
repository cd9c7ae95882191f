"""Single changes that are made to a line: those of cosmic-ray that say something here, and our own.

Left out of cosmic-ray's are those that mostly make code that says the same (`==` for `is`, a taken-away cache) or that
nothing could overlook (`+` made `<<`).
"""

from __future__ import annotations

from typing import Any

import parso
from cosmic_ray.operators.operator import Operator
from cosmic_ray.operators.provider import OperatorProvider

from tests.mutants.own_operators import OWN

COMPARED = ("Eq_NotEq", "NotEq_Eq", "Lt_LtE", "LtE_Lt", "Gt_GtE", "GtE_Gt", "Lt_Gt", "Gt_Lt", "Is_IsNot", "IsNot_Is")
COUNTED = ("Add_Sub", "Sub_Add", "Mul_Div", "Div_Mul", "FloorDiv_Mul", "Pow_Mul", "BitOr_BitAnd", "BitAnd_BitOr")
TAKEN = (
    "AddNot",
    "ReplaceTrueWithFalse",
    "ReplaceFalseWithTrue",
    "ReplaceAndWithOr",
    "ReplaceOrWithAnd",
    "ReplaceBreakWithContinue",
    "ReplaceContinueWithBreak",
    "ExceptionReplacer",
    "NumberReplacer",
    "ZeroIterationForLoop",
    "ReplaceUnaryOperator_Delete_Not",
    "ReplaceUnaryOperator_USub_UAdd",
    *(f"ReplaceComparisonOperator_{one}" for one in COMPARED),
    *(f"ReplaceBinaryOperator_{one}" for one in COUNTED),
)
"""Names of cosmic-ray's operators that are used."""


def operators() -> dict[str, Operator]:
    """All that are used, by name."""
    theirs = OperatorProvider()
    return {name: theirs[name]() for name in TAKEN} | {name: made() for name, made in OWN.items()}


def parsed(code: str) -> Any:
    """The tree of a file, as the operators want it."""
    return parso.parse(code)
