"""A signature says what it means and covers exactly what stood when it was given."""

from __future__ import annotations

from teardown_app.domain.job.job import JOB
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.signed.signing import signature_covers
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.deed import PART, PLACE, Deed, Field, one_of

MEANINGS = ("inspected", "reviewed", "approved", "responsible")
"""What a signature can mean; after 21 CFR 11.50 (meaning stands with the signature)."""


def sign(act: Act, thing: str, *, meaning: str) -> Drafts:
    """Signs the job, a place with all beneath it, or a part."""
    act.working("sign")
    if meaning not in MEANINGS:
        refuse(f"{meaning} is no meaning of a signature.", f"It is one of {', '.join(MEANINGS)}.")
    if act.job.gaps() or act.job.shop_gaps():
        refuse("Records of other tablets are known of but not here.", "Carry them over before signing.")
    return [act.draft("work.signed", (thing,), meaning=meaning, covers=signature_covers(act.job, thing))]


def sign_named(act: Act, *, meaning: str, part: str = "", position: str = "") -> Drafts:
    """Signs a part, else the place of a key, else the job."""
    if position and position not in act.job.positions:
        refuse(f"{position} is no place of this tool.", "See its places.", "job places")
    return sign(act, part or (position_thing(position) if position else JOB), meaning=meaning)


SIGN = Deed(
    name="job sign", about=JOB, do=sign_named, writes=("work.signed",),
    says="Sign the job, a place with all beneath it, or a part.",
    example="J7K3M00018 --position 10 --meaning inspected --by OF",
    done="{by} signed {thing}: {meaning}.",
    fields=(
        Field("position", says="sign this place with all beneath it; else the job", sort=PLACE),
        Field("part", says="sign this part", sort=PART),
        Field("meaning", "What does your signature mean?", one_of(MEANINGS), offers=lambda act: MEANINGS, needed=True),
    ),
)  # fmt: skip
