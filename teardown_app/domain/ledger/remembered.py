"""Answers about a job remembered until its next record, or until its tool changes."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, Protocol, TypeVar

Answer = TypeVar("Answer")


class Remembers(Protocol):
    """Something that forgets its answers: all of them whenever a record is taken in, those of the tool when places,
    options or names that are one thing change."""

    memory: dict[Any, Any]
    memory_of_tool: dict[Any, Any]


def remembered(ask: Callable[[Any, str], Answer]) -> Callable[[Any, str], Answer]:
    """Wraps a question (job, name) so that it is worked out once between two records."""
    return _kept_in("memory", ask)


def known_of_tool(ask: Callable[[Any, str], Answer]) -> Callable[[Any, str], Answer]:
    """Wraps a question (job, name) that the bill and the places added on the job answer."""
    return _kept_in("memory_of_tool", ask)


def _kept_in(memory: str, ask: Callable[[Any, str], Answer]) -> Callable[[Any, str], Answer]:
    """The question, worked out once while that memory of the job lasts."""

    @wraps(ask)
    def asked(job: Remembers, name: str) -> Answer:
        answers, key = getattr(job, memory), (ask, name)
        known = answers.get(key, asked)
        if known is asked:
            known = answers[key] = ask(job, name)
        return known  # type: ignore[no-any-return]

    return asked
