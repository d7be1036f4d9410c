"""Section 2: bellows given by their geometry, shell beside the form.     (papers/calculation/bellows_inputs.py)"""

from __future__ import annotations

from takeup.drawing.reading import Record, Results, maybe_number, number_of, record_of, records_of, text_of, texts_of
from takeup.edge import Measure, Units
from takeup.papers.common.numerals import NONE, as_given, fixed
from takeup.papers.common.tables import Tree, number_column, table, words_column


def _compared(units: Units) -> tuple[tuple[str, Measure, str, str], ...]:
    """Return what is printed of shell and form: words, measure, key, key of the difference."""
    return (
        ("Axial rate", units.rate, "axial_rate_n_per_mm", "axial_percent"),
        ("Lateral rate, ends kept parallel", units.rate, "lateral_rate_n_per_mm", "lateral_percent"),
        ("Angular rate", units.angular_rate, "angular_rate_nm_per_deg", "angular_percent"),
        ("Torsion rate", units.angular_rate, "torsion_rate_nm_per_deg", "torsion_percent"),
        ("Effective area", units.area, "effective_area_mm2", "effective_area_percent"),
    )


def computed_tables(results: Results, units: Units) -> list[Tree]:
    """Return a table for each joint whose bellows is given by its geometry."""
    return [
        _table(joint, record_of(joint, "computed"), units)
        for joint in records_of(results, "takeups")
        if record_of(joint, "computed")
    ]


def geometry_of(results: Results, units: Units) -> list[tuple[str, str]]:
    """Return the geometry of each such bellows in words, with what was looked up for it."""
    found = []
    for joint in records_of(results, "takeups"):
        made = record_of(joint, "computed")
        if made:
            words = "; ".join((_geometry(made, units), *texts_of(made, "notes")))
            found.append((f"{text_of(joint, 'name')}, bellows", words))
    return found


def _geometry(made: Record, units: Units) -> str:
    def given(key: str) -> str:
        return units.small.named(as_given(number_of(made, key), units.small))

    count, plies = (f"{number_of(made, key):.0f}" for key in ("convolutions", "plies"))
    words = [
        f"{count} convolutions of pitch {given('pitch_mm')} and height {given('convolution_height_mm')}",
        f"inside diameter {given('inside_diameter_mm')}",
        f"{plies} {'ply' if plies == '1' else 'plies'} of {given('ply_thickness_mm')}",
        f"mean radii {given('crest_radius_mm')} at the crest and {given('root_radius_mm')} at the root",
    ]
    if number_of(made, "tangent_length_mm"):
        words.append(f"tangents {given('tangent_length_mm')} long")
    if number_of(made, "collar_length_mm"):
        words.append(f"collars {given('collar_thickness_mm')} thick and {given('collar_length_mm')} long")
    modulus = as_given(number_of(made, "cold_modulus_mpa"), units.stress)
    words.append(f"{text_of(made, 'material') or 'no material named'}, cold modulus {units.stress.named(modulus)}")
    return ", ".join(words)


def _table(joint: Record, made: Record, units: Units) -> Tree:
    shell, formula, difference = (record_of(made, key) for key in ("shell", "formula", "difference"))
    rows = []
    for words, measure, key, apart in _compared(units):
        by_form, percent = maybe_number(formula, key), maybe_number(difference, apart)
        rows.append(
            (
                words,
                measure.unit,
                as_given(number_of(shell, key), measure),
                NONE if by_form is None else as_given(by_form, measure),
                NONE if percent is None else fixed(percent, 1),
            )
        )
    head = (
        words_column("Datum", "1fr"), words_column("Unit", "16mm"), number_column("Shell, used"),
        number_column("Published form"), number_column("Difference", "%"),
    )  # fmt: skip
    return table(head, rows, f"Bellows of {text_of(joint, 'name')} from its geometry, cold; not certified by its maker")


__all__ = ["computed_tables", "geometry_of"]
