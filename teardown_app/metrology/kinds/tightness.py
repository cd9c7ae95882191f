"""Kinds of measurement on leaks: pressure decay, what fall is allowed, units, another gas."""

from __future__ import annotations

from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.gas_leak import REGIMES, with_other_gas
from teardown_app.metrology.gases import GASES, Gas
from teardown_app.metrology.kind import CHOICE, Field, Kind, Result, Value
from teardown_app.metrology.leak import allowed_drop, pressure_decay, pressure_per_kelvin
from teardown_app.metrology.leak_unit import ATMOSPHERE, UNITS, convert

GAUGES = ("absolute", "gauge")
TESTS = ("decay", "rise")
LARGE_DROP = 0.1
"""Share of the start pressure above which one mean leak rate says little."""


def _pressure_decay(volume: float, start: float, end: float, duration: float, pressure_is: str = "absolute",
                    ambient: float | None = None, ambient_end: float | None = None,
                    temperature_start: float | None = None, temperature_end: float | None = None,
                    test: str = "decay", standard_temperature: float = 0.0) -> Result:  # fmt: skip
    _one_of("test", test, TESTS)
    if ambient_end is None:
        ambient_end = ambient
    first, last = _absolute("start", start, pressure_is, ambient), _absolute("end", end, pressure_is, ambient_end)
    found = pressure_decay(volume, first, last, duration, temperature_start=temperature_start,
                           temperature_end=temperature_end)  # fmt: skip
    sign = 1.0 if test == "decay" else -1.0
    leak = sign * found.compensated + 0.0
    per_kelvin = None
    if temperature_start is not None:
        per_kelvin = pressure_per_kelvin(first, temperature_start) * volume / duration
    standard = convert(leak, "mbar l/s", "sccm", gas_temperature=temperature_start,
                       standard_temperature=standard_temperature)  # fmt: skip
    notes = (
        (
            per_kelvin is None,
            "No temperatures given: a change of temperature counts as leak, or hides one; "
            "for sccm the gas is taken to be at the standard temperature.",
        ),
        (
            leak < 0,
            "The result has the wrong sign for this test: look for temperature, a supply valve, a stuck gauge. "
            "Hold it against a lower limit too.",
        ),
        (abs(first - last) > LARGE_DROP * first, "Pressure changed by more than a tenth: the rate is a mean."),
        (True, f"sccm at {standard_temperature:g} degC and 101325 Pa."),
    )
    return Result((
        Value("leak_rate", leak, "mbar l/s", "compensated to the temperature at the start"),
        Value("leak_rate_raw", sign * found.raw + 0.0, "mbar l/s", "without regard to temperature"),
        Value("leak_rate_si", convert(leak, "mbar l/s", "Pa m3/s"), "Pa m3/s"),
        Value("leak_rate_standard", standard, "sccm"),
        Value("per_kelvin", per_kelvin, "mbar l/s", "leak that 1 K unnoticed would feign or hide"),
    ), tuple(note for holds, note in notes if holds))  # fmt: skip


def _absolute(field: str, pressure: float, pressure_is: str, ambient: float | None) -> float:
    """Absolute pressure, mbar."""
    _one_of("pressure_is", pressure_is, GAUGES)
    if pressure_is == "absolute":
        return pressure
    if ambient is None:
        raise BadInput("ambient", "missing", "ambient pressure in mbar absolute, needed with gauge pressure")
    ambient = number("ambient", ambient, "500 to 1100 mbar absolute", low=500, high=1100)
    above_vacuum = f"above {-ambient:g} mbar gauge at this ambient pressure"
    return number(field, pressure, above_vacuum, above=-ambient) + ambient


def _allowed_drop(leak_rate: float, volume: float, duration: float, pressure: float, temperature: float = 20.0
                  ) -> Result:  # fmt: skip
    drop = allowed_drop(leak_rate, volume, duration)
    per_kelvin = pressure_per_kelvin(pressure, temperature)
    notes = ["Take a gauge that resolves a tenth of the allowed drop or less."]
    if per_kelvin > drop:
        notes.append("1 K weighs more than the allowed drop: measure the temperature, or take longer.")
    return Result((Value("drop", drop, "mbar", "fall of pressure at steady temperature"),
                   Value("per_kelvin", per_kelvin, "mbar/K", "change of pressure by 1 K")), tuple(notes))  # fmt: skip


def _leak_rate(rate: float, unit: str, gas_temperature: float | None = None, standard_temperature: float = 0.0,
               standard_pressure: float = ATMOSPHERE) -> Result:  # fmt: skip
    state = f"sccm and slm at {standard_temperature:g} degC and {standard_pressure:g} Pa"
    gas = "the same temperature" if gas_temperature is None else f"{gas_temperature:g} degC"
    values = (
        Value(name, convert(rate, unit, into, gas_temperature=gas_temperature,
                            standard_temperature=standard_temperature, standard_pressure=standard_pressure), into)
        for name, into in NAMES.items()
    )  # fmt: skip
    return Result(tuple(values), (f"{state}; pressure times volume of gas at {gas}.",))


NAMES = {"leak_rate": "Pa m3/s", "mbar_litres": "mbar l/s", "torr_litres": "Torr l/s", "atmosphere_cc": "atm cm3/s",
         "standard_cc": "sccm", "standard_litres": "slm", "amount": "mol/s", "molecules": "molecules/s"}  # fmt: skip


def _gas_leak(leak_rate: float, measured: str, wanted: str, regime: str) -> Result:
    found = with_other_gas(leak_rate, Gas.named(measured, "measured"), Gas.named(wanted, "wanted"), regime)
    factor = with_other_gas(1.0, Gas.named(measured), Gas.named(wanted), regime)
    return Result((Value("leak_rate", found, "mbar l/s", "with the wanted gas"), Value("factor", factor)), (
        f"Holds for {regime} flow, pure gases and the same pressures only; between the regimes neither rule does.",
        "Viscosities are those of gas near 20 degC.",
    ))  # fmt: skip


def _one_of(field: str, given: str, choices: tuple[str, ...]) -> None:
    if given not in choices:
        raise BadInput(field, given, " or ".join(choices))


_STANDARD = Field("standard_temperature", "Temperature that sccm is counted at.", "degC", allowed="above -273.15",
                  default=0.0)  # fmt: skip
KINDS: tuple[Kind, ...] = (
    Kind("pressure-decay", "Leak rate from the change of pressure in a shut vessel.", "Q = V dP / t, common practice", (
        Field("volume", "All that is shut in, with lines and gauge.", "l", allowed="above 0"),
        Field("start", "Pressure at the start.", "mbar"),
        Field("end", "Pressure at the end.", "mbar"),
        Field("duration", "Time between.", "s", allowed="above 0"),
        Field("pressure_is", "How the gauge reads.", form=CHOICE, choices=GAUGES, default="absolute"),
        Field("ambient", "Ambient pressure, for gauge readings.", "mbar", allowed="500 to 1100", optional=True),
        Field("ambient_end", "Ambient pressure at the end, where it changed.", "mbar", allowed="500 to 1100",
              optional=True),
        Field("temperature_start", "Temperature of the gas at the start.", "degC", optional=True),
        Field("temperature_end", "Temperature of the gas at the end.", "degC", optional=True),
        Field("test", "Fall of a pressure, or rise of a vacuum.", form=CHOICE, choices=TESTS, default="decay"),
        _STANDARD,
    ), _pressure_decay, {"volume": 1.5, "start": 3013.25, "end": 3008.25, "duration": 300, "temperature_start": 22,
                         "temperature_end": 22.5}, "leak_rate"),
    Kind("allowed-pressure-drop", "Fall of pressure that a leak rate makes in a test.",
         "dP = Q t / V, common practice", (
        Field("leak_rate", "Leak rate that is allowed.", "mbar l/s", allowed="0 or above"),
        Field("volume", "All that is shut in, with lines and gauge.", "l", allowed="above 0"),
        Field("duration", "Time of the test.", "s", allowed="above 0"),
        Field("pressure", "Test pressure, absolute.", "mbar", allowed="above 0"),
        Field("temperature", "Temperature of the gas.", "degC", default=20.0),
    ), _allowed_drop, {"leak_rate": 0.01, "volume": 5, "duration": 600, "pressure": 3000}),
    Kind("leak-rate", "A leak rate in all usual units.", "ideal gas", (
        Field("rate", "Leak rate.", unit_in="unit"),
        Field("unit", "Unit it stands in.", form=CHOICE, choices=UNITS),
        Field("gas_temperature", "Temperature of the gas for pressure times volume; left out: as sccm.", "degC",
              optional=True),
        _STANDARD,
        Field("standard_pressure", "Pressure that sccm is counted at.", "Pa", allowed="above 0", default=ATMOSPHERE),
    ), _leak_rate, {"rate": 1.0, "unit": "mbar l/s"}, "leak_rate"),
    Kind("gas-leak", "A leak rate measured with one gas, for another.", "viscous and molecular flow, common practice", (
        Field("leak_rate", "Leak rate as measured.", "mbar l/s", allowed="0 or above"),
        Field("measured", "Gas it was measured with.", form=CHOICE, choices=tuple(GASES)),
        Field("wanted", "Gas it is asked for.", form=CHOICE, choices=tuple(GASES)),
        Field("regime", "Viscous: large leaks; molecular: very small ones.", form=CHOICE, choices=REGIMES),
    ), _gas_leak, {"leak_rate": 1e-3, "measured": "helium", "wanted": "air", "regime": "viscous"}, "leak_rate"),
)  # fmt: skip
