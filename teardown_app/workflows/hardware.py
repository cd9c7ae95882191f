"""Counted hardware is moved: taken new, put in, taken out again, scrapped, lost, left over."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.ledger.record import Draft
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.hardware import bag_of, put_in, surplus
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.called import in_scope, places_meant, thing_of
from teardown_app.workflows.deed import PLACES, REFERENCE, WHOLE, WHOLE_OR_ALL, Deed, Field

ALL = "all"
"""As a number of screws put in: as many as are still missing in the place."""

MOVES = {
    "added": ("added", 1),
    "put in": ("put_in", 1),
    "taken out": ("put_in", -1),
    "scrapped": ("scrapped", 1),
    "lost": ("lost", 1),
    "found short": ("found_short", 1),
    "left over": ("left_over", 1),
}
"""What can happen to hardware, the field that says it, and its sign. Taken out goes back to the bag."""

WITH_REASON = ("scrapped", "left over")
WITH_SEARCH = ("lost", "found short")
"""What is not there was searched for: where."""


def move(
    act: Act,
    keys: Sequence[str],
    moves: Mapping[str, int | str],
    *,
    why: str = "",
    search: str = "",
    reference: str = "",
) -> Drafts:
    """Moves hardware at these places: word of `MOVES` -> how many, for *put in* also `all`."""
    act.working()
    if not moves:
        refuse("Nothing is moved.", f"Say how many were {', '.join(MOVES)}.")
    if any(word in moves for word in WITH_REASON) and not why.strip():
        refuse("Hardware that is scrapped or left over needs its reason.", "Say why.")
    if any(word in moves for word in WITH_SEARCH) and not search.strip():
        refuse("Hardware that is lost or was found short was searched for.", "Say where.")
    said = {"why": why.strip() or None, "search": search.strip() or None, "reference": reference.strip() or None}
    in_bag: dict[tuple[str, ...], int] = {}
    return [_move(act, position, moves, said, in_bag) for position in places_meant(act, keys, "hardware")]


def _move(
    act: Act,
    position: Position,
    moves: Mapping[str, int | str],
    said: Mapping[str, str | None],
    in_bag: dict[tuple[str, ...], int],
) -> Draft:
    in_scope(act, position)
    numbers = {word: _number(act, position, word, number) for word, number in moves.items()}
    fields: dict[str, int] = {}
    for word, number in numbers.items():
        field, sign = MOVES[word]
        fields[field] = fields.get(field, 0) + sign * number
    _check_place(act, position, fields.get("put_in", 0))
    _check_bag(act, position, fields, in_bag)
    return act.draft("hardware.moved", (thing_of(position),), **said, **fields)


def _number(act: Act, position: Position, word: str, number: int | str) -> int:
    missing = (position.count or 0) - put_in(act.job, position.key)
    if number == ALL and word == "put in":
        if missing <= 0:
            refuse(f"{named(act.job, position.key)}: all {position.count} are in.", "Nothing needs to be put in.")
        return missing
    if not isinstance(number, int) or number < 1:
        refuse(f"{number} {word} is no count.", "Count them: 1 or more.")
    return number


def _check_place(act: Act, position: Position, more: int) -> None:
    """No more in the place than it takes, no more out than are in."""
    name, inside = named(act.job, position.key), put_in(act.job, position.key)
    if position.count is None and more:
        refuse(f"{name} has no count in the bill.", "Nothing needs to be recorded.")
    if more > 0 and inside + more > (position.count or 0):
        refuse(
            f"{name} takes {position.count}: {inside} are in, {more} more are too many.",
            "Count what is in the place. What does not belong there is left over.",
        )
    if inside + more < 0:
        refuse(f"{name}: {inside} are in, {-more} cannot come out.", "Count again.")


def _check_bag(act: Act, position: Position, fields: Mapping[str, int], in_bag: dict[tuple[str, ...], int]) -> None:
    """No more taken from the bag than was counted into it; several places may share a bag."""
    bag = tuple(sorted(bag_of(act.job, position.key)))
    before = in_bag.get(bag, surplus(act.job, position.key))
    after = before + fields.get("added", 0)
    after -= sum(fields.get(name, 0) for name in ("put_in", "scrapped", "lost", "left_over"))
    if after < 0 and after < before:
        there, wanted = max(before, 0), before - after
        refuse(
            f"{named(act.job, position.key)}: {there} are in the bag, {wanted} cannot come out of it.",
            "Count what was found, or say how many were taken new.",
        )
    in_bag[bag] = after


def balance(act: Act, position: Position) -> str:
    """How the place and its bag stand, in words."""
    inside, over = put_in(act.job, position.key), surplus(act.job, position.key)
    shared = len(bag_of(act.job, position.key)) > 1
    bag = "the shared bag" if shared else "the bag"
    rest = f"{over} still in {bag}" if over > 0 else f"{-over} more used than counted" if over else f"{bag} is empty"
    return f"{named(act.job, position.key)}: {inside} of {position.count} in, {rest}."


Number = int | str | None


def move_each(
    act: Act,
    keys: Sequence[str],
    *,
    added: Number = None,
    put_in: Number = None,
    taken_out: Number = None,
    scrapped: Number = None,
    lost: Number = None,
    found_short: Number = None,
    left_over: Number = None,
    why: str = "",
    search: str = "",
    reference: str = "",
) -> Drafts:
    """The same, each number by itself."""
    numbers = zip(MOVES, (added, put_in, taken_out, scrapped, lost, found_short, left_over), strict=True)
    moves = {word: number for word, number in numbers if number is not None}
    return move(act, keys, moves, why=why, search=search, reference=reference)


MOVE = Deed(
    name="hardware move", about=PLACES, do=move_each, writes=("hardware.moved",),
    says="Say what became of counted hardware; the balance is said after.",
    example="PO-7781 10.90 --added 1 --put-in --by AS",
    done="{name} is moved.",
    fields=(Field("added", says="how many were taken new", sort=WHOLE),
            Field("put_in", says="how many went into the place; all that are missing without N", sort=WHOLE_OR_ALL),
            Field("taken_out", says="how many came out of the place again, back to the bag", sort=WHOLE),
            Field("scrapped", says="how many were thrown away", sort=WHOLE),
            Field("lost", says="how many were found and are lost", sort=WHOLE),
            Field("found_short", says="how many were never found", sort=WHOLE),
            Field("left_over", says="how many remain when the place is full", sort=WHOLE),
            Field("why", "Why?", "the reason; needed for scrapped and left over"),
            Field("search", "Where was it searched for?", "where it was searched for; needed for lost and found short"),
            REFERENCE),
)  # fmt: skip
