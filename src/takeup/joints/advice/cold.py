"""Low temperature: what austenitic bellows bear and ferritic ends do not.     (joints/advice/cold.py)"""

from __future__ import annotations

from takeup.joints.advice.place import Place
from takeup.joints.advice.rule import Rule, Said, warning

AUSTENITIC_COLDEST = -196.0  # degC, liquid nitrogen; ASME B31.3 Table A-1 has -198 to -254 degC; from memory
# degC by grade: ASME B31.3 Table A-1 and Figure 323.2.2A (-20 degF), from memory; EN grades common practice, no source
FERRITIC_COLDEST: dict[str, float] = {"A106 B": -29.0, "P11": -29.0, "P22": -29.0, "P235GH": -10.0, "P265GH": -10.0}


def _bellows(place: Place) -> Said | None:
    metal = place.made_of("300-series", "nickel alloy")
    if metal is None or place.coldest >= AUSTENITIC_COLDEST:
        return None
    return warning(
        f"{metal.grade} at {place.coldest:g} degC, below {AUSTENITIC_COLDEST:g} degC: common practice ends there. "
        "Forming may have made martensite of the leaner grades; ask for tests at temperature."
    )


def _ends(place: Place) -> Said | None:
    metal = place.end_metal
    limit = None if metal is None else FERRITIC_COLDEST.get(metal.grade)
    if metal is None or limit is None or place.coldest >= limit:
        return None
    return warning(
        f"ends of {metal.grade} at {place.coldest:g} degC, below {limit:g} degC: ferritic steel turns brittle, "
        "whatever the bellows bears. Choose ends of the 300-series, or steel with impact tests at this temperature."
    )


BELLOWS = Rule(
    name="cold_bellows",
    title="cold bellows",
    what="a bellows of the 300-series or a nickel alloy below -196 degC",
    why="austenitic metal stays tough to liquid nitrogen, which is as far as common practice goes",
    source="ASME B31.3 Table A-1, least temperatures; the limit taken here is common practice, no source",
    status="from memory",
    limits="above -196 degC nothing is said: these metals are fine there",
    judge=_bellows,
)
ENDS = Rule(
    name="cold_ends",
    title="cold ferritic ends",
    what="ends of carbon or low-alloy steel against the coldest that they are used at without impact tests",
    why="ferritic steel has a temperature below which it breaks instead of yielding; rods and lugs have it too",
    source="ASME B31.3 Table A-1 and Figure 323.2.2A for A106 B, P11 and P22; common practice for P235GH and P265GH",
    status="from memory",
    limits="walls to about 13 mm; -29 degC for ASTM grades, -10 degC for EN ones; thin or lightly stressed walls bear "
    "more",
    judge=_ends,
)
