"""The system's print queues: which there are, and handing a file to one. CUPS by `lp` or `lpr`, Windows by its shell.

Windows was written for and not run (`docs/not-run.md`).
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from shutil import which
from time import monotonic

from attrs import frozen

from teardown_app.labels.stock import Tell
from teardown_app.workflows.act import Refused

ANSWER_S = 30.0
"""So long a queue may take to take a file in."""

LOOK_EVERY_S = 0.1
_PRINTER = re.compile(r"^printer (?P<name>\S+) (?P<stands>\S.*)$")
STOPPED = "disabled"
"""What a queue is that takes nothing. One that is idle, now printing, holding new jobs or anything else takes files."""

LOOK = "Look at the printer, then say in the label queue whether they came out."


class PrintFault(Refused):
    """A file did not reach the printer. `perhaps` is true where nobody can know."""

    def __init__(self, wrong: str, instead: str, *, perhaps: bool = False) -> None:
        super().__init__(wrong, instead)
        self.perhaps = perhaps


class TooLong(Exception):
    """A program did not answer in its time and was ended."""


@frozen
class Queue:
    """One print queue: its name, and why it is stopped (empty when it takes files)."""

    name: str
    stopped: str = ""


def queues(answer_s: float = ANSWER_S) -> list[Queue]:
    """The queues that the system knows, in its order; none where it has no print service."""
    if sys.platform == "win32":
        return _windows_queues()
    if which("lpstat") is None:
        return []
    try:
        code, said = _run(["lpstat", "-p"], answer_s, lambda how_far: None)
    except TooLong:
        raise PrintFault(
            f"The print service did not list its printers: lpstat did not answer in {answer_s:g} s.",
            "Nothing was sent. Start the service (cups) anew, or print the file elsewhere.",
        ) from None
    if code and not said.strip():
        raise PrintFault("The print service does not answer.", "Start it (cups), or print the file elsewhere.")
    return list(_listed(said))


def _listed(said: str) -> list[Queue]:
    """What `lpstat -p` tells: a line for each queue, the reason indented beneath one that is stopped."""
    found: list[Queue] = []
    for line in said.splitlines():
        named = _PRINTER.match(line)
        if named:
            stopped = named["stands"].startswith(STOPPED)
            found.append(Queue(named["name"], "stopped" if stopped else ""))
        elif found and found[-1].stopped and line[:1].isspace() and line.strip():
            found[-1] = Queue(found[-1].name, line.strip())
    return found


def hand_over(file: Path, queue: str, title: str, tell: Tell, answer_s: float = ANSWER_S) -> str:
    """Gives a file to a queue; what the queue answered. What `tell` raises stops it. Raises `PrintFault`."""
    if sys.platform == "win32":
        return _windows_print(file, queue)
    command = _command(file, queue, title)
    _check_queue(queue, answer_s)
    try:
        code, said = _run(command, answer_s, tell)
    except TooLong:
        wrong = f"{command[0]} did not answer in {answer_s:g} s: the labels were perhaps printed."
        raise PrintFault(wrong, LOOK, perhaps=True) from None
    if code < 0:
        wrong = f"{command[0]} was ended by signal {-code}: the labels were perhaps printed."
        raise PrintFault(wrong, LOOK, perhaps=True)
    if code:
        raise PrintFault(
            f"Printer {queue} did not take the labels: {_short(said) or f'it ended with {code}'}.",
            f"Look at the printer, or choose another one. The file is {file}.",
        )
    return _short(said)


def _check_queue(queue: str, answer_s: float) -> None:
    """A queue that is gone or stopped is said before anything is sent; unknown where `lpstat` is missing."""
    if which("lpstat") is None:
        return
    there = {one.name: one for one in queues(answer_s)}
    if queue not in there:
        known = f"There are {', '.join(there)}." if there else "There is none."
        raise PrintFault(f"There is no printer {queue}. {known}", "Choose the printer of this stock anew.")
    if there[queue].stopped:
        raise PrintFault(
            f"Printer {queue} is stopped: {there[queue].stopped}.",
            f"See what it lacks, start it again (cupsenable {queue}), then print once more.",
        )


def _command(file: Path, queue: str, title: str) -> list[str]:
    """Never scaled: a module stays a whole number of dots."""
    if which("lp"):
        return ["lp", "-d", queue, "-t", title, "-o", "print-scaling=none", "--", str(file)]
    if which("lpr"):
        return ["lpr", "-P", queue, "-T", title, "-o", "print-scaling=none", str(file)]
    raise PrintFault(
        "This system has no print service: neither lp nor lpr is there.",
        f"Install CUPS, or print the file elsewhere: {file}.",
    )


def _run(command: Sequence[str], answer_s: float, tell: Tell) -> tuple[int, str]:
    """Runs it and waits, telling how long; ended when it takes too long (`TooLong`) or somebody stops it."""
    language = {**os.environ, "LC_ALL": "C"}
    try:
        running = subprocess.Popen(
            command, env=language, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
            text=True, errors="replace",
        )  # fmt: skip
    except OSError as fault:
        raise PrintFault(f"{command[0]} cannot be run: {fault.strerror}.", "Look at the print service.") from fault
    since = monotonic()
    try:
        while True:
            try:
                said, _ = running.communicate(timeout=LOOK_EVERY_S)
                return running.returncode, said
            except subprocess.TimeoutExpired:
                waited = monotonic() - since
                if waited > answer_s:
                    raise TooLong from None
                tell(f"waiting for the printer, {waited:.0f} s")
    finally:
        if running.poll() is None:
            running.kill()
            running.wait()
        if running.stdout:
            running.stdout.close()


def _short(said: str) -> str:
    lines = [line.strip() for line in said.splitlines() if line.strip()]
    return " ".join(lines)[:200].rstrip(".")


def _windows_queues() -> list[Queue]:
    """Printers of the person who is signed on, as Windows keeps them."""
    if sys.platform != "win32":
        return []
    import winreg

    found: list[Queue] = []
    with winreg.OpenKey(winreg.HKEY_CURRENT_USER, r"Software\Microsoft\Windows NT\CurrentVersion\Devices") as key:
        for n in range(winreg.QueryInfoKey(key)[1]):
            found.append(Queue(str(winreg.EnumValue(key, n)[0])))
    return found


def _windows_print(file: Path, queue: str) -> str:
    """The shell's own verb for printing; which program that is, and whether it scales, is not ours to say."""
    if sys.platform != "win32":
        return ""
    try:
        os.startfile(file, "printto", f'"{queue}"')
    except OSError as fault:
        raise PrintFault(
            f"Windows would not print {file.name} on {queue}: {fault.strerror}.",
            "Give PDF files a program that can print them, or open the file and print it at 100 %.",
        ) from fault
    return "handed to the program for PDF files"
