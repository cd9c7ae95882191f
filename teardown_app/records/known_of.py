"""What records say they had seen, held against what is here: a cut or changed file shows in the files of others."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from teardown_app.domain.ledger.record import SHOP, Record
from teardown_app.records.names import device_of
from teardown_app.records.trouble import Trouble

File = tuple[str, str]
"""A job, and the tablet whose records of it these are."""
_SHOP_KEY = SHOP + "/"
_ON_ITS_WAY = (
    "They may still be on their way from another tablet; otherwise copy them back from a backup, or from there."
)


def unlike_what_was_seen(home: Path, records: Iterable[Record]) -> list[Trouble]:
    """Files of which somebody had seen more than is here, or another record at a number than is here."""
    found = list(records)
    here = _numbers(found)
    told: dict[tuple[File, bool], tuple[int, Record]] = {}
    for record in found:
        for file, seq, h8 in _seen(record):
            if (seq, h8) in here.get(file, ()):
                continue
            is_more = seq > max((n for n, _ in here.get(file, ())), default=0)
            if seq > told.get((file, is_more), (0, record))[0]:
                told[file, is_more] = (seq, record)
    return [_trouble(home, here, *key, *said) for key, said in sorted(told.items(), key=lambda item: item[0])]


def _numbers(records: Iterable[Record]) -> Mapping[File, set[tuple[int, str]]]:
    """The records of each file, all its branches together, as `seen` names them."""
    here: dict[File, set[tuple[int, str]]] = {}
    for record in records:
        here.setdefault((record.job, record.dev), set()).add((record.seq, record.h[:8]))
    return here


def _seen(record: Record) -> Iterator[tuple[File, int, str]]:
    for key, (seq, h8) in record.seen.items():
        job = SHOP if key.startswith(_SHOP_KEY) else record.job
        if seq:
            yield (job, device_of(key.removeprefix(_SHOP_KEY))), seq, h8


def _trouble(
    home: Path, here: Mapping[File, set[tuple[int, str]]], file: File, is_more: bool, seq: int, by: Record
) -> Trouble:
    job, dev = file
    last = max((n for n, _ in here.get(file, ())), default=0)
    if is_more:
        which = f"record {seq}" if seq == last + 1 else f"records {last + 1} to {seq}"
        what = f"{which} of {job} by {dev}, seen by the author of {by.ref}: not here"
        return Trouble(str(home), 0, 0, what, _ON_ITS_WAY)
    what = f"record {seq} of {job} by {dev} is another one here than {by.ref} had seen"
    return Trouble(
        str(home), 0, 0, what, "Two files were made under one name, or one was changed: compare with a backup."
    )
