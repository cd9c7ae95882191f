"""Who this tablet is on this disk: device, incarnation, tag letters; when a new incarnation begins.

A folder that was restored, cloned or moved must never continue the files it finds: somebody may
have seen them go on differently. It takes the next incarnation instead.
"""

from __future__ import annotations

import json
import os
import platform
import secrets
from pathlib import Path
from typing import Any, NamedTuple

from teardown_app.records.disk import Disk, make_folders, place
from teardown_app.records.envelope import hash_of
from teardown_app.records.names import device_name, device_of

TAG_ALPHABET = "0123456789ABCDEFGHJKLMNPQRSTUVWXYZ"
"""0-9 and A-Z without I and O."""
_DEVICE_ALPHABET = "0123456789abcdefghijklmnopqrstuvwxyz"
_MACHINE_IDS = (Path("/etc/machine-id"), Path("/var/lib/dbus/machine-id"))


class Incarnation(NamedTuple):
    """What `private/device.json` holds."""

    id: str
    n: int
    letters: str
    fingerprint: str

    @property
    def dev(self) -> str:
        """`t7k3m9~0`."""
        return f"{self.id}~{self.n}"


def load(disk: Disk, home: Path) -> Incarnation | None:
    """The incarnation this folder was last used as; None when `private/` does not say."""
    try:
        fields = json.loads(disk.read(_file(home)))
        found = Incarnation(fields["id"], fields["n"], fields["letters"], fields["fingerprint"])
    except (FileNotFoundError, ValueError, KeyError, TypeError):
        return None
    return found if device_name(found.dev) else None


def begin(disk: Disk, home: Path, before: Incarnation | None) -> Incarnation:
    """Take the next incarnation of `before`, or of the device whose files stand in `out/`, or become a
    new device; durable when it returns."""
    device, last = _last_known(disk, home, before)
    letters = "".join(secrets.choice(TAG_ALPHABET) for _ in range(4))
    new = Incarnation(device, last + 1, letters, fingerprint(home))
    make_folders(disk, _file(home).parent)
    place(disk, _file(home), json.dumps(new._asdict()).encode() + b"\n")
    return new


def fingerprint(home: Path) -> str:
    """A hash of the machine's own id and the folder's place; says nothing about either."""
    return hash_of(f"{_machine_id()}\n{os.path.realpath(home)}".encode())


def _file(home: Path) -> Path:
    return home / "private" / "device.json"


def _last_known(disk: Disk, home: Path, before: Incarnation | None) -> tuple[str, int]:
    own = [name for name in map(device_name, disk.folders(home / "out" / "journals")) if name]
    if before:
        device = before.id
    elif own:
        device = max(own)[0]
    else:
        return "t" + "".join(secrets.choice(_DEVICE_ALPHABET) for _ in range(5)), -1
    others = [name for name in map(device_name, map(device_of, disk.folders(home / "archive"))) if name]
    known = [n for name, n in own + others if name == device]
    return device, max([*known, before.n if before else -1])


def _machine_id() -> str:
    if platform.system() == "Windows":
        return _windows_machine_id()
    for path in _MACHINE_IDS:
        try:
            return path.read_text("ascii").strip()
        except (OSError, UnicodeDecodeError):
            continue
    return ""


def _windows_machine_id() -> str:
    import importlib

    registry: Any = importlib.import_module("winreg")
    try:
        with registry.OpenKey(registry.HKEY_LOCAL_MACHINE, r"SOFTWARE\Microsoft\Cryptography") as key:
            return str(registry.QueryValueEx(key, "MachineGuid")[0])
    except OSError:
        return ""
