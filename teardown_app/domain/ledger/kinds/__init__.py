"""The kinds of record, one table. To add a kind, add a row in the file of its area.

Nothing here decides what is true: a kind only says which facets its records write. How entries of
one facet merge stands in `teardown_app/domain/ledger/facets.py`.
"""

from __future__ import annotations

from teardown_app.domain.ledger.kinds import job, part, reassembly, shop, work
from teardown_app.domain.ledger.kinds.kind import Kind

KINDS: dict[str, Kind] = {kind.typ: kind for area in (job, part, work, reassembly, shop) for kind in area.KINDS}
"""Every kind that this app knows, by name."""


def that_reach(*reaches: str) -> frozenset[str]:
    """Names of the kinds whose records can change this."""
    return frozenset(typ for typ, kind in KINDS.items() if kind.reach in reaches)


def beside(verdict: str) -> frozenset[str]:
    """Names of the kinds that the author of a release or a signature need not have seen."""
    return frozenset(typ for typ, kind in KINDS.items() if verdict not in kind.seen_by)
