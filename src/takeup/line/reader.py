"""Reading a line file: all its faults at once, or a `Study`.     (line/reader.py)

The order: text -> words with places (yaml_places) -> form (schema, through faultbook) -> each part by its reader
(read_conditions, read_pipe, read_route, read_holds, read_takeups) -> what two parts say of each other. A part whose
form is unsound is left out, and everything that does not rest on it is still judged.
"""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Literal, get_args

from takeup.basis import support_span
from takeup.errors import Fault, InputError, OutOfRange
from takeup.line.faultbook import FaultBook
from takeup.line.fields import nearest
from takeup.line.names import Names
from takeup.line.read_conditions import Conditions, check_heads, check_temperatures, read_conditions
from takeup.line.read_holds import HOLDS, read_holds
from takeup.line.read_pipe import read_insulation, read_pipe
from takeup.line.read_route import read_route
from takeup.line.read_takeups import read_takeups
from takeup.line.records import Line, Medium, Study
from takeup.line.states import state_names
from takeup.line.yaml_places import Path as Keys
from takeup.line.yaml_places import PlacedTree, read_places

VERSION = "1"
MEDIUM: Keys = ("lines", 0, "medium")
MEDIA: tuple[Medium, ...] = get_args(Medium)
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
    conditions = read_conditions(book)
    line = _line(book, conditions)
    book.raise_faults()
    study = _whole(conditions, line, name, digest)
    _check_states(book, study)
    _check_rules(book, study)
    book.raise_faults()
    return study


def _line(book: FaultBook, conditions: Conditions) -> Line | None:
    """Read the line, and judge the conditions against its material and its height."""
    names = Names(book)
    pipe = read_pipe(book, conditions.basis.expansion_table if conditions.basis else None)
    layout = read_route(book, names, pipe)
    holds = read_holds(book, names, layout)
    takeups = read_takeups(book, names, layout, holds.placed)
    surround = read_insulation(book)
    medium = _medium(book)
    if pipe.material is not None:
        check_temperatures(book, conditions, pipe.material)
    if layout is not None and medium is not None:
        check_heads(book, conditions, medium, layout.rise)
    if pipe.pipe is None or layout is None or medium is None:
        return None
    return Line(
        name=book.words(("lines", 0, "name")),
        medium=medium,
        pipe=pipe.pipe,
        insulation=surround,
        start=layout.start,
        start_at=layout.start_at,
        legs=layout.legs,
        end=layout.end,
        holds=tuple(one.hold for one in holds.placed),
        rules=holds.rules,
        takeups=takeups,
    )


def _medium(book: FaultBook) -> Medium | None:
    words = book.words(MEDIUM)
    return next((medium for medium in MEDIA if medium == words), None)


def _whole(conditions: Conditions, line: Line | None, name: str, digest: str) -> Study:
    """Return the study; a part that is missing has left a fault, and this function is not reached."""
    assert conditions.document is not None, "a fault was noted"
    assert conditions.basis is not None, "a fault was noted"
    assert conditions.site is not None, "a fault was noted"
    assert conditions.design is not None, "a fault was noted"
    assert conditions.vacuum is not None, "a fault was noted"
    assert conditions.operating is not None, "a fault was noted"
    assert conditions.test is not None, "a fault was noted"
    assert line is not None, "a fault was noted"
    return Study(
        project=conditions.project,
        document=conditions.document,
        basis=conditions.basis,
        site=conditions.site,
        design=conditions.design,
        vacuum=conditions.vacuum,
        operating=conditions.operating,
        test=conditions.test,
        test_medium="water",
        cycles=conditions.cycles,
        stress_range_limit=conditions.stress_range_limit,
        yield_strength=conditions.yield_strength,
        line=line,
        dropped=conditions.dropped,
        added=conditions.added,
        file=name,
        sha256=digest,
    )


def _check_states(book: FaultBook, study: Study) -> None:
    """Note dropped states that are none of the default order, and added ones whose names are taken."""
    known = book.attempt(MEDIUM, lambda: state_names(study))
    if known is None:
        return
    for index, dropped in enumerate(study.dropped):
        if dropped.state not in known:
            message = f"'{dropped.state}' is no state of this line; they are: {'; '.join(known)}"
            book.add(("states", "drop", index, "state"), message + nearest(dropped.state, known))
    taken = set(known)
    for index, added in enumerate(study.added):
        if added.name in taken:
            book.add(
                ("states", "add", index, "name"), f"there is a state '{added.name}' already; give this one its own name"
            )
        taken.add(added.name)


def _check_rules(book: FaultBook, study: Study) -> None:
    """Note rules that place holds by a support span, where its table does not cover the pipe or the temperature."""
    content: Literal["water", "gas"] = "water" if study.line.medium == "water" else "gas"
    for index in range(book.size(HOLDS)):
        if not book.has((*HOLDS, index, "by")):
            continue
        kind, by = book.words((*HOLDS, index, "kind")), book.words((*HOLDS, index, "by"))
        if by == "support spans" or kind == "slide guide":
            try:
                support_span(study.line.pipe.size.nps_inch, content, temperature=study.design.temperature)
            except OutOfRange as reason:
                book.add((*HOLDS, index, "by"), f"{kind}s by {by} need a support span: {reason} Place them by hand.")


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
