"""The sheets that are issued: nothing lies on anything, all is large enough, every number is one of the results."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from tests.unit.drawing.dxf.tags import things_of
from tests.unit.drawing.results_fixture import corner, loop, riser, straight
from tests.unit.drawing.sheets.lines import ABOUT, NAMES, drawn, long, moved, named, short, winding
from tests.unit.drawing.sheets.measured import box, overlapping, struck, true_width, words_of
from tests.unit.drawing.sheets.traced import untraced
from tests.unit.drawing.system_fixture import system

from takeup.drawing import to_svg
from takeup.drawing.dxf import Origin, to_dxf
from takeup.drawing.lettering import CAPITALS, width_of
from takeup.drawing.sheet import Dimension, Ordinate
from takeup.drawing.sheets.scales import scales_of
from takeup.drawing.symbols import EXPLAINED
from takeup.edge import SI, US
from takeup.papers.words import texts

LINES = {
    "long": long,
    "winding": winding,
    "short": short,
    "named": named,
    "straight": lambda: moved(straight()),
    "corner": lambda: moved(corner()),
    "riser": lambda: moved(riser()),
    "loop": lambda: moved(loop()),
    "system": system,
}
EVERY = pytest.mark.parametrize("name", LINES)
UNITS = pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
LEAST = 2.5  # mm: the height of capitals that an A3 print needs
PENS = 0.3  # mm: pipe, frame, signs and match lines are drawn with wider pens; leaders and dimensions with finer ones


class Made(dict):
    """The results of each line, made when they are asked for and kept."""

    def __missing__(self, name):
        self[name] = LINES[name]()
        return self[name]


@pytest.fixture(scope="module")
def made():
    """The results of each line."""
    return Made()


@pytest.fixture(scope="module")
def sheets_of(made):
    """The sheets of each line in a language and units, drawn once: they are never changed."""
    kept = {}

    def found(name, language="en", units=SI):
        key = (name, language, units.system)
        if key not in kept:
            kept[key] = drawn(made[name], language, units)
        return kept[key]

    return found


@UNITS
@pytest.mark.parametrize("language", ["en", "de"])
@EVERY
def test_no_words_lie_on_words_by_the_typeface_itself(sheets_of, name, language, units):
    for sheet in sheets_of(name, language, units):
        assert overlapping(sheet) == [], sheet.title


@UNITS
@EVERY
def test_no_pipe_frame_or_sign_goes_through_words(sheets_of, name, units):
    for sheet in sheets_of(name, "en", units):
        assert struck(sheet, PENS) == [], sheet.title


@UNITS
@EVERY
def test_all_words_are_inside_the_frame_or_its_zones(sheets_of, name, units):
    for sheet in sheets_of(name, "en", units):
        for text in words_of(sheet):
            left, top, right, bottom = box(text)
            assert left >= 15.0, text.words  # 20 mm for filing less the 5 mm of the zones
            assert right <= sheet.width - 5.0, text.words
            assert top >= 5.0, text.words
            assert bottom <= sheet.height - 5.0, text.words


@EVERY
def test_no_capital_is_lower_than_an_a3_print_needs(sheets_of, name):
    for sheet in sheets_of(name):
        assert min(CAPITALS * text.size for text in words_of(sheet)) >= LEAST


@EVERY
def test_every_number_is_one_of_the_results(made, sheets_of, name):
    sheets = sheets_of(name)
    ratios = [scale.ratio for scale in scales_of("si")]
    assert untraced(made[name], sheets, ratios, also=(ABOUT.number, ABOUT.day, ABOUT.tool, ABOUT.sha256)) == []


def test_a_wrong_number_would_be_found(sheets_of):
    """The test above can fail: with another station in the results, the drawn one is from nowhere."""
    sheets, ratios = sheets_of("short"), [scale.ratio for scale in scales_of("si")]
    other = LINES["short"]()
    other["takeups"][0]["station_m"] = 2.13
    assert "station 2.00 m" in untraced(other, sheets, ratios, also=(ABOUT.day, ABOUT.tool, ABOUT.sha256))


@EVERY
def test_dimensions_in_dxf_measure_what_they_say(sheets_of, name):
    """A dimension reads its measurement in metres to two decimals; an ordinate too, and it is a station."""
    document = to_dxf(sheets_of(name), Origin(day="2026-05-12"))
    dimensions = [thing for thing in things_of(document) if thing.kind == "DIMENSION"]
    assert dimensions
    for thing in dimensions:
        metres = float(thing.get(1).removesuffix(" m"))
        assert metres == pytest.approx(thing.number(42) / 1000.0, abs=0.005 + 1e-6)  # half of the last printed figure


@EVERY
def test_every_place_has_its_station_and_the_spacing_row_is_the_difference(made, sheets_of, name):
    """Spacing and both stations are each rounded to 0.01 m: they agree within 0.015 m and the last bit."""
    views = [view for sheet in sheets_of(name) for view in sheet.views if view.title == "Stations along the pipe"]
    stations = []
    for view in views:
        own = [item for item in view.items if isinstance(item, Ordinate)]
        stations += [float(item.words) for item in own]
        row = sorted(
            (item.at[0], float(item.words))
            for item in view.items
            if not isinstance(item, Ordinate)
            and getattr(item, "rotation", 0.0) == -90.0
            and re.fullmatch(r"\d+\.\d\d", item.words)
        )
        gaps = [float(b.words) - float(a.words) for a, b in pairwise(own)]
        assert [gap for _, gap in row] == pytest.approx(gaps, abs=0.0151)
    wanted = sorted(record["station_m"] for key in ("holds", "takeups") for record in made[name][key])
    for station in wanted:
        assert any(abs(station - drawn_at) <= 0.005 + 1e-9 for drawn_at in stations)


def test_2_km_get_one_scale_a_whole_sheet_and_match_lines(made, sheets_of):
    """One sheet of all, then two for each of seven parts; every match line names the sheet that has the other side."""
    sheets = sheets_of("long")
    assert len(sheets) == 15
    plans = [view for sheet in sheets[1:] for view in sheet.views if view.title == "Plan"]
    assert {view.scale for view in plans} == {1000}
    seen = [{text.words for text in words_of(sheet)} for sheet in sheets]
    for one, other in pairwise(range(1, 15, 2)):
        assert f"see sheet {other + 1}" in seen[one]
        assert f"see sheet {one + 1}" in seen[other]
        cuts = {w for w in seen[one] if re.match(r"station \d", w) and w in seen[other]}
        places = {f"station {record['station_m']:.2f} m" for record in made["long"]["holds"]}
        assert len(cuts - places) == 1


def test_3_m_are_drawn_large(sheets_of):
    """3 m at 1:10 are 300 mm of an A3 sheet."""
    (plan,) = [view for view in sheets_of("short")[0].views if view.title == "Plan"]
    assert plan.scale == 10


def test_paper_is_a3_in_si_and_ansi_b_in_us_units(sheets_of):
    """ISO 216 and ASME Y14.1, from memory: 420 x 297 mm; 17 x 11 in = 431.8 x 279.4 mm."""
    assert {(sheet.width, sheet.height) for sheet in sheets_of("corner")} == {(420.0, 297.0)}
    assert {(sheet.width, sheet.height) for sheet in sheets_of("corner", "en", US)} == {(431.8, 279.4)}
    words = {text.words for sheet in sheets_of("corner", "en", US) for text in words_of(sheet)}
    assert any(re.fullmatch(r"Scale (1 in = \d+ ft|[\d/ ]+ in = 1 ft)", text) for text in words)


def test_plan_is_at_the_coordinates_of_the_line(sheets_of):
    """The origin of the coordinates is the view's zero: 96 m east are 192 mm right of it at 1:500."""
    sheet = sheets_of("corner")[0]
    plan = next(view for view in sheet.views if view.title == "Plan")
    legs = [item for item in plan.items if isinstance(item, Dimension) and item.words == "96.00 m"]
    assert plan.scale == 500
    assert legs[0].start[0] == pytest.approx(plan.zero[0], abs=1e-9)
    assert legs[0].end[0] == pytest.approx(plan.zero[0] + 192.0, abs=1e-9)


def test_movements_are_those_of_the_state_and_the_joint_says_what_it_takes(made, sheets_of):
    """Node n of the corner moves by 0.61 + 0.37 n mm; J1 shortens by 0.75 (184 - 12)/2 = 64.5 mm (by the fixture)."""
    sheet = sheets_of("corner")[1]
    words = [text.words for text in words_of(sheet)]
    assert "shorter by 64.5 mm" in words
    line = made["corner"]["lines"][0]
    shape = made["corner"]["shapes"][0]["displacement_mm"]
    at = {round(node["station_m"], 6): f"{moved[0]:.1f} mm" for node, moved in zip(line["nodes"], shape, strict=True)}
    shown = [word for word in words if re.fullmatch(r"\d+\.\d mm", word)]
    assert shown
    assert {at[96.0], at[105.0]} <= {*shown, *(word.removeprefix("moves ") for word in words)}


def test_long_names_stand_whole_on_the_plan(sheets_of):
    said = "".join(text.words for sheet in sheets_of("named") for text in words_of(sheet)).replace(" ", "")
    for name in NAMES:
        assert name.replace(" ", "") in said


def test_notes_and_title_are_never_cut_off(sheets_of):
    for name in ("corner", "long", "system"):
        for language in ("en", "de"):
            for sheet in (*sheets_of(name, language), *sheets_of(name, language, US)):
                for view in sheet.views:
                    if view.layer in {"notes", "legend"}:
                        assert not any(item.words.endswith("…") for item in view.items if hasattr(item, "words"))


def notes_of(sheet) -> str:
    """The words of the notes of a sheet."""
    return " ".join(
        text.words for view in sheet.views if view.layer == "notes" for text in view.items if hasattr(text, "words")
    )


def test_us_sheets_say_which_lengths_are_decimal_feet(sheets_of):
    """Stations stand in rows as decimal feet without a unit, beside signs as feet and inches with theirs."""
    sheets = sheets_of("corner", "en", US)
    assert "Lengths without a unit, such as stations in rows and coordinates, are decimal feet" in notes_of(sheets[0])
    beside = [text.words for sheet in sheets for text in words_of(sheet) if text.words.startswith("station ")]
    assert beside
    assert {words.split()[-1] for words in beside} == {"ft", "in"}


def test_isometric_says_that_figures_at_joints_are_of_their_bellows(sheets_of):
    """Bellows are counted from the set length; a tape across the joint reads its hot ends and spools as well."""
    assert "At joints: of their bellows, from the set length." in notes_of(sheets_of("corner")[1])


def test_title_block_says_what_a_drawing_must(sheets_of):
    for number, sheet in enumerate(sheets_of("corner"), start=1):
        words = {text.words for text in words_of(sheet)}
        wanted = {"K-07", "A", "2026-05-12", f"{number} of 2", "Drawn", "Checked", "Released", "DEMONSTRATION DATA"}
        assert wanted <= words
        assert "takeup 0.0, input 0123456789ab" in words
        assert any("Not for construction" in text for text in words)


def test_signs_have_a_name_in_every_language():
    for language in ("en", "de"):
        assert {kind for kind in EXPLAINED if texts(language)(f"signs.{kind}")} == set(EXPLAINED)


def test_same_results_give_the_same_sheets(made):
    first, second = ([to_svg(sheet) for sheet in drawn(made["winding"])] for _ in range(2))
    assert first == second


def test_line_without_a_solved_state_is_drawn_without_movements():
    document = straight()
    sheets = drawn(document | {"shapes": []})
    words = " ".join(text.words for text in words_of(sheets[1]))
    assert "No movements are drawn" in words


@pytest.mark.parametrize("bold", [False, True])
def test_estimated_width_is_not_below_that_of_the_typeface(bold):
    """The steps of the estimate may be short by 2 % over words: what is kept free round them is more."""
    for words in (
        "slide guide at 12.45 m",
        "station 1234.56 m",
        "Müllverbrennung",
        "Not for construction until checked",
    ):
        assert width_of(words, 3.45, bold=bold) >= 0.98 * true_width(words, 3.45, bold=bold)
