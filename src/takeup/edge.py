"""The numbers of results.json as text with a unit, for people: in SI or in US customary units.     (edge.py)

`units.py` reads what a person writes and holds every factor; this file goes the other way and needs only those
factors, so it stands beside it, above `units` and below the papers and drawings. results.json itself stays SI.
Numbers come in the units that end the names there (bar, degC, mm, m, N, N m): printed = number / `size` + `zero`.
US thousands, and feet from inches, are parted by a no-break space, so that no number is broken at a line's end.
Limits: an SI sentence inside results.json is not converted; `NOT_CONVERTED` says so, once on each paper.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Literal

from takeup.units import INCHES_PER_FOOT, KELVIN_PER_DEGF, METRES_PER_FOOT, METRES_PER_INCH, UNITS, Kind

System = Literal["si", "us"]
Mark = Literal[".", ","]
TIE = "\N{NO-BREAK SPACE}"
NOT_CONVERTED = (
    "Numbers are in US customary units. Hand calculations are shown in SI, as computed; so are reasons, assumptions "
    "and names that hold a number. The use of a temperature is the quotient of its degrees Celsius."
)
_SIXTEENTHS = 16
_INCH_DECIMALS = 3


@dataclass(frozen=True, kw_only=True, slots=True)
class Measure:
    """How one quantity is written: number / `size` + `zero`, in `unit`; `unit` is "" where the number bears its own.

    `shift` is how many decimals more than in SI are printed; `feet` writes metres as feet and inches; `grouped` parts
    thousands; `rounded` limits the decimals of a number that is otherwise written as it stands; `mark` is the decimal
    mark of the language.
    """

    unit: str
    size: float = 1.0
    zero: float = 0.0
    shift: int = 0
    feet: bool = False
    grouped: bool = False
    rounded: int | None = None
    mark: Mark = "."

    def marked(self, mark: Mark) -> Measure:
        """Return this measure with another decimal mark."""
        return replace(self, mark=mark)

    def number(self, value: float) -> float:
        """Return the number that stands before the unit; decimal feet where feet and inches are written."""
        return value / self.size + self.zero

    def decimals(self, in_si: int) -> int:
        """Return the decimals that show as much as so many do in SI."""
        return max(0, in_si + self.shift)

    def figures(self, value: float, decimals: int) -> str:
        """Return a value with so many decimals and without its unit, no minus before nought.

        Feet and inches are written to the nearest 1/16 in, whatever the decimals.
        """
        if self.feet:
            return feet_and_inches(value)
        words = f"{self.number(value):.{decimals}f}"
        return self.parted(words.removeprefix("-") if float(words) == 0.0 else words)

    def typed(self, value: float) -> str:
        """Return a value without its unit and with no more figures than it has, six at most."""
        return feet_and_inches(value) if self.feet else self.parted(f"{self.given(value):g}")

    def given(self, value: float) -> float:
        """Return the number that stands for one that a person gave, without the decimals that converting added."""
        number = self.number(value)
        return number if self.rounded is None else round(number, self.rounded)

    def text(self, value: float, in_si: int) -> str:
        """Return a value with its unit, with as many decimals as show what so many do in SI."""
        return self.named(self.figures(value, self.decimals(in_si)))

    def named(self, figures: str) -> str:
        """Return figures with their unit behind."""
        return f"{figures} {self.unit}" if self.unit else figures

    def parted(self, figures: str) -> str:
        """Return figures with this measure's decimal mark, and with their thousands apart where it parts them."""
        whole, point, rest = figures.partition(".")
        digits = whole.lstrip("+-\N{MINUS SIGN}")
        mark = point and self.mark
        if not self.grouped or not digits.isdecimal():
            return whole + mark + rest
        return whole[: len(whole) - len(digits)] + f"{int(digits):,}".replace(",", TIE) + mark + rest


def feet_and_inches(metres: float) -> str:
    """Return a length as `16 ft 6 1/2 in`, to the nearest 1/16 in; a half of that is rounded away from nought.

    Args:
        metres: The length; below zero it is written with a minus before it.

    Returns:
        Feet are left out below one foot, the fraction where it is none; nought is `0 ft`. `units.parse` reads it back.
    """
    sixteenths = math.floor(abs(metres) / METRES_PER_INCH * _SIXTEENTHS + 0.5)
    feet, rest = divmod(sixteenths, INCHES_PER_FOOT * _SIXTEENTHS)
    inches, part = divmod(rest, _SIXTEENTHS)
    if not sixteenths:
        return f"0{TIE}ft"
    words = [f"{feet} ft"] if feet else []
    if inches or feet:
        words.append(str(inches))
    if part:
        common = math.gcd(part, _SIXTEENTHS)
        words.append(f"{part // common}/{_SIXTEENTHS // common}")
    sign = "-" if metres < 0.0 else ""
    return sign + " ".join([*words, "in"]).replace(" ", TIE)


def _as_it_is(words: str) -> str:
    return words


@dataclass(frozen=True, kw_only=True, slots=True)
class Units:
    """One system of units for people: a measure for each sort of number that results.json holds.

    `checked` is the closed table of the units that a check or a hand calculation may bear, by their words there;
    `said` is what a paper must state once about what is not converted, "" where all is; `nominal` is the key of the
    pipe's nominal size; `tell` puts the English words beside the numbers into the language they are written for.
    """

    system: System
    said: str
    nominal: Literal["size", "nps"]
    pressure: Measure  # from bar, gauge
    temperature: Measure  # from degC
    temperature_difference: Measure  # from K
    length: Measure  # from m: stations and legs
    span: Measure  # from m, as one decimal number: where two are compared, and the bar of a scale
    small: Measure  # from mm: movements, and the sizes of pipe and joints
    growth: Measure  # from m, written as a movement is
    force: Measure  # from N
    weight: Measure  # from N: of one thing, not a load on the structure
    moment: Measure  # from N m
    rate: Measure  # from N/mm
    line_load: Measure  # from N/m: a load along a stretch
    angular_rate: Measure  # from N m/deg
    area: Measure  # from mm2
    stress: Measure  # from MPa
    density: Measure  # from kg/m3
    expansion: Measure  # from 1/K: of rods
    checked: Mapping[str, Measure]
    tell: Callable[[str], str] = field(default=_as_it_is, compare=False)

    def __repr__(self) -> str:
        """Return its name: a whole record as a default would drown the signature that it stands in."""
        return self.system.upper()

    def told(self, tell: Callable[[str], str]) -> Units:
        """Return this system with words of ours in another language: drawings and charts ask it for theirs."""
        return replace(self, tell=tell)

    def marked(self, mark: Mark) -> Units:
        """Return this system with the decimal mark of a language."""
        if mark == self.force.mark:
            return self
        return replace(
            self,
            pressure=self.pressure.marked(mark),
            temperature=self.temperature.marked(mark),
            temperature_difference=self.temperature_difference.marked(mark),
            length=self.length.marked(mark),
            span=self.span.marked(mark),
            small=self.small.marked(mark),
            growth=self.growth.marked(mark),
            force=self.force.marked(mark),
            weight=self.weight.marked(mark),
            moment=self.moment.marked(mark),
            rate=self.rate.marked(mark),
            line_load=self.line_load.marked(mark),
            angular_rate=self.angular_rate.marked(mark),
            area=self.area.marked(mark),
            stress=self.stress.marked(mark),
            density=self.density.marked(mark),
            expansion=self.expansion.marked(mark),
            checked=MappingProxyType({unit: one.marked(mark) for unit, one in self.checked.items()}),
        )

    def of_check(self, unit: str) -> Measure:
        """Return how a check's number of this unit is written; one of an unknown unit stays as it is, and says so."""
        return self.checked.get(unit, Measure(unit=unit, mark=self.force.mark))

    def of_hand(self, unit: str) -> Measure:
        """Return how a hand calculation's number of this unit is written: its lengths are growths."""
        return self.growth if unit == "m" else self.of_check(unit)


def _us(kind: Kind, given: str, printed: str, *, unit: str = "", shift: int = 0) -> Measure:
    """Return the measure that writes a number given in one unit in another, by the table of `units.py`."""
    before, after = UNITS[kind][given], UNITS[kind][printed]
    return Measure(unit=unit or printed, size=after.factor / before.factor, zero=after.zero, shift=shift, grouped=True)


# Counts and plain quotients are the same in both systems; so are degrees of angle.
_SAME = {
    unit: Measure(unit=unit)
    for unit in ("", "joints", "cycles", "sum of uses", "load factor", "of the largest end force")
}
_SAME["deg"] = Measure(unit="°")
# D Y/(L - U)^2 of ASME B31.9 919.4.1 in the units of its two forms: the limit is 208.3 mm mm/m2 or 0.03 in in/ft2.
_SCREENED = "mm mm/m2"
_US_SCREENED = Measure(unit="in in/ft2", size=1e6 / INCHES_PER_FOOT**2)

_KN = Measure(unit="kN", size=1e3)
_KNM = Measure(unit="kN·m", size=1e3)
_M = Measure(unit="m")
_MM = Measure(unit="mm")
_MM2 = Measure(unit="mm²")
_MPA = Measure(unit="MPa")
_DEGC = Measure(unit="°C")

SI = Units(
    system="si",
    said="",
    nominal="size",
    pressure=Measure(unit="bar(g)"),
    temperature=_DEGC,
    temperature_difference=Measure(unit="K"),
    length=_M,
    span=_M,
    small=_MM,
    growth=Measure(unit="mm", size=1e-3),
    force=_KN,
    weight=Measure(unit="N"),
    moment=_KNM,
    rate=Measure(unit="N/mm"),
    line_load=Measure(unit="N/m"),
    angular_rate=Measure(unit="N·m/°"),
    area=_MM2,
    stress=_MPA,
    density=Measure(unit="kg/m³"),
    expansion=Measure(unit="10⁻⁶/K", size=1e-6, rounded=3),
    checked=MappingProxyType(
        _SAME
        | {"N": _KN, "N m": _KNM, "m": _M, "mm": _MM, "mm2": _MM2, "MPa": _MPA, "degC": _DEGC}
        | {"m/s": Measure(unit="m/s"), "bar": Measure(unit="bar"), _SCREENED: Measure(unit=_SCREENED)}
    ),
)

_LBF = _us("force", "N", "lbf", shift=-1)
_FT_LBF = _us("moment", "N·m", "ft·lbf", shift=-1)
_FT = Measure(unit="ft", size=METRES_PER_FOOT, grouped=True)
_IN = Measure(unit="in", size=1e3 * METRES_PER_INCH, shift=2, rounded=_INCH_DECIMALS)
_IN2 = _us("area", "mm2", "in2", unit="in²")
_PSI = _us("stress", "MPa", "psi", shift=-1)
_DEGF = _us("temperature", "degC", "degF", unit="°F")

US = Units(
    system="us",
    said=NOT_CONVERTED,
    nominal="nps",
    pressure=_us("pressure", "bar(g)", "psi(g)", unit="psig", shift=-1),
    temperature=_DEGF,
    temperature_difference=_us("temperature difference", "K", "degF", unit="°F"),
    length=Measure(unit="", size=METRES_PER_FOOT, feet=True),
    span=_FT,
    small=_IN,
    growth=Measure(unit="in", size=METRES_PER_INCH, shift=2, rounded=_INCH_DECIMALS),
    force=_LBF,
    weight=_us("force", "N", "lbf"),
    moment=_FT_LBF,
    rate=_us("force per length", "N/mm", "lbf/in"),
    line_load=_us("force per length", "N/m", "lbf/ft"),
    angular_rate=_us("moment per angle", "N·m/deg", "in·lbf/deg", unit="in·lbf/°"),
    area=_IN2,
    stress=_PSI,
    density=_us("density", "kg/m3", "lb/ft3", unit="lb/ft³"),
    expansion=Measure(unit="10⁻⁶/°F", size=1e-6 / KELVIN_PER_DEGF, rounded=3),
    checked=MappingProxyType(
        _SAME
        | {"N": _LBF, "N m": _FT_LBF, "m": _FT, "mm": _IN, "mm2": _IN2, "MPa": _PSI, "degC": _DEGF}
        | {"m/s": _us("velocity", "m/s", "ft/s"), "bar": _us("pressure", "bar(g)", "psi(g)", unit="psi")}
        | {_SCREENED: _US_SCREENED}
    ),
)

UNITS_FOR: Mapping[System, Units] = MappingProxyType({"si": SI, "us": US})
