"""The columns of a rating: name with unit, where each number is from, and what it is.     (bellows/columns.py)

One list, in the order of the table: CSV header, keys of the JSON document, sheet on a terminal and reference page are
all made from it. A column's field is the name without its unit, of a `Rated`, an array in SI; a number that is nan was
not computed: an empty cell, `null`, and the remark says why.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, Protocol

import numpy as np

from takeup.bellows.geometry import Array


class Ratings(Protocol):
    """What the columns are read from: an array in SI for each column's field, shape (n,), and n remarks."""

    @property
    def remarks(self) -> tuple[str, ...]:
        """What is to be said of each bellows; "" where nothing is."""
        ...

    @property
    def shell_collapse(self) -> Array:
        """Pressure from outside at which the shell folds, nan where not computed [Pa], shape (n,)."""
        ...


Side = Literal["shell", "formula", "difference", ""]


@dataclass(frozen=True, kw_only=True, slots=True)
class Column:
    """One number of a rating.

    Args:
        name: with its unit, as in CSV and JSON.
        field: of `Rated` that holds it, in SI.
        size: the printed number is the SI number times this.
        unit: for people.
        quantity: what it is a value of, in words; shell and formula values of the same quantity stand side by side.
        side: who computed it, where two do.
        meaning: one sentence for the reference page.
    """

    name: str
    field: str
    size: float
    unit: str
    quantity: str
    side: Side
    meaning: str

    def numbers(self, rated: Ratings) -> Array:
        """Return the column as printed, shape (n,); nan where nothing was computed."""
        return np.asarray(getattr(rated, self.field), dtype=float) * self.size


_UNITS: dict[str, tuple[str, float]] = {
    "_n_per_mm": ("N/mm", 1e-3),
    "_mm": ("mm", 1e3),
    "_deg": ("°", 180.0 / math.pi),
    "_mm2": ("mm²", 1e6),
    "_mpa_per_bar": ("MPa/bar", 0.1),
    "_mpa_per_mm": ("MPa/mm", 1e-9),
    "_nm_per_rad": ("N·m/rad", 1.0),
    "_nm_per_deg": ("N·m/°", math.pi / 180.0),
    "_mm_per_bar": ("mm/bar", 1e8),
    "_bar": ("bar", 1e-5),
    "_mpa": ("MPa", 1e-6),
    "_cycles": ("cycles", 1.0),
    "_percent": ("%", 100.0),
}
"""Unit for people and size, by the ending of a name; the longest ending that fits counts."""


def _column(name: str, quantity: str, side: Side, meaning: str) -> Column:
    """Return a column; unit, size and field follow from how its name ends."""
    ending = max((one for one in _UNITS if name.endswith(one)), key=len, default="")
    unit, size = _UNITS[ending] if ending else ("", 1.0)
    field = name.removesuffix(ending)
    if ending in ("_mpa_per_bar", "_mpa_per_mm"):
        field += "_per_pressure" if ending == "_mpa_per_bar" else "_per_movement"
    return Column(name=name, field=field, size=size, unit=unit, quantity=quantity, side=side, meaning=meaning)


_ONE = "of one inner convolution of a long bellows, all plies"
_WHOLE = "of the whole bellows, its ends held"


def _stiffness() -> Iterator[Column]:
    what = "axial stiffness, one convolution"
    yield _column("shell_stiffness_n_per_mm", what, "shell", f"axial stiffness {_ONE}, of the shell")
    yield _column("formula_stiffness_n_per_mm", what, "formula", f"axial stiffness {_ONE}, of the published form")
    yield _column(
        "stiffness_difference_percent", what, "difference", "the shell's stiffness over the published form's, less one"
    )
    yield _column(
        "formula_stiffness_ejma_n_per_mm",
        "axial stiffness, one convolution, EJMA form",
        "formula",
        f"axial stiffness {_ONE}, of the EJMA form",
    )
    yield _column(
        "shell_angular_stiffness_nm_per_rad",
        "angular stiffness, one convolution",
        "shell",
        f"moment for one radian between the ends {_ONE}, of the shell's first harmonic",
    )
    for kind, unit, words in (
        ("axial", "n_per_mm", "force for axial movement"),
        ("lateral", "n_per_mm", "force for lateral movement without turning of the ends"),
        ("angular", "nm_per_deg", "moment for turning of the ends towards each other"),
        ("torsion", "nm_per_deg", "torque for twist"),
    ):
        for side, of in (("shell", "the shell"), ("formula", "the published form")):
            yield _column(
                f"{side}_{kind}_rate_{unit}",
                f"{kind} rate, whole bellows",
                "shell" if side == "shell" else "formula",
                f"{words} {_WHOLE}, of {of}",
            )


def _area() -> Iterator[Column]:
    what = "effective area"
    yield _column("shell_effective_area_mm2", what, "shell", "thrust over pressure, from the shell's reaction")
    yield _column("formula_effective_area_mm2", what, "formula", "area on the mean diameter of the convolutions")


def _shell_stresses() -> Iterator[Column]:
    for stress, words in (
        ("bending", "greatest absolute meridional bending stress"),
        ("surface", "greatest absolute meridional surface stress, curved wall, membrane and bending,"),
    ):
        for unit, per in (("bar", "per bar of pressure inside"), ("mm", "per mm of movement of one convolution")):
            cause = "pressure" if unit == "bar" else "movement"
            yield _column(f"shell_{stress}_mpa_per_{unit}", f"{stress} stress of {cause}", "shell", f"{words} {per}")
            yield _column(
                f"shell_{stress}_{cause}_position_percent",
                f"where {stress} stress of {cause} is greatest",
                "shell",
                f"where on the half meridian, from the root (0) to the crest (100), the {stress} stress of {cause} "
                "is greatest",
            )
    yield _column(
        "shell_hoop_mean_mpa_per_bar",
        "mean hoop stress",
        "shell",
        "mean hoop membrane stress over the metal area of a convolution per bar of pressure inside",
    )


def _free_end() -> Iterator[Column]:
    yield _column(
        "shell_free_extension_mm_per_bar", "lengthening, ends free", "shell",
        f"lengthening {_ONE}, per bar of pressure inside, where the closed ends are free to move",
    )  # fmt: skip
    for stress in ("bending", "surface"):
        yield _column(
            f"shell_free_{stress}_mpa_per_bar", f"{stress} stress of pressure, ends free", "shell",
            f"greatest absolute meridional {stress} stress per bar of pressure inside, where the closed ends are free",
        )  # fmt: skip


def _limits() -> Iterator[Column]:
    yield _column(
        "squirm_elastic_bar", "column squirm, elastic", "shell", "pressure at which the N convolutions between clamped "
        "ends bow out sideways, elastic; pressure follows the wall",
    )  # fmt: skip
    yield _column(
        "squirm_in_plane_elastic_bar", "in-plane squirm, elastic", "shell", "pressure at which convolutions between "
        "clamped ends go oval, two waves round the axis, elastic; of bellows shorter than 1.2 mean diameters",
    )  # fmt: skip
    yield _column("squirm_design_bar", "column squirm, design", "formula", "design pressure for column squirm")
    yield _column("in_plane_squirm_bar", "in-plane squirm, design", "formula", "design pressure for in-plane squirm")
    what = "collapse under pressure from outside, elastic"
    yield _column(
        "shell_collapse_bar", what, "shell", "pressure from outside at which the bellows folds, elastic, without any "
        "factor; computed where the duty's pressure is from outside",
    )  # fmt: skip
    yield _column(
        "formula_collapse_bar", what, "formula", "pressure from outside at which a ring of the convolutions' second "
        "moment folds, elastic, without any factor",
    )  # fmt: skip


_ENDS = {"s1": "; none without a tangent", "s1_collar": "; none without a collar"}


def _formula_stresses() -> Iterator[Column]:
    for name, words in (
        ("s1", "hoop membrane stress of pressure in the tangent"),
        ("s1_collar", "hoop membrane stress of pressure in the collar"),
        ("s2", "hoop membrane stress of pressure in the convolutions"),
        ("s3", "meridional membrane stress of pressure"),
        ("s4", "meridional bending stress of pressure"),
        ("s5", "meridional membrane stress of movement"),
        ("s6", "meridional bending stress of movement"),
        ("stress_range", "stress range that the life curve takes"),
    ):
        where = _ENDS.get(name, "")
        title = words if name == "stress_range" else f"{name.partition('_')[0].upper()}, {words}"
        yield _column(f"formula_{name}_mpa", title, "formula", f"{words}, of the stated duty{where}")
    yield _column("c1", "shape ratio C1", "formula", "first ratio of the charts, 2 r/w")
    yield _column("c2", "shape ratio C2", "formula", "second ratio of the charts, 1.82 r/sqrt(D_m t_p)")


def _lives() -> Iterator[Column]:
    for name, words in (
        ("ejma_average", "average cycles to failure by the EJMA form"),
        ("asme_design", "design cycles by ASME VIII-1 Appendix 26"),
        ("en_design", "design cycles by EN 13445-3 clause 14"),
    ):
        yield _column(
            f"life_{name}_cycles", words, "formula", f"{words}, of the stated duty, with that standard's own stresses"
        )


def _rated() -> Iterator[Column]:
    least = "by the design curve that allows less, alone; `remark` says what holds it"
    for name, words in (
        ("rated_axial_mm", "axial movement of the whole bellows over the wanted cycles at the stated pressure"),
        ("rated_lateral_mm", "lateral movement of the whole bellows over the wanted cycles at the stated pressure"),
        ("rated_angular_deg", "angle between its ends over the wanted cycles at the stated pressure"),
    ):
        yield _column(name, f"{name.split('_')[1]} movement at the wanted life", "formula", f"{words}, {least}")
    yield _column(
        "pressure_limit_bar",
        "pressure limit",
        "formula",
        "least pressure at temperature at which a criterion is full, in the sense of the stated pressure; empty where "
        "one of the criteria could not be reckoned; `remark` says which",
    )


COLUMNS: tuple[Column, ...] = (
    *_stiffness(),
    *_area(),
    *_shell_stresses(),
    *_free_end(),
    *_limits(),
    *_formula_stresses(),
    *_lives(),
    *_rated(),
)
"""All columns of numbers; `name` stands before them and `remark` after them."""

HEADER: tuple[str, ...] = ("name", *(column.name for column in COLUMNS), "remark")

__all__ = ["COLUMNS", "HEADER", "Column", "Ratings"]
