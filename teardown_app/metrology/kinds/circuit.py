"""Kinds of measurement on conductors that carry current or fault current: protective bonding, heating elements."""

from __future__ import annotations

from teardown_app.metrology.bonding import COPPER, bonding_resistance, conductor_resistance
from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.heater import MINUS_PERCENT, PLUS_PERCENT, power_at, rating, resistance_band
from teardown_app.metrology.kind import Field, Kind, Result, Value

VERIFY = "verify against your copy of the standard."
TEST_CURRENT_A = (0.2, 10.0)
NEAR_LEADS = 0.5
"""Share of the reading that test leads may make up before the difference is doubtful."""


def _bonding(voltage: float | None = None, current: float | None = None, resistance: float | None = None,
             lead_resistance: float = 0.0, length: float | None = None, area: float | None = None,
             resistivity: float = COPPER) -> Result:  # fmt: skip
    volts, amperes = _read(voltage, current, resistance)
    found = bonding_resistance(volts, amperes, lead_resistance=lead_resistance)
    if (length is None) != (area is None):
        raise BadInput("length" if length is None else "area", "missing", "both of length and area, or neither")
    expected = None
    if length is not None and area is not None:
        expected = conductor_resistance(length, area, resistivity=resistivity)
    low, high = TEST_CURRENT_A
    said = (
        (True, "No single limit fits every conductor: the limit is the bill's, the maker's or the standard's."),
        (current is not None and not low <= current <= high, f"The test current is not between {low:g} and {high:g} A, "
         f"as IEC 60204-1 has it; {VERIFY}"),
        (volts > 0 and lead_resistance > NEAR_LEADS * volts / amperes, "The test leads make up most of the reading: "
         "use four wires."),
        (found == 0, "0 ohm: the leads do not touch, or the instrument is too coarse; read again with a finer one."),
        (expected is not None, "The expected value is of the conductor alone, at 20 degC, without clamps and screws."),
        (expected is not None and found < 0.9 * expected, "Below what the conductor alone should have: there may be a "
         "path beside it, or length, area or test leads are not as given."),
    )  # fmt: skip
    return Result((
        Value("resistance", found, "ohm"),
        Value("expected", expected, "ohm", "of the conductor alone"),
        Value("excess", None if expected is None else found - expected, "ohm", "above the conductor alone"),
    ), tuple(note for holds, note in said if holds), "" if found else "inconclusive")  # fmt: skip


def _read(voltage: float | None, current: float | None, resistance: float | None) -> tuple[float, float]:
    """Voltage and current as read; a tester that shows ohms stands for 1 A."""
    if resistance is None and voltage is not None and current is not None:
        return voltage, current
    if resistance is None or voltage is not None or current is not None:
        field = "current" if resistance is None and voltage is not None else "voltage"
        raise BadInput(field, "missing" if resistance is None else "beside resistance",
                       "voltage and current, or resistance alone")  # fmt: skip
    return number("resistance", resistance, "0 ohm or above", low=0), 1.0


def _heater(voltage: float, power: float, plus: float = PLUS_PERCENT, minus: float = MINUS_PERCENT,
            measured: float | None = None, hot_factor: float = 1.0, supply: float | None = None
            ) -> Result:  # fmt: skip
    rated, band = rating(voltage, power), resistance_band(voltage, power, plus=plus, minus=minus)
    factor = number("hot_factor", hot_factor, "0.5 to 20", low=0.5, high=20)
    hot = None if measured is None else factor * number("measured", measured, "above 0 ohm", above=0)
    inside = hot is not None and band.low * (1 - 1e-9) <= hot <= band.high * (1 + 1e-9)
    said = (
        (True, f"Tolerance of power +{plus:g} / -{minus:g} %: {VERIFY} One element; not terminals of star or delta."),
        (hot is not None and factor == 1, "The cold resistance is taken for the hot one; some alloys read lower cold: "
         "give hot_factor."),
    )  # fmt: skip
    return Result((
        Value("resistance", rated.resistance, "ohm", "hot, from the plate"),
        Value("current", rated.current, "A", "from the plate"),
        Value("resistance_low", band.low, "ohm", "at the highest power allowed"),
        Value("resistance_high", band.high, "ohm", "at the lowest power allowed"),
        Value("power_at_supply", None if supply is None else power_at(voltage, power, supply), "W", "from the plate"),
        Value("hot_resistance", hot, "ohm", "of what was measured"),
        Value("power", None if hot is None else voltage * voltage / hot, "W", "of what was measured"),
    ), tuple(note for holds, note in said if holds),
        "" if hot is None else "accept" if inside else "reject")  # fmt: skip


KINDS: tuple[Kind, ...] = (
    Kind("bonding", "Resistance of a protective bonding path.", "IEC 60204-1; R = U / I", (
        Field("voltage", "Voltage across the path while the test current flows.", "V", allowed="0 or above",
              optional=True),
        Field("current", "Test current.", "A", allowed="above 0", optional=True),
        Field("resistance", "Reading of a tester that shows ohms, in place of voltage and current.", "ohm",
              allowed="0 or above", optional=True),
        Field("lead_resistance", "Of the test leads; 0 with four wires or leads already taken off.", "ohm",
              allowed="0 ohm or above, at most the reading", default=0.0),
        Field("length", "Length of the conductor, for the expected resistance.", "m", allowed="0 or above",
              optional=True),
        Field("area", "Cross-section of the conductor.", "mm2", allowed="above 0", optional=True),
        Field("resistivity", "Of the conductor at 20 degC; copper if nothing is given.", "ohm mm2/m",
              allowed="above 0", default=COPPER),
    ), _bonding, {"voltage": 0.85, "current": 10, "length": 5, "area": 2.5}, "resistance"),
    Kind("heater", "Resistance, current and power of a heating element, held against its plate.",
         "R = U^2 / P; tolerance IEC 60335-1", (
        Field("voltage", "Rated voltage across the element.", "V", allowed="above 0"),
        Field("power", "Rated power.", "W", allowed="above 0"),
        Field("plus", "Tolerance of power upwards: verify.", "%", allowed="0 or above", default=PLUS_PERCENT),
        Field("minus", "Tolerance of power downwards: verify.", "%", allowed="0 to below 100", default=MINUS_PERCENT),
        Field("measured", "Resistance as read, cold.", "ohm", allowed="above 0", optional=True),
        Field("hot_factor", "Hot by cold resistance of this alloy.", allowed="0.5 to 20", default=1.0),
        Field("supply", "Voltage there is, for the power it gives.", "V", allowed="0 or above", optional=True),
    ), _heater, {"voltage": 208, "power": 2000, "measured": 22.1, "supply": 200}),
)  # fmt: skip
