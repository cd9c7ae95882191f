"""Witness: who had seen what, walked anew for every record. Slow on purpose.

Written from `docs/formats/journal-files.md` (section 5) and `records.md` (State, 1) alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.record import SHOP, Record

File = tuple[str, str]
"""Tablet and what it wrote about: a job's number or the shop."""

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


def past(shelf: Shelf, file: File, seq: int, expected: str, *, strict: bool) -> Iterator[Record]:
    """Records of one branch from `seq` down to 1, the latest first.

    `expected` begins the hash of the record at `seq`. Where the hash is of no record here (a new file's
    first line, or a record that is missing), the only record of that number is taken unless `strict`;
    of two versions neither.
    """
    for number in range(seq, 0, -1):
        here = shelf.get(file, {}).get(number, [])
        found = [record for record in here if expected and record.h.startswith(expected)]
        if not found and not strict and len(here) == 1:
            found = here
        expected, strict = "", False
        if found:
            yield found[0]
            expected = found[0].prev


def own_past(shelf: Shelf, record: Record) -> list[Record]:
    """What the author had written in this file before, oldest first."""
    file = (record.dev, record.job)
    return list(past(shelf, file, record.seq - 1, record.prev, strict=False))[::-1]


def vector(shelf: Shelf, record: Record) -> dict[str, tuple[int, str]]:
    """The whole `seen` of a record: every entry of its own past put over the ones before."""
    full: dict[str, tuple[int, str]] = {}
    for each in [*own_past(shelf, record), record]:
        full.update({key: (seq, h8) for key, (seq, h8) in each.seen.items()})
    return {key: (seq, h8) for key, (seq, h8) in full.items() if seq}


def file_meant(record: Record, key: str) -> File:
    """Which file an entry of `seen` speaks of."""
    if key.startswith(SHOP + "/"):
        return key.removeprefix(SHOP + "/"), SHOP
    return key, record.job


def known_to(shelf: Shelf, record: Record) -> set[Record]:
    """Names of all records that the author of this one had seen."""
    known = {each.ref for each in own_past(shelf, record)}
    for key, (seq, h8) in vector(shelf, record).items():
        reached = past(shelf, file_meant(record, key), seq, h8, strict=True)
        known |= {each.ref for each in reached}
    return known - {record.ref}


def not_here(shelf: Shelf) -> set[tuple[File, int]]:
    """Numbers of records that somebody had seen, or that came before one that is here, and that are not here."""
    lacking: set[tuple[File, int]] = set()
    for file, numbers in shelf.items():
        lacking |= {(file, seq) for seq in range(1, max(numbers)) if seq not in numbers}
        for versions in numbers.values():
            for record in versions:
                lacking |= _seen_but_not_here(shelf, record)
    return lacking


def _seen_but_not_here(shelf: Shelf, record: Record) -> Iterator[tuple[File, int]] | set[tuple[File, int]]:
    lacking: set[tuple[File, int]] = set()
    for key, (last, h8) in record.seen.items():
        file = file_meant(record, key)
        numbers = shelf.get(file, {})
        lacking |= {(file, seq) for seq in range(1, last + 1) if seq not in numbers}
        if last and not any(each.h.startswith(h8) for each in numbers.get(last, [])):
            lacking.add((file, last))
    return lacking


def two_versions(shelf: Shelf) -> set[tuple[File, int]]:
    """Numbers that stand for two records."""
    return {(file, seq) for file, numbers in shelf.items() for seq, here in numbers.items() if len(here) > 1}
