"""Load factors on paper: the lowest stands out, what says nothing says so, and the mode is drawn as it moves."""

from __future__ import annotations

import math

import pytest
from tests.unit.drawing.system_fixture import system

from takeup.drawing.mode_view import mode_sheet
from takeup.drawing.sheet import Polyline, Text
from takeup.edge import SI, US
from takeup.papers import summary_lines
from takeup.papers.calculation.stability import stability_section


def row(state, factor, *, line="DS-1", joint=None, required=4.0, because="", shape=(), pressure=None):
    """One state's row of results.json."""
    words = f"the bellows of {joint}" if joint else f"the run of {line}"
    mode = {"factor": factor, "required": required, "governed_by": words, "line": line, "joint": joint}
    modes = [] if factor is None else [{**mode, "station_m": 30.0, "energy_share": 1.0}]
    return {
        "state": state,
        "told": True,
        "because": because,
        "factor": factor,
        "required": None if factor is None else required,
        "governed_by": None if factor is None else words,
        "bowing_pressure_bar": pressure,
        "modes": modes,
        "bellows": [{"joint": "J1", "line": "DS-1", "factor": None if factor is None else factor / 2.0}],
        "shape": list(shape),
    }


def bowing(way):
    """The shape of a half wave of DS-1 from 10 m to 50 m along a way of the world; the other lines rest."""
    found = []
    for line in system()["lines"]:
        sizes = [
            math.sin(math.pi * (node["station_m"] - 10.0) / 40.0)
            if line["name"] == "DS-1" and 10.0 < node["station_m"] < 50.0
            else 0.0
            for node in line["nodes"]
        ]
        most = max(sizes) or 1.0
        found.append(
            {
                "line": line["name"],
                "station_m": [node["station_m"] for node in line["nodes"]],
                "at_m": [node["at_m"] for node in line["nodes"]],
                "movement": [[size / most * part for part in way] for size in sizes],
            }
        )
    return found


def document(way=(0.0, 1.0, 0.0)):
    """The system with three states: one with nothing compressed, the lowest in the middle."""
    rows = [
        row("installed", None, because="nothing is compressed"),
        row("under hydrostatic test", 17.8, shape=bowing(way), pressure=320.57),
        row("operating", 2500.0),
    ]
    return {**system(), "stability": rows, "checks": [asked("DS-1", "under hydrostatic test", 4.0, 17.8)]}


def asked(where, state, demand, capacity):
    """One row of the stability check."""
    numbers = {"demand": demand, "capacity": capacity, "use": demand / capacity, "unit": "load factor"}
    return {"rule": "stability", "where": where, "state": state, "outcome": "passes", **numbers}


def with_bellows_by_itself():
    """The three states, and under vacuum a bellows by itself at 7.82 with 5.9 asked: a use of 0.75 beside 0.22."""
    alone = row("cooling under vacuum", None, because="nothing is compressed")
    alone["bellows"] = [{"joint": "J3", "line": "DS-1", "factor": 7.82}]
    base = document()
    checks = [*base["checks"], asked("J3", "cooling under vacuum", 5.9, 7.82)]
    return {**base, "stability": [*base["stability"], alone], "checks": checks}


def cells(table):
    """The words of a table's rows."""
    return [[cell["words"] for cell in item["cells"]] for item in table["rows"]]


def test_lowest_factor_is_bold_and_what_is_not_compressed_says_so():
    section = stability_section(document(), SI)
    assert cells(section["table"])[0] == ["installed", "–", "–", "nothing is compressed", "–"]
    assert cells(section["table"])[1] == ["under hydrostatic test", "17.80", "4.00", "the run of DS-1", "30.00"]
    assert cells(section["table"])[2][1] == "over 1000"
    assert [item["strong"] for item in section["table"]["rows"]] == [False, True, False]


def beside(units):
    """The sentences beside the table, in one."""
    return " ".join(stability_section(document(), units)["beside"])


def test_bowing_pressure_stands_beside_in_either_system():
    """320.57 bar / 0.06894757 bar/psi = 4649.4 psi (by hand)."""
    assert "at 320.6 bar(g), all pressures raised alike" in beside(SI)
    assert "psig" in beside(US)
    assert "4 649 psig" in beside(US).replace("\N{NO-BREAK SPACE}", " ")


def test_bellows_by_itself_has_its_lowest_factor_of_all_states():
    """Half of 17.8, from the fixture."""
    assert cells(stability_section(document(), SI)["bellows"])[0][:3] == ["J1", "DS-1", "8.90"]


def test_unsolved_lines_have_no_factors_and_no_drawing():
    bare = {**system(), "stability": []}
    assert stability_section(bare, SI)["table"] is None
    assert mode_sheet(bare) is None
    assert not any("load factor" in line for line in summary_lines(bare) if line.startswith("Load factor nearest"))


@pytest.mark.parametrize(
    ("results", "words"),
    [
        (document, "17.8 (4 asked), run of DS-1, under hydrostatic test"),
        (with_bellows_by_itself, "7.82 (5.9 asked), bellows of J3 by itself, cooling under vacuum"),
    ],
)
def test_summary_says_what_is_nearest_to_what_is_asked_of_it(results, words):
    lines = [line for line in summary_lines(results()) if line.startswith("Load factor nearest")]
    assert lines == [f"Load factor nearest to its limit: {words}"]


def test_paper_names_a_bellows_by_itself_and_does_not_say_that_nothing_is_compressed():
    section = stability_section(with_bellows_by_itself(), SI)
    assert "bellows of J3 by itself, 7.82 with 5.9 asked, in “cooling under vacuum”" in section["beside"][0]
    assert cells(section["table"])[0][3] == "nothing is compressed"
    assert cells(section["table"])[3][3] == "nothing in the line; a bellows by itself, see below"


@pytest.mark.parametrize(("factor", "words"), [(0.976, "0.98"), (0.9996, "0.9996"), (0.0, "0.00"), (1.004, "1.00")])
def test_factor_below_one_is_seen_in_the_table(factor, words):
    section = stability_section({**document(), "stability": [row("operating", factor)]}, SI)
    assert cells(section["table"])[0][1] == words


@pytest.mark.parametrize(
    ("way", "title"), [((0.0, 1.0, 0.0), "Plan"), ((0.0, 0.0, 1.0), "Elevation, looking north")], ids=["level", "up"]
)
def test_mode_is_seen_from_where_it_moves_and_drawn_9_mm_at_most(way, title):
    """DS-1 runs east: level movement shows in plan, upward movement from the south."""
    sheet = mode_sheet(document(way))
    assert sheet is not None
    view = sheet.views[0]
    assert view.title.startswith(title)
    thick = [item for item in view.items if isinstance(item, Polyline) and item.stroke and item.stroke.width == 0.6]
    thin = [item for item in view.items if isinstance(item, Polyline) and item.stroke and item.stroke.width == 0.25]
    pipe, shape = ([point for item in items for point in item.points] for items in (thin, thick))
    farthest = max(min(math.dist(point, other) for other in pipe) for point in shape)
    # the cubic between two cuts may stand a little higher than the cuts do, the points of the pipe stand apart
    assert farthest == pytest.approx(9.0, abs=0.3)
    words = [item.words for item in view.items if isinstance(item, Text)]
    assert "DS-1 moves most here" in words


@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
def test_words_of_the_mode_are_inside_its_sheet(units):
    sheet = mode_sheet(document(), units)
    assert sheet is not None
    for view in sheet.views:
        for item in view.items:
            if isinstance(item, Text):
                assert 0.0 <= item.at[0] <= sheet.width
                assert 0.0 <= item.at[1] <= sheet.height
