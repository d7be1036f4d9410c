"""The published JSON Schema and the reference page are what the models say, and the example uses every key."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

import takeup.line.reading
from takeup.line.reading.reader import study_from_text
from takeup.line.reading.reference import json_schema, reference_page
from takeup.line.reading.schema import MODELS, keys_of
from takeup.line.reading.template import template
from takeup.reading.yaml_places import read_places

ROOT = Path(__file__).parents[4]
SCHEMA = Path(takeup.line.reading.__file__).parent / "line-file.schema.json"
PAGE = ROOT / "docs" / "reference" / "line-file.md"
EXAMPLE = (ROOT / "docs" / "reference" / "line-file-example.yaml").read_text(encoding="utf-8")
ADVICE = "run tools/line_reference.py and look at the difference"


def test_json_schema_is_current():
    assert SCHEMA.read_text(encoding="utf-8") == json_schema(), ADVICE


def test_reference_page_is_current():
    assert PAGE.read_text(encoding="utf-8") == reference_page(EXAMPLE), ADVICE


def test_example_uses_every_key():
    study_from_text(EXAMPLE, "example")
    used = {str(path[-1]) for path in read_places(EXAMPLE, "example").keys}
    known = {key for model in MODELS.values() for key in keys_of(model)}
    assert known == used & known


@pytest.mark.parametrize("text", [EXAMPLE, template("si"), template("us")], ids=["example", "si", "us"])
def test_valid_files_fit_the_json_schema(text):
    jsonschema.Draft202012Validator(json.loads(json_schema())).validate(read_places(text, "x").tree)


def test_json_schema_refuses_an_unknown_key():
    tree = read_places(EXAMPLE.replace("project:", "projct:"), "x").tree
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft202012Validator(json.loads(json_schema())).validate(tree)
