"""Search: parts, places and jobs by number, position or words, from anywhere."""

from __future__ import annotations

from teardown_app.domain.parts.life import all_parts
from teardown_app.domain.parts.parts import own_place, written_on
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
        here = self._here(wanted) if self.desk.job_number else []
        return (*here, *self._elsewhere(words))[:MOST]

    def _here(self, wanted: list[str]) -> list[Row]:
        """Parts of the job in hand, then places that no part is known for."""
        job, rows, with_part = self.desk.job, [], set()
        for part in all_parts(job):
            name, place = self.desk.look.name(part), str(job.value(part, "place", "") or "")
            with_part.add(own_place(job, part))
            said = " ".join([name, place, *written_on(job, part)]).casefold()
            if all(word in said for word in wanted):
                rows.append(Row(part, name, place, act="part"))
        for key, position in job.positions.items():
            line = position.line
            text = f"{key} {line.description} {line.part_number}".casefold()
            if key not in with_part and all(word in text for word in wanted):
                rows.append(Row(key, f"{key}  {line.description}", line.part_number, act="place"))
        return rows

    def _elsewhere(self, words: str) -> list[Row]:
        """What the lists find in other jobs."""
        rows: list[Row] = []
        for row in self.desk.workshop.lists.search(words) if words else []:
            if row.get("job") and row["job"] != self.desk.job_number:
                number = row.get("number") or row.get("position") or row.get("name") or row["job"]
                name = f"{number} {row.get('description', '')}".strip()
                key = f"{row['job']}|{row.get('part') or ''}|{len(rows)}"
                rows.append(Row(key, name, f"job {row['job']}", act="job"))
        return rows

    def part(self, key: str) -> None:
        """Opens a part."""
        self.desk.go("part", part=key, back=True)

    def place(self, key: str) -> None:
        """Opens a place of which no part is known yet."""
        self.desk.go("teardown", at=key)

    def job(self, key: str) -> None:
        """Opens a job."""
        number, part, _ = key.split("|")
        self.desk.job_number = number
        if part:
            self.desk.go("part", part=part)
        else:
            self.desk.go("jobs", at=number)
