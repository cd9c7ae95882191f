"""Which numbers are known to have been issued: what a label that cannot be read may be."""

from __future__ import annotations

from functools import lru_cache
from itertools import chain, islice

from teardown_app.domain.shop.shop import Shop
from teardown_app.domain.tags.tag import Tag
from teardown_app.domain.tags.tag_form import fits, with_check, written

SERIES = "numbers:"


def issued_numbers(shop: Shop, most: int) -> list[str]:
    """Numbers that tablets are recorded to have issued, the last ones of each series first, evenly of all series."""
    series = []
    for thing in shop.things("issued"):
        letters = thing.removeprefix(SERIES)
        entries = shop.entries(thing, "issued")
        for letter in sorted({entry.value.letter for entry in entries}):
            series.append((letters, letter, shop.next_counter(letters, letter)))
    each = -(-most // max(1, len(series)))
    return list(islice(chain.from_iterable(_last(*one, each) for one in series), most))


def is_issued(shop: Shop, tag: Tag) -> bool:
    """True for a number that a tablet is recorded to have issued."""
    return tag.counter < shop.next_counter(tag.incarnation, tag.letter)


@lru_cache(maxsize=64)
def _last(letters: str, letter: str, following: int, count: int) -> tuple[str, ...]:
    """The last numbers of a series before a counter, the newest first."""
    made = (with_check(letter + letters + written(counter)) for counter in range(following - 1, -1, -1))
    return tuple(islice((number for number in made if fits(number)), count))
