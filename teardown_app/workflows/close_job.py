"""A job is closed when nothing is open; a closed one is reopened with a reason."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.nouns.job import JOB
from teardown_app.domain.points.point import OPEN, Point
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.deed import HANDED_IN, Deed, Field

SHOWN = 5


def close_job(act: Act, points: Sequence[Point], *, note: str = "") -> Drafts:
    """Closes the job. `points` are all its points as they stand."""
    act.working("sign")
    standing = [point for point in points if point.state == OPEN]
    if standing:
        first = " ".join(point.wrong for point in standing[:SHOWN])
        more = f" And {len(standing) - SHOWN} more." if len(standing) > SHOWN else ""
        refuse(
            f"Job {act.job.number} has {len(standing)} open points. {first}{more}",
            "Clear each, or have it conceded.",
            "job open-points",
        )
    return [act.draft("job.closed", (JOB,), note=note or None)]


def reopen_job(act: Act, *, why: str) -> Drafts:
    """Opens a closed job again."""
    act.needs("office")
    if not act.job.closed:
        refuse(f"Job {act.job.number} is not closed.", "Go on working on it.")
    if not why.strip():
        refuse("Reopening needs its reason.", "Say why.")
    return [act.draft("job.reopened", (JOB,), why=why)]


CLOSE = Deed(
    name="job close", about=JOB, do=close_job, writes=("job.closed",),
    says="Close a job on which nothing is open.",
    example="J7K3M00018 --by OF",
    done="Job {job} is closed: nothing missing, nothing over.",
    fields=(Field("points", sort=HANDED_IN), Field("note")),
)  # fmt: skip
REOPEN = Deed(
    name="job reopen", about=JOB, do=reopen_job, writes=("job.reopened",),
    says="Open a closed job again.",
    example="J7K3M00018 --why 'returned with a drip' --by OF",
    done="Job {job} is open again.",
    fields=(Field("why", "Why is it opened again?", "the reason", needed=True),),
)  # fmt: skip
