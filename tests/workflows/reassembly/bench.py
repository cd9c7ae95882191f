"""Tablets in temporary folders, worked by commands. What comes before reassembly is written straight."""

from __future__ import annotations

import json
import shlex
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from teardown_app.cli import main as door
from teardown_app.domain.bill.bill import Bill
from teardown_app.domain.ledger.kinds.kind import RIGHTS
from teardown_app.domain.ledger.record import SHOP, Draft
from teardown_app.domain.parts.parts import number_of
from teardown_app.intake import frozen_bill
from teardown_app.workflows.open_job import open_job
from teardown_app.workshop import Workshop, assets_folder, open_workshop

MORNING = "2026-03-14T08:00:00+01:00"
ORDER = "PO-7781"
PEOPLE = {"OF": list(RIGHTS), "MK": ["record"], "CL": ["record"], "AS": ["record"]}

arguments = cache(door.parser)
"""Built once: reading the command line is not what these tests are about."""


class Bench:
    """One tablet."""

    def __init__(self, home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
        self.home, self._env, self._out = home, monkeypatch, capsys
        monkeypatch.setattr(door, "parser", arguments)
        self.clock(MORNING)

    def people(self) -> None:
        """Registers the four."""
        with self.open() as workshop:
            for code, rights in PEOPLE.items():
                body = {"code": code, "rights": rights}
                workshop.record([Draft(SHOP, "person.given", (f"person:{code}",), body)], "OF")

    # the tablet

    def clock(self, text: str) -> None:
        """Sets both clocks."""
        self._env.setenv("TEARDOWN_CLOCK", text)

    @contextmanager
    def open(self) -> Iterator[Workshop]:
        """The workshop, closed again after."""
        workshop = open_workshop(self.home, assets_folder(), writes=True)
        try:
            yield workshop
        finally:
            workshop.close()

    def carry_to(self, other: Bench) -> None:
        """What this tablet recorded, with its attachments, into the archive of another one."""
        shutil.copytree(self.home / "out/journals", other.home / "archive", dirs_exist_ok=True)
        shutil.copytree(self.home / "out/attachments", other.home / "out/attachments", dirs_exist_ok=True)

    def records(self) -> int:
        """Lines on the disk."""
        files = self.home.glob("out/journals/*/*.jsonl")
        return sum(len(file.read_bytes().splitlines()) for file in files)

    # commands

    def do(self, command: str) -> str:
        """Runs a command that has to succeed; what it prints."""
        code = door.main([*shlex.split(command), "--home", str(self.home)])
        said = self._out.readouterr()
        assert code == 0, said.err
        return said.out

    def ask(self, command: str) -> Any:
        """What a command answers as JSON."""
        return json.loads(self.do(command + " --json"))

    def refused(self, command: str) -> str:
        """Runs a command that has to be refused, and makes sure that it left nothing on the disk."""
        before = self.records()
        code = door.main([*shlex.split(command), "--home", str(self.home)])
        said = self._out.readouterr()
        assert code == 2, said.out
        assert self.records() == before, "a refused act was recorded"
        return said.err

    # what came before

    def job(self, bill: Bill, *, order: str = ORDER, options: tuple[str, ...] = ()) -> str:
        """Opens a job; its number."""
        with self.open() as workshop:
            frozen = frozen_bill.dump(bill)
            number, issued = workshop.job_number()
            act = workshop.shop_act("OF")
            digest = workshop.home.attach(frozen, "json")
            drafts = open_job(act, bill, digest=digest, number=number, order=order, serial="1", options=options)
            workshop.record([*issued, *drafts], "OF")
        return number

    def write(self, typ: str, *ent: str, by: str = "OF", order: str = ORDER, **body: Any) -> str:
        """Records straight; the first new thing."""
        with self.open() as workshop:
            number = workshop.find_job(order).job.number
            return workshop.record([Draft(number, typ, ent, body)], by)[0].thing()

    def off(self, *keys: str, order: str = ORDER, **body: Any) -> list[str]:
        """Takes parts off, each with a number; the parts."""
        parts = []
        with self.open() as workshop:
            number = workshop.find_job(order).job.number
            for key in keys:
                tags, issued = workshop.new_numbers("P", 1)
                came = {"out_of": key} if key else {}
                draft = Draft(number, "part.taken_off", ("new:1",), {**came, "number": tags[0], **body})
                parts.append(workshop.record([issued, draft], "MK")[1].thing())
        return parts

    def brought(self, key: str, number: str, origin: str = "new", **body: Any) -> str:
        """A part from elsewhere for a place."""
        return self.write("part.brought_in", "new:1", meant_for=key, part_number=number, origin=origin, **body)

    def judged(self, *parts: str, word: str = "use as is") -> None:
        """Gives parts a disposition."""
        self.write("disposition.given", *parts, **{"as": word})

    def read(self, part: str, check: str = "dents", verdict: str = "accept") -> str:
        """Reads a check when finished."""
        return self.write("check.read", part, check=check, when="finished", verdict=verdict)

    def tag(self, part: str) -> str:
        """The number on a part."""
        with self.open() as workshop:
            return number_of(workshop.find_job(ORDER).job, part)

    # what stands open

    def points(self, kind: str) -> list[str]:
        """Places (or parts without place) of the open points of a kind."""
        with self.open() as workshop:
            points = workshop.find_job(ORDER).live.points()
        return [one.position or one.part for one in points if one.kind == kind and one.state == "open"]

    def ask_points(self, order: str = ORDER) -> list[dict[str, str]]:
        """All points as the command gives them; its exit code says whether any is open."""
        code = door.main(["job", "open-points", order, "--json", "--home", str(self.home)])
        answer = json.loads(self._out.readouterr().out)
        assert code == (0 if answer["complete"] else 1)
        return list(answer["points"])
