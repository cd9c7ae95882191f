"""Drawings of a bill: which files are there, and which assembly each belongs to. Opens no picture."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from pathlib import Path, PurePosixPath

from attrs import frozen

from teardown_app.domain.bill.bill import Callout
from teardown_app.domain.bill.line import Line, common

FOLDER = "drawings"
KINDS = (".png", ".jpg", ".jpeg", ".svg", ".pdf", ".webp", ".gif", ".tif", ".tiff", ".bmp")
FILES_MAX = 20_000


@frozen
class Drawings:
    """Files in the folder `drawings`, by their path relative to the bill."""

    files: frozenset[str]

    def find(self, name: str) -> str:
        """Path of a named drawing, with or without `drawings/` before it; empty when it is not there."""
        path = name.strip().removeprefix("./")
        for candidate in (path, f"{FOLDER}/{path}"):
            if candidate in self.files:
                return candidate
        return ""


def drawings_in(folder: Path) -> Drawings:
    """Look what is in `drawings` beside a bill; what a link leads out of the folder is not looked at."""
    place = folder / FOLDER
    try:
        root = place.resolve()
        found = sorted(place.rglob("*"))[:FILES_MAX] if place.is_dir() else []
        inside = [each for each in found if each.is_file() and each.resolve().is_relative_to(root)]
    except OSError:
        return Drawings(frozenset())
    return Drawings(frozenset(each.relative_to(folder).as_posix() for each in inside))


def leaves_folder(name: str) -> bool:
    """Whether the name of a file points out of the bill's folder.

    >>> [leaves_folder(each) for each in ("a.png", "drawings/a.png", "../a.png", "/a.png", "C:a.png")]
    [False, False, True, True, True]
    """
    return name.startswith("/") or "\\" in name or ":" in name or ".." in PurePosixPath(name).parts


def drawing_trouble(name: str, drawings: Drawings) -> str:
    """Why a named drawing cannot be used, empty when it can."""
    if leaves_folder(name):
        return f"“{name[:60]}” leaves the folder of the bill; put it into {FOLDER}/ and write its name only"
    if not drawings.find(name):
        return f"drawing “{name[:60]}” is not in {FOLDER}/; put it there or correct the name"
    return ""


def is_picture_name(text: str) -> bool:
    """Whether a text is the name of a picture file and not words about one."""
    return text.casefold().endswith(KINDS) and ";" not in text and "\n" not in text


def drawings_of(lines: Iterable[Line], drawings: Drawings, callouts: Iterable[Callout]) -> dict[str, str]:
    """The drawing of each assembly: by the name of the file, else by what its callouts name."""
    assemblies = {line.position: line for line in lines if line.kind == "assembly"}
    by_number = {line.part_number.casefold(): line.position for line in reversed(list(assemblies.values()))}
    found: dict[str, str] = {}
    for file in sorted(drawings.files):
        position = _named_for(PurePosixPath(file).stem, assemblies, by_number)
        if position:
            found.setdefault(position, file)
    for file, position in _called_for(callouts, assemblies).items():
        if file not in found.values():
            found.setdefault(position, file)
    return {position: found[position] for position in assemblies if position in found}


def _named_for(stem: str, assemblies: Mapping[str, Line], by_number: Mapping[str, str]) -> str:
    for name in (stem, re.split(r"[\s_]", stem, maxsplit=1)[0]):
        if name in assemblies:
            return name
        if name.casefold() in by_number:
            return by_number[name.casefold()]
    return ""


def _called_for(callouts: Iterable[Callout], assemblies: Mapping[str, Line]) -> dict[str, str]:
    """The nearest assembly above all lines that a drawing names."""
    shared: dict[str, str] = {}
    for callout in callouts:
        line = re.sub(r"/[0-9]+", "", callout.position)
        parent = line.rpartition(".")[0]
        shared[callout.drawing] = common(shared[callout.drawing], parent) if callout.drawing in shared else parent
    return {file: position for file, position in shared.items() if position in assemblies}
