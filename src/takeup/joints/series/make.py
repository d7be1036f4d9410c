"""The tables of the demonstration series, made from its inputs.     (joints/series/make.py)

The same inputs give the same bytes. What the stock cannot do is left out and named.
"""

from __future__ import annotations

import csv
import hashlib
import io
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from takeup.bellows.geometry import Array
from takeup.joints.series.choose import Chosen, Wanted, bearing, bearing_pairs, choose
from takeup.joints.series.columns import COLUMNS, FILES, PROVENANCE
from takeup.joints.series.inputs import INPUTS_FILE, SERIES_KINDS, SeriesInputs, SeriesKind, inputs_text
from takeup.joints.series.parts import pipe_of
from takeup.joints.series.rated import RatedJoints, rated_joints
from takeup.units import to_bar, to_mm, to_mm2, to_n_per_mm, to_nm_per_deg

ENDS = "weld ends"
MANIFEST = "manifest.csv"
MANIFEST_COLUMNS = ("file", "sha256", "provenance")
_FIGURES = 5
_WORDS: dict[SeriesKind, str] = {
    "single axial": "axial",
    "externally pressurised": "pressed from outside",
    "universal": "universal",
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
    files[MANIFEST] = manifest(files)
    return Series(files=files, rows=sum(map(len, found.values())), left_out=tuple(left_out))


def manifest(files: Mapping[str, str]) -> str:
    """Return the table of checksums: of what the tables were made from, and of each table (SHA-256)."""
    lines = [",".join(MANIFEST_COLUMNS)]
    for name, text in {INPUTS_FILE: inputs_text(), **files}.items():
        lines.append(f'{name},{hashlib.sha256(text.encode("utf-8")).hexdigest()},"{PROVENANCE}"')
    return "\n".join(lines) + "\n"


def name_of(wanted: Wanted) -> str:
    """Return a joint's name: kind, size, pressure and travel; of a universal the travel is across."""
    across = " across" if wanted.kind == "universal" else ""
    pressure, travel = to_bar(wanted.of.pressure), to_mm(wanted.travel)
    return f"{_WORDS[wanted.kind]} DN {wanted.size}, {pressure:g} bar, {travel:g} mm{across}"


def _choices(inputs: SeriesInputs, sizes: tuple[int, ...]) -> Iterator[tuple[Wanted, Chosen | None]]:
    for size in sizes:
        for of in inputs.classes:
            pipe = pipe_of(inputs.pipe, size, of.pressure)
            axial = bearing(inputs, "single axial", of, pipe)
            stocks = {
                "single axial": axial,
                "externally pressurised": bearing(inputs, "externally pressurised", of, pipe),
                "universal": bearing_pairs(inputs, of, axial),
            }
            for kind in SERIES_KINDS:
                for travel in inputs.travels_of(kind, size):
                    wanted = Wanted(kind=kind, size=size, of=of, travel=travel)
                    yield wanted, choose(inputs, wanted, pipe, stocks[kind])


def _text(inputs: SeriesInputs, kind: SeriesKind, every: tuple[Chosen, ...]) -> str:
    """Return the file of a kind."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(COLUMNS)
    if every:
        cells = _cells(inputs, every, rated_joints(inputs, kind, every))
        writer.writerows(zip(*(cells[name] for name in COLUMNS), strict=True))
    return stream.getvalue()


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
        "ends": [ENDS] * count,
        "test_pressure_bar": [number(inputs.test_factor * to_bar(one.of.pressure)) for one in wanted],
        "price_index": [number(value) for value in joints.price_index.tolist()],
        **_bellows_cells(inputs, joints),
        "centres_mm": _lengths(joints.centres),
        "whole_axial_rate_n_per_mm": _rates(joints.whole_axial_rate),
        "whole_lateral_rate_n_per_mm": _rates(joints.whole_lateral_rate),
        "provenance": [PROVENANCE] * count,
    }


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
