"""Kinds of measurement with resistance thermometers: platinum and NTC."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from teardown_app.metrology import ntc, pt100, steinhart_hart
from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.kind import CHOICE, Field, Kind, Result, Value

LAST_DIGITS = 1e-9
"""K by which a deviation may pass the tolerance: last digits of the computation."""
FAR_FROM_NOMINAL = 50.0
"""K from the nominal point beyond which the beta equation is a rough one."""
ROUGH = "Far from the nominal point the beta equation may be out by kelvins; use the maker's table."
Coefficients = tuple[float | None, float | None, float | None]
Curve = Callable[[Any], float]


def deviation(found: float, reference: float | None) -> float | None:
    """Temperature found less that of the reference thermometer, K; None where there is no reference."""
    return None if reference is None else found - number("reference", reference, "above -273.15 degC", above=-273.15)


def one_of(**given: float | None) -> str:
    """Name of the field that was given, where exactly one of several has to be."""
    there = [name for name, value in given.items() if value is not None]
    if len(there) != 1:
        field = there[1] if there else next(iter(given))
        raise BadInput(field, "beside " + there[0] if there else "missing", "either " + " or ".join(given))
    return there[0]


def _pt100(resistance: float | None = None, temperature: float | None = None, r0: float = 100.0,
           lead_resistance: float = 0.0, reference: float | None = None, tolerance_class: str | None = None,
           construction: str | None = None) -> Result:  # fmt: skip
    found, ohms = _platinum(resistance, temperature, r0, lead_resistance)
    at = found if reference is None else number("reference", reference, "-200 to 850 degC", low=-200, high=850)
    away = deviation(found, reference)
    if tolerance_class is None and construction is not None:
        raise BadInput("tolerance_class", "missing", "needed with construction")
    allowed = None if tolerance_class is None else pt100.tolerance(at, tolerance_class)
    in_ohm = None if tolerance_class is None else pt100.tolerance_ohm(at, tolerance_class, r0=r0)
    notes, holds = ["Curve of IEC 60751, alpha 0.00385; other platinum has another."], True
    if tolerance_class is not None:
        said, holds = _class_range(tolerance_class, construction, at)
        notes.append(said)
    verdict = _verdict(away, allowed, holds)
    if verdict == "reject":
        notes.append(f"Outside class {tolerance_class}.")
    return Result((
        Value("temperature", found, "degC"),
        Value("resistance", ohms, "ohm", "without leads"),
        Value("deviation", away, "K", "from the reference thermometer"),
        Value("tolerance", allowed, "K", "of the class, either way"),
        Value("tolerance_ohm", in_ohm, "ohm", "of the class, either way"),
    ), tuple(notes), verdict)  # fmt: skip


def _platinum(resistance: float | None, temperature: float | None, r0: float, leads: float) -> tuple[float, float]:
    """Temperature and resistance, from the one that was read."""
    one_of(resistance=resistance, temperature=temperature)
    leads = number("lead_resistance", leads, "0 ohm or above", low=0)
    if temperature is not None:
        if leads:
            raise BadInput("lead_resistance", leads, "only with resistance")
        return temperature, pt100.resistance(temperature, r0=r0)
    read = number("resistance", resistance or 0.0, "above 0 ohm", above=0)
    if leads >= read:
        raise BadInput("lead_resistance", leads, f"below the reading, {read:g} ohm")
    return pt100.temperature(read - leads, r0=r0), read - leads


def _class_range(tolerance_class: str, construction: str | None, at: float) -> tuple[str, bool]:
    """What there is to say of the range in which the class holds, and False where it does not hold."""
    ranges = pt100.CLASS_RANGES_C
    if construction is not None and construction not in ranges:
        raise BadInput("construction", construction, " or ".join(ranges))
    asked = {name: one[tolerance_class] for name, one in ranges.items() if construction in (None, name)}
    told = [f"{name} from {low:g} to {high:g} degC" for name, (low, high) in asked.items()]
    holds = any(low <= at <= high for low, high in asked.values())
    outside = "" if holds else f" Not at {at:g} degC: the class says nothing there."
    return f"Class {tolerance_class} holds {', '.join(told)}: verify against your copy of the standard.{outside}", holds


def _verdict(away: float | None, allowed: float | None, holds: bool) -> str:
    if away is None or allowed is None:
        return ""
    if not holds:
        return "inconclusive"
    return "accept" if abs(away) <= allowed + LAST_DIGITS else "reject"


def _ntc(resistance: float | None = None, temperature: float | None = None, nominal: float | None = None,
         beta: float | None = None, nominal_temperature: float = ntc.NOMINAL_C, a: float | None = None,
         b: float | None = None, c: float | None = None, reference: float | None = None) -> Result:  # fmt: skip
    one_of(resistance=resistance, temperature=temperature)
    to_degrees, to_ohm = _curve(nominal, beta, nominal_temperature, (a, b, c))
    if temperature is None:
        temperature = to_degrees(resistance)
    else:
        resistance = to_ohm(temperature)
    far = beta is not None and abs(temperature - nominal_temperature) > FAR_FROM_NOMINAL
    return Result((
        Value("temperature", temperature, "degC"),
        Value("resistance", resistance, "ohm"),
        Value("deviation", deviation(temperature, reference), "K", "from the reference thermometer"),
    ), (ROUGH,) * far)  # fmt: skip


def _curve(nominal: float | None, beta: float | None, at: float, three: Coefficients) -> tuple[Curve, Curve]:
    """Temperature of a resistance and resistance of a temperature, by beta or by three coefficients."""
    if one_of(beta=beta, a=three[0]) == "beta":
        if nominal is None:
            raise BadInput("nominal", "missing", "needed with beta")
        known: dict[str, Any] = {"nominal": nominal, "beta": beta, "nominal_temperature": at}
        return partial(ntc.temperature, **known), partial(ntc.resistance, **known)
    for field, value in zip("bc", three[1:], strict=True):
        if value is None:
            raise BadInput(field, "missing", "a, b and c together")
    of_three: dict[str, Any] = dict(zip("abc", three, strict=True))
    return partial(steinhart_hart.temperature, **of_three), partial(steinhart_hart.resistance, **of_three)


REFERENCE = Field("reference", "Temperature by the reference thermometer.", "degC", allowed="above -273.15",
                  optional=True)  # fmt: skip
TEMPERATURE = Field("temperature", "Temperature, where its reading is wanted or an indicator shows it.", "degC",
                    optional=True)  # fmt: skip
KINDS: tuple[Kind, ...] = (
    Kind("pt100", "Platinum resistance thermometer: resistance to temperature, or the other way; class.", "IEC 60751", (
        Field("resistance", "Resistance as read.", "ohm", allowed="ohms that -200 to 850 degC come to", optional=True),
        TEMPERATURE._replace(allowed="-200 to 850"),
        Field("r0", "Resistance at 0 degC: 100 for Pt100, 1000 for Pt1000.", "ohm", allowed="above 0", default=100.0),
        Field("lead_resistance", "Of both leads together, two-wire connection.", "ohm", allowed="0 or above",
              default=0.0),
        REFERENCE,
        Field("tolerance_class", "Tolerance class.", form=CHOICE, choices=tuple(pt100.TOLERANCES), optional=True),
        Field("construction", "Kind of thermometer, for the range in which its class holds.", form=CHOICE,
              choices=tuple(pt100.CLASS_RANGES_C), optional=True),
    ), _pt100, {"resistance": 138.61, "reference": 100, "tolerance_class": "A"}, "deviation"),
    Kind("ntc", "NTC thermistor: resistance to temperature, or the other way.", "beta equation; Steinhart-Hart", (
        Field("resistance", "Resistance as read.", "ohm", allowed="above 0", optional=True),
        TEMPERATURE._replace(allowed="-100 to 400"),
        Field("nominal", "Nominal resistance.", "ohm", allowed="above 0 ohm; needed with beta", optional=True),
        Field("beta", "Beta value of the maker, such as B25/85.", "K", allowed="500 to 10000", optional=True),
        Field("nominal_temperature", "Temperature of the nominal resistance.", "degC", allowed="-100 to 400",
              default=ntc.NOMINAL_C),
        Field("a", "Steinhart-Hart, in place of beta.", "1/K", allowed="-0.01 to 0.01", optional=True),
        Field("b", "Steinhart-Hart.", "1/K", allowed="5e-5 to 0.01", optional=True),
        Field("c", "Steinhart-Hart.", "1/K", allowed="0 to 1e-4", optional=True),
        REFERENCE,
    ), _ntc, {"resistance": 3588.18, "nominal": 10000, "beta": 3950, "reference": 50}, "deviation"),
)  # fmt: skip
