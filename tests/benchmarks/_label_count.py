"""What a reader made of the photographs of one group: labels read, wrong texts, time."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from time import thread_time

import cv2
import numpy as np
from attrs import Factory, define

from tests.benchmarks._label_pictures import Task
from tests.benchmarks._label_readers import NAMES, SLOW, Look, readers


@define
class Count:
    """One reader on one group."""

    pictures: int = 0
    labels: int = 0
    read: int = 0
    wrong: int = 0
    seconds: list[float] = Factory(list)
    """Processor time of each look: other programs on the machine do not count."""

    def add(self, other: Count) -> None:
        """Takes in what another process counted."""
        self.pictures += other.pictures
        self.labels += other.labels
        self.read += other.read
        self.wrong += other.wrong
        self.seconds += other.seconds

    @property
    def share(self) -> float:
        """Labels read, in per cent."""
        return 100 * self.read / self.labels if self.labels else float("nan")

    def mean(self) -> float:
        """Seconds a look."""
        return float(np.mean(self.seconds))

    def p95(self) -> float:
        """Seconds that 95 of 100 looks keep."""
        return float(np.quantile(self.seconds, 0.95))


Counts = dict[str, dict[str, Count]]
"""By group, then by reader."""


def count(tasks: Iterable[Task]) -> Counts:
    """Draws each photograph once and hands it to every reader."""
    cv2.setNumThreads(1)
    counts: Counts = {}
    there = readers()
    for task in tasks:
        photo, labels = task.draw()
        wanted = {label.text for label in labels}
        for name in NAMES:
            if task.all_readers or name not in SLOW:
                one = counts.setdefault(task.group, {}).setdefault(name, Count())
                one.add(_looked(photo, wanted, there[name]()))
    return counts


def pooled(many: Iterable[Mapping[str, Mapping[str, Count]]]) -> Counts:
    """Counts of several processes as one."""
    whole: Counts = {}
    for counts in many:
        for group, by_reader in counts.items():
            for name, one in by_reader.items():
                whole.setdefault(group, {}).setdefault(name, Count()).add(one)
    return whole


def _looked(photo: np.ndarray, wanted: set[str], looks: list[Look]) -> Count:
    """Looks one after the other until all labels are read; a text that is on no label is wrong."""
    found: set[str] = set()
    one = Count(pictures=1, labels=len(wanted))
    for look in looks:
        start = thread_time()
        found |= set(look(photo))
        one.seconds.append(thread_time() - start)
        if wanted and wanted <= found:
            break
    one.read, one.wrong = len(found & wanted), len(found - wanted)
    return one
