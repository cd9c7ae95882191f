"""What can be wrong with the data folder: troubles found while reading, and errors that stop an act.

RecordsError
  NotWritable     this record cannot be written as it is (its content is at fault)
  NotRecorded     the disk did not take it; nothing of it is kept
  InUse           somebody else writes in this folder
  ReadOnly        the folder was opened for reading
  ClockError      a handed-in clock that cannot be read
  PictureError    a photograph that cannot be taken in
  AttachmentError an attachment that is not there or is not what its name says
  BackupError     a backup that could not be made or does not read back
"""

from __future__ import annotations

import errno
from collections.abc import Sequence
from typing import NamedTuple

from teardown_app.domain.ledger.record import Record


class Trouble(NamedTuple):
    """Something in the data folder that a person should know of. Reading went on without it."""

    file: str
    line: int
    """From 1; 0 where it is about the whole file."""
    byte: int
    """From 0."""
    message: str
    what_to_do: str

    def __str__(self) -> str:
        place = f", line {self.line} (byte {self.byte})" if self.line else ""
        return f"{self.file}{place}: {self.message}. {self.what_to_do}"


class RecordsError(Exception):
    """Something the records room refuses; the text says what, where and what to do."""


class NotWritable(RecordsError):
    """The content of a record cannot be written."""


class NotRecorded(RecordsError):
    """The disk did not take an act.

    `written` holds those records of the act that are on disk nevertheless: it went to more than one file, the first was
    complete when the second failed, and the disk did not let it be taken back. Usually empty; the next start writes
    the rest.
    """

    def __init__(self, message: str, written: Sequence[Record] = ()) -> None:
        super().__init__(message)
        self.written = tuple(written)


class InUse(RecordsError):
    """A second start on the same data folder."""


class ReadOnly(RecordsError):
    """An act on a folder that was opened for reading only."""


class ClockError(RecordsError):
    """The handed-in clock cannot be read."""


class PictureError(RecordsError):
    """A picture that cannot be taken in."""


class AttachmentError(RecordsError):
    """An attachment that is missing or is not what its name says."""


class BackupError(RecordsError):
    """A backup that was not made, or does not read back."""


def why(fault: OSError) -> str:
    """What the disk said, as a sentence with what to do."""
    if fault.errno == errno.ENOSPC:
        return f"The disk is full ({fault.filename}). Make room, then save again."
    if fault.errno in (errno.EACCES, errno.EROFS, errno.EPERM):
        return f"{fault.filename} may not be written. Check the rights of the folder, then save again."
    said = fault.strerror or fault
    return f"{fault.filename}: {said}. Save again; if it stays so, close the app and start it anew."
