"""Numbers that came through another keyboard: a scanner set to one, a tablet set to another, shift or caps lock.

Holds the keyboards as rows of keys, every number that a text could be if it was typed that way, and when one
of them is taken. A person is asked rather than a number guessed.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from unicodedata import normalize

from attrs import frozen

from teardown_app.domain.tags.tag import as_typed
from teardown_app.domain.tags.tag_form import ALPHABET, fits

KEYBOARDS = {
    "us": ("1234567890qwertyuiopasdfghjkl;zxcvbnm", "!@#$%^&*()QWERTYUIOPASDFGHJKL:ZXCVBNM"),
    "gb": ("1234567890qwertyuiopasdfghjkl;zxcvbnm", '!"£$%^&*()QWERTYUIOPASDFGHJKL:ZXCVBNM'),
    "de": ("1234567890qwertzuiopasdfghjklöyxcvbnm", '!"§$%&/()=QWERTZUIOPASDFGHJKLÖYXCVBNM'),
    "ch": ("1234567890qwertzuiopasdfghjklöyxcvbnm", '+"*ç%&/()=QWERTZUIOPASDFGHJKLéYXCVBNM'),
    "fr": ("&é\"'(-è_çàazertyuiopqsdfghjklmwxcvbn,", "1234567890AZERTYUIOPQSDFGHJKLMWXCVBN?"),
    "be": ("&é\"'(§è!çàazertyuiopqsdfghjklmwxcvbn,", "1234567890AZERTYUIOPQSDFGHJKLMWXCVBN?"),
    "it": ("1234567890qwertyuiopasdfghjklòzxcvbnm", '!"£$%&/()=QWERTYUIOPASDFGHJKLçZXCVBNM'),
    "es": ("1234567890qwertyuiopasdfghjklñzxcvbnm", '!"·$%&/()=QWERTYUIOPASDFGHJKLÑZXCVBNM'),
}
"""What each key gives without and with shift, as xkeyboard-config has it: ten keys of digits, then 10, 10 and 7."""

ARRANGED = ("us", "de", "fr")
"""One keyboard of each arrangement of letters: the digits lie on the same keys everywhere."""

CIRCUMFLEX = "\u0302"
"""On keyboards where shift and 6 is a dead key, it melts with the letter that follows."""


@frozen
class Reading:
    """A number that a text could be, and what is different about the scanner's keyboard."""

    number: str
    differs: str


AS_IT_STANDS, PUT_RIGHT, ASK = "as it stands", "put right", "ask"


def judged(text: str, is_known: Callable[[str], bool]) -> tuple[str, tuple[Reading, ...]]:
    """Whether a text is taken as it stands, put right to one number, or asked about, and the numbers it can be.

    What is right as it stands is taken, unless nobody knows it here and another keyboard makes it a number
    that is known. Put right is only what can be one number alone, and that a known one.

    >>> judged("P/K§M===!B", lambda number: True)[0], judged("P/K§M===!B", lambda number: False)[0]
    ('put right', 'ask')
    """
    others, stands = readings(text), as_typed(text)
    known = tuple(one for one in others if is_known(one.number))
    if not others or (fits(stands) and (not known or is_known(stands))):
        return AS_IT_STANDS, ()
    if fits(stands):
        return ASK, (Reading(stands, ""), *known)
    return (PUT_RIGHT if len(others) == 1 and known else ASK), others


def readings(text: str) -> tuple[Reading, ...]:
    """Every other number that the text could be, through all pairs of keyboards; the text as it stands is left out.

    >>> readings("P/K§M===!B")
    (Reading(number='P7K3M0001B', differs='signs for digits'),)
    >>> readings("P7K3M0001B")
    ()
    """
    sent, found = text.strip(), dict[str, Reading]()
    for table in _tables():
        number = _through(sent, table)
        if number and number not in found and number != as_typed(text) and fits(number):
            found[number] = Reading(number, _differs(sent, number))
    return tuple(found.values())


def _through(sent: str, table: dict[str, str]) -> str:
    """The text as typed on the other keyboard; empty when a character is on no key that a number needs."""
    read = []
    for character in sent:
        melted = normalize("NFD", character)
        if character not in table and melted[1:] == CIRCUMFLEX:
            read += [table.get("^", ""), table.get(melted[0], "")]
        else:
            read.append(table.get(character, ""))
    return "".join(read) if all(read) else ""


@cache
def _tables() -> tuple[dict[str, str], ...]:
    """What each character would be, for every pair of keyboards."""
    return tuple(_table(tablet, scanner) for tablet in KEYBOARDS for scanner in ARRANGED)


def _table(tablet: str, scanner: str) -> dict[str, str]:
    """What shows on the tablet -> what the scanner meant. Shift is not asked: locks turn it round."""
    meant = [_of_numbers(*levels) for levels in zip(*KEYBOARDS[scanner], strict=True)]
    table: dict[str, str] = {}
    for row in KEYBOARDS[tablet]:
        table |= {shown: character for shown, character in zip(row, meant, strict=True) if character}
    capitals = {shown.upper(): character for shown, character in table.items() if len(shown.upper()) == 1}
    return capitals | table


def _of_numbers(plain: str, shifted: str) -> str:
    """What a key can say in a number; empty when nothing."""
    return next((one for one in (plain.upper(), shifted.upper()) if one in ALPHABET), "")


def _differs(sent: str, number: str) -> str:
    """What is different about the keyboards, as far as this number shows it."""
    shown = normalize("NFD", sent).upper() if len(sent) != len(number) else sent.upper()
    pairs = [(one, other) for one, other in zip(shown, number, strict=False) if one != other]
    letters = sorted({one for pair in pairs if pair[1].isalpha() for one in pair if one.isascii() and one.isalpha()})
    said = []
    if len(letters) == 2:
        said.append(f"{letters[0]} and {letters[1]} exchanged")
    elif letters:
        said.append(f"{', '.join(letters)} in {'other places' if letters[1:] else 'another place'}")
    if any(other.isdigit() for _, other in pairs):
        said.append("signs for digits")
    return ", ".join(said)
