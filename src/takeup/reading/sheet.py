"""A table's file as columns of cells, and where each cell stands.     (reading/sheet.py)

Comma-separated text in UTF-8, with or without a byte order mark, lines ended any way. One line is one row: a cell
cannot go over lines. Lines that begin with # and blank ones are passed over. A cell that holds a comma, such as the
name of a zone, stands in quotation marks.
Cells are split for the whole file at once; where one stands is found again only when it is at fault.
"""

from __future__ import annotations

import csv
import hashlib
from dataclasses import dataclass
from pathlib import Path

from takeup.errors import Fault, InputError
from takeup.reading.faultlist import FaultList
from takeup.reading.yaml_places import shown

LARGEST_FILE = 200_000_000
"""Bytes past which a file is not read: a row a minute for ten years."""

BLANKS = " \t"
"""What may stand round the value of a cell."""

_QUOTED = 60  # letters of a file's cell that a message repeats


@dataclass(frozen=True, kw_only=True, slots=True)
class Form:
    """What a table must look like, for the messages.

    Args:
        what: it is, with its article: "a record".
        header: the columns that it cannot be without, as they may be typed.
        row: a row that fits the header.
        least: rows that there must be.
    """

    what: str
    header: str
    row: str
    least: int


@dataclass(frozen=True, kw_only=True, slots=True)
class Sheet:
    """The cells of a file by column, n rows, without those whose number of cells is wrong.

    Args:
        file: as faults name it.
        sha256: of the file's bytes.
        lines: of the file, for places.
        header: names of the columns, blanks stripped.
        header_line: number of the line that it stands on.
        numbers: on which line each row stands, (n,).
        columns: cells of each column, (columns, n).
    """

    file: str
    sha256: str
    lines: list[str]
    header: tuple[str, ...]
    header_line: int
    numbers: tuple[int, ...]
    columns: tuple[tuple[str, ...], ...]

    def header_place(self, column: int) -> tuple[int, int]:
        """Return line and column of a name in the header."""
        return self.header_line, _begin(self.lines[self.header_line - 1], column)

    def place(self, row: int, column: int) -> tuple[int, int]:
        """Return line and column of a cell."""
        line = self.numbers[row]
        return line, _begin(self.lines[line - 1], column)


def quoted(cell: str) -> str:
    """Return a cell as a message may repeat it."""
    words = shown(cell.strip(BLANKS))
    return f"'{words}'" if len(words) <= _QUOTED else f"'{words[:_QUOTED]}' and so on"


def read_bytes(path: Path) -> bytes:
    """Return what a file holds.

    Raises:
        InputError: It cannot be read, or is too large.
    """
    try:
        with path.open("rb") as stream:
            content = stream.read(LARGEST_FILE + 1)
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise _only(str(path), 1, 1, f"the file cannot be read: {reason}") from error
    except ValueError as error:
        raise _only(str(path), 1, 1, "the file cannot be read: its name holds a character that no name may") from error
    if len(content) > LARGEST_FILE:
        raise _only(str(path), 1, 1, f"the file has more than {LARGEST_FILE} bytes; keep fewer rows")
    return content


def decoded(content: bytes, file: str) -> str:
    """Return the text of a file.

    Raises:
        InputError: It is not text in UTF-8.
    """
    if b"\0" in content:
        raise _only(file, 1, 1, "this is not text in UTF-8; save the file as UTF-8")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = content[: error.start]
        line = before.count(b"\n") + 1
        column = len(before.rpartition(b"\n")[2].decode("utf-8-sig", errors="replace")) + 1
        message = f"the byte 0x{content[error.start]:02x} is not UTF-8 text; save the file as UTF-8"
        raise _only(file, line, column, message) from error


def sheet_of(content: bytes, file: str, faults: FaultList, form: Form) -> Sheet:
    """Return the cells of a file; rows with a wrong number of them are noted and left out.

    Raises:
        InputError: The file is not text in UTF-8, has no header, or is not parted by commas.
    """
    text = decoded(content, file).replace("\r\n", "\n").replace("\r", "\n")
    lines = text.split("\n")
    kept = [(number, line) for number, line in enumerate(lines, start=1) if _is_row(line)]
    if not kept:
        raise _only(
            file, 1, 1, f"the file has no rows; {form.what} begins with the names of its columns: {form.header}"
        )
    (header_line, first), rows = kept[0], kept[1:]
    header = _header(first, header_line, file, form)
    if len(rows) < form.least:
        found = "one row" if rows else "no row"
        faults.add(header_line, 1, f"found {found} of values below the names; {form.what} has {form.least} or more")
    numbers, cells = _equal_rows(rows, len(header), faults)
    return Sheet(
        file=file,
        sha256=hashlib.sha256(content).hexdigest(),
        lines=lines,
        header=header,
        header_line=header_line,
        numbers=tuple(numbers),
        columns=tuple(zip(*cells, strict=True)) if cells else ((),) * len(header),
    )


def _is_row(line: str) -> bool:
    begin = line.lstrip()
    return begin != "" and begin[0] != "#"


def _header(line: str, number: int, file: str, form: Form) -> tuple[str, ...]:
    """Return the names of the columns; refuse a file that is parted by something else than commas."""
    for letter, name in ((";", "semicolons"), ("\t", "tabs")):
        if letter in line and ("," not in line or _names_parted(line, letter, form) > _names_parted(line, ",", form)):
            message = (
                f"the columns are parted by {name}; part them by commas and write decimals with a point, "
                f"as in {form.header} and {form.row}"
            )
            raise _only(file, number, line.index(letter) + 1, message)
    try:
        names = tuple(cell.strip() for cell in _cells(line))
    except csv.Error:
        raise _only(file, number, 1, "a quotation mark in the header is not closed, or closed too early") from None
    if _is_number(names[0]):
        raise _only(
            file, number, 1, f"found {quoted(names[0])}, expected the names of the columns first: {form.header}"
        )
    return names


def _names_parted(line: str, letter: str, form: Form) -> int:
    """Return how many of the names that a table cannot be without stand alone when a line is parted at a letter."""
    found = {cell.strip(f'{BLANKS}"') for cell in line.split(letter)}
    return len(found & set(form.header.split(",")))


def _equal_rows(rows: list[tuple[int, str]], width: int, faults: FaultList) -> tuple[list[int], list[list[str]]]:
    """Return line numbers and cells of the rows that have a cell for each column."""
    numbers, found = [], []
    for number, line in rows:
        try:
            cells = line.split(",") if '"' not in line else _cells(line)
        except csv.Error:
            faults.add(number, 1, "a quotation mark in this row is not closed, or closed too early")
            continue
        if len(cells) == width:
            numbers.append(number)
            found.append(cells)
        else:
            faults.add(number, _begin(line, min(len(cells), width)), _wrong_width(line, len(cells), width))
    return numbers, found


def _wrong_width(line: str, found: int, width: int) -> str:
    message = f"found {found} cell{'s' if found != 1 else ''}, expected {width}, as many as the header names columns"
    if found > width:
        return f"{message}; cells are parted by commas, so a decimal mark is a point"
    return f"{message}; a semicolon parts nothing here" if ";" in line else message


def _cells(line: str) -> list[str]:
    return next(csv.reader([line], strict=True, skipinitialspace=True))


def _begin(line: str, column: int) -> int:
    """Return where a cell of a line begins, past the blanks before it, counted from one; past the last, the end."""
    starts, inside = [0], False
    for index, letter in enumerate(line):
        if letter == '"' and (inside or not line[starts[-1] : index].strip()):
            inside = not inside
        elif letter == "," and not inside:
            starts.append(index + 1)
            if len(starts) > column + 1:
                break
    if column >= len(starts):
        return len(line) + 1
    start, end = starts[column], starts[column + 1] - 1 if column + 1 < len(starts) else len(line)
    cell = line[start:end]
    return start + len(cell) - len(cell.lstrip()) + 1 if cell.strip() else start + 1


def _is_number(word: str) -> bool:
    try:
        float(word)
    except ValueError:
        return False
    return True


def _only(file: str, line: int, column: int, message: str) -> InputError:
    return InputError((Fault(file=file, line=line, column=column, message=message),))
