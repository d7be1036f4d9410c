"""Faults gathered while a file is read, each with its place in words.     (line/reading/faultbook.py)

`FaultBook.check_form` validates the file against its model and writes pydantic's findings down as sentences; the
readers add what they find with `add`. Nothing is raised until everything that can be judged has been judged.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path as Folder
from types import NoneType
from typing import TypeVar, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from takeup.errors import Fault, InputError, TakeupError
from takeup.line.reading.schema import StudyItem, field_name, keys_of, model_at
from takeup.line.reading.schema_choices import TAKEUP_MODELS, takeup_item
from takeup.line.reading.schema_route import ITEM_KEYS, ROUTE_MODELS, route_item
from takeup.line.reading.values import Item
from takeup.line.reading.whereabouts import at, whereabouts
from takeup.reading.fields import Reads, nearest
from takeup.reading.yaml_places import Path, PlacedTree, Tree

Model = TypeVar("Model", bound=BaseModel)
Value = TypeVar("Value")

_SERIES = "the joint's data are typed in under 'data'; leave this key out, or that one"
_RINGS = (
    "a line whose end joins another line is not covered by this version: a line leaves another at its start, "
    "and no lines form a ring"
)
_NO_VACUUM = "the answer on vacuum stands once, under design at the top of the file"
_OF_ITS_OWN = "this is an item of its own in the route, after the leg that leads to it"
_OF_THE_JOINT = "the joint's data and the line's conditions say this; leave this key out"
_OF_THE_LINE = "the line's own movements and the joint's data say this; leave this key out"
REFUSED_KEYS = {
    **{("takeups", key): _SERIES for key in ("from", "joint", "select", "rank")},
    ("route", "joins"): _RINGS,
    ("lines", "joins"): _RINGS,
    **{("route", key): _OF_ITS_OWN for key in ITEM_KEYS},
    ("route", "can_close"): "only a valve closes; leave this key out",
    ("design", "vacuum"): _NO_VACUUM,
    **{("bellows", key): _OF_THE_JOINT for key in ("pressure", "outside_pressure", "temperature")},
    **{("bellows", key): _OF_THE_LINE for key in ("axial", "lateral", "angular", "cycles")},
    ("bellows", "name"): "the bellows has the take-up's name; leave this key out",
}

OPEN_LISTS = ("lines", "route", "cycles", "expansion", "modulus")  # as long as their writer likes; others are counted
MIN_ITEM_PATH = 3  # the list, the number of its item, the key
_TAGS = frozenset({*ROUTE_MODELS, *TAKEUP_MODELS, "no insulation", "insulated"})


class FaultBook:
    """Collects the faults of one file."""

    def __init__(self, placed: PlacedTree) -> None:
        self._placed = placed
        self._faults = list(placed.faults)
        self._noted = set(placed.faults)
        self._whole: StudyItem | None = None
        for path, why in placed.unsound.items():
            self._add(path, why)

    def add(self, path: Path, message: str, *, at_key: bool = False) -> None:
        """Note a fault at the value of `path`, or at its key; a text that is unsound as such is judged no further."""
        if path not in self._placed.unsound:
            self._add(path, message, at_key=at_key)

    def _add(self, path: Path, message: str, *, at_key: bool = False) -> None:
        place = self._placed.place(path) if at_key else self._placed.value_place(path)
        where = whereabouts(path, self._placed.tree)
        sentence = " ".join((f"{where}: {message}" if where else message).splitlines())  # a fault stands on one line
        fault = Fault(file=self._placed.file, line=place.line, column=place.column, message=sentence)
        if fault not in self._noted:  # two lines may find the same thing wrong with what both rest on
            self._noted.add(fault)
            self._faults.append(fault)

    def need(self, path: Path) -> None:
        """Note that a key is missing which some other key could have stood for; nothing where its mapping is none."""
        if isinstance(at(self._placed.tree, path[:-1]), dict) and not self.has(path):
            self._missing(path)

    def _missing(self, path: Path) -> None:
        self.add(path[:-1], f"the key '{path[-1]}' is required: {_meaning(path, self._placed.tree)}", at_key=True)

    def attempt(self, path: Path, make: Callable[[], Value]) -> Value | None:
        """Return what `make` makes, or note why it cannot be made and return None."""
        try:
            return make()
        except (TakeupError, ValueError) as error:
            self.add(path, str(error))
            return None

    def check_form(self) -> None:
        """Note every fault of form in the whole file."""
        try:
            self._whole = StudyItem.model_validate(self._placed.tree)
        except ValidationError as error:
            found = error.errors(include_url=False)
            refused = {path[:-1] for path in map(self._path, found) if _refusal(path)}
            for details in found:
                path = self._path(details)
                if path[:-1] not in refused or details["type"] not in {"missing", "extra_forbidden"} or _refusal(path):
                    self._note(details, path)

    def sound(self, model: type[Model], path: Path) -> Model | None:
        """Return the part of the file at `path`, or None where its form is unsound, which `check_form` has noted.

        A file without a fault of form has been validated once as a whole, and its parts are taken from there.
        """
        if self._whole is not None:
            found = _part(self._whole, path)
            return found if isinstance(found, model) else None
        try:
            return model.model_validate(at(self._placed.tree, path))
        except ValidationError:
            return None

    def route_model(self, path: Path) -> type[Item]:
        """Return which model an item of a route has."""
        return ROUTE_MODELS[route_item(at(self._placed.tree, path))]

    def takeup_model(self, path: Path) -> type[Item]:
        """Return which model a take-up has."""
        return TAKEUP_MODELS[takeup_item(at(self._placed.tree, path))]

    @property
    def folder(self) -> Folder:
        """Where the file is, beside which its series are."""
        return Folder(self._placed.file).parent

    def size(self, path: Path) -> int:
        """Return how many items the list at `path` has; none where there is no list."""
        found = at(self._placed.tree, path)
        return len(found) if isinstance(found, list) else 0

    def has(self, path: Path) -> bool:
        """Whether the file says anything at `path`."""
        return at(self._placed.tree, path) is not None

    def words(self, path: Path) -> str:
        """Return what was typed at `path`, or nothing where no text stands."""
        found = at(self._placed.tree, path)
        return found.strip() if isinstance(found, str) else ""

    def line_of(self, path: Path) -> int:
        """Return the line of the file on which the value at `path` stands."""
        return self._placed.value_place(path).line

    def raise_faults(self) -> None:
        """Raise InputError when there are faults."""
        if self._faults:
            raise InputError(tuple(self._faults))

    def _path(self, details: ErrorDetails) -> Path:
        return _file_path(details["loc"], self._placed.tree)

    def _note(self, details: ErrorDetails, path: Path) -> None:
        kind = details["type"]
        if kind == "missing":
            self._missing(path)
        elif kind == "extra_forbidden":
            self.add(path, self._unknown_key(path), at_key=True)
        elif kind in ("too_short", "too_long"):
            self._note_length(path, details)
        elif kind == "value_error":
            self.add(path, str(details["ctx"]["error"]))
        else:
            expected = "a list" if kind == "list_type" else "a mapping of keys and values"
            self.add(path, f"found {_found(details['input'])}, expected {expected}")

    def _note_length(self, path: Path, details: ErrorDetails) -> None:
        found = self.size(path)
        least = details["ctx"].get("min_length") or details["ctx"].get("max_length")
        exactly = "at least" if path[-1] in OPEN_LISTS else "exactly"
        self.add(path, f"the list has {found} item{'s' if found != 1 else ''}, expected {exactly} {least}")

    def _unknown_key(self, path: Path) -> str:
        key = str(path[-1])
        refusal = _refusal(path)
        if refusal:
            return refusal
        if at(self._placed.tree, path) == "" and " " in key:
            advice = "the decimal mark is a point" if key[0].isdigit() else "put the sentence in quotation marks"
            return f"'{key}' is read as a key without a value, because a comma ends an entry between braces; {advice}"
        keys = keys_of(model_at(path[:-1], self._placed.tree))
        others = ITEM_KEYS if path[-3:-2] == ("route",) else ()
        return f"unknown key '{key}'; the keys here are {', '.join(keys)}{nearest(key, (*keys, *others))}"


def _part(whole: StudyItem, path: Path) -> object:
    """Return what stands at a path of the validated file; None where nothing does."""
    found: object = whole
    for key in path:
        if isinstance(found, list) and isinstance(key, int):
            found = found[key] if key < len(found) else None
        elif isinstance(found, BaseModel) and isinstance(key, str):
            found = getattr(found, field_name(type(found), key), None)
        else:
            return None
    return found


def _refusal(path: Path) -> str:
    """Return why a key that other versions or places may know is refused, or nothing."""
    if len(path) < MIN_ITEM_PATH:
        return ""
    section = path[-3] if isinstance(path[-2], int) else path[-2]
    return REFUSED_KEYS.get((str(section), str(path[-1])), "")


def _file_path(loc: tuple[str | int, ...], tree: Tree) -> Path:
    """Return pydantic's path without the tags of its unions, which are no keys of the file."""
    path: Path = ()
    for index, part in enumerate(loc):
        last = index == len(loc) - 1
        if at(tree, (*path, part)) is not None or (last and part not in _TAGS):
            path = (*path, part)
    return path


def _found(value: object) -> str:
    if isinstance(value, list):
        return "a list"
    if isinstance(value, dict):
        return "a mapping"
    return f"'{value}'" if value else "nothing"


def _meaning(path: Path, tree: Tree) -> str:
    """Return what a missing key is for and what is expected there, from the model's own words."""
    for name, info in model_at(path[:-1], tree).model_fields.items():
        if path[-1] in (info.alias, name):
            one, *others = [part for part in get_args(info.annotation) if part is not NoneType] or [None]
            inner = () if others else get_args(one)  # of a value or nothing; several kinds of value have no one word
            about = [marker.about for marker in (*info.metadata, *inner) if isinstance(marker, Reads)]
            meaning = (info.description or "").partition("; required where")[0]
            return "; expected ".join([meaning, *about])
    return ""
