"""Why something is asked again, or all the same: the sentence before the sentence."""

from __future__ import annotations

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.kinds.job import SCOPES, UNIT
from teardown_app.domain.ledger.record import Record, is_position, position_thing
from teardown_app.domain.parts.filling import holder
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.places.place import nearest_over
from teardown_app.domain.places.scope import first_touching, scope_of


def why_again(job: Job, key: str) -> str:
    """Why a place is in scope of which something else is said; empty where nothing is."""
    scope, name = scope_of(job, key), named(job, key)
    if scope.gone:
        word = "came with" if scope.word == UNIT else "was left fitted in"
        return f"{name} {word} a unit that is gone: "
    by = first_touching(job, key) if scope.touched and SCOPES.get(scope.word, "in") != "in" else None
    if by is None:
        return ""
    word = "to have come with the unit" if scope.word == UNIT else f"to be {scope.word}"
    return f"{name} is said {word}, but {happened(job, by, key)}: it is in scope. "


def lies_over(job: Job, key: str) -> str:
    """The nearest part over a place, as a sentence; empty where none is."""
    over = nearest_over(job, key)
    return f" {part_named(job, holder(job, over), over)} lies over it." if over else ""


def happened(job: Job, record: Record, key: str) -> str:
    """What a record says of a place, for a sentence: there, or at what it closes over or holds."""
    there = KINDS[record.typ].there
    if not there:
        return f"{record.act} recorded {record.typ.replace('.', ' ')}"
    part = "" if is_position(record.ent[0]) else part_named(job, job.group(record.ent[0])[0])
    elsewhere = [one[1:] for one in record.ent if is_position(one)] or [str(record.body.get("out_of", ""))]
    if key in elsewhere or position_thing(key) in record.ent:
        return there.format_map({**record.body, "part": part})
    return f"{named(job, elsewhere[0])} was opened"
