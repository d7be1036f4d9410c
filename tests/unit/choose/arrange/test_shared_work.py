"""What spans share is worked out once: no plan is other than that of a search that asks for its span alone."""

from __future__ import annotations

from dataclasses import fields

import numpy as np
import pytest
from tests.bare_lines import bare_text, chance_text, ground_on

from takeup.choose.arrange.bare import bare_plans
from takeup.choose.arrange.least import with_least
from takeup.choose.arrange.records import Plan
from takeup.choose.arrange.spans import plans_of, spans_of
from takeup.errors import InputError

STEAM = (6.0, 180.0, "steam")
TURNING = bare_text(
    "20 m east", "4 m north", "24 m east", "9 m north",
    may=("{ at: 6 m }", "{ at: 13 m }", "{ at: 31 m }", "{ at: 40 m }", "{ at: 52 m }"), takes=STEAM,
)  # fmt: skip
LEAST = 1e-12
"""Of the greatest force: the same few operations in the same order, one span after the other or several at once."""


def told(found):
    """Return a plan or refusal without its forces, and these."""
    forces = ("forces", "alone", "drag")
    return [repr(getattr(found, one.name)) for one in fields(found) if one.name not in forces], [
        np.zeros(1) if getattr(found, one, None) is None else getattr(found, one) for one in forces
    ]


def same(one, other):
    (words, forces), (words_too, forces_too) = told(one), told(other)
    assert words == words_too
    for mine, yours in zip(forces, forces_too, strict=True):
        assert mine.shape == yours.shape
        assert np.abs(mine - yours).max() <= LEAST * max(np.abs(yours).max(), 1.0)


@pytest.mark.parametrize("keys", [TURNING, *(chance_text(seed, places=4) for seed in (3, 11, 29, 47))])
def test_bare_spans_are_what_they_are_alone(keys):
    """A fresh ground for every span, the last one first, so that none has been asked for another before."""
    try:
        course = ground_on(keys).courses[0]
    except InputError:  # a place on a bend
        pytest.skip("a place of this line stands on a bend")
    together = [list(bare_plans(course, near, far)) for near, far in spans_of(course)]
    for (near, far), found in reversed(list(zip(spans_of(course), together, strict=True))):
        alone = list(bare_plans(ground_on(keys).courses[0], near, far))
        assert len(alone) == len(found)
        for one, other in zip(found, alone, strict=True):
            same(one, other)


def test_plans_of_every_span_are_what_they_are_alone(monkeypatch):
    """Hinges, joints, loops and their guides; asked for the other way round, so that another fills what is shared."""
    plans, refusals = plans_of(ground_on(TURNING))
    assert {"three hinges", "hinge pair", "no take-up"} <= {plan.concept for plan in plans}

    def backwards(course):
        return reversed(list(spans_of(course)))

    monkeypatch.setattr("takeup.choose.arrange.spans.spans_of", backwards)
    plans_too, refusals_too = plans_of(ground_on(TURNING))
    assert len(plans) == len(plans_too)
    for one, other in zip(sorted(plans, key=key), sorted(plans_too, key=key), strict=True):
        same(one, other)
    assert sorted(map(repr, refusals)) == sorted(map(repr, refusals_too))


def key(plan: Plan) -> tuple[int, int, str]:
    return plan.key


def test_places_count_along_all_lines():
    course = ground_on(TURNING).courses[0]
    plan = next(one for span in spans_of(course) for one in bare_plans(course, *span) if isinstance(one, Plan))
    counted = with_least(course, plan, 7)
    assert (counted.near, counted.far) == (plan.near + 7, plan.far + 7)
