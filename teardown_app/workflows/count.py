"""Hardware is counted as found: one place, or several whose screws are in one bag."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.ledger.record import position_thing
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.called import in_scope, places_meant
from teardown_app.workflows.deed import PLACES, REFERENCE, WHOLE, Deed, Field
from teardown_app.workflows.label import label_number, not_void

MOST = 100_000


def count(act: Act, keys: Sequence[str], found: int, *, bag: str = "", reference: str = "") -> Drafts:
    """Records how many were found. A recount replaces what was counted before."""
    act.working()
    positions = places_meant(act, keys, "hardware")
    for position in positions:
        in_scope(act, position)
    if not 0 <= found <= MOST:
        refuse(f"{found} is no count.", "Count again; none found is 0.")
    things = tuple(position_thing(position.key) for position in positions)
    body = {"found": found, "bag": _bag(act, bag) or None, "reference": reference.strip() or None}
    return [act.draft("hardware.counted", things, **body)]


def _bag(act: Act, text: str) -> str:
    if not text:
        return ""
    again, wanted = "Scan the bag's label again.", "A bag's label begins with H."
    return not_void(act.shop, label_number(text, "H", again=again, wanted=wanted))


COUNT = Deed(
    name="hardware count", about=PLACES, do=count, writes=("hardware.counted",),
    says="Count hardware as found; several places at once when their screws are in one bag.",
    example="PO-7781 10.90 --found 8 --by MK",
    done="{name}: {found} found.",
    fields=(Field("found", says="how many, over all these places", sort=WHOLE, needed=True),
            Field("bag", says="number on the bag's label (H…)"),
            REFERENCE),
)  # fmt: skip
