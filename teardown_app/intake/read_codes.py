"""QR codes in pictures: ours and foreign ones, each once, by two readers one after the other.

zxing-cpp looks at the whole picture. When it sees nothing, steps follow that treat the picture first, each for
the reader that gains most by it, until one has found something. One code in the middle was aimed at, and the
looking ends. Several codes, or one at the edge, are a tray: then zbar looks all over as well, for each reader
fails on dirt that the other reads through. Of picture files nobody knows what was aimed at: always all over.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from attrs import frozen

from teardown_app.domain.tags.tag import is_ours
from teardown_app.intake.code_readers import Corners, Readers, installed
from teardown_app.intake.code_steps import CENTRE
from teardown_app.intake.pictures import Grey, PictureFault, open_grey
from teardown_app.intake.reading_order import Step, one_after_the_other, over_a_tray


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
    chance: float = 0.0
    """Chance that another valid number gave this picture, where the number was found by comparison with known
    tags; 0 where a reader decoded it."""
    offered: bool = False
    """Too weak to take: to be confirmed by the printed number."""


@frozen
class Reading:
    """What came out of one file: its codes, or in `fault` why it could not be read."""

    file: str
    codes: tuple[Code, ...] = ()
    fault: str = ""


Also = Callable[[list[Code], Grey], list[Code]]
"""What is made of the codes read in a picture."""


def as_read(codes: list[Code], _grey: Grey) -> list[Code]:
    """Nothing more than what the readers found."""
    return codes


def read_picture(path: Path, also: Also = as_read) -> list[Code]:
    """All codes of a picture file; raises `PictureFault` when the file is broken or no reader is there."""
    try:
        readers = installed().needed()
    except PictureFault as fault:
        raise PictureFault(f"{path}: {fault}") from fault
    grey = open_grey(path)
    return also(read_still(grey, readers), grey)


def read_pictures(paths: Iterable[Path], also: Also = as_read) -> list[Reading]:
    """One reading a file in the order given; a broken file does not stop the others. `also` may add codes."""
    return [_reading(path, also) for path in paths]


def read_still(grey: Grey, readers: Readers | None = None) -> list[Code]:
    """All codes of a picture that nobody aimed: looked at all over in any case."""
    readers = (installed() if readers is None else readers).needed()
    codes = read_grey(grey, readers)
    return _tray(codes, grey, readers) if not codes or _aimed_at(codes, grey) else codes


def read_grey(grey: Grey, readers: Readers | None = None) -> list[Code]:
    """The codes of a picture already decoded: the one aimed at, or all of a tray.

    `readers` are those installed, if none are named; raises `PictureFault` when there is none.
    """
    readers = (installed() if readers is None else readers).needed()
    codes: list[Code] = []
    for step in one_after_the_other(readers):
        _add(codes, look(grey, step, readers))
        if codes:
            break
    return codes if not codes or _aimed_at(codes, grey) else _tray(codes, grey, readers)


def look(grey: Grey, step: Step, readers: Readers) -> Iterator[Code]:
    """What one step finds; nothing where its reader is not at hand."""
    read = step.reader(readers)
    if read is None:
        return
    view = step.view(grey)
    for text, corners in read(view.grey):
        yield Code(text, is_ours(text), step.how, view.back(corners))


def _reading(path: Path, also: Also) -> Reading:
    try:
        return Reading(str(path), tuple(read_picture(path, also)))
    except PictureFault as fault:
        return Reading(str(path), fault=str(fault))


def _tray(codes: list[Code], grey: Grey, readers: Readers) -> list[Code]:
    """These codes and what else is found all over the picture."""
    for step in over_a_tray(readers):
        _add(codes, look(grey, step, readers))
    return codes


def _aimed_at(codes: list[Code], grey: Grey) -> bool:
    """True for one code alone whose middle lies where people aim."""
    if len(codes) != 1 or not codes[0].corners:
        return False
    sides = zip(_middle(codes[0]), reversed(grey.shape), strict=True)
    return all(abs(at - side / 2) <= CENTRE * side / 2 for at, side in sides)


def _add(codes: list[Code], found: Iterable[Code]) -> None:
    """Keeps what is new: another text in another place."""
    for code in found:
        if not any(code.text == known.text or _same_place(code, known) for known in codes):
            codes.append(code)


def _same_place(one: Code, other: Code) -> bool:
    """True when the middle of one lies on the other: then it is one code, read in two ways."""
    if not one.corners or not other.corners:
        return False
    x, y = _middle(one)
    xs, ys = zip(*other.corners, strict=True)
    return bool(min(xs) < x < max(xs) and min(ys) < y < max(ys))


def _middle(code: Code) -> tuple[float, float]:
    xs, ys = zip(*code.corners, strict=True)
    return sum(xs) / len(xs), sum(ys) / len(ys)
