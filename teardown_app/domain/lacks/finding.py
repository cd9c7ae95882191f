"""Findings: what waits for the customer's answer, and what the customer declined."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.lacks.lack import DECLINED, WAITING, Lack, ToDo, lack, of_part
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import part_named
from teardown_app.domain.nouns.parts import approval_of, behind_finding, declined_findings, waiting_findings, word_of


def finding_lacks(job: Job, part: str) -> Iterator[Lack]:
    """Findings on a part that wait for an answer, then those whose repair was declined."""
    yield from waiting_lacks(job, part)
    where = of_part(job, part)
    for finding in declined_findings(job, part):
        said = f"the customer declined what the finding {word_of(job, finding)} needs."
        wrong = f"{part_named(job, part, where.position)}: {said}"
        yield lack(DECLINED, where, wrong, ground=behind_finding(job, part, finding), which=finding)


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
            ground=behind_finding(job, part, finding),
            which=finding,
        )


def _asked(job: Job, finding: str) -> str:
    reference = (approval_of(job, finding) or {}).get("reference", "")
    return f"asked in {reference}" if reference else "not asked yet"
