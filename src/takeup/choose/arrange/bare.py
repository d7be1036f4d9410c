"""Spans without a joint of their own: as given, to a free end, by own bends, stiff enough.   (choose/arrange/bare.py)

Own bends, and pipe that is simply held, by the running sums of flexibility (chain.py). Guides and rests only add to
what the pipe has to bear, so a span is refused here only where bending or pushing the bare chain alone goes past what
its stated stresses leave, by `SURE` at least; else its own study decides, and always where
a branch meets the span.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from takeup.choose.arrange.chain import Chain, Integers
from takeup.choose.arrange.course import Course
from takeup.choose.arrange.least import CARRYING
from takeup.choose.arrange.records import Concept, Floats, Plan, Refusal, Stress
from takeup.line import Allowables
from takeup.units import to_kn

SURE = 1.25
"""A quick number that is over its limit by so much is taken for certain (docs/theory/proposals.md says how it was
tested)."""

_TOGETHER = 12
"""Spans whose stresses are worked out at once: more do not fit into a core's cache."""
_BY_STUDY = "left as it is: a branch meets it, and what they bear together is for the study of the whole to say"

FEW_CYCLES = 1.2
"""Greatest stress range factor that a user may state by ASME B31.3 (302.3.5, from memory); 1.0 by the other codes."""


def bare_plans(course: Course, near: int, far: int) -> Iterator[Plan | Refusal]:
    """Yield the ways to leave a span without a joint."""
    places, states = course.places, len(course.states)
    low, high = places[near].station, places[far].station
    given = tuple(item for item in course.line.takeups if low < item.position.station < high)
    nothing = np.zeros((2, states, 3))
    if given:
        names = " and ".join(item.name for item in given)
        yield _plan(course, "as given", (near, far), nothing, f"{names} of the file, as given")
        return
    if not (places[near].held and places[far].held):
        if course.is_joined(near, far):
            yield _plan(course, "no take-up", (near, far), nothing, _BY_STUDY)
        else:
            words = "one end is free: it grows that way, and nothing resists"
            yield _plan(course, "free end", (near, far), nothing, words)
        return
    wrench, stress = _pushed(course, near, far)
    bends = course.bends_between(near, far)
    said = f"{f'its {bends} bends' if bends else 'it is straight'}: {stress.words}"
    over = _certainly_over(course, stress, (near, far))
    if over:
        yield Refusal(concept="no take-up", near=near, far=far, because=f"no take-up, {said}; {over}")
    elif course.is_joined(near, far):
        yield _plan(course, "no take-up", (near, far), nothing, _BY_STUDY)
    else:
        forces = np.stack([-wrench[:, :3], wrench[:, :3]])
        yield _plan(course, "no take-up", (near, far), forces, f"nothing: {said} by the bare pipe alone")


def _pushed(course: Course, near: int, far: int) -> tuple[Floats, Stress]:
    """Return what the bare chain between two places that hold puts into the far one, (s, 6), and its stress.

    All spans that begin at one place are worked out together, and kept until another place is asked about.
    """
    known = course.bare_spans
    if (near, far) not in known:
        known.clear()
        ends = [number for number in course.ends_from(near) if course.places[number].held or number == far]
        cuts = np.array([course.cuts[number] for number in ends])
        first = course.cuts[near]
        wrenches = course.chain.forces(np.stack([np.full(len(cuts), first), cuts], axis=1))
        stresses = stresses_of(course.chain, course.walls, wrenches, first, cuts)
        for end, wrench, stress in zip(ends, wrenches, stresses, strict=True):
            known[near, end] = wrench, stress
    return known[near, far]


def _plan(course: Course, concept: Concept, span: tuple[int, int], forces: np.ndarray, words: str) -> Plan:
    return Plan(
        concept=concept,
        near=span[0],
        far=span[1],
        takeups=(),
        price_indices=(),
        guides=0,
        cost=course.least_cost(*span, 0),
        forces=forces,
        alone=forces[:, course.operating],
        words=words,
    )


def widest_range(course: Course) -> float | None:
    """Return the widest range of stress that growth may use anywhere [Pa]; None where no allowable is typed in.

    Of the pipe that may bear most: the range that the user states, else 1.25 (S_c + S_h), that of every code here
    before what pressure and weight use and before the factor for cycles.
    """
    each = [_range_of(one) for one in _allowables(course)]
    return max((one for one in each if one is not None), default=None) if None not in each else None


def _range_of(allowables: Allowables) -> float | None:
    if allowables.expansion_stress_range is not None:
        return allowables.expansion_stress_range.value
    if allowables.cold is None or allowables.hot is None:
        return None
    return 1.25 * (allowables.cold.value + allowables.hot.value)


def _strongest(course: Course) -> float | None:
    """Return the greatest yield strength of any pipe of the line [Pa]; None where one has none stated."""
    each = [None if one.yield_strength is None else one.yield_strength.value for one in _allowables(course)]
    return max((one for one in each if one is not None), default=None) if None not in each else None


def _allowables(course: Course) -> list[Allowables]:
    """Return the stresses that hold for each section of the line: its pipe's own, or the study's."""
    return [section.pipe.allowables or course.study.allowables for section in course.line.sections]


def _certainly_over(course: Course, stress: Stress, span: tuple[int, int]) -> str:
    """Return which limit a span goes past for certain, in words; "" where its own study has to say.

    Codes hold the range of bending against what repeated growth may use; the force along the pipe is not in it (ASME
    B31.1, from memory), and is held against the yield strength.
    """
    limit, strength = widest_range(course), _strongest(course)
    if limit is not None and not course.is_joined(*span):
        widest = limit * (FEW_CYCLES if course.study.basis.code == "ASME B31.3" else 1.0)
        if stress.bending > SURE * widest:
            return f"bending has {stress.bending / 1e6:.0f} of {widest / 1e6:.0f} MPa that repeated growth may use"
    if strength is not None and not course.is_joined(*span) and stress.along > SURE * strength:
        return f"the wall is pushed together by {stress.along / 1e6:.0f} of {strength / 1e6:.0f} MPa at yield"
    return "" if course.bends_between(*span) else _bows(course, stress, span, strength or np.inf)


def _bows(course: Course, stress: Stress, span: tuple[int, int], strength: float) -> str:
    """Return how a straight span gives way for certain, in words; "" where it may not, or something keeps it in line.

        N L > sum of min(4 pi^2 E I / L_i^2, R_e A) L_i     Euler, clamped at both ends, sideways: rests keep it up only

    L_i are the pieces between its anchors and branches, as if a branch held it altogether; whatever a branch takes from
    the one piece it puts on the other, since together they grow as much as without it: the sum of N_i L_i is N L.
    """
    low, high = (course.places[number].station for number in span)
    within = [hold for hold in course.line.holds if low < hold.position.station < high]
    if any(hold.kind not in CARRYING for hold in within):
        return ""
    places = [low, *(tee for tee in course.tees if low < tee < high), high]
    lengths = np.diff(np.array(sorted(places)))
    own = slice(course.cuts[span[0]], course.cuts[span[1]])
    euler = 4.0 * np.pi**2 * float(course.chain.stiffness[own, 1].max()) / lengths**2
    borne = np.minimum(euler, strength * float(course.walls[own, 1].max()))
    if stress.pushed * float(lengths.sum()) <= SURE * float((borne * lengths).sum()):
        return ""
    force, load = to_kn(stress.pushed), to_kn(float(euler.min()))
    return f"it bows out: {force:.0f} kN push it together, and Euler's load of its longest free piece is {load:.0f} kN"


def stresses_of(chain: Chain, walls: Floats, wrenches: Floats, first: int, cuts: Integers) -> list[Stress]:
    """Return the greatest stresses of bending and of force along the pipe in bare chains, in any state, and where.

    Args:
        chain: of a line.
        walls: of it at every cut.
        wrenches: force and moment about the origin of each in each state, (k, s, 6).
        first: the cut at which all of them begin.
        cuts: those at which they end, in order, (k,).
    """
    rows = {chain.growth[state].tobytes(): state for state in reversed(range(len(chain.states)))}
    states = np.array(sorted(rows.values()))  # states that grow alike push alike
    found = list[Stress]()
    for low in range(0, len(cuts), _TOGETHER):
        some = slice(low, low + _TOGETHER)
        found += _stresses(chain, walls, (wrenches[some][:, states], states), first, cuts[some])
    return found


def _stresses(
    chain: Chain, walls: Floats, pushed: tuple[Floats, Integers], first: int, cuts: Integers
) -> Iterator[Stress]:
    """Yield the stresses of a few chains; `pushed` are their wrenches and the numbers of the states of those."""
    (wrenches, states), last = pushed, cuts - first
    own, rows = slice(first, int(cuts[-1]) + 1), np.arange(len(cuts))
    x, y, z = np.ascontiguousarray(chain.points[own].T)
    modulus, area = np.ascontiguousarray(walls[own].T)
    ways = np.diff(np.stack([x, y, z]), axis=1)
    ways /= np.sqrt((ways * ways).sum(axis=0))
    east, north, up = np.hstack([ways, ways[:, -1:]])
    fx, fy, fz, mx, my, mz = wrenches.transpose(2, 0, 1)[..., None]
    force = fx * east + fy * north + fz * up
    force[rows, :, last] = force[rows, :, last - 1]  # no member of the span is beyond its last cut
    squares = (mx - (y * fz - z * fy)) ** 2  # M - p x F about each cut, part by part
    squares += (my - (z * fx - x * fz)) ** 2
    squares += (mz - (x * fy - y * fx)) ** 2
    within = (np.arange(len(x)) <= last[:, None])[:, None, :]
    along, bending = np.abs(force) / area * within, np.sqrt(squares) / modulus * within
    both = (bending + along).reshape(len(cuts), -1)
    places, most = both.argmax(axis=1), np.maximum(force[:, :, 0].max(axis=1), 0.0).tolist()
    for number, place in enumerate(places.tolist()):
        state, cut = divmod(place, len(x))
        greatest = float(both[number, place])
        where = f"{chain.stations[first + cut]:.1f} m in {chain.states[states[state]].name}"
        yield Stress(
            bending=float(bending[number].max()),
            along=float(along[number].max()),
            both=greatest,
            pushed=most[number],
            words=f"{greatest / 1e6:.0f} MPa at {where}",
        )


__all__ = ["SURE", "bare_plans", "stresses_of", "widest_range"]
