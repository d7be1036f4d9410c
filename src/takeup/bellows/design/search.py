"""The search: all candidates at once by published forms, then the best few by the shell.     (bellows/design/search.py)

The published forms decide what fits, as a checker would; the shell is a comparison beside them, and a warning where its
stresses are the higher ones; but what folds as a shell under pressure from outside does not fit (folding.py). Every
design is held anew against `published` and `acceptance` before it is returned.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import partial

import numpy as np

from takeup.bellows.design.criteria import (
    Candidates,
    Criterion,
    candidates,
    outside_diameter,
    whole_length,
)
from takeup.bellows.design.duty import DesignDuty, asked, many
from takeup.bellows.design.folding import HELP, NAME, standing
from takeup.bellows.design.front import Least, Rows
from takeup.bellows.design.grid import GRID, Grid, shapes
from takeup.bellows.envelope import envelope
from takeup.bellows.forms import acceptance, factors, published, stiffness
from takeup.bellows.geometry import (
    Array,
    Bellows,
    chosen,
    mean_diameter,
    metal_length,
    stack_thickness,
    thinned_thickness,
)
from takeup.bellows.rating import Rated, rate

_CONFIRMED = 1.0 + 1e-6  # of a use computed the other way round: doubles, and the square of the life curve
_MOST_BLOCKS = 3


@dataclass(frozen=True, kw_only=True, slots=True)
class Block:
    """A criterion that keeps candidates out: how many fail it, how many fail it alone, and what would help."""

    name: str
    failing: int
    alone: int
    help: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Front:
    """The designs, best first, n of them; n is 0 where nothing fits.

    Args:
        duty: what was asked.
        tried: how many candidates. fitting: how many of them fit. undominated: how many of those nothing beats.
        blocks: the criteria that keep out the most, worst first.
        rated: the designs with all that shell and forms give; None where nothing fits.
        mass: of convolutions and tangents [kg]. length: with tangents [m]. outside_diameter: [m].
        needed: e of one convolution that is asked [m]. allowed: by the life [m].
        criteria: each with the use of the n designs.
        governed_by: the criterion with the greatest use, of each.
        why: each is here.
        warnings: where the shell's stress range is higher than the form's; "" elsewhere.
    """

    duty: DesignDuty
    tried: int
    fitting: int
    undominated: int
    blocks: tuple[Block, ...]
    rated: Rated | None
    mass: Array
    length: Array
    outside_diameter: Array
    needed: Array
    allowed: Array
    criteria: tuple[Criterion, ...]
    governed_by: tuple[str, ...]
    why: tuple[str, ...]
    warnings: tuple[str, ...]

    def __len__(self) -> int:
        return len(self.mass)


def design(duty: DesignDuty, *, least: Least = "material", grid: Grid = GRID) -> Front:
    """Return the few best bellows for a duty, from stock.

    Args:
        duty: what is asked.
        least: which of the best stands first.
        grid: how finely is searched.
    """
    every = candidates(duty, shapes(duty, grid), grid)
    found = standing(duty, every, partial(objectives_of, duty), least)
    best = found.best
    shape = chosen(every.shape, best)
    rated, warnings = _checked(duty, shape) if len(best) else (None, ())
    criteria = (*(_of(one, best) for one in every.criteria), *found.criteria)
    return Front(
        duty=duty,
        tried=len(every.shape),
        fitting=found.fitting,
        undominated=found.undominated,
        blocks=_blocks(every, found.folding),
        rated=rated,
        mass=mass(shape, duty.density),
        length=whole_length(shape),
        outside_diameter=outside_diameter(shape),
        needed=every.needed[best],
        allowed=every.allowed[best],
        criteria=criteria,
        governed_by=tuple(_governing(criteria, row) for row in range(len(best))),
        why=found.why,
        warnings=warnings,
    )


def mass(shape: Bellows, density: float) -> Array:
    """Return the mass of convolutions and tangents.

        m = rho pi n [t_p D_m l N + 2 t (D_b + n t) L_t]            (Pappus; l, the meridian of one convolution)

    Args:
        shape: n bellows.
        density: rho [kg/m3].

    Returns:
        m [kg], shape (n,).
    """
    waves = thinned_thickness(shape) * mean_diameter(shape) * metal_length(shape) * shape.convolutions
    ends = 2.0 * shape.ply_thickness * (shape.inside_diameter + stack_thickness(shape)) * shape.tangent_length
    return density * math.pi * shape.plies * (waves + ends)


def objectives_of(duty: DesignDuty, shape: Bellows) -> Array:
    """Return material [kg], length [m] and axial stiffness by the published form [N/m], shape (n, 3)."""
    every = many(duty.metal, len(shape))
    cf = factors.factors_of(shape).cf
    whole = stiffness.stiffness_pi(shape, every.modulus, every.poisson, cf) / shape.convolutions
    return np.stack([mass(shape, duty.density), whole_length(shape), whole], axis=1)


def _checked(duty: DesignDuty, shape: Bellows) -> tuple[Rated, tuple[str, ...]]:
    """Return designs rated by the shell, once acceptance has been asked anew, and the warnings of their envelopes."""
    metal, wanted = many(duty.metal, len(shape)), asked(duty, len(shape))
    other = "EN" if duty.curve == "ASME design" else "ASME"
    for limit in acceptance(published(shape, metal, wanted), metal, wanted):
        if limit.unit == "cycles" and limit.source.startswith(other):
            continue
        assert not (limit.use > _CONFIRMED).any(), f"{limit.name} ({limit.source}) is not held by a design"
    return rate(shape, metal, wanted), envelope(shape, metal, wanted, curve=duty.curve).warnings


def _blocks(every: Candidates, folding: int) -> tuple[Block, ...]:
    """Return the criteria that keep out the most; one case of load stands for a criterion of several sources.

    Args:
        every: all candidates.
        folding: how many of them fit all else and fold as shells: the others were not asked, so these stand first.
    """
    failing: dict[str, tuple[np.ndarray[tuple[int], np.dtype[np.bool_]], str]] = {}
    for one in every.criteria:
        broken = one.use > 1.0 + 1e-9
        before = failing.get(one.name)
        failing[one.name] = (broken if before is None else before[0] | broken, one.help)
    if not failing or not len(every.shape):
        return ()
    number = np.sum([mask for mask, _ in failing.values()], axis=0)
    found = [
        Block(name=name, failing=int(mask.sum()), alone=int((mask & (number == 1)).sum()), help=words)
        for name, (mask, words) in failing.items()
    ]
    ranked = sorted((one for one in found if one.failing), key=lambda one: -one.failing)
    folded = [Block(name=NAME, failing=folding, alone=folding, help=HELP)] if folding else []
    return (*folded, *ranked[: _MOST_BLOCKS - len(folded)])


def _of(one: Criterion, rows: Rows) -> Criterion:
    return Criterion(name=one.name, source=one.source, help=one.help, use=one.use[rows])


def _governing(criteria: tuple[Criterion, ...], row: int) -> str:
    """Return the fullest criterion of one design, with its use."""
    first = max(criteria, key=lambda one: float(one.use[row]))
    return f"{first.name} ({first.source})"


__all__ = ["Block", "Front", "design", "mass", "objectives_of"]
