"""What a reading is held against: the limit as numbers, from a fit class or another reading where the bill says so."""

from __future__ import annotations

from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.ledger.kinds.work import Reading, check_facet
from teardown_app.domain.ledger.record import is_position
from teardown_app.domain.measure.judging import limit_of, quantity_in
from teardown_app.domain.measure.reading import read_quantity
from teardown_app.domain.parts.filling import holder
from teardown_app.domain.parts.parts import came_from
from teardown_app.domain.places.reading_ground import places_of_set
from teardown_app.workflows.act import Act, refuse
from teardown_app.workflows.asked import Asked

Told = dict[str, str]


def held_against(
    act: Act, thing: str, asked: Asked, against: str, what: str, first: str = ""
) -> tuple[Limit | None, Told | None]:
    """The limit as numbers, None where a person judges; and the other reading of a comparison, as it was."""
    limit = asked.check.limit
    if limit is None:
        return None, None
    if not limit.compare or limit.max is None:
        return limit_of(asked.check), None
    if asked.when == limit.compare == "as found" and (against or first):
        told: Told | None = _typed(limit, against or first, what)  # it is what later readings are held against
    else:
        told = _recorded_or_said(limit, other_reading(act, thing, asked), against, what)
    if told is None:
        refuse(
            f"{what} is compared with {limit.compare}, and no such reading is recorded.",
            "Record that one first, or say what it was, with its unit.",
        )
    return limit_of(asked.check, quantity_in(told, limit.unit)), told


def _recorded_or_said(limit: Limit, recorded: Told | None, against: str, what: str) -> Told | None:
    """What is recorded goes; something else may be said only where nothing is."""
    said = _typed(limit, against, what) if against else None
    if recorded and said and quantity_in(recorded, limit.unit) != quantity_in(said, limit.unit):
        before = " ".join(recorded.values()).strip()
        refuse(f"{what} is held against {before}, as recorded, not against {against}.", "Leave it out.")
    return recorded or said


def other_reading(act: Act, thing: str, asked: Asked) -> Told | None:
    """The reading that a comparison is held against, as recorded: as found, or of the pair."""
    job, check = act.job, asked.check
    compare = check.limit.compare if check.limit else ""
    if compare == "as found":
        return _value(job.value(thing, check_facet(check.name, asked.spot, "as found")))
    if compare != "pair" or is_position(thing):
        return None
    mates = [mate for key in places_of_set(job, thing) for mate in (*came_from(job, key), holder(job, key)) if mate]
    facet = check_facet(check.name, asked.spot, asked.when)
    found = [_value(job.value(mate, facet)) for mate in mates if mate != thing]
    return next((one for one in found if one), None)


def sample(limit: Limit) -> str:
    """A reading as it is written."""
    number = next((one for one in (limit.max, limit.min, limit.nominal, limit.count) if one is not None), 0)
    return f"{number} {limit.unit}".strip()


def _typed(limit: Limit, against: str, what: str) -> Told:
    read = read_quantity(against)
    told = {"text": read.text, "unit": read.unit or limit.unit} if read else None
    if told is None or quantity_in(told, limit.unit) is None:
        refuse(f"{what}: “{against}” is nothing to compare with.", f"Write it like '{sample(limit)}'.")
    return told


def _value(reading: Reading | None) -> Told | None:
    return dict(reading.value) if reading and reading.value else None
