"""Smallest positive load factors of K x = -mu K_G x, by a block search that counts.     (mechanics/stability/modes.py)

With nu = 1/mu the factors sought are the largest nu of -K_G x = nu K x, whose largest Ritz values on any space bound
them from below. The space, orthonormal in K, grows by blocks

    w = (K + sigma K_G)^-1 (-K_G) q          sigma = 0 first: the factor that exists already

and K w = -K_G q - sigma K_G w comes without a product with K. Blocks find equal factors (symmetric pairs). Where the
factors crowd together, as in many equal spans, a shift above the last Ritz value wanted parts them, or where that has
too many below it, one to the lowest that is not exact yet. At the end the number of factors below a shift just above
the last one is counted (Sylvester, shifted.py) and must be the number found, each of them with its residual; else the
search goes on from there. A long soft line has residuals that are rounding before they are as small as is asked: once a
search from a shift leaves them as they were, they are what there is, and the count decides. Starting blocks are random
with a fixed seed.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from takeup.mechanics.frame import Floats
from takeup.mechanics.stability.shifted import Shifted, Sparse, factor_shifted

GOAL = 2e-6  # residual the search goes for: bounds the relative error of a factor, which is near its square
ROUGH = 1e-4  # residual that will do where more searching leaves it: a kilometre of pipe has 2e-5 of rounding
_GAINS = 0.5  # of the residual before: what leaves more than this has come to rounding
_SEED = 1952
_MOST_ROUNDS = 8  # of searches, each from one shift: one or two are enough for a pipe
_FIRST_BLOCKS, _BLOCKS = 8, 20
_EARLY, _SLOW = 3, 0.02  # block after which a residual above this says that the factors crowd: a shift is cheaper
_FEW = 4  # factors more than wanted below a shift, which are found along with the others
_MOST_AT_ONCE = 40  # factors sought together, when that many crowd below a shift
_SAME = 1e-7  # of its length: what is left of a vector that lies in the space already
_MOST_PASSES, _MUCH = 4, 0.5
_APART = 1e-3  # relative distance from the last factor to where it is counted: signs of pivots need it, cf. condition
_ROUNDING = 1e-13  # of the largest 1/mu: what is left where the exact 1/mu is zero
_TRIES, _MORE_TRIES = 7, 3  # shifts, each eight times the last, at which a first mode, and one more, is looked for


class Pencil(NamedTuple):
    """K^-1 of rows (c, size), K and K_G, and which unknowns are `free`: one, or zero where held, (size,)."""

    inverse: Callable[[Floats], Floats]
    elastic: Sparse
    geometric: Sparse
    free: Floats

    @property
    def size(self) -> int:
        """Number of unknowns, held ones among them."""
        return len(self.free)

    def anything(self, seed: tuple[int, ...], count: int) -> Floats:
        """Return random forces, (count, size)."""
        return np.random.default_rng([_SEED, *seed]).standard_normal((count, self.size)) * self.free

    def stiff(self, rows: Floats) -> Floats:
        """Return K of rows, (c, size)."""
        return np.ascontiguousarray((self.elastic @ np.ascontiguousarray(rows.T)).T)

    def turned(self, rows: Floats) -> Floats:
        """Return K_G of rows, (c, size)."""
        return np.ascontiguousarray((self.geometric @ np.ascontiguousarray(rows.T)).T)


class Found(NamedTuple):
    """Load factors (k,) ascending, shapes (k, size) with x.K x = 1; why there are none, if the search failed."""

    factors: Floats
    shapes: Floats
    because: str = ""


class _Space(NamedTuple):
    """Rows orthonormal in K: `q`, `kq` = K q, `gq` = K_G q, (m, size) each."""

    q: Floats
    kq: Floats
    gq: Floats


class _Ritz(NamedTuple):
    """The largest nu (w,), descending; their weights on the space (w, m); residuals (w,); is the space all there is?"""

    nu: Floats
    weights: Floats
    residuals: Floats
    whole: bool


class _At(NamedTuple):
    """A shift and the factor of K + shift K_G."""

    shift: float
    factor: Shifted


def lowest(pencil: Pencil, count: int) -> Found:
    """Return the `count` smallest positive load factors, fewer where there are no more.

    Args:
        pencil: the problem.
        count: how many, at least one.
    """
    none = np.zeros((0, pencil.size))
    wanted, blocks, space = count, _FIRST_BLOCKS, _Space(none, none, none)
    at: _At | None = None
    worst = np.inf
    fresh = pencil.inverse(pencil.anything((0,), max(count, 2)))
    for number in range(1, _MOST_ROUNDS + 1):
        space, ritz = _search(pencil, space, fresh, at, (wanted, blocks))
        wanted, beyond = count, None
        had, worst = worst, float(ritz.residuals.max(initial=0.0))
        exact = worst <= (ROUGH if worst > _GAINS * had else GOAL)
        if exact and len(ritz.nu) < count and not ritz.whole:
            beyond = _beyond(pencil, space, ritz)
        if beyond is None and exact:
            if len(ritz.nu) == 0 or _confirmed(at, ritz, count):
                return _found(space, ritz, count)
            beyond = _near(pencil, (1.0 + _APART) / ritz.nu[:count][-1])
            if _confirmed(beyond, ritz, count):
                return _found(space, ritz, count)
            wanted = min(count if beyond is None else max(count, beyond.factor.below), _MOST_AT_ONCE)
        elif beyond is None:
            beyond = _near(pencil, (1.0 + _APART) / ritz.nu[:count][-1])
            if beyond is None or beyond.factor.below > count + _FEW:
                beyond = _near(pencil, (1.0 - _APART) / ritz.nu[np.argmax(ritz.residuals > GOAL)])
            else:
                wanted = max(count, beyond.factor.below)
        if beyond is None:
            return Found(np.zeros(0), none, "no shift near the lowest load factor gave a factor to be trusted")
        at, blocks, space = beyond, _BLOCKS, _compressed(space, 2 * wanted)
        fresh = at.factor.solve(np.vstack([space.gq[:wanted], pencil.anything((number,), 1)]))
    return Found(np.zeros(0), none, f"no {count} load factors found that a count of pivots confirms")


def _found(space: _Space, ritz: _Ritz, count: int) -> Found:
    return Found(1.0 / ritz.nu[:count], ritz.weights[:count] @ space.q)


def _confirmed(at: _At | None, ritz: _Ritz, count: int) -> bool:
    """Return whether the factors below the shift are those found, the last wanted one among them."""
    return at is not None and at.factor.below == (ritz.nu * at.shift > 1.0).sum() >= min(count, len(ritz.nu))


def _near(pencil: Pencil, shift: float) -> _At | None:
    """Return a factor at the shift, or a little above where the shift itself meets a load factor."""
    for _ in range(3):
        factor = factor_shifted(pencil.elastic, pencil.geometric, shift)
        if factor is not None:
            return _At(shift, factor)
        shift *= 1.0 + _APART
    return None


def _beyond(pencil: Pencil, space: _Space, ritz: _Ritz) -> _At | None:
    """Return the first of ever larger shifts with more factors below it than were found; None where there are none.

    A field of mostly tension has its few positive factors deep inside the spectrum, where a search finds them late. At
    still larger shifts K would be lost in the rounding of K_G.
    """
    found = len(ritz.nu)
    scale = ritz.nu[-1] if found else np.abs(np.linalg.eigvalsh(space.gq @ space.q.T)).max(initial=0.0)
    for power in range(1, (_MORE_TRIES if found else _TRIES) + 1):
        if scale == 0.0:
            return None
        at = _near(pencil, 8.0**power / scale)
        if at is not None and at.factor.below > found:
            return at
    return None


def _search(
    pencil: Pencil, space: _Space, fresh: Floats, at: _At | None, size: tuple[int, int]
) -> tuple[_Space, _Ritz]:
    """Return the space grown by blocks from `fresh` until the wanted factors are exact, and its Ritz values.

    Args:
        pencil: the problem.
        space: rows to begin with.
        fresh: first block, (b, size).
        at: the shift.
        size: number of factors wanted, number of blocks at most.
    """
    wanted, blocks = size
    rows = len(space.q) + blocks * len(fresh)
    whole = _Space(*(np.empty((rows, pencil.size)) for _ in space))
    for room, part in zip(whole, space, strict=True):
        room[: len(part)] = part
    used, inverse = len(space.q), pencil.inverse if at is None else at.factor.solve
    product, worst = np.zeros((rows, rows)), np.inf
    product[:used, :used] = -(space.gq @ space.q.T)
    for block in range(blocks):
        before = used
        used = _grow(pencil, whole, used, fresh)
        if used == before:  # what the last block leads to is there already: go on from anywhere, if there is anywhere
            used = _grow(pencil, whole, used, pencil.inverse(pencil.anything((block, block), len(fresh))))
        product[before:used, :used] = -(whole.gq[before:used] @ whole.q[:used].T)
        product[:before, before:used] = product[before:used, :before].T
        full, last = used == before, block == blocks - 1
        if full or last or (block >= _EARLY and block % 2) or (block and at is not None):  # a check costs a solution
            now = _Space(*(room[:used] for room in whole))
            ritz = _ritz(pencil, now, product[:used, :used], wanted)
            had, worst = worst, ritz.residuals.max(initial=0.0) if len(ritz.nu) >= wanted else np.inf
            if at is not None and _GAINS * had < worst <= ROUGH:
                break
            if full or last or worst <= GOAL or (at is None and block == _EARLY and np.inf > worst > _SLOW):
                break
        fresh = inverse(-whole.gq[before:used])
    return now, ritz._replace(whole=full)


def _grow(pencil: Pencil, whole: _Space, used: int, fresh: Floats) -> int:
    """Add a block to the space, orthonormal in K; return the number of rows used. Rows that lie in it are dropped."""
    energy, before = np.sqrt(_dots(fresh, pencil.stiff(fresh))), used
    w = fresh - (fresh @ whole.kq[:used].T) @ whole.q[:used]
    w -= (w @ whole.kq[:used].T) @ whole.q[:used]  # the first time leaves the rounding of what it took out
    had = np.sqrt(np.maximum(_dots(w, pencil.stiff(w)), 0.0))
    for row, one in enumerate(w):
        beside = before  # rows of this block first; all of them again while much is taken out
        for _ in range(_MOST_PASSES):
            one -= (whole.kq[beside:used] @ one) @ whole.q[beside:used]  # noqa: PLW2901
            push = pencil.stiff(one[None])[0]
            had[row], left = (float(np.sqrt(max(one @ push, 0.0))), had[row])
            if had[row] > _MUCH * left or had[row] <= _SAME * energy[row]:
                break
            beside = 0
        if had[row] > _SAME * energy[row]:
            whole.q[used], whole.kq[used] = one / had[row], push / had[row]
            used += 1
    whole.gq[before:used] = pencil.turned(whole.q[before:used])
    return used


def _ritz(pencil: Pencil, space: _Space, product: Floats, wanted: int) -> _Ritz:
    """Return the largest positive Ritz values with their residuals |K^-1 (-K_G x - nu K x)| / nu in the norm of K."""
    values, vectors = np.linalg.eigh(0.5 * (product + product.T))
    scale = np.abs(values).max(initial=0.0)
    order = np.argsort(-values)[:wanted]
    order = order[values[order] > _ROUNDING * scale]
    nu, weights = values[order], vectors[:, order].T
    if len(nu) == 0:
        return _Ritz(nu, weights, nu, whole=False)
    out = -(weights @ space.gq) - nu[:, None] * (weights @ space.kq)
    far = _dots(out, pencil.inverse(out))
    return _Ritz(nu, weights, np.sqrt(np.maximum(far, 0.0)) / nu, whole=False)


def _compressed(space: _Space, keep: int) -> _Space:
    """Return the space of its largest Ritz vectors only."""
    values, vectors = np.linalg.eigh(-(space.gq @ space.q.T))
    weights = vectors[:, np.argsort(-values)[:keep]].T
    return _Space(*(weights @ part for part in space))


def _dots(rows: Floats, others: Floats) -> Floats:
    return np.asarray(np.einsum("ci,ci->c", rows, others))
