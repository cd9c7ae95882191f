"""Numbers on labels: one letter, four characters of incarnation, four of counter, one check character.

Holds the number as a value, how it is read when typed and how new ones are issued. Which thing a number
names, and which counters are used up, is known by the records and not here.
"""

from __future__ import annotations

from attrs import frozen

from teardown_app.domain.tags.tag_form import (
    ALPHABET,
    COUNTERS,
    LETTERS,
    counted,
    fits,
    in_alphabet,
    with_check,
    written,
)
from teardown_app.domain.tags.tag_slips import slip

_SMALL = "abcdefghijklmnopqrstuvwxyz"
BETWEEN = "-.\u00ad\u2010\u2011\u2012\u2013\u200b\u2060\ufeff"
"""What people and programs put between the groups of a number beside blanks: hyphens, points, invisible marks."""

_TYPED: dict[int, str] = str.maketrans(
    {
        **dict(zip(_SMALL, _SMALL.upper(), strict=True)),
        "O": "0",
        "o": "0",
        "I": "1",
        "i": "1",
        **dict.fromkeys(BETWEEN, ""),
    }
)


class TagFault(ValueError):
    """A text is no number, or a number cannot be issued; the message says why and what to do.

    `places` are those of `as_typed` to look at, counted from 0; none where that cannot be told.
    """

    def __init__(self, says: str, places: tuple[int, ...] = ()) -> None:
        super().__init__(says)
        self.places = places


class CounterExhausted(TagFault):
    """An incarnation has no number left for a letter."""


@frozen
class Tag:
    """One number, by its parts. Only numbers that may be issued can be made.

    >>> Tag("P", "7K3M", 1).number
    'P7K3M0001B'
    """

    letter: str
    incarnation: str
    counter: int

    def __attrs_post_init__(self) -> None:
        _check_series(self.letter, self.incarnation)
        if not 0 <= self.counter < COUNTERS:
            raise TagFault(f"Counter {self.counter} does not fit: 0 to {COUNTERS - 1} can be written.")
        if not fits(self.number):
            raise TagFault(f"{self.number} is skipped: its check character is I or O; take the next counter.")

    @property
    def number(self) -> str:
        """The ten characters."""
        return with_check(self.letter + self.incarnation + written(self.counter))

    @property
    def names(self) -> str:
        """What kind of thing the number names: `part`, `carrier`, …"""
        return LETTERS[self.letter]


def parse(text: str) -> Tag:
    """The number that a person typed or a scanner sent; raises `TagFault`.

    Blanks, hyphens, points and small letters do not matter, O is read as 0 and I as 1.

    >>> parse("p-7k3m oooi.b").number
    'P7K3M0001B'
    """
    number = as_typed(text)
    wrong = slip(number)
    if wrong:
        raise TagFault(wrong.says, wrong.places)
    return Tag(number[0], number[1:5], counted(number[5:9]))


def as_typed(text: str) -> str:
    """A typed number in the one form that is checked, right or wrong.

    >>> as_typed("p7k3m-oooi b")
    'P7K3M0001B'
    """
    return "".join(text.split()).translate(_TYPED)


def is_ours(text: str) -> bool:
    """True when a code holds one of our numbers exactly as it is printed: nothing is made good here.

    >>> is_ours("P7K3M0001B"), is_ours("p7k3m0001b")
    (True, False)
    """
    return fits(text)


def issue(letter: str, incarnation: str, first_counter: int, count: int) -> tuple[tuple[str, ...], int]:
    """The next `count` numbers from `first_counter` on, and the counter to go on with.

    All or none: raises `CounterExhausted` when fewer are left.

    >>> issue("P", "7K3M", 12, 2)
    (('P7K3M000CQ', 'P7K3M000EM'), 15)
    """
    _check_series(letter, incarnation)
    if count < 0 or first_counter < 0:
        raise TagFault(f"{count} numbers from counter {first_counter}: neither may be negative.")
    numbers: list[str] = []
    counter = first_counter
    while len(numbers) < count:
        if counter >= COUNTERS:
            raise CounterExhausted(_exhausted(letter, incarnation, len(numbers), count))
        number = with_check(letter + incarnation + written(counter))
        counter += 1
        if fits(number):
            numbers.append(number)
    return tuple(numbers), counter


def _check_series(letter: str, incarnation: str) -> None:
    if letter not in LETTERS:
        raise TagFault(f"The letter {letter!r} names nothing; use one of {', '.join(LETTERS)}.")
    if len(incarnation) != 4 or not in_alphabet(incarnation):
        raise TagFault(f"{incarnation!r} cannot stand in a number: four of {ALPHABET} are needed.")


def _exhausted(letter: str, incarnation: str, made: int, wanted: int) -> str:
    return (
        f"Only {made} of {wanted} numbers are left for {letter} {LETTERS[letter]} in {incarnation}: "
        "this tablet has to start a new series."
    )
