"""Records that are known of, because somebody had seen them or because they come before others, and are not here."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from teardown_app.domain.ledger.record import SHOP, Record
from teardown_app.domain.ledger.runs import Run, Runs, joined

Chains = dict[str, dict[int, list[Record]]]
"""Tablet -> number -> the records here that have it; more than one on a fork."""

Name = tuple[str, int]
"""Tablet (or `_shop/` + tablet) and number."""


class Gap(NamedTuple):
    """Numbers of one tablet, none of them left out, whose records are not here."""

    dev: str
    first: int
    last: int


class Absent:
    """What is known of under one journal name, held against the chains that are here."""

    def __init__(self, chains: Chains) -> None:
        self._chains = chains
        self.wanted: dict[str, int] = {}
        """The highest number known of, by tablet."""
        self._seen: dict[Name, set[str]] = {}
        self._lacking: dict[str, Runs] = {}
        self._unmet: set[Name] = set()
        self._unmet_in_shop: set[Name] = set()
        self._looked_through: dict[str, int] = {}
        """How many records of a tablet's file of the shop were here when it was last looked through."""

    def saw(self, dev: str, seq: int, h8: str) -> None:
        """Somebody had seen a tablet's records up to this one."""
        self._want(dev, seq)
        self._seen.setdefault((dev, seq), set()).add(h8)
        if seq > 0 and is_of_shop(dev):
            self._unmet_in_shop.add((dev, seq))
        self._meet(dev, seq)

    def arrived(self, record: Record) -> bool:
        """The record is here now. True when somebody had seen another version of it."""
        self._want(record.dev, record.seq)
        self._lacking[record.dev].discard(record.seq)
        return self._meet(record.dev, record.seq)

    def was_seen(self, record: Record) -> bool:
        """Had somebody seen this very record?"""
        return any(record.h.startswith(h8) for h8 in self._seen.get((record.dev, record.seq), ()))

    def _want(self, dev: str, seq: int) -> None:
        wanted = self.wanted.get(dev, 0)
        if seq > wanted:
            self.wanted[dev] = seq
            self._lacking.setdefault(dev, Runs()).grow(wanted + 1, seq)
            self._looked_through.pop(dev, None)

    def _meet(self, dev: str, seq: int) -> bool:
        """Compares what is here of one number with what others had seen; True while a version is not here."""
        here, seen = self._chains.get(dev, {}).get(seq), self._seen.get((dev, seq))
        if not here or not seen:
            return False
        if _all_here(seen, here):
            self._unmet.discard((dev, seq))
            return False
        self._unmet.add((dev, seq))
        return True

    def here(self) -> list[Gap]:
        """Of this journal, by tablet."""
        return _gaps(self._lacking, self._unmet, of_shop=False)

    def in_shop(self, chains: Chains) -> list[Gap]:
        """Of the shop, whose chains are given. What was found once is not looked for again: no record ever goes."""
        for dev, lacking in self._lacking.items():
            here = chains.get(plain(dev), {})
            if is_of_shop(dev) and self._looked_through.get(dev) != len(here):
                lacking.discard_all(here)
                self._looked_through[dev] = len(here)
        self._unmet_in_shop = {name for name in self._unmet_in_shop if not self._is_met(chains, *name)}
        return _gaps(self._lacking, self._unmet_in_shop, of_shop=True)

    def _is_met(self, chains: Chains, dev: str, seq: int) -> bool:
        here = chains.get(plain(dev), {}).get(seq, [])
        return bool(here) and _all_here(self._seen.get((dev, seq), ()), here)


def _gaps(lacking: dict[str, Runs], unmet: Iterable[Name], *, of_shop: bool) -> list[Gap]:
    """Runs of numbers that are not here, or not in every version that somebody had seen."""
    found: dict[str, list[Run]] = {dev: [*runs] for dev, runs in lacking.items() if is_of_shop(dev) == of_shop}
    for dev, seq in unmet:
        found.setdefault(dev, []).append((seq, seq))
    return [Gap(plain(dev), *run) for dev, runs in sorted(found.items()) for run in joined(runs)]


def _all_here(seen: Iterable[str], here: list[Record]) -> bool:
    """True when each of these beginnings of hashes is of a record that is here."""
    return all(any(one.h.startswith(h8) for one in here) for h8 in seen)


def is_of_shop(dev: str) -> bool:
    """True for the name of a tablet's file of the shop, as a job's records name it."""
    return dev.startswith(SHOP + "/")


def plain(dev: str) -> str:
    """The tablet's own name.

    >>> plain("_shop/t7k3m9~0"), plain("t7k3m9~0")
    ('t7k3m9~0', 't7k3m9~0')
    """
    return dev.removeprefix(SHOP + "/")
