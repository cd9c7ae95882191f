"""One label: a number and what is written beside it. Knows no paper."""

from __future__ import annotations

from attrs import field, frozen

from teardown_app.domain.job import Job
from teardown_app.domain.parts import number_of, own_place
from teardown_app.domain.tag import TagFault, is_ours


def _one_of_ours(_label: object, _field: object, number: str) -> None:
    if not is_ours(number):
        raise TagFault(f"{number!r} is not a number as it is printed; no label can be made of it.")


@frozen
class Label:
    """What one label says: the number, then position, description, job, each on a line of its own.

    The number is printed whole or not at all; a long line is printed smaller and then ended with "…".
    """

    number: str = field(validator=_one_of_ours)
    lines: tuple[str, ...] = ()


def label_of(job: Job, part: str) -> Label:
    """The label of a part that has a number: number, place, description, job."""
    key = own_place(job, part)
    description = job.positions[key].line.description.strip(" .") if key in job.positions else ""
    return Label(number_of(job, part), tuple(line for line in (key, description, job.number) if line))
