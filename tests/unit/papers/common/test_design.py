"""The force that a hold is designed for: one row of the checks, or the greater of envelope and guide's load."""

from __future__ import annotations

import pytest
from tests.unit.drawing.results_fixture import check, corner
from tests.unit.papers.calculation.walk_fixture import with_walk

from takeup.edge import SI
from takeup.papers.calculation.calculation import contents_of
from takeup.papers.calculation.walk import walk_section
from takeup.papers.common.design import design_of, greatest_design


def cells(spec):
    """The words of a table's rows."""
    return [[cell["words"] for cell in row["cells"]] for row in spec["rows"]]


@pytest.fixture
def document():
    """The L with a walk and without checks; its first guide is to be made for ten times its envelope's force."""
    made = with_walk(corner())
    made["checks"] = []
    guide = guide_of(made)
    made["guides"] = [
        {"line": guide["line"], "name": guide["name"], "design_n": 10.0 * guide["envelope"]["design_force_n"],
         "computed_n": 1.0, "fifteen_percent_n": None, "state": "in the test", "because": ""}
    ]  # fmt: skip
    return made


def guide_of(document):
    """The first hold that is no anchor."""
    return next(hold for hold in document["holds"] if "anchor" not in hold["kind"])


def judged(rule, hold, use, demand, outcome):
    """One row of the checks at a hold."""
    return {**check(rule, rule, hold["name"], use, outcome), "demand": demand, "state": f"state of {rule}"}


def test_guide_shows_the_load_to_make_it_for_where_that_is_greater(document):
    guide = guide_of(document)
    design = greatest_design(document, guide)
    assert design.force == 10.0 * guide["envelope"]["design_force_n"]
    assert design.where == ("in the test", "load to make it for, section 7")
    document["guides"][0]["design_n"] = 0.5 * guide["envelope"]["design_force_n"]
    assert greatest_design(document, guide).where == guide["envelope"]["design_state"]


def test_guide_of_the_same_name_on_another_line_is_another(document):
    document["guides"][0]["line"] = "elsewhere"
    guide = guide_of(document)
    assert greatest_design(document, guide).force == guide["envelope"]["design_force_n"]


def test_page_one_and_the_walk_show_the_same_design_force(document):
    """Both in kN with as many decimals."""
    name = guide_of(document)["name"]
    (front,) = [row for row in cells(contents_of(document)["front"]["guides"]) if row[0] == name]
    (walk,) = [row for row in cells(walk_section(document, SI)["loads"]["guides"]) if row[0] == name]
    assert front[2] == walk[4]
    assert float(front[2]) == pytest.approx(document["guides"][0]["design_n"] / 1e3, abs=0.005)  # two decimals of kN


def test_use_stands_beside_the_demand_that_it_was_made_from(document):
    """2.89 of 3.5 kN is 0.83, 4.27 of 3.5 kN 1.22 (by hand): the row with 1.22 shows 4.27 kN and its state."""
    hold = guide_of(document)
    document["checks"] = [
        judged("hold_capacity", hold, 0.83, 2_890.0, "passes"),
        judged("guide_design_load", hold, 1.22, 4_270.0, "fails"),
    ]
    design = design_of(document, hold)
    assert (design.force, design.state, design.use) == (4_270.0, "state of guide_design_load", 1.22)
    (row,) = [row for row in cells(contents_of(document)["front"]["guides"]) if row[0] == hold["name"]]
    assert row[2:] == ["4.27", "state of guide_design_load", "1.22", "fails"]


def test_another_check_that_asks_more_is_named_and_lends_no_use(document):
    hold = document["holds"][0]
    document["checks"] = [
        judged("hold_capacity", hold, 0.83, 2_890.0, "passes"),
        judged("hold_moment", hold, 1.4, 7_000.0, "fails"),
    ]
    (row,) = [
        row for row in contents_of(document)["front"]["anchors"]["rows"] if row["cells"][0]["words"] == hold["name"]
    ]
    assert [cell["words"] for cell in row["cells"]][2:] == ["2.89", "state of hold_capacity", "0.83", "fails"]
    assert row["cells"][5]["more"] == "hold_moment: use 1.40"


def test_no_use_is_shown_where_no_force_is_judged(document):
    hold = document["holds"][0]
    document["checks"] = [judged("hold_moment", hold, 0.4, 2_000.0, "passes")]
    design = design_of(document, hold)
    assert (design.force, design.use) == (hold["envelope"]["design_force_n"], None)
