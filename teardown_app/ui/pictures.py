"""Photographs of things, as files that can be shown; one that is not here (yet) is left out."""

from __future__ import annotations

from pathlib import Path
from time import time
from typing import TYPE_CHECKING

from teardown_app.records.trouble import AttachmentError

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

KINDS = (".jpg", ".jpeg", ".png", ".webp", ".bmp")
SHOWN = 4
FRESH_S = 600.0
LISTED = 60


def photos_of(desk: Desk, *things: str) -> tuple[str, ...]:
    """Files of the last photographs of these things, the newest first."""
    job = desk.job
    entries = [one for thing in things for one in job.entries(thing, "photo")]
    digests = [str(name) for one in reversed(entries) for name in one.value.get("photos", ())]
    files = [file for name in dict.fromkeys(digests[: SHOWN * 2]) if (file := file_of(desk, name))]
    return tuple(files[:SHOWN])


def file_of(desk: Desk, digest: str) -> str:
    """Where an attachment lies; empty when it is not here."""
    try:
        return str(desk.workshop.home.attached(digest))
    except AttachmentError:
        return ""


def drawing_of(desk: Desk, assembly: str) -> str:
    """The file of the drawing of an assembly, as it was frozen with the bill; empty when there is none."""
    job = desk.job
    name = job.bill.drawings.get(assembly, "")
    opening = job.opening
    digest = (opening.record.body.get("drawings") or {}).get(name, "") if opening else ""
    return file_of(desk, str(digest)) if digest else ""


def pictures_folder(desk: Desk) -> Path:
    """Where cameras and scanners leave pictures for this tablet."""
    return Path(desk.workshop.home.path / "pictures")


def fresh_picture(desk: Desk) -> str:
    """The picture that was just taken: the newest, if it is of the last ten minutes and newer than the one that
    was kept last; empty when there is none, so that no picture is kept of the wrong part."""
    kept = float(desk.private.read("pictures").get("kept", 0))
    newest = next(iter(pictures_in(pictures_folder(desk))), None)
    try:
        taken = newest.stat().st_mtime if newest else 0.0
    except OSError:
        return ""
    return str(newest) if newest and taken > kept and time() - taken < FRESH_S else ""


def kept_picture(desk: Desk, file: Path) -> None:
    """A picture was kept: it, and those before it, are not offered by themselves any more."""
    desk.private.keep("pictures", {"kept": file.stat().st_mtime})


def pictures_in(folder: Path) -> list[Path]:
    """Pictures of a folder, the newest first."""
    try:
        found = [one for one in folder.iterdir() if one.suffix.lower() in KINDS and one.is_file()]
        return sorted(found, key=lambda one: one.stat().st_mtime, reverse=True)[:LISTED]
    except OSError:
        return []
