"""Reading a bellows file, CSV or YAML: all its faults at once, or what it says.     (bellows/reading/reader.py)

The order: bytes -> what is said, with places (read_csv or read_yaml) -> numbers and words that no bellows has (limits)
-> the metals (metals) -> shapes that cannot be. A shape outside a published form's range is none of these.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.geometry import Array, Bellows, bellows
from takeup.bellows.impossible import impossible
from takeup.bellows.reading.inputs import INPUTS
from takeup.bellows.reading.limits import Rows, check_limits
from takeup.bellows.reading.metals import metals_of
from takeup.bellows.reading.read_csv import read_csv
from takeup.bellows.reading.read_yaml import read_yaml
from takeup.bellows.reading.table import Table
from takeup.bellows.unlikely import unlikely
from takeup.reading.faultlist import FaultList
from takeup.reading.sheet import decoded, read_bytes

_SIZES = {one.column: one.size for one in INPUTS}
_MOVEMENTS = {"axial": "axial_mm", "lateral": "lateral_mm", "angular": "angular_deg"}
_INSIDE_UNSAID = "the pressure inside is not stated; state it too, 0 where there is none"
_ENDS = ("tangent_length_mm", "collar_thickness_mm", "collar_length_mm")
_YAML = (".yaml", ".yml")


@dataclass(frozen=True, kw_only=True, slots=True)
class BellowsFile:
    """What a file says of n bellows.

    Args:
        file: its name, without folders.
        sha256: of its bytes.
        names: of the bellows, n of them.
        materials: as the file calls them; "" where modulus and Poisson's ratio are typed in.
        shape: of the bellows.
        metal: they are made of.
        duty: asked of them.
        assumptions: what was assumed or looked up for each, in words, n of them.
    """

    file: str
    sha256: str
    names: tuple[str, ...]
    materials: tuple[str, ...]
    shape: Bellows
    metal: Metal
    duty: Duty
    assumptions: tuple[tuple[str, ...], ...]


def read_bellows(path: Path) -> BellowsFile:
    """Read a bellows file.

    Args:
        path: of a table where it ends in .csv, of a YAML text where in .yaml or .yml; else its first line decides.

    Raises:
        InputError: The file cannot be read, is no bellows file, or has faults; it carries the first of them, and how
            many more there are.
    """
    return bellows_from_bytes(read_bytes(path), str(path))


def bellows_from_bytes(content: bytes, file: str) -> BellowsFile:
    """Read what a bellows file holds; `file` is the name that faults begin with.

    Raises:
        InputError: It is no bellows file, or has faults.
    """
    faults = FaultList(file)
    table = read_csv(content, file, faults) if _is_csv(content, file) else _yaml(content, file, faults)
    sound = check_limits(table, faults)
    metal, notes = metals_of(table, faults)
    duty = _duty(table, faults)
    shape, radii = _shape(table)
    _check_possible(table, shape, sound, faults)
    faults.raise_faults()
    return BellowsFile(
        file=Path(file).name,
        sha256=hashlib.sha256(content).hexdigest(),
        names=table.words["name"],
        materials=table.words.get("material") or ("",) * table.rows,
        shape=shape,
        metal=metal,
        duty=duty,
        assumptions=tuple(
            (*first, *second, *third) for first, second, third in zip(radii, notes, _signs(table), strict=True)
        ),
    )


def _is_csv(content: bytes, file: str) -> bool:
    ending = Path(file).suffix.lower()
    if ending in (".csv", *_YAML):
        return ending == ".csv"
    lines = (line for line in content.splitlines() if line.strip() and not line.lstrip().startswith(b"#"))
    return b":" not in next(lines, b":")


def _yaml(content: bytes, file: str, faults: FaultList) -> Table:
    return read_yaml(decoded(content, file), file, faults)


def _si(table: Table, column: str) -> Array:
    """Return a column in SI, (n,); nan where nothing is said."""
    values = table.numbers.get(column)
    return np.full(table.rows, np.nan) if values is None else values * _SIZES[column]


def _shape(table: Table) -> tuple[Bellows, list[tuple[str, ...]]]:
    """Return the shapes, and in words which radii were not stated."""
    pitch = _si(table, "pitch_mm")
    crest, root = _si(table, "crest_radius_mm"), _si(table, "root_radius_mm")
    ends = {name.removesuffix("_mm"): _si(table, name) for name in _ENDS}
    shape = bellows(
        inside_diameter=_si(table, "inside_diameter_mm"),
        height=_si(table, "convolution_height_mm"),
        pitch=pitch,
        convolutions=_si(table, "convolutions"),
        plies=_si(table, "plies"),
        ply_thickness=_si(table, "ply_thickness_mm"),
        crest_radius=np.where(np.isnan(crest), pitch / 4.0, crest),
        root_radius=np.where(np.isnan(root), pitch / 4.0, root),
        **{name: np.nan_to_num(values) for name, values in ends.items()},
    )
    return shape, [
        _radius_words(no_crest, no_root)
        for no_crest, no_root in zip(np.isnan(crest).tolist(), np.isnan(root).tolist(), strict=True)
    ]


def _radius_words(no_crest: bool, no_root: bool) -> tuple[str, ...]:  # noqa: FBT001 -- two of a kind
    if not (no_crest or no_root):
        return ()
    which = "crest and root radius" if no_crest and no_root else "crest radius" if no_crest else "root radius"
    return (f"{which} a quarter of the pitch: the file does not say",)


def _duty(table: Table, faults: FaultList) -> Duty:
    """Return the duties; the pressure is inside above outside, and the atmosphere is outside where nothing is said."""
    inside, outside = _si(table, "pressure_bar"), _si(table, "outside_pressure_bar")
    alone = [
        row
        for row in np.flatnonzero(np.isnan(inside) & ~np.isnan(outside)).tolist()
        if not table.says(row, "pressure_bar")
    ]
    faults.add_rows(
        alone,
        lambda row: table.place(row, "outside_pressure_bar"),
        lambda _: f"{table.called('outside_pressure_bar')}: {_INSIDE_UNSAID}",
    )
    return Duty(
        pressure=inside - np.nan_to_num(outside),
        temperature=_si(table, "temperature_c"),
        **{name: np.abs(_si(table, column)) for name, column in _MOVEMENTS.items()},
        cycles=_si(table, "cycles"),
    )


def _signs(table: Table) -> list[tuple[str, ...]]:
    """Return in words which movements below zero were taken for ranges above it, for each row."""
    found: list[tuple[str, ...]] = [()] * table.rows
    for name, column in _MOVEMENTS.items():
        for row in np.flatnonzero(_si(table, column) < 0.0).tolist():
            found[row] += (f"{name} movement {table.typed(row, column)} taken as a range: its sense does not matter",)
    return found


def _check_possible(table: Table, shape: Bellows, sound: Rows, faults: FaultList) -> None:
    """Note shapes that cannot be, where their numbers are sound one by one."""
    names = table.words.get("name") or ("",) * table.rows
    for row in np.flatnonzero(sound).tolist():
        for why in impossible(shape, row):
            faults.add(*table.row_place(row), f"bellows {names[row]}: {why}")
        for column, why in () if _unread(table, row) else unlikely(shape, row):
            faults.add(*table.place(row, column), f"{table.called(column)}: {why}")


def _unread(table: Table, row: int) -> bool:
    """Whether a number of a tangent or its collar was written and is none, which is a fault already."""
    return any(
        table.says(row, column) and column in table.numbers and bool(np.isnan(table.numbers[column][row]))
        for column in _ENDS
    )
