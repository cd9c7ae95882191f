"""What the fields of each kind are: raw readings, and by which instrument; demands, which are the bill's.

What stands in neither table is how it was read, or what the formula needs besides: pitches, lengths, settings.
"""

from __future__ import annotations

from teardown_app.metrology.kind import Raw


def _read(*fields: str) -> tuple[Raw, ...]:
    return tuple(map(Raw, fields))


def _beside(*fields: str) -> tuple[Raw, ...]:
    """Read with another instrument than the check's."""
    return tuple(Raw(field, own=False) for field in fields)


READS: dict[str, tuple[Raw, ...]] = {
    "roughness": _read("readings"),
    "roughness-trace": _read("heights"),
    "cut-off": (),
    "roughness-before-after": _read("as_found", "as_left"),
    "flatness": (Raw("points", ("z",)),),
    "flatness-grid": _read("heights"),
    "roundness": _read("points", "radii"),
    "runout": _read("readings", "sections"),
    "bend": _read("thickness", "radius", "chord", "height"),
    "diameters": _read("diameters"),
    "residual-unbalance": _read("residual", "residual_a", "residual_b"),
    "vibration": (*_read("velocity", "record", "displacement", "acceleration"), *_beside("speed")),
    "relative-centrifugal-force": (*_read("speed"), *_beside("radius")),
    "bonding": _read("voltage", "current", "resistance"),
    "heater": (*_read("measured"), *_beside("supply")),
    "winding": (*_read("resistance", "hot_resistance"), *_beside("temperature", "coolant")),
    "winding-unbalance": _read("resistances"),
    "insulation": (*_read("resistance"), *_beside("temperature")),
    "polarisation-index": _read("one_minute", "ten_minutes", "half_minute"),
    "pt100": (*_read("resistance", "temperature"), *_beside("reference")),
    "ntc": (*_read("resistance", "temperature"), *_beside("reference")),
    "thermocouple": (*_read("voltage", "temperature"), *_beside("junction", "reference")),
    "pressure-decay": (
        *_read("start", "end"),
        *_beside("duration", "ambient", "ambient_end", "temperature_start", "temperature_end"),
    ),
    "allowed-pressure-drop": (),
    "leak-rate": (*_read("rate"), *_beside("gas_temperature")),
    "gas-leak": _read("leak_rate"),
    "water-resistivity": (*_read("resistivity"), *_beside("temperature")),
    "dispensed-volume": (*_read("weighings"), *_beside("temperature", "pressure", "humidity", "evaporation")),
    "choked-flow": (*_read("before", "behind"), *_beside("diameter", "temperature", "ambient")),
    "bubble-point": _read("pressure"),
    "torque": (),
    "preload": _read("torque"),
    "fit": _read("reading"),
    "success-run": _read("passes"),
    "proportion": _read("passes"),
    "particle-counts": _read("count", "count_before"),
    "decision": _read("value"),
    "repeated-readings": _read("readings"),
    "uncertainty-budget": _read("readings", "reading"),
}

DEMANDS: dict[str, tuple[str, ...]] = {
    "roughness": ("limit", "parameter", "rule", "standard"),
    "roughness-trace": ("limit", "parameter", "standard", "sections"),
    "cut-off": ("limit", "parameter", "standard"),
    "diameters": ("nominal",),
    "residual-unbalance": ("grade", "least_share"),
    "vibration": ("machine_class",),
    "heater": ("voltage", "power", "plus", "minus", "hot_factor"),
    "insulation": ("below_40", "above_40"),
    "polarisation-index": ("winding",),
    "pt100": ("r0", "tolerance_class", "construction"),
    "dispensed-volume": ("nominal",),
    "fit": ("nominal", "fit"),
    "success-run": ("confidence", "reliability"),
    "proportion": ("confidence",),
    "particle-counts": ("confidence",),
    "decision": ("limit_max", "limit_min", "rule", "k"),
}
"""Of these one that may be left out is said by the bill or by nobody; one that is needed the reader tells where the
bill does not. A kind that is not here demands nothing by its fields."""
