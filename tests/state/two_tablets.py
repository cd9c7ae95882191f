"""One cell on which two tablets wrote, neither having seen the other: how a row of the tables beside this file reads.

The rows are transcribed by hand from `docs/formats/records.md` (*Facets*) and `docs/formats/open-points.md`, never from
the code. `{part}`, `{other}` and `{finding}` stand for two parts that came off and a finding on the first.
"""

from __future__ import annotations

from typing import Any, NamedTuple

Said = tuple[str, str, dict[str, Any]]
"""Kind of record, what it is about, its body."""


class Case(NamedTuple):
    """What each of two tablets said, and what holds then."""

    facet: str
    thing: str
    one: Said
    other: Said
    holds: Any
    """The value that holds; of a table only the fields named here are compared."""
    which: str = ""
    """Subject and which of each point *two different entries*; empty where there is none."""
    differ: bool = True
    """Whether the two entries differ in what decides."""


def pair(typ: str, about: str, one: dict[str, Any], other: dict[str, Any]) -> tuple[Said, Said]:
    """Two bodies of one kind about one thing."""
    return (typ, about, one), (typ, about, other)


def alike(facet: str, thing: str, said: tuple[Said, Said], holds: Any) -> Case:
    """Two entries that agree in what decides: nobody is asked."""
    return Case(facet, thing, *said, holds, differ=False)
