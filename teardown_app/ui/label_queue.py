"""Labels that wait to be printed, and where the sheets go. Kept on this tablet only."""

from __future__ import annotations

from teardown_app.domain.parts import parts_of_number
from teardown_app.records.own_notes import OwnNotes
from teardown_app.workflows.act import refuse
from teardown_app.workshop import Workshop


class LabelQueue:
    """Numbers put on parts without a printed label, by job."""

    def __init__(self, workshop: Workshop, notes: OwnNotes) -> None:
        self._workshop, self._notes = workshop, notes
        self.written = ""
        """The sheet that was written last."""

    def add(self, job: str, number: str) -> None:
        """A part got a number whose label is printed later."""
        note = self._notes.read("labels")
        note.setdefault("queue", []).append([job, number])
        self._notes.keep("labels", note)

    def waiting(self) -> list[tuple[str, str]]:
        """Job and number of each; what was taken back does not wait any more."""
        queue = [(str(job), str(number)) for job, number in self._notes.read("labels").get("queue", [])]
        return [(job, number) for job, number in queue if parts_of_number(self._workshop.job(job).job, number)]

    def empty(self) -> None:
        """All are written."""
        self._notes.keep("labels", {"queue": []})

    def write(self, pdf: bytes, name: str) -> str:
        """Puts a sheet where the printer's computer finds it; gives its path."""
        folder = self._workshop.home.path / "labels"
        try:
            folder.mkdir(parents=True, exist_ok=True)
            (folder / name).write_bytes(pdf)
        except OSError as fault:
            refuse(
                f"The labels could not be written: {fault.strerror}.", "Make room on the disk, then write them again."
            )
        self.written = str(folder / name)
        return self.written
