"""Letters on labels: what the faces can show, how wide a text is, how it is made to fit. Draws nothing."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from fontTools.ttLib import TTFont

from teardown_app.domain.ledger.harmless import harmless
from teardown_app.labels.supplies import supply

NUMBER_FACE = "fonts/DejaVuSansMono-Bold.ttf"
"""For the number: all characters equally wide, the zero marked."""

TEXT_FACE = "fonts/DejaVuSansCondensed.ttf"
"""For everything else: Latin, Greek and Cyrillic, units and signs."""

ELLIPSIS = "…"
LONGEST = 200
"""Characters of a line that are looked at; no label is that wide."""

Width = Callable[[str, float], float]
"""Width of (text, size) in the unit of the size."""


def printable(text: str) -> str:
    """The text as one line, with "?" for what the face has no letter for.

    >>> printable("seal \\n Ø 12 \u6f22")
    'seal Ø 12 ?'
    """
    known = advances(TEXT_FACE)
    line = " ".join(harmless(text[: LONGEST + 1]).split())
    return "".join(character if ord(character) in known else "?" for character in line)


def width(face: str) -> Width:
    """How wide a text in that face is."""
    known = advances(face)
    return lambda text, size: size * sum(known[ord(character)] for character in text)


def fitted(
    texts: list[str], room: float, rows: Callable[[float], int], *, sizes: list[float], width: Width
) -> tuple[list[str], float]:
    """The texts broken into rows, and the largest of the sizes at which they fit into the room.

    `rows` says how many rows have place at a size. Where nothing fits, each text gets one row of the smallest
    size, ends with "…" where it is cut, and the last row says "…" for the texts that have no place at all.

    >>> monospaced = lambda text, size: size * len(text)
    >>> fitted(["ab cd"], 20, lambda size: 2, sizes=[8, 4, 2], width=monospaced)
    (['ab', 'cd'], 8)
    >>> fitted(["abcdefghijkl", "xyz"], 20, lambda size: 1, sizes=[8, 4], width=monospaced)
    (['abcd…'], 4)
    """
    for size in sizes:
        broken = [row for text in texts for row in _broken(text, room, size, width)]
        if len(broken) <= rows(size) and all(width(row, size) <= room for row in broken):
            return broken, size
    most = rows(sizes[-1])
    kept = [*texts[: most - 1], f"{texts[most - 1]} {ELLIPSIS}"] if 0 < most < len(texts) else texts[:most]
    return [_cut(text, room, sizes[-1], width) for text in kept], sizes[-1]


def _broken(text: str, room: float, size: float, width: Width) -> list[str]:
    """Rows of whole words; a word that is too wide stands alone."""
    rows: list[str] = []
    for word in text.split():
        longer = f"{rows[-1]} {word}" if rows else word
        if rows and width(longer, size) <= room:
            rows[-1] = longer
        else:
            rows.append(word)
    return rows


def _cut(text: str, room: float, size: float, width: Width) -> str:
    if width(text, size) <= room:
        return text
    while text and width(text + ELLIPSIS, size) > room:
        text = text[:-1].rstrip(f" {ELLIPSIS}")
    return text + ELLIPSIS


@lru_cache(maxsize=4)
def advances(face: str) -> dict[int, float]:
    """Width of every character of a face at size 1, by code point."""
    with TTFont(supply(face), lazy=True) as font:
        units = font["head"].unitsPerEm
        widths = font["hmtx"].metrics
        return {code: widths[glyph][0] / units for code, glyph in font.getBestCmap().items()}
