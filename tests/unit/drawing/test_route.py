"""Bends are true arcs, and a station is found on its leg."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from tests.unit.drawing.results_fixture import corner, line_of, riser

from takeup.drawing.projection import DOWN, EAST, NORTH
from takeup.drawing.route import Bend, Straight, elevation_at, on_legs, profile_of, runs_of

EXACT = 1e-12  # m: sums of a few floats near 100


def test_bend_of_90_degrees_lies_where_its_radius_says():
    """Corner at (96, 0), R = 0.305 m, tangent R: centre (95.695, 0.305), from (95.695, 0) to (96, 0.305), by hand."""
    runs = runs_of(corner()["lines"][0])
    assert [type(run) for run in runs] == [Straight, Bend, Straight, Bend, Straight]
    bend = runs[1]
    assert bend.radius == pytest.approx(0.305, abs=EXACT)
    assert bend.centre == pytest.approx((95.695, 0.305, 4.5), abs=EXACT)
    assert bend.at(0.0) == pytest.approx((95.695, 0.0, 4.5), abs=EXACT)
    assert bend.at(bend.angle) == pytest.approx((96.0, 0.305, 4.5), abs=EXACT)


def test_straights_and_arcs_join():
    for line in (corner()["lines"][0], riser()["lines"][0]):
        runs = runs_of(line)
        ends = [(run.start, run.end) if isinstance(run, Straight) else (run.at(0.0), run.at(run.angle)) for run in runs]
        for (_, end), (start, _) in pairwise(ends):
            assert start == pytest.approx(end, abs=EXACT)


def test_bend_of_45_degrees_in_space():
    """From east to 45 degrees up: R = 1 m, T = R tan 22.5 = 0.41421356 m; it ends T cos 45 = 0.29289322 along each."""
    line = line_of([(0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (20.0, 0.0, 10.0)], [None])
    line["bends"][0] |= {"radius_mm": 1000.0, "tangent_m": math.tan(math.pi / 8)}
    bend = runs_of(line)[1]
    assert bend.radius == pytest.approx(1.0, abs=EXACT)
    assert bend.at(0.0) == pytest.approx((10.0 - 0.41421356, 0.0, 0.0), abs=1e-8)  # eight printed figures
    assert bend.at(bend.angle) == pytest.approx((10.29289322, 0.0, 0.29289322), abs=1e-8)


def test_station_is_found_on_its_leg():
    """Station 100.5 m of the L is 4.5 m up its second leg, which begins at 96 m."""
    at, along = on_legs(corner()["lines"][0], 100.5)
    assert at == pytest.approx((96.0, 4.5, 4.5), abs=EXACT)
    assert along == (0.0, 1.0, 0.0)


def test_elevation_is_linear_between_nodes():
    """Half-way up the riser, at station 4 + 21 m, the elevation is 0.5 + 21 m."""
    assert elevation_at(profile_of(riser()["lines"][0]), 25.0) == pytest.approx(21.5, abs=EXACT)


def test_views_look_the_way_they_say():
    """Looking down east is right and north is up; looking north east is right; looking east south is right."""
    assert DOWN.flat((1.0, 2.0, 3.0)) == (1.0, 2.0)
    assert NORTH.flat((1.0, 2.0, 3.0)) == (1.0, 3.0)
    assert EAST.flat((1.0, 2.0, 3.0)) == (-2.0, 3.0)
