"""The tables of the demonstration series, made from its inputs.     (joints/series/make.py)

The same inputs give the same bytes. What the stock cannot do is left out and named.
"""

from __future__ import annotations

import csv
import hashlib
import io
import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from takeup.bellows.geometry import Array, Bellows
from takeup.joints.series.choose import Chosen, Wanted, bearing, bearing_balanced, bearing_pairs, choose
from takeup.joints.series.columns import FILES, OWN_COLUMNS, PROVENANCE, columns_of
from takeup.joints.series.hose import HoseLoop, hose_loops
from takeup.joints.series.inputs import (
    INPUTS_FILE,
    OUTSIDE,
    SERIES_KINDS,
    PressureClass,
    SeriesInputs,
    SeriesKind,
    inputs_text,
)
from takeup.joints.series.parts import Pipe, pipe_of
from takeup.joints.series.rated import RatedJoints, rated_joints
from takeup.units import to_bar, to_deg, to_mm, to_mm2, to_mpa, to_n_per_mm, to_nm_per_deg

HOSE = "braided hose loop"
ENDS = "weld ends"
SMALL_ENDS = "threaded"
"""Of small-bore compensators."""
MANIFEST = "manifest.csv"
MANIFEST_COLUMNS = ("file", "sha256", "provenance")
_FIGURES = 5
_WORDS: dict[SeriesKind, str] = {
    "single axial": "axial",
    "externally pressurised": "pressed from outside",
    "universal": "universal",
    "small-bore compensator": "small-bore",
    "hinged": "hinged",
    "in-line pressure balanced": "balanced in line",
}


@dataclass(frozen=True, kw_only=True, slots=True)
class Series:
    """The series: the text of each file; how many rows in all; names of joints that no stock can do."""

    files: dict[str, str]
    rows: int
    left_out: tuple[str, ...]


def make_series(inputs: SeriesInputs, *, sizes: tuple[int, ...] | None = None) -> Series:
    """Return the series.

    Args:
        inputs: that it is made from.
        sizes: DN of some of the sizes; all of them when left out. A row does not depend on the others.
    """
    found: dict[SeriesKind, list[Chosen]] = {kind: [] for kind in SERIES_KINDS}
    left_out = []
    for wanted, one in _choices(inputs, inputs.sizes if sizes is None else sizes):
        if one is None:
            left_out.append(name_of(wanted))
        else:
            found[wanted.kind].append(one)
    files = {FILES[kind]: _text(inputs, kind, tuple(each)) for kind, each in found.items()}
    hoses = tuple(hose_loops(inputs, sizes))
    files[FILES[HOSE]] = _hose_text(inputs, hoses)
    files[MANIFEST] = manifest(files)
    return Series(files=files, rows=sum(map(len, found.values())) + len(hoses), left_out=tuple(left_out))


def manifest(files: Mapping[str, str]) -> str:
    """Return the table of checksums: of what the tables were made from, and of each table (SHA-256)."""
    lines = [",".join(MANIFEST_COLUMNS)]
    for name, text in {INPUTS_FILE: inputs_text(), **files}.items():
        lines.append(f'{name},{hashlib.sha256(text.encode("utf-8")).hexdigest()},"{PROVENANCE}"')
    return "\n".join(lines) + "\n"


def name_of(wanted: Wanted) -> str:
    """Return a joint's name: kind, size, pressure and travel; of a universal across, of a hinge an angle."""
    travel = {
        "universal": f"{to_mm(wanted.travel):g} mm across",
        "hinged": f"{to_deg(wanted.travel):g} deg",
    }.get(wanted.kind, f"{to_mm(wanted.travel):g} mm")
    return f"{_WORDS[wanted.kind]} DN {wanted.size}, {to_bar(wanted.of.pressure):g} bar, {travel}"


def _choices(inputs: SeriesInputs, sizes: tuple[int, ...]) -> Iterator[tuple[Wanted, Chosen | None]]:
    for size in sizes:
        for of in inputs.classes:
            pipe = pipe_of(inputs.pipe, size, of.pressure)
            stocks = _Stocks(inputs=inputs, of=of, pipe=pipe)
            for kind in SERIES_KINDS:
                for travel in inputs.travels_of(kind, size):
                    wanted = Wanted(kind=kind, size=size, of=of, travel=travel)
                    yield wanted, choose(inputs, wanted, pipe, stocks.of_kind(kind))


@dataclass(frozen=True, kw_only=True)
class _Stocks:
    """Candidates of one size and class for each kind, made when they are first asked for."""

    inputs: SeriesInputs
    of: PressureClass
    pipe: Pipe

    def of_kind(self, kind: SeriesKind) -> tuple[Bellows, Array]:
        if kind in OUTSIDE:
            return self.outside
        return {"universal": self.pairs, "in-line pressure balanced": self.balanced}.get(kind, self.axial)

    @cached_property
    def axial(self) -> tuple[Bellows, Array]:
        return bearing(self.inputs, "single axial", self.of, self.pipe)

    @cached_property
    def outside(self) -> tuple[Bellows, Array]:
        return bearing(self.inputs, "externally pressurised", self.of, self.pipe)

    @cached_property
    def pairs(self) -> tuple[Bellows, Array]:
        return bearing_pairs(self.inputs, self.of, self.axial)

    @cached_property
    def balanced(self) -> tuple[Bellows, Array]:
        return bearing_balanced(self.inputs, self.of, self.axial)


def _text(inputs: SeriesInputs, kind: SeriesKind, every: tuple[Chosen, ...]) -> str:
    """Return the file of a kind."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    columns = columns_of(kind)
    writer.writerow(columns)
    if every:
        joints = rated_joints(inputs, kind, every)
        cells = _cells(inputs, every, joints) | {name: _own_cells(joints, name) for name in OWN_COLUMNS.get(kind, {})}
        writer.writerows(zip(*(cells[name] for name in columns), strict=True))
    return stream.getvalue()


def _hose_text(inputs: SeriesInputs, every: tuple[HoseLoop, ...]) -> str:
    """Return the file of hose loops; a cell is empty where a hose has no such number."""
    stream = io.StringIO()
    writer = csv.DictWriter(stream, columns_of(HOSE), restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows(_hose_cells(inputs, one) for one in every)
    return stream.getvalue()


def _hose_cells(inputs: SeriesInputs, one: HoseLoop) -> dict[str, str]:
    """Return the cells of a hose loop that are not empty."""
    pressure, travel = to_bar(one.of.pressure), number(to_mm(one.travel))
    return {
        "name": f"hose loop DN {one.size}, {pressure:g} bar, {travel} mm",
        "kind": HOSE,
        "size_dn": str(one.size),
        "pressure_bar": number(pressure),
        "temperature_c": number(one.of.temperature),
        "rated_cycles": number(inputs.hoses.rated_cycles),
        "axial_compression_mm": travel,
        "axial_extension_mm": travel,
        "lateral_mm": travel,
        "angular_deg": number(to_deg(inputs.hoses.angle)),
        "axial_rate_n_per_mm": number(to_n_per_mm(one.axial_rate)),
        "lateral_rate_n_per_mm": number(to_n_per_mm(one.lateral_rate)),
        "torsion_limit_nm": number(one.torsion_limit),
        "length_mm": number(to_mm(one.length)),
        "live_length_mm": number(to_mm(one.live_length)),
        "weight_kg": number(one.weight),
        "ends": ENDS,
        "test_pressure_bar": number(inputs.test_factor * pressure),
        "price_index": number(one.price_index),
        "material": inputs.material,
        "drop_mm": number(to_mm(one.drop)),
        "provenance": PROVENANCE,
    }


def _cells(inputs: SeriesInputs, every: tuple[Chosen, ...], joints: RatedJoints) -> dict[str, list[str]]:
    """Return the cells of every column."""
    wanted, count = [one.wanted for one in every], len(every)
    return {
        "name": [name_of(one) for one in wanted],
        "kind": [one.kind for one in wanted],
        "size_dn": [str(one.size) for one in wanted],
        "pressure_bar": [number(to_bar(one.of.pressure)) for one in wanted],
        "temperature_c": [number(one.of.temperature) for one in wanted],
        "rated_cycles": [number(inputs.rated_cycles)] * count,
        "axial_compression_mm": _lengths(joints.compression),
        "axial_extension_mm": _lengths(joints.extension),
        "lateral_mm": _lengths(joints.lateral),
        "angular_deg": [number(math.degrees(value)) for value in joints.angular.tolist()],
        "axial_rate_n_per_mm": _rates(joints.axial_rate),
        "lateral_rate_n_per_mm": _rates(joints.lateral_rate),
        "angular_rate_nm_per_deg": [number(to_nm_per_deg(value)) for value in joints.angular_rate.tolist()],
        "torsion_limit_nm": [number(value) for value in joints.torsion_limit.tolist()],
        "effective_area_mm2": [number(to_mm2(value)) for value in joints.effective_area.tolist()],
        "length_mm": _lengths(joints.length),
        "live_length_mm": _lengths(joints.live_length),
        "weight_kg": [number(value) for value in joints.weight.tolist()],
        "ends": [SMALL_ENDS if one.kind == "small-bore compensator" else ENDS for one in wanted],
        "test_pressure_bar": [number(inputs.test_factor * to_bar(one.of.pressure)) for one in wanted],
        "price_index": [number(value) for value in joints.price_index.tolist()],
        **_bellows_cells(inputs, joints),
        "centres_mm": _lengths(joints.centres),
        "whole_axial_rate_n_per_mm": _rates(joints.whole_axial_rate),
        "whole_lateral_rate_n_per_mm": _rates(joints.whole_lateral_rate),
        "provenance": [PROVENANCE] * count,
    }


_OWN_UNITS: dict[str, Callable[[float], float]] = {
    "_n_per_mm": to_n_per_mm,
    "_mm": to_mm,
    "_mpa": to_mpa,
    "_mm2": to_mm2,
    "_n": float,
}


def _own_cells(joints: RatedJoints, name: str) -> list[str]:
    """Return the cells of a column that one kind has alone."""
    suffix = next((one for one in _OWN_UNITS if name.endswith(one)), "")
    unit = _OWN_UNITS.get(suffix, float)
    return [number(unit(value)) for value in joints.own[name.removesuffix(suffix)].tolist()]


def _bellows_cells(inputs: SeriesInputs, joints: RatedJoints) -> dict[str, list[str]]:
    shape = joints.shape
    lengths = {
        "inside_diameter_mm": shape.inside_diameter,
        "convolution_height_mm": shape.height,
        "pitch_mm": shape.pitch,
        "ply_thickness_mm": shape.ply_thickness,
        "crest_radius_mm": shape.crest_radius,
        "root_radius_mm": shape.root_radius,
        "tangent_length_mm": shape.tangent_length,
        "collar_thickness_mm": shape.collar_thickness,
        "collar_length_mm": shape.collar_length,
    }
    return {name: _lengths(values) for name, values in lengths.items()} | {
        "convolutions": [number(value) for value in shape.convolutions.tolist()],
        "plies": [number(value) for value in shape.plies.tolist()],
        "material": [inputs.material] * len(shape),
    }


def number(value: float) -> str:
    """Return a number to five figures as a table has it, never with an exponent; nothing where there is none."""
    if not math.isfinite(value):
        return ""
    return np.format_float_positional(float(f"{value:.{_FIGURES}g}"), trim="-")


def _lengths(values: Array) -> list[str]:
    return [number(to_mm(value)) for value in values.tolist()]


def _rates(values: Array) -> list[str]:
    return [number(to_n_per_mm(value)) for value in values.tolist()]


__all__ = ["ENDS", "MANIFEST", "MANIFEST_COLUMNS", "Series", "make_series", "manifest", "name_of", "number"]
