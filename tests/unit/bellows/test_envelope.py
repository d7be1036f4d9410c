"""Movements at a wanted life: the curves turned round, the gap, the frontier, the warning.     (test_envelope.py)"""

from __future__ import annotations

import numpy as np
import pytest
from tests.bellows_builders import duty, metal, plain

from takeup.bellows.envelope import (
    CURVES,
    GAP,
    PRESSURE_ALONE,
    closing_gap,
    envelope,
    frontier,
)
from takeup.bellows.forms import published
from takeup.bellows.forms.movement import combined
from takeup.bellows.shell.convolution import QUICK, convolutions
from takeup.errors import OutOfRange

FIELD = {"ASME design": "life_asme_design", "EN design": "life_en_design", "EJMA average": "life_ejma_average"}


def factor_of(curve):
    return 2.0 if curve == "EJMA average" else None


def test_the_example_of_the_forms_page_is_found_back():
    """docs/theory/bellows-forms.md: 30 mm at 10 bar live 1001 cycles by ASME and 486 by EN (from memory forms).

    Half a cycle of 1001 and of 486 is 5e-4 and 1.03e-3 of the life, 2.5e-4 and 5.1e-4 of the stress above the floor
    and less of the movement.
    """
    for curve, cycles, width in (("ASME design", 1001.0, 2.5e-4), ("EN design", 486.0, 5.2e-4)):
        assert envelope(plain(), metal(), duty(cycles=cycles), curve=curve).axial == pytest.approx(0.030, rel=width)


@pytest.mark.parametrize("curve", CURVES)
@pytest.mark.parametrize("kind", ["axial", "lateral", "angular"])
@pytest.mark.parametrize("pressure", [1e6, -1e6, 0.0])
def test_each_movement_lives_as_long_as_wanted_and_no_more_does(curve, kind, pressure):
    shape, hot = plain(height=[0.022, 0.030], plies=[1, 2], convolutions=[8, 5]), metal(2, modulus=180e9)
    found = envelope(shape, hot, duty(2, pressure=pressure), curve=curve, safety_factor=factor_of(curve))
    wanted = 1000.0 * (factor_of(curve) or 1.0)
    for share, lives in ((1.0 - 1e-9, True), (1.0 + 1e-6, False)):  # doubles round at 1e-15, the forms at 1e-12
        asked = duty(2, pressure=pressure, axial=0.0)
        asked = type(asked)(
            **{name: getattr(asked, name) for name in asked.__slots__} | {kind: getattr(found, kind) * share}
        )
        life = getattr(published(shape, hot, asked), FIELD[curve])
        assert ((life >= wanted) == lives).all()


def test_pressure_from_outside_leaves_no_more_movement_than_from_inside():
    inside, outside = (envelope(plain(), metal(), duty(pressure=p), curve="ASME design") for p in (1e6, -1e6))
    assert outside.movement == inside.movement


def test_gap_holds_where_the_life_would_allow_more():
    """By hand: q - 2 q/4 - n t = 24 - 12 - 1 = 11 mm; thin soft bellows for 400 cycles may do more by life."""
    shape = plain(ply_thickness=0.3e-3)
    found = envelope(shape, metal(), duty(pressure=0.0, cycles=400.0), curve="ASME design")
    assert closing_gap(plain()) == pytest.approx(0.011, rel=1e-12)  # only doubles round
    assert found.life_movement > found.gap
    assert found.governed_by == (GAP,)
    assert found.axial == pytest.approx(8.0 * 0.0117, rel=1e-12)  # by hand: 8 (24 - 12 - 0.3) mm


def test_pressure_alone_may_leave_nothing():
    found = envelope(plain(), metal(), duty(pressure=20e6), curve="ASME design")
    assert found.movement == 0.0
    assert found.life_movement < 0.0
    assert found.governed_by == (PRESSURE_ALONE,)
    assert "no movement is left" in found.remarks[0]


@pytest.mark.parametrize(
    ("asked", "made", "words"),
    [
        ({"temperature": 450.0}, {}, "above the ASME design curve's 427 degC"),
        ({"cycles": 2e6}, {}, "does not reach 2e+06 cycles"),
        ({"cycles": np.nan}, {}, "cycles not stated"),
        ({"pressure": np.nan}, {}, "pressure not stated"),
        ({}, {"family": ""}, "family of the metal not stated"),
    ],
)
def test_what_is_not_known_is_empty_and_said(asked, made, words):
    found = envelope(plain(), metal(**made), duty(**asked), curve="ASME design")
    assert np.isnan(found.movement)
    assert np.isnan(found.axial)
    assert found.governed_by == ("",)
    assert words in found.remarks[0]


def test_average_curve_wants_a_safety_factor_and_a_design_curve_takes_none():
    for curve, factor in (("EJMA average", None), ("EJMA average", 0.5), ("ASME design", 2.0)):
        with pytest.raises(OutOfRange, match="safety factor"):
            envelope(plain(), metal(), duty(), curve=curve, safety_factor=factor)


def test_every_point_of_the_frontier_takes_the_whole_movement():
    shape, movement = plain(), 0.005
    edge = frontier(shape, movement)
    for row, angle in enumerate(edge.angular):
        for axial, lateral in zip(edge.axial[row], edge.lateral[row], strict=True):
            moved = combined(shape, np.array([axial]), np.array([angle]), np.array([lateral]))
            assert moved == pytest.approx(movement, rel=1e-12)  # only doubles round
    assert edge.lateral[:, -1] == pytest.approx(0.0, abs=1e-15)
    assert (np.diff(edge.lateral, axis=1) < 0.0).all()


def test_frontier_begins_with_each_movement_alone():
    found = envelope(plain(), metal(), duty(), curve="EN design")
    edge = frontier(plain(), float(found.movement[0]), shares=(0.0, 1.0))
    assert edge.lateral[0, 0] == pytest.approx(found.lateral[0], rel=1e-12)
    assert edge.axial[0, -1] == pytest.approx(found.axial[0], rel=1e-12)
    assert edge.angular[1] == pytest.approx(found.angular[0], rel=1e-12)


def test_shell_with_higher_stress_gives_a_warning_and_no_other_life():
    """Radii of 0.15 q: the charts do not see them, the true convolution bends more sharply there."""
    radii = {"crest_radius": 0.15 * 0.024, "root_radius": 0.15 * 0.024}
    sharp, round_ = (envelope(plain(**more), metal(), duty(), curve="ASME design") for more in (radii, {}))
    assert sharp.life_movement == round_.life_movement
    assert sharp.shell_range > sharp.form_range
    assert "higher than the published form's" in sharp.warnings[0]


def test_shell_with_lower_stress_gives_no_warning():
    found = envelope(plain(height=0.060, ply_thickness=0.5e-3), metal(), duty(pressure=0.2e6), curve="ASME design")
    assert (found.shell_range > found.form_range) == bool(found.warnings[0])


def test_many_at_once_are_the_same_as_one_by_one():
    heights = [0.022, 0.030, 0.018]
    together = envelope(plain(height=heights), metal(3), duty(3), curve="EN design")
    for row, height in enumerate(heights):
        alone = envelope(plain(height=height), metal(), duty(), curve="EN design")
        for name in ("movement", "axial", "lateral", "angular", "form_range", "shell_range"):
            assert getattr(together, name)[row] == pytest.approx(getattr(alone, name)[0], rel=1e-9), (
                name
            )  # order of sums


@pytest.mark.parametrize("curve", CURVES)
@pytest.mark.parametrize("pressure", [1e6, -1e6])
def test_shell_range_is_of_both_peaks_at_the_sense_of_the_pressure(curve, pressure):
    """0.7 p s_p E_o/E_b + s_e e, s at the cold modulus and on the pressed face; the average curve raises nothing."""
    hot = metal(modulus=150e9)
    found = envelope(plain(), hot, duty(pressure=pressure), curve=curve, safety_factor=factor_of(curve))
    shell = convolutions(plain(), hot.cold_modulus, hot.poisson, order=QUICK, outside=pressure < 0.0)
    raised = 1.0 if curve == "EJMA average" else 195.0 / 150.0
    expected = 0.7 * 1e6 * raised * shell.surface_per_pressure + shell.surface_per_movement * found.movement
    assert found.shell_range == pytest.approx(expected, rel=1e-12)  # only doubles round


@pytest.mark.parametrize("greater", ["crest_radius", "root_radius"])
def test_gap_is_that_of_the_blunter_bend(greater):
    """By hand: 24 - 2 x 7 - 1 = 9 mm, whichever of the two bends has the 7 mm; only doubles round."""
    assert closing_gap(plain(**{greater: 0.007})) == pytest.approx(0.009, rel=1e-12)


def test_average_curve_gives_an_annealed_bellows_no_movement():
    found = envelope(plain(), metal(annealed=True), duty(), curve="EJMA average", safety_factor=2.0)
    assert np.isnan(found.movement).all()
    assert "the curve is for bellows as formed" in found.remarks[0]
    assert "does not reach" not in found.remarks[0]
    assert np.isfinite(envelope(plain(), metal(annealed=True), duty(), curve="EN design").movement).all()
