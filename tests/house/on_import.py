"""Imports every module it is told, and prints what its own top level did to the world meanwhile.

Run as a program of its own, so that the watch stands before the first import: `on_import.py PACKAGE
MODULE...`, one deed a line. Only deeds of the package's own module level count; what an outside library
does when it is imported is its own affair.
"""

from __future__ import annotations

import importlib
import os
import sys
import threading
from types import FrameType
from typing import Any

DEEDS = {
    "os.mkdir",
    "os.remove",
    "os.rename",
    "os.rmdir",
    "os.system",
    "os.truncate",
    "shutil.rmtree",
    "socket.__new__",
    "socket.bind",
    "socket.connect",
    "socket.getaddrinfo",
    "sqlite3.connect",
    "subprocess.Popen",
    "tempfile.mkstemp",
    "tempfile.mkdtemp",
    "_thread.start_new_thread",
}


def writes(args: tuple[Any, ...]) -> bool:
    """True where the arguments of an `open` event ask for writing."""
    _, mode, flags = args
    if isinstance(mode, str):
        return bool(set("wax+") & set(mode))
    return bool(flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_APPEND))


def at_whose_top_level(frame: FrameType | None) -> str:
    """Module whose top-level code is running innermost, '' when none is."""
    while frame is not None and frame.f_code.co_name != "<module>":
        frame = frame.f_back
    return "" if frame is None else frame.f_globals.get("__name__", "")


def watch(package: str) -> None:
    """From now on, tell every deed that a module of the package does while it is imported."""

    def tell(event: str, args: tuple[Any, ...]) -> None:
        if event not in DEEDS and not (event == "open" and writes(args)):
            return
        module = at_whose_top_level(sys._getframe(1))
        if module.split(".")[0] == package:
            print(f"{module}: {event} {args[:1]}", flush=True)

    sys.addaudithook(tell)


if __name__ == "__main__":
    package, *modules = sys.argv[1:]
    sys.dont_write_bytecode = True
    sys.path.insert(0, os.getcwd())
    watch(package)
    for name in modules:
        importlib.import_module(name)
    started = [thread.name for thread in threading.enumerate() if thread is not threading.main_thread()]
    if started:
        print(f"{package}: threads left running {started}")
    print("loaded", *sorted({name.split(".")[0] for name in sys.modules}), file=sys.stderr)
