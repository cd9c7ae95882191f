"""Names for new things: `new:N` and `new:K.N` in a draft become the full names of what it brings in."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from teardown_app.records.trouble import NotWritable

_PLACEHOLDER = re.compile(r"new:(?:(\d{1,3})\.)?([1-9]\d{0,5})")


def fill(value: Any, own: int, stems: Sequence[str]) -> Any:
    """A copy of `value` with the full names in.

    `stems` are the names of the act's records, `job:dev:seq`, in order; `own` is the place of this
    draft among them. Texts that are not wholly a placeholder stay as they are.
    """
    if isinstance(value, str):
        return _name(value, own, stems) if value.startswith("new:") else value
    if isinstance(value, dict):
        return {fill(key, own, stems): fill(item, own, stems) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [fill(item, own, stems) for item in value]
    return value


def _name(text: str, own: int, stems: Sequence[str]) -> str:
    match = _PLACEHOLDER.fullmatch(text)
    if not match:
        return text
    draft = own if match[1] is None else int(match[1])
    if draft >= len(stems):
        raise NotWritable(f"{text!r} points at entry {draft}, but only {len(stems)} are saved together.")
    return f"{stems[draft]}:{match[2]}"
