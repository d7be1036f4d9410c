"""The meridian in segments: joined, smooth, cut in parts; sections of the wall.     (bellows/shell/test_meridian.py)"""

from __future__ import annotations

import numpy as np
import pytest

from takeup.bellows.geometry import Bellows, bellows
from takeup.bellows.shell.meridian import Segments, half_convolution, halves, places
from takeup.bellows.shell.reference import polynomials, reference
from takeup.bellows.shell.section import section
from takeup.bellows.shell.whole import meridian

ENDS = np.array([-1.0, 1.0])


def splayed(**more: float) -> Bellows:
    sizes = {"inside_diameter": 0.219, "height": 0.022, "pitch": 0.024, "ply_thickness": 0.001}
    return bellows(**sizes | more, crest_radius=0.004, root_radius=0.003)


def gaps(segments: Segments) -> np.ndarray:
    """Return how far each segment's end is from the next one's start, in radius, axis and angle."""
    flat = segments.reshaped(-1)
    at = places(flat, ENDS)
    end_angle = flat.angle + flat.turn * flat.length
    ends = np.stack((at.radius[:-1, 1], at.axial[:-1, 1], end_angle[:-1]))
    return np.abs(ends - np.stack((flat.radius[1:], flat.axial[1:], flat.angle[1:])))


def test_half_a_convolution_is_smooth_from_root_to_crest():
    line = half_convolution(splayed())
    assert gaps(line).max() < 1e-15  # rounding of lengths in metres
    at = places(line.reshaped(-1), ENDS)
    assert (at.radius[-1, 1], at.axial[-1, 1]) == pytest.approx((0.132, 0.012), rel=1e-12)
    assert at.cosine[-1, 1] == pytest.approx(1.0, rel=1e-12)


@pytest.mark.parametrize("tangent", [0.0, 0.03])
def test_whole_bellows_is_smooth_from_end_to_end(tangent):
    """Five convolutions of 24 mm: mirrored and moved along, ends at the root's radius of 110 mm."""
    whole = meridian(splayed(convolutions=5, tangent_length=tangent))
    assert gaps(whole.segments).max() < 1e-14
    at = places(whole.segments.reshaped(-1), ENDS)
    assert at.axial[[0, -1], [0, 1]] == pytest.approx([-tangent, 0.120 + tangent], abs=1e-12)
    assert at.radius[[0, -1], [0, 1]] == pytest.approx(0.110, rel=1e-12)
    assert whole.segments.radius.shape == (1, 30 + 2 * bool(tangent))


def test_tangent_is_as_thick_as_the_plies_as_bought():
    whole = meridian(splayed(convolutions=5, tangent_length=0.03, plies=2, ply_thickness=0.0005))
    assert whole.segments.thickness[0, [0, -1]] == pytest.approx(0.001, rel=1e-12)
    assert whole.segments.plies[0, [0, 1]].tolist() == [1.0, 2.0]


def test_halved_segments_lie_on_the_same_line():
    line = half_convolution(splayed())
    cut = halves(line, 4)
    assert gaps(cut).max() < 1e-15
    assert cut.length.sum() == pytest.approx(line.length.sum(), rel=1e-12)
    one, other = (places(some.reshaped(-1), ENDS) for some in (line, cut))
    assert other.radius[-1, 1] == pytest.approx(one.radius[-1, 1], rel=1e-12)


# The wall -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("ratio", [0.01, 0.3, 1.2])
def test_section_of_a_curved_wall(ratio):
    """A straight tube wall bent to a radius a = t/ratio: a_0 = a ln((1 + h)/(1 - h)), h = t/(2 a), by hand.

    With zeta = a (x - 1): a_1 = a (t - a_0), a_2 = -a a_1; the hoop curvature is 1e-9, so nothing of it. Gauss points
    are exact to 1e-9 up to the ratio 1.6 (section.py); 1e-6 for the differences of near numbers by hand.
    """
    t, a = 1.0, 1.0 / ratio
    one = np.ones(1)
    arc = Segments(
        radius=1e9 * one, axial=0.0 * one, angle=0.0 * one, turn=-one / a, length=one, thickness=t * one, plies=one
    )
    found = section(arc, places(arc, np.zeros(1)))
    h = t / (2.0 * a)
    a_0 = a * np.log((1.0 + h) / (1.0 - h))
    a_1 = a * (t - a_0)
    assert [float(part[0, 0]) for part in found.along] == pytest.approx([a_0, a_1, -a * a_1], rel=1e-6)
    assert float(found.around[0][0, 0]) == pytest.approx(t, rel=1e-8)
    assert float(found.around[1][0, 0]) == pytest.approx(t**3 / 12.0 / a, rel=1e-6)  # int zeta (1 + zeta/a)


def test_section_round_the_axis_is_a_logarithm():
    """A cylinder of t/R = 0.4: b_0 = R ln((1 + h)/(1 - h)), h = 0.2; four terms of the series leave 6e-8."""
    one = np.ones(1)
    tube = Segments(
        radius=one, axial=0.0 * one, angle=0.0 * one, turn=0.0 * one, length=one, thickness=0.4 * one, plies=one
    )
    found = section(tube, places(tube, np.zeros(1)))
    b_0 = np.log(1.2 / 0.8)
    b_1 = 0.4 - b_0
    assert [float(part[0, 0]) for part in found.around] == pytest.approx([b_0, b_1, -b_1], rel=2e-5)


# The element of reference -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("order", [2, 5, 10])
def test_element_holds_polynomials_of_its_order(order):
    """Value and slope of x^order at the Gauss points from its values at the nodes, and the integral over samples."""
    of = reference(order)
    values = of.nodes**order
    assert of.values @ values == pytest.approx(of.points**order, abs=1e-11)
    assert of.slopes @ values == pytest.approx(order * of.points ** (order - 1), abs=1e-9)
    even = 2 * (order // 2)
    assert of.sample_weights @ of.samples**even == pytest.approx(2.0 / (even + 1.0), rel=1e-10)
    assert of.from_points @ of.points ** (order - 1) == pytest.approx(of.samples ** (order - 1), abs=1e-11)
    assert polynomials(of.nodes, of.nodes)[0] == pytest.approx(np.eye(order + 1), abs=1e-12)
    assert (of.nodes[:2] == [-1.0, 1.0]).all()
