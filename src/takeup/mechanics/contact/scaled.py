"""A condensed problem, scaled row by row to square roots of energy.     (mechanics/contact/scaled.py)

    movement over s, force times s,    s = sqrt(W_ii + c_i)

so that forces, moments, metres and turns compare. It has one set of friction coefficients.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.mechanics.contact.rows import ContactProblem, second_tangents
from takeup.mechanics.frame import Flags, Floats, Integers

_IDLE = 1e-12  # of the largest compliance among rows alike: a row that holds and springs of the frame keep still


@dataclass(frozen=True, kw_only=True, slots=True)
class Scaled:
    """A condensed problem with one set of friction coefficients, scaled row by row; g gaps, t rubs, r rows.

    Args:
        scale: s of each row, (r,).
        gaps: g.
        rubs: t.
        w: compliance, (r, r).
        moved: movement under each cause, (r, c).
        rate: of the springs in W, (r,).
        give: compliance of closed rows, (r,).
        gap: upper and lower end of the dead zone, (2, g).
        press: limit of friction by force of each gap row, (t, g).
        constant: limit of friction by what is always there, (t,).
        rub_of: rub of each row, -1 for gap rows and springs, (r,).
        second: row of each rub's second tangent, -1 where there is none, (t,).
        pressers: gap rows that press each rub, t of (.,).
        pressed_by: the same, -1 where there are fewer, (t, m).
        planes: rubs with two tangents.
        idle: rows that cannot move, (r,).
        ties: rows that are no contact, but hold the frame where nothing else does, (r,).
        rubbing: rows of rubs that can have friction, (r,).
        lines: rubs of one tangent among these.
    """

    scale: Floats
    gaps: int
    rubs: int
    w: Floats
    moved: Floats
    rate: Floats
    give: Floats
    gap: Floats
    press: Floats
    constant: Floats
    rub_of: Integers
    second: Integers
    pressers: tuple[list[int], ...]
    pressed_by: Integers
    planes: Integers
    idle: Flags
    ties: Flags
    rubbing: Flags
    lines: Integers


def scaled(problem: ContactProblem, mu: Floats) -> Scaled:
    """Return a problem scaled to square roots of energy.

    Args:
        problem: the problem.
        mu: coefficient of friction of each rub, (t,).
    """
    gaps, rubs, rows = problem.gaps, problem.rubs, len(problem.rate)
    g, t, second = len(gaps.node), len(rubs.node), second_tangents(problem)
    give = np.zeros(rows)
    give[:g] = 0.0 if gaps.compliance is None else gaps.compliance
    size = np.diag(problem.compliance) + give
    turning = problem.rows.vector[:, 0, :3].any(axis=1)
    idle = np.zeros(rows, dtype=bool)
    for alike in (turning, ~turning):
        idle[alike] = size[alike] <= _IDLE * size[alike].max(initial=0.0)
    two = second >= 0
    pair = 0.5 * (size[g : g + t][two] + size[second[two]])  # alike however the tangents lie in their plane
    size[g : g + t][two] = size[second[two]] = pair
    size[idle] = 1.0
    s = np.sqrt(size)
    lever = np.ones(t) if rubs.lever is None else rubs.lever
    constant = np.zeros(t) if rubs.constant is None else rubs.constant
    rub_of = np.full(rows, -1)
    rub_of[g : g + t] = np.arange(t)
    rub_of[second[two]] = np.flatnonzero(two)
    weight = mu * lever * s[g : g + t]
    press = weight[:, None] * _presses(rubs.pressed_by, g) / s[:g]
    pressers = tuple(np.flatnonzero(row).tolist() for row in press)
    most = max((len(own) for own in pressers), default=0)
    can_rub = press.any(axis=1) | (weight * constant > 0.0)
    rubbing = (rub_of >= 0) & ~idle & (can_rub[rub_of] if t else False)
    return Scaled(
        scale=s,
        gaps=g,
        rubs=t,
        w=problem.compliance / np.outer(s, s),
        moved=problem.moved / s[:, None],
        rate=problem.rate * size,
        give=give / size,
        gap=np.stack([gaps.gap_plus, -gaps.gap_minus]) / s[:g],
        press=press,
        constant=weight * constant,
        rub_of=rub_of,
        second=second,
        pressers=pressers,
        pressed_by=np.array([own + [-1] * (most - len(own)) for own in pressers], dtype=np.int64).reshape(t, most),
        planes=np.flatnonzero(two),
        idle=idle,
        ties=(np.arange(rows) >= g) & (rub_of < 0),
        rubbing=rubbing,
        lines=np.flatnonzero((second < 0) & rubbing[g : g + t]),
    )


def _presses(pressed_by: Integers, gaps: int) -> Floats:
    """Return how often each gap row presses each rub, (t, g)."""
    press = np.zeros((len(pressed_by), gaps))
    rub, place = np.nonzero(pressed_by >= 0)
    np.add.at(press, (rub, pressed_by[rub, place]), 1.0)
    return press
