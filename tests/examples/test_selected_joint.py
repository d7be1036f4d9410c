"""The example whose joints come from a series: chosen as its header says, and told on every paper.

The series is the demonstration series, which is nobody's. What is pinned of it: 564 joints, six of them pressed from
outside for DN 150; of these the 6 bar pair is not rated for 10 bar, and prices rise with movement and pressure.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from pathlib import Path
from typing import Any  # the results are JSON: their values are what the schema says

import jsonschema
import pytest
from tests.example_studies import EXAMPLES
from tests.example_studies import results as results_of_example

import takeup.results
from takeup.choose.selection.asked import selection_for_duty
from takeup.edge import SI
from takeup.joints.tables import DEMONSTRATION, load_table
from takeup.papers import summary_lines
from takeup.papers.calculation.series_inputs import series_tables

EXAMPLE = "lennox-quay-selected-joint"
SCHEMA = json.loads((Path(takeup.results.__file__).parent / "results.schema.json").read_text(encoding="utf-8"))
FIRST, CHEAPER, NAMED = (
    "pressed from outside DN 150, 12 bar, 80 mm",
    "pressed from outside DN 150, 12 bar, 50 mm",
    "axial DN 150, 12 bar, 40 mm",
)


def results() -> Any:
    return results_of_example(EXAMPLE)


def test_the_example_holds():
    """Close, not passes: cycles asked are the cycles its ratings were taken over, and the rules' spans are full."""
    assert results()["verdict"]["outcome"] == "close"
    assert not [check for check in results()["checks"] if check["outcome"] in ("fails", "not covered")]


def test_the_results_say_what_was_chosen_from_what():
    """Both 80 mm joints for 12 and 20 bar fit, the dearer one behind; of the cheaper 50 mm too little is left.

    By hand: 50 mm kept to 0.828 is 41.4 mm, and the part of 25.3 m asks for 41.8 mm.
    """
    selected, named = (joint["chosen"] for joint in results()["takeups"])
    assert (selected["joint"], selected["by"], selected["considered"]) == (FIRST, "price", 564)
    assert (selected["fitting"], selected["tried"]) == (2, 1)
    [refused] = selected["refused"]
    assert refused["joint"] == CHEAPER
    assert refused["because"].startswith("movement: in design pressure and temperature axial -41.8 mm of 41.4, lateral")
    assert (named["joint"], named["by"], named["considered"]) == (NAMED, "name", 564)
    assert (named["fitting"], named["tried"], named["refused"]) == (0, 0, [])
    for joint in (selected, named):
        assert re.fullmatch(
            r"movements kept to 0\.8\d\d of the rated ones, by geometry: .*, over 1500 cycles; rated for 1000",
            joint["ratings"],
        )


def test_the_ratings_are_those_left_over_the_cycles():
    """J1 is rated 80 mm over 1000 cycles; over 1500 the study holds it to the share that the words say."""
    [joint, _] = results()["takeups"]
    share = float(re.findall(r"kept to ([\d.]+) of", joint["chosen"]["ratings"])[0])
    assert joint["data"]["axial_compression_mm"] == pytest.approx(80.0 * share, rel=0.001)  # the share has 3 decimals
    assert joint["provenance"].startswith(f"of a series: {FIRST}, {DEMONSTRATION}: ")


def test_the_series_stands_once_with_its_provenance():
    source = load_table(DEMONSTRATION, Path()).provenance
    [one] = results()["series"]
    assert (one["series"], one["file"], one["sha256"], one["dated"], one["whose"]) == (
        DEMONSTRATION, source.file, source.sha256, None, source.whose,
    )  # fmt: skip
    assert one["words"] == source.words


def test_the_inputs_show_the_joint_in_each_place():
    joints = results()["input"]["resolved"]["joints"]
    assert [(one["name"], one["series"], one["joint"], one["by"]) for one in joints] == [
        ("J1", DEMONSTRATION, FIRST, "price"),
        ("J2", DEMONSTRATION, NAMED, "name"),
    ]


def test_the_results_are_what_their_schema_says():
    assert not [error.message for error in jsonschema.Draft202012Validator(SCHEMA).iter_errors(results())]


def test_the_calculation_prints_series_joints_and_refusals():
    series, joints, refused = series_tables(results())
    [row] = series["rows"]
    words = [cell["words"] for cell in row["cells"]]
    assert words[0] == DEMONSTRATION
    assert words[3] == "not said"
    assert words[4] == results()["series"][0]["sha256"][:16]
    assert [row["cells"][0]["words"] for row in joints["rows"]] == ["J1", "J2"]
    assert joints["rows"][0]["cells"][1]["words"] == FIRST
    assert (
        joints["rows"][0]["cells"][3]["words"]
        == "first by price of 564; 2 fit by their data and movements, 1 study run"
    )
    assert joints["rows"][1]["cells"][3]["words"] == "named in the file, of 564"
    assert [row["cells"][1]["words"] for row in refused["rows"]] == [CHEAPER]


def test_the_summary_prints_them_too():
    lines = summary_lines(results(), SI)
    first = lines.index("Joints from a series:")
    said = " ".join(line.strip() for line in lines[first : lines.index("", first)])
    source = results()["series"][0]
    for words in (FIRST, f"not {CHEAPER}: movement:", NAMED, "named in the file, of 564", source["file"],
                  f"SHA-256 {source['sha256'][:16]}", "dated: not said", f"whose: {source['whose']}"):  # fmt: skip
        assert words in said
    assert " of -66.2 " in next(line for line in lines if line.startswith("  J1     externally"))  # 80 mm x 0.828


def test_a_line_with_typed_data_prints_no_series():
    plain = {**results(), "takeups": [{**joint, "chosen": None} for joint in results()["takeups"]], "series": []}
    assert series_tables(plain) == []
    assert "Joints from a series:" not in summary_lines(plain, SI)


def test_the_duty_has_what_fits_and_reasons_of_three_kinds():
    """DN 200 has 33 joints: of the others 6 bar is too little, or 500 mm, or the movement left of the rated."""
    asked, found = selection_for_duty(EXAMPLES / "duties" / "kiln-house.yaml", None)
    assert [found.table.names[row] for row in found.fits.tolist()] == [
        "axial DN 200, 12 bar, 40 mm",
        "axial DN 200, 20 bar, 40 mm",
        "pressed from outside DN 200, 20 bar, 50 mm",
        "pressed from outside DN 200, 12 bar, 50 mm",
    ]  # the list's own prices, rising
    size = found.table.numbers["size_dn"]
    fitting = set(found.fits.tolist())
    others = [row for row in range(len(found.table)) if size[row] == 200 and row not in fitting]
    reasons = Counter(found.because(row).partition(":")[0] for row in others)
    assert reasons == {"pressure": 9, "room": 8, "movement": 12}
    assert asked.file == "kiln-house.yaml"
