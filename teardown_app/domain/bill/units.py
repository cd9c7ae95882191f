"""Units of quantity in a bill, and whether they count, measure or make no position at all."""

from __future__ import annotations

COUNTING = frozenset({"EA", "PR", "SET"})
"""Count and multiply; whole quantities. One SET or PR is one position."""

MEASURED = frozenset({"M", "MM", "CM", "FT", "IN", "KG", "G", "L", "ML"})
"""One position with an amount; fractions allowed."""

UNCOUNTED = frozenset({"AR", "REF"})
"""As required, reference: no position, quantity not read, nothing hangs beneath."""

UNITS = COUNTING | MEASURED | UNCOUNTED
