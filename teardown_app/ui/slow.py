"""Work that takes longer than half a second: on a thread of its own, with how far it is, and a way to stop it."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from threading import Event
from typing import Any

from teardown_app.workflows.act import refuse

Report = Callable[[str], None]
Work = Callable[[Report], Any]
"""What is to be done: tells now and then how far it is; `Stopped` is raised through it when it is stopped."""


class Stopped(Exception):
    """Somebody stopped it."""


class Slow:
    """One piece of slow work at a time. It reads and computes; what comes of it is used on the screen's thread.

    A new piece stops the one before, unless that one *holds*: it is stopped by a person and by nothing else.
    """

    def __init__(self) -> None:
        self.says = ""
        self._threads = ThreadPoolExecutor(max_workers=1, thread_name_prefix="slow work")
        self._stop = Event()
        self._under_way: tuple[Future[Any], Callable[[Any], object]] | None = None
        self._holds = False
        self._stopped: Callable[[], object] | None = None

    def start(
        self,
        says: str,
        work: Work,
        then: Callable[[Any], object],
        *,
        holds: bool = False,
        stopped: Callable[[], object] | None = None,
    ) -> None:
        """Starts the work; `then` gets what came of it, `stopped` is called when a person stops it."""
        self.must_be_free()
        self._drop()
        self._holds, self._stopped = holds, stopped
        stop = self._stop = Event()
        self.says = says

        def report(how_far: str) -> None:
            if stop.is_set():
                raise Stopped
            self.says = f"{says} {how_far}"

        self._under_way = (self._threads.submit(work, report), then)

    def must_be_free(self) -> None:
        """Refuses while something goes on that must not be cut off."""
        if self._holds and self._under_way is not None:
            refuse(f"{self.says.partition(':')[0]} goes on still.", "Wait until it is through, or touch Stop.")

    def stop(self) -> None:
        """Stops the work at its next report; what it found is dropped."""
        stopped = self._stopped if self._under_way is not None else None
        self._drop()
        if stopped is not None:
            stopped()

    def _drop(self) -> None:
        self._stop.set()
        self.says, self._under_way = "", None

    def take(self) -> Callable[[], object] | None:
        """What to do now that the work is through, None while it goes on. It raises what went wrong in it."""
        if self._under_way is None or not self._under_way[0].done():
            return None
        future, then = self._under_way
        self.says, self._under_way = "", None
        return lambda: then(future.result())

    def close(self) -> None:
        """Ends the thread."""
        self._drop()
        self._threads.shutdown(wait=False, cancel_futures=True)
