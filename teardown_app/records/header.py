"""The first line of a segment: whose it is and what it continues."""

from __future__ import annotations

from typing import Any, NamedTuple

from teardown_app.records import envelope
from teardown_app.records.envelope import BadLine

Seen = dict[str, tuple[int, str]]
"""What an author knew: file of somebody -> (seq, first eight digits of `h`)."""


class Header(NamedTuple):
    """The first line of a segment; the keys are told in `docs/formats/journal-files.md` 3."""

    dev: str
    letters: str
    key: str
    job: str
    seg: int
    prev: str
    seen: Seen
    app: str
    after: tuple[str, int, str] | None = None
    h: str = ""


def seal(header: Header) -> tuple[bytes, Header]:
    """The line of a header, and the header with its `h`."""
    fields: dict[str, Any] = {"v": 1, **header._asdict()}
    del fields["h"]
    if header.after is None:
        del fields["after"]
    line = envelope.seal(fields)
    return line, header._replace(h=line[-35:-3].decode())


def parse(line: bytes) -> Header:
    """The header of a line without its line end. Raises `BadLine`."""
    fields = envelope.unseal(line)
    try:
        after = fields.get("after")
        seen = {dev: (n + 0, h8 + "") for dev, (n, h8) in fields["seen"].items()}
        header = Header(
            fields["dev"], fields["letters"], fields["key"], fields["job"], fields["seg"], fields["prev"],
            seen, fields["app"], tuple(after) if after else None, fields["h"],
        )  # fmt: skip
        "".join((*header[:4], header.prev, header.app))  # a TypeError where one is no text
        return header
    except (KeyError, TypeError, ValueError, AttributeError) as fault:
        raise BadLine(f"it is not the first line of a file of records ({fault})") from fault
