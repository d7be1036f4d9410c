"""A price file: text with units, every price in one unit of the user's own.     (choose/arrange/price_file.py)

Tables are mappings: sizes of pipe to prices, loads to prices of anchors. `FORM` is what a file may say; its reference
page is made from it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from importlib.resources import files
from itertools import pairwise
from pathlib import Path
from typing import Final, get_args

from takeup.choose.arrange.price_tables import Brackets, SizeTable
from takeup.choose.arrange.prices import Pipework, Prices
from takeup.joints import TakeUpKind
from takeup.library import UnknownName, pipe_size, size_number
from takeup.reading.keyed import Entry, Key, KeyedForm, Said, read_keyed
from takeup.reading.sheet import read_bytes

DEMONSTRATION: Final = "demonstration-prices.yaml"
GUIDES: Final = ("spider guide", "slide guide", "planar guide")
SUPPORTS: Final = ("rest", "hanger", "spring hanger")
_SIZES: Final = "{ DN 50: 4, DN 200: 9.5 }"
_DEAREST: Final = 1e12


def _word(name: str, meaning: str, example: str) -> Key:
    return Key(path=(name,), meaning=meaning, example=example, word=True, required=True)


def _factor(*path: str, meaning: str, example: str) -> Key:
    return Key(path=path, meaning=meaning, example=example, above=0.0, most=1e6, required=True)


def _table(*path: str, meaning: str, required: bool = True) -> Key:
    return Key(
        path=path, meaning=meaning, example=_SIZES, table=True, least=0.0, most=_DEAREST, required=required,
        too_great="it is too great for a price",
    )  # fmt: skip


KEYS: Final = (
    _word("name", "of the prices, on every list of parts", "Fenwick works 2026"),
    _word("source", "whose prices they are, and of when", "own offers of May 2026"),
    _word("unit", "of every price: a currency, or `index`", "EUR"),
    _factor("joints", "series_factor", meaning="what one of the price index of a series of joints is in this unit",
            example="1.15"),
    _table("joints", "fitting", meaning="price of fitting a joint into the line: labour, welds or flanges, by size"),
    *(_table("joints", kind, meaning="price of one whose series has no price index, by size", required=False)
      for kind in get_args(TakeUpKind)),
    Key(path=("anchors",), meaning="price of one by the greatest force on it, up to that force; stops and "
        "directional anchors too. Past the last, in proportion to the force", example="{ 20 kN: 45, 100 kN: 160 }",
        table=True, by="force", above=0.0, most=_DEAREST, required=True, too_great="it is too great for a price"),
    *(_table("guides", kind, meaning="price of one, by size of the pipe") for kind in GUIDES),
    *(_table("supports", kind, meaning="price of one, by size of the pipe") for kind in SUPPORTS),
    _table("pipework", "pipe", meaning="price of a metre, by size"),
    _table("pipework", "insulation", meaning="price of a metre, by size of the pipe"),
    _table("pipework", "bend", meaning="price of one, of any angle, by size"),
    _table("pipework", "weld", meaning="price of one with its labour, by size; a bend has two"),
    _factor("pipework", "labour", meaning="how many times their price pipe, insulation and bends cost once erected",
            example="1.6"),
)  # fmt: skip
"""Every key, in the order of the reference page."""

FORM: Final = KeyedForm(
    what="price file",
    version_key="takeup_prices",
    version="1",
    keys=KEYS,
    others={
        "takeup": "a line file names its price file under the key `prices`",
        "takeup_joint_duty": "this is a joint's duty",
        "takeup_duty": "this is a bellows' duty",
    },
)


def read_prices(path: Path) -> Prices:
    """Read a price file.

    Raises:
        InputError: The file cannot be read, is no price file, or has faults.
    """
    return prices_from_bytes(read_bytes(path), str(path))


@cache
def demonstration_prices() -> Prices:
    """Return the prices that come with the tool: invented, an index without currency, not anybody's."""
    content = files("takeup.choose.arrange").joinpath("data", DEMONSTRATION).read_bytes()
    return prices_from_bytes(content, DEMONSTRATION)


def prices_from_bytes(content: bytes, file: str) -> Prices:
    """Return the prices of a text.

    Args:
        content: of the file.
        file: the name that faults begin with.

    Raises:
        InputError: It is no price file, or has faults.
    """
    said, faults = read_keyed(FORM, content, file)
    by_size = {path: _by_size(said, path, entries) for path, entries in said.tables.items() if path != ("anchors",)}
    brackets = _brackets(said)
    faults.raise_faults()
    name = Path(file).name
    tables = {path: _made(str(path[-1]), prices, _place(said, path, name)) for path, prices in by_size.items()}
    return Prices(
        name=said.word("name"),
        source=said.word("source"),
        unit=said.word("unit"),
        file=name,
        sha256=hashlib.sha256(content).hexdigest(),
        series_factor=said.number("joints", "series_factor"),
        fitting=replace(tables["joints", "fitting"], what="fitting of a joint"),
        joints={kind: tables["joints", kind] for kind in get_args(TakeUpKind) if ("joints", kind) in tables},
        anchors=Brackets(limits=tuple(one.at for one in brackets), prices=tuple(one.number for one in brackets)),
        guides={kind: tables["guides", kind] for kind in GUIDES},
        supports={kind: tables["supports", kind] for kind in SUPPORTS},
        pipework=Pipework(
            pipe=tables["pipework", "pipe"],
            insulation=tables["pipework", "insulation"],
            bend=tables["pipework", "bend"],
            weld=tables["pipework", "weld"],
            labour=said.number("pipework", "labour"),
        ),
    )


def _made(what: str, prices: dict[float, float], place: str) -> SizeTable:
    """Return a table of prices by size, the smallest first."""
    sizes = sorted(prices)
    return SizeTable(what=what, sizes=tuple(sizes), prices=tuple(prices[size] for size in sizes), place=place)


def _place(said: Said, path: tuple[str | int, ...], file: str) -> str:
    """Return where a table stands, as what is said of it later begins."""
    line, column = said.placed.place(path)
    return f"{file}:{line}:{column}: "


def _by_size(said: Said, path: tuple[str | int, ...], entries: Iterable[Entry]) -> dict[float, float]:
    """Return prices by size; sizes that there are not, and sizes said twice, are noted."""
    found: dict[float, float] = {}
    for entry in entries:
        place = said.placed.place(entry.path)
        words = ", ".join(map(str, path))
        try:
            size = size_number(pipe_size(entry.word))
        except UnknownName as error:
            said.faults.add(*place, f"{words}: {error}")
            continue
        if size in found:
            said.faults.add(*place, f"{words}: the size '{entry.word}' stands here a second time. Keep one")
        found[size] = entry.number
    return found


def _brackets(said: Said) -> list[Entry]:
    """Return the brackets of anchors by rising force; what cannot be is noted."""
    entries = said.tables.get(("anchors",), ())
    for entry in entries:
        if entry.at <= 0.0:
            said.faults.add(*said.placed.place(entry.path), "anchors: a force must be above zero")
    rising = sorted((entry for entry in entries if entry.at > 0.0), key=lambda entry: entry.at)
    for less, more in pairwise(rising):
        if less.at == more.at:
            later = max(less, more, key=lambda entry: said.placed.place(entry.path))
            said.faults.add(
                *said.placed.place(later.path), f"anchors: the force '{later.word}' stands here a second time. Keep one"
            )
        elif more.number < less.number:
            why = f"the price {more.number:g} is below {less.number:g}, that of {less.word}"
            said.fault(more.path, f"{why}; no stronger anchor is cheaper")
    return rising


__all__ = ["FORM", "KEYS", "demonstration_prices", "prices_from_bytes", "read_prices"]
