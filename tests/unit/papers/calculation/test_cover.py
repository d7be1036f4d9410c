"""Page one: conditions in a table, and of long tables what matters most.

(tests/unit/papers/calculation/test_cover.py)
"""

from __future__ import annotations

import copy

from tests.example_studies import results

from takeup.drawing.reading import use_at
from takeup.edge import SI, US
from takeup.papers.calculation.cover import MOST, conditions_table, foremost, of_all
from takeup.papers.calculation.front import front_page
from takeup.papers.words import texts

KETTERBY = "ketterby-steam-main"


def rows_of(tree: dict) -> list[list[str]]:
    return [[cell["words"] for cell in row["cells"]] for row in tree["rows"]]


def test_conditions_are_those_of_the_line_file():
    """12 bar(g) at 195 degC, 10 at 184.5, tested with water at 18 and 12 degC, full vacuum: examples/ketterby."""
    table = conditions_table(results(KETTERBY), SI)
    assert [column["head"] for column in table["columns"]] == [
        "Medium", "Design", "Operating", "Test", "Test with", "Vacuum",
    ]  # fmt: skip
    assert rows_of(table) == [
        ["steam", "12.00 bar(g), 195.0 °C", "10.00 bar(g), 184.5 °C", "18.00 bar(g), 12.0 °C", "water", "−1.01 bar(g)"]
    ]


def test_conditions_in_us_units():
    """12 bar / 0.0689476 bar per psi = 174.0; 195 degC is 383 degF."""
    assert rows_of(conditions_table(results(KETTERBY), US))[0][1] == "174.0 psig, 383.0 °F"


def test_zones_that_differ_have_rows_of_their_own():
    document = copy.deepcopy(results(KETTERBY))
    document["zones"][-1]["conditions"]["design"]["pressure_bar"] = 6.0
    rows = [[cell.replace("\u200b", "") for cell in row] for row in rows_of(conditions_table(document, SI))]
    assert [row[2] for row in rows] == ["12.00 bar(g), 195.0 °C", "6.00 bar(g), 195.0 °C"]
    assert rows[1][0] == document["zones"][-1]["name"]
    assert rows[0][0].count(";") == len(document["zones"]) - 2


def test_page_one_of_a_short_line_shows_every_anchor_and_joint():
    page = front_page(results(KETTERBY), SI)
    assert len(page["joints"]["rows"]) == len(results(KETTERBY)["takeups"]) < MOST
    assert "those most used" not in page["anchors"]["caption"] + page["joints"]["caption"]


def test_page_one_of_a_long_line_shows_what_is_most_used():
    """Twenty-four joints of which the last alone has a check that is past full: it stays, in its place."""
    document = copy.deepcopy(results(KETTERBY))
    joint = document["takeups"][0]
    document["takeups"] = [{**joint, "name": f"K{number}"} for number in range(24)]
    check = next(one for one in document["checks"] if one["where"] == joint["name"] and one["use"])
    document["checks"].append({**check, "where": "K23", "use": 1.5})
    assert use_at(document, "K23").value == 1.5
    table = front_page(document, SI)["joints"]
    names = [row[0] for row in rows_of(table)]
    assert names == [f"K{number}" for number in (*range(MOST - 1), 23)]
    assert table["caption"].endswith("asks most; those most used, 12 of 24: all in section 6")
    assert "12 von 24" in texts("de").said(table["caption"])


def test_rows_are_kept_in_their_order():
    assert foremost(list(range(40)), lambda number: (float(number % 20), 0.0)) == [
        *range(14, 20),
        *range(34, 40),
    ]
    assert of_all(3, 3, 5) == ""
