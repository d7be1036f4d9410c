"""Section 7: at what load factors the lines would bow out, and how.     (papers/calculation/stability.py)"""

from __future__ import annotations

import math
from dataclasses import dataclass

from takeup.drawing import to_svg
from takeup.drawing.mode_view import mode_sheet
from takeup.drawing.reading import Record, Results, maybe_number, number_of, records_of, text_of
from takeup.edge import Units
from takeup.papers.common.beyond import bows_table, guides_table, swings_table
from takeup.papers.common.numerals import NONE, fixed, told, written
from takeup.papers.common.tables import Tree, number_column, sentences, table, words_column

COMPUTED = (
    "The load factor is what all effective forces of a state, as one field, would have to be multiplied by for the "
    "lines to bow out sideways: 4 is asked of the run of pipe, the guide spacing rule's own load factor, and 5.9 of a "
    "bellows, the published limit of column squirm (2π over 0.34π), both numbers from memory; friction is "
    "not in it, and guides hold without their clearance, which is looked at by itself."
)
_FACTOR = "load factor"  # the unit of what the check asks of factors
_SMALL = 10.0  # below this a factor is printed with two decimals, and all others with it
_LARGE = 1000.0  # above this it says no more than that nothing bows out
_MOST = 9  # decimals, where fewer hide that a factor is below one
_SAME = 1e-3  # modes whose factors are so close are one to a reader


def stability_section(results: Results, units: Units) -> Tree:
    """Return section 7."""
    rows = records_of(results, "stability")
    if not rows:
        return {"said": [], "table": None, "beside": [], "bellows": None, "mode": None, **_beyond(results, units)}
    decimals = _decimals(rows)
    at_risk = [number for number, row in enumerate(rows) if maybe_number(row, "factor") is not None]
    worst = min(at_risk, key=lambda number: number_of(rows[number], "factor"), default=None)
    head = (
        words_column("State", "1fr"), number_column("Lowest factor"), number_column("Required"),
        words_column("Governed by", "1.1fr"), number_column("Moves most at", units.length.unit),
    )  # fmt: skip
    cells = [_row(row, decimals, units) for row in rows]
    strong = [] if worst is None else [worst]
    return {
        "said": sentences([COMPUTED]),
        "table": table(
            head, cells, "Lowest load factor of the system, by state; the lowest of all bold", strong=strong
        ),
        "beside": sentences([*_nearest(results), *([] if worst is None else _beside(rows[worst], decimals, units))]),
        "bellows": _bellows(results, rows, decimals),
        "mode": _mode(results, units),
        **_beyond(results, units),
    }


def _beyond(results: Results, units: Units) -> Tree:
    return {
        "swings": swings_table(results, units),
        "bows": bows_table(results, units),
        "guides": guides_table(results, units),
    }


def _decimals(rows: tuple[Record, ...]) -> int:
    factors = [maybe_number(item, "factor") for row in rows for item in (row, *records_of(row, "bellows"))]
    return 2 if min((f for f in factors if f is not None), default=_SMALL) < _SMALL else 1


def _written(factor: float, decimals: int) -> str:
    """Return a factor with so many decimals, and with more where those hide that it is below one."""
    if factor > _LARGE:
        return f"over {_LARGE:.0f}"
    written = (fixed(factor, more) for more in range(decimals, _MOST))
    return next((words for words in written if (float(words) < 1.0) == (factor < 1.0)), fixed(factor, _MOST))


@dataclass(frozen=True, kw_only=True, slots=True)
class Nearest:
    """What is nearest to the load factor that is asked of it: its name, its factor, what is asked, and the state."""

    what: str
    factor: str
    asked: str
    state: str


def nearest(results: Results) -> Nearest | None:
    """Return the check of load factors with the greatest use: a run, a bellows in the line or by itself, a part.

    Args:
        results: the results document.
    """
    asked = [
        check
        for check in records_of(results, "checks")
        if check.get("rule") == "stability" and check.get("unit") == _FACTOR and maybe_number(check, "use") is not None
    ]
    if not asked:
        return None
    check = max(asked, key=lambda item: number_of(item, "use"))
    factor = number_of(check, "capacity")
    return Nearest(
        what=_what(results, check, factor),
        factor=_written(factor, 2 if factor < _SMALL else 1),
        asked=f"{number_of(check, 'demand'):.3g}",
        state=text_of(check, "state"),
    )


def _what(results: Results, check: Record, factor: float) -> str:
    """Return what has the factor of a check: a mode of that state, or a bellows by itself."""
    where = text_of(check, "where")
    for row in records_of(results, "stability"):
        if text_of(row, "state") != text_of(check, "state"):
            continue
        for mode in records_of(row, "modes"):
            if where in (mode.get("joint"), mode.get("line")) and number_of(mode, "factor") == factor:
                return text_of(mode, "governed_by").removeprefix("the ")
        if any(
            text_of(item, "joint") == where and maybe_number(item, "factor") == factor
            for item in records_of(row, "bellows")
        ):
            return f"bellows of {where} by itself"
    return where


def _nearest(results: Results) -> list[str]:
    found = nearest(results)
    if found is None:
        return []
    words = f"Nearest to what is asked of it, of all in the lines and of bellows by themselves: {found.what}"
    return [f"{words}, {found.factor} with {found.asked} asked, in “{found.state}”."]


def _row(row: Record, decimals: int, units: Units) -> tuple[str, ...]:
    state, factor = text_of(row, "state"), maybe_number(row, "factor")
    if factor is None:
        because = text_of(row, "because")
        if row.get("told") and any(maybe_number(item, "factor") is not None for item in records_of(row, "bellows")):
            return state, NONE, NONE, "nothing in the line; a bellows by itself, see below", NONE
        return state, NONE, NONE, because if row.get("told") else f"not told: {because}", NONE
    first = records_of(row, "modes")[0]
    station = written(number_of(first, "station_m"), units.length, 2)
    required = fixed(number_of(row, "required"), decimals)
    return state, _written(factor, decimals), required, text_of(row, "governed_by"), station


def _beside(row: Record, decimals: int, units: Units) -> list[str]:
    """Return what stands beside the lowest factor: the pressure that would bring it about, and equal modes."""
    said = []
    pressure = maybe_number(row, "bowing_pressure_bar")
    if pressure is not None:
        said.append(
            f"At the temperatures of “{text_of(row, 'state')}” the line would bow out at "
            f"{told(pressure, units.pressure, 1)}, all pressures raised alike."
        )
    factors = [number_of(mode, "factor") for mode in records_of(row, "modes")]
    equal = sum(factor <= factors[0] * (1.0 + _SAME) for factor in factors)
    if equal > 1:
        more = " or more" if equal == len(factors) else ""
        said.append(f"{equal}{more} modes have the factor {_written(factors[0], decimals)}; one of them is drawn.")
    return said


def _bellows(results: Results, rows: tuple[Record, ...], decimals: int) -> Tree | None:
    """Return the lowest factor of every bellows by itself; nothing where there is no bellows."""
    lowest: dict[tuple[str, str], tuple[float, str]] = {}
    for row in rows:
        for item in records_of(row, "bellows"):
            key, factor = (text_of(item, "joint"), text_of(item, "line")), maybe_number(item, "factor")
            found = (math.inf if factor is None else factor, text_of(row, "state"))
            lowest[key] = min(lowest.get(key, found), found, key=lambda pair: pair[0])
    if not lowest:
        return None
    cells = [
        (joint, line, *((NONE, NONE, "compressed in no state") if math.isinf(factor) else
         (_written(factor, decimals), _required(results, joint, decimals), state)))
        for (joint, line), (factor, state) in lowest.items()
    ]  # fmt: skip
    head = (
        words_column("Bellows of", "1fr"), words_column("Line"), number_column("Lowest factor"),
        number_column("Required"), words_column("In state", "1.1fr"),
    )  # fmt: skip
    return table(head, cells, "Each bellows by itself as a column, its ends held")


def _required(results: Results, joint: str, decimals: int) -> str:
    """Return what the check of a bellows asks for."""
    checks = records_of(results, "checks")
    asked = [
        check
        for check in checks
        if text_of(check, "rule") == "stability"
        and text_of(check, "where") == joint
        and text_of(check, "unit") == _FACTOR
    ]
    return fixed(maybe_number(asked[0], "demand"), decimals) if asked else NONE


def _mode(results: Results, units: Units) -> Tree | None:
    sheet = mode_sheet(results, units)
    if sheet is None:
        return None
    return {
        "svg": to_svg(sheet),
        "alt": f"{sheet.title}. {sheet.description}",
        "caption": sheet.title,
        "width": f"{sheet.width:g}",
    }
