"""The bellows of a joint by its geometry: shell and published form side by side.     (results/computed_bellows.py)"""

from __future__ import annotations

from takeup.joints import ComputedBellows
from takeup.results.plain import Json
from takeup.units import to_mm, to_mm2, to_mpa, to_n_per_mm, to_nm_per_deg

PROVENANCE = "computed from the convolution's geometry (shell of revolution); not certified by its maker"
CERTIFIED = "certified: "
"""How the source of a joint begins whose certified values were read from a sheet (choose/comparison)."""
_KEYS = {
    "axial": ("axial_rate_n_per_mm", to_n_per_mm),
    "lateral": ("lateral_rate_n_per_mm", to_n_per_mm),
    "angular": ("angular_rate_nm_per_deg", to_nm_per_deg),
    "torsion": ("torsion_rate_nm_per_deg", to_nm_per_deg),
    "effective_area": ("effective_area_mm2", to_mm2),
}


def computed_part(made: ComputedBellows | None) -> Json:
    """Return the geometry and what it gives; None for a joint whose rates are typed in."""
    if made is None:
        return None
    of = made.of
    lengths = ("inside_diameter", "pitch", "ply_thickness", "crest_radius", "root_radius")
    ends = ("tangent_length", "collar_thickness", "collar_length")
    shell = {name: float(getattr(made.shell, name)) for name in _KEYS}
    return {
        **{f"{name}_mm": to_mm(getattr(of, name)) for name in (*lengths, *ends)},
        "convolution_height_mm": to_mm(of.height),
        "convolutions": of.convolutions,
        "plies": of.plies,
        "material": of.metal.material,
        "cold_modulus_mpa": to_mpa(made.cold_modulus),
        "life_curve": of.curve,
        "shell": {key: shown(shell[name]) for name, (key, shown) in _KEYS.items()},
        "formula": {
            key: None if (value := made.formula[name]) is None else shown(value) for name, (key, shown) in _KEYS.items()
        },
        "difference": {
            f"{name}_percent": None if (value := made.formula[name]) is None else 100.0 * (shell[name] / value - 1.0)
            for name in _KEYS
        },
        "notes": list(made.notes),
    }


def provenance_words(source: str, made: ComputedBellows | None, *, from_series: bool = False) -> str:
    """Return whose the data of a joint are; a certificate's words stand for themselves."""
    if source.startswith(CERTIFIED):
        return source
    if made is None:
        return f"of a series: {source}" if from_series else f"user's data: {source}"
    return f"rates, effective area and live length {PROVENANCE}; the rest user's data: {source}"
