"""What is wrong with a typed number, in words, at which places, and what it may be.

Finds the first of: length, foreign character, letter, check character. Repairs nothing: that is for a person
with the label in hand. Places are counted from 0 here and from 1 in words.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from attrs import frozen

from teardown_app.domain.tags.tag_form import ALPHABET, LENGTH, LETTERS, fits

LOOK_ALIKES = ("8B", "5S", "2Z", "6G", "0DQ", "17L", "UVY")
"""Characters that are taken for each other on a worn label; common practice, no source."""

MOST_PLACES = 3
"""No more places than this are named; with more the whole number has to be read again anyway."""


@frozen
class Slip:
    """What is wrong with a number, and the places to look at; none where that cannot be told."""

    says: str
    places: tuple[int, ...] = ()


@frozen
class Maybe:
    """A number that would fit, and at which places of the typed one it differs."""

    number: str
    places: tuple[int, ...]
    says: str


def slip(number: str) -> Slip | None:
    """What is wrong with a number already without blanks and in capitals; none when nothing is."""
    if fits(number):
        return None
    return _length(number) or _character(number) or _letter(number) or _check(number)


def _length(number: str) -> Slip | None:
    if len(number) == LENGTH:
        return None
    beyond = tuple(range(LENGTH, len(number)))
    return Slip(f"A number has {LENGTH} characters, this one has {len(number)}; read the label again.", beyond)


def _character(number: str) -> Slip | None:
    for place, character in enumerate(number):
        if character not in ALPHABET:
            return Slip(f"Character {place + 1} is {character!r}; a number has only 0-9 and A-Z.", (place,))
    return None


def _letter(number: str) -> Slip | None:
    if number[0] in LETTERS:
        return None
    known = ", ".join(f"{letter} {named}" for letter, named in LETTERS.items())
    return Slip(f"Character 1 is {number[0]!r}, which names nothing; it must be one of: {known}.", (0,))


def _check(number: str) -> Slip:
    """Names the few places where it would become right; more would be idle guessing."""
    alike, exchanged = list(look_alikes(number)), list(exchanges(number))
    found = alike if len(alike) <= MOST_PLACES else []
    if len(exchanged) == 1:
        found = [*found, *exchanged]
    if not 1 <= len(found) <= MOST_PLACES:
        return Slip("The check character does not fit, so a character is wrong. Read the label again.")
    named = " or ".join(one.says for one in found)
    places = tuple(sorted({place for one in found for place in one.places}))
    return Slip(f"The check character does not fit, so a character is wrong. Look at {named}.", places)


def look_alikes(number: str) -> Iterator[Maybe]:
    """Numbers that fit when one character is taken for one that looks like it.

    >>> [one.says for one in look_alikes("P7K3M000LB")][0]
    'character 9 (1 instead of L would fit)'
    """
    yield from _substitutes(number, lambda wrong: "".join(group for group in LOOK_ALIKES if wrong in group))


def exchanges(number: str) -> Iterator[Maybe]:
    """Numbers that fit when two neighbours change places.

    >>> [one.says for one in exchanges("P73KM0001B")]
    ['characters 3 and 4 (K3 instead of 3K would fit)']
    """
    for place in range(len(number) - 1):
        one, two = number[place], number[place + 1]
        other = number[:place] + two + one + number[place + 2 :]
        if other != number and fits(other):
            says = f"characters {place + 1} and {place + 2} ({two}{one} instead of {one}{two} would fit)"
            yield Maybe(other, (place, place + 1), says)


def one_away(number: str) -> Iterator[Maybe]:
    """Every number that fits and is one slip away: a wrong character, neighbours exchanged, one too few or many.

    >>> "P7K3M0001B" in [one.number for one in one_away("P7K3M001B")]
    True
    """
    if len(number) == LENGTH:
        yield from _substitutes(number)
        yield from exchanges(number)
    if len(number) == LENGTH + 1:
        shorter = {number[:place] + number[place + 1 :]: place for place in range(len(number))}
        for other, place in shorter.items():
            if fits(other):
                yield Maybe(other, (place,), f"character {place + 1} ({number[place]} is too many)")
    if len(number) == LENGTH - 1:
        longer = {number[:place] + one + number[place:]: (place, one) for place in range(LENGTH) for one in ALPHABET}
        for other, (place, one) in longer.items():
            if fits(other):
                yield Maybe(other, (place,), f"character {place + 1} ({one} is missing)")


def _substitutes(number: str, instead: Callable[[str], str] = lambda wrong: ALPHABET) -> Iterator[Maybe]:
    for place, wrong in enumerate(number):
        for one in instead(wrong):
            other = number[:place] + one + number[place + 1 :]
            if one != wrong and fits(other):
                yield Maybe(other, (place,), f"character {place + 1} ({one} instead of {wrong} would fit)")
