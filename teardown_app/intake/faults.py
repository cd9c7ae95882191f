"""What is wrong or worth saying about a file that others wrote: gathered, never the first one only."""

from __future__ import annotations

from attrs import Factory, define, frozen


@frozen(order=True)
class Fault:
    """One thing that is wrong (or, among notes, worth knowing) and where it stands."""

    file: str
    row: int
    """As the spreadsheet numbers it; a line of a text file; 0 for the file as a whole."""
    column: str
    message: str
    """What is wrong and what would be right."""


@frozen
class Place:
    """Where something stands."""

    file: str
    row: int = 0
    column: str = ""
    sheet: str = ""
    """Sheet of a workbook that a message must name, empty for the sheet `bill` and for text files."""

    def found(self, message: str) -> Fault:
        """What was found here."""
        return Fault(self.file, self.row, self.column, f"Sheet {self.sheet}: {message}" if self.sheet else message)


@define
class Findings:
    """Faults and notes found so far. The same thing is said once."""

    faults: list[Fault] = Factory(list)
    notes: list[Fault] = Factory(list)

    def fault(self, place: Place, message: str) -> None:
        """Something that must be put right before the bill can be used."""
        self.faults.append(place.found(message))

    def note(self, place: Place, message: str) -> None:
        """Something worth knowing that stops nothing."""
        self.notes.append(place.found(message))


def in_order(found: list[Fault]) -> list[Fault]:
    """By file, row and column as first met, each once."""
    files = {file: place for place, file in enumerate(dict.fromkeys(each.file for each in found))}
    return sorted(dict.fromkeys(found), key=lambda each: (files[each.file], each.row))
