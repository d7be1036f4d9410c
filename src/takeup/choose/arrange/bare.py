"""Spans without a joint of their own: as given, to a free end, by own bends, stiff enough.   (choose/arrange/bare.py)

Own bends, and pipe that is simply held, by the running sums of flexibility (chain.py). Guides and rests only add to
what the anchors see, so a span is refused here only where bending or pushing the bare chain alone goes past what its
allowable stresses leave, by `SURE` at least; else its own study decides.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from takeup.choose.arrange.chain import Chain
from takeup.choose.arrange.ground import Ground
from takeup.choose.arrange.records import Floats, Plan, Refusal
from takeup.line import Line, second_moment, wall_area

SURE = 1.25
"""A quick number that is over its limit by so much is taken for certain (docs/theory/proposals.md says how it was
tested)."""


def bare_plans(ground: Ground, near: int, far: int) -> Iterator[Plan | Refusal]:
    """Yield the ways to leave a span without a joint."""
    places, states = ground.places, len(ground.states)
    low, high = places[near].station, places[far].station
    given = tuple(item for item in ground.line.takeups if low < item.position.station < high)
    nothing = np.zeros((2, states, 3))
    if given:
        names = " and ".join(item.name for item in given)
        yield _plan(ground, "as given", (near, far), nothing, f"{names} of the file, as given")
        return
    if not (places[near].held and places[far].held):
        yield _plan(ground, "free end", (near, far), nothing, "one end is free: it grows that way, and nothing resists")
        return
    wrench = ground.chain.forces(np.array([[ground.cuts[near], ground.cuts[far]]]))[0]
    forces = np.stack([-wrench[:, :3], wrench[:, :3]])
    stress, words = stress_of(ground.chain, ground.line, wrench, (ground.cuts[near], ground.cuts[far]))
    limit = widest_range(ground)
    kind = f"its {ground.bends_between(near, far)} bends" if ground.bends_between(near, far) else "it is straight"
    said = f"{kind}: {stress / 1e6:.0f} MPa {words}"
    if limit is not None and stress > SURE * limit:
        because = f"no take-up, {said}, of {limit / 1e6:.0f} MPa that repeated growth may use at most"
        yield Refusal(concept="no take-up", near=near, far=far, because=because)
        return
    yield _plan(ground, "no take-up", (near, far), forces, f"nothing: {said} by the bare pipe alone")


def _plan(ground: Ground, concept: str, span: tuple[int, int], forces: np.ndarray, words: str) -> Plan:
    assert concept in ("as given", "free end", "no take-up"), "those without a joint"
    return Plan(
        concept=concept,  # type: ignore[arg-type]  # one of three words, as asserted
        near=span[0],
        far=span[1],
        takeups=(),
        price_indices=(),
        guides=0,
        cost=ground.least_cost(*span, 0),
        forces=forces,
        alone=forces[:, ground.operating],
        words=words,
    )


def widest_range(ground: Ground) -> float | None:
    """Return the widest range of stress that growth may use anywhere [Pa]; None where no allowable is typed in.

    1.25 (S_c + S_h), that of every code here before what pressure and weight use and before the factor for many
    cycles, so never less than the study's own.
    """
    cold, hot = ground.study.allowables.cold, ground.study.allowables.hot
    if cold is None or hot is None:
        return None
    return 1.25 * (cold.value + hot.value)


def stress_of(chain: Chain, line: Line, wrench: Floats, cuts: tuple[int, int]) -> tuple[float, str]:
    """Return the greatest stress of bending and of force along the pipe in a bare chain, in any state, and where.

    Args:
        chain: of a line.
        line: the line.
        wrench: force and moment about the origin in each state, (s, 6).
        cuts: the first and the last of the span.
    """
    first, last = cuts
    own = np.arange(first, last + 1)
    moments = wrench[:, None, 3:] - np.cross(chain.points[own][None], wrench[:, None, :3])
    sections = [line.section_at(float(chain.stations[cut])) for cut in own]
    modulus = np.array([2.0 * second_moment(one.pipe) / one.pipe.size.outside_diameter for one in sections])
    area = np.array([wall_area(one.pipe) for one in sections])
    ways = np.diff(chain.points[first : last + 1], axis=0)
    ways /= np.linalg.norm(ways, axis=1)[:, None]
    ways = np.vstack([ways, ways[-1:]])
    along = np.abs(np.einsum("sk,ck->sc", wrench[:, :3], ways))
    stress = np.linalg.norm(moments, axis=2) / modulus + along / area
    state, cut = np.unravel_index(int(stress.argmax()), stress.shape)
    words = f"at {chain.stations[own[cut]]:.1f} m in {chain.states[state].name}"
    return float(stress[state, cut]), words


__all__ = ["SURE", "bare_plans", "stress_of", "widest_range"]
