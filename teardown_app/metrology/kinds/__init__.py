"""The kinds of measurement, by area."""

from __future__ import annotations

from functools import cache
from importlib import import_module

from teardown_app.metrology.kind import Kind
from teardown_app.metrology.kinds.least import BELOW_ZERO, LEAST
from teardown_app.metrology.kinds.roles import DEMANDS, READS

AREAS = ("texture", "form", "rotor", "electrical", "temperature", "fluid", "fastening", "fit", "statistics", "decision")
"""Modules beside this one; each has KINDS."""


ASKS = {
    "runout": ("readings",),
    "roundness": ("radii",),
    "bend": ("chord", "height"),
    "residual-unbalance": ("residual_a", "residual_b"),
    "vibration": ("velocity",),
    "relative-centrifugal-force": ("speed",),
    "bonding": ("resistance",),
    "heater": ("measured",),
    "pt100": ("resistance",),
    "ntc": ("resistance",),
    "thermocouple": ("voltage",),
    "pressure-decay": ("temperature_start", "temperature_end"),
    "fit": ("reading",),
    "success-run": ("passes",),
}
"""Of kinds that can be read in several ways, the way of the bench."""


@cache
def all_kinds() -> dict[str, Kind]:
    """Every kind by name, in the order of the areas."""
    found = [kind for area in AREAS for kind in import_module(f"{__name__}.{area}").KINDS]
    return {kind.name: _with_roles(kind) for kind in found}


def _with_roles(kind: Kind) -> Kind:
    name = kind.name
    roles = kind._replace(asks=ASKS.get(name, ()), reads=READS[name], demands=DEMANDS.get(name, ()))
    return roles._replace(least=LEAST[name], below_zero=BELOW_ZERO.get(name, ""))
