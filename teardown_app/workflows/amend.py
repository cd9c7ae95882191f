"""What the opening of a job said is put right: order, name, serial number, due day, options."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.job.job import JOB
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.deed import DAY, Deed, Field
from teardown_app.workflows.open_job import check_day, check_options


def amend(
    act: Act,
    *,
    why: str,
    order: str | None = None,
    name: str | None = None,
    serial: str | None = None,
    due: str | None = None,
    options: Sequence[str] | None = None,
) -> Drafts:
    """Changes what is given; the rest stays as it was."""
    act.working("office")
    if not why.strip():
        refuse("A change to the job needs its reason.", "Say why.")
    if due:
        check_day(due)
    if options is not None:
        check_options(act.job.bill, options)
    changes = {"order": order, "name": name, "serial": serial, "due": due}
    given = {key: text for key, text in changes.items() if text is not None}
    if not given and options is None:
        refuse("Nothing is to be changed.", "Name what changes: order, name, serial, due or options.")
    listed = None if options is None else list(options)
    return [act.draft("job.amended", (JOB,), why=why, options=listed, **given)]


AMEND = Deed(
    name="job amend", about=JOB, do=amend, writes=("job.amended",),
    says="Change what the opening of a job said.",
    example="J7K3M00018 --due 2026-06-12 --why 'customer moved the date' --by OF",
    done="Job {job} is amended.",
    fields=(Field("order", says="the order from now on"),
            Field("name", says="the name from now on"),
            Field("serial", says="the serial from now on"),
            Field("due", says="the due day from now on", sort=DAY),
            Field("options", says="an option of this tool; name all it has", many=True),
            Field("why", "Why?", "the reason", needed=True)),
)  # fmt: skip
