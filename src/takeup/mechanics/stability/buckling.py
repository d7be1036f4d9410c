"""When a frame under effective forces buckles, how, and which members bend in it.     (mechanics/stability/buckling.py)

    (K + K_G(S_0) + mu K_G(S)) x = 0,  smallest mu > 0         mu: load factor on the whole field of effective forces S

S_0, if there is one, stays as it is while S grows: springs and heat, say, while the pressure rises.

`buckling` finds the smallest factors with their shapes (modes.py), verifies each on the members' own end forces, and
tells each member's share of the elastic energy, by which a mode is classified. `factors_below` counts, by Sylvester,
how many lie below a given factor. Nothing compressed, or nothing that could give way: `NotAtRisk`.
Sign: S tension positive, compression negative. Supports hold or do not: contacts, clearances and friction are the
caller's; friction never stabilises. Limits: elastic, small rotations from the straight state, nothing after the
bifurcation; a member can not bow between its own nodes further than a cubic, so split what may bow. Theory and proof:
docs/theory/stability.md.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.mechanics.cholesky import solve_band
from takeup.mechanics.frame import Floats, Frame, NotHeld
from takeup.mechanics.junctions import solve_junctions
from takeup.mechanics.model import to_global_axes
from takeup.mechanics.recover import add_springs, recover, spring_forces, strike_held
from takeup.mechanics.solve import Factor, NotFactored, factorise
from takeup.mechanics.stability.energy import elastic_energy
from takeup.mechanics.stability.geometric import Geometric, Links, geometric_stiffness
from takeup.mechanics.stability.modes import Pencil, lowest
from takeup.mechanics.stability.shifted import Sparse, elastic_matrix, factor_shifted, geometric_matrix

RESIDUAL_LIMIT = 1e-4  # bounds the relative error of a factor, which is near its square; what the search goes for, and
# what a long line leaves of it, are below, cf. modes.py
_Fixed = tuple[Floats, Links | None]
_TRANSLATION = 1e-9  # of rotations times the mean member length: a shape with less has no translation worth scaling by


@dataclass(frozen=True, kw_only=True, slots=True)
class Modes:
    """Buckling modes, k of them, k at least one; the smallest factors, none missed between them.

    Args:
        factors: load factors mu on the whole field of effective forces, ascending, (k,). Equal ones are a pair.
        shapes: (k, n, 6) [m], [rad], global axes, each scaled to a largest translation of one.
        energy: each member's share of the elastic energy of a mode, (k, members).
        springs: each support's share, (k, s); with `energy` it sums to one.
        residuals: of each mode, relative, (k,): its factor is that near to a true one; in fact nearer its square.
        own_buckling: the largest mu |S| L^2/(pi^2 EI) over compressed straights and arcs, (k,). Above 1 a member is
            beyond its own pinned Euler load between its nodes, and must be split before the factor is believed.
    """

    factors: Floats
    shapes: Floats
    energy: Floats
    springs: Floats
    residuals: Floats
    own_buckling: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class NotAtRisk:
    """No positive factor of the effective forces makes the frame buckle."""

    because: str


@dataclass(frozen=True, kw_only=True, slots=True)
class NotVerified:
    """No answer: what was found could not be verified."""

    because: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Unstable:
    """The frame gives way: it has no stable equilibrium under the effective forces it is said to carry."""

    because: str


def buckled(below: int) -> Unstable:
    """Return that so many load factors lie below one."""
    modes = "one load factor is" if below == 1 else f"{below} load factors are"
    return Unstable(because=f"{modes} below 1: the frame buckles before these effective forces are reached")


def buckling(
    frame: Factor | Frame,
    effective_force: Floats,
    *,
    count: int = 4,
    links: Links | None = None,
    fixed: Floats | None = None,
    fixed_links: Links | None = None,
) -> Modes | NotAtRisk | Unstable | NotVerified | NotHeld | NotFactored:
    """Return the smallest positive load factors, at most `count`, with their modes.

    Args:
        frame: the frame with the supports that hold, or its factor.
        effective_force: S of each member, straights then arcs, tension positive, (members,) [N].
        count: number of modes wanted; a frame may have fewer.
        links: rods and links whose force turns with them.
        fixed: S_0 of each member, which does not grow with the load factor, (members,) [N]. `Unstable` where the frame
            buckles under it alone.
        fixed_links: the same of rods and links, beside `fixed`.
    """
    factor = factorise(frame) if isinstance(frame, Frame) else frame
    if not isinstance(factor, Factor):
        return factor
    wrong = no_number(effective_force, links) or (None if fixed is None else no_number(fixed, fixed_links))
    held = None if fixed is None else (fixed, fixed_links)
    return _buckling(factor, effective_force, count, links, held) if wrong is None else wrong


def _buckling(
    factor: Factor, force: Floats, count: int, links: Links | None, fixed: _Fixed | None
) -> Modes | NotAtRisk | Unstable | NotVerified:
    if _all_pulled(factor, force, links):
        return NotAtRisk(because="no member is compressed: every effective force is zero or tension")
    matrices = _matrices(factor, force, links, fixed)
    if not isinstance(matrices, tuple):
        return matrices
    found = lowest(matrices[0], count)
    if found.because:
        return NotVerified(because=found.because)
    if len(found.factors) == 0:
        return NotAtRisk(because="what is compressed can not turn: no load factor makes the frame buckle")
    at_modes = found.factors[:, None] * force + (0.0 if fixed is None else fixed[0])
    return _modes(factor, matrices, at_modes, (found.factors, found.shapes))


def _matrices(
    factor: Factor, force: Floats, links: Links | None, fixed: _Fixed | None
) -> tuple[Pencil, Sparse | None] | Unstable | NotVerified:
    """Return the problem, with K_G of the fixed forces in its K, and that K_G."""
    pencil = pencil_of(factor, force, links)
    if fixed is None:
        return pencil, None
    held = geometric_matrix(factor.model, _stiffness(factor, *fixed))
    stiffened = factor_shifted(pencil.elastic, held, 1.0)
    if stiffened is None:
        return NotVerified(because="under the fixed forces alone the matrix is singular, or near it")
    if stiffened.below:
        return buckled(stiffened.below)
    return pencil._replace(inverse=stiffened.solve, elastic=pencil.elastic + held), held


def factors_below(
    frame: Factor | Frame, effective_force: Floats, load_factor: float, *, links: Links | None = None
) -> int | NotVerified | NotHeld | NotFactored:
    """Return how many load factors lie between zero and `load_factor`: negative pivots of K + mu K_G.

    Args:
        frame: the frame, or its factor.
        effective_force: S of each member, (members,) [N].
        load_factor: mu.
        links: rods and links whose force turns with them.
    """
    factor = factorise(frame) if isinstance(frame, Frame) else frame
    if not isinstance(factor, Factor):
        return factor
    wrong = no_number(effective_force, links)
    if wrong is not None:
        return wrong
    model = factor.model
    blocks = _stiffness(factor, effective_force, links)
    shifted = factor_shifted(elastic_matrix(model), geometric_matrix(model, blocks), load_factor)
    if shifted is None:
        return NotVerified(because=f"at load factor {load_factor:g} the matrix is singular, or near it")
    return shifted.below


def no_number(effective_force: Floats, links: Links | None) -> NotVerified | None:
    """Return which force is no number; None where all are."""
    wrong = np.flatnonzero(~np.isfinite(effective_force))
    if len(wrong):
        return NotVerified(because=f"the effective force of member {wrong[0]} is no number")
    if links is not None and not np.isfinite(links.force).all():
        return NotVerified(because=f"the force of link {np.argmin(np.isfinite(links.force))} is no number")
    return None


def _all_pulled(factor: Factor, force: Floats, links: Links | None) -> bool:
    """Return whether nothing is compressed; rigid arms that reach back along a pulled member are, so they say no."""
    members = factor.model.frame.straights
    arms = [members.start_offset, members.end_offset]
    if links is not None:
        arms += [links.start_arm, links.end_arm]
    armed = any(arm is not None and arm.any() for arm in arms)
    return bool((force >= 0.0).all()) and not armed and (links is None or bool((links.force >= 0.0).all()))


def apply_inverse(factor: Factor, rows: Floats) -> Floats:
    """Return K^-1 of rows, (c, 6 n), in the model's numbering and its nodes' own axes.

    Args:
        factor: the factorised frame.
        rows: right-hand sides, zero at held unknowns.
    """
    right = rows.copy()
    if factor.junctions is None:
        return solve_band(factor.cholesky, right)
    return solve_junctions(factor.cholesky, factor.junctions, right.reshape(len(rows), rows.shape[1] // 6, 6)).reshape(
        rows.shape
    )


def _stiffness(factor: Factor, force: Floats, links: Links | None) -> Geometric:
    return geometric_stiffness(factor.model, force, factor.numbering, links)


def pencil_of(factor: Factor, force: Floats, links: Links | None) -> Pencil:
    """Return K^-1, K and K_G of a frame under forces, as the search asks for them."""
    model = factor.model
    blocks = _stiffness(factor, force, links)
    free = np.ones(6 * len(model.frame.points))
    free[6 * model.held[0] + model.held[1]] = 0.0
    return Pencil(
        inverse=lambda rows: apply_inverse(factor, rows * free),
        elastic=elastic_matrix(model),
        geometric=geometric_matrix(model, blocks),
        free=free,
    )


def _modes(
    factor: Factor, matrices: tuple[Pencil, Sparse | None], force: Floats, found: tuple[Floats, Floats]
) -> Modes | NotVerified:
    """Return what was found as modes, verified, in the caller's numbering.

    Args:
        factor: the factorised frame.
        matrices: the problem; K_G of the fixed forces.
        force: effective forces at each mode, (k, members).
        found: factors (k,) and shapes (k, size).
    """
    factors, rows = found
    model, count = factor.model, len(factors)
    own = np.ascontiguousarray(rows.reshape(count, -1, 6).transpose(2, 0, 1))
    moved = to_global_axes(model, own)
    residuals = _residuals(factor, matrices, moved, found)
    if not (residuals <= RESIDUAL_LIMIT).all():
        return NotVerified(
            because=f"not verified: residual {residuals.max():.1e} of a mode (limit {RESIDUAL_LIMIT:.0e}), "
            f"condition about {factor.condition:.0e}"
        )
    members, springs = elastic_energy(model, moved)
    whole = members.sum(axis=1) + springs.sum(axis=1)
    shapes = np.ascontiguousarray(_scaled(model.mean_length, moved).transpose(1, 2, 0))
    energy = members / whole[:, None]
    if factor.numbering is not None:
        shapes, inner = shapes[:, factor.numbering.place], energy
        energy = np.empty_like(inner)
        energy[:, factor.numbering.member] = inner
    return Modes(
        factors=factors,
        shapes=shapes,
        energy=energy,
        springs=springs / whole[:, None],
        residuals=residuals,
        own_buckling=_own_buckling(factor, force),
    )


def _residuals(
    factor: Factor, matrices: tuple[Pencil, Sparse | None], moved: Floats, found: tuple[Floats, Floats]
) -> Floats:
    """Return the residuals of modes of unit energy, |K^-1 (K x + mu K_G x)| in the norm of K; K x from member ends."""
    (factors, rows), (pencil, held), model = found, matrices, factor.model
    forces = np.zeros((2, 6, len(factors), model.frame.member_count))
    out = recover(model, np.zeros_like(moved), moved, forces)
    add_springs(model, out, spring_forces(model, moved[:, :, model.frame.supports.node[model.sprung]]))
    stiff = -strike_held(model, out).transpose(1, 2, 0).reshape(rows.shape)
    if held is not None:
        stiff += (held @ np.ascontiguousarray(rows.T)).T
    left = stiff + factors[:, None] * pencil.turned(rows)
    energy = np.einsum("ci,ci->c", rows, stiff)
    return np.asarray(np.sqrt(np.maximum(np.einsum("ci,ci->c", left, pencil.inverse(left)), 0.0) / energy))


def _scaled(mean_length: float, moved: Floats) -> Floats:
    """Return shapes, (6, c, n), with the largest translation one and its largest component positive."""
    long = np.linalg.norm(moved[:3], axis=0).max(axis=1)
    turn = np.linalg.norm(moved[3:], axis=0).max(axis=1) * mean_length
    scale = np.where(long > _TRANSLATION * turn, long, turn)
    flat = moved.transpose(1, 0, 2).reshape(len(scale), -1)
    largest = flat[np.arange(len(scale)), np.abs(flat).argmax(axis=1)]
    return np.asarray(moved / (np.sign(largest) * scale)[None, :, None] + 0.0)  # no negative zero


def _own_buckling(factor: Factor, force: Floats) -> Floats:
    """Return the largest |S| L^2/(pi^2 EI) of compressed members, (k,)."""
    model, inner = factor.model, force if factor.numbering is None else force[:, factor.numbering.member]
    length = np.concatenate([model.k.length, model.arcs.length])
    bending = np.concatenate([model.frame.straights.bending, model.frame.arcs.bending])
    return np.asarray((np.maximum(-inner, 0.0) * length**2 / (np.pi**2 * bending)).max(axis=1))
