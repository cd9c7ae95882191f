"""How a number on a label is written: its alphabet, its letters, base 34 and the check character.

Holds the form only (`docs/formats/tag.md`); the number as a value, issuing and reading are in `tag.py`.
"""

from __future__ import annotations

from stdnum.iso7064 import mod_37_36

ALPHABET = "0123456789ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Characters of a number: no I and no O."""

LETTERS = {
    "P": "part",
    "H": "hardware bag",
    "C": "carrier",
    "B": "bath",
    "M": "measuring instrument",
    "W": "person",
    "S": "place",
    "J": "job",
    "X": "crate",
    "A": "action",
}

LENGTH = 10
COUNTERS = len(ALPHABET) ** 4
"""Counters of one letter in one incarnation; from 0 to one less than this."""


def with_check(nine: str) -> str:
    """The nine characters with their check character (MOD 37,36 of ISO/IEC 7064) at the end.

    >>> with_check("P7K3M0001")
    'P7K3M0001B'
    """
    return nine + mod_37_36.calc_check_digit(nine)


def in_alphabet(text: str) -> bool:
    """True when every character may stand in a number."""
    return all(character in ALPHABET for character in text)


def fits(text: str) -> bool:
    """True for the ten characters of a number that may be issued, exactly as they are printed."""
    return len(text) == LENGTH and in_alphabet(text) and text[0] in LETTERS and mod_37_36.is_valid(text)


def written(counter: int) -> str:
    """A counter as four characters.

    >>> written(34)
    '0010'
    """
    characters = ""
    for _ in range(4):
        counter, digit = divmod(counter, len(ALPHABET))
        characters = ALPHABET[digit] + characters
    return characters


def counted(characters: str) -> int:
    """The counter that four characters stand for.

    >>> counted("0010")
    34
    """
    counter = 0
    for character in characters:
        counter = counter * len(ALPHABET) + ALPHABET.index(character)
    return counter
