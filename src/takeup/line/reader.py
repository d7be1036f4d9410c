"""Reading a line file: all its faults at once, or a `Study`.     (line/reader.py)

The order: text -> words with places (yaml_places) -> form (schema, through faultbook) -> each part by its reader
(read_conditions, read_pipe, read_route, read_holds, read_takeups) -> what two parts say of each other. A part whose
form is unsound is left out, and everything that does not rest on it is still judged.
"""

from __future__ import annotations

import hashlib
from dataclasses import replace
from pathlib import Path
from typing import Literal, get_args

from takeup.basis import support_span
from takeup.errors import Fault, InputError, OutOfRange
from takeup.line.conditions import Conditions, Medium
from takeup.line.faultbook import FaultBook
from takeup.line.fields import nearest
from takeup.line.names import Names
from takeup.line.parts import Section
from takeup.line.read_conditions import Head, check_heads, check_temperatures, expansion_table, read_conditions
from takeup.line.read_holds import check_only_in, read_holds
from takeup.line.read_loads import read_loads
from takeup.line.read_materials import read_materials
from takeup.line.read_pipe import read_insulation, read_pipe
from takeup.line.read_route import read_route
from takeup.line.read_takeups import read_takeups
from takeup.line.records import Line, Study
from takeup.line.states import LIQUIDS, state_names
from takeup.line.yaml_places import Path as Keys
from takeup.line.yaml_places import PlacedTree, read_places

VERSION = "1"
LINES: Keys = ("lines",)
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
    head = read_conditions(book)
    names = Names(book)
    read_materials(book)
    lines = tuple(_line(book, names, (*LINES, index), head) for index in range(book.size(LINES)))
    loads = read_loads(book, lines, tuple(book.words((*LINES, index, "name")) for index in range(len(lines))))
    book.raise_faults()
    study = replace(_whole(head, tuple(line for line in lines if line is not None), name, digest), loads=loads)
    _check_states(book, study)
    _check_temporary(book, study)
    _check_rules(book, study)
    book.raise_faults()
    return study


def _line(book: FaultBook, names: Names, base: Keys, head: Head) -> Line | None:
    """Read one line, and judge the conditions against its material and its height."""
    pipe = read_pipe(book, (*base, "pipe"), expansion_table(book, head))
    layout = read_route(book, names, (*base, "route"), pipe)
    holds = read_holds(book, names, (*base, "holds"), layout)
    takeups = read_takeups(book, names, (*base, "takeups"), layout, holds.placed)
    surround = read_insulation(book, (*base, "insulation"))
    medium = _medium(book, (*base, "medium"))
    if pipe.material is not None:
        check_temperatures(book, head, pipe.material)
    if layout is not None and medium is not None:
        check_heads(book, head, medium, layout.rise)
    if pipe.pipe is None or layout is None or medium is None:
        return None
    return Line(
        name=book.words((*base, "name")),
        medium=medium,
        sections=(Section(start=0.0, end=layout.length, pipe=pipe.pipe, insulation=surround),),
        start=layout.start,
        start_at=layout.start_at,
        legs=layout.legs,
        end=layout.end,
        holds=tuple(one.hold for one in holds.placed),
        rules=holds.rules,
        takeups=takeups,
    )


def _medium(book: FaultBook, path: Keys) -> Medium | None:
    words = book.words(path)
    return next((medium for medium in MEDIA if medium == words), None)


def _whole(head: Head, lines: tuple[Line, ...], name: str, digest: str) -> Study:
    """Return the study; a part that is missing has left a fault, and this function is not reached."""
    assert head.document is not None, "a fault was noted"
    assert head.basis is not None, "a fault was noted"
    assert head.site is not None, "a fault was noted"
    assert head.design is not None, "a fault was noted"
    assert head.vacuum is not None, "a fault was noted"
    assert head.operating is not None, "a fault was noted"
    assert head.test is not None, "a fault was noted"
    return Study(
        project=head.project,
        document=head.document,
        basis=head.basis,
        site=head.site,
        conditions=Conditions(design=head.design, operating=head.operating, test=head.test),
        vacuum=head.vacuum,
        test_medium="water",
        cycles=head.cycles,
        allowables=head.allowables,
        lines=lines,
        dropped=head.dropped,
        added=head.added,
        file=name,
        sha256=digest,
    )


def _check_states(book: FaultBook, study: Study) -> None:
    """Note dropped states that are none of the default order, and added ones whose names are taken."""
    known = book.attempt((*LINES, 0, "medium"), lambda: state_names(study))
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


def _check_temporary(book: FaultBook, study: Study) -> None:
    """Note temporary holds that stand in states which there are not."""
    states = tuple(dict.fromkeys((*state_names(study), *(added.name for added in study.added))))
    for number in range(len(study.lines)):
        check_only_in(book, (*LINES, number, "holds"), states)


def _check_rules(book: FaultBook, study: Study) -> None:
    """Note rules that place holds by a support span, where its table does not cover the pipe or the temperature."""
    for number, line in enumerate(study.lines):
        holds: Keys = (*LINES, number, "holds")
        for index in range(book.size(holds)):
            path = (*holds, index)
            if not book.has((*path, "by")):
                continue
            kind, by = book.words((*path, "kind")), book.words((*path, "by"))
            if by == "support spans" or kind == "slide guide":
                _check_span(book, study, line, (*path, "by"), f"{kind}s by {by}")


def _check_span(book: FaultBook, study: Study, line: Line, path: Keys, what: str) -> None:
    content: Literal["water", "gas"] = "water" if line.medium in LIQUIDS else "gas"
    temperature = study.conditions_of(line).design.temperature
    for section in line.sections:
        try:
            support_span(section.pipe.size.nps_inch, content, temperature=temperature)
        except OutOfRange as reason:
            book.add(path, f"{what} need a support span: {reason} Place them by hand.")


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
