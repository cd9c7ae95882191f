"""A check is read on a part or a place, or could not be; and when it may be."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from teardown_app.domain.against.reading import against_reading
from teardown_app.domain.ledger.record import is_position
from teardown_app.domain.places.checking import BINDS_NOTHING, spoils_ahead
from teardown_app.workflows.act import Act, Drafts, refuse, refuse_for
from teardown_app.workflows.asked import Asked, named_thing
from teardown_app.workflows.deed import PARTS, by_hand
from teardown_app.workflows.open_job import check_day
from teardown_app.workflows.reading import Taken, read


def read_check(act: Act, thing: str, asked: Asked, taken: Taken) -> Drafts:
    """Records a reading on a part or a place. The verdict is computed where the limit is a number."""
    act.working()
    rested(act, thing, asked)
    body = read(act, thing, asked, taken)
    limit = asked.check.limit.text if asked.check.limit else None
    extra = {"limit": limit, "note": taken.note or None, "reference": taken.reference.strip() or None}
    about = {"check": asked.check.name, "spot": asked.spot, "when": asked.when}
    return [act.draft("check.read", (thing,), **about, **body, **extra)]


def rested(act: Act, thing: str, asked: Asked) -> None:
    """Refuses a binding reading while what was done to the part has to rest, or before it is to be looked at again."""
    refuse_for(against_reading(act.job, thing, asked.check, asked.when, asked.spot, act.now))


def not_possible(act: Act, thing: str, asked: Asked, *, why: str, expected: str = "") -> Drafts:
    """Records that a check could not be read, or that its result comes later on a day that is expected (a sample
    at the laboratory, say); it stays open."""
    act.working()
    if expected:
        check_day(expected)
    if not why.strip():
        refuse(f"{named_thing(act, thing)}: {asked.check.name} stays open.", "Say why it could not be read.")
    body = {"check": asked.check.name, "spot": asked.spot, "when": asked.when, "why": why}
    return [act.draft("check.not_possible", (thing,), **body, expected=expected or None)]


def warnings(act: Act, thing: str, asked: Asked, body: Mapping[str, Any]) -> list[str]:
    """What should be known of a reading that was taken all the same."""
    judged_by_hand = asked.check.limit is not None and "value" not in body and "readings" not in body
    bare = judged_by_hand and not body.get("note", "").strip()
    said = ["No note says what it was held against."] if bare else []
    said += _sureness(body)
    if body.get("unfit"):
        said.append(f"It is kept, and releases nothing: {body['unfit']}.")
    return said + _binding(act, thing, asked)


def _sureness(body: Mapping[str, Any]) -> list[str]:
    """How sure the verdict is: tolerance to uncertainty, or how many uncertainties the reading lies off the limit."""
    decided = body.get("decided", {})
    if "ratio" in decided:
        return [f"Tolerance to uncertainty {float(decided['ratio']):.3g} : 1."]
    size = float(body["uncertainty"]["text"]) if "uncertainty" in body else 0.0
    if "margin" in decided and size:
        return [f"{abs(float(decided['margin'])) / size:.2g} times its uncertainty from the limit."]
    return []


def _binding(act: Act, thing: str, asked: Asked) -> list[str]:
    if asked.when in BINDS_NOTHING:
        return [f"{asked.when.capitalize()}: it shows its verdict and binds nothing."]
    if is_position(thing):
        return []
    ahead = spoils_ahead(act.job, thing, asked.check)
    return [f"{', '.join(ahead)} is still to come and spoils this reading."] if ahead else []


READ = by_hand("check read", PARTS, "{name}: {check}: {reading}{verdict}{limit}.", "check.read")
IMPOSSIBLE = by_hand(
    "check impossible", PARTS, "{name}: {check} could not be read; it stays open.", "check.not_possible"
)
