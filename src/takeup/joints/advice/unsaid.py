"""What is not said or not known, and therefore not judged.     (joints/advice/unsaid.py)"""

from __future__ import annotations

from takeup.joints.advice.chlorides import CRACKING
from takeup.joints.advice.metals import METALS, metal_of
from takeup.joints.advice.place import Place
from takeup.joints.advice.rule import COMMON_PRACTICE, Rule, Said, note
from takeup.library import MEDIA

_UNJUDGED = frozenset({"amine", "wet hydrogen sulphide"})


def _material(place: Place) -> Said | None:
    if place.material is None:
        return note("the material of the bellows is not said: nothing that turns on it is judged. Ask the maker.")
    if place.metal is None:
        known = ", ".join(dict.fromkeys(metal.grade for metal in METALS))
        return note(
            f"{place.material!r} is no metal that the advice knows: nothing that turns on it is judged. Known: {known}."
        )
    return None


def _ends(place: Place) -> Said | None:
    if place.ends is None or metal_of(place.ends) is not None:
        return None
    return note(
        f"{place.ends!r}, of the ends, is no metal that the advice knows: whether cold or ammonia harms it is not "
        "judged."
    )


def _medium(place: Place) -> Said | None:
    if place.medium in MEDIA:
        return None
    return note(
        f"{place.medium!r} is no medium that the advice knows ({', '.join(MEDIA)}): only what is said to be in it is "
        "judged, as if water were there."
    )


def _traces(place: Place) -> Said | None:
    if place.traces:
        return None
    return note(
        f"nothing is said of what {place.medium} holds beside itself (chlorides, caustic, sulphur and so on): none of "
        "it is judged."
    )


def _surroundings(place: Place) -> Said | None:
    if place.around:
        return None
    return note(
        "nothing is said of surroundings that harm metal (salt, rain, wet insulation, zinc and so on): none of it is "
        "judged."
    )


def _insulation(place: Place) -> Said | None:
    metal = place.made_of("300-series")
    if metal is None or place.insulated is not None or place.temperature <= CRACKING or "outdoors" not in place.around:
        return None
    return note(
        f"{metal.grade} outdoors at {place.temperature:g} degC, and whether the joint is insulated is not said: under "
        f"wet insulation it cracks above {CRACKING:g} degC."
    )


def _unjudged(place: Place) -> Said | None:
    met = sorted(place.traces & _UNJUDGED)
    if not met:
        return None
    return note(
        f"{' and '.join(met)} in {place.medium}: no rule here judges it. For sour water ISO 15156 (NACE MR0175) and "
        "MR0103 do; for amines API RP 945 does."
    )


MATERIAL = Rule(
    name="material_not_judged",
    title="material not said or not known",
    what="a bellows whose material is not said, or is none that the advice knows",
    why="silence would read as approval",
    source=COMMON_PRACTICE,
    status="from memory",
    limits="names are those of the library and the few of the table of metals",
    judge=_material,
)
ENDS = Rule(
    name="ends_not_judged",
    title="material of the ends not known",
    what="ends of a material that the advice does not know",
    why="silence would read as approval",
    source=COMMON_PRACTICE,
    status="from memory",
    limits="ends of which nothing is said are taken to be judged with the pipe",
    judge=_ends,
)
MEDIUM = Rule(
    name="medium_not_known",
    title="medium not known",
    what="a medium that is none of the library's",
    why="what the medium itself does to the metal is then not judged",
    source=COMMON_PRACTICE,
    status="from memory",
    limits="its traces are judged, as if water were there",
    judge=_medium,
)
TRACES = Rule(
    name="traces_not_said",
    title="nothing said of what is in the medium",
    what="no traces said, not even that there are none",
    why="most bellows that fail by corrosion fail by what nobody thought was in the medium",
    source=COMMON_PRACTICE,
    status="from memory",
    limits="a content of chlorides by itself says nothing of the rest",
    judge=_traces,
)
SURROUNDINGS = Rule(
    name="surroundings_not_said",
    title="nothing said of the surroundings",
    what="no surroundings said, not even that they are harmless",
    why="bellows crack from outside as well as from inside",
    source=COMMON_PRACTICE,
    status="from memory",
    limits="none",
    judge=_surroundings,
)
INSULATION = Rule(
    name="insulation_not_said",
    title="insulation not said",
    what="a bellows of the 300-series outdoors, above 60 degC, of which nobody says whether it is insulated",
    why="rain on a bare hot bellows dries; rain in insulation stays",
    source="as chlorides_outside",
    status="from memory",
    limits="outdoors only",
    judge=_insulation,
)
UNJUDGED = Rule(
    name="traces_not_judged",
    title="traces that the advice does not judge",
    what="amine or wet hydrogen sulphide in the medium",
    why="their limits go by hardness, partial pressure and acidity, which are not asked for",
    source="ISO 15156 (NACE MR0175), NACE MR0103 and API RP 945 are named as those that judge it; not used",
    status="from memory",
    limits="nothing is judged",
    judge=_unjudged,
)
