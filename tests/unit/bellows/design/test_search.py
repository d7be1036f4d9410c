"""The search for bellows: what fits by brute force, nothing better, more asked never for less."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from tests.design_builders import MIDDLE, SMALL, wanted

from takeup.bellows.design import GRID, design
from takeup.bellows.design.criteria import candidates, outside_diameter, whole_length
from takeup.bellows.design.duty import FULL_VACUUM, asked, many
from takeup.bellows.design.folding import NAME, folding_criteria
from takeup.bellows.design.grid import shapes, with_convolutions
from takeup.bellows.design.search import mass, objectives_of
from takeup.bellows.envelope import closing_gap
from takeup.bellows.forms import acceptance, equivalent_movement, published
from takeup.bellows.geometry import bellows, chosen, stack_thickness
from takeup.bellows.impossible import impossible

DUTIES = {
    "inside": wanted(),
    "EN": wanted(curve="EN design"),
    "outside": wanted(pressure=-0.6e6),
    "vacuum": wanted(vacuum=True, pressure=0.05e6, test_pressure=0.1e6),
    "three movements": wanted(axial=0.01, lateral=0.003, angular=0.02),
    "tangents": wanted(tangent_length=0.05),
    "room": wanted(most_length=0.14, most_outside_diameter=0.29),
}


SHORT = replace(SMALL, convolutions=5)
"""For pressures from outside, where every candidate that fits is asked as a shell: three convolutions and more."""


def holds(duty, shape, metal, pressure, *, life):
    """Whether one bellows holds what `acceptance` asks, of every standard; of lives only the stated curve's."""
    asks = asked(duty, 1, pressure=pressure)
    for limit in acceptance(published(shape, metal, asks), metal, asks):
        if limit.unit == "cycles":
            asked_for = life and limit.source.startswith(duty.curve[:2])
            if asked_for and not limit.capacity >= limit.demand * (1.0 - 1e-9):
                return False
        elif limit.use > 1.0 + 1e-9:
            return False
    return True


def fits_alone(duty, shape):
    """By brute force, from `published` and `acceptance` alone."""
    hot, cold = duty.metal, duty.cold_metal
    sense = -1.0 if duty.pressure < 0.0 else 1.0
    return (
        holds(duty, shape, hot, duty.pressure, life=True)
        and holds(duty, shape, cold, sense * duty.test_pressure, life=False)
        and (not duty.vacuum or holds(duty, shape, hot, -FULL_VACUUM, life=True))
        and bool(equivalent_movement(shape, asked(duty, 1)) <= closing_gap(shape))
        and float((shape.convolutions * shape.pitch)[0]) <= duty.most_length
        and float((shape.inside_diameter + 2.0 * shape.height + 2.0 * stack_thickness(shape))[0])
        <= duty.most_outside_diameter
    )


def stands_alone(duty, shape):
    """Which bellows the shell says to stand three times each pressure from outside, by brute force."""
    return np.max([np.zeros(len(shape)), *(one.use for one in folding_criteria(duty, shape))], axis=0) <= 1.0 + 1e-9


@pytest.mark.parametrize("name", DUTIES)
def test_what_fits_is_what_brute_force_finds_and_nothing_beats_the_designs(name):
    duty, few = DUTIES[name], SHORT if name in ("outside", "vacuum") else SMALL
    every = candidates(duty, shapes(duty, few), few)
    alone = np.array([fits_alone(duty, chosen(every.shape, slice(row, row + 1))) for row in range(len(every.shape))])
    assert (alone == every.fits).all()
    assert 0 < alone.sum() < len(alone)
    front = design(duty, grid=few)
    told = sum(one.failing for one in front.blocks if one.name == NAME)
    assert front.fitting == alone.sum() - told
    alone[alone] = stands_alone(duty, chosen(every.shape, alone))
    assert front.fitting >= alone.sum()  # of those that fold only the best were asked
    ours, theirs = objectives_of(duty, front.rated.shape), objectives_of(duty, chosen(every.shape, alone))
    for one in ours:
        # nine figures are compared, so 1e-8 less is not less
        assert not ((theirs <= one * (1.0 + 1e-12)).all(axis=1) & (theirs < one * (1.0 - 1e-8)).any(axis=1)).any()
    assert ours[0, 0] == pytest.approx(theirs[:, 0].min(), rel=1e-8)
    assert ours[:, 1].min() == pytest.approx(theirs[:, 1].min(), rel=1e-8)
    assert ours[:, 2].min() == pytest.approx(theirs[:, 2].min(), rel=1e-8)


@pytest.mark.parametrize("name", DUTIES)
def test_each_design_holds_every_criterion_anew(name):
    duty = DUTIES[name]
    front = design(duty, grid=MIDDLE)
    assert len(front) >= 1
    for row in range(len(front)):
        shape = chosen(front.rated.shape, slice(row, row + 1))
        assert fits_alone(duty, shape)
        assert impossible(shape, 0) == ()


@pytest.mark.parametrize(("least", "column"), [("material", 0), ("length", 1), ("stiffness", 2)])
def test_the_wanted_one_stands_first(least, column):
    front = design(wanted(), least=least)
    objectives = objectives_of(front.duty, front.rated.shape)
    assert objectives[0, column] == objectives[:, column].min()
    assert {"material": "least material", "length": "shortest", "stiffness": "softest"}[least] in front.why[0]


@pytest.mark.parametrize(
    "harder",
    [
        [{"pressure": p * 1e5, "test_pressure": 1.5 * p * 1e5} for p in (2.0, 4.0, 8.0, 12.0)],
        [{"pressure": -p * 1e5, "test_pressure": p * 1e5} for p in (2.0, 6.0, 12.0)],
        [{"axial": x * 1e-3} for x in (5.0, 20.0, 40.0)],
        [{"cycles": n} for n in (400.0, 1000.0, 5000.0)],
        [{"most_length": length} for length in (np.inf, 0.2, 0.14)],
    ],
)
def test_more_asked_never_gives_less_metal_and_fewer_fit(harder):
    fronts = [design(wanted(**more), grid=MIDDLE) for more in harder]
    masses, fitting = [front.mass[0] for front in fronts], [front.fitting for front in fronts]
    assert all(after >= before for before, after in pairwise(masses))
    assert all(after <= before for before, after in pairwise(fitting))


def test_nothing_fits_and_what_blocks_is_said():
    front = design(wanted(most_outside_diameter=0.225))
    assert len(front) == front.fitting == 0
    assert front.rated is None
    assert front.blocks[0].name == "outside diameter"
    assert front.blocks[0].failing == front.tried
    assert "more room" in front.blocks[0].help


def test_what_blocks_is_counted_as_all_candidates_have_it():
    """Counted anew, candidate by candidate: which criteria each fails, by name, whatever their sources."""
    duty = wanted(most_length=0.1, most_outside_diameter=0.26)
    every = candidates(duty, shapes(duty, SMALL), SMALL)
    fails = [{one.name for one in every.criteria if one.use[row] > 1.0 + 1e-9} for row in range(len(every.shape))]
    front = design(duty, grid=SMALL)
    for block in front.blocks:
        assert block.failing == sum(block.name in names for names in fails)
        assert block.alone == sum(names == {block.name} for names in fails)
    assert any(0 < block.alone < block.failing for block in front.blocks)


def test_curve_that_does_not_cover_the_duty_is_said():
    """The ASME curve ends at 427 degC (from memory, medium)."""
    front = design(wanted(temperature=450.0))
    assert len(front) == 0
    assert front.blocks[0].failing == front.tried
    assert "another curve" in front.blocks[0].help


def test_mass_by_hand():
    """One ply of 1 mm, D_b 200, w 20, q 20 mm, N 1: D_m 221, t_p = sqrt(200/221) = 0.951303 mm; r = 5 mm.

    Half a meridian: two quarter circles and a wall of 10 mm, 2 (5 pi + 10) = 51.4159 mm a convolution. Mass
    8000 pi 0.221 0.951303e-3 0.0514159 = 0.271674 kg; six figures. Tangents of 10 mm: 8000 pi 2e-3 0.201 0.010 =
    0.10103 kg more.
    """
    values = {"inside_diameter": 0.2, "height": 0.02, "pitch": 0.02, "ply_thickness": 1e-3}
    assert mass(bellows(**values), 8000.0) == pytest.approx(0.271674, rel=2e-6)
    assert mass(bellows(**values, tangent_length=0.01), 8000.0) == pytest.approx(0.271674 + 0.10103, rel=2e-5)


def test_room_by_hand():
    """Outside 200 + 2 x 30 + 2 x 2 x 1 = 264 mm, length 5 x 20 + 2 x 40 = 180 mm, both by hand; only doubles round."""
    shape = bellows(
        inside_diameter=0.2, height=0.03, pitch=0.02, convolutions=5, plies=2, ply_thickness=1e-3, tangent_length=0.04
    )
    assert outside_diameter(shape) == pytest.approx(0.264, rel=1e-12)
    assert whole_length(shape) == pytest.approx(0.18, rel=1e-12)


def test_what_is_weighed_is_of_the_whole_bellows():
    """Mass and length by hand above; the axial rate of N convolutions is the published form's, f/N, as rated."""
    every = chosen(shapes(wanted(), SMALL), slice(0, 1))
    shape = with_convolutions(every, np.array([7.0]))
    forms = published(shape, wanted().metal, asked(wanted(), 1))
    weighed = objectives_of(wanted(), shape)
    expected = (mass(shape, 8000.0)[0], whole_length(shape)[0], forms.axial_rate[0])
    assert weighed[0] == pytest.approx(expected, rel=1e-12)  # only doubles round


def test_every_shape_of_the_grid_can_be_made_and_is_known_to_the_charts():
    every = shapes(wanted(), GRID)
    assert not any(impossible(every, row) for row in range(0, len(every), 17))
    forms = published(every, many(wanted().metal, len(every)), asked(wanted(), len(every)))
    assert np.isfinite(forms.stiffness_pi).all()
    inner = every.crest_radius - stack_thickness(every) / 2.0
    assert (inner >= 3.0 * every.ply_thickness * (1.0 - 1e-9)).all()  # ASME VIII-1 App. 26, from memory (medium)


def test_shell_with_higher_stress_warns_and_changes_nothing():
    front = design(wanted())
    assert any(front.warnings)
    assert all("higher than the published form's" in words for words in front.warnings if words)


def test_bore_that_no_shape_of_the_grid_fits_tries_nothing_and_says_so():
    """No height of a bore of 1 mm is in whole half millimetres with radii above three plies of stock."""
    front = design(wanted(inside_diameter=1e-3), grid=SMALL)
    assert (front.tried, front.fitting, len(front), front.blocks) == (0, 0, 0, ())
