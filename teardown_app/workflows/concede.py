"""An open point is conceded by signature: the customer's reference, the reason, and what it covers."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.job.job import JOB
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.seat import line_names
from teardown_app.domain.points.point import CONCEDED, Point
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.deed import HANDED_IN, Deed, Field


def concede(act: Act, points: Sequence[Point], key: str, *, why: str, reference: str, limit: str = "") -> Drafts:
    """Concedes one of the job's `points` as it stands now. For a reading, `limit` is the widened limit."""
    point = next((one for one in points if one.key == key), None)
    act.working(second_right(act, point))
    if point is None:
        refuse(f"There is no open point {key}.", "List them.", "job open-points")
    if point.state == CONCEDED:
        refuse(f"{point.wrong} It is conceded already.", "Nothing needs to be done.")
    if point.never:
        refuse(f"{point.wrong} This is never conceded.", point.clears)
    if not why.strip() or not reference.strip():
        refuse("A concession needs its reason and the customer's reference.", "Give both.")
    about = point.part or (position_thing(point.position) if point.position else "job")
    return [
        act.draft(
            "point.conceded",
            (about,),
            key=key,
            why=why,
            reference=reference,
            limit={"text": limit} if limit else None,
            covers=list(point.behind),
            lines=line_names(act.job, point.part) if point.part else None,
        )
    ]


def second_right(act: Act, point: Point | None) -> str:
    """The right that conceding needs: of what is to be accepted also the right that the point names."""
    has = act.rights()
    return point.right if point is not None and point.right in has and "concede" not in has else "concede"


def accept_point(act: Act, points: Sequence[Point], key: str, *, reference: str = "") -> Drafts:
    """Accepts what was said or taken back; the order is its reference where none is given."""
    reference = reference.strip() or act.job.said("order")
    return concede(act, points, key, why="accepted", reference=reference)


CONCEDE = Deed(
    name="job concede", about=JOB, do=concede, writes=("point.conceded",),
    says="Concede one open point by signature, with the customer's reference.",
    example="J7K3M00018 'missing|10.20|' --why 'spare follows' --reference PO-7781-3 --by OF",
    done="Conceded: {key}",
    fields=(Field("points", sort=HANDED_IN),
            Field("key", says="key of the open point, as job open-points --json gives it", first=True),
            Field("why", "Why is it accepted?", "the reason", needed=True),
            Field("reference", "The customer's reference for it", "the customer's reference for it", needed=True),
            Field("limit", says="for a reading: the widened limit, as '0.05 mm'")),
)  # fmt: skip
