"""A label as scanned or typed, of the sort that is asked for; and one that is not to be used any more."""

from __future__ import annotations

from teardown_app.domain.shop.labels import why_void
from teardown_app.domain.shop.shop import Shop
from teardown_app.domain.tags.tag import Tag, TagFault, parse
from teardown_app.workflows.act import refuse


def number_of_ours(typed: str) -> Tag:
    """A number as scanned or typed, of any sort."""
    try:
        return parse(typed)
    except TagFault as fault:
        refuse(f"{typed} is no number of ours: {fault}", "Scan it again, or read it off the label.")


def label_number(typed: str, letter: str, *, again: str, wanted: str) -> str:
    """The number on a label of one letter. `again` says what to do about one that cannot be read, `wanted` what
    begins with that letter."""
    try:
        tag = parse(typed)
    except TagFault as fault:
        refuse(f"{typed} is no number of ours: {fault}", again)
    if tag.letter != letter:
        refuse(f"{tag.number} is a label for {tag.names}.", wanted)
    return tag.number


def not_void(shop: Shop, number: str) -> str:
    """The number, unless its label was made void: that one is never put on anything."""
    why = why_void(shop, number)
    if why:
        refuse(f"{number} was made void {why}.", "Destroy this label and take the next one.")
    return number
