"""What an act is, declared once: its name, what it is about, its workflow, what it writes and asks.

A row is plain values and stands behind the workflow it belongs to; `deeds.py` lists all rows. Doors make their command
and their form from it. What asks by what was answered before is asked by hand at each door; its row has no `do`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from attrs import frozen

from teardown_app.domain.ledger.record import SHOP
from teardown_app.domain.nouns.job import JOB
from teardown_app.workflows.act import Act, Drafts

PARTS = "parts"
PLACES = "places"
PARTS_OR_CARRIERS = "parts or carriers"
ADDED = "places, and what was added on the job"
ABOUT = (PARTS, PLACES, PARTS_OR_CARRIERS, ADDED, JOB, SHOP)
"""What acts are about. Only those on a job's things hand them to the workflow; a *shop* act needs no job."""

TEXT = "text"
WHOLE = "whole number"
WHOLE_OR_ALL = "whole number, or all"
FLAG = "yes where it is named"
DAY = "day"
PAIRS = "names with their texts"
NUMBER = "number on a label"
PLACE = "place of the tool"
PART = "part of the job"
RECORD = "name of a record"
OTHER_JOB = "act on another job"
HANDED_IN = "what the door knows"
"""Never asked: the door hands it in by its name (open points, materials, the shop's words)."""

SORTS = (TEXT, WHOLE, WHOLE_OR_ALL, FLAG, DAY, PAIRS, NUMBER, PLACE, PART, RECORD, OTHER_JOB, HANDED_IN)
"""What a field is for the workflow; each door knows how it is asked."""


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
