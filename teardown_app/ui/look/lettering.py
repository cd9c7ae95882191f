"""The largest type in which a text fits a plate, broken at its spaces; measured with the app's own faces."""

from __future__ import annotations

from functools import lru_cache

from kivy.core.text import Label

LEADING = 1.25
"""Height of a line over the size of its type, of the bundled faces."""


@lru_cache(maxsize=4096)
def fitting_size(text: str, face: str, room: tuple[int, int], sizes: tuple[float, ...], most_lines: int = 2) -> float:
    """The first of these sizes (pixels, largest first) at which a text fits a room (pixels); else the last."""
    for size in sizes[:-1]:
        needed = lines_of(text, face, size, room[0])
        if 0 < needed <= most_lines and needed * size * LEADING <= room[1]:
            return size
    return sizes[-1]


def lines_of(text: str, face: str, size: float, width: float) -> int:
    """Lines that a text takes when it is broken at its spaces; 0 when a word is wider than the room."""
    label = Label(font_size=size, font_name=face)
    lines, line = 1, ""
    for word in text.split():
        if label.get_extents(word)[0] > width:
            return 0
        longer = f"{line} {word}".strip()
        if line and label.get_extents(longer)[0] > width:
            lines, line = lines + 1, word
        else:
            line = longer
    return lines
