"""What must not be passed over: states left out, soft bellows, temporary anchors.     (test_honest_verdicts.py)"""

from __future__ import annotations

import pytest
from tests.builders import checks, hold, joint, line_file, study_of

from takeup.basis import STRAIGHT_PIPE, Moments, expansion_stress, tee_factors
from takeup.library import cladding, insulation, pipe_size
from takeup.line import insulation_weight
from takeup.results import results_of


def dropping(state: str) -> str:
    return f"states: {{ drop: [ {{ state: {state}, because: an invented reason }} ] }}"


@pytest.mark.parametrize("state", ["under hydrostatic test", "operating"])
def test_a_study_without_a_state_that_every_line_goes_through_is_not_proved(state: str):
    (row,) = checks(line_file(["4 m east"], more=dropping(state)), "states_left_out")
    assert (row.outcome, row.mandatory, row.state) == ("not covered", True, state)
    assert "an invented reason" in row.because


def test_a_state_that_not_every_line_sees_may_be_left_out():
    (row,) = checks(line_file(["4 m east"], more=dropping('"hottest day, shut down"')), "states_left_out")
    assert row.outcome == "passes"


def test_the_run_is_told_beside_a_bellows_that_bows_before_it():
    """60 m, guides 20 m apart: 4 pi^2 EI/L^2 of a span is at most 3 times its thrust; the bellows comes at 0.55."""
    guides = hold("slide guide", "[2.6 m, 22.6 m, 42.6 m]")
    rows = checks(line_file(["60 m east"], holds=(guides,), takeups=(joint("J1", "west end + 1.2 m"),)), "stability")
    assert {(row.where, row.outcome) for row in rows} == {("T-1", "fails"), ("J1", "fails")}
    run = next(row for row in rows if row.where == "T-1")
    assert run.capacity is not None
    assert 1.0 < run.capacity < 3.0
    assert "bar(g)" not in run.because  # the bowing pressure belongs to the lowest mode, the bellows


def test_a_temporary_anchor_is_listed_with_its_loads_and_bounds_no_span():
    temporary = "{ kind: main anchor, name: prop, at: 6 m, only_in: under hydrostatic test }"
    results = results_of(study_of(line_file(["12 m east"], holds=(temporary,))))
    (prop,) = [row for row in results["holds"] if row["name"] == "prop"]
    assert (prop["hand"], prop["band"]) == ([], None)
    force = {load["state"]: load["force_n"][2] for load in prop["loads"]}
    assert force["under hydrostatic test"] < -1e3  # N: half the line with its water
    assert force["operating"] == pytest.approx(0.0, abs=1e-9)  # it is not there: rounding alone


def test_the_axial_range_at_a_tee_has_i_o_in_b31_3_and_in_no_other_code():
    """ASME B31.3 319.4.4: S_a = i_a F_a/A, i_a = i_o of the tee, 1 of pipe (from memory). A = pi 0.21092 0.00818 m2."""
    axial, area = 1e5, 3.141592653589793 * 0.21092 * 0.00818
    for code, more in (("ASME B31.3", True), ("ASME B31.1", False)):
        tee = tee_factors(code, "unreinforced fabricated tee", mean_radius=0.10546, wall=0.00818)
        assert tee.axial == (tee.out_of_plane if more else 1.0)
    for factors, i in (
        (STRAIGHT_PIPE, 1.0),
        (tee_factors("ASME B31.3", "unreinforced fabricated tee", mean_radius=0.10546, wall=0.00818), 4.948),
    ):
        stress = expansion_stress(
            "ASME B31.3",
            factors=factors,
            moments=Moments(in_plane=0.0, out_of_plane=0.0, torsion=0.0),
            axial_force=axial,
            outside_diameter=0.2191,
            wall=0.00818,
        )
        assert stress == pytest.approx(i * axial / area, rel=1e-3)  # i_o = 0.9 (r2/T)^(2/3) = 4.948 by hand


def test_cladding_is_weighed_round_the_insulation():
    """219.1 mm, 80 mm of wool, 0.8 mm of sheet: pi (0.3791 + 0.0008) 0.0008 m2 x 2700 kg/m3 x 9.80665 more."""
    wool = insulation("mineral wool", 0.08)
    sheet = cladding("aluminium", 0.0008)
    text = line_file(
        ["4 m east"],
        insulation="{ thickness: 80 mm, kind: mineral wool, cladding: { kind: aluminium, thickness: 0.8 mm } }",
    )
    section = study_of(text).lines[0].sections[0]
    more = insulation_weight(section.pipe, section.insulation) - insulation_weight(section.pipe, wool)
    assert more == pytest.approx(3.14159265 * 0.3799 * 0.0008 * sheet.density * 9.80665, rel=1e-6)


def test_no_span_of_steel_is_taken_for_copper():
    copper = pipe_size("54 mm copper")
    assert copper.table == "EN 1057"
    text = line_file(
        ["6 m east"],
        pipe="{ size: 54 mm copper, wall: 1.5 mm, material: Copper C12200 }",
        medium="water",
        design="{ pressure: 6 bar(g), temperature: 200 °F, vacuum: possible }",
        operating="{ pressure: 4 bar(g), temperature: 180 °F }",
        holds=(hold("rest", "3 m"),),
    )
    (row,) = checks(text, "support_span")
    assert (row.outcome, row.capacity) == ("fails", 2.7)  # BS 6700:2006 (from memory); steel of NPS 2 has 3.0 m
    assert (row.status, "BS 6700" in row.source) == ("from memory", True)
    (row,) = checks(
        text.replace(
            "design: { pressure: 6 bar(g), temperature: 200", "design: { pressure: 6 bar(g), temperature: 220"
        ),
        "support_span",
    )
    assert row.outcome == "not covered"
    assert "temperature 104.444 degC is above 100 degC" in row.because  # 220 degF
