"""A signature says what it means and covers exactly what stood when it was given."""

from __future__ import annotations

from teardown_app.domain.nouns.signing import signature_covers
from teardown_app.workflows.act import Act, Drafts, refuse

MEANINGS = ("inspected", "reviewed", "approved", "responsible")
"""What a signature can mean; after 21 CFR 11.50 (meaning stands with the signature)."""


def sign(act: Act, thing: str, *, meaning: str) -> Drafts:
    """Signs the job, a place with all beneath it, or a part."""
    act.working("sign")
    if meaning not in MEANINGS:
        refuse(f"{meaning} is no meaning of a signature.", f"It is one of {', '.join(MEANINGS)}.")
    if act.job.knowing.gaps() or act.job.shop_gaps():
        refuse("Records of other tablets are known of but not here.", "Carry them over before signing.")
    return [act.draft("work.signed", (thing,), meaning=meaning, covers=signature_covers(act.job, thing))]
