"""Every kind of open point and what clears it; a job worked to its end."""

from __future__ import annotations

from collections.abc import Callable

from tests.open_points.naive import Seen
from tests.proof import clear_parts as parts
from tests.proof import clear_places as places
from tests.proof.honest import Honest

Deed = Callable[[Honest, str, str], None]
"""What is done about a point, by its subject and which."""

CLEARS: dict[str, Deed] = {
    "missing": parts.missing,
    "fitted over an empty position": parts.over_empty,
    "fitted twice": parts.fitted_twice,
    "belongs to another job or owner": parts.change,
    "wrong component": parts.change,
    "swapped within a matched set": parts.change,
    "hardware does not balance": places.balance,
    "joint not torqued or due again": places.tighten,
    "consumable not renewed or expired": places.renew,
    "temporary in or out wrongly": places.in_or_out,
    "check due": parts.check_due,
    "hold": parts.lift,
    "approval waiting": parts.answer,
    "declined by the customer": parts.answer,
    "not released": parts.released,
    "tagged but unaccounted for": parts.account_for,
    "foreign piece": parts.account_for,
    "debt": places.give_back,
    "label of two parts": parts.new_labels,
    "two different entries": places.agree_or_count,
    "to be accepted": places.accept,
    "sign again": places.sign,
    "recall": places.notice,
    "record by someone without the right": places.again_or_back,
    "record kept that does not fit": places.again_or_back,
    "two versions of a record": places.both_seen,
    "record not here": places.retire,
}
"""Not in it: what a newer app wrote, nobody here knows."""

ROUNDS = 12
"""After so many looks at the list a job that is still open is taken for stuck: our own figure."""


def clear(hand: Honest, key: str) -> None:
    """Does what a point says."""
    kind, subject, which = key.split("|")
    CLEARS[kind](hand, subject, which)


def work_off(hand: Honest) -> None:
    """All that stands open is done, until nothing is; then it is signed and closed."""
    for _ in range(ROUNDS):
        todo = hand.points()
        if not todo:
            break
        still = {each.key for each in todo}
        for each in todo:
            if each.key in still:
                clear(hand, each.key)
                still = {one.key for one in hand.points()}
    hand.close()


def concede_rest(hand: Honest) -> None:
    """What is never conceded is done, the rest conceded as it stands; then it is signed and closed."""
    for _ in range(ROUNDS):
        todo = [each for each in hand.points() if not _is_signed(hand, each)]
        if not todo:
            break
        never = [each for each in todo if each.never]
        for each in never:
            clear(hand, each.key)
        for each in [] if never else todo:
            hand.concede(each)
    for each in [each for each in hand.points() if _is_signed(hand, each)]:
        clear(hand, each.key)
    hand.close()


def _is_signed(hand: Honest, seen: Seen) -> bool:
    """Whether it is to be signed again, and is a thing of this job."""
    return seen.kind == "sign again" and bool(seen.position or seen.part or seen.key == "sign again|job|")
