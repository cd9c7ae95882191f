"""Sentences of the workflows as they are said on a screen: what names a command there is left out here."""

from __future__ import annotations

import re

TOPICS = "part|job|shop|hardware|joint|consumable|temporary|check|label|bill|photo|hold|finding|people|goods|record"
_END = r"(?=\.(?:\s|$)|;|$)"
_ONE = rf"(?:or )?(?:{TOPICS}) [a-z][a-z-]*"
_COMMAND = re.compile(rf": (?:{_ONE}(?:, )?)+(?: .*?)?{_END}|(?:: | with )--.*?{_END}")
_OPTION = re.compile(r" --[a-z][a-z-]*(?: (?:'[^']*'|[A-Z]+))?")


def counted(number: int, word: str) -> str:
    """A number with its word, one or many.

    >>> counted(1, "part"), counted(3, "part")
    ('1 part', '3 parts')
    """
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def plainly(instead: str) -> str:
    """What to do, without the command that does it.

    >>> plainly("Take it out again: part out.")
    'Take it out again.'
    >>> plainly("Finish it: part done, or part stop.")
    'Finish it.'
    >>> plainly("Say why, or name others.")
    'Say why, or name others.'
    """
    return _OPTION.sub("", _COMMAND.sub("", instead)).strip()
