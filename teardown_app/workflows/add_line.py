"""A place for a part that the bill lacks, such as a bracket somebody added to the tool."""

from __future__ import annotations

from teardown_app.domain.job.job import JOB
from teardown_app.domain.ledger.kinds.job import added_position
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import own_place, parts_of_number
from teardown_app.domain.tags.tag import TagFault, parse
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.called import place_meant
from teardown_app.workflows.deed import NUMBER, PLACE, Deed, Field


def add_line(act: Act, parent: str = "", *, part_number: str, description: str, number: str, why: str = "") -> Drafts:
    """Adds a place beneath an assembly (`""`: the tool). `number` is on the label of its first part.

    A part that has the number already and no place yet is said to have come out of the new place.
    """
    act.working()
    if not part_number.strip() or not description.strip():
        refuse("A line needs a part number and a description.", "Give what is on the part, or what you call it.")
    above = _parent(act, parent)
    tag = _part_label(number)
    place = added_position(above, tag)
    if place[1:] in act.job.positions:
        refuse(f"{place[1:]} is a place already.", "Nothing needs to be added.")
    body = {"parent": above, "part_number": part_number.strip(), "description": description.strip()}
    added = act.draft("line.added", (place,), number=tag, why=why.strip() or None, **body)
    return [added, *_first_part(act, tag, place[1:])]


def _parent(act: Act, parent: str) -> str:
    if not parent:
        return ""
    position = place_meant(act, parent)
    if position.line.kind != "assembly":
        refuse(
            f"{named(act.job, position.key)} is no assembly.",
            "Name the assembly that the part hangs beneath.",
        )
    return position.key


def _part_label(number: str) -> str:
    try:
        tag = parse(number)
    except TagFault as fault:
        refuse(f"{number} is no number of a label.", str(fault))
    if tag.letter != "P":
        refuse(f"{tag.number} is the label of a {tag.names}.", "Put a part label on it.")
    return tag.number


def _first_part(act: Act, number: str, key: str) -> Drafts:
    """Where its first part is known already: it came out of the new place."""
    known = parts_of_number(act.job, number)
    if len(known) > 1:
        refuse(f"{number} is on {len(known)} parts.", "Give one of them a new label first.")
    if not known:
        return []
    place = own_place(act.job, known[0])
    if place:
        refuse(f"{number} belongs to {named(act.job, place)} already.", "Take the label of the added part.")
    return [act.draft("part.noted", (known[0],), out_of=key)]


ADD_LINE = Deed(
    name="job add-line", about=JOB, do=add_line, writes=("line.added", "part.noted"),
    says="Add a place for a part that the bill lacks.",
    example="PO-7781 --parent 10 --part-number BR-7 --description 'bracket, hose' "
    "--number P7K3M0001B --why 'found on the tool' --by MK",
    done="{description} has the place {thing} now.",
    fields=(
        Field("parent", says="assembly it hangs beneath; else the tool", sort=PLACE),
        Field("part_number", "What number is on it?", "the number on it", needed=True),
        Field("description", "What is it?", "noun first, such as 'bracket, hose'", needed=True),
        Field("number", "Scan the label you put on it", "number on its first part's label", sort=NUMBER, needed=True),
        Field("why", "Why?", "the reason"),
    ),
)  # fmt: skip
