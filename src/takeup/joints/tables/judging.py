"""What no row of a table can be.     (joints/tables/judging.py)

Each rule looks at all rows at once and notes those that break it. Movements, lengths, rods and ends are held to what a
line file asks of the same kind of joint.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import numpy as np
from numpy.typing import NDArray

from takeup.joints.data import TakeUpKind
from takeup.joints.kinds import KINDS
from takeup.joints.tables.column import Column
from takeup.joints.tables.columns import BALANCE, BELLOWS, COLUMNS, PINS, WORDS
from takeup.joints.tables.derating import against_rated, derating_of
from takeup.joints.tables.kinds_of_table import (
    BALANCED,
    HOSES,
    LIMITED,
    PINNED,
    REFUSED_KINDS,
    RODDED,
    RODLESS,
    TABLE_KINDS,
    TIED,
    UNIVERSALS,
)
from takeup.joints.tables.measures import SHOWN
from takeup.joints.tables.stated import Stated
from takeup.reading.fields import LONGEST_NAME, LONGEST_TEXT, nearest
from takeup.reading.numbers import outside
from takeup.reading.sheet import quoted
from takeup.reading.yaml_places import unsound

Rows = NDArray[np.bool_]

_ROUNDING = 1.0 + 1e-9  # lengths that are the same to rounding fit
_NEARLY = 2.0  # of the joint's own area: a balance that far off is a slip of the pen (line/reading/check_joint.py)
_SCREWED = ("threaded", "sweat")
_ROD_NEEDS = ("rod_count", "rod_diameter", "rod_circle", "rod_modulus")
_ROD_COLUMNS = (*_ROD_NEEDS, "rod_gap", "rod_can_carry")


def judge(said: Stated) -> None:
    """Note every row that is no joint."""
    for one in COLUMNS:
        _check_limits(said, one)
    _check_names(said)
    _check_words(said)
    _check_kinds(said)
    _check_needed(said)
    _check_movements(said)
    _check_pressures(said)
    _check_lengths(said)
    _check_rods(said)
    _check_pins(said)
    _check_balance(said)
    _check_hoses(said)
    _check_derating(said)


def of_kinds(said: Stated, kinds: tuple[str, ...]) -> Rows:
    """Return which rows are of these kinds, (n,)."""
    return np.array([kind in kinds for kind in said.said("kind")], dtype=bool)


def _note(said: Stated, wrong: Rows, column: str, message: Callable[[int], str]) -> None:
    said.note_rows(np.flatnonzero(wrong), column, message)


def _check_limits(said: Stated, one: Column) -> None:
    values = said.numbers.get(one.name)
    if values is None:
        return
    _note(
        said,
        outside(values, one),
        one.name,
        lambda row: f"{said.typed(row, one.name)}: {one.broken(float(values[row]))}",
    )


def _check_names(said: Stated) -> None:
    """Note names that are too long, cannot be shown, or stand twice."""
    first: dict[str, int] = {}
    for row, name in enumerate(said.said("name")):
        if name and first.setdefault(name, row) != row:
            line = said.line(first[name])
            said.note(row, "name", f"{quoted(name)} is the joint of row {line} already; each name stands once")
        elif len(name) > LONGEST_NAME or not name.isprintable():
            said.note(row, "name", _why_no_text(name, LONGEST_NAME))
    for column in ("provenance", "derating"):
        for row, text in enumerate(said.said(column)):
            if len(text) > LONGEST_TEXT or not text.isprintable():
                said.note(row, column, _why_no_text(text, LONGEST_TEXT))


def _why_no_text(text: str, most: int) -> str:
    if len(text) > most:
        return f"a text of {len(text)} letters is too long; at most {most} are taken"
    return unsound(text) or "it holds a character that cannot be shown"


def _check_words(said: Stated) -> None:
    """Note words of no list; kinds have sentences of their own."""
    for one in WORDS:
        if one.known and one.name != "kind":
            words = said.said(one.name)
            wrong = np.array([bool(word) and word not in one.known for word in words], dtype=bool)
            _note(said, wrong, one.name, partial(_why_no_word, words, one.known))


def _why_no_word(words: tuple[str, ...], known: tuple[str, ...], row: int) -> str:
    return f"found {quoted(words[row])}, expected {' or '.join(known)}{nearest(words[row], known)}"


def _check_kinds(said: Stated) -> None:
    kinds = said.said("kind")
    wrong = np.array([bool(kind) and kind not in TABLE_KINDS for kind in kinds], dtype=bool)
    _note(said, wrong, "kind", lambda row: _why_no_kind(kinds[row]))


def _why_no_kind(kind: str) -> str:
    if kind in REFUSED_KINDS:
        return f"a table cannot hold the kind {quoted(kind)}: {REFUSED_KINDS[kind]}"
    return f"found {quoted(kind)}, expected {' or '.join(TABLE_KINDS)}{nearest(kind, (*TABLE_KINDS, *REFUSED_KINDS))}"


def _check_needed(said: Stated) -> None:
    """Note empty cells that a row of its kind cannot be without; a column missing for all is told once, elsewhere."""
    for word in WORDS:
        silent = said.silent(word.name)
        _check_filled(said, (word.name, word.name, word.meaning), word.needed, silent, there=word.name in said.words)
    for one in COLUMNS:
        if one.name not in _ROD_COLUMNS:
            silent = said.silent(one.name) & ~of_kinds(said, one.spared)
            _check_filled(said, (one.name, one.ours, one.meaning), one.needed, silent, there=one.name in said.numbers)


def _check_filled(
    said: Stated, column: tuple[str, str, str], needed: tuple[TakeUpKind, ...], silent: Rows, *, there: bool
) -> None:
    """Note empty cells of a column, by its name, its name with our unit and its meaning."""
    name, shown, meaning = column
    every = needed == TABLE_KINDS
    if not needed or (every and not there):
        return
    wrong = silent if every else silent & of_kinds(said, needed)
    found = "the cell is empty" if there else f"the column '{shown}' is missing"
    whose = "" if every else f" of the kinds {', '.join(needed)}"
    _note(said, wrong, name, lambda _: f"{found}; it is required{whose}: {meaning}")


def _check_movements(said: Stated) -> None:
    axial = tuple(kind for kind in TABLE_KINDS if "axial" in KINDS[kind].rated)
    none = (said.number("axial_compression") == 0.0) & (said.number("axial_extension") == 0.0)
    _note(
        said,
        none & of_kinds(said, axial),
        "axial_compression",
        lambda _: "the joint is rated for no axial movement at all",
    )


def _check_pressures(said: Stated) -> None:
    rated = said.number("pressure")
    low = said.number("test_pressure") < rated
    _note(
        said,
        low,
        "test_pressure",
        lambda row: f"{said.typed(row, 'test_pressure')} is below the rated pressure, {rated[row]:g} {SHOWN['bar']}",
    )
    high = said.number("minimum_pressure") >= rated
    _note(
        said,
        high,
        "minimum_pressure",
        lambda row: f"{said.typed(row, 'minimum_pressure')} is not below the rated pressure, {rated[row]:g} bar",
    )


def _check_lengths(said: Stated) -> None:
    """Note bellows that do not fit between the ends, or into each other."""
    length, live, centres = (said.number(name) for name in ("length", "live_length", "centres"))
    two, kinds = of_kinds(said, UNIVERSALS), said.said("kind")
    _note(
        said,
        live > length * _ROUNDING,
        "live_length",
        lambda row: f"{said.typed(row, 'live_length')}: {live[row]:g} mm is above the length, {length[row]:g} mm",
    )
    one = ~two & ~np.isnan(centres) & of_kinds(said, TABLE_KINDS)
    _note(
        said,
        one,
        "centres",
        lambda row: (
            f"a joint that is {kinds[row]} has {'no' if kinds[row] in HOSES else 'one'} bellows; leave this empty"
        ),
    )
    over = two & (centres <= live)
    _note(
        said,
        over,
        "centres",
        lambda row: (
            f"{centres[row]:g} mm is not above the live length of each bellows, {live[row]:g} mm: they would overlap"
        ),
    )
    _note(
        said,
        two & ~over & (centres + live > length * _ROUNDING),
        "centres",
        lambda row: (
            f"two bellows of {live[row]:g} mm that stand {centres[row]:g} mm apart reach past the ends of the joint, "
            f"{length[row]:g} mm long"
        ),
    )


def _check_rods(said: Stated) -> None:
    """Note rods where there are none, none where there must be some, and rods that are half said."""
    some = _stated(said, _ROD_COLUMNS)
    kinds = said.said("kind")
    _note(
        said,
        some & of_kinds(said, RODLESS),
        "kind",
        lambda row: f"a joint that is {kinds[row]} has no rods; leave them empty",
    )
    bare = ~some & of_kinds(said, RODDED)
    _note(said, bare, "kind", lambda row: f"a joint that is {kinds[row]} has rods: state {', '.join(_needs())}")
    for name in _ROD_NEEDS:
        lacking = some & said.silent(name)
        _note(said, lacking, name, lambda _: "the cell is empty; other cells of the row state rods")
    gapless = some & ~of_kinds(said, (*TIED, *RODLESS))
    gapless &= said.silent("rod_gap")
    _note(said, gapless, "rod_gap", lambda _: "limit rods have a gap between nut and lug as fitted: state it")
    tied = of_kinds(said, LIMITED) & (said.number("rod_gap") == 0.0)
    _note(said, tied, "rod_gap", lambda _: "limit rods without a gap are tie rods: choose a tied kind, or state a gap")
    ends = said.said("ends")
    screwed = of_kinds(said, RODDED) & np.array([end in _SCREWED for end in ends], dtype=bool)
    _note(said, screwed, "ends", lambda _: "a joint with rods has welded or flanged ends: its lugs are fast to them")


def _stated(said: Stated, columns: tuple[str, ...]) -> Rows:
    """Return which rows say anything in any of some columns, (n,)."""
    some = np.zeros(said.rows, dtype=bool)
    for name in columns:
        if name in said.numbers:
            some |= ~said.silent(name)
    return some


def _check_pins(said: Stated) -> None:
    """Note plates where there are none, a hole that leaves nothing of them, and friction the wrong way round."""
    kinds = said.said("kind")
    none = _stated(said, tuple(one.name for one in PINS)) & of_kinds(said, TABLE_KINDS) & ~of_kinds(said, PINNED)
    _note(said, none, "kind", lambda row: f"a joint that is {kinds[row]} has no pins; leave them empty")
    diameter, width = said.number("pin_diameter"), said.number("plate_width")
    _note(
        said,
        diameter >= width,
        "pin_diameter",
        lambda row: f"the hole of a pin of {diameter[row]:g} mm leaves nothing of a plate {width[row]:g} mm wide",
    )
    low, high = said.number("pin_friction_low"), said.number("pin_friction_high")
    _note(
        said,
        low > high,
        "pin_friction_low",
        lambda row: f"the least coefficient, {low[row]:g}, is above the greatest, {high[row]:g}",
    )
    turns = of_kinds(said, PINNED) & ~(said.number("angular") > 0.0)
    _note(said, turns, "angular", lambda row: f"a joint that is {kinds[row]} needs its rated angle: state it")
    screwed = of_kinds(said, PINNED) & np.array([end in _SCREWED for end in said.said("ends")], dtype=bool)
    _note(said, screwed, "ends", lambda _: "a joint with pins has welded or flanged ends: its plates are fast to them")


def _check_balance(said: Stated) -> None:
    """Note a balancing bellows where there is none, and one whose area is far from that of the joint."""
    kinds = said.said("kind")
    none = _stated(said, tuple(one.name for one in BALANCE)) & of_kinds(said, TABLE_KINDS) & ~of_kinds(said, BALANCED)
    _note(said, none, "kind", lambda row: f"a joint that is {kinds[row]} has no balancing bellows; leave it empty")
    area, own = said.number("balance_effective_area"), said.number("effective_area")
    off = np.maximum(area / own, own / area) > _NEARLY
    _note(
        said,
        off,
        "balance_effective_area",
        lambda row: f"{area[row]:g} mm² does not balance the {own[row]:g} mm² of the joint, not even by half",
    )


def _check_hoses(said: Stated) -> None:
    """Note of a hose what a bellows has, or what its maker must say since nothing is computed; and what only it has."""
    hose, kinds = of_kinds(said, HOSES), said.said("kind")
    for one in BELLOWS:
        if one.name in said.numbers:
            computed = hose & ~said.silent(one.name)
            _note(said, computed, one.name, lambda _: "nothing of a hose is computed from a geometry; leave this empty")
    area = hose & ~said.silent("effective_area")
    _note(said, area, "effective_area", lambda _: "a hose loop carries its thrust in its braid; leave this empty")
    annealed = hose & np.array([bool(word) for word in said.said("annealed")], dtype=bool)
    _note(said, annealed, "annealed", lambda _: "nothing of a hose is computed from its metal; leave this empty")
    unmeasured = hose & said.silent("lateral_rate") & said.silent("angular_rate")
    message = "nothing of a hose is computed: state lateral_rate_n_per_mm or angular_rate_nm_per_deg, as measured"
    _note(said, unmeasured, "lateral_rate", lambda _: message)
    stiff = hose & (said.number("lateral") == 0.0)
    _note(said, stiff, "lateral", lambda _: "a hose loop is rated for lateral movement; 0 is none")
    hangs = of_kinds(said, TABLE_KINDS) & ~hose & ~said.silent("drop")
    _note(said, hangs, "drop", lambda row: f"a joint that is {kinds[row]} does not hang; leave this empty")


def _needs() -> tuple[str, ...]:
    return tuple(one.ours for one in COLUMNS if one.name in _ROD_NEEDS)


def _check_derating(said: Stated) -> None:
    rated = said.number("temperature")
    for row, text in enumerate(said.said("derating")):
        found = derating_of(text, said.derating_in)
        wrong = found if isinstance(found, str) else against_rated(found, float(rated[row]))
        if wrong:
            said.note(row, "derating", wrong)


__all__ = ["Rows", "judge", "of_kinds"]
