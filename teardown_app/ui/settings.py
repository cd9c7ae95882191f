"""What people chose for this tablet and for themselves: looks, density, units, size of the glass.

Kept in `private/` of the data folder and never in a record. A setting that is not known is the first of
its list.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from attrs import evolve, frozen

LOOKS = ("light", "dark", "high contrast")
DENSITIES = ("gloves", "bare hands")
UNITS = ("SI", "inch-pound")
BENCHES = ("all benches", "one person")
"""All benches, or the light mode for a one-person job."""


@frozen
class Choice:
    """What one person chose."""

    look: str = LOOKS[0]
    density: str = DENSITIES[0]
    units: str = UNITS[0]
    benches: str = BENCHES[0]


ALLOWED = {"look": LOOKS, "density": DENSITIES, "units": UNITS, "benches": BENCHES}


class Settings:
    """Choices by person, and the dots per inch of this glass (0: as the system says)."""

    def __init__(self, note: dict[str, Any], keep: Callable[[dict[str, Any]], object]) -> None:
        self._note, self._keep = note, keep

    def of(self, code: str) -> Choice:
        """What a person chose; who has chosen nothing has what the tablet's last person chose."""
        people = self._note.get("people", {})
        rows = [people.get("", {}), people.get(code, {})] if isinstance(people, dict) else []
        choice = Choice()
        for row in rows:
            known = {name: row[name] for name, words in ALLOWED.items() if row.get(name) in words}
            choice = evolve(choice, **known)
        return choice

    def choose(self, code: str, name: str, word: str) -> None:
        """Keeps one choice of a person."""
        people = self._note.setdefault("people", {})
        for who in {code, ""}:
            people.setdefault(who, {})[name] = word
        self._keep(self._note)

    def instrument_for(self, reads: str) -> str:
        """Number of the instrument last used on this tablet for what bills call so; empty before the first time."""
        used = self._note.get("instruments", {})
        return str(used.get(reads.casefold(), "")) if isinstance(used, dict) else ""

    def use_instrument(self, reads: str, number: str) -> None:
        """Keeps the instrument for the next reading of that sort."""
        self._note.setdefault("instruments", {})[reads.casefold()] = number
        self._keep(self._note)

    @property
    def dots_per_inch(self) -> float:
        """As it was measured with a ruler, 0 while nobody did."""
        found = self._note.get("dots_per_inch", 0)
        return float(found) if isinstance(found, (int, float)) and 60 <= found <= 800 else 0.0

    def measure(self, dots_per_inch: float) -> None:
        """Keeps the true dots per inch."""
        self._note["dots_per_inch"] = round(dots_per_inch, 1)
        self._keep(self._note)

    @property
    def camera_side(self) -> str:
        """Which camera was used last: `back`, or `front`, whose picture is mirrored."""
        return "front" if self._note.get("camera") == "front" else "back"

    def use_camera(self, side: str) -> None:
        """Keeps the side for the next time."""
        self._note["camera"] = side
        self._keep(self._note)
