"""Pitting of the 300-series by chlorides and by free chlorine in water; water of the test.   (joints/advice/pitting.py)

A ply is some tenths of a millimetre thick: a pit that a pipe would not notice is a leak.
"""

from __future__ import annotations

from takeup.joints.advice.place import Place
from takeup.joints.advice.rule import Rule, Said, note, warning

PLAIN_LIMIT = 200.0  # ppm for 304 and for 321 and 347, which have no molybdenum either; source below
MOLYBDENUM_LIMIT = 1000.0  # ppm for 316; the same
TEST_LIMIT = 50.0  # ppm; common practice, no source; some owners say 30
_WATERS = ("water", "condensate")


def _chlorides(place: Place) -> Said | None:
    metal, ppm = place.made_of("300-series"), place.chlorides_ppm
    if metal is None or not place.bare or place.medium not in _WATERS or ppm is None:
        return None
    limit = MOLYBDENUM_LIMIT if metal.molybdenum else PLAIN_LIMIT
    if ppm <= limit:
        return None
    better = (
        "alloy 625 resists" if metal.molybdenum else f"316L is good to about {MOLYBDENUM_LIMIT:g} ppm cold, 625 beyond"
    )
    return warning(
        f"{metal.grade} in {place.medium} with {ppm:g} ppm of chlorides, above {limit:g} ppm: it pits in crevices and "
        f"under dirt, and so do the gaps between plies. Choose another metal; {better}."
    )


def _chlorine(place: Place) -> Said | None:
    metal = place.made_of("300-series")
    if metal is None or not place.bare or "chlorine" not in place.traces:
        return None
    words = f"{metal.grade} in {place.medium} with free chlorine at up to {place.temperature:g} degC"
    if metal.molybdenum:
        return note(f"{words}: it bears a few ppm cold, and pits at more or hot. Alloy 625 resists; ask for the dose.")
    return warning(f"{words}: without molybdenum it pits. 316L is better, and alloy 625 resists.")


def _test_water(place: Place) -> Said | None:
    metal, ppm = place.made_of("300-series"), place.test_water_chlorides_ppm
    if metal is None or not place.bare:
        return None
    if ppm is None:
        return note(
            f"{metal.grade}: the chlorides of the test water are not said. If the test is with water, keep them to "
            f"{TEST_LIMIT:g} ppm, and drain and dry at once."
        )
    if ppm <= TEST_LIMIT:
        return None
    return warning(
        f"{metal.grade} tested with water of {ppm:g} ppm of chlorides, above {TEST_LIMIT:g} ppm: what stays in the "
        "convolutions dries to salt, and the first warm-up may crack them. Take other water; drain and dry at once."
    )


CHLORIDES = Rule(
    name="pitting_chlorides",
    title="pitting by chlorides in water",
    what="chlorides in water or condensate against what 304 and 316 bear",
    why="chlorides break the film that protects stainless steel, first in crevices and under dirt",
    source="British Stainless Steel Association, Stainless steels in supply and waste water systems: 200 ppm for 304 "
    "and 1000 ppm for 316, its summary read",
    status="read",
    limits="natural, neutral, cold water; heat, acid and stagnation lower the limits; 321 and 347 are taken as 304",
    judge=_chlorides,
)
CHLORINE = Rule(
    name="pitting_chlorine",
    title="chlorinated water",
    what="a bellows of the 300-series wetted by water with free chlorine",
    why="chlorine raises the potential of the steel until even few chlorides pit it",
    source="common practice, no source",
    status="from memory",
    limits="no dose is asked for; disinfection by shock is the same trace: rinse at once",
    judge=_chlorine,
)
TEST_WATER = Rule(
    name="test_water",
    title="chlorides in the test water",
    what="chlorides in the water of the pressure test of a 300-series bellows against 50 ppm",
    why="test water stays in the convolutions; raw water left there pits a ply within weeks, and dried salt cracks it "
    "hot",
    source="common practice, no source",
    status="from memory",
    limits="some owners ask for 30 ppm or less; how fast it is drained and dried is not judged",
    judge=_test_water,
)
