"""Codes in pictures that nobody aimed: files and trays. Each place that is like a label is a candidate of its own.

The first reader looks at the whole picture. What is like the labels that it read, and was not read, is looked at
alone: compared with the known numbers, else by the second reader. Where the first one saw nothing the likeliest
place is compared, then come all steps of the readers one after the other, then the comparison once more, at length.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from pathlib import Path
from time import monotonic

from attrs import frozen

from teardown_app.intake.code_readers import Readers, installed
from teardown_app.intake.comparison.compare import MOST_LOOKS
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.comparison.spots import Spot, spots
from teardown_app.intake.corners import is_on, middle_of, width_of
from teardown_app.intake.known_codes import recognised
from teardown_app.intake.pictures import Grey, PictureFault, open_grey
from teardown_app.intake.read_codes import Code, add, look
from teardown_app.intake.reading_order import one_after_the_other, over_a_tray

UNREAD = "not read"
DEADLINE_S = 3.0
"""For the comparison, in each picture."""
PLACES, FEW_PLACES = 60, 10
"""Looked at in one picture, at most: twice a tray of thirty; the few where it is no tray."""
LIKE = 0.5
"""Less like a label than this share of the least that was read is none."""
IN_VAIN = 3
"""So many places one after the other where nothing comes out, or as many as there are codes, and the rest is let be."""
TRAY, THOROUGHLY = 3, 4
"""With so many codes it is a tray, and its places get so many looks."""
NEAR = 0.7
"""Two labels lie farther apart than this, in their widths: a label, with its quiet zone, is 1.4 wide."""
AROUND = 1.1
"""So far around its middle a place is cut out for a reader, in its widths."""


@frozen
class Still:
    """What is in one picture."""

    codes: list[Code]
    unread: list[Code]
    """Places like the labels that were read where nothing came out; they have no text."""


@frozen
class Reading:
    """What came out of one file: its codes, or in `fault` why it could not be read."""

    file: str
    codes: tuple[Code, ...] = ()
    fault: str = ""


def read_pictures(paths: Iterable[Path], known: KnownTags | None = None) -> list[Reading]:
    """One reading a file in the order given; a broken file does not stop the others."""
    return [_reading(path, known) for path in paths]


def read_picture(path: Path, known: KnownTags | None = None) -> list[Code]:
    """All codes of a picture file; raises `PictureFault` when the file is broken or no reader is there."""
    try:
        readers = installed().needed()
    except PictureFault as fault:
        raise PictureFault(f"{path}: {fault}") from fault
    return read_still(open_grey(path), readers, known)


def read_still(
    grey: Grey, readers: Readers | None = None, known: KnownTags | None = None, *, deadline_s: float | None = None
) -> list[Code]:
    """All codes of a picture, uint8, read or recognised among the known numbers."""
    return whole_still(grey, readers, known, deadline_s=deadline_s).codes


def whole_still(
    grey: Grey, readers: Readers | None = None, known: KnownTags | None = None, *, deadline_s: float | None = None
) -> Still:
    """The same, and the places that were looked at in vain."""
    still = _Still(grey, (installed() if readers is None else readers).needed(), known or KnownTags(), deadline_s)
    still.look_all_over()
    unread = [unread_at(one) for one in still.look_for_others()]
    return Still(still.codes, unread)


def _reading(path: Path, known: KnownTags | None) -> Reading:
    try:
        return Reading(str(path), tuple(read_picture(path, known)))
    except PictureFault as fault:
        return Reading(str(path), fault=str(fault))


class _Still:
    """One picture and the codes found in it until now."""

    def __init__(self, grey: Grey, readers: Readers, known: KnownTags, deadline_s: float | None) -> None:
        self.grey, self.readers, self.known = grey, readers, known
        self.codes: list[Code] = []
        self._looks = 0
        self._until = monotonic() + (DEADLINE_S if deadline_s is None else deadline_s)

    def look_all_over(self) -> None:
        """The first reader; where it sees nothing the likeliest place, then the other steps; then at length."""
        first, *others = one_after_the_other(self.readers)
        add(self.codes, look(self.grey, first, self.readers))
        if not self.codes:
            self.take_compared(spots(self.grey, 1), THOROUGHLY, offered_too=False)
        for step in others:
            if self.codes:
                break
            add(self.codes, look(self.grey, step, self.readers))
        if not any(code.ours and not code.offered for code in self.codes):
            self.take_compared(None)

    def take_compared(self, found: list[Spot] | None, most: int = MOST_LOOKS, offered_too: bool = True) -> bool:
        """Takes the known tag at one place, or anywhere; false where none is."""
        if not len(self.known):
            return False
        left = max(0.0, self._until - monotonic())
        codes = recognised(self.grey, self.known, deadline_s=left, found=found, before=self._looks, most=most)
        self._looks += most
        return add(self.codes, [one for one in codes if offered_too or not one.offered])

    def look_for_others(self) -> list[Spot]:
        """Each place like the labels that are known already, the likeliest first; of a tray what is left at length.
        Told are those where nothing came out."""
        left = self._looked_at(self._places(FEW_PLACES), 1)
        if len(self.codes) < TRAY:
            return left
        return self._looked_at(self._looked_at(self._places(PLACES), 1), THOROUGHLY)

    def _looked_at(self, places: list[Spot], most: int) -> list[Spot]:
        """Those of the places where nothing came out."""
        vain: list[Spot] = []
        in_a_row = 0
        for place in places:
            if in_a_row >= max(IN_VAIN, len(self.codes)) or monotonic() > self._until:
                break
            if not any(lies_on(place, code) for code in self.codes):
                came = self.take_compared([place], most) or self._read(place)
                in_a_row = 0 if came else in_a_row + 1
                vain += [] if came else [place]
        return vain

    def _places(self, most: int) -> list[Spot]:
        """Places about as large as what was found, and as much like a label."""
        widths = [width_of(code.corners) for code in self.codes if code.corners]
        found = spots(self.grey, most, widths) if widths else []
        own = [max((one.score for one in found if lies_on(one, code)), default=math.inf) for code in self.codes]
        likeliest = max((one.score for one in found), default=0.0)  # where none of those found is the likeliest
        return [one for one in found if one.score >= LIKE * min(likeliest, *own)]

    def _read(self, place: Spot) -> bool:
        """What the second reader sees at a place; false where it sees nothing new."""
        reach = round(place.width * AROUND)
        left, top = max(0, round(place.x) - reach), max(0, round(place.y) - reach)
        part = self.grey[top : round(place.y) + reach, left : round(place.x) + reach]
        return any(add(self.codes, look(part, step, self.readers, (left, top))) for step in over_a_tray(self.readers))


def unread_at(place: Spot) -> Code:
    """A place where nothing came out, as a code without a text."""
    left, right = round(place.x - place.width / 2), round(place.x + place.width / 2)
    top, bottom = round(place.y - place.width / 2), round(place.y + place.width / 2)
    return Code("", False, UNREAD, ((left, top), (right, top), (right, bottom), (left, bottom)))


def lies_on(place: Spot, code: Code) -> bool:
    """True for a place whose middle is on the symbol of a code, or that the middle of the symbol is on."""
    if not code.corners:
        return False
    here = (place.x, place.y)
    return is_on(code.corners, here) or math.dist(middle_of(code.corners), here) < NEAR * place.width
