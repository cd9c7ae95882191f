"""What is in the tool only for a time goes in and comes out: brackets, caps, bypasses, masks, gauges."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.lacks.temporary import temporary_lacks
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.temporary import state_of
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.called import in_scope, places_meant, thing_of
from teardown_app.workflows.deed import ADDED, Deed, Field

IN, OUT = "in", "out"


def put_in(act: Act, keys: Sequence[str], *, what: Sequence[str] = (), note: str = "") -> Drafts:
    """Temporary things are in: at places of the bill, or `what` was added on this job, by its name."""
    act.working()
    drafts = _at_places(act, keys, IN, note)
    known = added(act)
    for name in _names(what):
        if name in known and state_of(act.job, known[name]) != OUT:
            refuse(f"{name} is in already.", "Give another one a name of its own, such as where it sits.")
        if name in known:
            drafts.append(act.draft("temporary.in", (known[name],), note=note or None))
        else:
            drafts.append(act.draft("temporary.in", ("new:1",), what=name, note=note or None))
    return _some(drafts)


def take_out(act: Act, keys: Sequence[str], *, what: Sequence[str] = (), note: str = "") -> Drafts:
    """Temporary things are out: from places of the bill, or `what` was added on this job."""
    act.working()
    drafts = _at_places(act, keys, OUT, note)
    known = added(act)
    for name in _names(what):
        if name not in known:
            inside = ", ".join(one for one in known if state_of(act.job, known[one]) != OUT)
            refuse(
                f"{name} was never put in.",
                f"In are: {inside}." if inside else "Nothing was added on this job.",
            )
        if state_of(act.job, known[name]) == OUT:
            refuse(f"{name} is out already.", "Nothing needs to be recorded.")
        drafts.append(act.draft("temporary.out", (known[name],), note=note or None))
    return _some(drafts)


def added(act: Act) -> dict[str, str]:
    """What was added on this job for a time: its name -> its thing."""
    job = act.job
    found = {str(job.value(thing, "what")): thing for thing in job.things("what") if job.entries(thing, "what")}
    return dict(sorted(found.items()))


def _at_places(act: Act, keys: Sequence[str], word: str, note: str) -> Drafts:
    places = places_meant(act, keys, "temporary")
    for position in places:
        if word != OUT or not any(temporary_lacks(act.job, position)):  # where one is open, out clears it
            in_scope(act, position)
        if state_of(act.job, thing_of(position)) == word:
            refuse(f"{named(act.job, position.key)} is {word} already.", "Nothing needs to be recorded.")
    things = tuple(thing_of(position) for position in places)
    return [act.draft(f"temporary.{word}", things, note=note or None)] if things else []


def _names(what: Sequence[str]) -> list[str]:
    names = [" ".join(one.split()) for one in what]
    if "" in names:
        refuse("What is added for a time needs a name.", "Say what it is, such as: drain bypass hose.")
    return list(dict.fromkeys(names))


def _some(drafts: Drafts) -> Drafts:
    if not drafts:
        refuse("Nothing is named.", "Name places of the bill, or say what was added, such as: drain bypass hose.")
    return drafts


_FIELDS = (
    Field("what", says="what was added on this job, such as 'drain bypass hose'", many=True),
    Field("note"),
)
PUT_IN = Deed(
    name="temporary in", about=ADDED, do=put_in, writes=("temporary.in",),
    says="Say that something is in only for a time: a place of the bill, or added on this job.",
    example="PO-7781 --what 'drain bypass hose' --by AS",
    done="{name} is in; it has to be out before power.",
    fields=_FIELDS,
)  # fmt: skip
TAKE_OUT = Deed(
    name="temporary out", about=ADDED, do=take_out, writes=("temporary.out",),
    says="Say that what was in only for a time is out.",
    example="PO-7781 10.95 --what 'drain bypass hose' --by AS",
    done="{name} is out.",
    fields=_FIELDS,
)  # fmt: skip
