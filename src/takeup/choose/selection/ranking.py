"""What joints do to the anchors beside them, their life and their order.     (choose/selection/ranking.py)

thrust  the force that goes into the anchors along the pipe, in the worst state:
            |P A_e + k (x + x_0)|  of joints that nothing holds together
            |k (x + x_0)|          of those that rods hold, while their nuts bear        (first principles; physics, 5)
        friction of guides comes on top and is the line's own, the same for every joint.
price   the table's index, length the face-to-face length, the lesser first; life the cycles, the greater first.
Ties are broken by thrust, then length, then name, so that the order never turns on chance.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from takeup.checks.joint_movement import UNSEEN_ANGULAR, UNSEEN_AXIAL, UNSEEN_LATERAL
from takeup.choose.selection.place import Floats
from takeup.choose.selection.screen import Screened, held_by_pins
from takeup.joints import KINDS
from takeup.joints.tables import SeriesTable
from takeup.joints.tables.derate import cycles_at

Rows = NDArray[np.intp]
Rank = Literal["price", "thrust", "length", "life"]
RANKS: Final[tuple[Rank, ...]] = ("price", "thrust", "length", "life")


@dataclass(frozen=True, kw_only=True, slots=True)
class Anchored:
    """What n joints put on the anchors along the pipe [N], (n,) each, in their worst states.

    `test` is that of pressure tests alone; `thrust` the pressure's part in the worst state, whoever carries it.
    """

    force: Floats
    test: Floats
    thrust: Floats


def anchored(screened: Screened) -> Anchored:
    """Return what each joint puts on the anchors beside it.

    |P A - k x|,   A = A_e, of a balanced joint A_e - A_b with k = k_x + k_b, of one that holds its thrust none
    """
    place, own = screened.place, screened.table.numbers
    free = np.array([not KINDS[kind].restrained for kind in screened.table.kinds])
    pieces = np.array([max(KINDS[kind].bellows, 1) for kind in screened.table.kinds])  # a hose is one, of no bellows
    rate = own["axial_rate"] * own["cold_share"] / pieces
    balancing = own["balance_effective_area"]
    rate = rate + np.nan_to_num(own["balance_axial_rate"]) * own["cold_share"]
    left = np.where(free, own["effective_area"], np.where(np.isnan(balancing), 0.0, own["effective_area"] - balancing))
    thrust = np.outer(place.pressure, own["effective_area"])
    spring = np.outer(place.axial + place.preset, rate)
    force = np.abs(np.outer(place.pressure, left) - spring)  # shortening pushes the anchors apart, as pressure does
    tests = force[place.tests]
    return Anchored(
        force=force.max(axis=0),
        test=tests.max(axis=0) if len(tests) else np.zeros(len(rate)),
        thrust=np.abs(thrust).max(axis=0),
    )


def lives(screened: Screened) -> tuple[Floats, NDArray[np.int8]]:
    """Return the cycles that each joint is good for at the place's movements, and how they were found.

    The range of movement over all states, each kind of movement over its rated range, added up:

        u = (max x - min x)/(X_c + X_e) + max y/Y + max theta/Theta

    Compression and extension are rated in one cycle. What is not rated and moves gives no life, as where a hinge would
    have to move along the pipe.
    """
    place, own = screened.place, screened.table.numbers
    axial = np.append(place.axial, 0.0) + place.preset
    used, held = np.zeros(len(screened.table)), held_by_pins(screened.table)
    along = own["axial_compression"] + own["axial_extension"]
    for most, rated, unseen in (
        (float(axial.max() - axial.min()), along, np.maximum(held, UNSEEN_AXIAL)),
        (float(place.lateral.max()), own["lateral"], np.maximum(held, UNSEEN_LATERAL)),
        (float(place.angular.max()), own["angular"], np.full_like(held, UNSEEN_ANGULAR)),
    ):
        with np.errstate(divide="ignore", invalid="ignore"):
            used = used + np.where(rated > 0.0, most / rated, np.where(most > unseen, np.nan, 0.0))
    return cycles_at(screened.table, np.asarray(used))


def in_order(table: SeriesTable, of: Callable[[int], Screened], rows: Rows, rank: Rank) -> Rows:
    """Return some joints in the order of a rank; where the table does not say, last.

    Args:
        table: of the joints.
        of: what the screen found for a joint.
        rows: which joints.
        rank: by which.
    """
    first, force = np.full(len(rows), np.inf), np.full(len(rows), np.inf)
    groups: dict[int, list[int]] = {}
    for place, row in enumerate(rows.tolist()):
        groups.setdefault(id(of(row)), []).append(place)
    for places in groups.values():
        own, found = rows[places], of(int(rows[places[0]]))
        pushes = anchored(found).force
        force[places], first[places] = pushes[own], _measure(found, rank, pushes)[own]
    first = np.where(np.isnan(first), np.inf, first)
    names = np.array([table.names[row] for row in rows.tolist()], dtype=str)
    return np.asarray(rows[np.lexsort((names, table.numbers["length"][rows], np.round(force, 6), first))])


def _measure(found: Screened, rank: Rank, force: Floats) -> Floats:
    if rank == "life":
        return -lives(found)[0]
    return force if rank == "thrust" else found.table.numbers["price_index" if rank == "price" else "length"]


__all__ = ["RANKS", "Anchored", "Rank", "anchored", "in_order", "lives"]
