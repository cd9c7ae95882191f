"""A job is closed when nothing is open; a closed one is reopened with a reason."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.job.job import JOB
from teardown_app.domain.lacks.lack import SIGN_AGAIN, TO_ACCEPT
from teardown_app.domain.points.point import OPEN, Point
from teardown_app.domain.signed.signing import closing_stands
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.concede import accept_point
from teardown_app.workflows.deed import HANDED_IN, REFERENCE, Deed, Field, one_of
from teardown_app.workflows.sign import MEANINGS, sign

SHOWN = 5


def to_accept(points: Sequence[Point]) -> list[Point]:
    """What closing asks to be accepted, one by one."""
    return [point for point in points if point.state == OPEN and point.kind == TO_ACCEPT]


def stops_closing(points: Sequence[Point]) -> list[Point]:
    """What is open, but for a signature on the job that does not stand any more: closing signs it anew."""
    signed = f"{SIGN_AGAIN}|{JOB}|"
    return [point for point in points if point.state == OPEN and point.key != signed]


def close_job(
    act: Act,
    points: Sequence[Point],
    *,
    meaning: str = MEANINGS[2],
    accept: Sequence[str] = (),
    reference: str = "",
    note: str = "",
) -> Drafts:
    """Signs the job and closes it, in one act. `points` are all its points as they stand.

    `accept` names points *to be accepted* by their keys: each is conceded before the signature.
    """
    act.working("sign")
    accepted = [draft for key in accept for draft in accept_point(act, points, key, reference=reference)]
    standing = [point for point in stops_closing(points) if point.key not in accept]
    if standing:
        first = " ".join(point.wrong for point in standing[:SHOWN])
        more = f" And {len(standing) - SHOWN} more." if len(standing) > SHOWN else ""
        refuse(
            f"Job {act.job.number} has {len(standing)} open points. {first}{more}",
            "Clear each, or have it conceded.",
            "job open-points",
        )
    return [*accepted, *sign(act, JOB, meaning=meaning), act.draft("job.closed", (JOB,), note=note or None)]


def reopen_job(act: Act, *, why: str) -> Drafts:
    """Opens a closed job again."""
    act.needs("office")
    if not closing_stands(act.job):
        refuse(f"Job {act.job.number} is not closed.", "Go on working on it.")
    if not why.strip():
        refuse("Reopening needs its reason.", "Say why.")
    return [act.draft("job.reopened", (JOB,), why=why)]


CLOSE = Deed(
    name="job close", about=JOB, do=close_job, writes=("point.conceded", "work.signed", "job.closed"),
    says="Sign and close a job on which nothing is open.",
    example="J7K3M00018 --by OF",
    done="Job {job} is closed: nothing missing, nothing over.",
    fields=(Field("points", sort=HANDED_IN),
            Field("meaning", "What does your signature mean?", one_of(MEANINGS), offers=lambda act: MEANINGS),
            Field("accept", says="key of a point to be accepted", many=True),
            REFERENCE,
            Field("note")),
)  # fmt: skip
REOPEN = Deed(
    name="job reopen", about=JOB, do=reopen_job, writes=("job.reopened",),
    says="Open a closed job again.",
    example="J7K3M00018 --why 'returned with a drip' --by OF",
    done="Job {job} is open again.",
    fields=(Field("why", "Why is it opened again?", "the reason", needed=True),),
)  # fmt: skip
