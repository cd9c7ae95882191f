"""An act that goes to more than one file is there whole, or not at all, whatever happens between the files.

Before the first of them is written, all that will be written is noted in `private/act.json`. A start that finds a part
of it there writes the rest; what it finds nothing of was never confirmed and stays away. The note of an act that is
there whole says nothing and is written over by the next one.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from teardown_app.records.disk import Disk, make_folders, place
from teardown_app.records.envelope import hash_of
from teardown_app.records.trouble import Trouble

_NAME = "act.json"
_HALF = "a part of an act on several files is there, the rest is not and can no longer be written"


class Piece(NamedTuple):
    """What goes into one file with one write."""

    file: str
    """Its name in the folder of the incarnation."""
    at: int
    """Length of the file before; 0 for a new one."""
    text: str


def note(disk: Disk, private: Path, dev: str, pieces: Sequence[Piece]) -> None:
    """Notes an act on several files; returns when that is on the disk. Raises `OSError`."""
    line = json.dumps([dev, *pieces], ensure_ascii=False).encode()
    path = private / _NAME
    is_new = not disk.exists(path)
    disk.put(path, line + b"\n" + hash_of(line).encode())
    disk.sync_file(path)
    if is_new:
        disk.sync_folder(private)


def complete(disk: Disk, private: Path, dev: str, folder: Path) -> Trouble | None:
    """Writes the rest of an act that is there in part; what a person should know of it. Raises `OSError`."""
    pieces = _noted(disk, private, dev)
    stand = [_stands(disk, folder, piece) for piece in pieces]
    if "whole" not in stand or set(stand) == {"whole"}:
        return None
    if "other" in stand:
        return Trouble(str(private / _NAME), 0, 0, _HALF, "Look at both jobs, and record what is missing.")
    absent = [piece for piece, stands in zip(pieces, stand, strict=True) if stands == "absent"]
    for piece in absent:
        _write(disk, folder, piece)
    what = "an act on several files was cut off half-way (power cut or crash); the rest of it is written now"
    names = ", ".join(piece.file for piece in absent)
    return Trouble(str(folder), 0, 0, what, f"Nothing to do. It went into {names}.")


def _noted(disk: Disk, private: Path, dev: str) -> list[Piece]:
    """The pieces of the last act on several files; none where the note is torn, or another incarnation's."""
    try:
        line, _, check = disk.read(private / _NAME).partition(b"\n")
    except OSError:
        return []
    if check != hash_of(line).encode():
        return []
    by, *pieces = json.loads(line)
    return [Piece(*piece) for piece in pieces] if by == dev else []


def _stands(disk: Disk, folder: Path, piece: Piece) -> str:
    """`whole`; `absent`: not there, or torn; `other`: the file goes on with something else."""
    text = piece.text.encode()
    try:
        data = disk.read(folder / piece.file)
    except FileNotFoundError:
        return "other" if piece.at else "absent"
    rest = data[piece.at :]
    if rest.startswith(text):
        return "whole"
    is_torn = len(data) >= piece.at and (b"\n" not in rest or text.startswith(rest))
    return "absent" if is_torn else "other"


def _write(disk: Disk, folder: Path, piece: Piece) -> None:
    path, data = folder / piece.file, piece.text.encode()
    if not piece.at:
        make_folders(disk, folder)
        place(disk, path, data)
        return
    if disk.size(path) > piece.at:
        disk.truncate(path, piece.at)
        disk.sync_file(path)
    disk.append_for_good(path, piece.at, data)
