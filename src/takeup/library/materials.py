"""Pipe and bellows materials: expansion by table, modulus, density, Poisson's ratio.     (library/materials.py)

A material is looked up by its name or one of its aliases, exactly. Its modulus comes from one table, in the units in
which that was printed: metric (modulus.csv) or US (modulus_us.csv). Expansion is in `library/expansion.py`.
A user's own material is checked for what no material can be, and marked as the user's.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from itertools import pairwise

from takeup.errors import OutOfRange
from takeup.library.expansion import expansion_of
from takeup.library.records import Curve, Material, Source
from takeup.library.tables import called, curve, rows, source_of
from takeup.units import PA_PER_PSI, from_degf

PA_PER_GPA = 1e9
PA_PER_MILLION_PSI = 1e6 * PA_PER_PSI

# What no material of a pipe or a bellows is outside of; a number outside was typed in another unit.
MODULI = (1.0, 1000.0)  # GPa: from plastics to diamond
DENSITIES = (500.0, 25_000.0)  # kg/m3: from light plastics to osmium
POISSON_RATIOS = (0.0, 0.5)  # 0.5 is a body that keeps its volume
GREATEST_COEFFICIENT = 3e-4  # 1/K: polyethylene has 2e-4, metals to 3e-5

Pairs = Sequence[tuple[float, float]]


def materials() -> tuple[str, ...]:
    """Return the names of the materials, in the order of the data file."""
    return tuple(row["material"] for row in rows("materials.csv"))


@cache
def material(words: str, *, expansion_table: str) -> Material:
    """Return a material with one of the expansion tables.

    Args:
        words: The material's name or alias, such as `ASTM A106 B` or `316L`.
        expansion_table: One of `tables_for(words)`.

    Raises:
        UnknownName: The library holds no such material, there is no such table, or it does not hold the material.
    """
    row = called("material", words, rows("materials.csv"), key="material")
    return Material(
        name=row["material"],
        expansion=expansion_of(row["material"], expansion_table),
        modulus=_modulus(row["material"], row["modulus_group"]),
        density=float(row["density_kg_per_m3"]),
        poisson=float(row["poisson"]),
        density_source=source_of(row),
        poisson_source=source_of(row),
    )


def user_material(
    name: str, *, expansion: Pairs, modulus: Pairs, density: float, poisson: float, source: str
) -> Material:
    """Return a material of the user's own, marked "user's data".

    Args:
        name: What the user calls it.
        expansion: Pairs of temperature [degC] and total strain [m/m]; the reference temperature, from which the
            strain counts, is that of the pair whose strain is zero, and there must be one. Not mean coefficients.
        modulus: Pairs of temperature [degC] and modulus of elasticity [Pa].
        density: Density [kg/m3].
        poisson: Poisson's ratio.
        source: Where the user has it from.

    Raises:
        OutOfRange: Fewer than two pairs, temperatures that do not rise, no pair of zero strain, a strain that does
            not rise, or a value that no material has.
    """
    _check_expansion(name, expansion)
    for temperature, value in modulus:
        _check(f"modulus of {name} at {temperature:g} degC", value / PA_PER_GPA, *MODULI, "GPa")
    _check(f"density of {name}", density, *DENSITIES, "kg/m3")
    _check(f"Poisson's ratio of {name}", poisson, *POISSON_RATIOS)
    if not source.strip():
        raise OutOfRange(f"the data of {name} have no source. Say where they are from.")
    own = Source(words=source, status="user's data")
    return Material(
        name=name,
        expansion=_user_curve(f"expansion of {name}", expansion, own),
        modulus=_user_curve(f"modulus of {name}", modulus, own),
        density=density,
        poisson=poisson,
        density_source=own,
        poisson_source=own,
    )


def _modulus(name: str, group: str) -> Curve:
    files: tuple[tuple[str, str, str, Callable[[float], float], float], ...] = (
        ("modulus.csv", "temperature_degc", "modulus_gpa", float, PA_PER_GPA),
        ("modulus_us.csv", "temperature_degf", "modulus_1e6_psi", from_degf, PA_PER_MILLION_PSI),
    )
    for file, degrees, value, to_degc, factor in files:
        chosen = [row for row in rows(file) if row["group"] == group]
        if chosen:
            return curve(
                f"modulus of {name}",
                f"{file}, row {chosen[0]['row']} to {chosen[-1]['row']}",
                {to_degc(float(row[degrees])): float(row[value]) * factor for row in chosen},
                tuple(source_of(row) for row in chosen),
            )
    raise AssertionError(f"materials.csv names a modulus group without rows: {group}")


def _user_curve(what: str, pairs: Pairs, source: Source) -> Curve:
    temperatures = tuple(float(temperature) for temperature, _ in pairs)
    if len(pairs) <= 1 or any(not low < high for low, high in pairwise(temperatures)):
        raise OutOfRange(f"{what}: give two or more pairs, each at a higher temperature than the one before.")
    return Curve(
        what=what,
        temperatures=temperatures,
        values=tuple(float(value) for _, value in pairs),
        statuses=tuple(source.status for _ in pairs),
        source=source,
        table="user's data",
    )


def _check_expansion(name: str, pairs: Pairs) -> None:
    if not any(strain == 0 for _, strain in pairs):
        raise OutOfRange(
            f"expansion of {name}: no pair has the strain zero. Give total strain from a reference temperature, and "
            "the reference as a pair of its own."
        )
    for (low, less), (high, more) in pairwise(pairs):
        if high > low and not 0 < (more - less) / (high - low) < GREATEST_COEFFICIENT:
            raise OutOfRange(
                f"expansion of {name} from {low:g} to {high:g} degC: the strain goes from {less:g} to {more:g}. It "
                f"must rise, by less than {GREATEST_COEFFICIENT:g} per kelvin. Give total strain in m/m."
            )


def _check(what: str, value: float, least: float, greatest: float, unit: str = "") -> None:
    if not least <= value <= greatest:
        mark = f" {unit}" if unit else ""
        end = "; is its unit right?" if unit else "."
        raise OutOfRange(f"{what} is {value:g}{mark}, not between {least:g} and {greatest:g}{mark}{end}")
