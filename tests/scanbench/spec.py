"""What is said of one photograph before it is drawn."""

from __future__ import annotations

from attrs import frozen

SIZES = {"s": (640, 480), "m": (1280, 720), "l": (1920, 1080)}
"""Width and height of a photograph in pixels."""


@frozen(kw_only=True)
class Spec:
    """One photograph: its labels, how they lie, and what is wrong with them. Lengths in pixels of it."""

    group: str = ""
    """What it is counted under."""
    level: float | str = 0
    """How strong the one distortion of its group is."""
    size: str = "m"
    labels: int = 1
    ground: str = ""
    """Kind of background; drawn by lot when empty."""

    side: float = 125
    """Side of the symbol."""
    version: int = 2
    correction: str = "H"
    characters: int = 16
    quiet: int = 4
    """Modules of quiet zone."""
    inverted: bool = False
    """Light modules on dark, as a laser marks them."""
    dark: float = 35
    light: float = 225

    turn: float | None = None
    """Degrees in the plane; by lot when None."""
    tilt: float = 0
    """Degrees out of the plane."""
    wrap: float = 0
    """Degrees of a cylinder that the symbol spans."""

    blur: float = 0.6
    """Standard deviation."""
    motion: int = 0
    """Length of the path while the shutter was open."""
    noise: float = 4
    """Standard deviation in grey levels."""
    glare: float = 0
    """Width of the highlight as a share of the symbol's side."""
    shadow: float = 0
    """Grey levels that a hard shadow takes from white."""
    jpeg: int = 0
    """Quality when saved as JPEG; 0: not saved."""
    stain: float = 0
    """Share of the symbol under flat opaque stains."""
    grease: float = 0
    """Share of the symbol under dark textured grease."""

    @property
    def wide_high(self) -> tuple[int, int]:
        """Width and height of the photograph."""
        return SIZES[self.size]
