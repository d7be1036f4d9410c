"""Lines with places for a joint of an invented series, and what every joint of it says there, one by one.

`every` runs the whole study of each joint, named in the file as a user would name it: what a selection is held against.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from tests.builders import hold, line_file
from tests.series_builders import table_text_of

from takeup.bellows.forms.life import EJMA_EXPONENT
from takeup.checks import run_checks
from takeup.choose import resolve
from takeup.errors import InputError
from takeup.joints.tables import SeriesTable
from takeup.joints.tables.store import import_table
from takeup.line import Study
from takeup.line.reading.reader import read_study
from takeup.results.verdict import verdict_of
from takeup.study import JointMovement, Walked, walk_study

OUTSIDE = {"kind": "externally pressurised", "length_mm": "900", "effective_area_mm2": "52000", "weight_kg": "90"}
RODS = {
    "kind": "limit-rod axial", "rod_count": "4", "rod_diameter_mm": "24", "rod_circle_mm": "360", "rod_gap_mm": "70",
    "rod_modulus_mpa": "200000",
}  # fmt: skip
STEADY = {"lateral_rate_n_per_mm": "2000", "angular_rate_nm_per_deg": "150"}
"""Stiff enough across for the line to be stable."""
ROWS: tuple[dict[str, str], ...] = (
    {"name": "too short", "price_index": "40", "axial_compression_mm": "12", **STEADY},
    {"name": "too weak", "price_index": "45", "pressure_bar": "9", "test_pressure_bar": "24", **STEADY},
    {"name": "too small", "price_index": "41", "size_dn": "150", "effective_area_mm2": "29000", **STEADY},
    {"name": "not tested", "price_index": "42", "test_pressure_bar": "", **STEADY},
    {"name": "too long", "price_index": "43", "length_mm": "3500", "live_length_mm": "300", **STEADY},
    {"name": "limp", "price_index": "44"},
    {"name": "wide", "price_index": "60", "effective_area_mm2": "62000", "axial_rate_n_per_mm": "120", **STEADY},
    {"name": "stiff", "price_index": "65", "length_mm": "560", **STEADY, "axial_rate_n_per_mm": "900"},
    {"name": "plain", "price_index": "70", "length_mm": "520", **STEADY},
    {"name": "long lived", "price_index": "120", "axial_compression_mm": "80", "length_mm": "800", **STEADY},
    {"name": "by rods", "price_index": "95", **STEADY, **RODS},
    {"name": "outside", "price_index": "62", **STEADY, **OUTSIDE},
    {"name": "outside unpriced", "price_index": "", **STEADY, "axial_rate_n_per_mm": "60", **OUTSIDE},
)
"""Joints of three kinds; each of the first six is cheap and fails by what its name says, at 10 bar on 12 m."""

GUIDES = (1.9, 4.4, 7.4, 10.0)
"""Metres from the west end."""
OPERATING = {
    "design": '{ pressure: 10 bar(g), temperature: 185 °C, vacuum: "not possible, because nothing condenses here" }',
    "operating": "{ pressure: 9 bar(g), temperature: 180 °C }",
    "test": "{ pressure: 15 bar(g), with: water, temperature: 70 °F }",
}


def choice(name: str, at: str, words: str, kind: str = "single axial") -> str:
    """Return a take-up whose joint is of the series."""
    return f"{{ name: {name}, kind: {kind}, at: {at}, from: trial, {words} }}"


def line_text(*takeups: str, friction: str = "0.0", can_carry: str = "200 kN", **keys: object) -> str:
    """Return a straight line of 12 m between two anchors, or as `keys` say, with take-ups in it."""
    rubs = f"{{ low: {friction}, high: {friction}, source: invented }}"
    given: dict[str, object] = {
        "holds": tuple(hold("slide guide", f"west end + {at} m", friction=rubs) for at in GUIDES),
        "start": f"main anchor, can_carry: {can_carry}",
        "end": f"main anchor, can_carry: {can_carry}",
        **OPERATING,
        **keys,
    }
    legs = given.pop("legs", ["12 m east"])
    return line_file(legs, takeups=takeups, **given)  # type: ignore[arg-type]  # keys of line_file by name


def stored(folder: Path, *rows: dict[str, str]) -> SeriesTable:
    """Import rows as the series `trial` of a folder."""
    file = folder / "trial.csv"
    file.write_text(table_text_of(*rows), encoding="utf-8")
    return import_table(file, "trial", folder, replace_it=True)


def read(folder: Path, text: str) -> Study:
    """Write a line file and read it."""
    file = folder / "line.yaml"
    file.write_text(text, encoding="utf-8")
    return read_study(file)


@dataclass(frozen=True, kw_only=True, slots=True)
class Answered:
    """What the whole study of one joint says: whether it stands, what it is ranked by, how it moves [m]."""

    name: str
    kind: str
    stands: bool
    because: str
    ranks: dict[str, float]
    axial: tuple[float, ...] = ()


_OF_JOINT = ("joint_movement", "joint_pressure", "joint_temperature", "joint_cycles")


def answered(folder: Path, table: SeriesTable, row: int, text: str, name: str = "J1") -> Answered:
    """Return what the study of a file says in which a joint is named.

    Args:
        folder: of the series.
        table: the series.
        row: of the joint.
        text: the line file, with the joint named.
        name: of the take-up.
    """
    joint, kind = table.names[row], table.kinds[row]
    failed = {"name": joint, "kind": kind, "stands": False, "ranks": {}}
    try:
        walked = walk_study(resolve(read(folder, text)))
    except InputError as error:
        if not any(words in str(error) for words in ("there is room for", "and the pipe at")):
            raise
        return Answered(**failed, because=str(error))
    if not isinstance(walked, Walked):
        return Answered(**failed, because="; ".join(walked.because))
    checks = run_checks(walked)
    verdict = verdict_of(checks)
    silent = [
        item
        for item in checks
        if item.where == name and item.rule in _OF_JOINT and item.outcome in ("no limit given", "not covered")
    ]
    right_size = table.numbers["size_dn"][row] == 200.0
    stands = verdict.outcome != "fails" and not silent and right_size
    moved = next(one for line in walked.base.lines for one in line.joints if one.name == name)
    return Answered(
        name=joint,
        kind=kind,
        stands=bool(stands),
        because=verdict.because[0],
        ranks=_ranks(table, row, moved),
        axial=tuple(moved.axial.tolist()),
    )


def _ranks(table: SeriesTable, row: int, moved: JointMovement) -> dict[str, float]:
    """Return what a joint is ranked by, least first, from the movements that its own study finds."""
    cell = {key: float(values[row]) for key, values in table.numbers.items()}
    forces = np.abs(moved.pressure * cell["effective_area"] - cell["axial_rate"] * cell["cold_share"] * moved.axial)
    axial = np.append(moved.axial, 0.0)
    used = (axial.max() - axial.min()) / (cell["axial_compression"] + cell["axial_extension"])
    used += np.linalg.norm(moved.lateral, axis=1).max() / cell["lateral"]
    used += np.linalg.norm(moved.angular, axis=1).max() / cell["angular"]
    price = cell["price_index"]
    return {
        "price": np.inf if np.isnan(price) else price,
        "length": cell["length"],
        "thrust": float(forces.max()),
        "life": -float(min(cell["rated_cycles"] * used**-EJMA_EXPONENT, 1e6)),
    }


def first(every: list[Answered], rank: str, kind: str | None = None) -> str | None:
    """Return the name of the first by a rank of those that stand, of one kind or of all; None where none does."""
    standing = [one for one in every if one.stands and kind in (None, one.kind)]
    found = min(
        standing,
        key=lambda one: (one.ranks[rank], round(one.ranks["thrust"], 6), one.ranks["length"], one.name),
        default=None,
    )
    return None if found is None else found.name
