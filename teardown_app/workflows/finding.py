"""A finding on parts: the shop's word, its cause, and whether the order covers what it needs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NoReturn

from teardown_app.domain.ledger.kinds.part import Answer
from teardown_app.domain.parts.parts import approval_of, findings_of, waiting_findings, word_of
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.deed import PARTS, by_hand

Words = Mapping[str, Any]
"""The shop's word list: `conditions`, `causes`, `finding` (word -> covered)."""


def note_finding(
    act: Act,
    parts: Sequence[str],
    *,
    word: str,
    cause: str,
    words: Words,
    note: str = "",
    covered: bool | None = None,
    photos: Sequence[str] = (),
    reference: str = "",
) -> Drafts:
    """Notes one finding on each part. Words of one's own need a sentence, and the customer is asked."""
    act.working()
    known: Mapping[str, bool] = words["finding"]
    word, on = word.strip(), ", ".join(act.name(part) for part in parts)
    if not word:
        refuse(f"{on}: a finding needs a word.", f"Take one of {', '.join(known)}.")
    if word not in known and not note.strip():
        refuse(
            f"{on}: {word} is none of the shop's words for a finding.",
            f"Take one of {', '.join(known)}, or add a sentence that says what is meant.",
        )
    causes = words["causes"]
    if cause not in causes:
        refuse(f"{on}: {cause} is no cause.", f"It is one of {', '.join(causes)}.")
    is_covered = known.get(word, False) if covered is None else covered
    body = {"word": word, "cause": cause, "covered": is_covered, "note": note or None, "photos": list(photos) or None}
    body["reference"] = reference.strip() or None
    return [act.draft("finding.noted", tuple(parts), **body)]


def findings_called(act: Act, part: str, word: str = "") -> list[str]:
    """Findings of a part that wait for an answer, or, whether answered or not, those of one word."""
    found = [entry.value for entry in findings_of(act.job, part)]
    if not found:
        refuse(f"{act.name(part)} has no finding.", "Note it first.", "part find")
    if not word:
        return waiting_findings(act.job, part) or _all_answered(act, part, found)
    called = [finding for finding in found if word_of(act.job, finding) == word]
    if not called:
        has = ", ".join(word_of(act.job, finding) for finding in found)
        refuse(f"{act.name(part)} has no finding {word}.", f"It has {has}.")
    return called


def _all_answered(act: Act, part: str, found: Sequence[str]) -> NoReturn:
    """What was answered is changed only by its word: nothing approved is overwritten in passing."""
    answers = ", ".join(_answered(act, finding) for finding in found)
    refuse(f"No finding of {act.name(part)} waits for an answer: {answers}.", "To change one, name it.")


def _answered(act: Act, finding: str) -> str:
    said = approval_of(act.job, finding) or Answer("not asked")
    reference = f" in {said.reference}" if said.reference else ""
    return f"{word_of(act.job, finding)} is {said.word}{reference}"


FIND = by_hand("part find", PARTS, "{name}: {word}{asks}.", "finding.noted")
