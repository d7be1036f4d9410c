"""The sentences that every result carries: assumptions and cautions.     (results/words.py)"""

from __future__ import annotations

from takeup.joints import KINDS
from takeup.line import Item, Line, Load, Study
from takeup.line.parts import Corner
from takeup.results.computed_bellows import PROVENANCE
from takeup.study import Solved, Unsolved
from takeup.study.scenarios import USUAL_SCATTER

FIRST_WITH_B31J = 2019  # editions from then on refer to ASME B31J for their factors (from memory, medium)
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
    words = [
        "Forces and moments are those on the structure, in global axes: x east, y north, z up. Pressures are gauge.",
        *_of_materials(study),
        "Members follow Euler-Bernoulli theory; displacements are small; bends have no credit for pressure.",
        (
            "Rests and hangers hold the line up and never down, stops one sense of their axis; guides hold it across "
            "the pipe, on either side of the clearance stated, none where none is stated."
        ),
        *_of_anchors(study),
        *_of_edition(study),
        "Every end of a line is closed, except where a branch opens into its main.",
        "Effective areas are nominal; a bellows' live length does not grow.",
        *_of_bellows(study),
        *_of_scatter(study),
        *_of_friction(study),
        "The weight of a joint or of an item is spread over its length; small fittings are not in the weight.",
    ]
    if any(line.branch for line in study.lines):
        words.append(
            "A branch begins on the centre line of its main and the two are joined rigidly: no flexibility of the "
            "branch connection is counted, and the pipe inside the main is weighed twice."
        )
    words += [_of_item(line, item) for line in study.lines for item in line.items]
    sleeved = [item.name for line in study.lines for item in line.takeups if KINDS[item.kind].sleeved]
    if sleeved:
        words.append(
            f"For stability {', '.join(sleeved)} bend like the pipe beside them, because guide rings keep the inner "
            "pipe in line: the maker must confirm it. For loads and movements they bend like their bellows."
        )
    if any(line.medium == "steam" for line in study.lines):
        words.append("Steam in a state colder than saturation is weighed as saturated steam of that pressure.")
    if study.vacuum.possible:
        words.append(
            f"Vacuum is possible, down to {study.vacuum.pressure / 1e5:.3f} bar(g), at the coldest temperature."
        )
    else:
        words.append(f"Vacuum is not possible, because {study.vacuum.because}.")
    words += [f"State left out: {item.state}, because {item.because}." for item in study.dropped]
    words += [_of_load(load) for load in study.loads]
    words += [f"Bend at {corner.name}: {corner.bend_words}." for corner in _assumed_bends(answer)]
    words += [f"Line {line.name}, {remark}." for line in study.lines for remark in line.remarks]
    words += [
        f"{name}: {remark}."
        for model in answer.model.lines
        for name, rates in model.rates.items()
        for remark in rates.remarks
    ]
    return tuple(words)


def _of_materials(study: Study) -> list[str]:
    """Return what is assumed of each material, once."""
    temperature = study.site.installation
    words = []
    pipes = [section.pipe for line in study.lines for section in line.sections]
    for pipe in {(pipe.material.name, pipe.expansion_table): pipe for pipe in pipes}.values():
        material = pipe.material
        words += [
            (
                f"Thermal strain of {material.name} counts from installation at {temperature:g} °C, by "
                f"{pipe.expansion_table} ({pipe.expansion_because})."
            ),
            (
                f"Modulus of {material.name} in every state that of the operating temperature of its zone, as the "
                "file asks: forces are smaller than with the cold modulus."
                if study.walk.modulus == "operating"
                else f"Modulus of {material.name} {material.modulus.at(temperature) / 1e9:.1f} GPa at installation "
                f"temperature in every state ({material.modulus.status_at(temperature)}): forces are greatest with "
                "the cold modulus."
            ),
            (
                f"Density of {material.name} {material.density:g} kg/m³ ({material.density_source.words}), "
                f"Poisson's ratio {material.poisson:g} ({material.poisson_source.words})."
            ),
        ]
    return words


def _of_friction(study: Study) -> list[str]:
    """Return how friction is taken, where anything rubs."""
    holds = [hold for line in study.lines for hold in line.holds if hold.friction is not None]
    pins = [
        item.name
        for line in study.lines
        for item in line.takeups
        if item.pins is not None and item.pins.friction is not None and item.pins.friction.high > 0.0
    ]
    if not holds and not pins:
        return []
    installed = "Friction at installation is zero."
    if study.walk.locked_in:
        installed = "Friction may be locked in at installation, ahead or back: both are walked."
    return [
        "Friction is Coulomb's, in the plane of each support, with one coefficient at rest and sliding.",
        "The states are walked in order without friction, with low and with high coefficients; it is never credited.",
        "To loads without friction the bound sum(mu N), with the high coefficient, is added on each anchor.",
        *_of_pins(pins),
        installed,
    ]


def _of_pins(names: list[str]) -> list[str]:
    """Return where the friction of pins is counted, and where not."""
    if not names:
        return []
    return [
        (
            f"Pins of {', '.join(names)} rub in the walks with low and with high coefficients, and the envelopes of "
            "loads hold them; the bound sum(mu N) is that of rests, guides and hangers, and has no friction of pins."
        )
    ]


def _of_bellows(study: Study) -> list[str]:
    """Return what is taken for bellows given by their geometry, at which temperature."""
    words = []
    for takeup in (item for line in study.lines for item in line.takeups if item.bellows is not None):
        assert takeup.bellows is not None, "only those with a geometry are asked"
        modulus = f"{takeup.name}: {PROVENANCE}; cold modulus {takeup.bellows.cold_modulus / 1e9:.1f} GPa"
        if takeup.bellows.of.metal.modulus is not None:
            words.append(f"{modulus}, typed in, so that its rates are the cold ones at every temperature.")
        elif study.walk.modulus == "operating":
            words.append(f"{modulus}; loads with the modulus of operation, stability with that of each state.")
        else:
            words.append(f"{modulus}, at 20 °C, in every state of the walk; stability with the modulus of each state.")
    return words


def _of_scatter(study: Study) -> list[str]:
    """Return how far the rates of joints are taken to scatter."""
    joints = [item for line in study.lines for item in line.takeups]
    if not joints:
        return []
    usual = [item.name for item in joints if item.data.rate_scatter is None]
    words = [
        f"{item.name}: rates within {item.data.rate_scatter:.0%} of those stated ({item.data.source})."
        for item in joints
        if item.data.rate_scatter is not None
    ]
    if usual:
        words.append(
            f"Rates of {', '.join(usual)} within {USUAL_SCATTER:.0%} of those stated: their sheets do not say "
            "(common practice, no source)."
        )
    return words


def _of_edition(study: Study) -> list[str]:
    """Return what holds of the stress factors of a later edition."""
    if study.basis.code == "EN 13480-3" or study.basis.edition < FIRST_WITH_B31J:
        return []
    return [
        (
            f"Factors of bends, tees and reducers are those that {study.basis.code} printed to 2018 (from memory); "
            "later editions refer to ASME B31J, which is not covered."
        )
    ]


def _of_anchors(study: Study) -> list[str]:
    """Return whether anchors are rigid, and where they give."""
    giving = [hold.name for line in study.lines for hold in line.holds if hold.stiffness]
    giving += [end.name for line in study.lines for end in (line.start, line.end) if end.stiffness]
    if not giving:
        return ["Anchors are rigid."]
    return [
        (
            f"Anchors are rigid for the loads listed; movements, and a second set of loads, are with the stated "
            f"stiffness of {', '.join(giving)}."
        )
    ]


def _of_item(line: Line, item: Item) -> str:
    if item.kind == "reducer":
        return f"{item.name} on {line.name} is a cone, its diameter and wall changing evenly along it."
    return f"{item.name} on {line.name} is taken {item.stiffer:g} times as stiff as the pipe beside it."


def _of_load(load: Load) -> str:
    where = load.start.words if load.end is None else f"{load.start.words} to {load.end.words}"
    return f"User's load {load.name} on {load.line}, {where}, {load.duration}: {load.source}."


def _assumed_bends(answer: Solved | Unsolved) -> list[Corner]:
    corners = []
    for model in answer.model.lines:
        turns = {turn.name for turn in model.route.turns}
        corners += [leg.to for leg in model.line.legs if leg.to.name in turns and "assumed" in leg.to.bend_words]
    return corners


def dropped_words(study: Study) -> tuple[dict[str, str], ...]:
    """Return the states left out, as results carry them."""
    return tuple({"state": item.state, "because": item.because} for item in study.dropped)
