"""Hybrid logical time: sorts lists so that causes stand before effects, and nothing else.

After Kulkarni, Demirbas, Madappa, Avva, Leone: Logical Physical Clocks and Consistent Snapshots in
Globally Distributed Databases (2014). Text `%012x-%04x`: milliseconds, counter.
"""

from __future__ import annotations

import re

_FORM = re.compile(r"[0-9a-f]{12}-[0-9a-f]{4}")
_LAST_COUNT = 0xFFFF
_LAST = "ffffffffffff-ffff"


class LogicalTime:
    """The highest time this tablet has written or read."""

    def __init__(self, highest: str = "000000000000-0000") -> None:
        self.highest = highest

    def take(self, hlc: str) -> None:
        """A record with this time was read; what is written from now on is later."""
        if hlc > self.highest and _FORM.fullmatch(hlc):
            self.highest = hlc

    def tick(self, ms: int) -> str:
        """A time later than all before, and not before the wall clock."""
        self.highest = max(following(self.highest), f"{min(max(ms, 0), 2**48 - 1):012x}-0000")
        return self.highest


def following(hlc: str) -> str:
    """The next time after this one; the counter carries into the milliseconds, the last one stays.

    >>> following("0194ab12cd34-ffff")
    '0194ab12cd35-0000'
    """
    if hlc == _LAST:
        return hlc
    ms, count = int(hlc[:12], 16), int(hlc[13:], 16)
    return f"{ms:012x}-{count + 1:04x}" if count < _LAST_COUNT else f"{ms + 1:012x}-0000"
