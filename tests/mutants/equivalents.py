"""Changes that no test can notice, each with its reason."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import NamedTuple

LIST = Path(__file__).with_name("equivalent.toml")


class Equivalent(NamedTuple):
    """A line before and after a change that says the same, without indent, and why it does."""

    file: str
    before: str
    after: str
    why: str


def equivalents(path: Path = LIST) -> list[Equivalent]:
    """The list, in its order."""
    told = tomllib.loads(path.read_text(encoding="utf-8"))
    return [Equivalent(**entry) for entry in told.get("equivalent", [])]


def why_equal(listed: list[Equivalent], file: str, before: str, after: str) -> str:
    """Why a change says the same; empty where it is not listed."""
    return next((one.why for one in listed if one[:3] == (file, before, after)), "")
