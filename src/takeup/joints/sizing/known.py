"""What is known of a joint's parts from what a line file says of it.     (joints/sizing/known.py)

Given: bellows whose geometry is written, rods, plates and pins. Taken: ends and spool, as the line's pipe, which is how
the model has them. All else is named as missing, so that a sum is never read as the weight of the whole joint.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from takeup.errors import OutOfRange
from takeup.joints.bellows import bellows_between, whole_live_length
from takeup.joints.computed import JointBellows
from takeup.joints.data import JointData
from takeup.joints.kinds import JointKind
from takeup.joints.links import Hardware
from takeup.joints.sizing.parts import Metal, Part, bellows_part, pin_parts, rod_parts, tube_part
from takeup.library import UnknownName, material, tables_for

STEEL = "ASTM A106 B"
"""Whose density stands for rods, plates and pins: files say their modulus, not their steel."""
STEEL_MODULI = (170e9, 230e9)  # Pa: what of rods and plates is taken for a steel (common practice, no source)
ALWAYS_MISSING = ("flanges", "welds")
_LENGTH_ROUNDING = 1e-9  # m


@dataclass(frozen=True, kw_only=True, slots=True)
class KnownParts:
    """Parts of one joint.

    Args:
        given: by the line file.
        taken: as the line's pipe.
        least_length: of what must find room between the joint's faces: all bellows with their two outer tangents, and
            the spool between two [m].
        missing: what else such a joint has, in words.
        notes: whose densities these are.
    """

    given: tuple[Part, ...]
    taken: tuple[Part, ...]
    least_length: float
    missing: tuple[str, ...]
    notes: tuple[str, ...]


def steel_density() -> float:
    """Return the density of carbon steel in the library [kg/m3]."""
    return material(STEEL, expansion_table=tables_for(STEEL)[0]).density


def known_parts(
    kind: JointKind, data: JointData, hardware: Hardware, bellows: JointBellows | None, pipe: Metal
) -> KnownParts | None:
    """Return the parts of a joint; None where neither rods, pins nor a geometry of its bellows are given.

    Args:
        kind: of joint.
        data: its data.
        hardware: its rods and pins.
        bellows: each of its bellows; None where its rates are typed in.
        pipe: the line's, where it stands.
    """
    if hardware.rods is None and hardware.pins is None and bellows is None:
        return None
    found = [*_bellows(kind, data, bellows), *_hardware(kind, data, hardware)]
    given = tuple(part for part in found if isinstance(part, Part))
    tangents = 0.0 if bellows is None else 2.0 * bellows.tangent_length
    return KnownParts(
        given=given,
        taken=tuple(_of_pipe(kind, data, pipe)),
        least_length=whole_live_length(data) + _spool(data) + tangents,
        missing=(*(words for words in found if isinstance(words, str)), *_missing(kind, hardware), *ALWAYS_MISSING),
        notes=tuple(_notes(given, bellows)),
    )


def _bellows(kind: JointKind, data: JointData, bellows: JointBellows | None) -> Iterator[Part | str]:
    """Yield the bellows, or that they are not known."""
    if bellows is None:
        yield "the hose" if kind.name == "braided hose loop" else "its bellows, whose geometry is not given"
        return
    try:
        density = bellows_density(bellows)
    except OutOfRange as why:
        yield f"its bellows: {why}"
        return
    yield bellows_part(bellows.shapes(1), density, len(bellows_between(data)))


def bellows_density(bellows: JointBellows) -> float:
    """Return the density of the metal of a bellows [kg/m3].

    Raises:
        OutOfRange: The library holds no such metal.
    """
    name = bellows.metal.material
    try:
        return material(name, expansion_table=tables_for(name)[0]).density
    except UnknownName:
        raise OutOfRange(f"the library has no density of {name or 'a metal without a name'}") from None


def _hardware(kind: JointKind, data: JointData, hardware: Hardware) -> Iterator[Part | str]:
    """Yield rods, plates and pins that are of steel by their modulus, and name those that are not."""
    if hardware.rods is not None:
        sets = len(bellows_between(data)) if kind.rods_across == "each bellows" else 1
        if _steel(hardware.rods.modulus):
            yield from rod_parts(hardware.rods, steel_density(), sets)
        else:
            yield _no_steel("its rods", hardware.rods.modulus)
    if hardware.pins is not None:
        if _steel(hardware.pins.modulus):
            yield from pin_parts(hardware.pins, kind.pins, steel_density())
        else:
            yield _no_steel("its plates and pins", hardware.pins.modulus)


def _steel(modulus: float) -> bool:
    return STEEL_MODULI[0] <= modulus <= STEEL_MODULI[1]


def _no_steel(what: str, modulus: float) -> str:
    return f"{what}, whose modulus of {modulus / 1e9:g} GPa is no steel's, so that their density is not known"


def _spool(data: JointData) -> float:
    """Return the spool between two bellows, from live length to live length [m]."""
    return 0.0 if data.centres is None else data.centres - data.live_length


def _of_pipe(kind: JointKind, data: JointData, pipe: Metal) -> Iterator[Part]:
    """Yield spool and ends as the line's pipe; no ends where other parts stand in the row that are not known."""
    spool = _spool(data)
    if spool > _LENGTH_ROUNDING:
        yield tube_part("spool", pipe, spool)
    left = data.length - whole_live_length(data) - spool
    if left > _LENGTH_ROUNDING and not (kind.sleeved or kind.balanced or kind.name == "braided hose loop"):
        yield tube_part("ends", pipe, left / 2.0, count=2)


def _missing(kind: JointKind, hardware: Hardware) -> Iterator[str]:
    """Yield what else such a joint has and no line file sizes."""
    if kind.sleeved:
        yield "housing, guide rings, the pipe inside and its ends"
    if kind.balanced:
        yield "its balancing bellows with ties, rings and ends"
    if hardware.rods is not None:
        yield "lugs or rings that the rods pull on"
    if hardware.pins is not None:
        yield "end rings" + (" and the gimbal ring" if kind.pins == "gimbal" else "")
    if kind.name != "braided hose loop":
        yield "liner and cover, if any"


def _notes(given: tuple[Part, ...], bellows: JointBellows | None) -> Iterator[str]:
    names = {part.name for part in given}
    if "bellows" in names and bellows is not None:
        yield f"bellows of {bellows.metal.material}, {bellows_density(bellows):g} kg/m3 in the library"
    if names - {"bellows"}:
        yield f"rods, plates, pins of {steel_density():g} kg/m3, carbon steel in the library: the file names no steel"


__all__ = ["KnownParts", "bellows_density", "known_parts", "steel_density"]
