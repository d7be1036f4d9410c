"""The key plan: every hold by its name, nothing on anything, a sound DXF.

(tests/unit/papers/loads/test_key_plan.py)
"""

from __future__ import annotations

import io
import itertools

import ezdxf
import pytest
from tests.unit.drawing.results_fixture import corner
from tests.unit.papers.loads.schedule_lines import files, options, results

from takeup.drawing.labels import overlap
from takeup.drawing.lettering import box_of
from takeup.drawing.sheet import Text
from takeup.papers.frame import head_of
from takeup.papers.loads.held import held_of
from takeup.papers.loads.key_plan import key_plan
from takeup.papers.loads.sense import HEIGHT, WIDTH, sense_sheet
from takeup.papers.words import texts

TOUCH = 1e-6  # mm: boxes that share an edge share no area


def sheets(name, system="si", language="en"):
    asked = options(system, language)
    document = results(name)
    return key_plan(document, head_of(document, asked.units, asked.language))


def words_of(sheet):
    return [item for view in sheet.views for item in view.items if isinstance(item, Text)]


def joined(sheet):
    return " ".join(text.words for text in words_of(sheet))


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("system", ["si", "us"])
@pytest.mark.parametrize("name", ["corner", "askew", "continues"])
def test_every_hold_is_labelled_by_its_name(name, system, language):
    [sheet] = sheets(name, system, language)
    for held in held_of(results(name)):
        assert held.name in joined(sheet)


def test_an_anchor_is_labelled_with_its_place_and_design_force():
    """139.45 kN and the like: the design force of the results times the 1.35 of the file."""
    [sheet] = sheets("corner")
    for held in held_of(results("corner")):
        if held.anchor:
            force = 1.35 * held.record["envelope"]["design_force_n"] / 1e3
            assert f"design {force:.2f} kN" in joined(sheet)
            east, north, up = held.at
            assert f"E {east:.2f}, N {north:.2f}, up {up:.2f}" in joined(sheet)


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("name", ["corner", "askew", "continues", "loose"])
def test_no_words_lie_on_others(name, language):
    for sheet in sheets(name, "si", language):
        boxes = [(text.words, box_of(text)) for text in words_of(sheet) if text.words]
        for (one, first), (other, second) in itertools.combinations(boxes, 2):
            left, top, right, bottom = first
            assert not overlap((left + TOUCH, top + TOUCH, right - TOUCH, bottom - TOUCH), second), (one, other)
            assert left >= 0.0
            assert right <= sheet.width
            assert top >= 0.0
            assert bottom <= sheet.height


@pytest.mark.parametrize("language", ["en", "de"])
def test_words_of_the_sketch_stay_inside_it(language):
    sketch = sense_sheet(texts(language))
    for text in words_of(sketch):
        left, top, right, bottom = box_of(text)
        assert left >= 0.0
        assert top >= 0.0
        assert right <= WIDTH
        assert bottom <= HEIGHT
    boxes = [box_of(text) for text in words_of(sketch)]
    assert not any(overlap(one, other) for one, other in itertools.combinations(boxes, 2))


@pytest.mark.parametrize("name", ["corner", "askew", "continues", "loose"])
def test_dxf_is_sound_and_has_the_names(name):
    doc = ezdxf.read(io.StringIO(files(name)["loads-key-plan.dxf"].decode("utf-8")))
    assert not doc.audit().has_issues
    read = " ".join(
        entity.dxf.text if entity.dxftype() == "TEXT" else entity.text
        for layout in doc.layouts
        for entity in layout
        if entity.dxftype() in {"TEXT", "MTEXT"}
    )
    for held in held_of(results(name)):
        assert all(word in read for word in held.name.split())


def test_svg_says_what_it_is():
    assert "<title>Key plan to the load schedule of line T-1" in files("corner")["loads-key-plan.svg"].decode("utf-8")


def test_a_hand_made_line_of_many_places_is_drawn():
    """The results of another fixture: 24 holds on one line, none of which loses the name of an anchor."""
    document = corner()
    [sheet] = key_plan(document, head_of(document))
    for held in held_of(document):
        if held.anchor:
            assert held.name in joined(sheet)


def test_where_names_are_crowded_guides_bear_what_follows_at():
    """Thirty guides 0.75 m apart, 3.75 mm on the sheet at 1 : 200: no room for names in full, which the notes say."""
    document = results("corner")
    guide = next(hold for hold in document["holds"] if hold["kind"] == "slide guide")
    for number in range(30):
        station = 8.0 + 0.75 * number
        own = {"name": f"slide guide at {station:g} m", "station_m": station, "at_m": [station, 0.0, 0.0]}
        document["holds"].append({**guide, **own})
    [sheet] = key_plan(document, head_of(document))
    words = [text.words for text in words_of(sheet)]
    assert "Names are crowded here" in joined(sheet)
    assert "8.75 m" in words
    for held in held_of(document):
        if held.anchor:
            assert held.name in joined(sheet)
