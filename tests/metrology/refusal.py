"""What a refused input has to say."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from teardown_app.metrology.fault import BadInput


def refuses(call: Callable[[], object], field: str, allowed: str) -> None:
    """The field is named, and what is allowed in it."""
    with pytest.raises(BadInput) as told:
        call()
    assert told.value.field == field and allowed in told.value.allowed
