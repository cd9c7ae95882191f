"""A finding on parts: the shop's word, its cause, and whether the order covers what it needs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from teardown_app.domain.parts import findings_of
from teardown_app.domain.release import word_of
from teardown_app.workflows.act import Act, Drafts, refuse

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
) -> Drafts:
    """Notes one finding on each part. Words of one's own need a sentence, and the customer is asked."""
    act.working()
    known: Mapping[str, bool] = words["finding"]
    if not word.strip():
        refuse("A finding needs a word.", f"Take one of {', '.join(known)}.")
    if word not in known and not note.strip():
        refuse(
            f"{word} is none of the shop's words for a finding.",
            f"Take one of {', '.join(known)}, or add a sentence that says what is meant.",
        )
    if cause not in words["causes"]:
        refuse(f"{cause} is no cause.", f"It is one of {', '.join(words['causes'])}.")
    is_covered = known.get(word, False) if covered is None else covered
    body = {"word": word, "cause": cause, "covered": is_covered, "note": note or None, "photos": list(photos) or None}
    return [act.draft("finding.noted", tuple(parts), **body)]


def findings_called(act: Act, part: str, word: str = "") -> list[str]:
    """Findings of a part, or those of one word."""
    found = [entry.value for entry in findings_of(act.job, part)]
    called = [finding for finding in found if not word or word_of(act.job, finding) == word]
    if not found:
        refuse(f"{act.name(part)} has no finding.", "Note it first: part find.")
    if not called:
        has = ", ".join(word_of(act.job, finding) for finding in found)
        refuse(f"{act.name(part)} has no finding {word}.", f"It has {has}.")
    return called
