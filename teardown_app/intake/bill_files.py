"""The files of a bill, folder or workbook, opened as tables and TOML; what they say is not read here."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from attrs import Factory, define

from teardown_app.intake.faults import Findings, Place
from teardown_app.intake.headings import ABOUT, BILL, CALLOUTS, CHECKS, COMPONENTS, GATES, RECIPES, ROUTES
from teardown_app.intake.sheet import FILE_BYTES_MAX, ROWS_MAX, Sheet, as_text, up_to_limit
from teardown_app.intake.table import Table, known_headings, understand
from teardown_app.intake.text_table import (
    TITLE_ROWS,
    NotText,
    best_separator,
    decode,
    numbered,
    told_separator,
)
from teardown_app.intake.toml_text import BrokenToml, TomlText, read_toml
from teardown_app.intake.workbook import BrokenWorkbook, read_sheets

WORDS: dict[str, Mapping[str, tuple[str, ...]]] = {
    "about": ABOUT,
    "bill": BILL,
    "components": COMPONENTS,
    "checks": CHECKS,
    "routes": ROUTES,
    "recipes": RECIPES,
    "gates": GATES,
    "callouts": CALLOUTS,
}
"""Every table a bill can have, and the headings it is asked for."""

TABLES = ("bill", "components", "callouts")
"""Text tables of a folder; the others are TOML."""

FIRST_OF_RECIPES = frozenset(("name", *RECIPES["name"]))


@define
class BillFiles:
    """What a bill consists of. `own` is the shop's heading -> our column, once it is known."""

    folder: Path
    findings: Findings
    own: dict[str, str] = Factory(dict)
    broken: set[str] = Factory(set)
    """Names of tables that are there but could not be read."""

    def table(self, name: str) -> Table | None:
        """A table by its name, None when it is not there."""
        sheet = self.sheet(name)
        table = understand(sheet, _words(name, sheet), self.own, self.findings) if sheet else None
        if table is not None and table.beyond:
            self.findings.fault(table.place("", table.beyond), f"more than {ROWS_MAX:,} rows; split the bill")
        return table

    def toml(self, name: str) -> TomlText | None:
        """A TOML text by its name, None when it is not there or broken."""
        return None

    def file(self, name: str) -> str:
        """Name of the file that would hold a table."""
        raise NotImplementedError

    def missing(self, name: str) -> str:
        """What to say when a needed table is not there."""
        raise NotImplementedError

    def sheet(self, name: str) -> Sheet | None:
        """A table before its headings are understood, None when it is not there."""
        raise NotImplementedError


@define
class Folder(BillFiles):
    """A bill in a folder."""

    def file(self, name: str) -> str:
        """Name of the file that would hold a table."""
        if name == "about":
            return "bill.toml"
        return f"{name}.csv" if name in TABLES else f"{name}.toml"

    def missing(self, name: str) -> str:
        """What to say when a needed table is not there."""
        return f"{self.file(name)} is missing in the folder {self.folder.name}; add it"

    def toml(self, name: str) -> TomlText | None:
        """A TOML text by its name, None when it is not there or broken."""
        raw = self._raw(name) if self.file(name).endswith(".toml") else None
        if raw is None:
            return None
        read = read_toml(self.file(name), raw)
        if isinstance(read, TomlText):
            return read
        self.broken.add(name)
        self.findings.fault(Place(self.file(name), read.line), read.message)
        return None

    def sheet(self, name: str) -> Sheet | None:
        """A text table before its headings are understood, None when it is not there or broken."""
        if not self.file(name).endswith(".csv"):
            return None
        raw = self._raw(name)
        if raw is None:
            return None
        try:
            text = decode(raw)
        except NotText as error:
            self.broken.add(name)
            self.findings.fault(Place(self.file(name)), str(error))
            return None
        return self._parted(name, text)

    def _parted(self, name: str, text: str) -> Sheet:
        separator = told_separator(text)
        if separator:
            text = text.partition("\n")[2]
        separator = separator or best_separator(text, known_headings(WORDS[name], self.own))
        rows, cut = up_to_limit(numbered(text, separator), TITLE_ROWS)
        return Sheet(self.file(name), "", rows, cut=cut)

    def _raw(self, name: str) -> bytes | None:
        """Bytes of a file; None when it is not there or cannot be read (then it is told)."""
        path = _in_folder(self.folder, self.file(name))
        if path is None:
            return None
        try:
            trouble = file_trouble(path)
            raw = b"" if trouble else path.read_bytes()
        except OSError as error:
            trouble = f"cannot be read: {error.strerror}"
        if not trouble:
            return raw
        self.broken.add(name)
        self.findings.fault(Place(self.file(name)), trouble)
        return None


@define
class Workbook(BillFiles):
    """A bill in one workbook, its drawings beside it."""

    name: str = ""
    sheets: dict[str, Sheet] = Factory(dict)

    def file(self, name: str) -> str:
        """Name of the file that would hold a table."""
        return self.name

    def missing(self, name: str) -> str:
        """What to say when a needed sheet is not there."""
        return f"the sheet “{name}” is missing in the workbook; add it"

    def sheet(self, name: str) -> Sheet | None:
        """A sheet before its headings are understood, None when it is not there."""
        return self.sheets.get(name)


def _words(name: str, sheet: Sheet) -> Mapping[str, tuple[str, ...]]:
    """Headings a table is asked for; recipes have whatever headings they have."""
    if name != "recipes" or not sheet.rows:
        return WORDS[name]
    free = {as_text(cell): () for cell in sheet.rows[0].cells if cell != ""}
    return {
        **{heading: words for heading, words in free.items() if heading not in FIRST_OF_RECIPES},
        **RECIPES,
    }


def open_bill(path: Path, findings: Findings) -> BillFiles | None:
    """Open a folder or a workbook; None when it is neither."""
    try:
        is_folder, is_file = path.is_dir(), path.is_file()
    except (OSError, ValueError):
        is_folder = is_file = False
    if is_folder:
        return Folder(path, findings)
    if is_file and path.suffix.casefold() == ".xlsx":
        return _open_workbook(path, findings)
    if is_file:
        findings.fault(
            Place(path.name),
            "is no bill; give the folder that holds bill.toml and bill.csv, or an .xlsx workbook",
        )
    else:
        findings.fault(Place(path.name), "is not there; give the folder of a bill or an .xlsx workbook")
    return None


def _open_workbook(path: Path, findings: Findings) -> Workbook | None:
    try:
        trouble = file_trouble(path)
        if trouble:
            raise BrokenWorkbook(trouble)
        sheets = read_sheets(path, tuple(WORDS))
    except (BrokenWorkbook, OSError) as error:
        findings.fault(Place(path.name), str(error))
        return None
    return Workbook(path.parent, findings, name=path.name, sheets=sheets)


def file_trouble(path: Path) -> str:
    """Why a file is not even opened, empty when it may be."""
    if not path.is_file():
        return "is not a file"
    if path.stat().st_size > FILE_BYTES_MAX:
        return f"is larger than {FILE_BYTES_MAX // 1_000_000} MB; delete what is not the bill"
    return ""


def _in_folder(folder: Path, name: str) -> Path | None:
    """A file by its name, also when its case differs."""
    exact = folder / name
    if exact.exists() or exact.is_symlink():
        return exact
    try:
        return next((each for each in sorted(folder.iterdir()) if each.name.casefold() == name), None)
    except OSError:
        return None


__all__ = ["BillFiles", "BrokenToml", "Folder", "Workbook", "open_bill"]
