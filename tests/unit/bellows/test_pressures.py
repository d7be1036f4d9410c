"""Pressure limits: each is full at its limit; the least is named.     (test_pressures.py)"""

from __future__ import annotations

import numpy as np
import pytest
from tests.bellows_builders import duty, metal, plain

from takeup.bellows.forms import acceptance, published
from takeup.bellows.pressures import pressure_limits


def test_limits_of_the_example_by_hand():
    """docs/theory/bellows-forms.md at 1 MPa: S2 52.91, S3 + S4 172.45 MPa; p_sc 2.901, p_si 2.313 MPa; S = 130 MPa.

    130/52.91 = 2.4570 MPa; five figures of S2, four of the squirm pressures.
    """
    by_name = {
        (one.name, one.source[:4], one.outside): one.pressure[0] for one in pressure_limits(plain(), metal()).criteria
    }
    assert by_name["S2, inner convolution", "ASME", False] == pytest.approx(2.4570e6, rel=1e-4)
    assert by_name["column squirm", "ASME", False] == pytest.approx(2.901e6, rel=2e-4)
    assert by_name["in-plane squirm", "ASME", False] == pytest.approx(2.313e6, rel=2.2e-4)
    assert by_name["S3 + S4, meridian", "EN 1", False] == pytest.approx(3.0 * 130.0 / 172.45 * 1e6, rel=1e-4)


@pytest.mark.parametrize("outside", [False, True])
def test_every_criterion_is_full_at_its_own_limit_and_one_at_the_least(outside):
    shape, made = plain(height=[0.022, 0.035], plies=[1, 2], tangent_length=0.02), metal(2)
    limits = pressure_limits(shape, made)
    least = limits.outside if outside else limits.inside
    asked = duty(2)
    asked = type(asked)(
        **{name: getattr(asked, name) for name in asked.__slots__} | {"pressure": -least if outside else least}
    )
    uses = np.array([one.use for one in acceptance(published(shape, made, asked), made, asked) if one.unit == "Pa"])
    assert np.nanmax(uses, axis=0) == pytest.approx(1.0, rel=1e-12)  # only doubles round


def test_what_lacks_a_datum_is_left_out_of_the_least():
    limits = pressure_limits(plain(), metal(allowable=np.nan, yield_strength=np.nan))
    assert limits.inside_by[0].startswith("column squirm (ASME")
    assert limits.outside_by[0].startswith("collapse")


def test_squirm_is_of_pressure_inside_and_collapse_from_outside():
    criteria = pressure_limits(plain(), metal()).criteria
    assert {one.name for one in criteria if one.outside} >= {"collapse, pressure from outside"}
    assert not any("squirm" in one.name for one in criteria if one.outside)
    assert not any("collapse" in one.name for one in criteria if not one.outside)


@pytest.mark.parametrize(
    ("unstated", "lacks", "by"),
    [
        ({"allowable": np.nan}, "allowable stress not stated", "column squirm (EJMA"),
        ({"yield_strength": np.nan}, "yield strength not stated", "S3 + S4, meridian"),
        (
            {"allowable": np.nan, "yield_strength": np.nan},
            "allowable stress not stated, yield strength not stated",
            "column squirm (ASME",
        ),
    ],
)
def test_no_limit_where_a_criterion_lacks_its_datum(unstated, lacks, by):
    """The criterion that lacks it might be the least: of the example column squirm is 29 bar, S3 + S4 22.6 bar."""
    [found] = [pressure_limits(plain(), metal(**unstated)).from_inside]
    assert np.isnan(found.limit[0])
    assert found.lacks == (lacks,)
    assert found.by[0].startswith(by)
    assert np.isfinite(found.reckoned[0])


def test_no_limit_outside_the_charts():
    found = pressure_limits(plain(height=0.010), metal()).from_inside  # C1 = 1.2, beyond the charts
    assert np.isnan(found.limit[0])
    assert found.lacks[0].startswith("outside the range of the published form (S3 + S4, meridian, column squirm")


@pytest.mark.parametrize(("folding", "by"), [(60e5, "elastic folding of the shell"), (9e9, "S3 + S4")])
def test_collapse_is_the_lesser_of_rings_and_shell(folding, by):
    """A third of 60 bar is 20 bar, below the example's 22.61 bar of S3 + S4 (the forms page)."""
    found = pressure_limits(plain(), metal(), folding=np.array([folding]))
    collapse = [one.pressure[0] for one in found.criteria if one.name == "collapse, pressure from outside"]
    assert len(collapse) == 2
    assert collapse[1] == pytest.approx(folding / 3.0, rel=1e-12)
    assert by in found.outside_by[0]
    assert found.outside[0] == pytest.approx(min(folding / 3.0, 3.0 * 130.0 / 172.45 * 1e6), rel=1e-4)


def test_thick_rings_leave_collapse_to_the_shell():
    """D_eq/e_eq below 10 is beyond the ring's form; the shell is then all that is asked of collapse."""
    thick = plain(inside_diameter=0.02, height=0.014, pitch=0.02, ply_thickness=2e-3)
    alone = pressure_limits(thick, metal()).from_outside
    assert "collapse" in alone.lacks[0]
    found = pressure_limits(thick, metal(), folding=np.array([1e5])).from_outside
    assert (found.lacks[0], found.limit[0]) == ("", 1e5 / 3.0)
