"""Designs of bellows on a terminal: the few best side by side, and why.     (papers/joints/bellows_design_sheet.py)

Made from the document alone. Plain text, no colour, so that it reads the same in a log.
"""

from __future__ import annotations

import textwrap
from collections.abc import Mapping, Sequence
from typing import Any  # the document is JSON

from takeup.papers.common.terminal import table
from takeup.papers.joints.bellows_sheet import figures

_WIDTH = 100
_GIVEN = (
    ("inside_diameter_mm", "bore", "mm"),
    ("pressure_bar", "pressure, inside above outside", "bar"),
    ("test_pressure_bar", "test pressure, cold", "bar"),
    ("temperature_c", "temperature", "°C"),
    ("axial_mm", "axial movement", "mm"),
    ("lateral_mm", "lateral movement", "mm"),
    ("angular_deg", "angular movement", "°"),
    ("cycles", "cycles", ""),
    ("allowable_mpa", "allowable stress", "MPa"),
    ("yield_mpa", "yield strength", "MPa"),
    ("most_outside_diameter_mm", "outside diameter at most", "mm"),
    ("most_length_mm", "length at most", "mm"),
)
_ROWS = (
    ("convolutions", "convolutions", ""),
    ("plies", "plies", ""),
    ("ply_thickness_mm", "thickness of a ply", "mm"),
    ("convolution_height_mm", "convolution height", "mm"),
    ("pitch_mm", "pitch", "mm"),
    ("outside_diameter_mm", "outside diameter", "mm"),
    ("length_mm", "length, tangents included", "mm"),
    ("mass_kg", "material", "kg"),
    ("formula_axial_rate_n_per_mm", "axial rate, published form", "N/mm"),
    ("shell_axial_rate_n_per_mm", "axial rate, shell", "N/mm"),
    ("formula_lateral_rate_n_per_mm", "lateral rate, published form", "N/mm"),
    ("shell_lateral_rate_n_per_mm", "lateral rate, shell", "N/mm"),
    ("formula_angular_rate_nm_per_deg", "angular rate, published form", "N·m/°"),
    ("shell_angular_rate_nm_per_deg", "angular rate, shell", "N·m/°"),
    ("movement_needed_mm", "movement of a convolution, asked", "mm"),
    ("movement_allowed_mm", "the same, allowed by the life", "mm"),
    ("squirm_design_bar", "column squirm, design", "bar"),
    ("squirm_elastic_bar", "column squirm, elastic, shell", "bar"),
    ("squirm_elastic_factor", "the same over the pressure", ""),
    ("greatest_use", "greatest use", ""),
)


def design_lines(document: Mapping[str, Any]) -> list[str]:
    """Return the lines of designs: what was asked, the designs in columns, what holds each and why it is here.

    Args:
        document: of the designs, as `takeup bellows design --json` prints it.
    """
    source, duty, designs = document["input"], document["duty"], document["designs"]
    name = f", {document['name']}" if document["name"] else ""
    count = f"{document['tried']} candidates tried, {document['fitting']} fit"
    return [
        f"Design of bellows{name}: {source['file']}, sha256 {source['sha256'][:12]}",
        "",
        "Asked:",
        *_given(duty),
        "",
        f"{count}, nothing beats {document['undominated']} of them in material, length and stiffness at once.",
        "",
        *(_designs(designs) if designs else []),
        *_blocks(document["blocks"], fits=bool(designs)),
        "Assumed or looked up:",
        *_listed(document["assumptions"]),
        "",
        "Not covered:",
        *_listed(document["not_covered"]),
        "",
        "Note:",
        *_listed(document["cautions"]),
        "",
    ]


def _given(duty: Mapping[str, Any]) -> list[str]:
    width = max(len(words) for _, words, _ in _GIVEN)
    lines = [
        f"  {words.ljust(width)}  {figures(duty[name])} {unit}".rstrip()
        for name, words, unit in _GIVEN
        if duty[name] is not None
    ]
    more = (("life", f"{duty['curve']} curve"), ("vacuum", "yes" if duty["vacuum"] else "no"))
    return [*lines, *(f"  {words.ljust(width)}  {value}" for words, value in (*more, ("material", duty["material"])))]


def _designs(designs: Sequence[Mapping[str, Any]]) -> list[str]:
    """Return the designs side by side, then what is to be said of each."""
    head = ("design", *(str(number) for number in range(1, len(designs) + 1)), "unit")
    body = [
        (words, *(figures(one[name]) for one in designs), unit)
        for name, words, unit in _ROWS
        if any(one[name] is not None for one in designs)
    ]
    lines = [*table(head, body, tuple(range(1, len(designs) + 1))), ""]
    for number, one in enumerate(designs, start=1):
        lines += [f"Design {number}: {one['why']}."]
        lines += _listed([f"fullest, use {figures(one['greatest_use'])}: {one['governed_by']}"])
        lines += _listed([one["warning"]] if one["warning"] else [])
    return [*lines, ""]


def _blocks(blocks: Sequence[Mapping[str, Any]], *, fits: bool) -> list[str]:
    if not blocks:
        return []
    head = "What keeps out the most candidates:" if fits else "Nothing fits. What keeps out the most candidates:"
    texts = [
        f"{one['criterion']}: {one['failing']} candidates fail it, {one['alone']} it alone; would help: {one['help']}"
        for one in blocks
    ]
    return [head, *_listed(texts), ""]


def _listed(texts: Sequence[str]) -> list[str]:
    return [
        line
        for text in texts
        for line in textwrap.wrap(text, _WIDTH, initial_indent="  - ", subsequent_indent="    ", break_long_words=False)
    ]


__all__ = ["design_lines"]
