"""A wait between two operations is said to be over by somebody with the right to release."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.parts.routing import route_of, waits_open
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.deed import PARTS, Deed, Field


def wait_over(act: Act, parts: Sequence[str], *, why: str) -> Drafts:
    """Ends every wait that runs on these parts, as where another tablet's clock recorded its start."""
    act.working("release")
    if not why.strip():
        refuse("Ending a wait needs its reason.", "Say how you know that it is over.")
    found: dict[tuple[str, str], list[str]] = {}
    for part in parts:
        for name in _waits(act, part):
            found.setdefault(name, []).append(part)
    return [
        act.draft("wait.over", tuple(each), **{"route": route, "operation": one, "pass": 1, "why": why.strip()})
        for (route, one), each in found.items()
    ]


def _waits(act: Act, part: str) -> list[tuple[str, str]]:
    route = route_of(act.job, part)
    waits = waits_open(act.job, part, act.now)
    if route is None or not waits:
        refuse(f"{act.name(part)} rests for nothing.", "Go on with it.")
    return [(route.name, operation.id) for operation, _ in waits]


WAIT_OVER = Deed(
    name="part wait-over", about=PARTS, do=wait_over, writes=("wait.over",),
    says="Say that the wait after an operation is over. Needs the right to release.",
    example="PO-7781 10.20 --why 'dried since Friday, other tablet' --by OF",
    done="{name} rests no longer: {why}",
    fields=(Field("why", "How do you know that it is over?", "how you know that it is over", needed=True),),
)  # fmt: skip
