"""What an act is, declared once: its name, what it is about, its workflow, what it writes and asks.

A row is plain values, set as a table behind the workflow it belongs to; `deeds.py` lists all rows. Doors make their
command and their form from it. What asks by what was answered before is done by hand at each door: its row has no `do`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from attrs import frozen

from teardown_app.domain.job.job import JOB
from teardown_app.domain.ledger.record import SHOP
from teardown_app.workflows.act import Act, Drafts

PARTS = "parts"
PLACES = "places"
PARTS_OR_CARRIERS = "parts or carriers"
ADDED = "places, and what was added on the job"
ABOUT = (PARTS, PLACES, PARTS_OR_CARRIERS, ADDED, JOB, SHOP)
"""What acts are about. Only those on a job's things hand them to the workflow; a *shop* act needs no job."""

TEXT = ""
WHOLE = "N"
WHOLE_OR_ALL = "N or all"
FLAG = "yes"
DAY = "DAY"
PAIRS = "NAME=TEXT"
NUMBER = "NUMBER"
PLACE = "POSITION"
PART = "PART"
RECORD = "RECORD"
OTHER_JOB = "JOB"
HANDED_IN = "handed in"
SORTS = (TEXT, WHOLE, WHOLE_OR_ALL, FLAG, DAY, PAIRS, NUMBER, PLACE, PART, RECORD, OTHER_JOB, HANDED_IN)
"""What a field takes, as help writes it: text, a count, a day, a number on a label, a part … *Other job* becomes the
same person's act on it; what is *handed in* is never asked: the door knows it (open points, materials)."""


def nothing(act: Act) -> Iterable[str]:
    """Nothing is offered."""
    return ()


@frozen
class Field:
    """One field of an act. `name` is the workflow's; a field that was not given is left to it."""

    name: str
    asks: str = ""
    """Question on the glass; a field without one is not asked there."""
    says: str = ""
    """What a command's help says of it."""
    sort: str = TEXT
    offers: Callable[[Act], Iterable[str]] = nothing
    needed: bool = False
    many: bool = False
    first: bool = False
    """True for what stands in a command before the things, without a name of its own."""


@frozen(kw_only=True)
class Deed:
    """One act."""

    name: str
    """Two words: the command, the form, and what a to-do names."""
    says: str = ""
    example: str = ""
    """What is typed behind the name."""
    about: str
    do: Callable[..., Drafts] | None = None
    """The workflow (act, things, **fields), without things where it is about the job or shop; None: asked by hand."""
    writes: tuple[str, ...]
    """Kinds of record. Right, PIN and taking back follow from them."""
    done: str
    """Said of each thing. `{name}` is the thing's, `{thing}` what records call it, `{place}` the place that the record
    names beside it, `{by}` the person, `{job}` the job; else a field of the record or of the act."""
    fields: tuple[Field, ...] = ()


REFERENCE = Field("reference", says="accept it at once, if it takes something away and you have the right: for what")
"""By it the author of what takes a demand away accepts it himself."""


def by_hand(name: str, about: str, done: str, *writes: str) -> Deed:
    """The row of an act that each door asks by hand."""
    return Deed(name=name, about=about, writes=writes, done=done)


def one_of(words: Sequence[str]) -> str:
    """Help for a field that takes one of these words."""
    return f"one of: {', '.join(words)}"
