"""Forces of a span with a loop by a loop worked out once, beside those of the whole line with the loop in it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.bare_lines import bare_text, course_on

from takeup.choose.arrange.chain import chain_of
from takeup.choose.arrange.loop_shape import loop_forces
from takeup.choose.arrange.places import anchor_of
from takeup.line.looped import LoopPlan, looped, moved_station

COURSE = course_on(bare_text("40 m east", "9 m north", "6 m up", "12 m east", may=("{ at: [ 6 m, 30 m ] }",)))


INNER = [place for place in COURSE.places if not place.fixed]
CUT = replace(COURSE.line, holds=tuple(replace(anchor_of(place), kind="rest") for place in INNER))
STUDY = replace(COURSE.study, lines=(CUT,))


def by_the_whole_line(span, loop):
    """The line with a cut at every place, so that a chain may end there; rests are no part of a chain."""
    study = looped(STUDY, COURSE.line.name, (loop,))
    chain = chain_of(study, study.line(COURSE.line.name))
    cuts = [chain.cut_at(moved_station(COURSE.places[number].station, (loop,))) for number in span]
    wrench = chain.forces(np.array([cuts]))[0]
    return np.stack([-wrench[:, :3], wrench[:, :3]])


@settings(max_examples=15, deadline=None)
@given(
    station=st.floats(11.0, 25.0).map(lambda value: round(value, 2)),
    width=st.sampled_from([0.8, 1.2]),
    depth=st.sampled_from([1.0, 2.4]),
    up=st.booleans(),
    span=st.sampled_from([(0, 2), (0, 3), (1, 2), (1, 3)]),
)
def test_loop_worked_out_once_is_the_loop_in_the_line(station, width, depth, up, span):
    towards = (0.0, 0.0, 1.0) if up else (0.0, 1.0, 0.0)
    loop = LoopPlan(name="loop 1", station=station, width=width, depth=depth, towards=towards)
    found, _ = loop_forces(COURSE, span, loop)
    expected = by_the_whole_line(span, loop)
    scale = np.abs(expected).max()
    # the same members added up in another order: the condition of F times rounding, some 1e-10 of the greatest force
    assert found == pytest.approx(expected, rel=0.0, abs=1e-8 * scale)
