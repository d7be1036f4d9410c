"""The cells of a workbook's sheet.     (joints/tables/workbook.py)

The values come from a reader of workbooks; what it does not tell, formulas, errors and the size of the sheet, is found
in the sheet's own text. A sheet of one cell in the last row of the last column would have it make room for all others,
so the text is looked at first.
"""

from __future__ import annotations

import datetime as dt
import html
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass

from takeup.joints.tables.archive import NotAnArchive, parts
from takeup.joints.tables.cells import FORM, MOST_ROWS, Cells, Place, refused, too_many
from takeup.reading.faultlist import FaultList
from takeup.reading.sheet import BLANKS, LARGEST_FILE, Form
from takeup.reading.yaml_places import shown

_WIDEST = 200  # columns; the list has a third of that
HEAD = ("name", "kind")
"""Columns by which the header of a table of joints is known."""
_CELL = re.compile(rb"<(?:\w+:)?c\b([^>]*?)(?:/>|>\s*(<(?:\w+:)?f\b)?)")
_AT = re.compile(rb'\br="([A-Z]{1,3})([0-9]{1,7})"')
_ROW = re.compile(rb"<(?:\w+:)?row\b")
_SHEET = re.compile(r"<(?:\w+:)?sheet\b[^>]*>")
_RELATION = re.compile(r"<(?:\w+:)?Relationship\b[^>]*>")
_LETTERS = 26
_OLD = b"\xd0\xcf\x11\xe0"
_LAST_WHOLE = 1e15  # past it a float has no unit digit to write

Value = int | float | str | bool | dt.time | dt.date | dt.datetime | dt.timedelta


@dataclass(frozen=True, kw_only=True, slots=True)
class _Text:
    """What a sheet's own text tells: places of formulas and of errors, and how many words its cells refer to."""

    formulas: tuple[Place, ...]
    errors: tuple[Place, ...]
    words: int


def is_workbook(content: bytes, file: str) -> bool:
    """Whether a file is a workbook by its first bytes, or by its name."""
    return content.startswith((b"PK\x03\x04", b"PK\x05\x06", _OLD)) or file.lower().endswith((".xlsx", ".xlsm", ".xls"))


def workbook_cells(
    content: bytes, file: str, faults: FaultList, form: Form = FORM, head: tuple[str, ...] = HEAD
) -> Cells:
    """Return the cells of the first sheet that has the header.

    Args:
        content: of the workbook.
        file: as faults name it.
        faults: where they go.
        form: what the sheet must look like.
        head: columns by which the header is known.

    Raises:
        InputError: It is no workbook, is protected, broken or too large, or no sheet has the header.
    """
    found, texts = _opened(content, file)
    chosen = next((name for name, rows in found.items() if _has_header(rows, head)), None)
    if chosen is None and len(found) > 1:
        names = ", ".join(f"'{shown(name)}'" for name in found)
        raise refused(
            file, f"no sheet has the header, a row with the names of the columns: {form.header}; found {names}"
        )
    chosen = next(iter(found)) if chosen is None else chosen
    return _cells(found[chosen], texts[chosen], (chosen, form), file, faults)


@dataclass(frozen=True, kw_only=True, slots=True)
class Page:
    """A sheet as it stands, for a form whose cells are found by what stands beside them.

    Args:
        name: of the sheet.
        words: its cells by row and column, from the first of both, blanks stripped.
        formulas: places of cells that hold one, counted from one.
        errors: places of cells that hold an error.
    """

    name: str
    words: tuple[tuple[str, ...], ...]
    formulas: frozenset[Place]
    errors: frozenset[Place]

    def called(self, place: Place) -> str:
        """Return what a fault at a place begins with."""
        return _called(self.name, place)


def workbook_pages(content: bytes, file: str) -> tuple[Page, ...]:
    """Return every sheet of a workbook as it stands, in order.

    Args:
        content: of the workbook.
        file: as faults name it.

    Raises:
        InputError: It is no workbook, is protected, broken or too large.
    """
    found, texts = _opened(content, file)
    return tuple(
        Page(
            name=name,
            words=tuple(tuple(map(_text, row)) for row in rows),
            formulas=frozenset(texts[name].formulas),
            errors=frozenset(texts[name].errors),
        )
        for name, (rows, _) in found.items()
    )


_Found = tuple[list[list[Value]], tuple[tuple[Place, Place], ...]]


def _opened(content: bytes, file: str) -> tuple[dict[str, _Found], dict[str, _Text]]:
    """Return the values of every sheet, and what its own text tells.

    Raises:
        InputError: It is no workbook, is protected, broken or too large.
    """
    if content.startswith(_OLD):
        raise refused(file, "the workbook is of the old form or protected by a password; save it as .xlsx without one")
    try:
        archive = parts(content)
        sheets = dict(_sheets(archive))
    except (NotAnArchive, UnicodeDecodeError) as error:
        why = error if isinstance(error, NotAnArchive) else "the workbook is broken: it is not text; save it again"
        raise refused(file, str(why)) from error
    if not sheets:
        raise refused(file, "this is no workbook with sheets of cells; save it as .xlsx")
    texts = {name: _looked_at(archive.get(part, b""), file, name) for name, part in sheets.items()}
    _check_words(archive, texts, file)
    found = _values(content, tuple(sheets), file)
    if not found:  # the reader of workbooks knows the sheets by other names
        raise refused(file, "the workbook is broken: its sheets cannot be read; save it again")
    return found, texts


def _sheets(archive: dict[str, bytes]) -> Iterator[tuple[str, str]]:
    """Yield name and part of each sheet of cells, in the order of the workbook."""
    relations = {
        _attribute(one, "Id"): _attribute(one, "Target")
        for one in _RELATION.findall(archive.get("xl/_rels/workbook.xml.rels", b"").decode())
    }
    for one in _SHEET.findall(archive.get("xl/workbook.xml", b"").decode()):
        target = relations.get(_attribute(one, "(?:\\w+:)?id"), "")
        part = target.removeprefix("/") if target.startswith("/") else f"xl/{target}"
        if "/worksheets/" in part and part in archive:
            yield _attribute(one, "name"), part


def _attribute(tag: str, name: str) -> str:
    found = re.search(rf"""\s{name}\s*=\s*("([^"]*)"|'([^']*)')""", tag)
    return html.unescape(found[2] or found[3] or "") if found else ""


def _looked_at(text: bytes, file: str, name: str) -> _Text:
    """Return what a sheet's text tells.

    Raises:
        InputError: It has too many rows, or cells too far out.
    """
    rows = len(_ROW.findall(text))
    if rows > MOST_ROWS + 1:
        raise refused(file, f"sheet '{shown(name)}': {too_many(f'{rows} rows')}")
    formulas, errors, words = [], [], 0
    for cell in _CELL.finditer(text):
        at = _AT.search(cell[1])
        words += b't="s"' in cell[1]
        if at is None:
            continue
        place = int(at[2]), _number(at[1])
        if place[0] > MOST_ROWS + _WIDEST or place[1] > _WIDEST:
            where = f"the cell {at[1].decode()}{at[2].decode()} stands past row {MOST_ROWS} or column {_WIDEST}"
            raise refused(file, f"sheet '{shown(name)}': {where}; a table of joints begins at the top left")
        if cell[2]:
            formulas.append(place)
        elif b't="e"' in cell[1]:
            errors.append(place)
    return _Text(formulas=tuple(formulas), errors=tuple(errors), words=words)


def _check_words(archive: dict[str, bytes], texts: dict[str, _Text], file: str) -> None:
    """Refuse long words that many cells refer to: each would be held once a cell."""
    shared = archive.get("xl/sharedStrings.xml", b"")
    longest = max((len(one) for one in shared.split(b"</si>")), default=0)
    if longest * max(one.words for one in texts.values()) > max(LARGEST_FILE, len(shared) * 2):
        raise refused(file, f"the words in the cells are longer than {LARGEST_FILE} bytes together")


def _number(letters: bytes) -> int:
    """Return the number of a column, from one."""
    number = 0
    for letter in letters:
        number = number * _LETTERS + letter - ord("A") + 1
    return number


def _values(content: bytes, names: tuple[str, ...], file: str) -> dict[str, _Found]:
    """Return the values of the sheets, and their merged ranges.

    Raises:
        InputError: The workbook cannot be read.
    """
    from python_calamine import CalamineError, load_workbook

    try:
        with load_workbook(io.BytesIO(content)) as book:
            sheets = {name: book.get_sheet_by_name(name) for name in names if name in book.sheet_names}
            return {
                name: (one.to_python(skip_empty_area=False), tuple(one.merged_cell_ranges or ()))
                for name, one in sheets.items()
            }
    except (CalamineError, ValueError, OSError) as error:
        raise refused(file, "the workbook is broken: its sheets cannot be read; save it again") from error
    except BaseException as error:
        # The reader is not written in Python: what it did not expect ends in an exception beside all others.
        if type(error).__name__ != "PanicException":
            raise
        raise refused(file, "the workbook is broken: its sheets cannot be read; save it again") from error


def _has_header(found: _Found, head: tuple[str, ...]) -> bool:
    """Return whether the first row that is no remark names these columns."""
    for row in found[0]:
        words = [word for word in map(_text, row) if word]
        if words and not words[0].startswith("#"):
            return set(head) <= set(words)
    return False


def _text(value: Value) -> str:
    """Return a value as a cell of a text would have it."""
    if isinstance(value, bool):
        return str(value).upper()
    if isinstance(value, float):
        return str(int(value)) if value.is_integer() and abs(value) < _LAST_WHOLE else repr(value)
    return str(value).strip(f"{BLANKS}\r\n")


def _cells(found: _Found, text: _Text, sheet: tuple[str, Form], file: str, faults: FaultList) -> Cells:
    """Return a sheet, by name and form, as cells; formulas, errors, merged cells and a table without rows are noted."""
    name, form = sheet

    def called(place: Place) -> str:
        return _called(name, place)

    words = [[_text(value) for value in row] for row in found[0]]
    filled = [number for number, row in enumerate(words) if any(row)]
    tabled = [number for number in filled if not next(filter(None, words[number])).startswith("#")]
    if not tabled:
        raise refused(file, f"sheet '{shown(name)}' has no rows; {form.what} begins with its columns: {form.header}")
    head, below = tabled[0], tabled[1:]
    columns = [number for number in range(len(words[head])) if any(words[row][number] for row in tabled)]
    if not below:
        faults.add(head + 1, 1, f"{called((head + 1, 1))}found no row of values below the names")
    for place in text.formulas:
        if place[0] > head:
            faults.add(*place, f"{called(place)}this is a formula; put its value here, so that it stays what it is")
    for place in text.errors:
        faults.add(*place, f"{called(place)}the cell holds an error")
    for first, last in found[1]:
        if last[0] >= head:
            place = first[0] + 1, first[1] + 1
            faults.add(*place, f"{called(place)}merged cells; a table has one value in each cell: part them")
    return Cells(
        file=file,
        header=tuple(words[head][number] for number in columns),
        columns=tuple(tuple(words[row][number] for row in below) for number in columns),
        head=(head + 1, columns[0] + 1),
        header_place=lambda column: (head + 1, columns[column] + 1),
        place=lambda row, column: (below[row] + 1, columns[column] + 1),
        called=called,
        remarks=tuple((row + 1, next(filter(None, words[row])).lstrip("#").strip()) for row in filled if row < head),
    )


def _called(name: str, place: Place) -> str:
    """Return what a fault at a place of a sheet begins with."""
    return f"{shown(name)}!{letters_of(place[1])}{place[0]}: "


def letters_of(column: int) -> str:
    """Return the letters of a column, from one."""
    found = ""
    while column:
        column, rest = divmod(column - 1, _LETTERS)
        found = chr(ord("A") + rest) + found
    return found


__all__ = ["HEAD", "Page", "is_workbook", "letters_of", "workbook_cells", "workbook_pages"]
