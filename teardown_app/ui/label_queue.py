"""Labels at this tablet: the next one of the roll, those that wait to be printed, and where the sheets go."""

from __future__ import annotations

from teardown_app.domain.entry import display_order
from teardown_app.domain.job import Job
from teardown_app.domain.parts import parts_of_number
from teardown_app.domain.tag import issue, parse
from teardown_app.records.own_notes import OwnNotes
from teardown_app.workflows.act import refuse
from teardown_app.workshop import Workshop


class LabelQueue:
    """Numbers put on parts without a printed label, by job."""

    def __init__(self, workshop: Workshop, notes: OwnNotes) -> None:
        self._workshop, self._notes = workshop, notes
        self._last = ""
        self.written = ""
        """The sheet that was written last."""

    def put_on(self, number: str) -> None:
        """A label was put on a part: the roll goes on after it."""
        self._last = number

    def next_of_roll(self, job: Job) -> str:
        """The label after the last one put on a part of this job or at this tablet; empty when that is not free."""
        last = self._last or self._last_of(job)
        if not last:
            return ""
        following = issue("P", last[1:5], parse(last).counter + 1, 1)[0][0]
        return "" if parts_of_number(job, following) or self._workshop.belongs_elsewhere(following, "") else following

    def _last_of(self, job: Job) -> str:
        """The label put on last, as the records of the job tell; asked once, after a start."""
        came_off = [one for one in job.records.values() if one.typ == "part.taken_off" and one.body.get("number")]
        self._last = str(max(came_off, key=display_order).body["number"]) if came_off else ""
        return self._last

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
