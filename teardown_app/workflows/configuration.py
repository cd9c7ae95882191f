"""What was received: complete, short, not at all, out of scope, not on this tool, left fitted.

One act says it of as many assemblies and places as are named; what is said of an assembly counts for
everything beneath it.
"""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.kinds.job import SCOPES
from teardown_app.domain.parts.claiming import sides
from teardown_app.domain.parts.going_back import GONE
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import came_from, disposition_of
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.called import places_meant, thing_of
from teardown_app.workflows.deed import PLACES, REFERENCE, Deed, Field, one_of

COMPLETE = "received complete"
WORDS = tuple(word for word in SCOPES if word != "came with the unit")
"""What can be said here; what came with a unit is said when the unit is fitted."""


def received(act: Act, keys: Sequence[str], as_: str, *, why: str = "", reference: str = "") -> Drafts:
    """Says how assemblies or places were received. Everything but *received complete* needs its reason."""
    act.working()
    if as_ not in WORDS:
        refuse(f"{as_!r} does not say what was received.", f"Say one of: {', '.join(WORDS)}.")
    if as_ != COMPLETE and not why.strip():
        refuse(f"{as_.capitalize()} needs its reason.", "Say why, or who said so.")
    places = places_meant(act, keys)
    if not places:
        refuse("No place is named.", "Name assemblies or places, such as 10.20.")
    for position in places:
        _check(act, position, as_)
    things = tuple(thing_of(position) for position in places)
    said = {"as": as_, "reference": reference.strip() or None}
    return [act.draft("configuration.received", things, why=why.strip() or None, **said)]


def _check(act: Act, position: Position, word: str) -> None:
    name = named(act.job, position.key)
    option = _lacking(act.job, position)
    if option and SCOPES[word] != "out":
        refuse(
            f"{name} belongs to the option {option}, which this tool does not have.",
            "If it has it, amend the job's options.",
            "job amend",
        )
    there = _parts_there(act.job, position, word) if SCOPES[word] != "in" else []
    if there:
        parts = ", ".join(act.name(part) for part in there)
        refuse(
            f"{name} cannot be {word}: {parts} came out of it or is in it.",
            "Say it of the places that are empty, or put right where these parts belong.",
        )


def _lacking(job: Job, position: Position) -> str:
    """The option that this tool lacks and the place, or one above it, belongs to."""
    absent = job.bill.absent(job.options)
    chain = [position.key, *job.ancestors(position.key)]
    return next((job.positions[one].line.option for one in reversed(chain) if one in absent), "")


def _parts_there(job: Job, position: Position, word: str) -> list[str]:
    """Parts at or beneath the place that contradict the word. Parts that are gone do not contradict *out*."""
    found: dict[str, None] = {}
    for one in [position, *job.beneath(position.key)]:
        out = came_from(job, one.key)
        if SCOPES[word] == "out":
            out = [part for part in out if disposition_of(job, part) not in GONE]
        found.update(dict.fromkeys([*out, *sides(job, one.key)]))
    return list(found)


RECEIVED = Deed(
    name="job received", about=PLACES, do=received, writes=("configuration.received",),
    says="Say of assemblies or places what was received; an assembly counts for all beneath it.",
    example="PO-7781 30 --as 'not received' --why 'packing list of 2026-03-09' --by MK",
    done="{thing}: {as}, with all beneath.",
    fields=(Field("as_", "What was received?", one_of(WORDS), offers=lambda act: WORDS, needed=True),
            Field("why", "Why, or who said so?", "the reason; needed for all but received complete"),
            REFERENCE),
)  # fmt: skip
