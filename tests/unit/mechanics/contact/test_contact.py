"""Each kind of contact against a closed form.     (contact/test_contact.py)"""

from __future__ import annotations

import numpy as np
import pytest
from tests.unit.mechanics.builders import ANCHOR, AXIAL, BENDING, TORSION, answer, chain, nodal, uniform
from tests.unit.mechanics.contact.contacts import DOWN, causes, condensed, gaps, rests, rubs

from takeup.mechanics import NotHeld, Steps, answers_of, condense, no_gaps, no_rubs, parts_of, walk

TIGHT = 1e-9  # forces are verified to 1e-9 of the largest


def steps(*amounts, **more) -> Steps:
    return Steps(amounts=np.array(amounts, dtype=float), **more)


def straight(length, members, holds):
    return chain(np.outer(np.linspace(0.0, length, members + 1), [1.0, 0.0, 0.0]), holds)


def walked(problem, told, **more):
    found = walk(problem, told, **more)
    assert found.converged.all(), found.because
    assert answers_of(found).residual[found.held] == pytest.approx(0.0, abs=TIGHT)
    return found


def test_rest_two_spans_lift_off():
    """Beam on three rests, uniform load q; a force P up at the middle of one span lifts the far end when large enough.

    Continuous beam of two spans l (textbook): end reactions 3/8 q l under load on both; P down in the middle of the
    first span gives the far end reaction -3/32 P: it lifts off at P = 3/8 q l x 32/3 = 4 q l. Beyond, the far span is a
    cantilever: far rest zero, first rest by moments about the middle one, R_1 l + q l^2/2 = q l^2/2 + P l/2, R_1 = P/2.
    """
    span, load = 6.0, 100.0
    frame = straight(2.0 * span, 8, {})
    side = [{"node": 0, "direction": way, "minus": 0.0} for way in ((1.0, 0, 0), (0, 1.0, 0))]
    side += [{"node": 8, "direction": (0, 1.0, 0), "minus": 0.0}]
    twist = [{"node": 0, "direction": (1.0, 0, 0), "minus": 0.0, "turns": True}]
    problem = condensed(
        frame,
        rests((0, 4, 8)) + side + twist,
        (),
        uniform(frame, per_length=(0, 0, -load)),
        nodal(frame, {2: (0, 0, -1.0, 0, 0, 0)}),
    )
    limit = 4.0 * load * span
    found = walked(problem, steps((1, 0), (1, 0.5 * limit), (1, 2.0 * limit)))
    assert found.forces[0, :3] == pytest.approx(np.array([3, 10, 3]) / 8 * load * span, rel=TIGHT)
    assert found.forces[1, 2] == pytest.approx(3 / 8 * load * span - 3 / 32 * 0.5 * limit, rel=TIGHT)
    assert found.forces[2, 2] == 0.0
    assert found.forces[2, 0] == pytest.approx(limit, rel=TIGHT)
    assert found.movements[2, 2] < 0.0  # against `down`: it has risen
    lifted = next(event for event in found.events if event.what == "opens")
    assert (lifted.step, lifted.index) == (2, 2)
    assert lifted.fraction == pytest.approx(1.0 / 3.0, rel=TIGHT)  # from limit/2 to 2 limit, met at limit


def test_guide_with_clearance():
    """Cantilever, force P at its end, a guide there with clearance c: touches at P = 3EI c/L^3, takes the rest."""
    length, clearance = 5.0, 0.004
    frame = straight(length, 5, {0: ANCHOR})
    guide = {"node": 5, "direction": (0, 1.0, 0), "plus": clearance, "minus": clearance}
    problem = condensed(frame, [guide], (), nodal(frame, {5: (0, 1.0, 0, 0, 0, 0)}))
    touches = 3.0 * BENDING * clearance / length**3
    found = walked(problem, steps([0.5 * touches], [3.0 * touches], [-2.0 * touches]))
    assert found.forces[:, 0] == pytest.approx([0.0, 2.0 * touches, -touches], rel=TIGHT)
    assert found.sides[:, 0].tolist() == [0, 1, -1]
    assert found.movements[:, 0] == pytest.approx([0.5 * clearance, clearance, -clearance], rel=TIGHT)
    assert [event.what for event in found.events] == ["closes", "opens", "closes"]
    assert [event.fraction for event in found.events] == pytest.approx([0.2, 0.4, 0.8], rel=TIGHT)


def test_rods_slacken_with_heat():
    """Rod across a soft member between anchors: pressure pair P stretches it, heat closes the gap and the rod lets go.

    Rod of stiffness k beside a joint of rate j between pipes of EA/L on either side of anchors 2 a apart. Cold: the rod
    carries its share of P; by stiffness: pipe p = EA/(2 a) in series round the anchors, x = P/(j + k + p), rod k x.
    Heat e on 2 a of pipe: x = (P - p 2 a e)/(j + k + p): the rod is slack at e = P/(p 2 a) = P/EA (by hand).
    """
    arm, rate, rod, push = 4.0, 2.0e5, 3.0e7, 4.0e4
    points = np.array([[0.0, 0, 0], [arm, 0, 0], [arm + 1.0, 0, 0], [2 * arm + 1.0, 0, 0]])
    frame = chain(points, {0: ANCHOR, 3: ANCHOR})
    frame.straights.axial[1] = rate
    tie = {"node": 2, "other": 1, "direction": (1.0, 0, 0), "compliance": 1.0 / rod}
    heat = uniform(frame)
    heat.strain[0, [0, 2]] = 1.0
    problem = condensed(frame, [tie], (), nodal(frame, {1: (-1.0, 0, 0, 0, 0, 0), 2: (1.0, 0, 0, 0, 0, 0)}), heat)
    slack = push / AXIAL
    found = walked(problem, steps((push, 0), (push, 0.5 * slack), (push, 2.0 * slack), (push, 0)))
    total = rate + rod + AXIAL / (2 * arm)
    first = rod * push / total
    assert found.forces[:, 0] == pytest.approx([first, 0.5 * first, 0.0, first], rel=1e-8)
    parts = parts_of(found)
    assert parts.row_forces[1, :, 0] == pytest.approx([first, -0.5 * first, 0.0, 0.0, 0.0], rel=1e-8, abs=1e-6)
    thrust = answers_of(found).reactions[2, 0, 0]  # slack: joint and anchors share as without a rod
    squeezed = (push - AXIAL * 2.0 * slack) / (rate + AXIAL / (2 * arm))
    assert thrust == pytest.approx(push - rate * squeezed, rel=1e-8)


def test_stop_with_gap_on_a_growing_rod():
    """A rod grows e L; a stop after gap c takes EA (e - c/L), by hand; the foot of the stop moving away adds to c."""
    length, gap = 8.0, 0.005
    frame = straight(length, 4, {0: ANCHOR})
    problem = condensed(frame, [{"node": 4, "direction": (1.0, 0, 0), "plus": gap}], (), uniform(frame, strain=1e-3))
    feet = np.array([[0.0], [0.001], [0.0]])
    found = walked(problem, steps([1.0], [1.0], [0.0], feet=feet))
    force = AXIAL * (1e-3 - np.array([gap, gap + 0.001]) / length)
    assert found.forces[:, 0] == pytest.approx([*force, 0.0], rel=TIGHT)
    assert answers_of(found).reactions[0, 0, 0] == pytest.approx(force[0], rel=TIGHT)
    parts = parts_of(found)
    expected = [AXIAL * 1e-3, -AXIAL * 0.001 / length, -AXIAL * gap / length, 0.0]  # heat, foot, gap, friction
    assert parts.row_forces[1, :, 0] == pytest.approx(expected, rel=TIGHT)


def rubbing_rod(count=10, pitch=3.0, mu=0.3):
    """Return a rod anchored at its start on rests that rub along it: weight, growth, end force."""
    frame = straight(count * pitch, count, {0: ANCHOR})
    nodes = range(1, count + 1)
    told = [{"node": node, "along": (1.0, 0, 0), "mu": mu, "by": [node - 1]} for node in nodes]
    return frame, condensed(
        frame,
        rests(nodes),
        told,
        uniform(frame, per_length=(0, 0, -850.0)),
        uniform(frame, strain=1e-3),
        nodal(frame, {count: (1.0, 0, 0, 0, 0, 0)}),
    )


def test_friction_makes_a_triangle_of_axial_force():
    """Free end, growing: every support slips outward, so the axial force at each is minus the sum of mu N beyond it."""
    _, problem = rubbing_rod()
    found = walked(problem, steps((1, 0, 0), (1, 1, 0), (1, 0, 0), (1, 1, 0)))
    slide = 0.3 * found.forces[1]
    assert found.friction[1, :, 0] == pytest.approx(-slide, rel=TIGHT)
    axial = answers_of(found).end_forces[1, :, 0]
    assert axial == pytest.approx(-np.cumsum(slide[::-1])[::-1], rel=TIGHT)
    assert found.friction[2, :, 0] == pytest.approx(slide, rel=TIGHT)  # cooled: the other way round, and locked in
    assert answers_of(found).reactions[2, 0, 0] == pytest.approx(-slide.sum(), rel=TIGHT)
    assert found.friction[3, :, 0] == pytest.approx(-slide, rel=TIGHT)
    assert found.dissipated[1] == pytest.approx((slide * np.abs(found.slip[1, :, 0])).sum(), rel=1e-2)
    assert (found.rubbing[1:] == 2).all()


def test_friction_left_in_an_anchor_depends_on_the_order():
    """A pull that stretches the rod, and heat, on and off: the friction left has the sign of the last slip home.

    Pull first, heat second, both off in the same order: the last movement is cooling, inward: friction on the rod
    outward, +sum mu N; the anchor -sum mu N. A push (pull of the other sign) taken off last leaves it inward. By hand.
    """
    _, problem = rubbing_rod()
    pull = 2.0e5  # several times the friction of all supports
    one = walked(problem, steps((1, 0, 0), (1, 0, pull), (1, 1, pull), (1, 1, 0), (1, 0, 0)))
    other = walked(problem, steps((1, 0, 0), (1, 1, 0), (1, 1, -pull), (1, 0, -pull), (1, 0, 0)))
    left = 0.3 * one.forces[-1].sum()
    assert answers_of(one).reactions[-1, 0, 0] == pytest.approx(-left, rel=TIGHT)
    assert answers_of(other).reactions[-1, 0, 0] == pytest.approx(left, rel=TIGHT)


def test_friction_locked_in_at_installation():
    """Told parts of the limit stand at the end of the first step; zeros make it a step without friction."""
    _, problem = rubbing_rod(count=4)
    told = np.zeros((4, 2))
    told[:, 0] = [1.0, -1.0, 0.5, 0.0]
    found = walked(problem, steps((1, 0, 0), (1, 0.5, 0), locked=told))
    assert found.friction[0, :, 0] == pytest.approx(0.3 * found.forces[0] * told[:, 0], rel=TIGHT, abs=1e-9)
    assert found.friction[1, :, 0] == pytest.approx(-0.3 * found.forces[1], rel=TIGHT)
    smooth = walked(problem, steps((1, 0, 0), locked=0.0 * told))
    assert smooth.friction == pytest.approx(0.0, abs=1e-9)


def test_pin_rubs_with_a_lever():
    """A pin of radius r carrying thrust T holds a moment mu T r: torque beyond it turns the member, by hand.

    The thrust is the force of a row without clearance, 9 kN pulled at the pin; mu r T = 0.2 x 0.05 x 9000 = 90 N m.
    """
    length = 2.0
    frame = straight(length, 1, {0: ANCHOR})
    hold = {"node": 1, "direction": (1.0, 0, 0), "minus": 0.0}
    pin = {"node": 1, "along": (1.0, 0, 0), "mu": 0.2, "by": [0], "lever": 0.05, "turns": True}
    torque = nodal(frame, {1: (0, 0, 0, 1.0, 0, 0)})
    problem = condensed(frame, [hold], [pin], nodal(frame, {1: (1.0, 0, 0, 0, 0, 0)}), torque)
    found = walked(problem, steps((9_000, 0), (9_000, 50), (9_000, 200)))
    assert found.friction[:, 0, 0] == pytest.approx([0.0, -50.0, -90.0], rel=TIGHT, abs=1e-9)
    assert found.slip[2, 0, 0] == pytest.approx(110.0 * length / TORSION, rel=TIGHT)


def test_block_on_two_tangents_slides_along_its_path():
    """A block held by equal soft springs, dragged far along y: friction lies against the slip, of size mu N.

    A cantilever upright has equal stiffness both ways. Dragged along x to slip, then along y only, friction turns from
    -x toward -y and, since slip then is along y, ends there: tractrix, so within 1 per cent after ten times the
    length over which it turns (legs turn friction by at most 0.1 rad).
    """
    height, mu, weight = 3.0, 0.2, 5_000.0
    frame = chain([[0.0, 0, height], [0.0, 0, 0.0]], {0: ANCHOR})
    rub = {"node": 1, "along": (1.0, 0, 0), "across": (0, 1.0, 0), "mu": mu, "by": [0]}
    drag = [nodal(frame, {1: way}) for way in ((0, 0, -1.0, 0, 0, 0), (1.0, 0, 0, 0, 0, 0), (0, 1.0, 0, 0, 0, 0))]
    problem = condensed(frame, rests([1]), [rub], *drag)
    limit = mu * weight
    share = walked(problem, steps((weight, 0, 0))).forces[0, 0] / weight
    limit *= share
    found = walked(problem, steps((weight, 0, 0), (weight, 3 * limit, 0), (weight, 3 * limit, 20 * limit)))
    assert found.friction[1, 0] == pytest.approx([-limit, 0.0], rel=TIGHT, abs=1e-9 * limit)
    assert np.hypot(*found.friction[2, 0]) == pytest.approx(limit, rel=1e-9)
    assert found.friction[2, 0] == pytest.approx([0.0, -limit], abs=0.01 * limit)
    assert (found.dissipated >= 0.0).all()


def test_turned_tangents_make_no_difference():
    """A plane rub knows no preferred direction: tangents turned by any angle give the same friction vector."""
    height = 3.0
    frame = chain([[0.0, 0, height], [0.0, 0, 0.0]], {0: ANCHOR})
    drag = [nodal(frame, {1: way}) for way in ((0, 0, -1.0, 0, 0, 0), (1.0, 0, 0, 0, 0, 0), (0, 1.0, 0, 0, 0, 0))]
    vectors = []
    for angle in (0.0, 0.7):
        along, across = (np.cos(angle), np.sin(angle), 0.0), (-np.sin(angle), np.cos(angle), 0.0)
        problem = condensed(
            frame, rests([1]), [{"node": 1, "along": along, "across": across, "mu": 0.3, "by": [0]}], *drag
        )
        found = walked(problem, steps((5e3, 0, 0), (5e3, 4e3, 1e3), (5e3, -2e3, 4e3)))
        vectors.append(found.friction[:, 0] @ np.array([along, across]))
    assert vectors[1] == pytest.approx(vectors[0], rel=1e-6, abs=1e-6)  # legs end at the same turns; rounding only


def test_beam_on_one_sided_rests_only():
    """No anchor at all: rests carry the weight; what is loose is named; guides with clearance catch a push."""
    frame = straight(12.0, 4, {})
    weight = uniform(frame, per_length=(0, 0, -100.0))
    problem = condensed(
        frame,
        [
            *rests((0, 2, 4)),
            {"node": 0, "direction": (1.0, 0, 0), "minus": 0.0},
            {"node": 0, "direction": (1.0, 0, 0), "minus": 0.0, "turns": True},
            {"node": 0, "direction": (0, 1.0, 0), "plus": 0.01, "minus": 0.01},
            {"node": 4, "direction": (0, 1.0, 0), "plus": 0.01, "minus": 0.01},
        ],
        (),
        weight,
        uniform(frame, per_length=(0, 50.0, 0)),
    )
    found = walk(problem, steps((1, 0), (1, 1)))
    assert found.held.tolist() == [False, True]
    assert np.isnan(found.forces[0]).all()
    assert (
        "not held: can move freely along (0, 1, 0); can turn freely about the direction (0, 0, 1)" in found.because[0]
    )
    assert found.free[0][1].motions.shape == (2, 5, 6)
    assert found.forces[1, :3] == pytest.approx(np.array([3, 10, 3]) / 8 * 600.0, rel=TIGHT)
    assert found.forces[1, 5:] == pytest.approx([300.0, 300.0], rel=TIGHT)
    assert answers_of(found).residual[1] == pytest.approx(0.0, abs=TIGHT)


def test_condense_names_what_no_row_could_hold():
    frame = straight(12.0, 4, {})
    found = condense(frame, gaps(*rests((0, 4))), rubs(), causes(uniform(frame)))
    assert isinstance(found, NotHeld)
    assert any("along (1, 0, 0)" in words for words in found.words)


def test_no_contacts_is_the_plain_solution():
    frame = straight(9.0, 3, {0: ANCHOR, 3: ANCHOR})
    load = uniform(frame, strain=1e-3, per_length=(0, 30.0, -850.0))
    plain = answer(frame, load)
    problem = condense(frame, no_gaps(), no_rubs(), load)
    found = answers_of(walked(problem, steps([1.0])))
    assert found.displacements == pytest.approx(plain.displacements, rel=1e-12, abs=1e-15)
    assert found.end_forces == pytest.approx(plain.end_forces, rel=1e-12, abs=1e-6)
    assert found.reactions == pytest.approx(plain.reactions, rel=1e-12, abs=1e-6)


def test_directions_must_be_unit_vectors():
    frame = straight(9.0, 3, {0: ANCHOR})
    with pytest.raises(ValueError, match="unit vectors"):
        condense(frame, gaps({"node": 3, "direction": (0, 0, -2.0)}), no_rubs(), uniform(frame))
    assert DOWN == (0.0, 0.0, -1.0)
