"""A hold or a take-up as one item of a line file, with all that its record says.     (line/reading/written_items.py)"""

from __future__ import annotations

from takeup.library import Friction, UnknownName, friction
from takeup.line.fitting import NOTHING_SAID
from takeup.line.holding import Hold, Spring, Stiffness
from takeup.line.parts import Vector
from takeup.line.reading.wording import direction_words, listed_words, mapping, quantity_words, scalar
from takeup.line.records import TakeUp
from takeup.units import Kind

Parts = list[tuple[str, str]]
_RIGID = "rigid"


def hold_item(hold: Hold, at: str, on_bend: str | None, *, named: bool) -> str:
    """Return the item of one hold.

    Args:
        hold: with all that it says.
        at: the words of its place.
        on_bend: where on the bend, at a corner that has one.
        named: whether the file must give its name; its kind and place make it otherwise.
    """
    parts: Parts = [("kind", hold.kind), ("at", scalar(at))]
    parts += [("on_bend", on_bend)] if on_bend else []
    parts += [("name", scalar(hold.name))] if named else []
    parts += _quantity("can_carry", hold.can_carry, "force", "kN")
    parts += _quantity("can_carry_moment", hold.can_carry_moment, "moment", "kN·m")
    parts += _ways(hold)
    parts += _rubs(hold.friction) if hold.friction else []
    parts += _quantity("clearance", hold.clearance or None, "length", "mm")
    parts += _quantity("gap", hold.gap or None, "length", "mm")
    parts += _quantity("hot_leg", hold.hot_leg or None, "length", "mm")
    parts += [("stiffness", _stiffness(hold.stiffness))] if hold.stiffness else []
    parts += [("settlement", _movements(hold.settlement))] if hold.settlement else []
    parts += [("spring", _spring(hold.spring))] if hold.spring else []
    parts += [("only_in", listed_words([scalar(one) for one in hold.only_in]))] if hold.only_in else []
    return mapping(parts)


def takeup_item(takeup: TakeUp, at: str) -> str:
    """Return the item of one take-up: the series that it is from and its name there.

    Args:
        takeup: that was chosen from a series, and says nothing of how it is fitted out.
        at: the words of its place.
    """
    assert takeup.chosen is not None, "only a joint of a series is proposed"
    assert takeup.fitting == NOTHING_SAID, "how a joint is fitted out is the owner's to say, in his own file"
    parts: Parts = [("name", scalar(takeup.name)), ("kind", takeup.kind), ("at", scalar(at))]
    parts += [("from", scalar(takeup.chosen.source.series)), ("joint", scalar(takeup.chosen.joint))]
    if takeup.preset:
        way = "extended" if takeup.preset > 0.0 else "compressed"
        parts.append(("preset", f"{quantity_words(abs(takeup.preset), 'length', 'mm')} {way}"))
    parts += [("pins", mapping([("along", _way(takeup.pins.way))]))] if takeup.pins else []
    lateral, angular = takeup.misalignment
    out = _quantity("lateral", lateral or None, "length", "mm") + _quantity("angular", angular or None, "angle", "deg")
    parts += [("misalignment", mapping(out))] if out else []
    return mapping(parts)


def _way(words: str) -> str:
    """Return how pins lie, by a word or by three numbers between brackets."""
    return words if words.startswith("[") else scalar(words)


def _quantity(key: str, value: float | None, kind: Kind, unit: str) -> Parts:
    return [] if value is None else [(key, quantity_words(value, kind, unit))]


def _ways(hold: Hold) -> Parts:
    """Return which way a directional anchor, a stop or a planar guide holds."""
    if hold.kind == "stop" and hold.along is None:
        return [("against", "with flow" if hold.sense > 0 else "against flow")]
    if hold.along is None:
        return []
    x, y, z = hold.along
    if hold.kind == "stop":
        return [("against", direction_words(hold.along if hold.sense > 0 else (0.0 - x, 0.0 - y, 0.0 - z)))]
    return [("free_along" if hold.kind == "planar guide" else "along", direction_words(hold.along))]


def _rubs(found: Friction) -> Parts:
    """Return the pair of the library where it is one, or the range with its source."""
    try:
        known = friction(found.words) == found
    except UnknownName:
        known = False
    if known:
        return [("slides_on", scalar(found.words))]
    said = [("low", repr(found.low)), ("high", repr(found.high)), ("source", scalar(found.source.words))]
    return [("friction", mapping(said))]


def _stiffness(found: Stiffness) -> str:
    force = [_RIGID if one is None else quantity_words(one, "force per length", "kN/mm") for one in found.force]
    moment = [_RIGID if one is None else quantity_words(one, "moment per angle", "kN·m/deg") for one in found.moment]
    return mapping([("force", listed_words(force)), ("moment", listed_words(moment)), ("source", scalar(found.source))])


def _movements(found: Vector) -> str:
    return listed_words([quantity_words(one, "length", "mm") for one in found])


def _spring(found: Spring) -> str:
    return mapping(
        [
            *_quantity("rate", found.rate, "force per length", "N/mm"),
            *_quantity("cold_load", found.cold_load, "force", "kN"),
            *_quantity("least_load", found.least, "force", "kN"),
            *_quantity("most_load", found.most, "force", "kN"),
            ("locked_in_test", "yes" if found.locked_in_test else "no"),
            *_quantity("stop_up", found.stop_up, "length", "mm"),
            *_quantity("stop_down", found.stop_down, "length", "mm"),
            ("source", scalar(found.source)),
        ]
    )


__all__ = ["hold_item", "takeup_item"]
