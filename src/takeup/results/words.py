"""The sentences that every result carries: assumptions and cautions.     (results/words.py)"""

from __future__ import annotations

from takeup.line import Study
from takeup.line.records import Corner
from takeup.study import Solved, Unsolved

CAUTIONS: tuple[str, ...] = (
    "Anchors and guides must be complete, and concrete cured, before any pressure is put on the line.",
    "Shipping bars and locks come out only after the anchors are in, and before the line is tested or warmed.",
    "Never test beyond the test limit of an anchor or of a joint; a pneumatic test needs an exclusion distance.",
    "Stand clear of joints and anchors while pressure is raised.",
    "Test water in contact with austenitic bellows must be low in chlorides; drain and dry at once.",
    "A joint is not to be twisted, stretched or offset to make bolt holes meet.",
    "Local codes, the maker's certified data and a licensed engineer decide; this document does not replace them.",
)


def assumptions_of(answer: Solved | Unsolved) -> tuple[str, ...]:
    """Return the assumptions that the numbers rest on, in words.

    Args:
        answer: the model's answer, or why there is none.
    """
    study = answer.study
    line, material = study.line, study.line.pipe.material
    temperature = study.site.installation
    words = [
        "Forces and moments are those on the structure, in global axes: x east, y north, z up. Pressures are gauge.",
        (
            f"Thermal strain counts from installation at {temperature:g} °C, by {study.basis.expansion_table} "
            f"({study.basis.expansion_table_because})."
        ),
        (
            f"Modulus {material.modulus.at(temperature) / 1e9:.1f} GPa at installation temperature in every state "
            f"({material.modulus.status_at(temperature)}): forces are greatest with the cold modulus."
        ),
        (
            f"Pipe density {material.density:g} kg/m³ ({material.density_source.words}), "
            f"Poisson's ratio {material.poisson:g} ({material.poisson_source.words})."
        ),
        "Members follow Euler-Bernoulli theory; displacements are small; bends have no credit for pressure.",
        "Anchors are rigid. Guides hold both directions across the pipe, rests the upward one, without clearance.",
        "Every end of the line is closed.",
        "Spring rates and effective areas are nominal; a bellows' live length does not grow.",
        "Friction is not walked: its bound, sum(mu N) with the high coefficient, is added to each anchor.",
        "Cladding, valves and flanges are not in the weight; a joint's weight is spread over its length.",
    ]
    if line.medium == "steam":
        words.append("Steam in a state colder than saturation is weighed as saturated steam of that pressure.")
    if study.vacuum.possible:
        words.append(
            f"Vacuum is possible, down to {study.vacuum.pressure / 1e5:.3f} bar(g), at the coldest temperature."
        )
    else:
        words.append(f"Vacuum is not possible, because {study.vacuum.because}.")
    words += [f"State left out: {item.state}, because {item.because}." for item in study.dropped]
    words += [f"Bend at {corner.name}: {corner.bend_words}." for corner in _assumed_bends(answer)]
    words += [f"Line {line.name}, {remark}." for remark in line.remarks]
    words += [f"{name}: {remark}." for name, rates in answer.model.rates.items() for remark in rates.remarks]
    return tuple(words)


def _assumed_bends(answer: Solved | Unsolved) -> list[Corner]:
    turns = {turn.name for turn in answer.model.route.turns}
    return [leg.to for leg in answer.study.line.legs if leg.to.name in turns and "assumed" in leg.to.bend_words]


def dropped_words(study: Study) -> tuple[dict[str, str], ...]:
    """Return the states left out, as results carry them."""
    return tuple({"state": item.state, "because": item.because} for item in study.dropped)
