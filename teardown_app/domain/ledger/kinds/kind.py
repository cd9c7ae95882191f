"""What a kind of record is: its name, who may write it, its fields, and the facets it writes."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache
from typing import Any, NamedTuple

from teardown_app.domain.ledger.record import SHOP, Record, is_position

Write = tuple[str, str, Any]
"""(thing, facet, value); a facet may carry a suffix after `/` (`check/runout/1/finished`)."""

Writes = Callable[[Record], Iterable[Write]]

RIGHTS = ("record", "release", "scrap", "concede", "sign", "office")


JOB = "job"
"""Thing name of the job itself."""

PLACE, THING = "place", "thing"

ABOUT: dict[str, tuple[str, ...]] = {
    "job.": (JOB,),
    **dict.fromkeys(("configuration.", "line.", "hardware.", "joint.", "consumable."), (PLACE,)),
    **dict.fromkeys(("part.fitted", "part.taken_out", "hold.placed", "check.", "goods.", "temporary."), (THING, PLACE)),
    **dict.fromkeys(("part.", "thing.", "finding.", "approval.", "disposition.", "hold.lifted"), (THING,)),
    **dict.fromkeys(("operation.", "wait."), (THING,)),
}
"""How the name of a kind begins -> what it can be about; the first that fits counts. Not here: anything."""


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
    no other; `facets` are all facet names that `writes` may give back.
    """

    typ: str
    about: str
    right: str
    fields: dict[str, Field]
    facets: tuple[str, ...]
    writes: Writes
    shop: bool = False
    """True for kinds that stand in the shop's journal."""

    def misfit(self, record: Record) -> str:
        """Why the record cannot be understood, empty when it can."""
        if self.shop != (record.job == SHOP):
            return f"{self.typ} is recorded {'of the shop' if self.shop else 'in a job'} only"
        if not record.ent:
            return f"{self.typ} names nothing it is about"
        sorts = sorts_of(self.typ)
        wrong = next((thing for thing in record.ent if sort_of(thing) not in sorts), "")
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


@cache
def sorts_of(typ: str) -> tuple[str, ...]:
    """What records of a kind can be about."""
    return next((sorts for begins, sorts in ABOUT.items() if typ.startswith(begins)), (JOB, PLACE, THING))


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


def whole_body(record: Record) -> dict[str, Any]:
    """The body as value."""
    return record.body
