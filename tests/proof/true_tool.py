"""The true tool behind the records: pieces, screws, a ring, a bracket, as they really are. Of the small tool."""

from __future__ import annotations

from typing import NamedTuple

from attrs import Factory, define, field

PLACES = {"10.10": "PN-10.10", "10.30": "PN-10.30", "20": "PN-P", "30": "PN-P"}
"""Places for parts, and the part number that belongs there."""
SCREWS = {"10.40": 4, "10.50": 2}
"""Places for hardware, and how many belong there."""
BENEATH_UNIT = ("10.10", "10.30", "10.20", "10.40", "10.50")


HOLE = "missing, fitted over an empty position, fitted twice"
ANOTHER = "wrong component, swapped within a matched set, belongs to another job or owner, not released"


class Difference(NamedTuple):
    """One thing that is not as the bill has it."""

    what: str
    about: set[str]
    """Places, and names of parts."""
    kinds: str
    """Points one of which would say it."""
    released: bool = False
    """Whether somebody who releases the part answers for it."""


@define(eq=False)
class Piece:
    """One real part."""

    name: str
    number: str
    straight: bool = True
    """Whether its runout is what the bill asks."""
    washed: bool = False
    measured: set[str] = Factory(set)
    """Checks that were really read since it was last worked on."""
    called: list[str] = Factory(list)
    """Names that records gave it."""
    gone: bool = False
    """Left the shop."""


@define(eq=False)
class TrueTool:
    """What a person with eyes would see."""

    pieces: list[Piece]
    inside: dict[str, Piece | None]
    screws: dict[str, int] = field(factory=lambda: dict(SCREWS))
    """In their holes."""
    bag: dict[str, int] = field(factory=lambda: dict.fromkeys(SCREWS, 0))
    """Lying beside the tool."""
    lost: dict[str, int] = field(factory=lambda: dict.fromkeys(SCREWS, 0))
    """Fallen into the tool."""
    added: dict[str, int] = field(factory=lambda: dict.fromkeys(SCREWS, 0))
    """Taken from the drawer."""
    put: dict[str, int] = field(factory=lambda: dict.fromkeys(SCREWS, 0))
    """Put in since it was opened first, as those who did it wrote down."""
    lied: set[str] = Factory(set)
    """Names of records that are not so."""
    tight: bool = True
    ring: str = "as it came"
    """as it came, opened, new."""
    bracket: str = "in"
    tested: bool = False
    """Whether the unit was tested for leaks since anything in it moved."""

    @classmethod
    def as_received(cls) -> TrueTool:
        """A tool with everything in it."""
        pieces = [Piece(f"piece of {key}", number) for key, number in PLACES.items()]
        return cls(pieces, dict(zip(PLACES, pieces, strict=True)))

    def where(self, piece: Piece) -> str:
        """The place a piece is in; '' where it lies about."""
        return next((key for key, there in self.inside.items() if there is piece), "")

    def moved(self, key: str) -> None:
        """A piece, screw or ring went in or out: what that opens and loosens."""
        if key in BENEATH_UNIT:
            self.tested = False
        if key in ("10.30", "10.40"):
            self.tight = False
        if key in ("10.10", "10.30"):
            self.ring = "opened"

    def out(self, key: str) -> Piece | None:
        """What is in a place comes out."""
        piece, self.inside[key] = self.inside[key], None
        self.moved(key)
        return piece

    def into(self, key: str, piece: Piece) -> None:
        """A piece that lies about goes into an empty place; a ring stays as it is under the lid, not over the rotor."""
        ring = self.ring
        self.inside[key] = piece
        self.moved(key)
        self.ring = ring if key == "10.30" else self.ring

    def new_piece(self, key: str) -> Piece:
        """A new one of the number that belongs there."""
        piece = Piece(f"new piece {len(self.pieces)}", PLACES[key])
        self.pieces.append(piece)
        return piece

    def unscrewed(self, key: str, falls: int) -> None:
        """All screws of a place come out, and some fall into the tool."""
        falls = min(falls, self.screws[key])
        self.bag[key] += self.screws[key] - falls
        self.lost[key] += falls
        self.screws[key] = self.put[key] = 0
        self.moved(key)

    def screwed(self, key: str, count: int) -> None:
        """So many go in."""
        self.bag[key] -= count
        self.screws[key] += count
        self.put[key] += count
        self.moved(key)

    def differences(self) -> list[Difference]:
        """What is not as the bill has it."""
        found = [Difference(f"{key} is empty", {key}, HOLE) for key, piece in self.inside.items() if piece is None]
        found += [each for key, piece in self.inside.items() if piece for each in _flaws(key, piece)]
        for key, count in SCREWS.items():
            if self.screws[key] != count or self.lost[key]:
                what = f"{key} has {self.screws[key]} screws, {self.lost[key]} are lost"
                found.append(Difference(what, {*SCREWS}, "hardware does not balance"))
        if not self.tight:
            found.append(Difference("the lid is loose", {"10.40", "10.30"}, "joint not torqued or due again"))
        if self.ring == "opened":
            about = {"10.20", "10.10", "10.30"}
            found.append(Difference("the ring was opened", about, "consumable not renewed or expired"))
        if self.bracket != "in":
            found.append(Difference("the bracket is out", {"40"}, "temporary in or out wrongly"))
        if not self.tested:
            found.append(Difference("nobody knows whether it leaks", {"10", *BENEATH_UNIT}, "check due"))
        return found


def _flaws(key: str, piece: Piece) -> list[Difference]:
    """What is wrong with the piece in a place, unless it was agreed that the place is not asked for. Of a new piece the
    small tool's bill asks neither runout nor washing."""
    about, found = {key, *piece.called}, []
    if piece.number != PLACES[key]:
        found.append(Difference("is another part", about, ANOTHER, released=True))
    worn = key == "10.10" and not piece.name.startswith("new")
    if worn and not (piece.straight and "runout" in piece.measured):
        found.append(Difference("runs out, for all that was measured", about, "check due", released=True))
    if worn and not piece.washed:
        found.append(Difference("is dirty", about, "not released", released=True))
    if key == "30" and "earth" not in piece.measured:
        found.append(Difference("is not known to be earthed", about, "check due", released=True))
    return [each._replace(what=f"{piece.name} in {key} {each.what}", kinds=f"{each.kinds}, {HOLE}") for each in found]
