"""Kinds of measurement on a motor's windings and their insulation."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.insulation import (
    ABOVE_40,
    BELOW_40,
    RANDOM_WOUND,
    SYSTEMS,
    THERMOSETTING,
    WINDINGS,
    absorption_ratio,
    advised_minimum,
    polarisation_index,
    resistance_at_40,
)
from teardown_app.metrology.kind import CHOICE, NUMBERS, Field, Kind, Result, Value
from teardown_app.metrology.winding import ALUMINIUM, COPPER_IEC, COPPER_IEEE, hot_temperature, resistance_at, unbalance

CONDUCTORS = {"copper 234.5": COPPER_IEEE, "copper 235": COPPER_IEC, "aluminium 225": ALUMINIUM}
VERIFY = "verify against your copy of the standard."
FIVE_GIGAOHM = 5000.0
"""Mohm after one minute above which the index says nothing."""
EVEN_KELVIN = 10.0
"""Distance from 40 degC beyond which a corrected insulation resistance should not be read closely."""


def _winding(resistance: float, temperature: float, reference: float = 20.0, conductor: str = "copper 234.5",
             hot_resistance: float | None = None, coolant: float | None = None) -> Result:  # fmt: skip
    if conductor not in CONDUCTORS:
        raise BadInput("conductor", conductor, ", ".join(CONDUCTORS))
    if coolant is not None and hot_resistance is None:
        raise BadInput("hot_resistance", "missing", "needed with coolant")
    k = CONDUCTORS[conductor]
    found = resistance_at(resistance, temperature, reference, k=k)
    hot = None if hot_resistance is None else hot_temperature(resistance, temperature, hot_resistance, k=k)
    around = temperature if coolant is None else number("coolant", coolant, "-50 to 100 degC", low=-50, high=100)
    notes = [f"Reckoned with k = {k:g} degC: {VERIFY}", "The winding has to be at the stated temperature throughout."]
    if hot is not None and hot < temperature:
        notes.append("The hot resistance is below the cold one: check which is which.")
    return Result((
        Value("resistance", found, "ohm", "at the reference temperature"),
        Value("hot_temperature", hot, "degC", "mean temperature of the hot winding"),
        Value("rise", None if hot is None else hot - around, "K", "above the coolant, or above the cold winding"),
    ), tuple(notes))  # fmt: skip


def _winding_unbalance(resistances: Sequence[float]) -> Result:
    found = unbalance(resistances)
    return Result((
        Value("unbalance", found.percent, "%", "greatest distance from the mean"),
        Value("mean", found.mean, "ohm"),
        Value("farthest", float(resistances[found.at]), "ohm", f"no. {found.at + 1}, farthest from the mean"),
    ), ("All at one temperature, motor alone without its cable.", "ANSI/EASA AR100-2020 asks for 2 % random-wound and "
        f"1 % form-wound; {VERIFY}"))  # fmt: skip


def _insulation(resistance: float, temperature: float, system: str, winding: str | None = None,
                voltage: float | None = None, below_40: float = BELOW_40, above_40: float = ABOVE_40
                ) -> Result:  # fmt: skip
    if (winding is None) != (voltage is None):
        raise BadInput("winding" if winding is None else "voltage", "missing", "both of them, or neither")
    at_40 = resistance_at_40(resistance, temperature, system=system, below_40=below_40, above_40=above_40)
    least = None if winding is None or voltage is None else advised_minimum(winding, voltage)
    said = (
        (system == THERMOSETTING, f"Constants of the thermosetting formula are from memory: {VERIFY}"),
        (abs(temperature - 40) > EVEN_KELVIN, "Far from 40 degC the correction is an estimate; compare readings taken "
         "at like temperatures."),
        (least is not None, f"The advised minimum is IEEE 43's as known here: {VERIFY}"),
        (least is not None and at_40 < least, "Below the advised minimum."),
    )  # fmt: skip
    return Result((
        Value("resistance_40", at_40, "Mohm", "at 40 degC"),
        Value("factor", at_40 / resistance, "", "of the correction"),
        Value("advised_minimum", least, "Mohm", "after one minute at 40 degC, as advice"),
    ), tuple(note for holds, note in said if holds))  # fmt: skip


def _polarisation_index(one_minute: float, ten_minutes: float, half_minute: float | None = None,
                        winding: str | None = None) -> Result:  # fmt: skip
    index = polarisation_index(one_minute, ten_minutes)
    ratio = None if half_minute is None else absorption_ratio(half_minute, one_minute)
    high, small = one_minute > FIVE_GIGAOHM, winding == RANDOM_WOUND
    said = (
        (high, f"Not meaningful: more than 5 Gohm after one minute; {VERIFY}"),
        (small, "May not be meaningful: in small random-wound machines the absorption current dies within seconds."),
        (index < 1, "Resistance fell while the voltage stood: damp, dirt, or a reading that was not steady."),
        (not (high or small), f"IEEE 43 asks for 1.5 in class 105 (A) and 2.0 in class 130 (B) and above; {VERIFY}"),
    )  # fmt: skip
    return Result((
        Value("index", index, "", "ten minutes by one"),
        Value("absorption_ratio", ratio, "", "60 s by 30 s"),
    ), tuple(note for holds, note in said if holds), "inconclusive" if high or small else "")  # fmt: skip


KINDS: tuple[Kind, ...] = (
    Kind("winding", "Winding resistance at a reference temperature; temperature of the hot winding.",
         "IEEE 112, IEC 60034-1", (
        Field("resistance", "Resistance of the cold winding as read.", "ohm", allowed="above 0"),
        Field("temperature", "Temperature of the winding then.", "degC", allowed="-50 to 300"),
        Field("reference", "Temperature the resistance is wanted for.", "degC", allowed="-50 to 300", default=20.0),
        Field("conductor", "Metal of the winding, with its constant k.", form=CHOICE, choices=tuple(CONDUCTORS),
              default="copper 234.5"),
        Field("hot_resistance", "Resistance of the hot winding.", "ohm", allowed="above 0", optional=True),
        Field("coolant", "Temperature of the cooling air then, else the rise is from the cold winding.", "degC",
              allowed="-50 to 100", optional=True),
    ), _winding, {"resistance": 2.0, "temperature": 20, "reference": 25, "hot_resistance": 2.5}, "resistance"),
    Kind("winding-unbalance", "How far the phases of a winding differ.", "ANSI/EASA AR100-2020", (
        Field("resistances", "One reading for each phase or pair of terminals.", "ohm", NUMBERS,
              allowed="2 or more, each above 0"),
    ), _winding_unbalance, {"resistances": [1.02, 1.00, 1.01]}, "unbalance"),
    Kind("insulation", "Insulation resistance of a winding, brought to 40 degC.", "IEEE 43-2013", (
        Field("resistance", "Reading after one minute.", "Mohm", allowed="above 0"),
        Field("temperature", "Temperature of the winding.", "degC", allowed="-10 to 100, thermosetting 10 to 85"),
        Field("system", "Insulation: thermoplastic before about 1970, thermosetting since.", form=CHOICE,
              choices=SYSTEMS),
        Field("winding", "Kind of winding, for the advised minimum.", form=CHOICE, choices=WINDINGS, optional=True),
        Field("voltage", "Rated voltage between lines, for the advised minimum.", "V", allowed="above 0 to 50000",
              optional=True),
        Field("below_40", "Constant of the thermosetting formula, 10 to 40 degC: verify.", "K", allowed="above 0",
              default=BELOW_40),
        Field("above_40", "Constant of the thermosetting formula, 40 to 85 degC: verify.", "K", allowed="above 0",
              default=ABOVE_40),
    ), _insulation, {"resistance": 200, "temperature": 25, "system": "thermoplastic"}, "resistance_40"),
    Kind("polarisation-index", "How insulation resistance rises while the voltage stands.", "IEEE 43-2013", (
        Field("one_minute", "Insulation resistance after one minute.", "Mohm", allowed="above 0"),
        Field("ten_minutes", "Insulation resistance after ten minutes.", "Mohm", allowed="above 0"),
        Field("half_minute", "Insulation resistance after 30 s, for the absorption ratio.", "Mohm", allowed="above 0",
              optional=True),
        Field("winding", "Kind of winding.", form=CHOICE, choices=WINDINGS, optional=True),
    ), _polarisation_index, {"one_minute": 150, "ten_minutes": 600}, "index"),
)  # fmt: skip
