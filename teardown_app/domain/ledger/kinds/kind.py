"""What a kind of record is: its name, who may write it, its fields, and the facets it writes."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, NamedTuple

from teardown_app.domain.ledger.record import SHOP, Record, is_position
from teardown_app.domain.ledger.times import is_time

Write = tuple[str, str, Any]
"""(thing, facet, value); a facet may carry a suffix after `/` (`check/runout/1/finished`)."""

Writes = Callable[[Record], Iterable[Write]]

RIGHTS = ("record", "release", "scrap", "concede", "sign", "office")


JOB = "job"
"""Thing name of the job itself."""

PLACE, THING = "place", "thing"

OF_JOB, OF_PLACES, OF_THINGS, OF_BOTH, OF_ANYTHING = (JOB,), (PLACE,), (THING,), (THING, PLACE), (JOB, PLACE, THING)
"""What records of a kind can be about."""

THINGS, ALL, TOOL, BACK = "things", "all", "tool", "back"
"""What a record can change: points of what it is about or writes of; all points; all, and which places there are or
which names are one thing; what a job's records are worth whose authors had not seen it."""

RELEASE, SIGNATURE = "release", "signature"
"""Verdicts whose author has to have seen a record that is about the same."""


class Field(NamedTuple):
    """One field of a body: its type, and whether it must be there."""

    type: type | tuple[type, ...]
    needed: bool = True
    numbers: bool = False
    """True for a list of whole numbers; the others are of texts."""

    @property
    def held(self) -> object:
        """Type of what a list holds."""
        return int if self.numbers else str


TEXT = Field(str)
TEXT_OR_NOT = Field(str, needed=False)
TRUTH = Field(bool)
WHOLE = Field(int)
WHOLE_OR_NOT = Field(int, needed=False)
LIST = Field(list)
LIST_OR_NOT = Field(list, needed=False)
NUMBERS_OR_NOT = Field(list, needed=False, numbers=True)
TABLE_OR_NOT = Field(dict, needed=False)
MEASURED_OR_NOT = Field(dict, needed=False)
"""`{"text": "0.38", "unit": "um"}` as typed; SI values are computed from it."""


class Kind(NamedTuple):
    """One kind of record (past tense).

    `about` says what stands in `ent`; `right` is the right its author needs where the table of acts names
    no other; `facets` are all facet names that `writes` may give back. Fields in braces stand in the record's body.
    """

    typ: str
    about: str
    right: str
    fields: dict[str, Field]
    facets: tuple[str, ...]
    writes: Writes
    shop: bool = False
    """True for kinds that stand in the shop's journal."""
    sorts: tuple[str, ...] = OF_ANYTHING
    says: str = ""
    """What its author did, in words."""
    there: str = ""
    """What it says of a place it touches, in words; `{part}` is the part it names. Empty for what touches none."""
    narrows: str = ""
    """What it says where that takes a demand away: `{act}` is its author, `{missed}` what is lost of hardware."""
    lasting: str = ""
    """What a record is called that is never taken back: the opposite is recorded."""
    reach: str = THINGS
    seen_by: tuple[str, ...] = (RELEASE, SIGNATURE)

    def misfit(self, record: Record) -> str:
        """Why the record cannot be understood, empty when it can."""
        if self.shop != (record.job == SHOP):
            return f"{self.typ} is recorded {'of the shop' if self.shop else 'in a job'} only"
        if not is_time(record.wall):
            return f"{self.typ} was recorded at no time with its offset"
        if not record.ent:
            return f"{self.typ} names nothing it is about"
        wrong = next((thing for thing in record.ent if sort_of(thing) not in self.sorts), "")
        return f"{self.typ} is not about {wrong}" if wrong else self._misfit_of(record.body)

    def _misfit_of(self, body: dict[str, Any]) -> str:
        for name, field in self.fields.items():
            if name not in body:
                if field.needed:
                    return f"{self.typ} lacks {name}"
            elif not isinstance(body[name], field.type) or (isinstance(body[name], bool) and field.type is int):
                return f"{self.typ} has {name} of the wrong type"
            elif isinstance(body[name], list) and not all(type(one) is field.held for one in body[name]):
                return f"{self.typ} has something else than {'whole numbers' if field.numbers else 'texts'} in {name}"
        return ""


def sort_of(thing: str) -> str:
    """job, place, or thing (what a record brought in, carriers); in the shop's records everything is a thing.

    >>> sort_of("job"), sort_of("@10.20"), sort_of("J7K3M00012:t1~0:4:1")
    ('job', 'place', 'thing')
    """
    return JOB if thing == JOB else PLACE if is_position(thing) else THING


def new_thing(record: Record) -> str:
    """What the record brings in. Raises ValueError for a name that is not of its own making."""
    thing = record.ent[0]
    if not record.brings_in(thing):
        raise ValueError(f"{record.typ} brings in {thing}, which is not named after this record")
    return thing


def is_said(value: Any) -> bool:
    """Is it text that is not blank? Of what is written down, anything else is as if it were not there.

    >>> [is_said(each) for each in ("B2", " ", "", None, 3)]
    [True, False, False, False, False]
    """
    return isinstance(value, str) and bool(value.strip())


def each(facet: str, value: Callable[[Record], Any]) -> Writes:
    """Writes one facet of everything in `ent`."""

    def write(record: Record) -> list[Write]:
        worth = value(record)
        return [(thing, facet, worth) for thing in record.ent]

    return write


def on_disk(value: Any) -> str:
    """A value as its record has it, for an order that is the same on every tablet, whatever its app made of it."""
    return repr(getattr(value, "body", value))


def whole_body(record: Record) -> dict[str, Any]:
    """The body as value."""
    return record.body
