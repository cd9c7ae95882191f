"""The table of acts: which right a record needs, who may take it back, and whether it asks."""

from __future__ import annotations

from teardown_app.domain.ledger.record import Record


def asks(record: Record) -> bool:
    """True for a record that makes something due: taking it back narrows."""
    raise NotImplementedError
