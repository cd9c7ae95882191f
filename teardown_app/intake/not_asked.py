"""Words of a bill that this app keeps and asks nobody for yet: each is a note where it is first used.

A word leaves this table in the change that makes the app ask for it; `tests/bill/test_bill_asked.py` holds both.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from teardown_app.intake.faults import Findings, Place
from teardown_app.intake.told import Told

NOT_ASKED: Mapping[str, Mapping[str, str]] = {
    "bill": {
        "finish_ra_um": "the finish alone is not asked by this app yet; name a check with it as the limit",
        "photo": "what to photograph is not asked by this app yet; whoever takes the part off decides",
        "quantity": "how much of a measured unit is there is not asked by this app yet; its place is",
        "unit": "AR and REF make no place, so nothing is asked of their lines",
    },
    "components": {
        "lead_days": "the time of delivery is not asked by this app yet; it is kept",
        "maker_number": "the maker's number is not asked by this app yet; it is kept",
    },
    "checks": {
        "needs": "what a check needs is not asked by this app yet; whoever reads it sees to it",
        "picture": "the picture of a limit is not asked by this app yet; a person judges",
    },
    "routes": {"outside": "that another shop does it is not asked by this app yet; the operation is, like any other"},
    "gates": {"assemblies": "which assemblies a gate needs is not asked by this app yet; all of the tool is"},
    "recipes": {"name": "recipes are not asked by this app yet; they are kept"},
}
"""Table, then our word for the column or key, then what the note says."""


def tell_not_asked(table: str, uses: Mapping[str, Sequence[Place]], findings: Findings) -> None:
    """One note for each of these words that is used, at its first place. `uses`: word -> where it stands."""
    for word, places in uses.items():
        if places:
            more = f" ({len(places)} times in this bill)" if len(places) > 1 else ""
            findings.note(places[0], NOT_ASKED[table][word] + more)


def tell_not_asked_of(table: str, made: Iterable[tuple[Any, Told]], findings: Findings) -> None:
    """The same for values made of what was told, whose fields are named like the words."""
    made = tuple(made)
    uses = {word: [told.place(word) for one, told in made if getattr(one, word)] for word in NOT_ASKED[table]}
    tell_not_asked(table, uses, findings)
