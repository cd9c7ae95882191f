"""What the customer says to findings that go beyond the order: asked, approved, declined; or that they are covered."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.ledger.kinds.part import APPROVALS
from teardown_app.domain.parts.parts import approval_of, waiting_findings, word_of
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.deed import PARTS, Deed, Field, one_of
from teardown_app.workflows.finding import findings_called


def answer(act: Act, findings: Sequence[str], *, as_: str, reference: str = "") -> Drafts:
    """Records an answer to findings. All but *covered* need the customer's reference."""
    act.working("office")
    if as_ not in APPROVALS:
        refuse(f"{as_} is no answer.", f"It is one of {', '.join(APPROVALS)}.")
    if as_ != "covered" and not reference.strip():
        refuse(f"That the customer {_did(as_)} needs its reference.", "Give it, such as: mail 2026-03-14.")
    return [act.draft("approval.given", tuple(findings), **{"as": as_, "reference": reference or None})]


def _did(word: str) -> str:
    return "was asked" if word == "asked" else word


def what_waits(act: Act, part: str) -> str:
    """The findings of a part that wait for an answer, with the reference of the question; empty when none does."""
    waiting = []
    for finding in waiting_findings(act.job, part):
        asked = approval_of(act.job, finding)
        reference = f" (asked in {asked.reference})" if asked and asked.reference else " (not asked yet)"
        waiting.append(word_of(act.job, finding) + reference)
    return ", ".join(waiting)


def answer_on(act: Act, parts: Sequence[str], *, as_: str, word: str = "", reference: str = "") -> Drafts:
    """The same for what waits on parts, or for their findings of one word."""
    found = [one for part in parts for one in findings_called(act, part, word)]
    return answer(act, found, as_=as_, reference=reference)


ANSWER = Deed(
    name="finding answer", about=PARTS, do=answer_on, writes=("approval.given",),
    says="Record what the customer says to findings.",
    example="PO-7781 10.20 --as approved --reference 'mail 2026-03-14' --by OF",
    done="{name}: {as}.",
    fields=(
        Field("word", says="those of this word, answered or not; else all that wait"),
        Field("as_", "What does the customer say?", one_of(APPROVALS), offers=lambda act: APPROVALS, needed=True),
        Field("reference", "The customer's reference: mail or order number", "where it was said, such as 'mail 3'"),
    ),
)  # fmt: skip
