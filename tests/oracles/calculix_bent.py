"""The angular stiffness of one convolution, in CalculiX with solids all round.     (tests/oracles/calculix_bent.py)

Pure bending is the same in every convolution, so root and crest stay planes: half a convolution is held at its crest
plane and its root plane is turned by phi/2, both free to move within their planes. What bends is symmetric in the plane
of bending and antisymmetric across it, so a quarter of the turn is enough: u_y along the axis, x in the plane of
bending, z across.

    crest    u_y = 0
    root     u_y = x phi/2
    z = 0    u_z = 0
    x = 0    u_y = u_z = 0
    one node u_x = 0, which carries nothing

C3D20R, as coarse round the turn as a wave of one cosine allows.
"""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from tests.oracles.calculix import half_convolution
from tests.oracles.calculix_run import material, run
from tests.oracles.calculix_solid import Meridian

from takeup.bellows.geometry import Bellows

ALONG, THROUGH, ROUND = 40, 2, 12  # elements; finer ones change the stiffness by less than 2e-4 (measured)
TURNED = 1e-3  # phi of the meridian told [rad]
QUARTERS = 4.0
CORNERS = ((0, 0), (0, 2), (2, 2), (2, 0))  # of a side of an element: along, through
MIDDLES = ((0, 1), (1, 2), (2, 1), (1, 0))


@dataclass(frozen=True, kw_only=True, slots=True)
class Bent:
    """What CalculiX finds for one convolution that is bent.

    Args:
        angular_stiffness: moment over the angle of a whole convolution [N m/rad].
        stray: force across the axis on the one held node, over moment and mean radius; nothing but rounding.
    """

    angular_stiffness: float
    stray: float


def bent(
    shape: Bellows,
    *,
    row: int = 0,
    modulus: float,
    poisson: float,
    along: int = ALONG,
    through: int = THROUGH,
    around: int = ROUND,
) -> Bent:
    """Return one convolution of one bellows, one ply, under pure bending.

    Args:
        shape: the bellows.
        row: which of them.
        modulus: E [Pa].
        poisson: nu.
        along: elements from root to crest, about.
        through: elements through the thickness.
        around: elements in a quarter of the turn.
    """
    line = half_convolution(shape, row=row, along=along)
    half, stray = bend(line, modulus=modulus, poisson=poisson, through=through, around=around)
    return Bent(angular_stiffness=half / 2.0, stray=stray)


def bend(
    line: Meridian, *, modulus: float, poisson: float, through: int = THROUGH, around: int = ROUND
) -> tuple[float, float]:
    """Return moment over angle of the solid of a middle line [N m/rad], and the stray force as in `Bent`."""
    solid = quarter(line, through=through, around=around)
    number, used, x, angle = solid.number, solid.used, solid.x, solid.angle
    root = used[0] & (np.arange(angle.size) < angle.size - 1)
    turned = [
        f"{node},2,2,{TURNED * away:.12e}" for node, away in zip(number[0][root], x[0][root].tolist(), strict=True)
    ]
    told = [
        *solid.cards,
        *material(modulus, poisson),
        "*STEP\n*STATIC",
        "*BOUNDARY\nCREST,2,2\nPLANE,3,3\nACROSS,2,3",
        f"{number[-1, 0, 0]},1,1",
        *turned,
        *node_set("TURNED", number[0][root]),
        "*NODE PRINT,NSET=TURNED\nRF",
        "*NODE PRINT,NSET=CREST,TOTALS=ONLY\nRF",
        "*END STEP",
        "",
    ]
    with tempfile.TemporaryDirectory() as folder:
        forces, crest = run(Path(folder), "\n".join(told)).tables
    arms = dict(zip(number[0][root].tolist(), x[0][root].tolist(), strict=True))
    moment = QUARTERS * sum(force * arms[int(node)] for node, _, force, _ in forces)
    return float(moment / TURNED), float(abs(QUARTERS * crest[0, 0] * line.radius.mean() / moment))


@dataclass(frozen=True, kw_only=True, slots=True)
class Quarter:
    """A quarter of the turn as solids.

    Args:
        cards: nodes, elements and the sets ROOT, CREST, PLANE (z = 0) and ACROSS (x = 0).
        number: of the nodes, along, through and round.
        used: which of them are there: a middle node is in the middle of one edge only.
        x: of the nodes [m].
        angle: of the nodes round the axis [rad].
    """

    cards: tuple[str, ...]
    number: np.ndarray
    used: np.ndarray
    x: np.ndarray
    angle: np.ndarray


def quarter(line: Meridian, *, through: int, around: int) -> Quarter:
    """Return the solid of a middle line in a quarter of the turn, C3D20R."""
    across = np.linspace(-0.5, 0.5, 2 * through + 1) * line.thickness
    angle = np.linspace(0.0, np.pi / 2.0, 2 * around + 1)
    radius = line.radius[:, None] + np.cos(line.turn)[:, None] * across
    height = line.height[:, None] - np.sin(line.turn)[:, None] * across
    number = np.arange(1, radius.size * angle.size + 1).reshape(*radius.shape, angle.size)
    x = radius[..., None] * np.cos(angle)
    places = np.stack([x, np.broadcast_to(height[..., None], x.shape), radius[..., None] * np.sin(angle)], axis=-1)
    used = np.add.outer(np.add.outer(np.arange(len(line.arc)) % 2, np.arange(2 * through + 1) % 2), angle * 0.0)
    used = used + np.arange(angle.size) % 2 <= 1.0
    nodes = [
        f"{node},{','.join(f'{part:.12e}' for part in place)}"
        for node, place in zip(number[used], places[used], strict=True)
    ]
    cards = (
        "*NODE",
        *nodes,
        "*ELEMENT,TYPE=C3D20R,ELSET=ALL",
        *_elements(number),
        *node_set("ROOT", number[0][used[0]]),
        *node_set("CREST", number[-1][used[-1]]),
        *node_set("PLANE", number[..., 0][used[..., 0]]),
        *node_set("ACROSS", number[..., -1][used[..., -1]]),
    )
    return Quarter(cards=cards, number=number, used=used, x=x, angle=angle)


def _elements(number: np.ndarray) -> list[str]:
    """Return the elements: four corners at one angle, four at the next, then the middles of their edges."""
    along, through, around = (count // 2 for count in number.shape)
    cards = []
    for place, (i, j, k) in enumerate(np.ndindex(along, through, around), start=1):
        first, middle, last = ([(a, b, 2 * k + side) for a, b in CORNERS] for side in (0, 1, 2))
        low, high = ([(a, b, 2 * k + side) for a, b in MIDDLES] for side in (0, 2))
        nodes = [number[2 * i + a, 2 * j + b, c] for a, b, c in (*first, *last, *low, *high, *middle)]
        words = [str(node) for node in (place, *nodes)]
        cards += [",".join(words[:11]) + ",", ",".join(words[11:])]
    return cards


def node_set(name: str, nodes: np.ndarray) -> list[str]:
    return [f"*NSET,NSET={name}", *(f"{node}," for node in nodes)]
