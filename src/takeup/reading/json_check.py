"""A JSON document held against its schema, each fault with its line and column.     (reading/json_check.py)

Only the words of JSON Schema 2020-12 that our own schemas use are understood; another word is our own fault, and a
test holds the set. Places are looked for only where there is a fault, so that a sound document is read quickly.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator, Mapping, Sequence
from json.decoder import JSONDecodeError, JSONDecoder
from typing import NoReturn

from takeup.errors import Fault, InputError
from takeup.reading.faultlist import FaultList
from takeup.reading.yaml_places import shown

Path = tuple[str | int, ...]
Departure = tuple[Path, str]
Schema = Mapping[str, object]
KNOWN = frozenset(
    {
        "$defs", "$ref", "$schema", "additionalProperties", "anyOf", "const", "description", "enum", "items",
        "maxItems", "minItems", "minimum", "pattern", "properties", "required", "title", "type",
    }
)  # fmt: skip
"""The words of a schema that are understood; `description`, `title` and `$schema` ask nothing."""
_TYPES: Mapping[str, tuple[type, ...]] = {
    "object": (dict,), "array": (list,), "string": (str,), "number": (int, float), "integer": (int,),
    "boolean": (bool,), "null": (type(None),),
}  # fmt: skip
_WHITE = re.compile(r"[ \t\n\r]*")
_ARTICLES = {"object": "an object", "array": "a list", "string": "a text", "integer": "a whole number"}


def read_checked(text: str, file: str, schema: Schema) -> dict[str, object]:
    """Return a JSON document that fits its schema; raise its faults, with their places, where it does not.

    Args:
        text: of the document.
        file: what faults call it.
        schema: an object's, with its `$defs`.
    """
    try:
        document = json.loads(text, parse_constant=_refuse)
    except JSONDecodeError as error:
        fault = Fault(file=file, line=error.lineno, column=error.colno, message=f"not JSON: {error.msg}")
        raise InputError((fault,)) from None
    except (ValueError, RecursionError) as error:
        raise InputError((Fault(file=file, line=1, column=1, message=f"not JSON: {error}"),)) from None
    faults = FaultList(file)
    found = list(departures(document, schema, schema))
    faults.add_rows(range(len(found)), lambda row: place_of(text, found[row][0]), lambda row: _told(*found[row]))
    faults.raise_faults()
    assert isinstance(document, dict), "the schema is an object's"
    return document


def _told(path: Path, message: str) -> str:
    return f"{_path_words(path)}: {message}" if path else message


def _refuse(name: str) -> NoReturn:
    raise ValueError(f"{name} is no number")


def departures(value: object, schema: Schema, whole: Schema, path: Path = ()) -> Iterator[Departure]:
    """Yield where a value departs from its schema, and how.

    Args:
        value: of the document.
        schema: of the value.
        whole: the schema of the document, which holds the `$defs`.
        path: of the value.
    """
    reference = schema.get("$ref")
    if reference is not None:
        schema = _referred(str(reference), whole)
    strange = schema.keys() - KNOWN
    assert not strange, f"no word of a schema that is understood: {strange}"
    choices = schema.get("anyOf")
    if isinstance(choices, Sequence):
        yield from _of_choices(value, [one for one in choices if isinstance(one, Mapping)], whole, path)
    wrong = _wrong(value, schema)
    if wrong:
        yield path, wrong
    elif isinstance(value, dict):
        yield from _of_object(value, schema, whole, path)
    elif isinstance(value, list):
        yield from _of_list(value, schema, whole, path)


def _referred(reference: str, whole: Schema) -> Schema:
    found: object = whole
    for name in reference.removeprefix("#/").split("/"):
        assert isinstance(found, Mapping), "a reference leads through objects"
        found = found[name]
    assert isinstance(found, Mapping), "a schema is an object"
    return found


def _wrong(value: object, schema: Schema) -> str:
    """Return what is wrong with a value itself, "" where nothing is."""
    wanted = schema.get("type")
    names = [str(one) for one in wanted] if isinstance(wanted, list) else [str(wanted)] if wanted else []
    if names and not any(_is(value, name) for name in names):
        return f"{_shown(value)} is not {' or '.join(_ARTICLES.get(name, name) for name in names)}"
    if "const" in schema and value != schema["const"]:
        return f"{_shown(value)} is not {_shown(schema['const'])}"
    among = schema.get("enum")
    if isinstance(among, list) and value not in among:
        return f"{_shown(value)} is none of {', '.join(map(_shown, among))}"
    pattern, least = schema.get("pattern"), schema.get("minimum")
    if isinstance(value, str) and isinstance(pattern, str) and not re.search(pattern, value):
        return f"{_shown(value)} has not the form {pattern}"
    if isinstance(value, (int, float)) and isinstance(least, (int, float)) and value < least:
        return f"{_shown(value)} is below {least:g}"
    return ""


def _is(value: object, name: str) -> bool:
    if isinstance(value, float) and not math.isfinite(value):
        return False  # a number with too great an exponent
    return isinstance(value, _TYPES[name]) and (name == "boolean" or not isinstance(value, bool))


def _of_choices(value: object, choices: Sequence[Schema], whole: Schema, path: Path) -> Iterator[Departure]:
    """Yield what the nearest of several schemas says: one whose type the value has, else the first."""
    found = [list(departures(value, one, whole, path)) for one in choices]
    if all(found):
        yield from min(found, key=lambda faults: min(len(where) == len(path) for where, _ in faults))


def _of_object(value: dict[str, object], schema: Schema, whole: Schema, path: Path) -> Iterator[Departure]:
    required, properties = schema.get("required", ()), schema.get("properties", {})
    assert isinstance(required, Sequence), "a list of names"
    assert isinstance(properties, Mapping), "schemas by name"
    for name in required:
        if name not in value:
            yield path, f"'{name}' is missing"
    others = schema.get("additionalProperties", True)
    for name, item in value.items():
        if name in properties:
            yield from departures(item, properties[name], whole, (*path, name))
        elif isinstance(others, Mapping):
            yield from departures(item, others, whole, (*path, name))
        elif others is False:
            yield (*path, name), "is not known"


def _of_list(value: list[object], schema: Schema, whole: Schema, path: Path) -> Iterator[Departure]:
    least, most, items = schema.get("minItems", 0), schema.get("maxItems"), schema.get("items")
    assert isinstance(least, int), "a count"
    if len(value) < least or (isinstance(most, int) and len(value) > most):
        bound = f"{least} at least" if len(value) < least else f"{most} at most"
        yield path, f"{len(value)} in the list, {bound} wanted"
    if isinstance(items, Mapping):
        for number, item in enumerate(value):
            yield from departures(item, items, whole, (*path, number))


def place_of(text: str, path: Path) -> tuple[int, int]:
    """Return line and column, from one, of what a path leads to: of a member's name, or of an item of a list.

    Args:
        text: of a JSON document.
        path: of names and numbers, which the document has.
    """
    value = place = _past_white(text, 0)
    for step in path:
        place, value = next(found for found in _parts(text, value) if found[0] == step)[1:]
    line = text.count("\n", 0, place) + 1
    return line, place - text.rfind("\n", 0, place)


def _parts(text: str, start: int) -> Iterator[tuple[str | int, int, int]]:
    """Yield name or number, place, and place of the value of all parts of an object or a list that begins there."""
    read = JSONDecoder().raw_decode
    named, at, number = text[start] == "{", _past_white(text, start + 1), 0
    while text[at] not in "}]":
        place, step = at, number
        if named:
            step, at = read(text, at)
            at = _past_white(text, _past_white(text, at) + 1)  # behind the colon
        yield step, place, at
        at = _past_white(text, read(text, at)[1])
        at = _past_white(text, at + 1) if text[at] == "," else at
        number += 1


def _past_white(text: str, at: int) -> int:
    found = _WHITE.match(text, at)
    assert found, "none is enough"
    return found.end()


def _path_words(path: Path) -> str:
    """Return a path as `holds[3].loads[0].force_n`."""
    words = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in path)
    return shown(words.removeprefix("."))


def _shown(value: object) -> str:
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, list):
        return "a list"
    return shown(json.dumps(value, ensure_ascii=False))


__all__ = ["KNOWN", "departures", "place_of", "read_checked"]
