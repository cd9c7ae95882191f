"""The kind that gives the limits of a hole or shaft from its tolerance class, and judges a size by them."""

from __future__ import annotations

from teardown_app.metrology.decision import decide
from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.fit_class import KNOWN, Deviations, deviations, interference
from teardown_app.metrology.kind import TEXT, Field, Kind, Result, Value

AT_20 = "Limits of size hold at 20 °C (ISO 1); let part and instrument come to it."
HALVES = "Some tables round JS and js down to whole micrometres in grades 7 to 11; here it is the exact half."
MAY_BE_EITHER = "A transition fit: hole and shaft within their limits may have clearance or interference."


def _fit(nominal: float, fit: str, reading: float | None = None) -> Result:
    if not isinstance(fit, str):
        raise BadInput("fit", fit, f"text: {KNOWN}; or both of a fit, such as H7/g6")
    hole, slash, shaft = (part.strip() for part in fit.partition("/"))
    if not slash:
        return _one(nominal, hole, reading)
    if reading is not None:
        raise BadInput("reading", reading, f"with one class, {hole} or {shaft}: two classes have two pairs of limits")
    return _pair(nominal, hole, shaft)


def _one(nominal: float, fit: str, reading: float | None) -> Result:
    found = deviations(nominal, fit)
    values = _limits(found)
    notes = (AT_20, *((HALVES,) if _is_rounded_elsewhere(fit, found) else ()))
    if reading is None:
        return Result(values, notes)
    size = number("reading", reading, "above 0 mm", above=0)
    seen = decide(size, low=found.smallest, high=found.largest)
    margin = Value("margin", round(seen.margin, 9), "mm", "margin to the nearest limit; below 0 beyond it")
    return Result((*values, margin), (*notes, *seen.notes), seen.verdict)


def _pair(nominal: float, hole: str, shaft: str) -> Result:
    try:
        found = interference(nominal, hole, shaft)
    except BadInput as bad:
        if bad.field == "nominal":
            raise
        raise BadInput("fit", f"{hole}/{shaft}", f"hole/shaft, as H7/g6; for the {bad.field} {bad.allowed}") from None
    return Result((
        *_limits(deviations(nominal, hole), "hole_"),
        *_limits(deviations(nominal, shaft), "shaft_"),
        Value("least_clearance", found.least_clearance, "mm", "least clearance; below 0 interference"),
        Value("largest_clearance", found.largest_clearance, "mm", "largest clearance; below 0 interference"),
        Value("fit", found.fit, "", "kind of fit"),
    ), (AT_20, *((MAY_BE_EITHER,) if found.fit == "transition" else ())))  # fmt: skip


def _limits(found: Deviations, whose: str = "") -> tuple[Value, ...]:
    of = f" of the {whose[:-1]}" if whose else ""
    return (
        Value(f"{whose}lower_deviation", found.lower, "mm", f"lower deviation{of}"),
        Value(f"{whose}upper_deviation", found.upper, "mm", f"upper deviation{of}"),
        Value(f"{whose}smallest", found.smallest, "mm", f"lower limit of size{of}"),
        Value(f"{whose}largest", found.largest, "mm", f"upper limit of size{of}"),
    )


def _is_rounded_elsewhere(fit: str, found: Deviations) -> bool:
    """A half micrometre in a grade that some tables round."""
    return fit[:2] in ("JS", "js") and int(fit[2:]) >= 7 and round(found.upper * 1e4) % 10 == 5


KINDS: tuple[Kind, ...] = (
    Kind("fit", "Limits of size of a hole or shaft by its tolerance class, clearance of two classes.",
         "ISO 286-1, ISO 286-2", (
        Field("nominal", "Nominal size.", "mm", allowed="above 0 to 500"),
        Field("fit", "Tolerance class, H7 for a hole and g6 for a shaft, or both of a fit: H7/g6.", form=TEXT,
              allowed="holes D E F G H JS K M N P, shafts d e f g h js k m n p, grades 5 to 11; or hole/shaft"),
        Field("reading", "Size that was measured, where it is to be judged; with one class only.", "mm",
              allowed="above 0", optional=True),
    ), _fit, {"nominal": 20.0, "fit": "H7", "reading": 20.013}),
)  # fmt: skip
