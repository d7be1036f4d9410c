"""Bends: the moment between their ends; mitres taken for a tighter bend.     (tests/unit/study/test_bends.py)"""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.builders import checks, hold_of, line_file, solve, state_number, study_of

from takeup.basis import bend_factors, section_modulus
from takeup.line import route_of
from takeup.study import CAUSES
from takeup.study.fittings import bend_flexibility

LIMIT = 'allowable: { expansion_stress_range: { value: 200 MPa, source: "invented" } }'


def test_a_bend_is_stressed_by_the_greatest_moment_between_its_ends():
    """M at a place by statics from one anchor's load, M_0 + (x_0 - x) x F; at mid-arc it is above both tangents.

    S = i M/Z, ASME B31.1 104.8.3 (from memory). 1 %: cuts every 15 degrees miss the peak by 1 - cos 7.5 deg at most.
    """
    text = line_file(["3 m east", "3 m north"], more=LIMIT)
    answer = solve(text)
    load = hold_of(answer, "west end").parts[state_number(answer, "operating"), CAUSES.index("growth")]
    (turn,) = answer.model.route.turns
    stations = np.linspace(turn.begin, turn.finish, 201)
    places = np.array([answer.model.route.point(float(station)) for station in stations])
    moments = np.linalg.norm(load[3:] + np.cross(-places, load[:3]), axis=1)
    assert moments.max() > 1.15 * max(moments[0], moments[-1])
    pipe = answer.line.pipe
    mean = (pipe.size.outside_diameter - pipe.wall) / 2.0
    factors = bend_factors("ASME B31.1", bend_radius=turn.radius, mean_radius=mean, wall=pipe.wall)
    peak = factors.in_plane * moments.max() / section_modulus(pipe.size.outside_diameter, pipe.wall)
    (row,) = checks(text, "expansion_stress")
    assert row.demand == pytest.approx(peak / 1e6, rel=0.01)
    assert "the bend at" in row.because


def test_the_factor_of_a_wide_mitre_holds_for_the_bend_that_the_code_takes_it_for():
    """By hand, 323.8 x 9.53 mm, two cuts in 90 degrees, R 900 mm: theta 22.5 deg, r2 157.135 mm.

    R1 = r2 (1 + cot theta)/2 = 268.24 mm, h = T R1/r2^2 = 0.10353, k = 1.52/h^(5/6) = 10.062 (from memory);
    over the arc of 900 mm: (10.062 x 268.24 + 631.76)/900 = 3.701.
    """
    study = study_of(
        line_file(
            ['5 m east, bend: "mitre, 2 cuts, radius 900 mm"', "5 m north"],
            pipe="{ size: DN 300, wall: 9.53 mm, material: ASTM A106 B }",
        )
    )
    (line,) = study.lines
    (turn,) = route_of(line).turns
    radius = 157.135e-3 * (1.0 + 1.0 / math.tan(math.radians(22.5))) / 2.0
    assert radius == pytest.approx(0.26824, rel=1e-4)
    assert bend_flexibility(study, line, turn) == pytest.approx(3.701, rel=1e-3)  # four figures by hand
