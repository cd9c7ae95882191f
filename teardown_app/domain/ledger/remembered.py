"""Answers about a job remembered until its next record, or until its tool changes."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Protocol, TypeVar

Answer = TypeVar("Answer")


class Remembers(Protocol):
    """Something that forgets its answers: all of them whenever a record is taken in, those of the tool when places,
    options or names that are one thing change."""

    memory: dict[Any, Any]
    memory_of_tool: dict[Any, Any]


def remembered(ask: Callable[[Any, str], Answer]) -> Callable[[Any, str], Answer]:
    """Wraps a question (job, name) so that it is worked out once between two records."""

    def asked(job: Remembers, name: str) -> Answer:
        key = (ask, name)
        known = job.memory.get(key, asked)
        if known is asked:
            known = job.memory[key] = ask(job, name)
        return known  # type: ignore[no-any-return]

    asked.__doc__, asked.__name__ = ask.__doc__, ask.__name__
    return asked


def known_of_tool(ask: Callable[[Any, str], Answer]) -> Callable[[Any, str], Answer]:
    """Wraps a question (job, name) that the bill and the places added on the job answer."""

    def asked(job: Remembers, name: str) -> Answer:
        key = (ask, name)
        known = job.memory_of_tool.get(key, asked)
        if known is asked:
            known = job.memory_of_tool[key] = ask(job, name)
        return known  # type: ignore[no-any-return]

    asked.__doc__, asked.__name__ = ask.__doc__, ask.__name__
    return asked
