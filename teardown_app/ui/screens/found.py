"""Search: parts, places and jobs by number, position or words, from anywhere."""

from __future__ import annotations

from teardown_app.domain.life import all_parts
from teardown_app.domain.parts import number_of, own_place
from teardown_app.ui.screen import Screen
from teardown_app.ui.view import Card, Row, Step, View

MOST = 200


class Found(Screen):
    """What a search found."""

    name = "found"
    of_job = False

    def view(self) -> View:
        words = str(self.state.get("words", ""))
        rows = self._rows(words)
        empty = f"Nothing is called “{words}”. Try a piece of the number, the position or the name."
        card = Card(head=f"Search: {words}", word=f"{len(rows)} found")
        return View("Search", rows, empty, card=card, main=Step("Search again", "search"))

    def _rows(self, words: str) -> tuple[Row, ...]:
        wanted = words.casefold().split()
        rows: list[Row] = []
        if self.desk.job_number:
            job = self.desk.job
            for part in all_parts(job):
                text = f"{self.desk.look.name(part)} {job.value(part, 'place', '') or ''}"
                if all(word in text.casefold() for word in wanted):
                    rows.append(
                        Row(part, self.desk.look.name(part), str(job.value(part, "place", "") or ""), act="part")
                    )
            with_part = {own_place(job, part) for part in all_parts(job)}
            for key, position in job.positions.items():
                line = position.line
                text = f"{key} {line.description} {line.part_number}".casefold()
                if key not in with_part and all(word in text for word in wanted):
                    rows.append(Row(key, f"{key}  {line.description}", line.part_number, act="place"))
        for row in self.desk.workshop.lists.search(words) if words else []:
            if row.get("job") and row["job"] != self.desk.job_number:
                name = (
                    f"{row.get('number') or row.get('position') or row.get('name') or ''} {row.get('description', '')}"
                )
                where = f"{row['job']}|{row.get('part') or ''}|{len(rows)}"
                rows.append(Row(where, name.strip() or str(row["job"]), f"job {row['job']}", act="job"))
        return tuple(rows[:MOST])

    def part(self, key: str) -> None:
        """Opens a part."""
        self.desk.go("part", part=key, back=True)

    def place(self, key: str) -> None:
        """Opens a place on the bench where it is worked on."""
        came_off = bool(number_of(self.desk.job, key))
        self.desk.go("assembly" if came_off else "teardown", at=key)

    def job(self, key: str) -> None:
        """Opens a job."""
        number, part, _ = key.split("|")
        self.desk.job_number = number
        if part:
            self.desk.go("part", part=part)
        else:
            self.desk.go("jobs", at=number)
