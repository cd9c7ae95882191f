"""What is wrong with a typed number, in words, and where to look.

Finds the first of: length, foreign character, letter, check character. Repairs nothing: that is for a person
with the label in hand.
"""

from __future__ import annotations

from teardown_app.domain.tag_form import ALPHABET, LENGTH, LETTERS, fits

LOOK_ALIKES = ("8B", "5S", "2Z", "6G", "0DQ", "17L", "UVY")
"""Characters that are taken for each other on a worn label; common practice, no source."""

MOST_PLACES = 3
"""No more places than this are named; with more the whole number has to be read again anyway."""


def slip(number: str) -> str:
    """What is wrong with a number already without blanks and in capitals; empty when nothing is."""
    if fits(number):
        return ""
    return _length(number) or _characters(number) or _letter(number) or _check(number)


def _length(number: str) -> str:
    if len(number) == LENGTH:
        return ""
    return f"A number has {LENGTH} characters, this one has {len(number)}; read the label again."


def _characters(number: str) -> str:
    for place, character in enumerate(number, start=1):
        if character not in ALPHABET:
            return f"Character {place} is {character!r}; a number has only 0-9 and A-Z."
    return ""


def _letter(number: str) -> str:
    if number[0] in LETTERS:
        return ""
    known = ", ".join(f"{letter} {named}" for letter, named in LETTERS.items())
    return f"Character 1 is {number[0]!r}, which names nothing; it must be one of: {known}."


def _check(number: str) -> str:
    return "The check character does not fit, so a character is wrong. " + _where(number)


def _where(number: str) -> str:
    """Names the few places where a look-alike would make the number right; more would be idle guessing."""
    right = [f"character {place + 1} ({other} instead of {number[place]} would fit)"
             for place in range(LENGTH) for other in _look_alikes(number[place])
             if fits(number[:place] + other + number[place + 1:])]
    if not 1 <= len(right) <= MOST_PLACES:
        return "Read the label again."
    return "Look at " + " or ".join(right) + "."


def _look_alikes(character: str) -> str:
    return "".join(group.replace(character, "") for group in LOOK_ALIKES if character in group)
