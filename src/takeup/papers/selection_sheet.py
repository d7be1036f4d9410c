"""A selection on a terminal: what fits in order, why the rest does not.     (papers/selection_sheet.py)

Made from the document alone. Plain text, no colour, so that it reads the same in a log.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any  # the document is JSON

from takeup.papers.bellows_sheet import figures
from takeup.papers.summary import table

_WIDTH = 100
_MOST = 12  # joints that a page shows; all stand in the document
_HEAD = (
    "",
    "joint",
    "price",
    "length mm",
    "thrust kN",
    "on anchors kN",
    "in test kN",
    "movement",
    "cycles",
    "its study",
)


def selection_lines(document: Mapping[str, Any]) -> list[str]:
    """Return the lines of a selection.

    Args:
        document: of it, as `takeup joints select --json` prints it.
    """
    counts, fits = document["counts"], document["fits"]
    found = f"{counts['fit']} of {counts['considered']} joints fit, by {document['rank']}:"
    return [
        f"Joints for {document['places'][0]['name']}: {document['input']['file']}, "
        f"sha256 {document['input']['sha256'][:12]}" if document["places"] else "Joints",
        *_wrapped(document["series"]["words"]),
        "",
        "Asked:",
        *_asked(document["places"]),
        "",
        *([found, "", *_fits(fits), *_of_first(fits)] if fits else ["No joint of the series fits.", ""]),
        *_refused(document["refused"]),
        "",
        "Assumed:",
        *_listed(document["assumptions"]),
        "",
        "Note:",
        *_listed(document["cautions"]),
        "",
    ]  # fmt: skip


def _asked(places: Sequence[Mapping[str, Any]]) -> list[str]:
    lines = []
    for place in places:
        size = "any size" if place["size_dn"] is None else f"DN {place['size_dn']:g}"
        room = "" if place["room_mm"] is None else f", room for {figures(place['room_mm'])} mm"
        cycles = "cycles not said" if place["cycles"] is None else f"{place['cycles']:g} cycles"
        preset = f", fitted {figures(place['preset_mm'])} mm longer" if place["preset_mm"] else ""
        lines += _wrapped(f"{place['kind']}: {size}{room}, {cycles}{preset}; over the states")
        lines += [f"    {words}" for words in _extremes(place["states"])]
    return lines


def _extremes(states: Sequence[Mapping[str, Any]]) -> Iterator[str]:
    """Yield the state that asks most of each thing."""
    for head, key, unit, sense in (
        ("shortest", "axial_mm", "mm", -1.0),
        ("longest", "axial_mm", "mm", 1.0),
        ("most sideways", "lateral_mm", "mm", 1.0),
        ("most bent", "angular_deg", "°", 1.0),
        ("greatest pressure", "pressure_bar", "bar", 1.0),
        ("hottest", "temperature_c", "°C", 1.0),
    ):
        most = max(states, key=lambda state: sense * state[key])
        sign = "+" if key == "axial_mm" else ""
        yield f"{head.ljust(18)} {most[key]:{sign}.2f} {unit}, {most['state']}"


def _fits(fits: Sequence[Mapping[str, Any]]) -> list[str]:
    rows = [
        (
            str(one["rank"]),
            one["joint"],
            _number(one["price_index"], 1),
            _number(one["length_mm"], 0),
            _number(one["thrust_n"] / 1e3, 1) + ("" if one["thrust_on_anchors"] else " (rods)"),
            _number(one["anchor_force_n"] / 1e3, 1),
            _number(one["anchor_force_test_n"] / 1e3, 1),
            _number(one["movement_use"], 2),
            _cycles(one["life_cycles"]),
            "not run" if one["study"] is None else one["study"]["outcome"],
        )
        for one in fits[:_MOST]
    ]
    more = len(fits) - _MOST
    rest = [f"  and {more} more; all stand in the document (--json)"] if more > 0 else []
    return [*(f"  {line}" for line in table(_HEAD, rows, right=(0, 2, 3, 4, 5, 6, 7, 8))), *rest, ""]


def _of_first(fits: Sequence[Mapping[str, Any]]) -> list[str]:
    first = fits[0]
    lines = [f"The first, {first['joint']}:"]
    lines += [
        f"  {check['name'].ljust(14)} {figures(check['demand'])} of {figures(check['capacity'])} {check['unit']}, "
        f"use {check['use']:.2f}"
        for check in first["checks"]
        if check["capacity"] is not None
    ]
    lines += _wrapped(f"ratings: {first['ratings_by']}; life: {first['life_by']}")
    study = first["study"]
    if study is not None:
        anchors = ", ".join(f"{name} {force / 1e3:.1f} kN" for name, force in study["anchors_n"].items())
        lines += _wrapped(f"anchors, greatest of its own study without friction: {anchors}")
        lines += _wrapped(f"its own study: {study['outcome']}" + "".join(f"; {words}" for words in study["because"]))
    return [*lines, ""]


def _refused(refused: Sequence[Mapping[str, Any]]) -> list[str]:
    """Return the first reasons why not, how many joints each has, and two of them."""
    lines = [f"{len(refused)} do not fit, by the first reason, the nearest first:"] if refused else []
    for reason, group in groupby(refused, key=lambda one: str(one["because"]).partition(":")[0]):
        own = list(group)
        lines += _wrapped(f"{len(own)} by {reason}")
        for one in own[:2]:
            lines += _wrapped(f"{one['joint']}: {str(one['because']).partition(': ')[2] or one['because']}", "    ")
    drawn = [one["joint"] for one in refused if one["would_fit_preset"]]
    if drawn:
        lines += _wrapped(
            f"{len(drawn)} would fit if drawn out by the rule when fitted, half of what hot and cold differ by: "
            f"{', '.join(drawn[:4])}{' and more' if len(drawn) > 4 else ''}"  # noqa: PLR2004 -- four names fill a line
        )
    return lines


def _number(value: float | None, places: int) -> str:
    return "–" if value is None else f"{value:.{places}f}"


def _cycles(value: float | None) -> str:
    if value is None:
        return "–"
    return "1000000+" if value >= 1e6 else f"{value:.0f}"  # noqa: PLR2004 -- where the curves end


def _listed(texts: Sequence[str]) -> list[str]:
    return [line for text in texts for line in _wrapped(text)]


def _wrapped(text: str, indent: str = "  ") -> list[str]:
    return textwrap.wrap(
        text, _WIDTH, initial_indent=indent, subsequent_indent=f"{indent}  ", break_long_words=False,
        break_on_hyphens=False,
    )  # fmt: skip


__all__ = ["selection_lines"]
