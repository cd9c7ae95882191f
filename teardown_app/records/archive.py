"""Where records lie: this tablet's own folders and the verified copies of what others recorded."""

from __future__ import annotations

from pathlib import Path

from teardown_app.records.disk import Disk
from teardown_app.records.names import branch_name, device_name


def own_folder(home: Path, dev: str) -> Path:
    """Where this tablet writes."""
    return home / "out" / "journals" / dev


def device_folders(disk: Disk, home: Path) -> list[Path]:
    """A folder for each device and incarnation, own ones first, each read from one place only; then those of further
    branches."""
    own = home / "out" / "journals"
    mine = [name for name in disk.folders(own) if device_name(name)]
    others = [name for name in disk.folders(home / "archive") if device_name(name) and name not in mine]
    branches = [name for name in disk.folders(home / "archive") if branch_name(name)]
    return [own / name for name in mine] + [home / "archive" / name for name in (*others, *branches)]
