"""Small notes of this tablet as JSON: settings in `private/`, half-entered forms in `drafts/`.

They are worth keeping and not worth a record. One that cannot be read is set aside, never in the way.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from teardown_app.records.disk import Disk, make_folders

Note = dict[str, Any]


class OwnNotes:
    """Notes by name in one folder; written whole, without waiting for the disk."""

    def __init__(self, disk: Disk, folder: Path) -> None:
        self._disk, self._folder = disk, folder
        self._last: dict[str, bytes] = {}

    def read(self, name: str) -> Note:
        """A note as it was kept, empty where there is none or where it cannot be read."""
        path = self._folder / f"{name}.json"
        if not self._disk.exists(path):
            return {}
        try:
            note = json.loads(self._disk.read(path))
        except (OSError, ValueError):
            return {}
        return note if isinstance(note, dict) else {}

    def keep(self, name: str, note: Note) -> bool:
        """Keeps a note; false when the disk would not take it (what was recorded is not touched by that)."""
        data = json.dumps(note, sort_keys=True, ensure_ascii=False).encode()
        if self._last.get(name) == data:
            return True
        path = self._folder / f"{name}.json"
        try:
            make_folders(self._disk, self._folder)
            fresh = path.with_suffix(".new")
            self._disk.put(fresh, data)
            self._disk.replace(fresh, path)
        except OSError:
            return False
        self._last[name] = data
        return True
