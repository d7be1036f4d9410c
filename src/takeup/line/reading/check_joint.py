"""What a joint's data and its rods say of each other and of its kind.     (line/reading/check_joint.py)"""

from __future__ import annotations

from takeup.joints import WRITTEN_KINDS, JointData, JointKind
from takeup.line.reading.check_hardware import check_hardware
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.positions import SAME_PLACE
from takeup.line.reading.schema_hardware import PinsItem, RodsItem
from takeup.line.reading.schema_takeups import TakeUpItem
from takeup.reading.yaml_places import Path
from takeup.units import to_mm

_NEARLY = 2.0  # of the joint's own area: a balance that far off is a slip of the pen


def check_joint(book: FaultBook, item: TakeUpItem, data: JointData, path: Path) -> None:
    """Note what contradicts itself in the data and the rods of a joint, wherever it stands."""
    kind, place = WRITTEN_KINDS[item.kind], (*path, "data")
    _check_ratings(book, data, kind, place)
    _check_lengths(book, data, kind, place)
    _check_keys_of_kinds(book, item, path)
    _check_rods(book, item, data, path)
    _check_pins(book, item, path)
    _check_balance(book, item, data, path)
    check_hardware(book, item, path)


def check_circle(book: FaultBook, item: RodsItem | None, outside: float | None, path: Path) -> None:
    """Note rods that would stand within the pipe.

    Args:
        book: where faults go.
        item: the rods.
        outside: outside diameter of the pipe at the joint [m]; None where it is unsound.
        path: of the rods.
    """
    if item is None or outside is None:
        return
    if item.circle - item.diameter <= outside:
        said, thick = (book.words((*path, key)) for key in ("circle", "diameter"))
        book.add(
            (*path, "circle"),
            f"rods of {thick} on a circle of '{said}' stand within the pipe, {to_mm(outside):.5g} mm outside",
        )


def check_spread(book: FaultBook, item: PinsItem | None, outside: float | None, path: Path) -> None:
    """Note plates or bars that would stand within the pipe.

    Args:
        book: where faults go.
        item: the plates.
        outside: outside diameter of the pipe at the joint [m]; None where it is unsound.
        path: of the plates.
    """
    if item is None or outside is None:
        return
    if item.spread - item.thickness <= outside:
        said, thick = (book.words((*path, key)) for key in ("spread", "thickness"))
        book.add(
            (*path, "spread"),
            f"plates of {thick} whose middles are '{said}' apart stand within the pipe, "
            f"{to_mm(outside):.5g} mm outside",
        )


def _check_ratings(book: FaultBook, data: JointData, kind: JointKind, place: Path) -> None:
    if "axial" in kind.rated and data.axial_compression == data.axial_extension == 0.0:
        book.add((*place, "axial_compression"), "the joint is rated for no axial movement at all")
    for movement in kind.rated:
        if movement != "axial" and not getattr(data, movement):
            book.add(place, f"{_a(kind)} needs '{movement}', its rated {movement} movement", at_key=True)
    if data.minimum_pressure is not None and data.minimum_pressure >= data.pressure:
        said = book.words((*place, "minimum_pressure"))
        book.add((*place, "minimum_pressure"), f"'{said}' is not below the rated pressure")
    if data.test_pressure is not None and data.test_pressure < data.pressure:
        said = book.words((*place, "test_pressure"))
        book.add((*place, "test_pressure"), f"'{said}' is below the rated pressure")


def _check_lengths(book: FaultBook, data: JointData, kind: JointKind, place: Path) -> None:
    """Note bellows that do not fit between the faces, or into each other."""
    length, centres = (f"'{book.words((*place, key))}'" for key in ("length", "centres"))
    typed = book.has((*place, "live_length"))
    live = f"'{book.words((*place, 'live_length'))}'" if typed else f"{to_mm(data.live_length):.5g} mm of convolutions"
    if kind.halves is not None and data.live_length > data.length + SAME_PLACE:
        book.add(
            (*place, "live_length" if typed else "length"),
            f"{live} is above half the length, {length}: each half has its own bellows, and the base is between",
        )
    elif data.live_length > data.length + SAME_PLACE:
        book.add((*place, "live_length" if typed else "length"), f"{live} is above the length, {length}")
    if kind.bellows <= 1:
        if book.has((*place, "centres")):
            count = "one" if kind.bellows else "no"
            book.add((*place, "centres"), f"{_a(kind)} has {count} bellows; leave this key out", at_key=True)
        return
    if data.centres is None:
        book.add(place, f"{_a(kind)} needs 'centres': the distance between the middles of its two bellows", at_key=True)
    elif data.centres <= data.live_length:
        book.add(
            (*place, "centres"), f"{centres} is not above the live length of each bellows, {live}: they would overlap"
        )
    elif data.centres + data.live_length > data.length + SAME_PLACE:
        book.add(
            (*place, "centres"),
            f"two bellows of {live} that stand {centres} apart reach past the faces of the joint, {length} long",
        )


def _check_rods(book: FaultBook, item: TakeUpItem, data: JointData, path: Path) -> None:
    """Note rods where there are none, none where there must be some, and rods that contradict themselves."""
    place, rods, kind = (*path, "rods"), item.rods, WRITTEN_KINDS[item.kind]
    if rods is None:
        if kind.rods == "required" and not book.has(place):
            book.add(path, f"{_a(kind)} needs 'rods': how many, how thick, on which circle, of which modulus")
        return
    if kind.rods == "none":
        book.add(place, f"{_a(kind)} has no rods; leave this key out", at_key=True)
        return
    if (kind.rods == "optional" or "limit" in kind.name) and rods.gap is None:
        book.add(place, f"the limit rods of {_a(kind)} need 'gap': between nut and lug as fitted", at_key=True)
    if "limit" in kind.name and rods.gap == 0.0:
        book.add((*place, "gap"), "limit rods without a gap are tie rods: choose a tied kind, or state a gap")
    if rods.hot and rods.expansion is None:
        book.add((*place, "hot"), "hot rods need 'expansion': their mean coefficient, such as 12e-6 1/K")
    if not rods.hot and rods.expansion is not None:
        book.add((*place, "expansion"), "rods that stay cold do not grow; leave this key out", at_key=True)
    span = data.live_length + ((data.centres or 0.0) if kind.rods_across == "the joint" else 0.0)
    if rods.length is not None and rods.length < span - SAME_PLACE:
        book.add(
            (*place, "length"),
            f"'{book.words((*place, 'length'))}' between the nuts is shorter than what the rods span, "
            f"{to_mm(span):.5g} mm of bellows",
        )


def _check_pins(book: FaultBook, item: TakeUpItem, path: Path) -> None:
    """Note pins where there are none, none where there must be some, and whether anybody says how they rub."""
    kind, place = WRITTEN_KINDS[item.kind], (*path, "pins")
    if item.pins is None:
        if kind.pins != "none" and not book.has(place):
            book.add(path, f"{_a(kind)} needs 'pins': how they lie, how thick, how far apart, of which plates")
        return
    if kind.pins == "none":
        book.add(place, f"{_a(kind)} has no pins; leave this key out", at_key=True)
        return
    if item.pins.hot and item.pins.expansion is None:
        book.add((*place, "hot"), "hot plates need 'expansion': their mean coefficient, such as 12e-6 1/K")
    if not item.pins.hot and item.pins.expansion is not None:
        book.add((*place, "expansion"), "plates that stay cold do not grow; leave this key out", at_key=True)


def _check_balance(book: FaultBook, item: TakeUpItem, data: JointData, path: Path) -> None:
    kind, place = WRITTEN_KINDS[item.kind], (*path, "balance")
    if item.balance is None:
        if kind.balanced and not book.has(place):
            book.add(path, f"{_a(kind)} needs 'balance': the rate and the effective area of its balancing bellows")
        return
    if not kind.balanced:
        book.add(place, f"{_a(kind)} has no balancing bellows; leave this key out", at_key=True)
    elif not 1.0 / _NEARLY < item.balance.effective_area / data.effective_area < _NEARLY:
        said = book.words((*place, "effective_area"))
        book.add((*place, "effective_area"), f"'{said}' balances less than half or more than double the joint's own")


def _check_keys_of_kinds(book: FaultBook, item: TakeUpItem, path: Path) -> None:
    """Note a base, ends or a rate that a kind needs, or has not."""
    kind = WRITTEN_KINDS[item.kind]
    there = book.has((*path, "base"))
    if kind.halves is not None and not there:
        book.add(path, f"{_a(kind)} needs 'base': the anchor base in its middle, and what it can carry")
    elif there and kind.halves is None:
        book.add((*path, "base"), f"{_a(kind)} has no 'base'; leave this key out", at_key=True)
    if kind.name == "small-bore compensator" and not book.has((*path, "ends")):
        book.add(path, f"{_a(kind)} needs 'ends': how it is joined: threaded, welded, flanged or sweat")
    if kind.name == "braided hose loop" and item.data.lateral_rate is None and item.data.angular_rate is None:
        message = f"{_a(kind)} needs 'lateral_rate' or 'angular_rate': nothing of a hose is computed"
        book.add((*path, "data"), message, at_key=True)


def _a(kind: JointKind) -> str:
    noun = "" if kind.name.endswith(("loop", "compensator")) else " joint"
    return f"{'an' if kind.name[0] in 'ei' else 'a'} {kind.name}{noun}"
