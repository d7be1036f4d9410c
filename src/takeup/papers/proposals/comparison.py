"""The comparison of proposals: drawings, loads, costs and reasons side by side.     (papers/proposals/comparison.py)

Everything printed comes from the document and, for the drawings and forces, from the results of each proposal's own
study. `comparison.typ` sets it. Tagged and fit for archives as the calculation is, and the same bytes each time.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any  # the document is JSON

from takeup.drawing import to_svg
from takeup.drawing.proposal_view import proposal_sheets
from takeup.drawing.reading import Results
from takeup.papers.common.glyphs import breakable
from takeup.papers.common.tables import Cell, Tree, facts, number_column, sentences, table, words_column
from takeup.papers.frame.pdf import compile_pdf
from takeup.papers.frame.tree import page_tree

COMPARISON = "comparison.pdf"
TEMPLATE = Path(__file__).parent / "comparison.typ"
_NONE = "–"
_AT_ONCE = 5  # proposals in a table that has a column of each
_ARRANGEMENTS = 20  # refused ones that are printed; all stand in proposals.json
_CONCEPTS = 60
_BY_SIZE = (
    "rest,",
    "hanger,",
    "spring hanger,",
    "slide guide,",
    "spider guide,",
    "planar guide,",
    "pipe,",
    "insulation,",
    "bend,",
    "weld,",
)  # parts whose price needs no more words than its size

Document = Mapping[str, Any]


def comparison_pdf(document: Document, every: Sequence[Results]) -> bytes:
    """Return the comparison as the bytes of a PDF.

    Args:
        document: of the search.
        every: the results of each proposal, in order.
    """
    day = date.fromisoformat(document["input"]["document"]["date"])
    return compile_pdf(TEMPLATE, comparison_contents(document, every), day)


def comparison_contents(document: Document, every: Sequence[Results]) -> Tree:
    """Return all that is printed, in the order of the pages."""
    given, proposals = document["input"], document["proposals"]
    number = given["document"]
    sheets = proposal_sheets(every, given["lines"])
    return {
        "frame": page_tree(
            "Comparison of arrangements",
            breakable(given["project"]),
            f"{number['number']}, revision {number['revision']} · {_lines(given)}",
        ),
        "about": _about(document),
        "searched": breakable(document["searched"]["words"]),
        "loud": [words for words in document["cautions"] if "INVENTED" in words],
        "found": _found(proposals, document["prices"]["unit"]) if proposals else None,
        "nothing": _nothing(document),
        "stands": sentences([f"{one['rank']}. {one['words']}" for one in proposals]),
        "drawings": [
            {
                "head": breakable(f"Number {one['rank']}: cost {one['cost']:.1f}, {_counted(one)}"),
                "svg": to_svg(sheet),
                "alt": f"Number {one['rank']}. {sheet.description}",
                "width": sheet.width,
            }
            for one, sheet in zip(proposals, sheets, strict=True)
        ],
        "loads": _loads(proposals) if proposals else None,
        "costs": [_costs(proposals[k : k + _AT_ONCE]) for k in range(0, len(proposals), _AT_ONCE)],
        "parts": _parts(proposals),
        "reasons": [
            {"head": breakable(f"Number {one['rank']}: {_short(one)}"), "said": sentences(_told(one))}
            for one in proposals
        ],
        "front": _front(document["front"]),
        "front_said": _front_said(document["front"]),
        "refused": _refused(document["refused"]),
        "arrangements": _arrangements(document["refused"]["arrangements"]),
        "limits": sentences([*document["limits"], *document["assumptions"]]),
        "cautions": sentences(document["cautions"]),
        "made": facts(_made(document)),
    }


def _lines(given: Document) -> str:
    names = given["lines"]
    return f"line {names[0]}" if len(names) == 1 else f"lines {' and '.join(names)}"


def _about(document: Document) -> Tree:
    given, number = document["input"], document["input"]["document"]
    return facts(
        (
            ("Document", f"{number['number']}, revision {number['revision']}, {number['date']}"),
            ("Line" if len(given["lines"]) == 1 else "Lines", ", ".join(given["lines"])),
            ("Line file", f"{given['file']}, SHA-256 {given['sha256'][:16]}"),
            ("Prices", document["prices"]["words"]),
            ("First is", _FIRST[document["measure"]]),
        )
    )


_FIRST = {
    "cost": "what costs least",
    "anchor-load": "what loads its most loaded anchor least, then what costs least",
    "joints": "what has the fewest joints, then what costs least",
}


def _counted(one: Document) -> str:
    names = (("joints", "joint", "joints"), ("loops", "loop", "loops"), ("new_anchors", "new anchor", "new anchors"))
    said = [f"{one[key]} {single if one[key] == 1 else many}" for key, single, many in names if one[key]]
    return ", ".join(said) or "nothing added but guides and rests"


def _short(one: Document) -> str:
    return ", then ".join(dict.fromkeys(span["concept"] for span in one["spans"]))


def _told(one: Document) -> list[str]:
    """Return the reasons of a proposal but for what was refused in its spans: that has a section for all of them."""
    refused = tuple(f"{span['from']} to {span['to']}, refused: " for span in one["spans"])
    return [words for words in one["reasons"] if not words.startswith(refused)]


def _found(proposals: Sequence[Document], unit: str) -> Tree:
    rows: list[Sequence[Cell]] = [
        (
            str(one["rank"]),
            f"{one['cost']:.1f}",
            str(one["joints"]),
            str(one["loops"]),
            str(one["new_anchors"]),
            f"{one['greatest_load']['force_n'] / 1e3:.1f}",
            (one["greatest_load"]["where"], ""),
            _closest(one),
            _NONE if one["closest"] is None else f"{one['closest']['use']:.2f}",
            one["verdict"]["outcome"],
        )
        for one in proposals
    ]
    columns = (
        number_column("No."),
        number_column("Cost", unit),
        number_column("Joints"),
        number_column("Loops"),
        number_column("New anchors", width="15mm"),
        number_column("Greatest load", "kN", width="17mm"),
        words_column("at", "1fr"),
        words_column("Closest check", "1.6fr"),
        number_column("Use"),
        words_column("Study"),
    )
    return table(columns, rows, "Proposals, the best first", strong=(0,))


def _closest(one: Document) -> Cell:
    row = one["closest"]
    return _NONE if row is None else (row["title"], f"{row['where']}, {row['state']}")


def _nothing(document: Document) -> list[str]:
    if document["proposals"]:
        return []
    given = document["relaxations"]
    said = [f"{one['words']}: {' | '.join(one['plans'])}, at {one['cost']:.1f}." for one in given]
    return sentences([f"Something would fit {words}" for words in said])


def _loads(proposals: Sequence[Document]) -> Tree:
    columns = (
        number_column("No."),
        words_column("Anchor", "1.4fr"),
        number_column("At", "m"),
        words_column("", "auto"),
        number_column("Priced for", "kN"),
        number_column("Design force", "kN"),
        words_column("in state", "1fr"),
        number_column("of it friction", "kN"),
        number_column("Can carry", "kN"),
        number_column("Use"),
    )
    rows = [
        (str(one["rank"]) if first else "", *_load(anchor))
        for one in proposals
        for first, anchor in zip((True, *(False,) * len(one["anchors"])), one["anchors"], strict=False)
    ]
    return table(columns, rows, "Loads on anchors of each proposal")


def _load(anchor: Document) -> Sequence[Cell]:
    can, force = anchor["can_carry_n"], anchor["force_n"]
    return (
        anchor["name"],
        f"{anchor['station_m']:.2f}",
        "new" if anchor["proposed"] else "in the file",
        f"{force / 1e3:.1f}",
        f"{anchor['design_force_n'] / 1e3:.1f}",
        anchor["design_state"],
        f"{anchor['friction_bound_n'] / 1e3:.1f}",
        "not said" if can is None else f"{can / 1e3:.1f}",
        _NONE if can is None else f"{anchor['design_force_n'] / can:.2f}",
    )


def _costs(proposals: Sequence[Document]) -> Tree:
    """Return a table of what some proposals cost, part by part, a column of each."""
    parts = list(dict.fromkeys(part["what"] for one in proposals for part in one["parts"]))
    found = [{part["what"]: part for part in one["parts"]} for one in proposals]
    rows: list[Sequence[Cell]] = [(what, *(_cost(own.get(what)) for own in found)) for what in parts]
    rows.append(("Together", *(f"{one['cost']:.1f}" for one in proposals)))
    columns = (words_column("Part", "1fr"), *(number_column(f"No. {one['rank']}", width="24mm") for one in proposals))
    numbers = f"{proposals[0]['rank']} to {proposals[-1]['rank']}" if len(proposals) > 1 else f"{proposals[0]['rank']}"
    return table(columns, rows, f"Cost by part, numbers {numbers}", strong=(len(rows) - 1,))


def _cost(part: Document | None) -> Cell:
    if part is None:
        return _NONE
    unit = "" if part["unit"] == "piece" else f" {part['unit']}"
    return f"{part['cost']:.1f}", f"{round(part['count'], 1):g}{unit} at {part['each']:.4g}"


def _parts(proposals: Sequence[Document]) -> Tree | None:
    """Return how the joints and anchors of each proposal are priced; None where nothing of the kind is added."""
    columns = (
        number_column("No."),
        words_column("Part", "1fr"),
        number_column("Count"),
        number_column("Each"),
        words_column("Which, and how priced", "1.4fr"),
    )
    rows: list[Sequence[Cell]] = [
        (str(one["rank"]), part["what"], f"{round(part['count'], 1):g}", f"{part['each']:.1f}", part["note"])
        for one in proposals
        for part in one["parts"]
        if not part["what"].startswith(_BY_SIZE)
    ]
    return table(columns, rows, "Joints and anchors, and how they are priced") if rows else None


def _front(front: Document) -> Tree | None:
    members = front["members"]
    if len(members) < 2:  # noqa: PLR2004 -- one alone says no more than the first table
        return None
    columns = (
        words_column("No."),
        number_column("Cost"),
        number_column("Greatest load", "kN"),
        words_column("at", "1fr"),
        number_column("Joints"),
        words_column("What stands where", "3fr"),
    )
    rows: list[Sequence[Cell]] = [
        (
            _NONE if one["rank"] is None else str(one["rank"]),
            f"{one['cost']:.1f}",
            f"{one['greatest_load']['force_n'] / 1e3:.1f}",
            one["greatest_load"]["where"],
            str(one["joints"]),
            one["words"],
        )
        for one in members
    ]
    return table(
        columns, rows, "Of all that was looked at, none is better at once in cost, greatest load and joints than"
    )


def _front_said(front: Document) -> str:
    if len(front["members"]) < 2:  # noqa: PLR2004 -- as above
        return "The first is at once the best in cost, greatest load and joints of all that were verified."
    return "" if front["whole"] else "Of those verified: studies for the whole front were not all run."


def _refused(refused: Document) -> Tree | None:
    """Return why concepts were refused, those of one reason together."""
    spans = list(dict.fromkeys(_span(one) for one in refused["concepts"]))
    alike: dict[str, tuple[list[str], list[str]]] = {}
    for one in refused["concepts"]:
        concepts, where = alike.setdefault(one["because"], ([], []))
        concepts += [one["concept"]] if one["concept"] not in concepts else []
        where += [_span(one)] if _span(one) not in where else []
    rows = [
        (", ".join(concepts), "every span" if len(where) == len(spans) > 1 else "; ".join(where), because)
        for because, (concepts, where) in list(alike.items())[:_CONCEPTS]
    ]
    columns = (words_column("Concept", "34mm"), words_column("Span", "48mm"), words_column("Because", "1fr"))
    more = len(alike) - len(rows)
    rest = f"; {more} more reasons stand in proposals.json" if more > 0 else ""
    return table(columns, rows, f"Concepts refused, span by span{rest}") if rows else None


def _span(one: Document) -> str:
    return f"{one['from']} to {one['to']}"


def _arrangements(every: Sequence[Document]) -> Tree | None:
    rows = [(one["words"], one["because"]) for one in every[:_ARRANGEMENTS]]
    columns = (words_column("Arrangement", "1fr"), words_column("Fails in its own study by", "1fr"))
    more = len(every) - len(rows)
    rest = f"; {more} more stand in proposals.json" if more > 0 else ""
    return table(columns, rows, f"Arrangements whose own study fails{rest}") if rows else None


def _made(document: Document) -> Sequence[tuple[str, str]]:
    searched, prices = document["searched"], document["prices"]
    return (
        ("Takeup", document["tool"]["version"]),
        ("Line file", f"{document['input']['file']}, SHA-256 {document['input']['sha256']}"),
        ("Price file", f"{prices['file']}, SHA-256 {prices['sha256']}"),
        ("Prices of", f"{prices['name']}: {prices['source']}"),
        ("Plans of spans", str(searched["plans"])),
        ("Studies run", f"{searched['studies']}, of which {searched['failed']} failed"),
    )


__all__ = ["COMPARISON", "comparison_contents", "comparison_pdf"]
