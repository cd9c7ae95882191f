"""Kinds of measurement with water: resistivity of de-ionised water, volume that is dispensed."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.metrology.dispensed_volume import dispensed_volume
from teardown_app.metrology.fault import BadInput, number, numbers
from teardown_app.metrology.kind import CHOICE, NUMBERS, Field, Kind, Result, Value
from teardown_app.metrology.pure_water import OF_READING, pure_water_resistivity, resistivity_at_25
from teardown_app.metrology.z_factor import z_factor

MILLIGRAMS = {"mg": 1.0, "g": 1000.0}
FAR_OFF_PERCENT = 50.0
"""Systematic error beyond which the unit of the weighings is more likely wrong than the pump."""
VARIED_C = 10.0
"""Distance from 25 degC, K, beyond which a resistivity at 25 degC should not be read closely."""


def _water_resistivity(resistivity: float, temperature: float) -> Result:
    pure = pure_water_resistivity(temperature)
    resistivity = number("resistivity", resistivity, "above 0 Mohm cm", above=0)
    impossible = resistivity > pure * (1 + OF_READING)
    at_25 = None if impossible else resistivity_at_25(resistivity, temperature)
    said = (
        (impossible, f"Impossible: above pure water, {pure:.3f} Mohm cm at {temperature:g} degC. Check sensor, cell "
         "constant, temperature, and that the instrument does not compensate already."),
        (not impossible and resistivity > pure, f"Just above pure water, {pure:.3f} Mohm cm at {temperature:g} degC: "
         "taken for rounding of the display; check the sensor."),
        (not impossible and abs(temperature - 25) > VARIED_C, "Far from 25 degC; the fit is good to about 5 %."),
    )  # fmt: skip
    return Result((
        Value("resistivity_25", at_25, "Mohm cm", "at 25 degC"),
        Value("conductivity_25", None if at_25 is None else 1 / at_25, "uS/cm", "at 25 degC"),
        Value("pure", pure, "Mohm cm", "pure water at this temperature"),
    ), tuple(note for holds, note in said if holds), "inconclusive" if impossible else "")  # fmt: skip


def _dispensed_volume(weighings: Sequence[float], nominal: float, temperature: float, mass_unit: str = "mg",
                      pressure: float = 1013.25, humidity: float = 50.0, evaporation: float = 0.0
                      ) -> Result:  # fmt: skip
    if mass_unit not in MILLIGRAMS:
        raise BadInput("mass_unit", mass_unit, " or ".join(MILLIGRAMS))
    scale = MILLIGRAMS[mass_unit]
    z = z_factor(temperature, pressure, humidity=humidity)
    lost = number("evaporation", evaporation, f"0 {mass_unit} or above", low=0)
    found = dispensed_volume(numbers("weighings", weighings) * scale, nominal, z, evaporation=lost * scale)
    notes = ["Holds for water only; air as warm as the water. The device's own expansion is not corrected."]
    if abs(found.systematic_percent) > FAR_OFF_PERCENT:
        notes.append("Far from the set volume: check the unit of the weighings and the set volume.")
    return Result((
        Value("mean", found.mean, "ul", "mean volume"),
        Value("systematic_error", found.systematic_error, "ul", "mean less set volume"),
        Value("systematic_percent", found.systematic_percent, "%", "of the set volume"),
        Value("random_error", found.random_error, "ul", "standard deviation of single deliveries, n - 1"),
        Value("variation", found.variation, "%", "coefficient of variation"),
        Value("z", z, "ul/mg", "volume by balance reading"),
    ), tuple(notes))  # fmt: skip


KINDS: tuple[Kind, ...] = (
    Kind("water-resistivity", "Resistivity of de-ionised water, brought to 25 degC.", "fit after Marsh and Stokes", (
        Field("resistivity", "Reading without temperature compensation.", "Mohm cm", allowed="above 0"),
        Field("temperature", "Temperature of the water at the cell.", "degC", allowed="0 to 50"),
    ), _water_resistivity, {"resistivity": 10.0, "temperature": 20}, "resistivity_25"),
    Kind("dispensed-volume", "Volume of a pump or dispenser by weighing water.", "ISO 8655-6", (
        Field("weighings", "One mass for each delivery.", "", NUMBERS, allowed="10 or more, in mass_unit",
              unit_in="mass_unit"),
        Field("nominal", "Volume that was set.", "ul", allowed="above 0"),
        Field("temperature", "Temperature of the water.", "degC", allowed="10 to 35"),
        Field("mass_unit", "Unit of weighings and evaporation.", form=CHOICE, choices=tuple(MILLIGRAMS), default="mg"),
        Field("pressure", "Air pressure.", "hPa", allowed="600 to 1100", default=1013.25),
        Field("humidity", "Relative humidity of the air.", "%", allowed="0 to 100", default=50.0),
        Field("evaporation", "Mass lost to the air in one weighing.", allowed="0 or above, in mass_unit", default=0.0,
              unit_in="mass_unit"),
    ), _dispensed_volume,
         {"weighings": [99.71, 99.65, 99.80, 99.74, 99.69, 99.77, 99.72, 99.66, 99.75, 99.71], "nominal": 100,
          "temperature": 20}, "systematic_error"),
)  # fmt: skip
