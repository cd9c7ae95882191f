"""Sentences of the workflows as they are said on a screen: what names a command there is left out here."""

from __future__ import annotations

import re

COMMANDS = (
    "part|job|shop|hardware|joint|consumable|temporary|check|label|bill|photo|hold|finding|stock|people|goods|record"
)
_COMMAND = re.compile(rf"(?:: | with | \()(?:(?:{COMMANDS}) [a-z][a-z-]*(?: [^.]*)?|--[^.]*)\)?(?=\.|$)")
_OPTION = re.compile(r" --[a-z][a-z-]*(?: (?:'[^']*'|[A-Z]+))?")


def plainly(instead: str) -> str:
    """What to do, without the command that does it.

    >>> plainly("Take it out again: part out.")
    'Take it out again.'
    >>> plainly("Say why, or name others.")
    'Say why, or name others.'
    """
    return _OPTION.sub("", _COMMAND.sub("", instead)).strip()
