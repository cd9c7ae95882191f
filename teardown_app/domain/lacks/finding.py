"""Findings: what waits for the customer's answer, and what the customer declined."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.ground import records_of
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import DECLINED, WAITING, Lack, ToDo, lack, of_part
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.parts.going_back import goes_back
from teardown_app.domain.parts.naming import part_named
from teardown_app.domain.parts.parts import approval_of, declined_findings, findings_of, waiting_findings, word_of


def finding_lacks(job: Job, part: str) -> Iterator[Lack]:
    """Findings on a part that goes back that wait for an answer, then those whose repair was declined."""
    if goes_back(job, part):
        yield from waiting_lacks(job, part)
        yield from declined_lacks(job, part)


def declined_lacks(job: Job, part: str) -> Iterator[Lack]:
    """Findings on a part whose repair the customer declined."""
    where = of_part(job, part)
    for finding in declined_findings(job, part):
        said = f"the customer declined what the finding {word_of(job, finding)} needs."
        wrong = f"{part_named(job, part, where.position)}: {said}"
        yield lack(DECLINED, where, wrong, ground=_ground(job, part, finding), which=finding)


def waiting_lacks(job: Job, part: str) -> Iterator[Lack]:
    """Findings on a part that wait for the customer's answer."""
    where = of_part(job, part)
    for finding in waiting_findings(job, part):
        yield lack(
            WAITING,
            where,
            f"{part_named(job, part, where.position)}: the finding {word_of(job, finding)} "
            f"waits for the customer's answer ({_asked(job, finding)}).",
            to_do=ToDo("finding answer", finding),
            ground=_ground(job, part, finding),
            which=finding,
        )


def _ground(job: Job, part: str, finding: str) -> tuple[Record, ...]:
    """The finding, what was answered, and what is to become of the part."""
    noted = [entry for entry in findings_of(job, part) if entry.value == finding]
    return records_of([*noted, *job.ever(finding, "approval"), *job.ever(part, "disposition")])


def _asked(job: Job, finding: str) -> str:
    asked = approval_of(job, finding)
    return f"asked in {asked.reference}" if asked and asked.reference else "not asked yet"
