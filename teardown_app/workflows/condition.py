"""Conditions are the shop's own words; another word needs a sentence."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.workflows.act import refuse


def check_condition(conditions: Sequence[str], condition: str, says: str) -> None:
    """Refuses a word that is not on the shop's list and that no sentence explains."""
    if condition in conditions or says.strip():
        return
    refuse(
        f"{condition} is none of the shop's words for a condition.",
        f"Take one of {', '.join(conditions)}, or add a sentence that says what is meant.",
    )
