"""Everything that is known of bellows, of the shell and of the published forms side by side.     (bellows/rating.py)

`rate` takes any number of bellows at once. The shell answers for every shape that can be; the published forms for those
in their range, nan beyond it, and a remark says why. What needs a datum that is not stated is nan too.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.forms.published import Forms, published
from takeup.bellows.forms.squirm import column_squirm
from takeup.bellows.forms.stiffness import torsion_rate_about
from takeup.bellows.geometry import Array, Bellows, chosen, live_length, mean_diameter
from takeup.bellows.shell.axisymmetric import MOVEMENT, PRESSURE
from takeup.bellows.shell.buckling import buckling_pressure
from takeup.bellows.shell.collapse import collapse_pressure
from takeup.bellows.shell.convolution import FINE, QUICK, Convolution, convolutions, solved
from takeup.bellows.shell.harmonic import WholeRates, angular_stiffness, whole_rates
from takeup.bellows.shell.meridian import places
from takeup.bellows.shell.reference import BUCKLING, reference
from takeup.bellows.wanted import at_wanted_life

_PICTURE = 20  # order of the elements for curves: samples enough to draw
_MARGIN = 2.0 / 0.34  # what the published limit of column squirm keeps below the elastic pressure, 2 pi over 0.34 pi
_LITTLE_MARGIN = 0.75  # of that margin: a shell that leaves less is worth a remark
_BEFORE = 0.95  # of the column's pressure: convolutions that go oval before it are worth a remark
_SHORT = 1.2  # of the mean diameter: longer bellows squirm as columns before their convolutions go oval
_CHARTS_FAR = 0.1  # a shell that differs from the charts by more is worth a remark


@dataclass(frozen=True, kw_only=True, slots=True)
class Rated:
    """n bellows rated; every field but the first three and the last is an array of shape (n,), nan where not known.

    The fields are the columns of columns.py without their units; what each is, is said there. Of the shell: stiffness,
    area and stresses of one convolution at the modulus of the rating, rates of the whole bellows between welded ends,
    pressures at which it gives way. Of the published forms: the same, and stresses and lives of the stated duty.
    """

    shape: Bellows
    metal: Metal
    duty: Duty
    shell_stiffness: Array
    formula_stiffness: Array
    stiffness_difference: Array
    formula_stiffness_ejma: Array
    shell_angular_stiffness: Array
    shell_axial_rate: Array
    formula_axial_rate: Array
    shell_lateral_rate: Array
    formula_lateral_rate: Array
    shell_angular_rate: Array
    formula_angular_rate: Array
    shell_torsion_rate: Array
    formula_torsion_rate: Array
    shell_effective_area: Array
    formula_effective_area: Array
    shell_bending_per_pressure: Array
    shell_bending_pressure_position: Array
    shell_bending_per_movement: Array
    shell_bending_movement_position: Array
    shell_surface_per_pressure: Array
    shell_surface_pressure_position: Array
    shell_surface_per_movement: Array
    shell_surface_movement_position: Array
    shell_hoop_mean_per_pressure: Array
    shell_free_extension: Array
    shell_free_bending_per_pressure: Array
    shell_free_surface_per_pressure: Array
    squirm_elastic: Array
    squirm_in_plane_elastic: Array
    squirm_design: Array
    in_plane_squirm: Array
    shell_collapse: Array
    formula_collapse: Array
    formula_s1: Array
    formula_s1_collar: Array
    formula_s2: Array
    formula_s3: Array
    formula_s4: Array
    formula_s5: Array
    formula_s6: Array
    formula_stress_range: Array
    c1: Array
    c2: Array
    life_ejma_average: Array
    life_asme_design: Array
    life_en_design: Array
    rated_axial: Array
    rated_lateral: Array
    rated_angular: Array
    pressure_limit: Array
    remarks: tuple[str, ...]

    def __len__(self) -> int:
        return len(self.shape)


def rate(shape: Bellows, metal: Metal, duty: Duty) -> Rated:
    """Return everything that is known of these bellows.

    Args:
        shape: n bellows, all of a shape that can be (`impossible`).
        metal: their metal.
        duty: what is asked of them.
    """
    forms = published(shape, metal, duty)
    shell = convolutions(shape, metal.modulus, metal.poisson, order=FINE)
    of = reference(QUICK)
    rates = whole_rates(shape, metal.modulus, metal.poisson, of)
    in_charts = ~np.isnan(forms.stiffness_pi)
    design = np.where(in_charts, forms.squirm_column, column_squirm(shape, shell.axial_stiffness))
    collapse = _collapse(shape, metal, duty)
    wanted = at_wanted_life(shape, metal, duty, folding=collapse)
    elastic = buckling_pressure(shape, metal.modulus, metal.poisson, reference(BUCKLING))
    in_plane = _in_plane(shape, metal)
    with np.errstate(invalid="ignore"):  # both without a limit: neither comes first
        before = in_plane / elastic
    return Rated(
        shape=shape,
        metal=metal,
        duty=duty,
        **_of_shell(shell, rates, forms),
        **_of_forms(shape, metal, forms),
        stiffness_difference=shell.axial_stiffness / forms.stiffness_pi - 1.0,
        shell_angular_stiffness=angular_stiffness(shape, metal.modulus, metal.poisson, of),
        squirm_elastic=elastic,
        squirm_in_plane_elastic=in_plane,
        squirm_design=design,
        shell_collapse=collapse,
        rated_axial=wanted.axial,
        rated_lateral=wanted.lateral,
        rated_angular=wanted.angular,
        pressure_limit=wanted.pressure,
        remarks=_joined(_remarks(shell, forms, elastic / design, before), wanted.words),
    )


def _of_shell(shell: Convolution, rates: WholeRates, forms: Forms) -> dict[str, Array]:
    return {
        "shell_stiffness": shell.axial_stiffness,
        "shell_axial_rate": rates.axial,
        "shell_lateral_rate": rates.lateral,
        "shell_angular_rate": rates.angular,
        "shell_torsion_rate": forms.torsion_rate,
        "shell_effective_area": shell.effective_area,
        "shell_bending_per_pressure": shell.bending_per_pressure,
        "shell_bending_pressure_position": shell.bending_pressure_place,
        "shell_bending_per_movement": shell.bending_per_movement,
        "shell_bending_movement_position": shell.bending_movement_place,
        "shell_surface_per_pressure": shell.surface_per_pressure,
        "shell_surface_pressure_position": shell.surface_pressure_place,
        "shell_surface_per_movement": shell.surface_per_movement,
        "shell_surface_movement_position": shell.surface_movement_place,
        "shell_hoop_mean_per_pressure": shell.hoop_mean_per_pressure,
        "shell_free_extension": shell.free_extension_per_pressure,
        "shell_free_bending_per_pressure": shell.bending_free_per_pressure,
        "shell_free_surface_per_pressure": shell.surface_free_per_pressure,
    }


def _of_forms(shape: Bellows, metal: Metal, forms: Forms) -> dict[str, Array]:
    return {
        "formula_stiffness": forms.stiffness_pi,
        "formula_stiffness_ejma": forms.stiffness_ejma,
        "formula_axial_rate": forms.axial_rate,
        "formula_lateral_rate": forms.lateral_rate,
        "formula_angular_rate": forms.angular_rate,
        "formula_torsion_rate": torsion_rate_about(shape, metal.modulus, metal.poisson),
        "formula_effective_area": forms.effective_area,
        "in_plane_squirm": forms.squirm_in_plane_asme,
        "formula_collapse": forms.collapse,
        "formula_s1": forms.s1,
        "formula_s1_collar": forms.s1_collar,
        "formula_s2": forms.s2,
        "formula_s3": forms.s3,
        "formula_s4": forms.s4,
        "formula_s5": forms.s5,
        "formula_s6": forms.s6,
        "formula_stress_range": forms.range_ejma,
        "c1": forms.c1,
        "c2": forms.c2,
        "life_ejma_average": forms.life_ejma_average,
        "life_asme_design": forms.life_asme_design,
        "life_en_design": forms.life_en_design,
    }


def _collapse(shape: Bellows, metal: Metal, duty: Duty) -> Array:
    """Return the pressure from outside at which a bellows folds, where the duty has one; nan elsewhere, shape (n,)."""
    answer = np.full(len(shape), np.nan)
    rows = np.flatnonzero(duty.pressure < 0.0)
    if len(rows):
        some, modulus, poisson = chosen(shape, rows), metal.modulus[rows], metal.poisson[rows]
        answer[rows] = collapse_pressure(some, modulus, poisson, reference(BUCKLING))
    return answer


def _in_plane(shape: Bellows, metal: Metal) -> Array:
    """Return the pressure inside at which convolutions go oval, elastic, of bellows short enough for it, shape (n,)."""
    answer = np.full(len(shape), np.nan)
    rows = np.flatnonzero(live_length(shape) < _SHORT * mean_diameter(shape))
    if len(rows):
        some, modulus, poisson = chosen(shape, rows), metal.modulus[rows], metal.poisson[rows]
        answer[rows] = buckling_pressure(some, modulus, poisson, reference(BUCKLING), harmonic=2)
    return answer


def _joined(remarks: tuple[str, ...], words: tuple[str, ...]) -> tuple[str, ...]:
    return tuple("; ".join(part for part in both if part) for both in zip(remarks, words, strict=True))


def _remarks(shell: Convolution, forms: Forms, margin: Array, before: Array) -> tuple[str, ...]:
    """Return the remarks of the forms, with what the shell adds to them."""
    answer = []
    for number, said in enumerate(forms.remarks):
        parts = [said] if said else []
        formula, ours = float(forms.stiffness_pi[number]), float(shell.axial_stiffness[number])
        if np.isnan(formula):
            parts.append("squirm_design from the shell's stiffness with the published limit")
        elif abs(ours / formula - 1.0) > _CHARTS_FAR:
            parts.append(f"the shell's stiffness differs from the charts by {100.0 * (ours / formula - 1.0):+.0f} %")
        if margin[number] < _LITTLE_MARGIN * _MARGIN:
            parts.append(
                f"the shell squirms at {margin[number]:.2g} times the design pressure of column squirm, "
                f"which counts on {_MARGIN:.2g} times"
            )
        if before[number] < _BEFORE:
            parts.append(
                f"short for its diameter: its convolutions go oval, elastic, at {before[number]:.2g} times the "
                "pressure at which it squirms as a column"
            )
        answer.append("; ".join(parts))
    return tuple(answer)


@dataclass(frozen=True, kw_only=True, slots=True)
class Meridian:
    """The half meridian of one convolution and its stresses, from root to crest, shape (m,) each.

    Args:
        position: along the meridian [m]. axial: z, 0 at the root [m]. radius: of the middle surface [m].
        bending_per_pressure: [Pa/Pa]; bending above zero pulls the outer side.
        inner_per_pressure: surface stress on the side of the fluid. outer_per_pressure: on the other.
        bending_per_movement: per movement of one convolution [Pa/m], and so on.
        hoop_per_pressure: mean over the wall [Pa/Pa].
        surface_per_pressure: the greatest absolute surface stress as the rating has it, between the places too.
        surface_per_movement: the same per movement [Pa/m].
    """

    position: Array
    axial: Array
    radius: Array
    bending_per_pressure: Array
    inner_per_pressure: Array
    outer_per_pressure: Array
    bending_per_movement: Array
    inner_per_movement: Array
    outer_per_movement: Array
    hoop_per_pressure: Array
    surface_per_pressure: float
    surface_per_movement: float


def meridian(shape: Bellows, modulus: float, poisson: float) -> Meridian:
    """Return the half meridian of one bellows (shape of length 1) with its stresses; pressure from inside."""
    assert len(shape) == 1, "one bellows at a time"
    of = reference(_PICTURE)
    half, stress = solved(shape, np.array([modulus]), np.array([poisson]), of, outside=False)
    at = places(half.segments.reshaped(-1), of.samples)
    rated = convolutions(shape, np.array([modulus]), np.array([poisson]), order=FINE)
    return Meridian(
        position=stress.along.ravel(),
        axial=at.axial.ravel(),
        radius=at.radius.ravel(),
        hoop_per_pressure=stress.hoop[..., PRESSURE].ravel(),
        surface_per_pressure=float(rated.surface_per_pressure[0]),
        surface_per_movement=float(rated.surface_per_movement[0]),
        **{
            f"{name}_per_{cause}": getattr(stress, name)[..., case].ravel()
            for name in ("bending", "inner", "outer")
            for case, cause in ((MOVEMENT, "movement"), (PRESSURE, "pressure"))
        },
    )


__all__ = ["Meridian", "Rated", "meridian", "rate"]
