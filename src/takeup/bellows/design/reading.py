"""Reading a duty file: all its faults at once, each with its place, or what it asks.     (bellows/design/reading.py)"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from takeup.bellows.design.duty import DESIGN_CURVES, DesignDuty, Stock, own_stock
from takeup.bellows.design.keys import FORM
from takeup.bellows.design.metal import DutyMetal, duty_metal
from takeup.library import UnknownName, pipe_size
from takeup.reading.keyed import Said, read_keyed
from takeup.reading.sheet import read_bytes


@dataclass(frozen=True, kw_only=True, slots=True)
class DutyFile:
    """What a duty file says.

    Args:
        file: its name, without folders. sha256: of its bytes.
        name: of the bellows; "" where none is given.
        duty: what is asked. material: as the file calls it.
        assumptions: what was assumed or looked up, in words.
    """

    file: str
    sha256: str
    name: str
    material: str
    duty: DesignDuty
    assumptions: tuple[str, ...]


def read_duty(path: Path) -> DutyFile:
    """Read a duty file.

    Raises:
        InputError: The file cannot be read, is no duty file, or has faults.
    """
    return duty_from_bytes(read_bytes(path), str(path))


def duty_from_bytes(content: bytes, file: str) -> DutyFile:
    """Read what a duty file holds; `file` is the name that faults begin with.

    Raises:
        InputError: It is no duty file, or has faults.
    """
    said, faults = read_keyed(FORM, content, file)
    _check_choices(said)
    metal = duty_metal(said)
    duty, notes = _duty(said, metal)
    faults.raise_faults()
    assert duty is not None, "whatever is missing is a fault"
    return DutyFile(
        file=Path(file).name,
        sha256=hashlib.sha256(content).hexdigest(),
        name=said.word("name"),
        material=said.word("material"),
        duty=duty,
        assumptions=(*notes, *metal.notes),
    )


def _check_choices(said: Said) -> None:
    """Note a bore said twice or not at all, and no movement."""
    if ("size",) in said.values and ("inside_diameter",) in said.values:
        said.fault(("inside_diameter",), "the bore is said twice: give the size or the inside diameter")
    if ("size",) not in said.values and ("inside_diameter",) not in said.values:
        said.missing("the key 'size' is required, such as DN 200, or 'inside_diameter' in its place")
    if not any((name,) in said.values for name in ("axial", "lateral", "angular")):
        said.missing("a movement is required: axial, lateral or angular")


def _duty(said: Said, metal: DutyMetal) -> tuple[DesignDuty | None, tuple[str, ...]]:
    """Return the duty, or None where something is wrong, and what was assumed for it."""
    bore, notes = _bore(said)
    curve = next((one for one in DESIGN_CURVES if one == said.word("curve")), None)
    if curve is None or metal.hot is None or metal.cold is None or math.isnan(bore):
        return None, ()
    outside = said.number("outside_pressure")
    stock, limits = _stock(said), {name: said.number("limits", name) for name in ("outside_diameter", "length")}
    tangent = said.number("tangent_length")
    duty = DesignDuty(
        inside_diameter=bore,
        tangent_length=0.0 if math.isnan(tangent) else tangent,
        pressure=said.number("pressure") - (0.0 if math.isnan(outside) else outside),
        test_pressure=said.number("test_pressure"),
        vacuum=said.word("vacuum") == "yes",
        temperature=said.number("temperature"),
        axial=said.number("axial"),
        lateral=said.number("lateral"),
        angular=said.number("angular"),
        cycles=said.number("cycles"),
        curve=curve,
        metal=metal.hot,
        cold_metal=metal.cold,
        density=metal.density,
        stock=stock,
        most_outside_diameter=_or_none(limits["outside_diameter"]),
        most_length=_or_none(limits["length"]),
    )
    return duty, (*notes, *_unsaid(said), stock.words)


def _unsaid(said: Said) -> Iterator[str]:
    if not said.word("vacuum"):
        yield "no vacuum: the file does not say"
    if math.isnan(said.number("test_pressure")):
        yield "no test pressure is stated, so none is held"
    if math.isnan(said.number("tangent_length")):
        yield "no tangents: the file does not say; their stress is not held"


def _bore(said: Said) -> tuple[float, tuple[str, ...]]:
    if not said.word("size"):
        return said.number("inside_diameter"), ()
    try:
        size = pipe_size(said.word("size"))
    except UnknownName as error:
        said.fault(("size",), str(error))
        return math.nan, ()
    diameter = size.outside_diameter
    words = f"bore {diameter * 1e3:g} mm, the outside diameter of {size.dn} ({size.table}): common practice, no source"
    return diameter, (words,)


def _stock(said: Said) -> Stock:
    own = own_stock()
    thick = tuple(sorted(set(said.numbers.get(("stock", "thicknesses"), ()))))
    plies = tuple(sorted({int(one) for one in said.numbers.get(("stock", "plies"), ())}))
    whose = "stock of the file" if thick and plies else own.words
    if bool(thick) != bool(plies):
        whose = f"{'thicknesses' if thick else 'plies'} of the file, else {own.words}"
    return Stock(thicknesses=thick or own.thicknesses, plies=plies or own.plies, words=whose)


def _or_none(limit: float) -> float:
    return np.inf if math.isnan(limit) else limit


__all__ = ["DutyFile", "duty_from_bytes", "read_duty"]
