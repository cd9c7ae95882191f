"""What a command says: on standard output and error nothing that acts on a terminal, whatever it was made of."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout, suppress
from typing import Any, TextIO

from teardown_app.domain.ledger.harmless import harmless


class Harmless:
    """A stream of text through which only harmless signs go, and of those what the stream can take."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        """Writes the text; line ends stay."""
        said = "\n".join(map(harmless, text.split("\n")))
        encoding = getattr(self._stream, "encoding", None) or "utf-8"
        self._stream.write(said.encode(encoding, "backslashreplace").decode(encoding))
        return len(text)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)


@contextmanager
def harmless_streams() -> Iterator[None]:
    """All that is printed meanwhile is harmless: answers, refusals, and what the parser says of the arguments."""
    out, err = Harmless(sys.stdout), Harmless(sys.stderr)
    with redirect_stdout(out), redirect_stderr(err):
        yield


def complain(said: str) -> None:
    """Says on standard error what is wrong, if anybody listens there."""
    with suppress(OSError, ValueError):
        print(f"teardown-app: {said}", file=sys.stderr)
