"""Reading a line file: all its faults at once, or a `Study`.     (line/reading/reader.py)

The order: text -> words with places (yaml_places) -> form (schema, through faultbook) -> each part by its reader
(read_head, read_materials, read_line, read_loads) -> what two parts say of each other (check_study). A part whose
form is unsound is left out, and everything that does not rest on it is still judged.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

from takeup.errors import Fault, InputError
from takeup.line.conditions import Load
from takeup.line.reading.check_study import check_conditions, check_study
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.names import Names
from takeup.line.reading.read_head import Head, read_head
from takeup.line.reading.read_line import read_lines
from takeup.line.reading.read_loads import read_loads
from takeup.line.reading.read_materials import read_materials
from takeup.line.reading.read_pipe import Stock
from takeup.line.records import Line, Study
from takeup.reading.yaml_places import PlacedTree, read_places

VERSION = "1"
LARGEST_FILE = 2_000_000
"""Bytes past which a file is not read: a line file has a few thousand."""


def read_study(path: Path) -> Study:
    """Read a line file.

    Raises:
        InputError: The file cannot be read, is no line file, or has faults; it carries all of them.
    """
    shown = str(path)
    try:
        with path.open("rb") as stream:
            content = stream.read(LARGEST_FILE + 1)
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise InputError((_first(shown, f"the file cannot be read: {reason}"),)) from error
    if len(content) > LARGEST_FILE:
        raise InputError(
            (_first(shown, f"the file has more than {LARGEST_FILE} bytes; a line file has a few thousand"),)
        )
    text = _decode(content, shown)
    return _study(read_places(text, shown), path.name, hashlib.sha256(content).hexdigest())


def study_from_text(text: str, file: str) -> Study:
    """Read the text of a line file; `file` is the name that faults begin with.

    Raises:
        InputError: The text is no line file, or has faults; it carries all of them.
    """
    digest = hashlib.sha256(text.encode("utf-8", errors="surrogatepass")).hexdigest()
    return _study(read_places(text, file), Path(file).name, digest)


def _study(placed: PlacedTree, name: str, digest: str) -> Study:
    _refuse_other_files(placed)
    book = FaultBook(placed)
    book.check_form()
    head = read_head(book)
    stock = Stock(basis=head.basis, named=head.expansion_table, own=read_materials(book))
    read = read_lines(book, Names(book), stock, head.conditions)
    check_conditions(book, head, read)
    loads = read_loads(book, read)
    book.raise_faults()
    study = _whole(head, tuple(one.line for one in read if one.line is not None), loads, (name, digest))
    check_study(book, study)
    book.raise_faults()
    return study


def _whole(head: Head, lines: tuple[Line, ...], loads: tuple[Load, ...], file: tuple[str, str]) -> Study:
    """Return the study; a part that is missing has left a fault, and this function is not reached."""
    conditions = head.conditions.conditions
    assert head.document is not None, "a fault was noted"
    assert head.basis is not None, "a fault was noted"
    assert head.site is not None, "a fault was noted"
    assert conditions is not None, "a fault was noted"
    assert head.vacuum is not None, "a fault was noted"
    return Study(
        project=head.project,
        document=head.document,
        basis=head.basis,
        site=head.site,
        conditions=conditions,
        vacuum=head.vacuum,
        test_medium="water",
        cycles=head.cycles,
        allowables=head.allowables,
        lines=lines,
        loads=loads,
        dropped=head.dropped,
        added=head.added,
        order=head.order,
        warming=head.warming,
        walk=head.walk,
        design_factors=head.design_factors,
        prices=head.prices,
        file=file[0],
        sha256=file[1],
    )


def _refuse_other_files(placed: PlacedTree) -> None:
    """Refuse what is no line file, or one of another format version, before its keys are judged."""
    tree = placed.tree
    if tree == "":
        raise InputError(
            (*placed.faults, _first(placed.file, "the file is empty; `takeup new FILE` writes one to start from"))
        )
    if not isinstance(tree, dict):
        kind = "a list" if isinstance(tree, list) else "a text"
        message = f"found {kind}, expected a mapping that begins with takeup: 1"
        raise InputError((*placed.faults, _first(placed.file, message)))
    version = tree.get("takeup")
    if isinstance(version, str) and version not in ("", VERSION):
        line, column = placed.value_place(("takeup",))
        message = f"takeup: the file format version is '{version}'; this version of Takeup reads version {VERSION} only"
        raise InputError((Fault(file=placed.file, line=line, column=column, message=message),))


def _decode(content: bytes, shown: str) -> str:
    """Return the text of a file, or refuse it where it is not text in UTF-8."""
    if b"\0" in content:
        raise InputError((_first(shown, "this is not a text file; a line file is YAML text"),))
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = content[: error.start]
        line = before.count(b"\n") + 1
        column = len(before.rpartition(b"\n")[2].decode("utf-8", errors="replace")) + 1
        message = f"the byte 0x{content[error.start]:02x} is not UTF-8 text; save the file as UTF-8"
        raise InputError((Fault(file=shown, line=line, column=column, message=message),)) from error


def _first(file: str, message: str) -> Fault:
    return Fault(file=file, line=1, column=1, message=message)
