"""results.json is what its schema says: lines and a system fit; with a key too many or too few they do not."""

from __future__ import annotations

import copy
import json
import re
from functools import cache
from pathlib import Path

import jsonschema
import pytest
from tests.example_studies import results as results_of_example
from tests.unit.drawing.system_fixture import SYSTEM, system
from tests.unit.results.hardware_lines import BALANCED, HINGED
from tests.unit.results.walk_lines import LIFTS, RUNS_OUT

import takeup.results
from takeup.choose import resolve
from takeup.line.reading.reader import study_from_text
from takeup.line.reading.template import template
from takeup.results import results_of, write_results
from takeup.results.plain import Json

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
    "three lines": SYSTEM,
    "limit rods": RUNS_OUT,
    "lifting": LIFTS,
    "hinged": HINGED,
    "balanced": BALANCED,
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
OUTLINES_OF_HARDWARE = ("takeups/0/hardware/0", "takeups/0/hardware_needed/0", "takeups/0/data/pins")
OUTLINES_OF_WHAT_IS_NOT_HELD = ("not_held/0", "not_held/0/shape/0")
OUTLINES_OF_A_WALK = (
    "holds/1/contact/0",
    "holds/0/scenarios/0",
    "holds/0/loads/0",
    "holds/0/loads/0/parts",
    "holds/0/envelope",
    "takeups/0/rods/0",
    "walk/0",
    "walk/0/zones/0",
    "events/0",
    "scenarios",
    "scenarios/whole/0",
    "scenarios/combinations/0",
)
OUTLINES_OF_A_SYSTEM = (
    "input/resolved/holds/0",
    "input/resolved/loads/0",
    "lines/0/items/0",
    "lines/0/pipes/0",
    "lines/0/pipes/0/insulation/cladding",
    "lines/0/ends/1/stiffness",
    "lines/1/branch",
    "lines/1/ends/1/growth",
    "lines/1/ends/1/nozzle",
    "zones/0/parts/1",
    "zones/0/conditions",
    "holds/0/giving/0",
)


@cache
def document_of(text: str) -> dict[str, Json]:
    """Return the results of a line; the long ones are those that other tests have."""
    if text == SYSTEM:
        return system()
    if text == LINES["demonstration"]:
        return results_of_example("ketterby-steam-main")
    return results_of(resolve(study_from_text(text, "x")))


def results(text: str, folder: Path) -> dict[str, object]:
    """Return the results of a line, read back from the file that was written."""
    write_results(document_of(text), folder / "results.json")
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


def test_system_says_what_its_schema_is_for(large):
    """What a single line has not: branches, valves, loads, zones over two lines, an end that continues."""
    assert [line["name"] for line in large["lines"]] == ["DS-1", "DS-2", "DS-3"]
    assert [None if line["branch"] is None else line["branch"]["of"] for line in large["lines"]] == [
        None, "DS-1", "DS-1",
    ]  # fmt: skip
    assert {hold["line"] for hold in large["holds"]} == {"DS-1", "DS-2", "DS-3"}
    assert any(len(zone["parts"]) == 2 for zone in large["zones"])
    assert [hold["name"] for hold in large["holds"] if hold["other_side"]] == ["old works boundary"]
    shut = next(state for state in large["states"] if state["name"] == "churn branch shut")
    assert (shut["valves"], shut["loads"]) == ([{"name": "churn valve", "position": "closed"}], ["gust"])


def test_schema_is_one():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("name", LINES)
def test_results_fit(name, tmp_path):
    VALIDATOR.validate(results(LINES[name], tmp_path))


@pytest.fixture(scope="module")
def large(tmp_path_factory):
    return results(SYSTEM, tmp_path_factory.mktemp("large"))


@pytest.fixture(scope="module")
def rods(tmp_path_factory):
    return results(RUNS_OUT, tmp_path_factory.mktemp("rods"))


@pytest.fixture(scope="module")
def loose(tmp_path_factory):
    return results(NOT_HELD, tmp_path_factory.mktemp("loose"))


@pytest.fixture(scope="module")
def pinned(tmp_path_factory):
    return results(HINGED, tmp_path_factory.mktemp("pinned"))


OUTLINED = {
    "small": OUTLINES,
    "large": OUTLINES_OF_A_SYSTEM,
    "rods": OUTLINES_OF_A_WALK,
    "loose": OUTLINES_OF_WHAT_IS_NOT_HELD,
    "pinned": OUTLINES_OF_HARDWARE,
}


def thinned(value):
    """Return a copy with two records of each list of records: the schema says the same of all of them."""
    if isinstance(value, dict):
        return {key: thinned(one) for key, one in value.items()}
    if isinstance(value, list):
        return [thinned(one) for one in (value[:2] if value and isinstance(value[0], dict) else value)]
    return value


@pytest.fixture(scope="module")
def thin(request):
    """Short documents of each sort, which fit."""
    documents = {name: thinned(request.getfixturevalue(name)) for name in OUTLINED}
    for document in documents.values():
        VALIDATOR.validate(document)
    return documents


@pytest.fixture(params=[(name, path) for name, paths in OUTLINED.items() for path in paths], ids=" ".join)
def outlined(request, thin):
    """A document, and the path of an object in it."""
    name, path = request.param
    return copy.deepcopy(thin[name]), path


def test_key_too_many_is_refused(outlined):
    document, path = outlined
    part(document, path)["colour"] = "red"
    assert [error.message for error in VALIDATOR.iter_errors(document)]


def test_key_too_few_is_refused(outlined):
    document, path = outlined
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
    bare |= {"stiffer", "limit", "factor", "required", "energy_share", "movement", "searched", "rate_scatter"}
    bare |= {"amplification", "all_open_factor", "fraction", "error", "residual", "count", "given"}
    bare |= {"convolutions", "plies", "total", "each", "cost", "index", "factor", "fitting", "labour", "weld"}
    bare |= {"anchors", "guides"}  # factors on loads
    bare |= {"flexibility_factor", "intensification_factor", "equilibrium_residual", "amplification", "all_open_factor"}
    ends = (
        "_m",
        "_mm",
        "_mm2",
        "_n",
        "_nm",
        "_c",
        "_bar",
        "_deg",
        "_per_mm",
        "_per_deg",
        "_per_m3",
        "_per_k",
        "_k",
        "_s",
        "_mpa",
        "_percent",
        "_ppm",
    )
    for described in [SCHEMA, *SCHEMA["$defs"].values()]:
        for key, kind in described["properties"].items():
            if kind.get("type") in ("number", ["number", "null"]):
                assert key.endswith(ends) or key in bare, key
