"""Release of a part: what it must show, what a release covers, and when it lapses."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.nouns.checking import (
    IN_DOUBT,
    UNFIT,
    Status,
    doubts_of,
    part_status,
    release_checks,
    spoilers_of,
)
from teardown_app.domain.nouns.conceding import is_conceded, may_be_conceded, refs
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import (
    declined_findings,
    disposition_of,
    findings_of,
    lifts,
    open_holds,
    waiting_findings,
)
from teardown_app.domain.nouns.routing import Moment, begun, operation_facets, out_of_order, remaining, waits_open

FIT_FOR_USE = ("use as is", "rework", "repair")


class Lack(NamedTuple):
    """One thing that stands between a part and its release."""

    kind: str
    wrong: str
    clears: str


def lacks(job: Job, part: str, moment: Moment | None) -> list[Lack]:
    """All that stands between a part and its release at a moment (None: waits are not asked)."""
    found = [*_disposition(job, part), *_holds(job, part), *_findings(job, part)]
    found += [_check_lack(one) for one in checks_open(job, part)]
    found += _operations(job, part)
    if moment is not None:
        found += [
            Lack("wait", f"{one.says or one.id} rests for another {left:.1f} h", "Wait until it is over.")
            for one, left in waits_open(job, part, moment)
        ]
    return found


def _disposition(job: Job, part: str) -> list[Lack]:
    word = disposition_of(job, part)
    if word in FIT_FOR_USE:
        return []
    said = f"it is dispositioned {word}" if word else "it has no disposition"
    return [Lack("disposition", said, "Give it the disposition use as is, rework or repair.")]


def _holds(job: Job, part: str) -> list[Lack]:
    return [
        Lack("hold", f"it is on hold: {why_of(job, hold)}", "Lift the hold when its reason is gone.")
        for hold in open_holds(job, part)
        if not is_conceded(job, "hold", part, hold.value, refs([hold]))
    ]


def why_of(job: Job, hold: Entry) -> str:
    """The reason given for a hold."""
    return str(hold.record.body.get("why", ""))


def _findings(job: Job, part: str) -> list[Lack]:
    waiting = [
        Lack("approval", f"the finding {word_of(job, one)} waits for an answer", "Record the answer.")
        for one in waiting_findings(job, part)
        if not is_conceded(job, "approval waiting", part, one, behind_finding(job, part, one))
    ]
    declined = [
        Lack("approval", f"the repair of {word_of(job, one)} was declined", "Concede it by signature.")
        for one in declined_findings(job, part)
        if not is_conceded(job, "declined by the customer", part, one, behind_finding(job, part, one))
    ]
    return waiting + declined


def behind_finding(job: Job, part: str, finding: str) -> tuple[str, ...]:
    """What a point about a finding rests on: the finding and the answers to it."""
    noted = [entry for entry in findings_of(job, part) if entry.value == finding]
    return refs([*noted, *job.heads(finding, "approval")])


def word_of(job: Job, finding: str) -> str:
    """The word of a finding."""
    return next((str(entry.value["word"]) for entry in job.entries(finding, "says") if "word" in entry.value), "")


def checks_open(job: Job, part: str) -> list[Status]:
    """Readings that the release needs and that are neither accepted nor conceded."""
    statuses = [part_status(job, part, needed) for needed in release_checks(job, part)]
    return [one for one in statuses if one.word != "accept" and not check_conceded(job, part, one)]


def check_conceded(job: Job, part: str, one: Status) -> bool:
    """True where the reading was conceded as it stands; never for a protective function."""
    behind = behind_check(job, part, one)
    return may_be_conceded(one.needed.check) and is_conceded(job, "check due", part, one.needed.facet, behind)


def behind_check(job: Job, part: str, one: Status) -> tuple[str, ...]:
    """What a point about a reading rests on: the reading and the work that spoils it."""
    check = one.needed.check
    return refs([*one.heads, *spoilers_of(job, part, check), *doubts_of(job, check, one.heads)])


def _check_lack(one: Status) -> Lack:
    if one.word in ("due", "due again"):
        return Lack("check", f"its check {one.needed.says} is {one.word}", "Read the check.")
    if one.word in (UNFIT, IN_DOUBT):
        return Lack("check", f"its check {one.needed.says} is {one.word}", "Read it again with an instrument in date.")
    return Lack("check", f"its check {one.needed.says} reads {one.word}", "Read it again, or concede it.")


def _operations(job: Job, part: str) -> list[Lack]:
    left = [one.says or one.id for one in remaining(job, part)]
    if left:
        return [Lack("operation", f"still to do: {'; '.join(left)}", f"Do {left[0]} next.")]
    unended = [facet.split("/")[2] for facet in begun(job, part)]
    if unended:
        return [Lack("operation", f"begun and not ended: {', '.join(unended)}", f"Bring {unended[0]} to its end.")]
    early = out_of_order(job, part)
    if early:
        return [Lack("operation", f"{early} was recorded out of order", "Do it again, or skip it by name.")]
    return []


def covers(job: Job, part: str) -> tuple[str, ...]:
    """Names of the records that a release of the part rests on, sorted."""
    facets = ["disposition", "origin", *operation_facets(job, part)]
    entries: list[Entry] = [head for facet in facets for head in job.heads(part, facet)]
    for finding in findings_of(job, part):
        entries += [finding, *job.heads(finding.value, "approval")]
    for needed in release_checks(job, part):
        entries += job.heads(part, needed.facet)
    for hold in job.entries(part, "hold"):
        entries += [hold, *lifts(job, hold)]
    return refs(entries)


def is_released(job: Job, part: str) -> bool:
    """True while a release covers today's facts and all of its conditions still hold."""
    entries = job.entries(part, "released")
    if not entries:
        return False
    wanted = covers(job, part)
    records = [entry.record for entry in entries if entry.value == wanted]
    return any(not lacks(job, part, Moment(one.dev, one.wall, one.clk)) for one in records)


def why_not_released(job: Job, part: str) -> list[Lack]:
    """What has to happen before the part counts as released; empty when it does."""
    if is_released(job, part):
        return []
    found = lacks(job, part, None)
    if found:
        return found
    if job.entries(part, "released"):
        return [Lack("release", "something changed since its release", "Release it again.")]
    return [Lack("release", "nobody has released it", "Release it.")]
