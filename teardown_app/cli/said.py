"""What a command says on standard error."""

from __future__ import annotations

import sys
from contextlib import suppress


def complain(said: str) -> None:
    """Says on standard error what is wrong, if anybody listens there."""
    with suppress(OSError, ValueError):
        print(f"teardown-app: {said}", file=sys.stderr)
