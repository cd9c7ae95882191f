"""Letters on labels: what the faces can show, how wide a text is, how it is made to fit. Draws nothing."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from functools import lru_cache
from importlib.util import find_spec
from typing import TYPE_CHECKING

from PIL import features

from teardown_app.domain.ledger.harmless import harmless
from teardown_app.labels.supplies import supply

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

NUMBER_FACE = "fonts/DejaVuSansMono-Bold.ttf"
"""For the number: all characters equally wide, the zero marked."""

TEXT_FACE = "fonts/DejaVuSansCondensed.ttf"
"""For everything else: Latin, Greek and Cyrillic, units and signs."""

ELLIPSIS = "…"
BOX = "□"
"""Stands for what cannot be shown; which that is, is said before anything is printed."""
LONGEST = 200
"""Characters of a line that are looked at; no label is that wide."""

Width = Callable[[str, float], float]
"""Width of (text, size) in the unit of the size."""


def printable(text: str) -> str:
    """The text as one line, with an empty box for what cannot be shown (`lacking`).

    >>> printable("seal \\n Ø 12 \u6f22")
    'seal Ø 12 □'
    """
    line = " ".join(harmless(text[: LONGEST + 1]).split())
    missed = set(lacking(line))
    return "".join(BOX if character in missed else character for character in line)


def lacking(text: str) -> str:
    """Each character that a label cannot show: the face has no letter for it, or its script is joined or runs from the
    right and what shapes such scripts is not here.

    >>> lacking("seal Ø 12 \u6f22\u6f22\u5b57")
    '漢字'
    """
    known, can_shape = advances(TEXT_FACE), has_shaping()
    missed = (one for one in " ".join(text.split()) if ord(one) not in known or (needs_shaping(one) and not can_shape))
    return "".join(dict.fromkeys(missed))


def needs_shaping(text: str) -> bool:
    """True where letters run from the right or are joined: Hebrew, Arabic and their kin (classes of UAX 9)."""
    return any(unicodedata.bidirectional(one) in ("R", "AL", "AN") for one in text)


@lru_cache(maxsize=1)
def has_shaping() -> bool:
    """True where both that shape scripts are here: uharfbuzz for PDFs, raqm for pictures."""
    return find_spec("uharfbuzz") is not None and bool(features.check("raqm"))


def width(face: str) -> Width:
    """How much room a text in that face needs, its ink included that hangs over at either end."""

    def needed(text: str, size: float) -> float:
        left, right = _ink(face, text)
        return size * (right + left)

    return needed


def overhang(face: str, text: str, size: float) -> float:
    """How far the ink of a text begins before its place, so that it is put so much further to the right."""
    return size * _ink(face, text)[0]


@lru_cache(maxsize=4096)
def _ink(face: str, text: str) -> tuple[float, float]:
    """At size 1: how far ink reaches before the start, and where ink and letters end."""
    known, reach = advances(face), _reaches(face)
    pen = left = right = 0.0
    for character in text:
        begins, ends = reach.get(ord(character), (0.0, 0.0))
        left, right = max(left, -(pen + begins)), max(right, pen + ends)
        pen += known[ord(character)]
    return left, max(right, pen)


def fitted(
    texts: list[str], room: float, rows: Callable[[float], int], *, sizes: list[float], width: Width
) -> list[tuple[str, float]]:
    """The texts broken into rows, each with its size: the largest of the sizes at which the rows have place in height.

    A row that is still too wide, because of one long word, is made smaller alone, and ends with "…" where the smallest
    size does not help. `rows` says how many rows have place at a size. Where not all have place at any, the first ones
    share a row and the last keeps its own: on a part's label that is the job.

    >>> monospaced = lambda text, size: size * len(text)
    >>> fitted(["ab cd"], 20, lambda size: 2, sizes=[8, 4, 2], width=monospaced)
    [('ab', 8), ('cd', 8)]
    >>> fitted(["abcdefghij", "xy"], 20, lambda size: 2, sizes=[8, 4, 2], width=monospaced)
    [('abcdefghij', 2), ('xy', 8)]
    >>> fitted(["10.20", "bearing", "J1"], 20, lambda size: 2, sizes=[2], width=monospaced)
    [('10.20 bea…', 2), ('J1', 2)]
    """
    for size in sizes:
        broken = [row for text in texts for row in _broken(text, room, size, width)]
        if len(broken) <= rows(size):
            return [_narrowed(row, room, [one for one in sizes if one <= size], width) for row in broken]
    return [_narrowed(text, room, sizes[-1:], width) for text in _merged(texts, rows(sizes[-1]))]


def _merged(texts: list[str], most: int) -> list[str]:
    """So many rows at most; where there is one alone, what lies between the first and the last text is left out."""
    if len(texts) <= most or most < 1:
        return texts[:most]
    if most == 1:
        return [" ".join((texts[0], texts[-1]))]
    return [" ".join(texts[: len(texts) - most + 1]), *texts[len(texts) - most + 1 :]]


def _narrowed(row: str, room: float, sizes: list[float], width: Width) -> tuple[str, float]:
    """A row at the largest size at which it has room, cut at the smallest."""
    size = next((one for one in sizes if width(row, one) <= room), sizes[-1])
    return _cut(row, room, size, width), size


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
    with _opened(face) as font:
        units = font["head"].unitsPerEm
        widths = font["hmtx"].metrics
        return {code: widths[glyph][0] / units for code, glyph in font.getBestCmap().items()}


@lru_cache(maxsize=4)
def _reaches(face: str) -> dict[int, tuple[float, float]]:
    """From where to where the ink of every character goes at size 1, by code point; nothing for a blank."""
    with _opened(face) as font:
        units, drawn = font["head"].unitsPerEm, font["glyf"]
        inked = {code: drawn[glyph] for code, glyph in font.getBestCmap().items() if drawn[glyph].numberOfContours}
        return {code: (glyph.xMin / units, glyph.xMax / units) for code, glyph in inked.items()}


def _opened(face: str) -> TTFont:
    from fontTools.ttLib import TTFont  # a large library, which the first screen does not wait for

    return TTFont(supply(face), lazy=True)
