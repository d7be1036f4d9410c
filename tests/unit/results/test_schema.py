"""results.json is what its schema says: four lines fit, and a document with a key too many or too few does not."""

from __future__ import annotations

import copy
import json
import re
from pathlib import Path

import jsonschema
import pytest

import takeup.results
from takeup.choose import resolve
from takeup.line.reader import study_from_text
from takeup.line.template import template
from takeup.results import results_of, write_results

ROOT = Path(__file__).parents[3]
SCHEMA = json.loads((Path(takeup.results.__file__).parent / "results.schema.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)
NOT_HELD = re.sub(r"(?m)^    holds:\n(      .*\n)*", "", template("si").partition("    takeups:\n")[0])
NOT_HELD = re.sub(r"as: main anchor, can_carry: [^ ]+ kN", "as: free", NOT_HELD)
LINES = {
    "demonstration": (ROOT / "examples" / "ketterby-steam-main.yaml").read_text(encoding="utf-8"),
    "template": template("si"),
    "no joint, US units": template("us").partition("    takeups:\n")[0],
    "not held": NOT_HELD,
}
OUTLINES = (
    "",
    "verdict",
    "lines/0",
    "lines/0/legs/0",
    "states/0",
    "states/0/zones/0",
    "holds/0",
    "takeups/0",
    "checks/0",
)


def results(text: str, folder: Path) -> dict[str, object]:
    """Return the results of a line, read back from the file that was written."""
    write_results(results_of(resolve(study_from_text(text, "x"))), folder / "results.json")
    return json.loads((folder / "results.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def small(tmp_path_factory):
    return results(LINES["template"], tmp_path_factory.mktemp("small"))


def test_line_that_is_not_held_has_no_loads(tmp_path):
    """What the fourth line is there for: a document without an answer."""
    document = results(NOT_HELD, tmp_path)
    assert (document["solver"]["solved"], document["holds"], document["verdict"]["outcome"]) == (False, [], "fails")


def part(document, path):
    """Return the part of a document at a path such as `holds/0`."""
    for key in path.split("/") if path else ():
        document = document[int(key) if key.isdigit() else key]
    return document


def test_schema_is_one():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("name", LINES)
def test_results_fit(name, tmp_path):
    VALIDATOR.validate(results(LINES[name], tmp_path))


@pytest.mark.parametrize("path", OUTLINES)
def test_key_too_many_is_refused(small, path):
    document = copy.deepcopy(small)
    part(document, path)["colour"] = "red"
    assert [error.message for error in VALIDATOR.iter_errors(document)]


@pytest.mark.parametrize("path", OUTLINES)
def test_key_too_few_is_refused(small, path):
    document = copy.deepcopy(small)
    where = part(document, path)
    del where[next(iter(where))]
    assert [error.message for error in VALIDATOR.iter_errors(document)]


@pytest.mark.parametrize("name", ["", *SCHEMA["$defs"]])
def test_object_lists_its_keys(name):
    """Every object is closed, asks for all its keys and says what each means; so is the whole document (`""`)."""
    described = SCHEMA["$defs"][name] if name else SCHEMA
    assert described["additionalProperties"] is False
    assert described["required"] == list(described["properties"])
    assert all(key["description"] for key in described["properties"].values())


def test_number_with_a_unit_ends_in_it():
    """Names that carry a pressure, length, force or temperature end in its unit; ratios and counts have none."""
    bare = {"friction_low", "friction_high", "demand", "capacity", "use", "value", "model", "condition", "rated_cycles"}
    bare |= {"flexibility_factor", "intensification_factor", "equilibrium_residual"}
    ends = ("_m", "_mm", "_mm2", "_n", "_nm", "_c", "_bar", "_deg", "_per_mm", "_per_deg", "_per_m3", "_percent")
    for described in [SCHEMA, *SCHEMA["$defs"].values()]:
        for key, kind in described["properties"].items():
            if kind.get("type") in ("number", ["number", "null"]):
                assert key.endswith(ends) or key in bare, key
