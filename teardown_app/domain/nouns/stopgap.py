"""What is asked of a part's seat and of places until these questions are where they belong."""

from __future__ import annotations

from teardown_app.domain.ledger.record import Record
from teardown_app.domain.nouns.filling import places_of
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import own_place

BRINGING = ("part.taken_off", "part.brought_in", "part.noted")
SEATED = ("part.fitted", "part.taken_out")


def seat(job: Job, part: str) -> list[str]:
    claimed = [key for key in places_of(job, part) if key in job.positions]
    own = own_place(job, part)
    return claimed or ([own] if own in job.positions else [])


def lines_of(job, part):
    found = {job.positions[key].line.position: job.positions[key] for key in seat(job, part)}
    return [found[one] for one in sorted(found)]


def line_names(job: Job, part: str) -> list[str]:
    return [one.line.position for one in lines_of(job, part)]


def routes_of(job, part):
    from teardown_app.domain.nouns.parts import is_new, origin_of

    origin = origin_of(job, part)
    wanted = "new" if is_new(job, part) else "repaired" if origin == "repaired" else "as received"
    found = {}
    for position in lines_of(job, part):
        routes = [job.bill.routes[name] for name in position.line.routes if name in job.bill.routes]
        for route in [one for one in routes if (one.origin or "as received") == wanted][:1]:
            found[route.name] = route
    return list(found.values())
