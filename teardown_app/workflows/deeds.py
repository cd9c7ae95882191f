"""All rows of acts, written out."""

from __future__ import annotations

from teardown_app.workflows.deed import Deed
from teardown_app.workflows.hold import HOLD, LIFT

DEEDS: tuple[Deed, ...] = (HOLD, LIFT)
