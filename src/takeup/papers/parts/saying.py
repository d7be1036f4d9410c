"""A part in words: what it is, its sizes, how it is priced.     (papers/parts/saying.py)"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from types import MappingProxyType

from takeup.drawing.reading import Record, maybe_number, nominal_size, number_of, record_of, text_of, texts_of
from takeup.edge import Measure
from takeup.papers.common.numerals import as_given
from takeup.papers.frame import Head
from takeup.papers.parts.listed import Listed
from takeup.papers.words.catalogue import entries_of

_HALF = "half of "
_TABLED = ("pipe", "bend", "insulation", "take-up", "hold")  # groups that a price file has tables of
_LOAD = 2  # decimals of a load in kN
_NAMES = 700  # letters, on some 27 lines of their column: a row has 31 at most


def part_words(head: Head, row: Record) -> str:
    """Return what a part is."""
    what, group = text_of(row, "what"), text_of(row, "group")
    if group in ("insulation", "tee"):
        return head.texts(f"parts.{group}", kind=_word(head, what))
    if group == "take-up" and what.startswith(_HALF):
        return head.texts("parts.half", kind=head.texts.said(what.removeprefix(_HALF)))
    return head.texts.said(what) if group in ("take-up", "hold") else _word(head, what)


def _word(head: Head, words: str) -> str:
    """Return a word of ours in the language of the paper; one of the user's own as it stands."""
    key = f"parts.{words}"
    return head.texts(key) if key in entries_of(head.language) else words


def size_words(head: Head, row: Record) -> str:
    """Return the size of a part's pipe; of a reducer and a tee both sizes."""
    sizes = [nominal_size(row, head.units), text_of(row, f"to_{head.units.nominal}") or text_of(row, "to_size")]
    return " × ".join(filter(None, sizes))


def names_words(head: Head, names: Sequence[str]) -> str:
    """Return the names of what a row stands for; the first and the last of more than a row can be high for."""
    every = ", ".join(names)
    return every if len(every) <= _NAMES else head.texts("parts.names_by_ends", first=names[0], last=names[-1])


def details(head: Head, row: Record) -> str:
    """Return everything else that tells a part from others, in words."""
    return ", ".join(filter(None, _details(head, row)))


def _details(head: Head, row: Record) -> Iterator[str]:
    group = text_of(row, "group")
    if group in ("pipe", "bend", "tee", "item"):
        yield _sized(head, row, "wall_mm", "wall", "wall")
        yield text_of(row, "material")
    yield from _OF_GROUP[group](head, row)
    if group in ("item", "take-up"):
        yield _sized(head, row, "length_mm", "long" if group == "item" else "face_to_face", "length")
        yield _weight(head, row)


def _nothing(_head: Head, _row: Record) -> Iterator[str]:
    yield ""


def _of_bend(head: Head, row: Record) -> Iterator[str]:
    said = head.texts
    yield _sized(head, row, "radius_mm", "radius", "radius")
    yield said.figures(f"{number_of(row, 'angle_deg'):g}°")
    if cuts := maybe_number(row, "cuts"):
        yield said("parts.cuts", cuts=f"{cuts:.0f}")
    if ends := maybe_number(row, "flanged_ends"):
        yield said("parts.flanged_one") if ends == 1.0 else said("parts.flanged", count=f"{ends:.0f}")


def _of_tee(head: Head, row: Record) -> Iterator[str]:
    yield _sized(head, row, "thickness_mm", "pad", "thickness")


def _of_joint(head: Head, row: Record) -> Iterator[str]:
    series, joint, ends = (text_of(row, key) for key in ("series", "joint", "ends"))
    yield head.texts("parts.series", joint=joint, series=series) if series else head.texts("parts.typed_in")
    if ends:
        yield head.texts(f"parts.ends_{ends}")


def _of_insulation(head: Head, row: Record) -> Iterator[str]:
    yield _sized(head, row, "thickness_mm", "thick", "thickness")
    cladding = text_of(row, "cladding")
    if not cladding:
        yield head.texts("parts.bare")
        return
    yield head.texts("parts.clad", cladding=_word(head, cladding), thickness=_length(head, row, "cladding_mm"))


def _of_hardware(head: Head, row: Record) -> Iterator[str]:
    rod = text_of(row, "what") == "rod"
    yield _sized(head, row, "diameter_mm", "diameter" if rod else "pin", "diameter")
    yield _sized(head, row, "thickness_mm", "thick", "thickness")
    yield _sized(head, row, "length_mm", "between_nuts" if rod else "long", "length")


def _of_hold(head: Head, row: Record) -> Iterator[str]:
    yield spring_words(head, row)
    if states := texts_of(row, "only_in"):
        yield head.texts("parts.temporary", states=", ".join(map(head.texts.said, states)))


_OF_GROUP: Mapping[str, Callable[[Head, Record], Iterator[str]]] = MappingProxyType(
    {
        "pipe": _nothing,
        "bend": _of_bend,
        "item": _nothing,
        "tee": _of_tee,
        "insulation": _of_insulation,
        "take-up": _of_joint,
        "hardware": _of_hardware,
        "hold": _of_hold,
    }
)


def spring_words(head: Head, row: Record) -> str:
    """Return the spring of a spring hanger, "" of any other hold."""
    spring = record_of(row, "spring")
    if not spring:
        return ""
    rate, load = maybe_number(spring, "rate_n_per_mm"), maybe_number(spring, "cold_load_n")
    assert rate is not None, "a spring has a rate"
    assert load is not None, "a spring is set to a load"
    units = head.units
    return head.texts("parts.spring_words", rate=_typed(units.rate, rate), load=_typed(units.weight, load))


def _sized(head: Head, row: Record, key: str, words: str, field: str) -> str:
    """Return a length in words; "" where there is none."""
    length = _length(head, row, key)
    return head.texts(f"parts.{words}", **{field: length}) if length else ""


def _length(head: Head, row: Record, key: str) -> str:
    value = maybe_number(row, key)
    return "" if value is None else _typed(head.units.small, value)


def _weight(head: Head, row: Record) -> str:
    value = maybe_number(row, "weight_n")
    measure = head.units.weight
    return "" if value is None else head.texts("parts.weight", weight=measure.named(as_given(value, measure)))


def _typed(measure: Measure, value: float) -> str:
    return measure.named(measure.typed(value))


def price_words(head: Head, part: Listed) -> str:
    """Return how a part is priced; "" where nothing is."""
    said, price = head.texts, part.price
    by = text_of(price, "by")
    if by == "none":
        known = text_of(part.first, "group") in _TABLED
        return said.said(text_of(price, "because")) if known else said("parts.no_price")
    if by == "with its joint":
        return said("parts.with_joint")
    if by == "force":
        return _by_force(head, part)
    return _by_table(head, price) if price else ""


def _by_table(head: Head, price: Record) -> str:
    said = head.texts
    labour, weld, index, fitting = (_number(head, price, key) for key in ("labour", "weld", "index", "fitting"))
    if index:
        return said("parts.by_index", factor=_number(head, price, "factor"), index=index, fitting=fitting)
    if fitting:
        return said("parts.by_fitted", fitting=fitting)
    if weld:
        return said("parts.by_welds", labour=labour, weld=weld)
    return said("parts.by_erected", labour=labour) if labour else said("parts.by_kind")


def _by_force(head: Head, part: Listed) -> str:
    said, force = head.texts, head.units.force
    load, limit = maybe_number(part.price, "load_n"), maybe_number(part.price, "limit_n")
    assert load is not None, "it is priced by its load"
    if limit is None:
        return said("parts.by_force_past", load=force.text(load, _LOAD))
    if len(part.rows) > 1:
        return said("parts.by_force_each", limit=_typed(force, limit))
    return said("parts.by_force", load=force.text(load, _LOAD), limit=_typed(force, limit))


def _number(head: Head, record: Record, key: str) -> str:
    value = maybe_number(record, key)
    return "" if value is None else head.texts.figures(f"{value:.6g}")


__all__ = ["details", "names_words", "part_words", "price_words", "size_words", "spring_words"]
