"""What the results of a whole study say of one place: checks, hand beside model, parts. (desk/seen/from_results.py)"""

from __future__ import annotations

import math

from takeup.desk.interface import Cell, Place, Table
from takeup.desk.seen.figures import plain, signed
from takeup.desk.seen.uses import checks_by_place, rank_of
from takeup.drawing.reading import (
    Record,
    Results,
    maybe_number,
    number_of,
    numbers_in,
    record_of,
    records_of,
    text_of,
    use_words,
)
from takeup.units import to_kn, to_mm

CHECKS = "Checks"
_NOTHING = 1.0  # N, or N m: a cause that brings less is not named
_THOUSANDS = {"N": "kN", "N m": "kN m"}
_SIGNS = {"degC": "°C", "deg": "°"}


def tables_from_results(results: Results, one: Place) -> tuple[list[str], list[Table]]:
    """Return what the results say of a place: sentences, and tables of which the checks come first if there are any.

    Args:
        results: the results document.
        one: the place.
    """
    checks = sorted(checks_by_place(results).get(one["id"], []), key=rank_of)
    tables = [_checks(checks)] if checks else []
    says = [_governs(checks[0])] if checks else ["No check is at this place by itself."]
    key = "takeups" if one["what"] == "takeup" else "holds"
    own = next((row for row in records_of(results, key) if _is(row, one)), None)
    if own is None:
        return says, tables
    hand = records_of(own, "hand") if key == "holds" else _growth(results, one)
    if hand:
        tables.append(_hand(hand))
    if key == "holds" and records_of(own, "loads"):
        tables.append(_parts(own))
    return says, tables


def _is(row: Record, one: Place) -> bool:
    return text_of(row, "line") == one["line"] and text_of(row, "name") == one["name"]


def _governs(check: Record) -> str:
    use = maybe_number(check, "use")
    full = "" if use is None else f", use {use_words(use)}"
    state = text_of(check, "state")
    return f"Governs: {text_of(check, 'title')}{full}, {text_of(check, 'outcome')}{f' ({state})' if state else ''}."


def _checks(checks: list[Record]) -> Table:
    rows = []
    for check in checks:
        unit = text_of(check, "unit")
        use = maybe_number(check, "use")
        rows.append(
            [
                plain(text_of(check, "title")),
                Cell(text=text_of(check, "outcome") if use is None else use_words(use), use=use),
                plain(text_of(check, "outcome")),
                plain(_sized(maybe_number(check, "demand"), unit)),
                plain(_sized(maybe_number(check, "capacity"), unit)),
                plain(text_of(check, "state")),
                plain(text_of(check, "because")),
            ]
        )
    head = ["check", "use", "outcome", "demand", "capacity", "state", "because"]
    return Table(title=CHECKS, about="Every check at this place, the fullest first.", head=head, rows=rows)


def _sized(value: float | None, unit: str) -> str:
    """Return a number in its unit; newtons as kilonewtons."""
    if value is None:
        return ""
    if unit in _THOUSANDS:
        return f"{to_kn(value):.2f} {_THOUSANDS[unit]}"
    if unit == "m" and abs(value) < 1.0:
        return f"{to_mm(value):.1f} mm"
    return f"{value:.4g} {_SIGNS.get(unit, unit)}".rstrip()


def _growth(results: Results, one: Place) -> tuple[Record, ...]:
    """Return the growth by hand of the span that a joint is in."""
    anchors = sorted(
        (number_of(hold, "station_m"), text_of(hold, "name"))
        for hold in records_of(results, "holds")
        if text_of(hold, "line") == one["line"]
    )
    before = [name for station, name in anchors if station < one["station_m"]]
    beyond = [name for station, name in anchors if station > one["station_m"]]
    rows = [row for row in records_of(results, "growth_hand") if text_of(row, "line") == one["line"]]
    spans = {f"{first} to {last}" for first in before for last in beyond}
    return tuple(row for row in rows if text_of(row, "span") in spans)


def _hand(rows: tuple[Record, ...]) -> Table:
    cells = []
    for row in rows:
        unit, apart = text_of(row, "unit"), maybe_number(row, "difference_percent")
        cells.append(
            [
                plain(text_of(row, "what")),
                plain("; ".join(filter(None, (text_of(row, "formula"), text_of(row, "numbers"))))),
                plain(_sized(maybe_number(row, "value"), unit)),
                plain(_sized(maybe_number(row, "model"), unit)),
                plain("" if apart is None else f"{apart:+.1f} %"),
                plain("; ".join(filter(None, (text_of(row, "because"), text_of(row, "source"))))),
            ]
        )
    head = ["what", "by hand", "hand", "model", "apart", "because"]
    about = "Two answers that know nothing of each other."
    return Table(title="Hand beside model", about=about, head=head, rows=cells)


def _parts(hold: Record) -> Table:
    """Return what each cause brings, in the state of the greatest force."""
    axis = numbers_in(_axis(hold))
    most = max(records_of(hold, "loads"), key=lambda row: math.hypot(*numbers_in(row["force_n"])))
    rows = []
    for cause, part in record_of(most, "parts").items():
        assert isinstance(part, dict), "a part is a record"
        force, moment = numbers_in(part["force_n"]), numbers_in(part["moment_nm"])
        if max(math.hypot(*force), math.hypot(*moment)) < _NOTHING:
            continue
        along = sum(a * f for a, f in zip(axis, force, strict=True))
        rows.append(
            [
                plain(cause),
                plain(signed(to_kn(along), 2)),
                plain(f"{to_kn(math.hypot(*force)):.2f}"),
                plain(f"{to_kn(math.hypot(*moment)):.2f}"),
            ]
        )
    state = f"{text_of(most, 'state')}, {text_of(most, 'scenario')}"
    about = f"State: {state}; they add up to the whole, direction by direction."
    return Table(
        title="Where it comes from", about=about, head=["cause", "along kN", "force kN", "moment kN m"], rows=rows
    )


def _axis(hold: Record) -> object:
    """Return the way of the flow at a hold."""
    axes = hold["axes"]
    assert isinstance(axes, list | tuple), "axes are rows"
    return axes[0]


__all__ = ["CHECKS", "tables_from_results"]
