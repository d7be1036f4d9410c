"""All published forms of unreinforced U-shapes at once, for any number of bellows.     (bellows/forms/published.py)

What a checker expects to find, beside what the shell gives. Every field is an array of shape (n,); where a form is
outside its range or lacks a datum its value is nan and the remark of that bellows says why. The charts take radii of a
quarter pitch and parallel walls: other radii keep their values, and past a tenth of difference a remark says so.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.forms import external, factors, forming, life, movement, squirm, stiffness, stress
from takeup.bellows.forms.remarks import Note, always, remarks_of
from takeup.bellows.forms.scope import scope_notes, stated_notes
from takeup.bellows.geometry import Array, Bellows


@dataclass(frozen=True, kw_only=True, slots=True)
class Forms:
    """The published forms of n bellows, shape (n,) each; nan where a form gives nothing.

    Stresses of pressure are those of the duty's pressure and have its sign; those of movement belong to the range of
    equivalent movement at the cold modulus. Pressures against squirm and collapse are magnitudes.

    Args:
        c1: C1. c2: C2. cp: Cp. cf: Cf. cd: Cd.
        stiffness_pi: f of one convolution, all plies, ASME and EN [N/m].
        stiffness_ejma: the same in EJMA's print [N/m].
        axial_rate: K = f/N of the whole bellows, with `stiffness_pi` [N/m].
        angular_rate: of the whole bellows [N m/rad].
        lateral_rate: of the whole bellows, ends kept parallel [N/m].
        torsion_rate: of the whole bellows [N m/rad].
        effective_area: A_e [m2].
        movement: e, equivalent axial movement of one convolution [m].
        s1: end tangent [Pa]. s1_collar: collar [Pa].
        s2: hoop, inner convolution [Pa]. s2_end: hoop, end convolution [Pa].
        s3: meridional membrane of pressure [Pa]. s4: meridional bending of pressure [Pa].
        s5: meridional membrane of movement [Pa]. s6: meridional bending of movement [Pa].
        range_ejma: S_t = 0.7 |S3+S4| + |S5+S6| [Pa].
        range_design: (E_o/E_b) S_t with every stress at E_b, for the design curves [Pa].
        life_ejma_average: average cycles. life_asme_design: design cycles. life_en_design: design cycles.
        squirm_column: ASME and EN, with `stiffness_pi` [Pa]. squirm_column_ejma: EJMA, of yielding columns too [Pa].
        squirm_column_elastic: where an elastic column bows, with `stiffness_pi` [Pa].
        squirm_in_plane_asme: ASME and EN [Pa]. squirm_in_plane_ejma: EJMA [Pa].
        collapse: elastic, of the convolutions as rings under pressure from outside, with no factor [Pa].
        material_factor: K_m, the multiple of the allowable stress that S3 + S4 may reach.
        remarks: one text a bellows, "" when there is nothing to say.
    """

    c1: Array
    c2: Array
    cp: Array
    cf: Array
    cd: Array
    stiffness_pi: Array
    stiffness_ejma: Array
    axial_rate: Array
    angular_rate: Array
    lateral_rate: Array
    torsion_rate: Array
    effective_area: Array
    movement: Array
    s1: Array
    s1_collar: Array
    s2: Array
    s2_end: Array
    s3: Array
    s4: Array
    s5: Array
    s6: Array
    range_ejma: Array
    range_design: Array
    life_ejma_average: Array
    life_asme_design: Array
    life_en_design: Array
    squirm_column: Array
    squirm_column_ejma: Array
    squirm_column_elastic: Array
    squirm_in_plane_asme: Array
    squirm_in_plane_ejma: Array
    collapse: Array
    material_factor: Array
    remarks: tuple[str, ...]

    def __len__(self) -> int:
        return int(self.c1.shape[0])


def published(shape: Bellows, metal: Metal, duty: Duty) -> Forms:
    """Return every published form of these bellows.

    A movement that is not stated counts as none beside one that is; where none is, there is no stress of movement.

    Args:
        shape: the bellows, n of them.
        metal: their metal.
        duty: what is asked of them.
    """
    c1, c2 = factors.depth_ratio(shape), factors.thickness_ratio(shape)
    chart = factors.factors(c1, c2)
    moved = equivalent_movement(shape, duty)
    values = (
        {"c1": c1, "c2": c2, "cp": chart.cp, "cf": chart.cf, "cd": chart.cd, "movement": moved}
        | _rates(shape, metal, chart)
        | _pressure_stresses(shape, metal, duty, chart)
        | {
            "s5": stress.movement_membrane(shape, metal.cold_modulus, moved, chart.cf),
            "s6": stress.movement_bending(shape, metal.cold_modulus, moved, chart.cd),
            "collapse": external.ring_collapse(shape, metal.modulus, metal.poisson),
            "material_factor": forming.material_factor(shape, metal.annealed, metal.family),
        }
    )
    values |= _lives(values, metal, duty)
    values |= _squirm(shape, metal, values)
    return Forms(**values, remarks=remarks_of(len(shape), _notes(shape, metal, duty, values)))


def equivalent_movement(shape: Bellows, duty: Duty) -> Array:
    """Return the greatest equivalent axial movement of a convolution [m], shape (n,); nan where none is stated."""
    parts = (duty.axial, duty.angular, duty.lateral)
    unmoved = np.logical_and.reduce([np.isnan(part) for part in parts])
    axial, angle, lateral = (np.where(np.isnan(part), 0.0, part) for part in parts)
    return np.where(unmoved, np.nan, movement.combined(shape, axial, angle, lateral))


def _rates(shape: Bellows, metal: Metal, chart: factors.Factors) -> dict[str, Array]:
    f = stiffness.stiffness_pi(shape, metal.modulus, metal.poisson, chart.cf)
    whole = stiffness.whole_stiffness(shape, f)
    return {
        "stiffness_pi": f,
        "stiffness_ejma": stiffness.stiffness_ejma(shape, metal.modulus, chart.cf),
        "axial_rate": whole,
        "angular_rate": stiffness.angular_rate(shape, whole),
        "lateral_rate": stiffness.lateral_rate(shape, whole),
        "torsion_rate": stiffness.torsion_rate(shape, metal.modulus, metal.poisson),
        "effective_area": stiffness.effective_area(shape),
    }


def _pressure_stresses(shape: Bellows, metal: Metal, duty: Duty, chart: factors.Factors) -> dict[str, Array]:
    """Return S1 to S4; a collar is reckoned with the modulus of the bellows, since its own is not stated."""
    p = duty.pressure
    return {
        "s1": stress.tangent_stress(shape, p, metal.modulus, metal.modulus),
        "s1_collar": stress.collar_stress(shape, p, metal.modulus, metal.modulus),
        "s2": stress.hoop_stress(shape, p),
        "s2_end": stress.end_hoop_stress(shape, p),
        "s3": stress.pressure_membrane(shape, p),
        "s4": stress.pressure_bending(shape, p, chart.cp),
    }


def _lives(values: dict[str, Array], metal: Metal, duty: Duty) -> dict[str, Array]:
    """Return ranges and lives; for the design curves all stresses stand at E_b and are then raised by E_o/E_b."""
    by_pressure, by_movement = values["s3"] + values["s4"], values["s5"] + values["s6"]
    hot = stress.stress_range(by_pressure, by_movement * metal.modulus / metal.cold_modulus)
    average = stress.stress_range(by_pressure, by_movement)
    design = life.range_at_cold_modulus(hot, metal.modulus, metal.cold_modulus)
    lives = {
        "EJMA average": life.life_ejma_average(average, life.family_factor(metal.family)),
        "ASME design": life.life_asme_design(design),
        "EN design": life.life_en_design(design),
    }
    named = {
        f"life_{curve.lower().replace(' ', '_')}": np.where(
            life.covered(curve, metal.family, duty.temperature) & life.of_state(curve, metal.annealed), cycles, np.nan
        )
        for curve, cycles in lives.items()
    }
    return {"range_ejma": average, "range_design": design} | named


def _squirm(shape: Bellows, metal: Metal, values: dict[str, Array]) -> dict[str, Array]:
    unit = np.ones_like(shape.pitch)
    bending = stress.pressure_bending(shape, unit, values["cp"])
    alpha = squirm.interaction(squirm.bending_to_hoop(stress.hoop_stress(shape, unit), bending))
    asme = squirm.yield_asme(metal.yield_strength, metal.annealed)
    ejma = squirm.yield_ejma(metal.yield_strength, values["material_factor"])
    return {
        "squirm_column": squirm.column_squirm(shape, values["stiffness_pi"]),
        "squirm_column_ejma": squirm.column_squirm_ejma(shape, values["stiffness_ejma"], ejma),
        "squirm_column_elastic": squirm.elastic_column(shape, values["stiffness_pi"]),
        "squirm_in_plane_asme": squirm.in_plane_asme(shape, alpha, asme),
        "squirm_in_plane_ejma": squirm.in_plane_ejma(shape, alpha, ejma),
    }


def _notes(shape: Bellows, metal: Metal, duty: Duty, values: dict[str, Array]) -> Iterator[Note]:
    yield from factors.factor_notes(shape, values["c1"], values["c2"])
    yield from scope_notes(shape)
    yield from external.collapse_notes(shape, metal.poisson)
    yield from stated_notes(metal, duty, values["movement"])
    with_collar = (shape.collar_thickness > 0.0) & (shape.collar_length > 0.0)
    yield (with_collar, always("collar reckoned with the modulus of the bellows"))
    for curve, key in (("EJMA average", "range_ejma"), ("ASME design", "range_design"), ("EN design", "range_design")):
        cycles = values[f"life_{curve.lower().replace(' ', '_')}"]
        entered = np.where(life.of_state(curve, metal.annealed), values[key], np.nan)
        yield from life.life_notes(curve, cycles, entered, metal.family, duty.temperature)
        yield from life.state_notes(curve, metal.annealed)


__all__ = ["Forms", "equivalent_movement", "published"]
