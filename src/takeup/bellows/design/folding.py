"""Whether the few best fold as shells under pressure from outside: asked of them alone.     (design/folding.py)

The ring of the published form does not know that walls and arcs may crumple at a fraction of its pressure. To ask the
shell takes a tenth of a second a bellows, so that it is asked of those that would be shown; one that folds at less
than three times a pressure from outside does not fit, nor does any of the same waves that is no stronger, and the next
best takes its place.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from takeup.bellows.design.criteria import FULL, Candidates, Criterion, cases
from takeup.bellows.design.duty import DesignDuty, many
from takeup.bellows.design.front import Least, Rows, picked, undominated
from takeup.bellows.forms.external import COLLAPSE_FACTOR
from takeup.bellows.geometry import Array, Bellows, chosen
from takeup.bellows.shell.buckling import stands
from takeup.bellows.shell.collapse import collapse_pressure
from takeup.bellows.shell.reference import BUCKLING, reference

_FEW = 3.0
_LIKELY = (12, 19, 30, 46, 72)  # waves round the axis: what folds in others is found with its pressure
NAME = "elastic folding of the shell"
Objectives: TypeAlias = Callable[[Bellows], Array]
HELP = "thicker plies, or lower convolutions of a shorter pitch"


@dataclass(frozen=True, kw_only=True, slots=True)
class Standing:
    """What is left once the best do not fold.

    Args:
        best: rows of the candidates, best first. why: each is there.
        criteria: the shell's folding in each case of pressure from outside, of the best.
        undominated: how many candidates nothing beats. fitting: how many fit.
        folding: how many fitted all else and fold.
    """

    best: Rows
    why: tuple[str, ...]
    criteria: tuple[Criterion, ...]
    undominated: int
    fitting: int
    folding: int


def standing(duty: DesignDuty, every: Candidates, objectives: Objectives, least: Least) -> Standing:
    """Return the best candidates of those that stand.

    Args:
        duty: what is asked.
        every: all candidates.
        objectives: what is weighed, of some bellows, shape (n, 3).
        least: which of the best stands first.
    """
    stands = np.asarray(every.fits)
    fitted = int(stands.sum())
    while True:
        fitting = np.flatnonzero(stands)
        values = objectives(chosen(every.shape, fitting))
        few = undominated(values)
        order, why = picked(values[few], least) if len(few) else (few, ())
        best = fitting[few][order]
        criteria, beyond = _asked(duty, chosen(every.shape, best))
        if not beyond:
            return Standing(
                best=best,
                why=why,
                criteria=criteria,
                undominated=len(few),
                fitting=len(fitting),
                folding=fitted - len(fitting),
            )
        for row, convolutions in beyond:
            stands &= ~_weaker(every.shape, int(best[row]), convolutions)


def folding_criteria(duty: DesignDuty, shape: Bellows) -> tuple[Criterion, ...]:
    """Return a third of the shell's folding pressure as a criterion, one for each case of pressure from outside.

    It is found for the hot metal; for the cold one it is higher as the modulus is.
    """
    outside = [case for case in cases(duty) if case.pressure < 0.0]
    if not outside or not len(shape):
        return ()
    hot = many(duty.metal, len(shape))
    least = collapse_pressure(shape, hot.modulus, hot.poisson, reference(BUCKLING))
    return tuple(
        Criterion(
            name=f"{NAME}, {case.name}",
            source="own analysis; factor of three of ASME VIII-1 UG-28, from memory",
            help=HELP,
            use=-case.pressure * COLLAPSE_FACTOR / (least * case.metal.modulus[0] / duty.metal.modulus[0]),
        )
        for case in outside
    )


def _asked(duty: DesignDuty, shape: Bellows) -> tuple[tuple[Criterion, ...], list[tuple[int, float]]]:
    """Return the criteria of some bellows, or which of them fold, each with the fewest convolutions that do.

    Three convolutions are asked first, in a few likely waves: they crumple as many would, and where they fold so does
    every longer bellows. To see that one does not stand is one factorisation, to find its pressure takes many.
    """
    fewest = np.minimum(shape.convolutions, _FEW)
    most = max((-case.pressure / case.metal.modulus[0] for case in cases(duty)), default=0.0)
    if len(shape) and most > 0.0:
        hot = many(duty.metal, len(shape))
        case = (replace(shape, convolutions=fewest), hot.modulus, hot.poisson, reference(BUCKLING))
        needed = COLLAPSE_FACTOR * most * hot.modulus / FULL
        holds = np.logical_and.reduce([stands(*case, needed, harmonic=waves, outside=True) for waves in _LIKELY])
        if not holds.all():
            return (), [(row, float(fewest[row])) for row in np.flatnonzero(~holds).tolist()]
    criteria = folding_criteria(duty, shape)
    return criteria, _folded(criteria, shape.convolutions)


def _folded(criteria: tuple[Criterion, ...], convolutions: Array) -> list[tuple[int, float]]:
    use = np.max([np.zeros(len(convolutions)), *(one.use for one in criteria)], axis=0)
    return [(row, float(convolutions[row])) for row in np.flatnonzero(use > FULL).tolist()]


def _weaker(shape: Bellows, row: int, convolutions: float) -> npt.NDArray[np.bool_]:
    """Return which candidates fold where one does: the same but no thicker, no more plies, no shorter, (n,)."""
    return np.asarray(
        (shape.height == shape.height[row])
        & (shape.pitch == shape.pitch[row])
        & (shape.ply_thickness <= shape.ply_thickness[row])
        & (shape.plies <= shape.plies[row])
        & (shape.convolutions >= convolutions)
    )


__all__ = ["HELP", "NAME", "Standing", "folding_criteria", "standing"]
