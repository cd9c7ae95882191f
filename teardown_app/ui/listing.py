"""The list of jobs while its index is made anew: some at a time, so that the glass says how far it is."""

from __future__ import annotations

from typing import Any

from teardown_app.records.lists import Lists

AT_ONCE = 20
"""So many jobs are listed between two looks at the glass."""


class Listing:
    """Which jobs are not in the list yet, when there are many."""

    def __init__(self, lists: Lists) -> None:
        self._lists = lists
        left = lists.left()
        self._left = left if len(left) > AT_ONCE else []
        self._all = len(self._left)
        self._stopped = False

    @property
    def says(self) -> str:
        """How far it is, empty when all are listed."""
        return f"Listing the jobs: {self._all - len(self._left)} of {self._all}" if self._left else ""

    def go_on(self) -> bool:
        """Lists some more; false when nothing was left to do."""
        if not self._left:
            return False
        some, self._left = self._left[:AT_ONCE], self._left[AT_ONCE:]
        self._lists.catch_up_on(some)
        return True

    def stop(self) -> None:
        """Goes on without the jobs that are not listed yet; they are listed at the next start."""
        self._left, self._stopped = [], True

    def jobs(self, in_hand: str) -> list[dict[str, Any]]:
        """The jobs; as far as they are known while the list is made anew, or when that was stopped."""
        if self._stopped and in_hand:
            self._lists.catch_up_on([in_hand])
        return self._lists.jobs_so_far() if self._left or self._stopped else self._lists.jobs()
