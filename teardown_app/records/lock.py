"""One writer: the lock on a data folder, and who has it."""

from __future__ import annotations

import json
import os
import platform
import time
from contextlib import suppress
from pathlib import Path
from typing import Protocol

from filelock import FileLock, Timeout

from teardown_app.records.trouble import InUse


class Lock(Protocol):
    """Keeps a second writer out."""

    def take(self) -> None:
        """Take it, or raise `InUse` at once."""
        ...

    def give_back(self) -> None:
        """Let the next one in."""
        ...


class FolderLock:
    """The lock of a folder on this machine; the system gives it back when the program dies."""

    def __init__(self, private: Path) -> None:
        self._who = private / "in-use.json"
        self._lock = FileLock(private / "lock", timeout=0)

    def take(self) -> None:
        try:
            self._lock.acquire()
        except Timeout:
            raise InUse(self._sentence()) from None
        self._say_who()

    def _say_who(self) -> None:
        who = {"pid": os.getpid(), "since": time.strftime("%Y-%m-%d %H:%M:%S"), "host": platform.node()}
        try:
            self._who.write_text(json.dumps(who), "utf-8")
        except OSError:  # a full disk: the lock holds all the same, only the sentence is poorer
            return

    def give_back(self) -> None:
        if self._lock.is_locked:
            with suppress(OSError):  # the next one writes it anew
                self._who.unlink(missing_ok=True)
            self._lock.release()

    def _sentence(self) -> str:
        folder = self._who.parent.parent
        try:
            who = json.loads(self._who.read_text("utf-8"))
            by = f"program {who['pid']} on {who['host']}, since {who['since']}"
        except (OSError, ValueError, KeyError, TypeError):
            by = "another start of the app"
        return f"{folder} is in use: {by}. Close that one first, or use another data folder (--home)."
