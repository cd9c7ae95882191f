"""Why a record has no effect."""

from __future__ import annotations

UNCOUNTED, NO_RIGHT, NEWER, MISFIT, VOIDED = "of a shop that nobody joined", "no right", "newer", "misfit", "voided"
"""Of a tablet that does not count in this job; by somebody without the right; by a newer app; not understood, or no act
that there is; taken back."""
