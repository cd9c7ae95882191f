"""Scenes of an aimed label shown to what reads the frames of a camera: what acted, and after how many frames."""

from __future__ import annotations

import random
from collections.abc import Iterable, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time

from attrs import Factory, define, frozen

from teardown_app.ui.aiming import Aim
from teardown_app.ui.black_box import BlackBox
from teardown_app.ui.label_reader import Label, LabelReader, seen_of
from tests.scanbench.aimed import LOOKS, Scene, frames

FRAME_S = 1 / LOOKS


@frozen
class Came:
    """What came of one scene within a second."""

    scene: Scene
    wanted: str
    acted: str = ""
    """The number that acted; empty where none did."""
    asked: tuple[str, ...] = ()
    looks: int = 0
    seconds: tuple[float, ...] = ()
    """Processor time of each look."""

    @property
    def wrong(self) -> bool:
        """Another label acted than the one aimed at."""
        return self.acted not in ("", self.wanted)


@define
class Counts:
    """What came of many scenes."""

    scenes: int = 0
    acted: int = 0
    asked: int = 0
    wrong: list[Came] = Factory(list)
    seconds: list[float] = Factory(list)

    def add(self, came: Came) -> None:
        """Takes one in."""
        self.scenes += 1
        self.acted += came.acted == came.wanted
        self.asked += bool(came.asked)
        self.wrong += [came] if came.wrong else []
        self.seconds += came.seconds


def held_over(scenes: Iterable[Scene], known: Sequence[str], seed: int, *, paced: bool = True) -> list[Came]:
    """Each scene for a second, with numbers drawn by lot from those that are known.

    `paced`: each look takes a frame's time; else the processor's, where that is longer.
    """
    lot = random.Random(seed)
    with TemporaryDirectory() as folder:
        shown = _Shown(Path(folder), known, paced)
        return [shown.one(scene, lot.sample(list(known), len(scene.specs))) for scene in scenes]


class _Shown:
    """One tablet's reader, with a clock that goes on by a frame a look."""

    def __init__(self, folder: Path, known: Sequence[str], paced: bool) -> None:
        self.now, self._paced = 0.0, paced
        self._reader = LabelReader(BlackBox(folder), clock=lambda: self.now)
        self._reader.know(known)
        self._reader.learn_all()

    def one(self, scene: Scene, numbers: Sequence[str]) -> Came:
        look, aim, spent = self._reader.for_frames(), Aim(lambda: self.now), list[float]()
        until = self.now + 1
        for count, grey in enumerate(frames(scene, numbers), 1):
            began = process_time()
            seen = seen_of(look(grey), grey.shape[1], grey.shape[0])
            spent.append(process_time() - began)
            self.now += FRAME_S if self._paced else max(FRAME_S, spent[-1])
            labels = aim.look(seen)
            if self.now > until + FRAME_S / 2:
                break
            if labels:
                return _came(scene, numbers[0], labels, count, spent)
        return Came(scene, numbers[0], looks=LOOKS, seconds=tuple(spent))


def _came(scene: Scene, wanted: str, labels: tuple[Label, ...], count: int, spent: list[float]) -> Came:
    """Several are asked about, and so is one that is only likely; one that is sure acts."""
    if len(labels) == 1 and not labels[0].offered:
        return Came(scene, wanted, labels[0].text, (), count, tuple(spent))
    return Came(scene, wanted, "", tuple(one.text for one in labels), count, tuple(spent))
