"""The rating of bellows on a terminal: one on a sheet of its own, many in a table.     (papers/joints/bellows_sheet.py)

Made from the rating's document alone. Plain text, no colour, so that it reads the same in a log; only remarks are
folded. The shell's value and the published form's stand beside each other, with the difference of the two.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from typing import Any  # the document is JSON: what its values are is said by its schema, not by types

from takeup.bellows.columns import COLUMNS, Column
from takeup.bellows.document import CAUTION, GIVEN
from takeup.bellows.envelope import GAP_RULE
from takeup.bellows.reading.inputs import Input
from takeup.papers.common.terminal import table

_WIDTH = 100
_FIGURES = 4
_WHOLE = 1e4  # at and above, a number is written without decimals and its thousands apart
_NONE = "-"
_COMPACT = (
    ("shell_stiffness_n_per_mm", "stiffness N/mm, shell"),
    ("formula_stiffness_n_per_mm", "formula"),
    ("stiffness_difference_percent", "diff. %"),
    ("shell_effective_area_mm2", "area mm²"),
    ("shell_surface_mpa_per_bar", "surface MPa/bar"),
    ("shell_surface_mpa_per_mm", "MPa/mm"),
    ("squirm_design_bar", "squirm bar, design"),
    ("life_asme_design_cycles", "cycles, ASME"),
    ("life_en_design_cycles", "EN"),
)
"""Columns of the table of many bellows: name, and what stands above it."""

_MOST_CAUTIONS = 20


def rating_lines(document: Mapping[str, Any]) -> list[str]:
    """Return the lines of a rating: a sheet where there is one bellows, a table where there are more.

    Args:
        document: of the rating, as `takeup bellows rate --json` prints it.
    """
    rows = document["rows"]
    source = document["input"]
    lines = [f"Rating of bellows, {source['file']}, sha256 {source['sha256'][:12]}", ""]
    lines += _sheet(rows[0]) if len(rows) == 1 else _many(rows)
    lines += ["Not covered:", *_listed(document["not_covered"]), "", "Note:", *_listed(document["cautions"]), ""]
    return lines


def _sheet(row: Mapping[str, Any]) -> list[str]:
    """Return all numbers of one bellows."""
    lines = [f"BELLOWS {row['name']}", "", "Given:", *_given(row["given"]), ""]
    values = list(_values(row))
    if values:
        head = ("computed", "shell", "formula", "difference %", "unit")
        lines += [*table(head, values, (1, 2, 3)), ""]
    lines += _moved(row["rated_movements"])
    lines += _pressed(row["pressure_limits"], row["pressure_limit_bar"])
    lines += _paragraphs("Cautions:", row["cautions"])
    lines += _paragraphs("Remarks:", _remarks(row))
    return [*lines, *_paragraphs("Assumed or looked up:", row["assumptions"])]


def _moved(movements: Sequence[Mapping[str, Any]]) -> list[str]:
    """Return the rating at the wanted life, a line for each design curve; nothing where none is known."""
    if not movements:
        return []
    numbers = ("movement_mm", "axial_mm", "lateral_mm", "angular_deg", "form_range_mpa", "shell_range_mpa")
    head = ("curve", "e mm", "axial mm", "lateral mm", "angular °", "range MPa", "shell MPa", "held by")
    body = [(one["curve"], *(figures(one[name]) for name in numbers), one["governed_by"]) for one in movements]
    warnings = [f"{one['curve']}: {one['warning']}" for one in movements if one["warning"]]
    return [
        f"Rating at the wanted life, {figures(movements[0]['cycles'])} cycles: each movement of the bellows alone.",
        *table(head, body, tuple(range(1, 7))),
        *_listed(
            [
                "Together they share e of one convolution: e_y + e_theta + e_x is at most e, all to one side.",
                GAP_RULE[0].upper() + GAP_RULE[1:] + ".",
                *warnings,
            ]
        ),
        "",
    ]


def _pressed(limits: Sequence[Mapping[str, Any]], least: float | None) -> list[str]:
    """Return the pressure limits, a line for each criterion; the least in the sense of the duty is marked."""
    if not limits:
        return []
    first = next((number for number, one in enumerate(limits) if one["pressure_bar"] == least), None)
    body = [
        (
            one["criterion"],
            one["from"],
            figures(one["pressure_bar"]),
            "governs" if number == first else "",
            one["source"],
        )
        for number, one in enumerate(limits)
    ]
    title = "Pressure limits at temperature" + (", of those that could be reckoned" if least is None else "")
    return [f"{title}:", *table(("criterion", "pressure", "bar", "", "whose"), body, (2,)), ""]


def _given(given: Mapping[str, Any]) -> list[str]:
    """Return what was given, a line each."""
    rows = [
        (_title(one), figures(given[one.column]), _unit(one.unit)) for one in GIVEN if given[one.column] is not None
    ]
    words = [("material", given["material"] or "typed in"), ("family of the metal", given["family"] or "not stated")]
    words.append(("after forming", "annealed" if given["annealed"] else "as formed"))
    width = max(len(what) for what, *_ in (*rows, *words))
    right = max((len(number) for _, number, _ in rows), default=0)
    return [
        *(f"  {what.ljust(width)}  {number.rjust(right)} {unit}".rstrip() for what, number, unit in rows),
        *(f"  {what.ljust(width)}  {word}" for what, word in words),
    ]


def _title(one: Input) -> str:
    """Return what was given in a few words."""
    return "pressure, inside above outside" if one.column == "pressure_bar" else re.split("[,;:]", one.meaning)[0]


def _unit(unit: str) -> str:
    return {"degC": "°C", "deg": "°", "bar(g)": "bar"}.get(unit, unit)


def _values(row: Mapping[str, Any]) -> Iterator[tuple[str, str, str, str, str]]:
    """Yield a line for each quantity that somebody computed: shell, formula, their difference, unit."""
    quantities: dict[str, list[Column]] = {}
    for column in COLUMNS:
        quantities.setdefault(column.quantity, []).append(column)
    for quantity, columns in quantities.items():
        sides = {column.side: row[column.name] for column in columns}
        shell, formula = sides.get("shell"), sides.get("formula")
        if shell is None and formula is None:
            continue
        yield quantity, figures(shell, ""), figures(formula, ""), _difference(shell, formula), columns[0].unit


def _difference(shell: float | None, formula: float | None) -> str:
    """Return by how many per cent the shell's value is above the published form's."""
    return "" if shell is None or not formula else f"{100.0 * (shell / formula - 1.0):+.1f}"


def _remarks(row: Mapping[str, Any]) -> list[str]:
    """Return the remarks one by one, without cautions and what is told as assumed, which stand elsewhere."""
    return [part for part in row["remark"].split("; ") if part and not part.startswith((CAUTION, "assumed: "))]


def _many(rows: Sequence[Mapping[str, Any]]) -> list[str]:
    head = ("bellows", *(title for _, title in _COMPACT))
    body = [(row["name"], *(figures(row[name]) for name, _ in _COMPACT)) for row in rows]
    lines = [*table(head, body, tuple(range(1, len(head)))), ""]
    cautions = [f"{row['name']}: {words}" for row in rows for words in row["cautions"]]
    rest = len(cautions) - _MOST_CAUTIONS
    more = [f"and {rest} more; --json lists all of them"] if rest > 0 else []
    lines += _paragraphs("Cautions:", [*cautions[:_MOST_CAUTIONS], *more])
    missing = sum(1 for row in rows if any(row[name] is None for name, _ in _COMPACT))
    if missing:
        lines += [
            f"{missing} of {len(rows)} bellows have a number that was not computed; the remark of --csv says why.",
            "",
        ]
    return lines


def figures(value: float | None, none: str = _NONE) -> str:
    """Return a number with four figures, its thousands apart; `none` where there is none."""
    if value is None:
        return none
    if abs(value) >= _WHOLE:
        return f"{value:,.0f}".replace(",", " ")
    return f"{value:.{_FIGURES}g}"


def _paragraphs(title: str, texts: Sequence[str]) -> list[str]:
    return [title, *_listed(texts), ""] if texts else []


def _listed(texts: Sequence[str]) -> list[str]:
    return [
        line
        for text in texts
        for line in textwrap.wrap(text, _WIDTH, initial_indent="  - ", subsequent_indent="    ", break_long_words=False)
    ]
