"""Whether steel of the typed sizes can carry what is said of it.     (line/reading/check_hardware.py)

A capacity and a size that no steel reconciles are a slip of the pen in one of the two, and a check that rests on either
would pass for nothing. What steel takes: joints/sizing/strength.py, which gives the reason of each limit.
"""

from __future__ import annotations

from takeup.joints.sizing import Section, pin_sections, rod_sections
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.schema_hardware import PinsItem, RodsItem
from takeup.line.reading.schema_takeups import TakeUpItem
from takeup.reading.yaml_places import Path
from takeup.units import to_mpa

_PLATES = 2


def check_hardware(book: FaultBook, item: TakeUpItem, path: Path) -> None:
    """Note rods and pins that could not carry what is said of them, and pins that leave nothing of their plates."""
    if item.rods is not None:
        _check_rods(book, item.rods, (*path, "rods"))
    if item.pins is not None:
        _check_pins(book, item.pins, (*path, "pins"))


def _check_rods(book: FaultBook, rods: RodsItem, path: Path) -> None:
    if rods.can_carry is not None:
        thick = f"on rods of {book.words((*path, 'diameter'))}"
        _check_carried(book, rods.can_carry, rod_sections(rods.diameter), thick, path)


def _check_pins(book: FaultBook, pins: PinsItem, path: Path) -> None:
    thick, wide, deep = (book.words((*path, key)) for key in ("diameter", "width", "thickness"))
    if pins.diameter >= pins.width:
        book.add((*path, "diameter"), f"the hole of a pin of '{thick}' leaves nothing of a plate {wide} wide")
    elif pins.can_carry is not None:
        sections = pin_sections(pins.diameter, pins.width, pins.thickness)
        sizes = f"on pins of {thick} in plates of {wide} by {deep}"
        _check_carried(book, pins.can_carry / _PLATES, sections, sizes, path)


def _check_carried(book: FaultBook, force: float, sections: tuple[Section, ...], sizes: str, path: Path) -> None:
    """Note a capacity that asks of a section what no steel takes; of several such sections the one asked most of."""
    most = max(sections, key=lambda one: one.stress(force) / one.no_steel)
    stress = most.stress(force)
    if stress > most.no_steel:
        place = (*path, "can_carry")
        book.add(
            place,
            f"'{book.words(place)}' {sizes} is {to_mpa(stress):.4g} MPa {most.words}; no steel takes more than "
            f"{to_mpa(most.no_steel):.4g} MPa there: the force or a size is mistyped",
        )


__all__ = ["check_hardware"]
