"""A tablet that keeps every branch of what others wrote, and says of each in `seen` how far it knew it."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import takewhile

from attrs import define

from teardown_app.domain.ledger.record import SHOP, Record
from tests.open_points.tablets import JOB, Tablet

Branch = list[Record]


@define(eq=False)
class Meeting(Tablet):
    """Where branches of one tablet meet. A further one has the name of its first record: `t1~0#3fa1c2d4`."""

    def sync(self, other: Tablet, journals: tuple[str, ...] = (JOB, SHOP)) -> None:
        """Takes over every branch that the other tablet has and this one lacks."""
        for dev, journal in {(dev.partition("#")[0], name) for dev, name in other.files if name in journals}:
            here, there = _branches(self, dev, journal), _branches(other, dev, journal)
            first = [self.own(journal)] if dev == self.dev and self.own(journal) else []
            branches = _ends([*first, *here, *there])
            if first and not any(one is first[0] for one in branches):
                continue  # what it wrote itself came back longer than it is here: nothing to learn for a tablet at work
            for key in [key for key in self.files if key[0].startswith(dev + "#") and key[1] == journal]:
                del self.files[key]
            for n, branch in enumerate(branches):
                name = f"{dev}#{_first(branch, branches).h[:8]}" if n else dev
                self.files[name, journal] = branch if n == 0 and first else list(branch)

    def copied(self) -> Meeting:
        """A second tablet that was started from a copy of this one."""
        twin = Tablet.copied(self)
        return Meeting(twin.dev, twin.clock, twin.files, twin.told, twin.clk)


def _branches(tablet: Tablet, dev: str, journal: str) -> list[Branch]:
    """What a tablet has of one file: the branch that is named by the tablet alone comes first."""
    names = sorted(name for name, about in tablet.files if name.partition("#")[0] == dev and about == journal)
    return [tablet.files[name, journal] for name in names if tablet.files[name, journal]]


def _ends(branches: Iterable[Branch]) -> list[Branch]:
    """Those that no other one goes on from, each once."""
    found: list[Branch] = []
    for branch in branches:
        if not any(branch[-1] in one for one in found):
            found = [one for one in found if one[-1] not in branch]
            found.append(branch)
    return found


def _first(branch: Branch, branches: list[Branch]) -> Record:
    """The first record that a branch shares with no other one."""
    others = [one for one in branches if one is not branch]
    common = (takewhile(lambda pair: pair[0] == pair[1], zip(branch, other, strict=False)) for other in others)
    return branch[max(sum(1 for _ in pairs) for pairs in common)]
