"""The files as another program would read them: written from `docs/formats/journal-files.md` alone."""

from __future__ import annotations

import json
from datetime import datetime
from hashlib import blake2b, sha256
from pathlib import Path
from typing import Any

from teardown_app.domain.ledger.record import Draft
from teardown_app.records.clock import TrialClock
from teardown_app.records.home import Home

START = datetime.fromisoformat("2026-03-14T09:30:00+01:00")


def checked(line: bytes) -> dict[str, Any]:
    """Section 2: the object of a line whose hash is right."""
    cut = line.rindex(b',"h":"')
    fields: dict[str, Any] = json.loads(line)
    assert fields["h"] == blake2b(line[:cut], digest_size=16).hexdigest()
    return fields


def read_file_of_job(folder: Path, stem: str) -> tuple[list[dict[str, Any]], dict[str, Any]]:
    """Sections 3 to 6: all records of one device and job, and the vector after the last one."""
    records: list[dict[str, Any]] = []
    last, seen = "", {}
    for number, path in enumerate(sorted(folder.glob(f"{stem}.*.jsonl")), 1):
        data = path.read_bytes()
        assert data.endswith(b"\n") and len(data) <= 131_072 and path.name == f"{stem}.{number:03d}.jsonl"
        head, *lines = map(checked, data.splitlines())
        assert (head["dev"], head["seg"], head["prev"], head["seen"]) == (folder.name, number, last, seen)
        last = head["h"]
        for line in lines:
            assert (line["dev"], line["job"], line["prev"]) == (head["dev"], head["job"], last)
            assert line["seq"] == len(records) + 1
            last = line["h"]
            seen = {dev: at for dev, at in {**seen, **line["seen"]}.items() if at[0]}
            records.append(line)
    return records, seen


def test_another_program_can_read_and_check_the_files(tmp_path: Path) -> None:
    """Several segments, entries that come, change and go, an attachment."""
    home = Home(tmp_path, TrialClock(START)).open()
    photo = home.attach(b"a picture", "jpg")
    for n in range(300):
        known = {f"tother{n % 7}~0": (n + 1, f"{n:08x}")} if n % 5 else {}
        home.append([Draft("J-7", "finding", ("new:1",), {"n": n, "says": "ü" * 300, "photo": photo})], "P1", known)
    records, seen = read_file_of_job(tmp_path / "out/journals" / home.dev, "j-7")
    ours = home.records("J-7")
    assert [record.h for record in ours] == [line["h"] for line in records]
    assert [record.body for record in ours] == [line["body"] for line in records]
    assert seen == {"tother5~0": [300, f"{299:08x}"]}
    file = tmp_path / "out/attachments" / photo[:2] / f"{photo}.jpg"
    assert sha256(file.read_bytes()).hexdigest() == photo
