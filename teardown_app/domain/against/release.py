"""What stands against releasing a part, and against going on with one that does not go back into the tool."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import GONE_PART, Lack, ToDo, lack, of_part
from teardown_app.domain.lacks.release import away, release_conditions, wait_lacks
from teardown_app.domain.parts.going_back import GONE
from teardown_app.domain.parts.naming import part_named
from teardown_app.domain.parts.parts import disposition_of
from teardown_app.domain.parts.routing import Moment


def against_release(job: Job, part: str, moment: Moment | None) -> list[Lack]:
    """All that stands between a part and its release at a moment (None: waits are not asked)."""
    waits = wait_lacks(job, part, moment) if moment is not None else ()
    return [*away(job, part), *waits, *release_conditions(job, part)]


def against_going_on(job: Job, part: str) -> Iterator[Lack]:
    """A part that is not to go back into the tool: by its disposition, or because another job has it."""
    word = disposition_of(job, part)
    if word in GONE:
        where = of_part(job, part)
        wrong = f"{part_named(job, part, where.position)} is dispositioned {word}."
        yield lack(GONE_PART, where, wrong, to_do=ToDo("part judge", part))
    yield from away(job, part)
