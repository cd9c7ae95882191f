"""What is known of one part: its number, where it came from, what was found, what it waits for.

A part is named by its thing; where two names are one part, by the smallest of them.
"""

from __future__ import annotations

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.part import APPROVALS, Answer
from teardown_app.domain.ledger.record import is_position, position_thing
from teardown_app.domain.ledger.remembered import remembered

AS_RECEIVED = "as received"


def parts(job: Job) -> list[str]:
    """All parts of the job, each by its smallest name, in the order of these."""
    found = {job.group(thing)[0] for thing in job.things("made") if is_part(job, thing)}
    return sorted(found)


def is_part(job: Job, thing: str) -> bool:
    """True when a record that has effect brought this part in."""
    return not thing.startswith("@") and any(entry.value != "temporary" for entry in job.entries(thing, "made"))


@remembered
def number_of(job: Job, part: str) -> str:
    """The number on the part's label, empty when it has none."""
    return str(job.value(part, "number", "") or "")


def parts_of_number(job: Job, number: str) -> list[str]:
    """Parts that a number stands for; more than one is an open point."""
    return sorted({job.group(entry.value)[0] for entry in job.entries("number:" + number, "bound")})


def out_of(job: Job, part: str) -> str:
    """Key of the place that the part came out of, empty when unknown or no place of this job."""
    key = str(job.value(part, "out_of", "") or "")
    return key if key in job.positions else ""


def came_from(job: Job, key: str) -> list[str]:
    """Parts that came out of a place, as last said of each."""
    entries = job.entries(position_thing(key), "came_out")
    found = {job.group(entry.value)[0] for entry in entries} | _taken_over(job, "").get(key, set())
    return sorted(part for part in found if out_of(job, part) == key and is_part(job, part))


@remembered
def _taken_over(job: Job, _: str) -> dict[str, set[str]]:
    """Parts taken over from another job, by the place they came out of: nothing came off there."""
    found: dict[str, set[str]] = {}
    for part in {job.group(thing)[0] for thing in job.things("taken_over") if not is_position(thing)}:
        found.setdefault(out_of(job, part), set()).add(part)
    return found


@remembered
def own_place(job: Job, part: str) -> str:
    """Key of the place the part is meant for: the one named for it, else the one it came out of; a place of this
    job, or empty."""
    meant = str(job.value(part, "meant_for", "") or "")
    return meant if meant in job.positions else out_of(job, part)


def part_number_of(job: Job, part: str) -> str:
    """Part number written down for it, else that of the line it came out of."""
    written = job.value(part, "part_number", "")
    if written:
        return str(written)
    position = job.positions.get(out_of(job, part))
    return position.line.part_number if position else ""


def written_on(job: Job, part: str) -> list[str]:
    """What was noted as written on the part: serial, lot, a maker's code."""
    said = (job.value(part, facet) for facet in job.facets(part, "written"))
    return [str(one) for one in said if one]


def parts_with(job: Job, text: str) -> list[str]:
    """Parts on which exactly this is written, as a maker's code read by a scanner."""
    found = {thing for facet in job.written_facets("written") for thing in job.things(facet)}
    parts_here = sorted({job.group(thing)[0] for thing in found if is_part(job, thing)})
    return [part for part in parts_here if text in written_on(job, part)]


def origin_of(job: Job, part: str) -> str:
    """As received, new, repaired, exchanged, customer's, borrowed, stock, other job."""
    return str(job.value(part, "origin", AS_RECEIVED) or AS_RECEIVED)


def is_new(job: Job, part: str) -> bool:
    """True for a part that was never in use: new, or from stock."""
    return origin_of(job, part) in ("new", "stock")


def disposition_of(job: Job, part: str) -> str:
    """What is to become of the part, empty while nobody has said."""
    return str(job.value(part, "disposition", "") or "")


@remembered
def findings_of(job: Job, part: str) -> list[Entry]:
    """Findings on the part; each entry's value is the finding's name."""
    return job.entries(part, "finding")


def approval_of(job: Job, finding: str) -> Answer | None:
    """The customer's answer to a finding, None while nobody asked."""
    answer: Answer | None = job.value(finding, "approval")
    return answer


def waiting_findings(job: Job, part: str) -> list[str]:
    """Findings that nobody covered or the customer has not yet answered."""
    return _answered(job, part, APPROVALS[2], Answer(APPROVALS[2]))


def declined_findings(job: Job, part: str) -> list[str]:
    """Findings whose repair the customer declined."""
    return _answered(job, part, APPROVALS[3], Answer(""))


def _answered(job: Job, part: str, word: str, otherwise: Answer) -> list[str]:
    """Findings with this answer; `otherwise` stands for the answer while nobody asked."""
    found = [str(entry.value) for entry in findings_of(job, part)]
    return [finding for finding in found if (approval_of(job, finding) or otherwise).word == word]


def open_holds(job: Job, thing: str) -> list[Entry]:
    """Holds not lifted by somebody who had seen them; each entry's value is the hold's name."""
    return [entry for entry in job.entries(thing, "hold") if not lifts(job, entry)]


def lifts(job: Job, hold: Entry) -> list[Entry]:
    """Liftings of a hold that count."""
    return [entry for entry in job.entries(hold.value, "lifted") if job.knowing.knew(entry.record, hold.record)]


def why_of(job: Job, hold: Entry) -> str:
    """The reason given for a hold."""
    return str(hold.record.body.get("why", ""))


def word_of(job: Job, finding: str) -> str:
    """The word of a finding."""
    return next((str(entry.value["word"]) for entry in job.entries(finding, "says") if "word" in entry.value), "")
