"""The limit of a check as the bill gives it. Judging a reading against it is not done here."""

from __future__ import annotations

from decimal import Decimal

from attrs import frozen

COMPARISONS = ("as found", "pair", "saved value")


@frozen
class Limit:
    """What a reading is held against.

    `max` and `min` are filled whenever they are known, also from nominal and tolerance, so a reading
    needs only these two. A limit with none of the fields but `text` is judged by a person.
    """

    text: str
    """As written."""
    max: Decimal | None = None
    min: Decimal | None = None
    nominal: Decimal | None = None
    tolerance: tuple[Decimal, Decimal] | None = None
    """Lower and upper deviation from nominal: (-0.01, 0.02)."""
    fit: str = ""
    """Fit class (H7, g6); its deviations are not looked up here."""
    unit: str = ""
    compare: str = ""
    """as found, pair or saved value."""
    count: int | None = None
    picture: str = ""
    """File in the drawings, or `yes` for any picture."""
