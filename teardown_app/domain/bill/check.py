"""A check: what is looked at or measured on a part, when, and against which limit."""

from __future__ import annotations

from decimal import Decimal
from functools import cached_property

from attrs import frozen

from teardown_app.domain.bill.limit import Limit

MOMENTS = ("arrival", "as found", "finished", "new", "fitted")
"""When a check can be due, besides the names of gates."""

NEEDS = ("power", "n2", "water")
RULES = ("simple", "guarded", "four-way")
VALUES_RULES = ("maximum", "16 %")

PROTECTIVE = ("bonding", "insulation", "interlock", "emergency stop", "over-temperature")
"""Protective functions: a check of these is never conceded."""


@frozen
class Check:
    """One check of the bill."""

    name: str
    says: str = ""
    type: str = ""
    limit: Limit | None = None
    """None: answered yes or no."""
    values_rule: str = ""
    """maximum or 16 %; empty: maximum."""
    rule: str = ""
    """simple, guarded or four-way; empty: simple."""
    readings: int = 1
    spots: tuple[str, ...] = ()
    instrument: str = ""
    when: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    outlasts: tuple[str, ...] = ()
    """Operations after which a reading still stands."""
    qualification: str = ""
    given: tuple[str, ...] = ()
    """What the bill knows beforehand of a kind of measurement: `voltage = 208 V`."""
    again_h: Decimal | None = None
    """Hours after which it is looked at a second time; None: once is enough."""

    @cached_property
    def is_protective(self) -> bool:
        """Does the type, the name or what it says name a protective function?"""
        said = [_plain(text) for text in (self.type, self.name, self.says)]
        return any(_plain(function) in text for function in PROTECTIVE for text in said)


def _plain(text: str) -> str:
    return text.lower().replace("-", " ").replace("_", " ")
