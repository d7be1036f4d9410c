"""A document held against its schema; jsonschema is the oracle.     (tests/unit/reading/test_json_check.py)"""

from __future__ import annotations

import copy
import json

import jsonschema
import pytest

from takeup.errors import InputError
from takeup.reading.json_check import departures, place_of, read_checked

SCHEMA = {
    "type": "object",
    "properties": {
        "name": {"type": "string", "pattern": "^[a-z]+$"},
        "rows": {"type": "array", "items": {"$ref": "#/$defs/row"}, "minItems": 1, "maxItems": 2},
        "note": {"anyOf": [{"$ref": "#/$defs/row"}, {"type": "null"}]},
        "uses": {"type": "object", "additionalProperties": {"type": "number"}},
        "sort": {"enum": ["a", "b"]},
        "one": {"const": 1},
    },
    "required": ["name", "rows"],
    "additionalProperties": False,
    "$defs": {
        "row": {
            "type": "object",
            "properties": {"value": {"type": ["number", "null"], "minimum": 0}, "yes": {"type": "boolean"}},
            "required": ["value"],
            "additionalProperties": False,
        }
    },
}
SOUND = {
    "name": "abc", "rows": [{"value": 1.5, "yes": True}, {"value": None}], "note": None, "uses": {"x": 2}, "sort": "a",
    "one": 1,
}  # fmt: skip
CHANGES = [
    (("name",), 5, "name: 5 is not a text"),
    (("name",), "A", "has not the form"),
    (("rows",), [], "0 in the list, 1 at least wanted"),
    (("rows",), [{"value": 1}] * 3, "3 in the list, 2 at most wanted"),
    (("rows", 1, "value"), -1, "rows[1].value: -1 is below 0"),
    (("rows", 1, "value"), True, "rows[1].value: true is not number or null"),
    (("rows", 0, "yes"), 1, "rows[0].yes: 1 is not boolean"),
    (("rows", 0), {}, "rows[0]: 'value' is missing"),
    (("rows", 0, "other"), 1, "rows[0].other: is not known"),
    (("note",), {"value": "x"}, 'note.value: "x" is not number or null'),
    (("uses", "x"), "y", "uses.x:"),
    (("sort",), "c", '"c" is none of "a", "b"'),
    (("one",), 2, "2 is not 1"),
]


def changed(path, value):
    """The sound document with one thing in it changed."""
    document = copy.deepcopy(SOUND)
    inner = document
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = value
    return document


def test_sound_document_is_returned():
    assert read_checked(json.dumps(SOUND), "x.json", SCHEMA) == SOUND


@pytest.mark.parametrize(("path", "value", "words"), CHANGES)
def test_departure_is_told_with_its_place(path, value, words):
    document = changed(path, value)
    assert not jsonschema.Draft202012Validator(SCHEMA).is_valid(document)  # the oracle refuses it too
    with pytest.raises(InputError, match=r"^x\.json:\d+:\d+: ") as caught:
        read_checked(json.dumps(document, indent=1), "x.json", SCHEMA)
    assert words in str(caught.value)


def test_every_fault_is_told_at_once():
    document = changed(("name",), 5) | {"sort": "c"}
    assert len(list(departures(document, SCHEMA, SCHEMA))) == 2


def test_place_is_that_of_the_name_or_of_the_item():
    """Counted by hand: `"b"` begins in column 3 of line 3, the second item in column 10 of that line."""
    text = '{"a": 1,\n\n  "b": [1, {"c": "}"} ]}'
    assert place_of(text, ("b",)) == (3, 3)
    assert place_of(text, ("b", 1)) == (3, 12)
    assert place_of(text, ("b", 1, "c")) == (3, 13)
    assert place_of(text, ()) == (1, 1)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('{"a": 1,\n }', "x.json:2:2: not JSON"),
        ('{"name": NaN}', "NaN is no number"),
        ("[" * 100_000, "not JSON"),
        ("[]", "a list is not an object"),
        ('{"name": "a", "rows": [{"value": 1e999}]}', "is not number or null"),
    ],
)
def test_what_is_no_document_is_refused(text, words):
    with pytest.raises(InputError) as caught:
        read_checked(text, "x.json", SCHEMA)
    assert words in str(caught.value)


def test_unknown_word_of_a_schema_is_our_own_fault():
    with pytest.raises(AssertionError):
        list(departures(1, {"maximum": 2}, {}))
