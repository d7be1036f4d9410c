"""What a joint is built of, as far as it is known, beside its stated length and weight.     (results/joint_parts.py)

For information; what is more than stated is a row of the check `joint_parts`.
"""

from __future__ import annotations

import numpy as np

from takeup.checks.joint_parts import parts_of
from takeup.joints.sizing.known import KnownParts
from takeup.joints.sizing.parts import Part, overall_mass
from takeup.joints.sizing.spool_wanted import SpoolWanted, spool_wanted
from takeup.line import GRAVITY, Line, TakeUp
from takeup.results.plain import Json
from takeup.study import JointMovement, Solved, Unsolved
from takeup.units import to_mm


def joint_parts_part(answer: Solved | Unsolved, line: Line, item: TakeUp, moved: JointMovement | None) -> Json:
    """Return the parts of a joint; None where neither rods, pins nor a geometry of its bellows are given."""
    known = parts_of(line, item)
    if known is None:
        return None
    return {
        "rows": [
            *(_row(part, "given") for part in known.given),
            *(_row(part, "as the line's pipe") for part in known.taken),
        ],
        **_sums(known, item),
        "not_covered": list(known.missing),
        "notes": list(known.notes),
        "spool": None if moved is None else _spool(answer, item, moved),
    }


def _row(part: Part, known: str) -> Json:
    return {
        "part": part.name,
        "count": part.count,
        "each_mm": to_mm(part.each),
        "in_row": part.in_row,
        "weight_n": part.mass * GRAVITY,
        "known": known,
        "formula": part.formula,
        "source": part.source,
    }


def _sums(known: KnownParts, item: TakeUp) -> dict[str, Json]:
    return {
        "given_weight_n": overall_mass(known.given) * GRAVITY,
        "weight_n": overall_mass((*known.given, *known.taken)) * GRAVITY,
        "stated_weight_n": item.data.weight,
        "least_length_mm": to_mm(known.least_length),
        "stated_length_mm": to_mm(item.data.length),
    }


def _spool(answer: Solved | Unsolved, item: TakeUp, moved: JointMovement) -> Json:
    """Return the spool that the movements found ask for; None without a spool or a geometry of its bellows."""
    if item.bellows is None:
        return None
    lateral = np.linalg.norm(moved.lateral, axis=1)
    found = spool_wanted(
        item.data, item.bellows.of, [(float(x), float(y)) for x, y in zip(moved.axial, lateral, strict=True)]
    )
    return None if found is None else _wanted(found, answer.states[found.number].name)


def _wanted(found: SpoolWanted, state: str) -> Json:
    return {
        "state": state,
        "lateral_mm": to_mm(found.lateral),
        "axial_mm": to_mm(found.axial) + 0.0,
        "allowed_mm": to_mm(found.allowed),
        "needed_mm": None if found.needed is None else to_mm(found.needed),
        "built_mm": to_mm(found.built),
        "formula": "least L_u - 2 L_b with K_u D_m y/(2 N (L_u - L_b + x/2)) <= (X - |x|)/(2 N)",
        "source": "EJMA, from memory",
    }


__all__ = ["joint_parts_part"]
