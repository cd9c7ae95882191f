"""Lacks of a part as a whole: it is in no place of the tool and nobody said where it went."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.lacks.lack import FOREIGN_PIECE, UNACCOUNTED, Lack, ToDo, lack, of_part
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.filling import is_accounted_for
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import part_named
from teardown_app.domain.nouns.parts import is_new, own_place


def unaccounted(job: Job, part: str) -> Iterator[Lack]:
    """One lack while a part neither fills a place nor went with a reason."""
    if is_accounted_for(job, part):
        return
    where = of_part(job, part)
    name = part_named(job, part, where.position)
    ground = refs([*job.heads(part, "fit"), *job.heads(part, "disposition")])
    if not own_place(job, part) and not is_new(job, part):
        yield lack(FOREIGN_PIECE, where, f"{name} belongs to no place of the tool.", ground=ground)
        return
    to_do = ToDo("part fit", part) if own_place(job, part) else None
    yield lack(UNACCOUNTED, where, f"{name} is in no place of the tool.", to_do=to_do, ground=ground)
