"""QR codes in pictures: ours and foreign ones, each once, by two readers one after the other.

zxing-cpp looks at the whole picture; zbar looks again after a threshold, for each fails on dirt that the
other reads through. Only when both see nothing are the slower steps tried.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from attrs import frozen

from teardown_app.domain.tag import is_ours
from teardown_app.intake.code_readers import Corners, missing_readers, zbar, zxing
from teardown_app.intake.code_steps import ALWAYS, IF_NOTHING_YET, Step, View
from teardown_app.intake.pictures import Grey, PictureFault, open_grey


@frozen
class Code:
    """One code in a picture."""

    text: str
    ours: bool
    """It is a number as we print it; whether it was ever issued, the records know."""
    how: str
    """Reader and step that found it."""
    corners: Corners
    """Of the symbol, pixels of the upright picture."""


@frozen
class Reading:
    """What came out of one file: its codes, or in `fault` why it could not be read."""

    file: str
    codes: tuple[Code, ...] = ()
    fault: str = ""


def read_picture(path: Path) -> list[Code]:
    """All codes of a picture file; raises `PictureFault` when the file is broken or no reader is there."""
    if zxing() is None and zbar() is None:
        raise PictureFault(f"{path}: nothing can be read here. " + " ".join(missing_readers()))
    return read_grey(open_grey(path))


def read_pictures(paths: Iterable[Path]) -> list[Reading]:
    """One reading a file in the order given; a broken file does not stop the others."""
    return [_reading(path) for path in paths]


def read_grey(grey: Grey) -> list[Code]:
    """All codes of a picture already decoded, as far as the installed readers go."""
    codes: list[Code] = []
    _add(codes, _by_zxing(grey))
    _add(codes, _by_zbar(grey, ALWAYS))
    for step in IF_NOTHING_YET:
        if codes:
            break
        _add(codes, _by_zbar(grey, step))
    return codes


def _reading(path: Path) -> Reading:
    try:
        return Reading(str(path), tuple(read_picture(path)))
    except PictureFault as fault:
        return Reading(str(path), fault=str(fault))


def _by_zxing(grey: Grey) -> Iterator[Code]:
    read = zxing()
    for text, corners in read(grey) if read else ():
        yield Code(text, is_ours(text), "zxing", corners)


def _by_zbar(grey: Grey, step: Step) -> Iterator[Code]:
    read = zbar()
    if read is None:
        return
    how, treatments = step
    view = View(grey)
    for treatment in treatments:
        view = treatment(view)
    for text, corners in read(view.grey):
        yield Code(text, is_ours(text), how, view.back(corners))


def _add(codes: list[Code], found: Iterable[Code]) -> None:
    """Keeps what is new: another text in another place."""
    for code in found:
        if not any(code.text == known.text or _same_place(code, known) for known in codes):
            codes.append(code)


def _same_place(one: Code, other: Code) -> bool:
    """True when the middle of one lies on the other: then it is one code, read in two ways."""
    if not one.corners or not other.corners:
        return False
    x, y = (sum(axis) / len(axis) for axis in zip(*one.corners, strict=True))
    xs, ys = zip(*other.corners, strict=True)
    return bool(min(xs) < x < max(xs) and min(ys) < y < max(ys))
