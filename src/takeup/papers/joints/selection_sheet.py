"""A selection on a terminal: what fits in order, why the rest does not.     (papers/joints/selection_sheet.py)

Made from the document alone. Plain text, no colour, so that it reads the same in a log.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any  # the document is JSON

from takeup.papers.common.terminal import table
from takeup.papers.joints.bellows_sheet import figures

_WIDTH = 100
_MOST = 12  # joints that a page shows; all stand in the document
_SHOWN, _NAMED = 2, 4  # of each reason, and names that fill a line
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
    fits = document["fits"]
    return [
        f"Joints for {document['places'][0]['name']}: {document['input']['file']}, "
        f"sha256 {document['input']['sha256'][:12]}" if document["places"] else "Joints",
        *_wrapped(document["series"]["words"]),
        "",
        "Asked:",
        *_asked(document["places"]),
        "",
        *([*_wrapped(_title(document), ""), "", *_fits(fits), *_of_first(fits)]
          if fits else ["No joint of the series fits.", ""]),
        *_refused(document["refused"]),
        *_advice(document["advice"]),
        "",
        "Assumed:",
        *_listed(document["assumptions"]),
        "",
        "Note:",
        *_listed(document["cautions"]),
        "",
    ]  # fmt: skip


def _title(document: Mapping[str, Any]) -> str:
    """Return how many fit, and of a line how much of that is proved."""
    counts, rank = document["counts"], document["rank"]
    if not counts["studies_run"]:
        return f"{counts['fit']} of {counts['considered']} joints fit by their data and movements, by {rank}:"
    may = f"{counts['may_fit']} of {counts['considered']} joints may fit by their data and movements"
    if counts["proved"]:
        return f"{may}, by {rank}; the first proved by its study, {counts['studies_run']} run until it stood:"
    return f"{may}, by {rank}; none of {counts['studies_run']} run stands its study, those below were not run:"


def _advice(advice: Mapping[str, Any]) -> list[str]:
    """Return the advice on the material of the first, warnings in full."""
    head = ["", "Advice on materials, not proof:"]
    if advice["because"]:
        return [*head, *_wrapped(f"{advice['because']}")]
    metal = advice["material"] or "metal not said"
    lines = [*head, *_wrapped(f"{advice['joint']}, bellows of {metal}")]
    for item in advice["items"]:
        why = f" ({item['reason']}; {item['source']}, {item['status']})" if item["level"] == "warning" else ""
        lines += _wrapped(f"{item['level']}: {item['words']}{why}".replace(" degC", " °C"), "    ")
    return lines


def _asked(places: Sequence[Mapping[str, Any]]) -> list[str]:
    """Return what is asked, of kinds that are asked the same together."""
    lines = []
    alike: list[tuple[Mapping[str, Any], list[str]]] = []
    for place in places:
        same = next((kinds for one, kinds in alike if {**one, "kind": ""} == {**place, "kind": ""}), None)
        if same is None:
            alike.append((place, [place["kind"]]))
        else:
            same.append(place["kind"])
    for place, kinds in alike:
        room = "" if place["room_mm"] is None else f", room for {figures(place['room_mm'])} mm"
        cycles = "cycles not said" if place["cycles"] is None else f"{place['cycles']:g} cycles"
        preset = f", fitted {figures(place['preset_mm'])} mm longer" if place["preset_mm"] else ""
        lines += _wrapped(f"{', '.join(kinds)}: {place['size']}{room}, {cycles}{preset}; over the states")
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
            _number(one["thrust_n"] / 1e3, 1) + ("" if one["thrust_on_anchors"] else " (held)"),
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
        f"  {check['name'].ljust(14)} {figures(check['demand'])} of {figures(check['capacity'])} "
        f"{check['unit'].replace('degC', '°C')}, use {check['use']:.2f}{_by_derating(check, first)}"
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


def _by_derating(check: Mapping[str, Any], first: Mapping[str, Any]) -> str:
    """Return that a joint is used above its rated temperature, in words; nothing of another check, or where not."""
    rated = first["rated_temperature_c"]
    above = check["name"] == "temperature" and check["demand"] > rated
    return f", by its derating: above its rated temperature, {figures(rated)} °C" if above else ""


def _refused(refused: Sequence[Mapping[str, Any]]) -> list[str]:
    """Return the first reasons why not, how many joints each has, and two of them."""
    count = f"{len(refused)} {'does' if len(refused) == 1 else 'do'} not fit"
    lines = [f"{count}, by the first reason, the nearest first:"] if refused else []
    most = 0
    for reason, group in groupby(refused, key=lambda one: str(one["because"]).partition(":")[0]):
        own = list(group)
        most = max(most, len(own))
        lines += _wrapped(f"{len(own)} by {reason}")
        for one in own[:_SHOWN]:
            lines += _wrapped(f"{one['joint']}: {str(one['because']).partition(': ')[2] or one['because']}", "    ")
    if most > _SHOWN:
        lines += _wrapped(f"{_SHOWN} of a reason are shown; all stand in the document (--json)")
    return [*lines, *_preset([one for one in refused if one["would_fit_preset"]])]


def _preset(drawn: Sequence[Mapping[str, Any]]) -> list[str]:
    """Return which joints would fit with a preset, and how the first of them is fitted then."""
    if not drawn:
        return []
    first, names = drawn[0], [str(one["joint"]) for one in drawn]
    way = "longer than neutral, drawn out" if first["preset_mm"] > 0.0 else "shorter than neutral, pushed together"
    rule = f"{len(names)} would fit if fitted with the preset by the rule, which makes them move alike hot and cold"
    more = f"{', '.join(names[:_NAMED])}{' and more' if len(names) > _NAMED else ''}"
    return _wrapped(f"{rule}: {more}; the first, {names[0]}, {figures(abs(first['preset_mm']))} mm {way}")


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
