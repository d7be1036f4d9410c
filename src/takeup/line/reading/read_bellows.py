"""A joint's bellows by geometry: whether it can be, of what it is, what it gives.     (line/reading/read_bellows.py)

What a geometry gives is computed, and a number typed in beside it that says the same is a second answer: a fault. What
it does not give stays the user's: face to face length, weight (most of it is no bellows), ratings, the torque limit.
"""

from __future__ import annotations

from takeup.bellows import impossible
from takeup.bellows.reading.inputs import INPUTS
from takeup.bellows.reading.metals import StatedMetal, metal_of
from takeup.bellows.unlikely import unlikely
from takeup.errors import OutOfRange
from takeup.joints import WRITTEN_KINDS, ComputedBellows, JointBellows, RatingDuty, computed, rated_movements
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.schema_bellows import BellowsItem, TangentItem
from takeup.line.reading.schema_takeups import TakeUpItem
from takeup.reading.yaml_places import Path

NEEDED = ("axial_rate", "effective_area", "live_length")
AXIAL = ("axial_compression", "axial_extension")
GIVEN_BY_GEOMETRY = (*NEEDED, "lateral_rate", "angular_rate", "torsion_rate")
_KEYS = {one.column: one.key for one in INPUTS}


def check_answers(book: FaultBook, path: Path) -> None:
    """Note what neither the data of a joint nor a geometry says, and what both say."""
    geometry = book.has((*path, "bellows"))
    kind = WRITTEN_KINDS.get(book.words((*path, "kind")))
    hose = kind is not None and kind.name == "braided hose loop"
    if hose and geometry:
        book.add((*path, "bellows"), "nothing of a hose is computed from a geometry; leave this key out", at_key=True)
    for key in GIVEN_BY_GEOMETRY:
        place = (*path, "data", key)
        if geometry and book.has(place):
            message = "two answers: it is computed from the geometry under 'bellows'; leave out this key or that one"
            book.add(place, message, at_key=True)
        elif hose and key == "effective_area" and book.has(place):
            book.add(place, "a braided hose loop carries its thrust in its braid; leave this key out", at_key=True)
        elif not geometry and key in NEEDED and not (hose and key == "effective_area"):
            book.need(place)
    if kind is not None and "axial" not in kind.rated:
        return
    typed = [key for key in AXIAL if book.has((*path, "data", key))]
    if not geometry or typed:
        for key in AXIAL:
            book.need((*path, "data", key))


def read_bellows(book: FaultBook, item: BellowsItem, temperature: float, path: Path) -> ComputedBellows | None:
    """Return what the bellows of a joint gives; None where it has a fault.

    Args:
        book: where faults go.
        item: the bellows.
        temperature: rated, of the joint [degC].
        path: of the take-up.
    """
    one = _bellows(item, temperature)
    wrong = [(_place(path, wrong.column), wrong.message) for wrong in metal_of(one.metal).wrong]
    for place, message in wrong:
        book.add(place if book.has(place) else (*path, "bellows"), message, at_key=not book.has(place))
    reasons = impossible(one.shapes(1), 0)
    for why in reasons:
        book.add((*path, "bellows"), why, at_key=True)
    doubted = list(unlikely(one.shapes(1), 0))
    for column, why in doubted:
        book.add(_place(path, column), why)
    return None if wrong or reasons or doubted else computed(one)


def read_ratings(
    book: FaultBook, made: ComputedBellows, item: TakeUpItem, path: Path
) -> tuple[dict[str, float | None], str]:
    """Return the rated movements of a joint that its file leaves to be computed, and where they are from.

    Args:
        book: where faults go.
        made: its bellows.
        item: the take-up.
        path: of it.

    Returns:
        By the names of `JointData`; nothing, and no words, where the file has them typed in or they cannot be computed.
    """
    data = item.data
    if any(getattr(data, key) is not None for key in AXIAL):
        return {}, ""
    if data.rated_cycles is None or made.of.curve is None:
        message = (
            "no rated axial movement is typed in: type it in, or state 'rated_cycles' here and 'life_curve' under "
            "'bellows', and it is computed"
        )
        book.add((*path, "data"), message, at_key=True)
        return {}, ""
    kind = WRITTEN_KINDS[item.kind]
    duty = RatingDuty(pressure=data.pressure, cycles=float(data.rated_cycles), outside=not kind.column_squirm)
    try:
        found = rated_movements(made.of, duty, data.centres if kind.bellows > 1 else None)
    except OutOfRange as why:
        book.add((*path, "data"), f"no rated axial movement is typed in, and none can be computed: {why}", at_key=True)
        return {}, ""
    values: dict[str, float | None] = dict.fromkeys(AXIAL, found.axial)
    values |= {
        name: getattr(found, name) for name in ("lateral", "angular") if kind.column_squirm and not getattr(data, name)
    }
    return values, found.words


def _place(path: Path, column: str) -> Path:
    if column == "temperature_c":
        return (*path, "data", "temperature")
    return (*path, "bellows", *_KEYS.get(column, (column,)))


def _bellows(item: BellowsItem, temperature: float) -> JointBellows:
    quarter, tangent = item.pitch / 4.0, item.tangent or TangentItem()
    return JointBellows(
        inside_diameter=item.inside_diameter,
        height=item.convolution_height,
        pitch=item.pitch,
        convolutions=item.convolutions,
        plies=item.plies,
        ply_thickness=item.ply_thickness,
        crest_radius=quarter if item.crest_radius is None else item.crest_radius,
        root_radius=quarter if item.root_radius is None else item.root_radius,
        tangent_length=tangent.length or 0.0,
        collar_thickness=tangent.collar_thickness or 0.0,
        collar_length=tangent.collar_length or 0.0,
        metal=StatedMetal(
            material=item.material or "",
            annealed="" if item.annealed is None else "yes" if item.annealed else "no",
            family=item.family or "",
            allowable_table=item.allowable_table or "",
            temperature=temperature,
            modulus=item.modulus,
            cold_modulus=item.cold_modulus,
            poisson=item.poisson,
            yield_strength=item.yield_strength,
            allowable=item.allowable_stress,
        ),
        curve=item.life_curve,
    )
