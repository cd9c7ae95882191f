"""Text without signs that do something instead of saying something: controls, escapes, changes of direction.

Such signs move a terminal's cursor, colour a screen, hide a line or turn a number round. A blank stands for the end of
a line and for a tab, U+FFFD for the others. Joiners, which Arabic and Indic scripts need, stay. Text is made harmless
where it comes in (records and frozen bills, written and read) and where it goes out (screens, standard output and
error, JSON, lists, labels).
"""

from __future__ import annotations

import json
import re
from typing import Any

REPLACEMENT = "\N{REPLACEMENT CHARACTER}"
_BLANKS = "\t\n\v\f\r\x1c\x1d\x1e\x85\u2028\u2029"
_DIRECTIONS = "\u061c\u200e\u200f\u202a-\u202e\u2066-\u206f"
_UNSEEN = "\ufeff\ufff9-\ufffb\U000e0000-\U000e007f"
_CONTROLS = f"\x00-\x1f\x7f-\x9f{_DIRECTIONS}{_UNSEEN}"
_IN_JSON = re.compile(f"(?!\n)[{_CONTROLS}\ud800-\udfff]")
_BLANK, _HARMFUL = re.compile(f"[{_BLANKS}]"), re.compile(f"[{_CONTROLS}]")


def harmless(text: str) -> str:
    r"""The text with nothing in it that acts.

    >>> harmless("Ø 12\t\x1b[31mred\u202e7-P"), harmless("10.20")
    ('Ø 12 �[31mred�7-P', '10.20')
    """
    if text.isprintable():
        return text
    return _HARMFUL.sub(REPLACEMENT, _BLANK.sub(" ", text))


def harmless_all(value: Any) -> Any:
    """The same of every text in a value that JSON can hold; keys stay as they are."""
    if isinstance(value, str):
        return harmless(value)
    if isinstance(value, dict):
        return {key: harmless_all(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [harmless_all(one) for one in value]
    return value


def harmless_json(value: Any) -> str:
    """JSON for programs that a terminal can show too: nothing is lost, what acts is written as `\\uXXXX`."""
    text = json.dumps(value, ensure_ascii=False, indent=1)
    return _IN_JSON.sub(_escaped, text)


def _escaped(found: re.Match[str]) -> str:
    return json.dumps(found[0])[1:-1]
