"""Valves, flanges, reducers and changes: where each is, which way it goes, what pipe is beside it."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from tests.line_texts import changed

from takeup.errors import InputError
from takeup.line import route_of
from takeup.line.reading.reader import study_from_text
from takeup.line.records import Line

HERE = Path(__file__).parent
BRANCHED = (HERE / "branched.yaml").read_text(encoding="utf-8")
STANDARD_GRAVITY = 9.80665  # m/s2, by definition
DN_200, DN_150, DN_100 = 0.2191, 0.1683, 0.1143  # outside diameters, ASME B36.10M [m]


def lines(*changes: tuple[str, str]) -> tuple[Line, Line]:
    main, branch = study_from_text(changed(*changes, text=BRANCHED), "x").lines
    return main, branch


def test_fitting_counts_in_stations_and_goes_straight_on():
    """1.5 m of pipe, 0.35 m of valve, 5 m of pipe, 0.3 m of valve, 0.102 m of reducer."""
    _, branch = lines()
    assert [(item.name, item.kind) for item in branch.items] == [
        ("branch valve", "valve"),
        ("reducing valve", "valve"),
        ("press reducer", "reducer"),
    ]
    faces = [place for item in branch.items for place in (item.start, item.end)]
    assert faces == pytest.approx([1.5, 1.85, 6.85, 7.15, 7.15, 7.252], abs=1e-12)
    assert [leg.item for leg in branch.legs[:4]] == [None, "branch valve", None, "reducing valve"]
    assert {leg.direction for leg in branch.legs[:6]} == {(0.0, 1.0, 0.0)}


def test_fitting_has_weight_stiffness_and_closes():
    """0.6 kN as typed; 70 kg is 70 x 9.80665 = 686.4655 N. A valve is taken 10 times as stiff where nothing is said."""
    _, branch = lines()
    first, second, reducer = branch.items
    assert (first.weight, first.stiffer, first.can_close) == (pytest.approx(600.0), 10.0, True)
    assert (second.weight, second.stiffer, second.can_close) == (pytest.approx(70 * STANDARD_GRAVITY), 12.0, False)
    assert (reducer.stiffer, reducer.can_close) == (1.0, False)


@pytest.mark.parametrize(("key", "kind"), [("flange", "flange"), ("item", "item")])
def test_other_things_are_as_stiff_as_pipe_and_never_close(key, kind):
    old = "{ valve: branch valve, length: 0.35 m, weight: 0.6 kN }"
    text = changed(
        (old, f"{{ {key}: branch valve, length: 0.35 m, weight: 0.6 kN }}"),
        ("closed: branch valve\n", "\n"),
        text=BRANCHED,
    )
    item = study_from_text(text, "x").lines[1].items[0]
    assert (item.kind, item.stiffer, item.can_close) == (kind, 1.0, False)


def test_fitting_at_the_start_lies_in_the_first_leg():
    valve = "      - { valve: first valve, length: 0.5 m, weight: 1 kN }\n      - { go: 30 m east"
    main, _ = lines(("      - { go: 30 m east", valve), ("30 m east falling 1 in 200", "30 m east"))
    assert main.legs[0].item == "first valve"
    assert (main.legs[0].direction, main.items[0].start, main.items[0].end) == ((1.0, 0.0, 0.0), 0.0, 0.5)


def test_names_of_fittings_are_places():
    """The name is the middle, (6.85 + 7.15)/2 = 7 m; the faces have names too."""
    for words, station in (
        ("reducing valve", 7.0),
        ("first face of reducing valve", 6.85),
        ("last face of reducing valve - 1 m", 6.15),
        ("valve pit", 1.5),
    ):
        _, branch = lines(("at: rise, on_bend: crown", f"at: {words}"))
        assert branch.holds[0].position.station == pytest.approx(station, abs=1e-12)


def test_pipes_meet_at_the_middle_of_the_reducer():
    _, branch = lines()
    first, second = branch.sections
    assert (first.start, first.end, second.start) == (0.0, pytest.approx(7.201, abs=1e-12), first.end)
    assert second.end == pytest.approx(sum(leg.length for leg in branch.legs), abs=1e-12)
    assert [section.pipe.size.dn for section in branch.sections] == ["DN 100", "DN 150"]
    assert {section.pipe.material.name for section in branch.sections} == {"ASTM A106 B"}
    assert first.insulation == second.insulation


@pytest.mark.parametrize(
    ("said", "shift"),
    [
        (", eccentric: flat bottom", (DN_150 - DN_200) / 2),
        (", eccentric: flat top", (DN_200 - DN_150) / 2),
        ("", 0.0),
    ],
)
def test_eccentric_reducer_keeps_one_side_level(said, shift):
    """DN 200 to DN 150: half the difference of 219.1 mm and 168.3 mm is 25.4 mm, down for a flat bottom."""
    main, _ = lines(("        eccentric: flat bottom\n", f"        {said.strip(', ')}\n" if said else ""))
    route = route_of(main)
    begin, finish = route.points[3], route.points[4]
    assert finish - begin == pytest.approx([0.152, 0.0, shift], abs=1e-12)
    item = main.items[0]
    assert item.end - item.start == pytest.approx(math.hypot(0.152, shift), abs=1e-12)
    assert [turn.name for turn in route.turns] == ["roof corner", "yard corner"]


def test_eccentric_reducer_that_grows_rises_on_its_flat_bottom():
    _, branch = lines(("weight: 4 kg,", "weight: 4 kg, eccentric: flat bottom,"))
    route = route_of(branch)
    number = next(n for n, leg in enumerate(branch.legs) if leg.item == "press reducer")
    assert route.points[number + 1][2] - route.points[number][2] == pytest.approx((DN_150 - DN_100) / 2, abs=1e-12)


def test_bends_are_multiples_of_the_size_where_they_lie():
    """Long radius is 1.5 nominal sizes: 1.5 x 8 in = 304.8 mm before the reducer, 1.5 x 6 in = 228.6 mm beyond it."""
    main, branch = lines()
    assert main.legs[1].to.bend_radius == pytest.approx(0.3048, rel=1e-15)
    assert branch.legs[-2].to.bend_radius == pytest.approx(0.2286, rel=1e-15)


def test_change_begins_a_section_with_what_it_says():
    main, _ = lines()
    wall, end = main.legs[4].to, main.legs[5].to
    assert (wall.name, end.name) == ("wall", "laundry header")
    before, beyond = main.sections[1:]
    assert (before.insulation and before.insulation.thickness) == pytest.approx(0.08)
    assert (beyond.insulation and beyond.insulation.thickness) == pytest.approx(0.06)
    assert before.insulation is not None
    assert before.insulation.cladding is not None
    assert before.insulation.cladding.thickness == pytest.approx(0.0008)
    assert beyond.insulation is not None
    assert beyond.insulation.cladding is None
    assert before.pipe == beyond.pipe


def test_change_of_wall_keeps_the_rest():
    """Schedule 80 of NPS 6 is 10.97 mm (ASME B36.10M)."""
    old = "{ change: weather wall, insulation: { thickness: 60 mm, kind: mineral wool } }"
    main, _ = lines((old, "{ change: weather wall, pipe: { schedule: 80 }, insulation: none }"))
    before, beyond = main.sections[1:]
    assert (beyond.pipe.size, beyond.pipe.material) == (before.pipe.size, before.pipe.material)
    assert (beyond.pipe.wall, beyond.pipe.wall_words) == (pytest.approx(0.01097), "schedule 80")
    assert (beyond.pipe.corrosion_allowance, beyond.insulation) == (pytest.approx(0.001), None)


def test_change_of_material_has_a_table_of_its_own():
    old = "{ change: weather wall, insulation: { thickness: 60 mm, kind: mineral wool } }"
    main, _ = lines((old, "{ change: weather wall, pipe: { material: ASTM A312 TP304 } }"))
    before, beyond = main.sections[1:]
    assert (before.pipe.material.name, beyond.pipe.material.name) == ("ASTM A106 B", "ASTM A312 TP304")
    assert before.pipe.material.expansion != beyond.pipe.material.expansion


def test_joint_beside_a_fitting_keeps_to_its_leg():
    """The leg after the first valve runs from 1.85 m to 6.85 m; a joint of 0.6 m at 2.1 m would begin at 1.8 m."""
    joint = """    takeups:
      - name: J1
        kind: single axial
        at: {place}
        data: {{ axial_rate: 150 N/mm, effective_area: 142 cm2, length: 600 mm, live_length: 300 mm, weight: 65 kg,
          axial_compression: 60 mm, axial_extension: 20 mm, pressure: 16 bar(g), temperature: 300 °C, source: maker }}
"""
    good = study_from_text(BRANCHED + joint.format(place="last face of branch valve + 0.3 m"), "x")
    assert good.lines[1].takeups[0].position.station == pytest.approx(2.15, abs=1e-12)
    with pytest.raises(InputError, match=r"from 1\.8 m to 2\.4 m, over branch valve, which fills the line"):
        study_from_text(BRANCHED + joint.format(place="2.1 m"), "x")
