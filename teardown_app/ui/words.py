"""Words for screens: numbers with what they count."""

from __future__ import annotations


def counted(number: int, word: str) -> str:
    """A number with its word, one or many.

    >>> counted(1, "part"), counted(3, "part")
    ('1 part', '3 parts')
    """
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
