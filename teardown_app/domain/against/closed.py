"""What stands against every act on a job: that it is closed."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.lacks.lack import JOB_CLOSED, Lack, ToDo, Where, lack
from teardown_app.domain.signed.signing import closing_stands


def against_closed(job: Job) -> Iterator[Lack]:
    """One lack while the closing stands: it is reopened first, also where a gauge or a wait opened a point since."""
    if closing_stands(job):
        yield lack(JOB_CLOSED, Where(JOB), f"Job {job.number} is closed.", to_do=ToDo("job reopen", JOB))
