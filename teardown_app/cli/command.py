"""What a command is: its words, what it takes, what it answers."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from attrs import define, field, frozen

from teardown_app.cli.pin import check_pin
from teardown_app.domain.bill.materials import Materials
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import Draft, Record
from teardown_app.domain.parts.routing import Moment
from teardown_app.workflows.act import Act, ShopAct, refuse
from teardown_app.workshop import OpenJob, Workshop, materials_of, open_workshop


@frozen
class Answer:
    """What a command says: `data` for `--json`, `lines` for people, and the exit code."""

    data: Any
    lines: Sequence[str] = ()
    code: int = 0


@define
class Call:
    """One call of a command: its arguments and, opened when first asked for, the workshop."""

    args: Namespace
    home: Path
    assets: Path
    writes: bool
    _workshop: Workshop | None = field(default=None)
    _confirmed: bool = field(default=False)
    recorded: list[Record] = field(factory=list)
    """What this call has put on the disk so far: whatever fails afterwards, that stands."""

    @property
    def workshop(self) -> Workshop:
        """The workshop on the data folder, opened for writing when the command writes."""
        if self._workshop is None:
            self._workshop = open_workshop(self.home, self.assets, writes=self.writes)
        return self._workshop

    def troubles(self) -> Sequence[object]:
        """What a person should know of the data folder, once it was opened."""
        return self._workshop.home.troubles if self._workshop else ()

    def close(self) -> None:
        """Lets the next program in."""
        if self._workshop is not None:
            self._workshop.close()

    @property
    def by(self) -> str:
        """Code of the person who does this."""
        if not getattr(self.args, "by", ""):
            refuse("Nobody is named for this record.", "Say who does it: --by CODE.")
        return str(self.args.by).upper()

    def materials(self) -> Materials:
        """The table of materials, with what this shop adds to it."""
        return materials_of(self.home, self.assets)

    def job(self) -> OpenJob:
        """The job that the call names."""
        return self.workshop.find_job(self.args.job)

    def act(self, opened: OpenJob) -> Act:
        """The person's act on a job."""
        return self.workshop.act(self.by, opened.job)

    def look(self, job: Job) -> Act:
        """For asking, not for recording."""
        return Act(job, self.workshop.shop, "", Moment("", "", "ok"))

    def shop_act(self) -> ShopAct:
        """The person's act on the shop's registers."""
        return self.workshop.shop_act(self.by)

    def record(self, drafts: Sequence[Draft]) -> list[Record]:
        """Records what a workflow gave back, with the PIN of the person where it is asked."""
        if not self._confirmed and self.workshop.asks_pin(drafts):
            check_pin(self.workshop.home, self.by, self.args.pin_file)
            self._confirmed = True
        records = self.workshop.record(drafts, self.by)
        self.recorded += records
        return records


@frozen
class Command:
    """A command: `words` as typed (`part`, `tag`), one line of help, an example, and what it runs."""

    words: tuple[str, ...]
    says: str
    example: str
    run: Callable[[Call], Answer]
    arguments: Callable[[ArgumentParser], object] = lambda parser: None
    writes: bool = True
    """True when it records, and so needs the data folder for itself."""
    by: bool = True
    """True when it records and so takes `--by CODE`."""


def looks(
    words: tuple[str, ...],
    says: str,
    example: str,
    run: Callable[[Call], Answer],
    arguments: Callable[[ArgumentParser], object] = lambda parser: None,
) -> Command:
    """A command that records nothing."""
    return Command(words, says, example, run, arguments, writes=False, by=False)


def job_argument(parser: ArgumentParser) -> None:
    """The argument JOB."""
    parser.add_argument("job", metavar="JOB", help="number, name or order reference of the job")


@contextmanager
def closing(call: Call) -> Iterator[Call]:
    """Closes the workshop when the command is through."""
    try:
        yield call
    finally:
        call.close()


def cautions(said: Iterable[str]) -> list[str]:
    """Cautions as lines, each once."""
    return [f"  CAUTION: {one}" for one in dict.fromkeys(said)]


def recorded(records: Sequence[Record], *lines: str, **data: Any) -> Answer:
    """The answer of a command that recorded: what was done, and the names of the records."""
    refs = [record.ref for record in records]
    return Answer({**data, "recorded": refs}, [*lines, *(f"  recorded {ref}" for ref in refs)])
