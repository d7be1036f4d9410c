"""Advice on the material of a joint where it stands: `takeups[].advice`, never a check.     (results/advice.py)

`advice_for` puts together what the file and its states say of a joint's place and asks joints/advice. It changes no
verdict. What nobody says is given to the rules as not said; the lining is the one thing taken for granted: where none
is said the medium wets the metal.
"""

from __future__ import annotations

from dataclasses import asdict

from takeup.joints.advice import Advice, Place, advise
from takeup.line import Line, Study, TakeUp, route_of, states_of
from takeup.line.fitting import Fitting, Surrounding
from takeup.results.plain import Json
from takeup.units import to_bar

AROUND: dict[Surrounding, str] = {
    "in weather": "outdoors",
    "outdoors": "outdoors",
    "wet insulation": "wet insulation",
    "sea air": "sea air",
    "chlorides": "chlorides",
    "swimming pool air": "swimming pool air",
    "zinc": "zinc",
    "ammonia": "ammonia",
    "nothing harmful": "nothing harmful",
}
"""The advice's word for what a file says round a joint; what is not here says nothing of the material.

In the ground is not here either: it counts as wet insulation where the joint is insulated (ducts and pits flood).
"""


def advice_for(study: Study, line: Line, takeup: TakeUp, *, material: str | None = None) -> tuple[Advice, ...]:
    """Return the advice on a joint: warnings, then notes, then what advice is worth.

    Args:
        study: the file.
        line: that the joint is in.
        takeup: the joint.
        material: of its bellows, where the joint is not in the file yet and its series says it; None: as it says.
    """
    return advise(place_for(study, line, takeup, material=material))


def place_for(study: Study, line: Line, takeup: TakeUp, *, material: str | None = None) -> Place:
    """Return what the advice asks of a joint's place.

    The hottest and the least pressure are those of every state, at the joint's own elevation; the coldest is the
    coldest day or a colder state.

    Args:
        study: the file.
        line: that the joint is in.
        takeup: the joint.
        material: of its bellows, as for `advice_for`.
    """
    station, fitting = takeup.position.station, takeup.fitting
    states = states_of(study)
    here = [state.at(line.name, station) for state in states]
    elevation = float(route_of(line).point(station)[2])
    temperatures = [one.temperature for one in here]
    zones = states[0].layout
    around = fitting.surroundings or ()
    insulated = line.section_at(station).insulation is not None or "insulated" in around
    return Place(
        material=material or material_of(takeup),
        medium=line.medium,
        temperature=max(temperatures),
        coldest=min(study.site.coldest, *temperatures),
        insulated=insulated,
        traces=frozenset(fitting.traces or ()),
        around=_around(fitting, insulated=insulated),
        test_water_chlorides_ppm=zones.every[zones.number(line.name, station)].conditions.test.chlorides_ppm,
        chlorides_ppm=fitting.chlorides_ppm,
        lining=fitting.lining,
        least_pressure=min(one.pressure_at(elevation) for one in here),
        liner=None if fitting.liner is None else fitting.liner.fitted,
        ends=fitting.ends_material,
        ply=None if takeup.bellows is None else takeup.bellows.of.ply_thickness,
    )


def material_of(takeup: TakeUp) -> str | None:
    """Return the metal of a joint's bellows: by its geometry, by its series, or as typed in; None where nobody says."""
    by_geometry = "" if takeup.bellows is None else takeup.bellows.of.metal.material
    by_series = "" if takeup.chosen is None else takeup.chosen.material
    return by_geometry or by_series or takeup.fitting.bellows_material


def _around(fitting: Fitting, *, insulated: bool) -> frozenset[str]:
    said = fitting.surroundings or ()
    found = {AROUND[word] for word in said if word in AROUND}
    return frozenset(found | ({"wet insulation"} if insulated and "in ground" in said else set()))


def advice_parts(study: Study, line: Line, takeup: TakeUp) -> dict[str, Json]:
    """Return the advice on a joint, and what it goes by, as two parts of the joint."""
    place = place_for(study, line, takeup)
    return {"advice": [asdict(item) for item in advise(place)], "advice_goes_by": _goes_by(place)}


def _goes_by(place: Place) -> Json:
    least = place.least_pressure
    return {
        "material": place.material,
        "known_as": None if place.metal is None else place.metal.grade,
        "ends_material": place.ends,
        "medium": place.medium,
        "traces": sorted(place.traces) or None,
        "chlorides_ppm": place.chlorides_ppm,
        "test_water_chlorides_ppm": place.test_water_chlorides_ppm,
        "around": sorted(place.around) or None,
        "insulated": place.insulated,
        "hottest_c": place.temperature,
        "coldest_c": place.coldest,
        "least_pressure_bar": None if least is None else to_bar(least),
        "lining": place.lining,
        "liner_fitted": place.liner,
    }


__all__ = ["AROUND", "advice_for", "advice_parts", "material_of", "place_for"]
