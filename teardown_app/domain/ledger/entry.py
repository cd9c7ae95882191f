"""Entries: what one record says of one facet of one thing, and the value that several of them make."""

from __future__ import annotations

from typing import Any, NamedTuple

from teardown_app.domain.ledger.facets import facet_of
from teardown_app.domain.ledger.kinds.kind import on_disk
from teardown_app.domain.ledger.record import Record


class Entry(NamedTuple):
    """What one record says of one facet of one thing."""

    record: Record
    value: Any
    thing: str


def settled(values: list[Any], facet: str) -> Any:
    """The value that holds of several heads."""
    if len(values) == 1 or not different(values, facet):
        return values[0] if len(values) == 1 else min(values, key=on_disk)
    return facet_of(facet).safer(values)


def different(values: list[Any], facet: str) -> bool:
    """True when heads differ in what decides."""
    decisive = facet_of(facet).decisive
    first = decisive(values[0])
    return any(decisive(value) != first for value in values[1:])


def display_order(record: Record) -> tuple[str, str, int, str]:
    """Total order for lists; it decides nothing."""
    return (record.hlc, record.dev, record.seq, record.h)
