"""Advice on the material of the first joint of a selection.     (choose/selection/advising.py)

Advice and no proof, as of any joint (joints/advice). Of a line it goes by all that the file says of the place; a duty
says medium, temperature and least pressure alone, and knows no surroundings.
"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.choose.laid import Laid
from takeup.choose.selection.place import Place
from takeup.choose.selection.select import Selection
from takeup.choose.selection.trial import joint_at
from takeup.joints.advice import Advice, advise
from takeup.joints.advice import Place as Advised
from takeup.line import Line, Study
from takeup.line.choices import Choice
from takeup.results.advice import advice_for

NO_MEDIUM = "no medium is said: no advice"
NO_JOINT = "no joint fits: no advice"


@dataclass(frozen=True, kw_only=True, slots=True)
class MaterialAdvice:
    """What the advice says of the first joint; its name and metal are "" and `because` says why where it says nothing.

    Args:
        joint: it is on.
        material: of its bellows; "" where its series does not say.
        items: warnings, notes, and what advice is worth.
        because: why there is none; "" where there is some.
    """

    joint: str = ""
    material: str = ""
    items: tuple[Advice, ...] = ()
    because: str = ""


def advice_for_duty(place: Place, found: Selection) -> MaterialAdvice:
    """Return the advice on the first joint that fits a duty."""
    if not place.medium:
        return MaterialAdvice(because=NO_MEDIUM)
    if not len(found.fits):
        return MaterialAdvice(because=NO_JOINT)
    row = int(found.fits[0])
    material = found.table.materials[row]
    where = Advised(
        material=material or None,
        medium=place.medium,
        temperature=place.hottest,
        coldest=float(place.temperature.min()),
        least_pressure=float(place.pressure.min()),
    )
    return MaterialAdvice(joint=found.table.names[row], material=material, items=advise(where))


def advice_for_place(study: Study, line: Line, choice: Choice, found: Selection) -> MaterialAdvice:
    """Return the advice on the first joint that fits a place of a line."""
    if not len(found.fits):
        return MaterialAdvice(because=NO_JOINT)
    row = int(found.fits[0])
    material = found.table.materials[row]
    items = advice_for(study, line, joint_at(Laid(study=study, line=line), choice, row), material=material or None)
    return MaterialAdvice(joint=found.table.names[row], material=material, items=items)


__all__ = ["NO_JOINT", "NO_MEDIUM", "MaterialAdvice", "advice_for_duty", "advice_for_place"]
