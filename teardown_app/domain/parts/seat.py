"""Where a part belongs in the tool: its seat, and the lines of the bill that ask something of it there."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Line
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.claiming import places_of
from teardown_app.domain.parts.parts import out_of, own_place


@remembered
def seat_of(job: Job, part: str) -> list[str]:
    """Keys of the places that a part claims (several: all of them ask), else of the one that it is meant for, else
    of the one that it came out of; none where nothing is known."""
    own = own_place(job, part)
    return places_of(job, part) or ([own] if own else [])


@remembered
def asking(job: Job, part: str) -> list[str]:
    """Keys of the places that ask something of a part: its seat; at an added place also the one that it came out of."""
    seat, own = seat_of(job, part), out_of(job, part)
    added = any(key not in job.bill.positions for key in seat)
    return list(dict.fromkeys([*seat, *([own] if added and own else [])]))


@remembered
def lines_of(job: Job, part: str) -> list[Line]:
    """Lines of the places that ask something of a part, each once, by position; an added place is its own line."""
    found = {line.position: line for line in (job.positions[key].line for key in asking(job, part))}
    return [found[position] for position in sorted(found)]


def line_names(job: Job, part: str) -> list[str]:
    """Positions of the lines of a part's seat, as a release and a concession name them."""
    return [line.position for line in lines_of(job, part)]
