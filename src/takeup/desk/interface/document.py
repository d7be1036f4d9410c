"""The opened file as the page has it, and changes asked of it.     (desk/interface/document.py)"""

from __future__ import annotations

from typing import Literal

from typing_extensions import TypedDict


class Fault(TypedDict):
    """One thing wrong with the text; line and column count from one."""

    line: int
    column: int
    message: str


class Place(TypedDict):
    """A hold, a take-up or an end on a line.

    `id` is the line's name, a slash and its own name. `stays` says why it cannot be moved; empty where it can.
    `placed_by` is a rule's name, or "by hand"; moving what a rule placed first writes the rule's places into the text.
    """

    id: str
    name: str
    line: str
    what: Literal["hold", "takeup", "end"]
    kind: str
    station_m: float
    from_m: float
    to_m: float
    placed_by: str
    stays: str


class Corner(TypedDict):
    """A named place of a route."""

    name: str
    station_m: float


class LineOutline(TypedDict):
    """A line as the page needs it to move things along it."""

    name: str
    about: str
    length_m: float
    corners: list[Corner]
    places: list[Place]


class StateRow(TypedDict):
    """A state of the walk, in order; pressure and temperature are those of its hottest zone."""

    name: str
    pressure_bar: float
    temperature_c: float
    content: str


class Palette(TypedDict):
    """Something that can be put on a line. `needs` names what the user must first say, and between what to choose."""

    key: str
    what: Literal["hold", "takeup"]
    title: str
    about: str
    slides_on: list[str]


class Document(TypedDict):
    """The opened file as it stands on the desk.

    `revision` grows by one with every change. `undo` and `redo` say in words what they would do; "" where there is
    nothing. `outside`: whether the file on disk still is what was last read or saved. `recovered`: what was taken over
    from an earlier desk that ended without saving; "" where nothing was. `readable`: no fault, so that there is
    something to look at; the outline is that of the last readable revision, `outline_revision` (0: of none yet).
    `busy`: what must be worked out first, such as which joint of a series fits; "" where nothing has to.
    """

    revision: int
    file: str
    project: str
    text: str
    saved: bool
    undo: str
    redo: str
    outside: Literal["same", "changed", "gone"]
    recovered: str
    readable: bool
    outline_revision: int
    busy: str
    faults: list[Fault]
    lines: list[LineOutline]
    states: list[StateRow]
    palette: list[Palette]


class Change(TypedDict, total=False):
    """A change asked for. `do` decides what else is read.

    text: `text`. move: `id`, `station_m`. add: `key` of the palette, `line`, `station_m`, and `slides_on` where the
    palette asks for it. remove: `id`. undo, redo: nothing. outside: take the file as it is on disk now.
    """

    do: Literal["text", "move", "add", "remove", "undo", "redo", "outside"]
    text: str
    id: str
    station_m: float
    key: str
    line: str
    slides_on: str


class ChangeAsked(TypedDict):
    """A change, and the revision that it was made on; another one is refused with 409 and the document as it is."""

    revision: int
    change: Change


class Refused(TypedDict):
    """Why something was not done; the document as it stands where that helps."""

    refused: str
    document: Document | None
