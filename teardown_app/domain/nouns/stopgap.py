"""What is asked of a part's seat and of places until these questions are where they belong."""

from __future__ import annotations

from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.nouns.filling import places_of, sides
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import came_from, own_place

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


def claims_of(job: Job, key: str) -> list[Record]:
    names = {name for part in sides(job, key) for name in job.group(part)}
    found = {r.h: r for thing in (position_thing(key), *names) for r in job.about(thing) if r.typ in SEATED}
    return [r for r in found.values() if r.ent[1] == position_thing(key) or r.ent[0] in names]


def coming_off(job: Job, key: str) -> list[Record]:
    thing = position_thing(key)
    found = [e.record for e in job.ever(thing, "came_out") if e.record.typ in BRINGING]
    for r in job.about(thing):
        if r.typ == "part.taken_out" or (r.typ == "part.fitted" and job.takings_back(r)):
            found.append(r)
    return found


def touching(job: Job, key: str) -> list[Record]:
    return [*coming_off(job, key), *(r for r in job.about(position_thing(key)) if r.typ != "configuration.received")]


def said_of(job: Job, key: str) -> list[Record]:
    things = [position_thing(one) for one in (key, *job.ancestors(key))]
    found = [e.record for thing in things for e in job.ever(thing, "scope")]
    found += [e.record for e in job.ever("job", "options") if e.record.typ == "job.amended"]
    return [*found, *touching(job, key)]
