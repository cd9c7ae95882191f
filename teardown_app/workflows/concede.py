"""An open point is conceded by signature: the customer's reference, the reason, and what it covers."""

from __future__ import annotations

from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.points.point import CONCEDED, Point
from teardown_app.workflows.act import Act, Drafts, refuse


def concede(
    act: Act, point: Point | None, key: str, *, why: str, reference: str, limit: dict[str, str] | None = None
) -> Drafts:
    """Concedes one open point as it stands now. For a reading, `limit` is the widened limit."""
    act.working("concede")
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
            limit=limit,
            covers=list(point.behind),
        )
    ]
