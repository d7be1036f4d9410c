"""The order of work, made from what a line has.     (papers/card/steps.py)

Common practice, no source: anchors before pressure, shipping bars out after anchors and guides and before the test,
locked hangers free after it. No step speaks of what the line has not.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from takeup.drawing.places import is_anchor
from takeup.drawing.reading import Record, maybe_number, number_of, of_line, record_of, records_of, text_of
from takeup.papers.card.things import GUIDES, RESTS, holds_of, of_kind, things
from takeup.papers.common.numerals import as_given
from takeup.papers.common.printer import Printer

_HELD = ("rods", "pins", "balance")
_FITTED = {
    (): "step_fit",
    ("lateral",): "step_fit_in_line_within",
    ("angular",): "step_fit_askew_within",
    ("lateral", "angular"): "step_fit_within",
}
"""The text of a step by what of a joint's ratings may be used up when it is fitted."""


def steps(printer: Printer, line: Record, joints: Sequence[Record]) -> Iterator[str]:
    """Yield the steps in their order.

    Args:
        printer: of the paper.
        line: the line.
        joints: in it, along the flow.
    """
    yield from _before(printer, line, joints)
    yield from _fitting(printer, line, joints)
    yield from _under_pressure(printer, line, joints)
    yield from _hot(printer, line, joints)


def _before(printer: Printer, line: Record, joints: Sequence[Record]) -> Iterator[str]:
    say = printer.say
    holds = holds_of(printer, line)
    if joints:
        yield say("step_check", joints=_joints(printer, joints))
    anchors = [text_of(hold, "name") for hold in holds if is_anchor(text_of(hold, "kind"))]
    if anchors:
        yield say("step_anchors", names=", ".join(anchors))
    guides, rests = of_kind(holds, GUIDES), of_kind(holds, RESTS)
    if guides and rests:
        yield say("step_guides", guides=len(guides), rests=len(rests))
    elif guides:
        yield say("step_guides_only", guides=len(guides))
    elif rests:
        yield say("step_rests_only", rests=len(rests))
    if any(text_of(hold, "kind") == "spring hanger" for hold in holds):
        yield say("step_hangers_locked")


def _fitting(printer: Printer, line: Record, joints: Sequence[Record]) -> Iterator[str]:
    say, small = printer.say, printer.units.small
    if not joints:
        return
    yield say("step_temperature")
    yield say("step_cut")
    for lateral, angular, names in _misalignments(printer, joints):
        by = {}
        if lateral:
            by["lateral"] = printer.told(lateral, small, 1)
        if angular:
            by["angular"] = printer.told(angular, printer.units.of_check("deg"), 2)
        yield say(_FITTED[tuple(by)], joints=names, **by)
    hardware = [joint for joint in joints if any(record_of(record_of(joint, "data"), key) for key in _HELD)]
    gaps = [joint for joint in hardware if _has_gap(joint)]
    if gaps:
        yield say("step_gaps", joints=_joints(printer, gaps))
    if hardware:
        yield say("step_hardware", joints=_joints(printer, hardware))
    yield say("step_as_set")
    held, named = things(printer, line, joints=False), _joints(printer, joints)
    yield say("step_bars", things=held, joints=named) if held else say("step_bars_alone", joints=named)


def _misalignments(printer: Printer, joints: Sequence[Record]) -> list[tuple[float, float, str]]:
    """Return what may be out of line and askew, with the names of the joints of which it is so."""
    found: dict[tuple[float, float], list[Record]] = {}
    for joint in joints:
        lateral, angular = (maybe_number(joint, f"misalignment_{way}") or 0.0 for way in ("lateral_mm", "angular_deg"))
        found.setdefault((lateral, angular), []).append(joint)
    return [(lateral, angular, _joints(printer, same)) for (lateral, angular), same in found.items()]


def _has_gap(joint: Record) -> bool:
    return any(maybe_number(row, "rod_gap_mm") is not None for row in records_of(record_of(joint, "setting"), "rows"))


def _under_pressure(printer: Printer, line: Record, joints: Sequence[Record]) -> Iterator[str]:
    say, bar = printer.say, printer.units.pressure
    test = record_of(record_of(record_of(printer.results, "input"), "resolved"), "test")
    if test:
        pressure = bar.named(as_given(number_of(test, "pressure_bar"), bar))
        medium = printer.texts.said(text_of(test, "with"))
        limits = [
            limit
            for joint in joints
            if (limit := maybe_number(record_of(joint, "data"), "test_pressure_bar")) is not None
        ]
        looked_at = things(printer, line, joints=bool(joints))
        look = say("step_look", things=looked_at) if looked_at else ""
        yield " ".join(filter(None, (say("step_test", pressure=pressure, medium=medium), look)))
        if limits:
            yield say("step_test_limit", pressure=bar.named(as_given(min(limits), bar)))
        yield say("step_empty")
    hangers = [hold for hold in of_line(printer.results, "holds", line) if text_of(hold, "kind") == "spring hanger"]
    if hangers:
        yield say("step_hangers_free", names=", ".join(text_of(hanger, "name") for hanger in hangers))


def _hot(printer: Printer, line: Record, joints: Sequence[Record]) -> Iterator[str]:
    say = printer.say
    yield say("step_cold_readings")
    medium = text_of(line, "medium")
    holds = holds_of(printer, line)
    watch = "watch_guides" if of_kind(holds, GUIDES) else "watch_rests" if of_kind(holds, RESTS) else ""
    warm = say("step_warm_steam" if medium == "steam" else "step_warm")
    yield " ".join(filter(None, (warm, say(watch) if watch else "")))
    yield say("step_hot_readings")
    yield say("step_compare_joints" if joints else "step_compare")


def _joints(printer: Printer, joints: Sequence[Record]) -> str:
    return printer.names_of(text_of(joints[0], "line"), [text_of(joint, "name") for joint in joints])


__all__ = ["steps"]
