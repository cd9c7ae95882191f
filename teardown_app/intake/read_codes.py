"""QR codes in pictures, ours and foreign ones: what one step of a reader finds, and each code once.

In which order steps look at a frame of a camera says `live_codes.py`, at a picture file `still_codes.py`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from attrs import frozen

from teardown_app.domain.tags.tag import is_ours
from teardown_app.intake.code_readers import Corners, Readers
from teardown_app.intake.corners import is_on, middle_of
from teardown_app.intake.pictures import Grey
from teardown_app.intake.reading_order import Step


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


def look(grey: Grey, step: Step, readers: Readers, at: tuple[int, int] = (0, 0)) -> Iterator[Code]:
    """What one step finds; nothing where its reader is not at hand. `at` is where this piece lies in its picture."""
    read = step.reader(readers)
    if read is None:
        return
    view = step.view(grey)
    for text, corners in read(view.grey):
        there = tuple((x + at[0], y + at[1]) for x, y in view.back(corners))
        yield Code(text, is_ours(text), step.how, there)


def add(codes: list[Code], found: Iterable[Code]) -> bool:
    """Keeps what is new: another text in another place; false where nothing was."""
    before = len(codes)
    for code in found:
        if not any(code.text == known.text or _same_place(code, known) for known in codes):
            codes.append(code)
    return len(codes) > before


def _same_place(one: Code, other: Code) -> bool:
    """True when the middle of one lies on the other: then it is one code, read in two ways."""
    return bool(one.corners and other.corners) and is_on(other.corners, middle_of(one.corners))
