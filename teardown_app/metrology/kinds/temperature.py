"""Kinds of measurement of temperature: platinum, NTC, and thermocouples."""

from __future__ import annotations

from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import CHOICE, Field, Kind, Result, Value
from teardown_app.metrology.kinds import thermometer
from teardown_app.metrology.kinds.thermometer import REFERENCE, TEMPERATURE, deviation, one_of
from teardown_app.metrology.thermocouple import LETTERS, RANGES_C, emf
from teardown_app.metrology.thermocouple import temperature as temperature_of

USUAL_JUNCTION_C = (-20.0, 85.0)
COLD_C = -200.0
"""Below it a microvolt is a large part of a kelvin."""


def _thermocouple(type: str, voltage: float | None = None, temperature: float | None = None, junction: float = 0.0,
                  reference: float | None = None) -> Result:  # fmt: skip
    if type not in LETTERS:
        raise BadInput("type", type, ", ".join(LETTERS))
    one_of(voltage=voltage, temperature=temperature)
    if voltage is not None:
        temperature = temperature_of(type, voltage, junction=junction)
    else:
        voltage = emf(type, temperature or 0.0, junction=junction)
    low, high = USUAL_JUNCTION_C
    at = temperature or 0.0
    said = (
        (junction == 0, "Cold junction taken at 0 degC: ice bath, or the instrument compensates."),
        (not low <= junction <= high, f"The cold junction is not between {low:g} and {high:g} degC: check it."),
        (at < COLD_C, f"Below {COLD_C:g} degC the voltage hardly changes with temperature: small errors weigh much."),
    )
    return Result((
        Value("temperature", temperature, "degC"),
        Value("voltage", voltage, "mV", "at the instrument"),
        Value("voltage_from_ice", emf(type, at), "mV", "against a cold junction at 0 degC"),
        Value("deviation", deviation(at, reference), "K", "from the reference thermometer"),
    ), tuple(note for holds, note in said if holds))  # fmt: skip


_SPAN = "; ".join(f"{letter} {low:g} to {high:g}" for letter, (low, high) in RANGES_C.items())
KINDS: tuple[Kind, ...] = (
    *thermometer.KINDS,
    Kind("thermocouple", "Thermocouple: voltage to temperature, or the other way, cold junction taken in.",
         "ITS-90, NIST Monograph 175; IEC 60584-1", (
        Field("type", "Letter of the thermocouple.", form=CHOICE, choices=LETTERS),
        Field("voltage", "Voltage as read, not compensated unless junction is 0.", "mV",
              allowed="mV within the range of the type", optional=True),
        TEMPERATURE._replace(allowed=_SPAN),
        Field("junction", "Temperature where the wires meet the instrument.", "degC", allowed=_SPAN, default=0.0),
        REFERENCE,
    ), _thermocouple, {"type": "K", "voltage": 7.1383, "junction": 25, "reference": 200}, "deviation"),
)  # fmt: skip
