"""Witness: who had seen what, walked anew for every record. Slow on purpose.

Written from `docs/formats/journal-files.md` (section 5) and `records.md` (State, 1) alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from teardown_app.domain.ledger.record import SHOP, Record

File = tuple[str, str]
"""Tablet and what it wrote about: a job's number or the shop."""

BRANCH = "#"
"""Stands between a tablet and the first record of one of its branches, in a name of `seen`."""

Shelf = dict[File, dict[int, list[Record]]]
"""Every version of every number of every tablet's records."""


def shelf_of(records: Iterable[Record]) -> Shelf:
    """All different records, by tablet, file and number."""
    shelf: Shelf = {}
    for record in records:
        here = shelf.setdefault((record.dev, record.job), {}).setdefault(record.seq, [])
        if record not in here:
            here.append(record)
    return shelf


def past(shelf: Shelf, file: File, seq: int, expected: str) -> Iterator[Record]:
    """Records of one branch below `seq`, the latest first; `expected` is the hash of the first of them.

    Where that is of no record here (a new file's first line, or a record that is missing), the next
    one down is taken if it is the only one of its number; of two versions neither, and nothing below.
    """
    numbers = shelf.get(file, {})
    for number in sorted((each for each in numbers if each < seq), reverse=True):
        here = numbers[number]
        found = [record for record in here if record.h == expected] or (here if len(here) == 1 else [])
        if not found:
            return
        yield found[0]
        expected = found[0].prev


def own_past(shelf: Shelf, record: Record) -> list[Record]:
    """What the author had written in this file before, oldest first."""
    return list(past(shelf, (record.dev, record.job), record.seq, record.prev))[::-1]


def reached(shelf: Shelf, file: File, seq: int, h8: str, *, of_a_fork: bool = False) -> list[Record]:
    """Records that somebody knew who had seen a file, or one branch of it, up to this record: "each entry reaches what
    lies on its branch, from its record back". "An entry whose number is here with another hash reaches nothing, nor
    does one of a fork whose number is not here"."""
    numbers = shelf.get(file, {})
    if seq not in numbers:
        is_one_branch = not of_a_fork and all(len(here) == 1 for here in numbers.values())
        return list(past(shelf, file, seq, "")) if is_one_branch else []
    tips = [record for record in numbers[seq] if record.h.startswith(h8)]
    return [*tips, *past(shelf, file, seq, tips[0].prev)] if tips else []


def vector(shelf: Shelf, record: Record) -> dict[str, tuple[int, str]]:
    """The whole `seen` of a record: every entry of its own past put over the ones before."""
    full: dict[str, tuple[int, str]] = {}
    for each in [*own_past(shelf, record), record]:
        full.update({key: (seq, h8) for key, (seq, h8) in each.seen.items()})
    return {key: (seq, h8) for key, (seq, h8) in full.items() if seq}


def file_meant(record: Record, key: str) -> File:
    """Which file an entry of `seen` speaks of: `dev`, `_shop/dev`, or a branch of one of these, `dev#h8`."""
    name = key.partition(BRANCH)[0]
    if name.startswith(SHOP + "/"):
        return name.removeprefix(SHOP + "/"), SHOP
    return name, record.job


def known_to(shelf: Shelf, record: Record) -> set[str]:
    """Names of all records that the author of this one had seen."""
    known = {each.ref for each in own_past(shelf, record)}
    for key, (seq, h8) in vector(shelf, record).items():
        there = reached(shelf, file_meant(record, key), seq, h8, of_a_fork=BRANCH in key)
        known |= {each.ref for each in there}
    return known - {record.ref}


class Wanted(NamedTuple):
    """Of one file: the last number that somebody had seen or that is here, and numbers of which a version that an
    author had seen is not here, another one being here."""

    last: int
    versions: frozenset[int] = frozenset()


def wanted(shelf: Shelf, job: str) -> dict[File, Wanted]:
    """Which records should be here: what "the author of one of this job's records had seen (here or in the shop), or
    that came before one of this job that is here"."""
    found = {file: Wanted(max(numbers)) for file, numbers in shelf.items() if file[1] == job}
    every = [each for (_, name), there in shelf.items() if name == job for here in there.values() for each in here]
    for record in every:
        for key, (last, h8) in record.seen.items():
            file = file_meant(record, key)
            before = found.get(file, Wanted(0))
            here = shelf.get(file, {}).get(last, [])
            other = {last} if here and not any(each.h.startswith(h8) for each in here) else set()
            found[file] = Wanted(max(before.last, last), before.versions | other)
    return found


def not_here(numbers: Iterable[int], want: Wanted, retired_at: int | None, lost: Iterable[int]) -> list[int]:
    """First numbers of each run of those that are wanted and not here; `retired_at`: of higher ones it is not said, nor
    of those that are `lost`."""
    last = want.last if retired_at is None else min(want.last, retired_at)
    there = (set(numbers) - want.versions) | set(lost)
    firsts, next_one = [], 1
    for number in sorted(each for each in there if 0 < each <= last):
        firsts += [next_one] if number > next_one else []
        next_one = number + 1
    return firsts + ([next_one] if next_one <= last else [])


def two_versions(shelf: Shelf, job: str) -> set[tuple[File, int]]:
    """Numbers that stand for two records: of this job, and of the shop as far as somebody here had seen it."""
    found = {(file, seq) for file, numbers in shelf.items() for seq, here in numbers.items() if len(here) > 1}
    return {(file, seq) for file, seq in found if file[1] == job or seq <= _seen_up_to(shelf, job, file)}


def _seen_up_to(shelf: Shelf, job: str, file: File) -> int:
    files = [numbers for name, numbers in shelf.items() if name[1] == job]
    every = [record for numbers in files for here in numbers.values() for record in here]
    seen = [(file_meant(record, key), seq) for record in every for key, (seq, _) in record.seen.items()]
    return max((seq for meant, seq in seen if meant == file), default=0)
