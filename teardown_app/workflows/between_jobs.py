"""Parts and hardware between two jobs, as people name them: one part, or the hardware of one place, in one act."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.called import place_meant, thing_of
from teardown_app.workflows.deed import OTHER_JOB, PARTS, PLACE, PLACES, WHOLE, Deed, Field
from teardown_app.workflows.hand_over import give_back, hand_over


def part_over(act: Act, parts: Sequence[str], *, to: Act, for_: str, consent: str) -> Drafts:
    """A part goes into a place of another job."""
    return hand_over(act, to, _one(parts), for_, consent=consent)


def part_back(act: Act, parts: Sequence[str], *, from_: Act, consent: str) -> Drafts:
    """The part itself comes back."""
    return give_back(act, from_, _one(parts), consent=consent)


def like_back(act: Act, parts: Sequence[str], *, from_: Act, consent: str) -> Drafts:
    """Another part comes back in its place; it stays in the other job."""
    return give_back(act, from_, _one(parts), consent=consent, like=True)


def hardware_over(act: Act, keys: Sequence[str], *, to: Act, for_: str, quantity: int, consent: str) -> Drafts:
    """Counted hardware goes into the bag of a place of another job."""
    place, into = place_meant(act, _one(keys), "hardware"), place_meant(to, for_, "hardware")
    return hand_over(act, to, thing_of(place), into.key, consent=consent, quantity=quantity)


def hardware_back(act: Act, keys: Sequence[str], *, from_: Act, consent: str, quantity: int | None = None) -> Drafts:
    """Hardware, or its like, comes back: all that is owed where no quantity is named."""
    place = place_meant(act, _one(keys), "hardware")
    return give_back(act, from_, thing_of(place), consent=consent, quantity=quantity)


def _one(named: Sequence[str]) -> str:
    if len(named) != 1:
        refuse("Each goes to another job by itself.", "Name one, with its consent.")
    return named[0]


_TO = Field("to", says="the job that takes it", sort=OTHER_JOB, needed=True)
_FOR = Field("for_", says="place in that job", sort=PLACE, needed=True)
_FROM = Field("from_", says="the job that took it", sort=OTHER_JOB, needed=True)
_AGREED = Field("consent", says="where the owner agreed, such as 'mail 2026-03-14'", needed=True)
_WRITTEN = Field("consent", says="where it is written", needed=True)

PART_OVER = Deed(
    name="part hand-over", about=PARTS, do=part_over, writes=("goods.handed_over", "goods.taken_over"),
    says="Hand a part over to another job, with consent.",
    example="PO-7781 10.20 --to PO-9 --for 10.20 --consent 'mail 2026-03-14' --by OF",
    done="{name} went from {job} to {to}; it is owed until given back.",
    fields=(_TO, _FOR, _AGREED),
)  # fmt: skip
PART_BACK = Deed(
    name="part give-back", about=PARTS, do=part_back, writes=("goods.given_back", "disposition.given"),
    says="Record that a part handed over came back itself.",
    example="PO-7781 10.20 --from PO-9 --consent 'mail 2026-03-20' --by OF",
    done="{name}: nothing is owed any more.",
    fields=(_FROM, _WRITTEN),
)  # fmt: skip
LIKE_BACK = Deed(
    name="part give-like", about=PARTS, do=like_back, writes=("goods.given_back",),
    says="Record that another part came back in place of one handed over, which stays in the other job.",
    example="PO-7781 10.20 --from PO-9 --consent 'mail 9' --by OF",
    done="{name} stays with job {job}; nothing is owed for it any more.",
    fields=(_FROM, _WRITTEN),
)  # fmt: skip
HARDWARE_OVER = Deed(
    name="hardware hand-over", about=PLACES, do=hardware_over,
    writes=("goods.handed_over", "goods.taken_over", "hardware.moved"),
    says="Hand counted hardware over to another job, with consent.",
    example="PO-7781 10.91 --to PO-9 --for 10.91 --quantity 1 --consent 'mail 3' --by OF",
    done="{quantity} of {name} went from {job} to {to}.",
    fields=(_TO, _FOR, Field("quantity", says="how many", sort=WHOLE, needed=True), _AGREED),
)  # fmt: skip
HARDWARE_BACK = Deed(
    name="hardware give-back", about=PLACES, do=hardware_back, writes=("goods.given_back", "hardware.moved"),
    says="Record that hardware handed over, or its like, came back.",
    example="PO-7781 10.91 --from PO-9 --consent 'mail 9' --by OF",
    done="{quantity} of {name} came back from {job}.",
    fields=(_FROM, Field("quantity", says="how many; all that are owed without it", sort=WHOLE), _WRITTEN),
)  # fmt: skip
