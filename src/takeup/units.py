"""Text with a unit <-> SI floats: the only conversions in the program.     (units.py)

A closed grammar: one number, one unit from the table of the field's declared kind (a length may also be feet and
inches). What is not in the table is refused with the right spelling; nothing is guessed. SI number = (number - zero)
* factor, `zero` being non-zero only for degF and absolute pressures.
Sign: a gauge pressure may be below zero, a temperature below freezing; neither below what physics allows.
"""

from __future__ import annotations

import difflib
import math
import re
from dataclasses import dataclass
from typing import Literal, get_args

from takeup.errors import TakeupError

Kind = Literal[
    "length",
    "area",
    "force",
    "force per length",
    "moment",
    "moment per angle",
    "pressure",
    "stress",
    "temperature",
    "temperature difference",
    "angle",
    "density",
    "mass",
    "weight",
    "strain",
    "expansion coefficient",
    "velocity",
    "content",
]
KINDS: tuple[Kind, ...] = get_args(Kind)

# Exact by definition: the international inch and pound, standard gravity, standard atmosphere.
METRES_PER_INCH = 0.0254
METRES_PER_FOOT = 0.3048
INCHES_PER_FOOT = 12
NEWTONS_PER_LBF = 4.4482216152605
KILOGRAMS_PER_POUND = 0.45359237
STANDARD_GRAVITY = 9.80665
STANDARD_ATMOSPHERE = 101_325.0
PA_PER_BAR = 1e5
PA_PER_PSI = NEWTONS_PER_LBF / METRES_PER_INCH**2
ABSOLUTE_ZERO = -273.15
FREEZING_DEGF = 32.0
KELVIN_PER_DEGF = 5 / 9


class UnitError(TakeupError, ValueError):
    """A text that is not a quantity of the declared kind; the message holds the right spelling."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Unit:
    """One spelling of a unit: SI value = (number - `zero`) * `factor`."""

    factor: float
    zero: float = 0.0


def _plain(factors: dict[str, float]) -> dict[str, Unit]:
    return {spelling: Unit(factor=factor) for spelling, factor in factors.items()}


_FORCE = {"N": 1.0, "kN": 1e3, "MN": 1e6, "lbf": NEWTONS_PER_LBF, "kip": 1e3 * NEWTONS_PER_LBF, "kgf": STANDARD_GRAVITY}
_MASS = {"kg": 1.0, "t": 1e3, "lb": KILOGRAMS_PER_POUND}
_LENGTH = {"m": 1.0, "mm": 1e-3, "cm": 1e-2, "km": 1e3, "in": METRES_PER_INCH, "ft": METRES_PER_FOOT}
_ANGLE = {"deg": math.pi / 180, "°": math.pi / 180, "rad": 1.0, "mrad": 1e-3}
_METRIC_MOMENT = {"N·m": 1.0, "Nm": 1.0, "kN·m": 1e3, "kNm": 1e3, "N·mm": 1e-3, "Nmm": 1e-3}
_INCH_MOMENT = dict.fromkeys(("lbf·in", "in·lbf"), NEWTONS_PER_LBF * METRES_PER_INCH)
_FOOT_MOMENT = dict.fromkeys(("lbf·ft", "ft·lbf"), NEWTONS_PER_LBF * METRES_PER_FOOT)
_KIP_MOMENT = dict.fromkeys(("kip·in", "in·kip"), 1e3 * NEWTONS_PER_LBF * METRES_PER_INCH) | dict.fromkeys(
    ("kip·ft", "ft·kip"), 1e3 * NEWTONS_PER_LBF * METRES_PER_FOOT
)
_MOMENT = _METRIC_MOMENT | _INCH_MOMENT | _FOOT_MOMENT | _KIP_MOMENT
_VACUUM_FIGURES = 6
_PRESSURE = {"bar": PA_PER_BAR, "mbar": 1e2, "Pa": 1.0, "kPa": 1e3, "MPa": 1e6, "psi": PA_PER_PSI}


def _pressures() -> dict[str, Unit]:
    """Return `bar(g)`, `barg`, `bar(a)`, `bara` and so on; absolute ones have their zero one atmosphere lower."""
    gauge = {f"{name}{mark}": Unit(factor=factor) for name, factor in _PRESSURE.items() for mark in ("(g)", "g")}
    absolute = {
        f"{name}{mark}": Unit(factor=factor, zero=STANDARD_ATMOSPHERE / factor)
        for name, factor in _PRESSURE.items()
        for mark in ("(a)", "a")
    }
    return gauge | absolute


# The first spelling of each kind is the one `format_si` writes and the hints show.
UNITS: dict[Kind, dict[str, Unit]] = {
    "length": _plain(_LENGTH),
    "area": _plain({"mm2": 1e-6, "cm2": 1e-4, "m2": 1.0, "in2": METRES_PER_INCH**2, "ft2": METRES_PER_FOOT**2}),
    "force": _plain(_FORCE),
    "force per length": _plain(
        {
            "N/mm": 1e3,
            "N/m": 1.0,
            "kN/m": 1e3,
            "kN/mm": 1e6,
            "lbf/in": NEWTONS_PER_LBF / METRES_PER_INCH,
            "lbf/ft": NEWTONS_PER_LBF / METRES_PER_FOOT,
            "kip/in": 1e3 * NEWTONS_PER_LBF / METRES_PER_INCH,
            "kip/ft": 1e3 * NEWTONS_PER_LBF / METRES_PER_FOOT,
        }
    ),
    "moment": _plain(_MOMENT),
    "moment per angle": _plain({f"{m}/{a}": _MOMENT[m] / _ANGLE[a] for m in _MOMENT for a in _ANGLE if a != "mrad"}),
    "pressure": _pressures(),
    "stress": _plain(
        {"MPa": 1e6, "Pa": 1.0, "kPa": 1e3, "GPa": 1e9, "N/mm2": 1e6, "psi": PA_PER_PSI, "ksi": 1e3 * PA_PER_PSI}
    ),
    "temperature": _plain(dict.fromkeys(("degC", "°C", "C"), 1.0))
    | dict.fromkeys(("degF", "°F", "F"), Unit(factor=KELVIN_PER_DEGF, zero=FREEZING_DEGF)),
    "temperature difference": _plain(
        dict.fromkeys(("K", "degC", "°C", "C"), 1.0) | dict.fromkeys(("degF", "°F", "F"), KELVIN_PER_DEGF)
    ),
    "angle": _plain(_ANGLE),
    "density": _plain({"kg/m3": 1.0, "lb/ft3": KILOGRAMS_PER_POUND / METRES_PER_FOOT**3}),
    "mass": _plain(_MASS),
    "weight": _plain(_FORCE | {unit: mass * STANDARD_GRAVITY for unit, mass in _MASS.items()}),
    "strain": _plain({"mm/m": 1e-3, "m/m": 1.0, "in/100 ft": METRES_PER_INCH / (100 * METRES_PER_FOOT)}),
    "expansion coefficient": _plain(
        dict.fromkeys(("1/K", "1/°C", "1/degC"), 1.0) | dict.fromkeys(("1/°F", "1/degF"), 1.0 / KELVIN_PER_DEGF)
    ),
    "velocity": _plain({"m/s": 1.0, "ft/s": METRES_PER_FOOT}),
    "content": _plain({"ppm": 1.0, "mg/kg": 1.0}),  # by weight; a litre of hot or salty water is no kilogram
}

MOST_CHOICES = 8
COMMON: dict[Kind, tuple[str, ...]] = {
    "moment": ("N·m", "kN·m", "N·mm", "lbf·ft", "lbf·in", "kip·ft", "kip·in"),
    "moment per angle": (
        *("N·m/deg", "kN·m/deg", "N·m/rad", "kN·m/rad"),
        *("lbf·ft/deg", "lbf·in/deg", "lbf·ft/rad", "lbf·in/rad"),
    ),
    "pressure": ("bar(g)", "bar(a)", "MPa(g)", "MPa(a)", "kPa(g)", "kPa(a)", "psi(g)", "psi(a)"),
    "weight": ("kg", "t", "kN", "N", "lb", "lbf", "kip", "kgf"),
}
"""What a hint lists, the commonest first, of a kind that has more than `MOST_CHOICES` spellings."""

_NUMBER = re.compile(r"[+-]?[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?")
_WHOLE_AND_FRACTION = r"(?:(?P<whole>[0-9]+) )?(?P<top>[0-9]+)/(?P<bottom>[0-9]+)"
_FEET_INCHES = re.compile(
    rf"(?P<sign>[+-]?)(?:(?P<feet>[0-9]+) ?ft )?(?:{_WHOLE_AND_FRACTION}|(?P<inches>[0-9]+(?:\.[0-9]+)?)) ?in"
)
_THOUSANDS_SPACE = re.compile(r"(?<![0-9.])[+-]?[0-9]{1,3}(?: [0-9]{3})+(?![0-9/])")


def parse(text: str, kind: Kind) -> float:
    """Return the SI value of a text such as `12 bar(g)`, `-8 °C`, `16 ft 6 1/2 in`.

    Args:
        text: One number and one unit of the kind, or feet and inches for a length.
        kind: The declared kind of the field, which decides the units that are accepted.

    Returns:
        m, m2, N, N/m, N m, N m/rad, Pa (gauge for a pressure), degC, K, rad, kg/m3, kg, N for a weight, 1, 1/K, m/s or,
        of a content, mg/kg.

    Raises:
        UnitError: The text is not a quantity of the kind; the message says what was found and the right spelling.
    """
    clean = " ".join(text.replace("\N{MINUS SIGN}", "-").split())
    _refuse_spelling(text, clean, kind)
    if kind == "length":
        compound = _feet_and_inches(text, clean)
        if compound is not None:
            return compound
    number, spelling = _split(text, clean, kind)
    unit = UNITS[kind].get(_spell(spelling))
    if unit is None:
        raise _refusal(text, kind, _unit_hint(number, spelling, kind))
    value = (float(number) - unit.zero) * unit.factor
    _refuse_impossible(text, value, kind, _spell(spelling))
    return value


def parse_number(text: str) -> float:
    """Return a plain number that has no unit, such as `0.3` or `1000`; raise UnitError otherwise."""
    clean = text.strip().replace("\N{MINUS SIGN}", "-")
    if not _NUMBER.fullmatch(clean) or not math.isfinite(float(clean)):
        hint = f"write {clean.replace(',', '.')}" if "," in clean else "write it as 12, 12.5, -8 or 1.2e3"
        message = f"{text!r} is not a plain number: {hint}"
        raise UnitError(message)
    return float(clean)


def express(value: float, kind: Kind, unit: str) -> float:
    """Return the number that stands before `unit` when the SI `value` is written in it: the inverse of `parse`."""
    chosen = UNITS[kind].get(_spell(unit))
    if chosen is None:
        raise _refusal(unit, kind, _unit_hint("12", unit, kind))
    return value / chosen.factor + chosen.zero


def format_si(value: float, kind: Kind, *, unit: str | None = None, digits: int = 6) -> str:
    """Return the SI `value` as text that `parse` reads back, in `unit` or in the first unit of the kind."""
    chosen = next(iter(UNITS[kind])) if unit is None else unit
    return f"{express(value, kind, chosen):.{digits}g} {chosen}"


def mm(number: float) -> float:
    """Return millimetres as metres."""
    return number * 1e-3


def bar(number: float) -> float:
    """Return bar as Pa; gauge stays gauge, absolute stays absolute."""
    return number * PA_PER_BAR


def kn(number: float) -> float:
    """Return kN as N."""
    return number * 1e3


def from_degf(temperature: float) -> float:
    """Return degF as degC."""
    return (temperature - FREEZING_DEGF) * KELVIN_PER_DEGF


def to_mm(metres: float) -> float:
    """Return metres as millimetres."""
    return metres * 1e3


def to_mm2(square_metres: float) -> float:
    """Return m2 as mm2."""
    return square_metres * 1e6


def to_bar(pascals: float) -> float:
    """Return Pa as bar; gauge stays gauge, absolute stays absolute."""
    return pascals / PA_PER_BAR


def to_mpa(pascals: float) -> float:
    """Return Pa as MPa."""
    return pascals * 1e-6


def to_kn(newtons: float) -> float:
    """Return N as kN."""
    return newtons * 1e-3


def to_n_per_mm(rate: float) -> float:
    """Return N/m as N/mm."""
    return rate * 1e-3


def to_deg(radians: float) -> float:
    """Return radians as degrees."""
    return math.degrees(radians)


def to_nm_per_deg(rate: float) -> float:
    """Return N m/rad as N m/deg."""
    return math.radians(rate)


def to_degf(temperature: float) -> float:
    """Return degC as degF."""
    return temperature / KELVIN_PER_DEGF + FREEZING_DEGF


def to_absolute(gauge: float) -> float:
    """Return a gauge pressure as an absolute one [Pa], above the standard atmosphere."""
    return gauge + STANDARD_ATMOSPHERE


def _refusal(text: str, kind: Kind, why: str) -> UnitError:
    article = "an" if kind[0] in "aeiou" else "a"
    return UnitError(f"{text!r} is not {article} {kind}: {why}")


def _spell(unit: str) -> str:
    """Return the table's spelling: one dot for every sign of a product, digits for powers, no space before (g)."""
    plain = unit.replace("²", "2").replace("³", "3").replace("^", "").replace(" (", "(")
    plain = re.sub(r" ?/ ?", "/", plain)
    return re.sub(r" ?[·⋅*.] ?|(?<=[A-Za-z]) (?=[A-Za-z])", "·", plain)


def _split(text: str, clean: str, kind: Kind) -> tuple[str, str]:
    """Return the number and the unit as written."""
    found = _NUMBER.match(clean)
    if found is None:
        raise _refusal(text, kind, f"it does not begin with a number; write for example {_example('12', kind)}")
    number, unit = found[0], clean[found.end() :].strip()
    if not math.isfinite(float(number)):
        raise _refusal(text, kind, "the number is too large")
    if not unit:
        raise _refusal(text, kind, f"it has no unit; write {_examples(number, kind)}")
    return number, unit


def _example(number: str, kind: Kind) -> str:
    """Return the number with a unit of the kind; never with one that would decide gauge or absolute for the writer."""
    return f"{number} bar(g) or {number} bar(a)" if kind == "pressure" else f"{number} {next(iter(UNITS[kind]))}"


def _examples(number: str, kind: Kind) -> str:
    """Return the number with each unit that the writer of a bare one may have had in mind."""
    meant = {"length": ("m", "mm", "ft"), "temperature": ("degC", "degF")}.get(kind)
    return _example(number, kind) if meant is None else _listed([f"{number} {unit}" for unit in meant])


def _unit_hint(number: str, unit: str, kind: Kind) -> str:
    """Return why `unit` is refused and what to write."""
    spelling = _spell(unit)
    if kind == "pressure" and spelling in _PRESSURE:
        return f"{unit} does not say gauge or absolute; write {number} {spelling}(g) or {number} {spelling}(a)"
    if kind == "temperature" and spelling == "K":
        return "kelvin is taken for temperature differences only; write degC or degF"
    if kind == "stress" and spelling in UNITS["pressure"]:
        return f"a stress is neither gauge nor absolute; write {number} MPa or {number} psi"
    others = [other for other in KINDS if spelling in UNITS[other]]
    near = None if others else _nearest(spelling, kind)
    if near:
        return f"unknown unit {unit!r}; write {number} {near}"
    found = f"{unit} is a unit of {others[0]}" if others else f"unknown unit {unit!r}"
    return f"{found}; write one of {_choices(kind)}"


def _choices(kind: Kind) -> str:
    return _listed(list(COMMON.get(kind, UNITS[kind])))


def _listed(words: list[str]) -> str:
    return " or ".join((", ".join(words[:-1]), words[-1]))


def _nearest(spelling: str, kind: Kind) -> str | None:
    """Return the closest spelling of the kind: the same letters in another case first."""
    alike = [known for known in UNITS[kind] if known.casefold() == spelling.casefold()]
    near = alike or difflib.get_close_matches(spelling, UNITS[kind], n=1, cutoff=0.6)
    return near[0] if near else None


def _refuse_spelling(text: str, clean: str, kind: Kind) -> None:
    """Refuse the spellings that other programs misread: commas, quote marks, thousands spaces, a bare point."""
    if "," in clean:
        if re.search(r"[0-9],[0-9]{3}(?![0-9])", clean):
            either = f"{clean.replace(',', '')} or {clean.replace(',', '.')}"
            raise _refusal(text, kind, f"a comma can mean two things; write {either}")
        raise _refusal(text, kind, f"the decimal mark is a point; write {clean.replace(',', '.')}")
    if re.search(r"[0-9] ?['\"′″’”]", clean):
        words = re.sub(r" ?[\"″”]", " in ", re.sub(r" ?['′’]", " ft ", clean.replace("-", " ")))
        raise _refusal(text, kind, f"quote marks are not read; write {' '.join(words.split())}")
    spaced = _THOUSANDS_SPACE.match(clean)
    if spaced:
        raise _refusal(text, kind, f"no space inside a number; write {clean.replace(' ', '', spaced[0].count(' '))}")
    if re.match(r"[+-]?\.[0-9]", clean):
        raise _refusal(text, kind, f"a number begins with a digit; write {clean.replace('.', '0.', 1)}")


def _feet_and_inches(text: str, clean: str) -> float | None:
    """Return metres for `16 ft 6 in`, `6 1/2 in`, `1/2 in`; None when it is a plain number and unit."""
    found = _FEET_INCHES.fullmatch(clean)
    if found is None:
        if re.search(r"ft[ -].*in", clean) or re.search(r"[0-9]/[0-9]", clean):
            raise _refusal(text, "length", "feet and inches are written 16 ft 6 in or 16 ft 6 1/2 in")
        return None
    if found["top"] is None:
        inches = float(found["inches"])
    else:
        top, bottom = int(found["top"]), int(found["bottom"])
        if top >= bottom:
            raise _refusal(text, "length", "the fraction of an inch is below one; write for example 6 1/2 in")
        inches = int(found["whole"] or 0) + top / bottom
    if found["feet"] and inches >= INCHES_PER_FOOT:
        raise _refusal(text, "length", "inches after feet are below 12; write for example 16 ft 6 in")
    length = int(found["feet"] or 0) * METRES_PER_FOOT + inches * METRES_PER_INCH
    return -length if found["sign"] == "-" else length


def _refuse_impossible(text: str, value: float, kind: Kind, spelling: str) -> None:
    if kind == "temperature" and value < ABSOLUTE_ZERO:
        raise _refusal(text, kind, "it is below absolute zero, -273.15 degC")
    if kind == "pressure" and value < -STANDARD_ATMOSPHERE:
        raise _refusal(text, kind, f"it is below a perfect vacuum, {_vacuum(spelling)}")


def _vacuum(spelling: str) -> str:
    """Return a perfect vacuum as it can be written, in bar and in the writer's own unit, never a digit below it."""
    number = -STANDARD_ATMOSPHERE / UNITS["pressure"][spelling].factor
    figures = 10.0 ** (_VACUUM_FIGURES - math.ceil(math.log10(-number)))
    own = f"{math.ceil(number * figures - 1e-9) / figures:.{_VACUUM_FIGURES}g}"
    unit = next(unit for unit in sorted(_PRESSURE, key=len, reverse=True) if spelling.startswith(unit))
    in_own = "" if unit == "bar" else f"; in {unit} write {own} {unit}(g) or 0 {unit}(a)"
    return f"-1.01325 bar(g) or 0 bar(a){in_own}"
