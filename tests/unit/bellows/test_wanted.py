"""A rating's words and rows on the wanted life, against the envelopes they stand for.     (bellows/test_wanted.py)"""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.bellows_builders import duty, metal, plain

from takeup.bellows.envelope import envelope
from takeup.bellows.pressures import pressure_limits
from takeup.bellows.wanted import DESIGN_CURVES, at_wanted_life, wanted_rows


def test_rows_are_the_envelopes_in_the_units_of_their_keys():
    """1 m is 1000 mm, 1 MPa 1e6 Pa, 1 bar 1e5 Pa, a degree pi/180; only doubles round."""
    [row] = wanted_rows(plain(), metal(), duty(cycles=700.0))
    assert [one["curve"] for one in row["rated_movements"]] == list(DESIGN_CURVES)
    for said in row["rated_movements"]:
        one = envelope(plain(), metal(), duty(cycles=700.0), curve=said["curve"])
        expected = {
            "cycles": 700.0,
            "movement_mm": 1000.0 * one.movement[0],
            "axial_mm": 1000.0 * one.axial[0],
            "lateral_mm": 1000.0 * one.lateral[0],
            "angular_deg": one.angular[0] / math.pi * 180.0,
            "form_range_mpa": one.form_range[0] / 1e6,
            "shell_range_mpa": one.shell_range[0] / 1e6,
        }
        assert {key: said[key] for key in expected} == pytest.approx(expected, rel=1e-12)
        assert (said["governed_by"], said["warning"]) == (one.governed_by[0], one.warnings[0])
    known = [one for one in pressure_limits(plain(), metal()).criteria if np.isfinite(one.pressure[0])]
    assert len(row["pressure_limits"]) == len(known)
    for said, one in zip(row["pressure_limits"], known, strict=True):
        assert (said["criterion"], said["source"], said["from"] == "outside") == (one.name, one.source, one.outside)
        assert said["pressure_bar"] == pytest.approx(one.pressure[0] / 1e5, rel=1e-12)


def test_movement_of_the_table_is_that_of_the_curve_that_allows_less():
    """EN allows less than ASME here (docs/theory/bellows-forms.md: 486 cycles against 1001 at the same range)."""
    found = at_wanted_life(plain(), metal(), duty())
    less, more = (envelope(plain(), metal(), duty(), curve=curve) for curve in ("EN design", "ASME design"))
    assert less.movement < more.movement
    assert (found.movement, found.axial, found.lateral, found.angular) == (
        less.movement,
        less.axial,
        less.lateral,
        less.angular,
    )
    assert found.words[0].startswith("rated movement held by EN design life; ")


@pytest.mark.parametrize(
    ("shape", "asked", "words"),
    [
        ({}, {"pressure": 20e6}, "rated movement held by pressure alone"),
        ({"ply_thickness": 0.3e-3}, {"pressure": 0.0, "cycles": 400.0}, "held by gap between convolutions"),
    ],
)
def test_what_holds_the_movement_is_named(shape, asked, words):
    """Twenty times the pressure limit; a thin soft bellows that life would let close (test_envelope.py)."""
    assert words in at_wanted_life(plain(**shape), metal(), duty(**asked)).words[0]


def test_pressure_limit_is_that_of_the_sense_of_the_pressure():
    """By the forms page inside 20.83 bar, EJMA's column; outside it is S3 + S4, 22.61 bar: 3 x 130/172.45 MPa."""
    shape, hot = plain(height=[0.022] * 3), metal(3)
    found = at_wanted_life(shape, hot, duty(3, pressure=np.array([1e6, -1e6, np.nan])))
    limits = pressure_limits(shape, hot)
    assert found.pressure.tolist() == [limits.inside[0], limits.outside[1], limits.inside[2]]
    assert found.pressure[1] == pytest.approx(3.0 * 130.0 / 172.45 * 1e6, rel=1e-4)  # five figures of S3 + S4
    assert "pressure limit held by column squirm (EJMA" in found.words[0]
    assert "pressure limit held by S3 + S4" in found.words[1]


def test_pressure_limit_that_lacks_a_datum_is_not_given_and_said():
    """Column squirm of ASME, 29.01 bar (the forms page), is the least that is left; S3 + S4 might be less and is."""
    found = at_wanted_life(plain(), metal(allowable=np.nan, yield_strength=np.nan), duty())
    assert np.isnan(found.pressure[0])
    assert (
        "pressure limit not given: allowable stress not stated, yield strength not stated; the least of those that "
        "could be reckoned is 29.01 bar (column squirm (ASME" in found.words[0]
    )


def test_pressure_from_outside_is_held_by_the_shell_where_it_folds_first():
    found = at_wanted_life(plain(), metal(), duty(pressure=-1e6), folding=np.array([45e5]))
    assert found.pressure[0] == pytest.approx(15e5, rel=1e-12)  # a third
    assert "pressure limit held by collapse, pressure from outside (elastic folding of the shell" in found.words[0]


@pytest.mark.parametrize(("cycles", "said"), [(369.0, True), (371.0, False), (2e6, True)])
def test_cycles_beyond_the_curves_are_said(cycles, said):
    """Both design curves go from 370 to 1e6 cycles (forms/life.py)."""
    assert (
        "no rated movement: the design curves go from 370"
        in at_wanted_life(plain(), metal(), duty(cycles=cycles)).words[0]
    ) is said
