"""Photographs, frozen bills and raw data, kept under the SHA-256 of their bytes."""

from __future__ import annotations

import re
from hashlib import sha256
from pathlib import Path

from teardown_app.records.disk import Disk, make_folders, place
from teardown_app.records.trouble import AttachmentError, NotRecorded, Trouble, why

_EXT = re.compile(r"[a-z0-9]{1,8}")
_NAME = re.compile(r"([0-9a-f]{64})\.([a-z0-9]{1,8})")


def keep(disk: Disk, home: Path, data: bytes, ext: str) -> str:
    """Store bytes; their SHA-256, to be named by a record *after* this has returned."""
    if not _EXT.fullmatch(ext):
        raise AttachmentError(f"{ext!r} is no file ending; use up to eight of a-z and 0-9, without a dot.")
    digest = sha256(data).hexdigest()
    path = _folder(home, digest) / f"{digest}.{ext}"
    try:
        if disk.exists(path) and path.name not in disk.odd(path.parent) and disk.read(path) == data:
            return digest
        make_folders(disk, path.parent)
        place(disk, path, data)
    except OSError as fault:
        raise NotRecorded(f"The file was NOT kept. {why(fault)}") from fault
    return digest


def find(disk: Disk, home: Path, digest: str) -> Path:
    """Where an attachment lies. Raises `AttachmentError`."""
    for name in sorted(disk.names(_folder(home, digest))):
        if name.startswith(digest + ".") and _NAME.fullmatch(name):
            return _plain(disk, _folder(home, digest) / name)
    raise AttachmentError(
        f"The attached file {digest[:12]}... is not in {_folder(home, digest)}. It may still be coming from "
        "another tablet; otherwise copy it back from a backup."
    )


def _plain(disk: Disk, path: Path) -> Path:
    """The file itself. Raises `AttachmentError` for a link or a pipe in its place, or in its folder's."""
    if path.name in disk.odd(path.parent) or path.parent.name in disk.odd(path.parent.parent):
        raise AttachmentError(f"{path} is a link or a pipe, not the file that was kept. Copy it back from a backup.")
    return path


def read(disk: Disk, home: Path, digest: str) -> bytes:
    """An attachment's bytes, checked against its name. Raises `AttachmentError`."""
    path = find(disk, home, digest)
    try:
        data = disk.read(path)
    except OSError as fault:
        raise AttachmentError(f"{path} cannot be read ({fault.strerror}). Copy it back from a backup.") from fault
    if sha256(data).hexdigest() != digest:
        raise AttachmentError(f"{path} was damaged or changed after it was kept. Copy it back from a backup.")
    return data


def verify(disk: Disk, home: Path) -> list[Trouble]:
    """Read every attachment back; those that are not what their name says."""
    troubles = []
    top = home / "out" / "attachments"
    for folder in disk.folders(top):
        for name in sorted(disk.sizes(top / folder)):
            match = _NAME.fullmatch(name)
            if match and not _reads_as(disk, top / folder / name, match[1]):
                troubles.append(_damaged(top / folder / name))
    return troubles


def _reads_as(disk: Disk, path: Path, digest: str) -> bool:
    try:
        return sha256(disk.read(path)).hexdigest() == digest
    except OSError:
        return False


def _damaged(path: Path) -> Trouble:
    return Trouble(str(path), 0, 0, "this file was damaged or changed after it was kept", "Copy it back from a backup.")


def _folder(home: Path, digest: str) -> Path:
    return home / "out" / "attachments" / digest[:2]
