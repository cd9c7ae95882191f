"""The true tool behind the records: pieces, screws, a ring, a bracket, as they really are. Of the small tool."""

from __future__ import annotations

from attrs import Factory, define, field

PLACES = {"10.10": "PN-10.10", "10.30": "PN-10.30", "20": "PN-P", "30": "PN-P"}
"""Places for parts, and the part number that belongs there."""
SCREWS = {"10.40": 4, "10.50": 2}
"""Places for hardware, and how many belong there."""
BENEATH_UNIT = ("10.10", "10.30", "10.20", "10.40", "10.50")


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
        """A piece that lies about goes into an empty place; a ring stays as it is beneath the lid, not over the rotor."""
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

    def differences(self) -> dict[str, set[str]]:
        """What is not as the bill has it, each with the places and names of parts that it is about."""
        found = {f"{key} is empty": {key} for key, piece in self.inside.items() if piece is None}
        for key, piece in self.inside.items():
            found |= _flaws(key, piece) if piece else {}
        for key, count in SCREWS.items():
            if self.screws[key] != count or self.lost[key]:
                found[f"{key} has {self.screws[key]} screws, {self.lost[key]} are lost"] = {*SCREWS}
        if not self.tight:
            found["the lid is loose"] = {"10.40", "10.30"}
        if self.ring == "opened":
            found["the ring was opened"] = {"10.20", "10.10", "10.30"}
        if self.bracket != "in":
            found["the bracket is out"] = {"40"}
        if not self.tested:
            found["nobody knows whether it leaks"] = {"10", *BENEATH_UNIT}
        return found


def _flaws(key: str, piece: Piece) -> dict[str, set[str]]:
    """What is wrong with the piece in a place."""
    about, found = {key, *piece.called}, []
    if piece.number != PLACES[key]:
        found.append("is another part")
    if key == "10.10" and not (piece.straight and "runout" in piece.measured):
        found.append("runs out, for all that was measured")
    if key == "10.10" and not piece.washed and not piece.name.startswith("new"):
        found.append("is dirty")
    if key == "30" and "earth" not in piece.measured:
        found.append("is not known to be earthed")
    return {f"{piece.name} in {key} {what}": about for what in found}
