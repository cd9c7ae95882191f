"""Numbers of parts: a label put on a part, a lost label replaced, two labels that are on one part."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.parts.filling import place_of
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import number_of, parts_of_number
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.called import Elsewhere, nowhere
from teardown_app.workflows.deed import PARTS, REFERENCE, Deed, Field, by_hand
from teardown_app.workflows.label import label_number, not_void


def free_number(act: Act, text: str, elsewhere: Elsewhere = nowhere) -> str:
    """A part's number as printed, that no part has yet."""
    again, wanted = "Scan it again, or read it off the label.", "Take a label for parts: it begins with P."
    number = not_void(act.shop, label_number(text, "P", again=again, wanted=wanted))
    there = parts_of_number(act.job, number)
    if there:
        refuse(f"{number} is on {act.name(there[0])} already.", "Take the next label.")
    other = elsewhere(number)
    if other:
        refuse(f"{number} belongs to {other}.", "Take the next label, and look how this one came here.")
    return number


def put_label(act: Act, part: str, *, number: str, elsewhere: Elsewhere = nowhere) -> Drafts:
    """Puts a label on a part that has none."""
    act.working()
    has = number_of(act.job, part)
    if has:
        refuse(f"{act.name(part)} has the label {has}.", "If that one is lost, say so.", "part relabel")
    return [act.draft("part.tagged", (part,), number=free_number(act, number, elsewhere))]


def relabel(act: Act, part: str, *, number: str, why: str, elsewhere: Elsewhere = nowhere) -> Drafts:
    """A lost or unreadable label is replaced; the old number still stands for the part."""
    act.working()
    if not number_of(act.job, part):
        refuse(f"{act.name(part)} has no label yet.", "Put one on.", "part tag")
    if not why.strip():
        refuse("A new label needs the reason.", "Say what became of the old one.")
    return [act.draft("part.renumbered", (part,), number=free_number(act, number, elsewhere), why=why)]


def same_part(act: Act, parts: Sequence[str], *, why: str, reference: str = "") -> Drafts:
    """Several records turn out to be of one part."""
    act.working()
    different = list(dict.fromkeys(act.job.group(part)[0] for part in parts))
    if len(different) < 2:
        refuse("These are the same part already.", "Name two that are not.")
    fitted = [part for part in different if place_of(act.job, part)]
    if len(fitted) > 1:
        places = " and ".join(named(act.job, place_of(act.job, part)) for part in fitted)
        refuse(f"They are fitted in {places}: one part cannot be in two places.", "Take one out, or name others.")
    if not why.strip():
        refuse("That two parts are one needs its reason.", "Say how it was seen.")
    return [act.draft("part.same_as", tuple(different), why=why, reference=reference.strip() or None)]


TAG = by_hand("part tag", PARTS, "{name}", "part.tagged", "numbers.issued", "label.queued")
RELABEL = by_hand("part relabel", PARTS, "{name}", "part.renumbered", "numbers.issued")
SAME = Deed(
    name="part same", about=PARTS, do=same_part, writes=("part.same_as",),
    says="Say that two labels are on one part.",
    example="PO-7781 P7K3M0000Y P7K3M00018 --why 'tagged twice' --by MK",
    done="{name}: these are the same part.",
    fields=(Field("why", "How was it seen?", "how it was seen", needed=True), REFERENCE),
)  # fmt: skip
