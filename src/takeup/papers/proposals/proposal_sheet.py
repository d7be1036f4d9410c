"""Proposals on a terminal: the table, why the first is first, the refused.     (papers/proposals/proposal_sheet.py)

Made from the document alone. Plain text, no colour, so that it reads the same in a log.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from typing import Any  # the document is JSON

from takeup.choose.arrange.verify import BY_ITSELF
from takeup.papers.common.terminal import table

_WIDTH = 100
_MOST = 8  # refused arrangements that a page shows; all stand in the document
_HEAD = ("", "cost", "joints", "new anchors", "loops", "greatest load kN", "at", "closest check", "use", "its study")


def proposal_lines(document: Mapping[str, Any]) -> list[str]:
    """Return the lines of a search.

    Args:
        document: of it, as proposals.json holds it.
    """
    given, proposals = document["input"], document["proposals"]
    lines = f"{'line' if len(given['lines']) == 1 else 'lines'} {' and '.join(given['lines'])}"
    return [
        f"{given['project']}: proposals for {lines}, {given['file']}, sha256 {given['sha256'][:12]}",
        *_prices(document["prices"]),
        *_wrapped(document["searched"]["words"], ""),
        "",
        *(_table(proposals) if proposals else _nothing(document)),
        *(_reasons(proposals[0]) if proposals else []),
        *_front(document["front"], document["prices"]["unit"]),
        *_refused(document["refused"]),
        "Note:",
        *_listed(document["cautions"]),
        "",
    ]


def _prices(prices: Mapping[str, Any]) -> list[str]:
    loud = ["PRICES ARE INVENTED: demonstration prices, not anybody's; name your own under the key prices."]
    return [*(loud if prices["demonstration"] else []), *_wrapped(f"Prices: {prices['words']}", "")]


def _table(proposals: Sequence[Mapping[str, Any]]) -> list[str]:
    rows = [
        (
            str(one["rank"]),
            f"{one['cost']:.1f}",
            str(one["joints"]),
            str(one["new_anchors"]),
            str(one["loops"]),
            f"{one['greatest_load']['force_n'] / 1e3:.1f}",
            one["greatest_load"]["where"],
            "–" if one["closest"] is None else f"{one['closest']['title']}, {one['closest']['where']}",
            "–" if one["closest"] is None else f"{one['closest']['use']:.2f}",
            one["verdict"]["outcome"],
        )
        for one in proposals
    ]
    lines = [*table(_HEAD, rows, right=(0, 1, 2, 3, 4, 5, 8)), "", "What stands where, along the flow:"]
    for one in proposals:
        lines += _wrapped(f"{one['rank']}. {one['words']}")
    return [*lines, ""]


def _nothing(document: Mapping[str, Any]) -> list[str]:
    whole = document["searched"]["stopped"] is None
    lines, given = ["NOTHING FITS." if whole else "NOTHING THAT WAS TRIED FITS.", ""], document["relaxations"]
    if given:
        best = given[0]
        lines += _wrapped(
            f"Something would fit {best['words']}, which costs least of what was tried: {' | '.join(best['plans'])}, "
            f"at {best['cost']:.1f}.",
            "",
        )
        others = [f"{one['words']}, at {one['cost']:.1f}" for one in given[1:]]
        lines += _wrapped(f"Or {'; or '.join(others)}.", "") if others else []
    elif BY_ITSELF in document["searched"]["words"]:
        lines += _wrapped("No arrangement of the others helps that: it has to be put right first.", "")
    elif whole:
        lines += _wrapped(
            "Nor did anything fit with stronger anchors, nothing kept clear, or room for deeper loops.", ""
        )
    return [*lines, ""]


def _reasons(first: Mapping[str, Any]) -> list[str]:
    return ["Why the first:", *_listed(first["reasons"]), ""]


def _front(front: Mapping[str, Any], unit: str) -> list[str]:
    """Return the proposals that none betters in all three measures; nothing where there is but one of them."""
    if len(front["members"]) < 2:  # noqa: PLR2004 -- one alone says no more than the table
        return []
    whole = "" if front["whole"] else " of those verified"
    lines = [f"Of all that was looked at, none{whole} is better at once in cost, greatest load and joints than:"]
    for one in front["members"]:
        rank = f"number {one['rank']}" if one["rank"] else "not in the table"
        lines += _wrapped(
            f"{one['cost']:.1f} ({unit}), {one['greatest_load']['force_n'] / 1e3:.1f} kN, "
            f"{one['joints']} {'joint' if one['joints'] == 1 else 'joints'}: {rank}, {one['words']}"
        )
    return [*lines, ""]


def _refused(refused: Mapping[str, Any]) -> list[str]:
    lines = []
    if refused["counts"]:
        lines.append("Refused by the model of a span, with the reason in one of the spans:")
        said = {one["concept"]: one for one in reversed(refused["concepts"])}
        alike: dict[str, list[str]] = {}
        for count in refused["counts"]:
            one, many = said.get(count["concept"]), count["spans"]
            example = "" if one is None else f"; {one['from']} to {one['to']}: {one['because']}"
            alike.setdefault(example, []).append(f"{count['concept']}, {many} {'span' if many == 1 else 'spans'}")
        for example, concepts in alike.items():
            lines += _wrapped(", ".join(concepts) + example)
        counted = {count["concept"] for count in refused["counts"]}
        for concept, one in said.items():
            if concept not in counted:
                lines += _wrapped(f"{concept}; {one['from']} to {one['to']}: {one['because']}")
    if refused["arrangements"]:
        failed = len(refused["arrangements"])
        what = "arrangement failed in its" if failed == 1 else "arrangements failed in their"
        lines.append(f"{failed} {what} own study:")
        for one in refused["arrangements"][:_MOST]:
            lines += _wrapped(f"{one['words']}: {one['because']}")
        if len(refused["arrangements"]) > _MOST:
            lines.append(f"  and {len(refused['arrangements']) - _MOST} more; all stand in proposals.json")
    return [*lines, ""] if lines else []


def _listed(texts: Sequence[str]) -> Iterator[str]:
    for text in texts:
        yield from _wrapped(text, "  - ")


def _wrapped(text: str, indent: str = "  ") -> list[str]:
    after = " " * len(indent) if indent.strip() else f"{indent}  "
    return textwrap.wrap(
        text, _WIDTH, initial_indent=indent, subsequent_indent=after, break_long_words=False, break_on_hyphens=False
    )


__all__ = ["proposal_lines"]
