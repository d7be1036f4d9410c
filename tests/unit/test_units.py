"""The table of units against an independent one, the refusals word by word, the way there and back.

(tests/unit/test_units.py)
"""

from __future__ import annotations

import contextlib
import math
import re

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from takeup.errors import TakeupError
from takeup.units import (
    COMMON,
    KINDS,
    MOST_CHOICES,
    UNITS,
    Kind,
    UnitError,
    bar,
    express,
    format_si,
    from_degf,
    kn,
    mm,
    parse,
    parse_number,
    to_absolute,
    to_bar,
    to_deg,
    to_degf,
    to_kn,
    to_mm,
    to_mm2,
    to_mpa,
    to_n_per_mm,
    to_nm_per_deg,
)

# A handful of products and quotients of doubles; each rounds by 1.1e-16.
ROUNDING = 1e-14
TABLE = [(kind, spelling) for kind in KINDS for spelling in UNITS[kind]]
SI: dict[Kind, str] = {
    "length": "m",
    "area": "m**2",
    "force": "N",
    "force per length": "N/m",
    "moment": "N*m",
    "moment per angle": "N*m/radian",
    "pressure": "Pa",
    "stress": "Pa",
    "temperature": "degC",
    "temperature difference": "kelvin",
    "angle": "radian",
    "density": "kg/m**3",
    "mass": "kg",
    "weight": "N",
    "strain": "dimensionless",
    "expansion coefficient": "1/kelvin",
    "velocity": "m/s",
    "content": "mg/kg",
}
registry: pint.UnitRegistry[float] = pint.UnitRegistry(cache_folder=None)
registry.define("hundred_feet = 100 * foot")


def oracle_spelling(spelling: str, kind: Kind) -> str:
    """Return our spelling in the words of the oracle."""
    words = re.sub(r"\([ga]\)$|(?<=bar|psi)[ga]$|(?<=Pa)[ga]$", "", spelling) if kind == "pressure" else spelling
    if kind == "temperature difference":
        return "kelvin" if words == "K" else "delta_degF" if words.endswith("F") else "delta_degC"
    if kind == "expansion coefficient":
        return "1/kelvin" if words == "1/K" else "1/delta_degF" if words.endswith("F") else "1/delta_degC"
    if kind == "temperature":
        return "degF" if words.endswith("F") else "degC"
    words = words.replace("/100 ft", "/hundred_feet")
    words = re.sub(r"°|\bdeg\b", "degree", words.replace("·", "*"))
    words = re.sub(r"\b(k?N)(m+)\b", r"\1*\2", words)
    return re.sub(r"(?<=[a-z])([23])", r"**\1", words)


def oracle(number: float, spelling: str, kind: Kind) -> float:
    """Return the SI value by the oracle; gauge and absolute, and weight from mass, are put in by hand."""
    quantity = registry.Quantity(number, oracle_spelling(spelling, kind))
    if kind == "weight" and quantity.check("[mass]"):
        quantity = quantity * registry.Quantity(1, "standard_gravity")
    value = float(quantity.to(SI[kind]).magnitude)
    absolute = kind == "pressure" and spelling.endswith(("(a)", "a"))
    return value - 101_325.0 if absolute else value


@pytest.mark.parametrize(("kind", "spelling"), TABLE)
def test_every_unit_agrees_with_the_oracle(kind: Kind, spelling: str):
    """Pint 0.25, 37.5 of each unit; both tables are exact by definition, so only rounding separates them.

    The zero of degF and of absolute pressures subtracts two like numbers: there the absolute tolerance is the rounding
    of the larger one, 1e-9 of a pascal or of a kelvin.
    """
    assert parse(f"37.5 {spelling}", kind) == pytest.approx(oracle(37.5, spelling, kind), rel=ROUNDING, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("12 bar(g)", "pressure", 1.2e6),
        ("12 barg", "pressure", 1.2e6),
        ("12bar (g)", "pressure", 1.2e6),
        ("1.2 MPa(g)", "pressure", 1.2e6),
        ("1200 kPa(g)", "pressure", 1.2e6),
        ("150 psig", "pressure", 150 * 4.4482216152605 / 0.0254**2),
        ("150 psi(g)", "pressure", 150 * 4.4482216152605 / 0.0254**2),
        ("13 bar(a)", "pressure", 1_198_675.0),  # 1 300 000 - 101 325
        ("0 bar(a)", "pressure", -101_325.0),
        ("-0.8 bar(g)", "pressure", -80_000.0),
        ("12e-6 1/K", "expansion coefficient", 12e-6),
        ("6.5e-6 1 / °F", "expansion coefficient", 11.7e-6),  # 1.8 degF are 1 K
        ("205 MPa", "stress", 205e6),
        ("205 N/mm²", "stress", 205e6),
        ("−8 °C", "temperature", -8.0),
        ("195 C", "temperature", 195.0),
        ("212 degF", "temperature", 100.0),
        ("-40 °F", "temperature", -40.0),
        ("80 °C", "temperature difference", 80.0),
        ("90 degF", "temperature difference", 50.0),
        ("16 ft 6 in", "length", 16.5 * 0.3048),
        ("16 ft 6 1/2 in", "length", 198.5 * 0.0254),
        ("-16 ft 6 in", "length", -16.5 * 0.3048),
        ("16ft 6in", "length", 16.5 * 0.3048),
        ("16 ft 0 in", "length", 16 * 0.3048),
        ("6 1/2 in", "length", 6.5 * 0.0254),
        ("1/2 in", "length", 0.0127),
        ("3 ft", "length", 0.9144),
        ("1.2e3 mm", "length", 1.2),
        ("+4 m", "length", 4.0),
        ("650 N/mm", "force per length", 650e3),
        ("10 N·m/deg", "moment per angle", 10 * 180 / math.pi),
        ("10 Nm/deg", "moment per angle", 10 * 180 / math.pi),
        ("10 N.m/deg", "moment per angle", 10 * 180 / math.pi),
        ("10 N m/°", "moment per angle", 10 * 180 / math.pi),
        ("10 N*m/rad", "moment per angle", 10.0),
        ("2 mm^2", "area", 2e-6),
        ("7850 kg/m³", "density", 7850.0),
        ("80 kg", "weight", 784.532),
        ("210 lb", "weight", 210 * 4.4482216152605),  # a pound weighs a pound-force under standard gravity
        ("9 lb", "mass", 9 * 0.45359237),
        ("18 kip", "force", 18e3 * 4.4482216152605),
        ("12 lbf", "force", 12 * 4.4482216152605),
        ("700 lbf/in", "force per length", 700 * 4.4482216152605 / 0.0254),
        ("7 lbf/ft", "force per length", 7 * 4.4482216152605 / 0.3048),
        ("3 kip/ft", "force per length", 3e3 * 4.4482216152605 / 0.3048),
        ("3 kip·ft", "moment", 3e3 * 4.4482216152605 * 0.3048),
        ("10 ft·lbf/deg", "moment per angle", 10 * 4.4482216152605 * 0.3048 * 180 / math.pi),
        ("10 in lbf/°", "moment per angle", 10 * 4.4482216152605 * 0.0254 * 180 / math.pi),
        ("44 in2", "area", 44 * 0.0254**2),
        ("490 lb/ft³", "density", 490 * 0.45359237 / 0.3048**3),
        ("29 ksi", "stress", 29e3 * 4.4482216152605 / 0.0254**2),
        ("29000 psi", "stress", 29e3 * 4.4482216152605 / 0.0254**2),
        ("400 °F", "temperature", (400 - 32) * 5 / 9),
        ("2 deg", "angle", math.pi / 90),
    ],
)
def test_parse_reads_what_engineers_write(text: str, kind: Kind, value: float):
    """By hand from the definitions: inch 0.0254 m, lbf 4.4482216152605 N, g 9.80665 m/s2, atmosphere 101 325 Pa."""
    assert parse(text, kind) == pytest.approx(value, rel=ROUNDING)


VACUUM = "a pressure: it is below a perfect vacuum, -1.01325 bar(g) or 0 bar(a)"
PRESSURES = "bar(g), bar(a), MPa(g), MPa(a), kPa(g), kPa(a), psi(g) or psi(a)"


@pytest.mark.parametrize(
    ("text", "kind", "message"),
    [
        ("12 bar", "pressure", "a pressure: bar does not say gauge or absolute; write 12 bar(g) or 12 bar(a)"),
        ("150 psi", "pressure", "a pressure: psi does not say gauge or absolute; write 150 psi(g) or 150 psi(a)"),
        ("12 bar g", "pressure", "a pressure: unknown unit 'bar g'; write 12 barg"),
        ("12 Bar(g)", "pressure", "a pressure: unknown unit 'Bar(g)'; write 12 bar(g)"),
        ("12", "pressure", "a pressure: it has no unit; write 12 bar(g) or 12 bar(a)"),
        ("12,5 bar(g)", "pressure", "a pressure: the decimal mark is a point; write 12.5 bar(g)"),
        ("12 m", "pressure", f"a pressure: m is a unit of length; write one of {PRESSURES}"),
        ("-2 bar(g)", "pressure", "a pressure: it is below a perfect vacuum, -1.01325 bar(g) or 0 bar(a)"),
        ("-1 bar(a)", "pressure", "a pressure: it is below a perfect vacuum, -1.01325 bar(g) or 0 bar(a)"),
        ("-14.7 psi(g)", "pressure", f"{VACUUM}; in psi write -14.6959 psi(g) or 0 psi(a)"),
        ("205 MPa(g)", "stress", "a stress: a stress is neither gauge nor absolute; write 205 MPa or 205 psi"),
        ("30 000 psi", "stress", "a stress: no space inside a number; write 30000 psi"),
        ("300 K", "temperature", "a temperature: kelvin is taken for temperature differences only; write degC or degF"),
        ("-300 degC", "temperature", "a temperature: it is below absolute zero, -273.15 degC"),
        ("12", "length", "a length: it has no unit; write 12 m, 12 mm or 12 ft"),
        ("80", "temperature", "a temperature: it has no unit; write 80 degC or 80 degF"),
        ("80", "force", "a force: it has no unit; write 80 N"),
        ("", "length", "a length: it does not begin with a number; write for example 12 m"),
        ("nan m", "length", "a length: it does not begin with a number; write for example 12 m"),
        ("inf m", "length", "a length: it does not begin with a number; write for example 12 m"),
        ("1e999 m", "length", "a length: the number is too large"),
        (".5 m", "length", "a length: a number begins with a digit; write 0.5 m"),
        ("1,200 mm", "length", "a length: a comma can mean two things; write 1200 mm or 1.200 mm"),
        ("1 000 m", "length", "a length: no space inside a number; write 1000 m"),
        ("12 inch", "length", "a length: unknown unit 'inch'; write 12 in"),
        ("96 m east", "length", "a length: unknown unit 'm east'; write one of m, mm, cm, km, in or ft"),
        ("16' 6\"", "length", "a length: quote marks are not read; write 16 ft 6 in"),
        ("16'-6 1/2\"", "length", "a length: quote marks are not read; write 16 ft 6 1/2 in"),
        ("16′ 6″", "length", "a length: quote marks are not read; write 16 ft 6 in"),
        ("6 in 3/8", "length", "a length: feet and inches are written 16 ft 6 in or 16 ft 6 1/2 in"),
        ("16.5 ft 6 in", "length", "a length: feet and inches are written 16 ft 6 in or 16 ft 6 1/2 in"),
        ("16 ft-6 in", "length", "a length: feet and inches are written 16 ft 6 in or 16 ft 6 1/2 in"),
        ("16 ft -6 in", "length", "a length: feet and inches are written 16 ft 6 in or 16 ft 6 1/2 in"),
        ("16 ft 13 in", "length", "a length: inches after feet are below 12; write for example 16 ft 6 in"),
        ("6 3/2 in", "length", "a length: the fraction of an inch is below one; write for example 6 1/2 in"),
        ("6 1/0 in", "length", "a length: the fraction of an inch is below one; write for example 6 1/2 in"),
        ("12 lb", "force", "a force: lb is a unit of mass; write one of N, kN, MN, lbf, kip or kgf"),
        ("3 kip-ft", "moment", "a moment: unknown unit 'kip-ft'; write 3 kip·ft"),
        ("12 lb/in", "force per length", "a force per length: unknown unit 'lb/in'; write 12 lbf/in"),
        ("12 m2", "angle", "an angle: m2 is a unit of area; write one of deg, °, rad or mrad"),
    ],
)
def test_parse_refuses_with_the_right_spelling(text: str, kind: Kind, message: str):
    with pytest.raises(UnitError) as refusal:
        parse(text, kind)
    assert str(refusal.value) == f"{text!r} is not {message}"
    assert isinstance(refusal.value, TakeupError)


@settings(max_examples=500)
@given(place=st.sampled_from(TABLE), number=st.floats(min_value=0.0, max_value=1e9))
def test_a_number_in_any_unit_comes_back(place: tuple[Kind, str], number: float):
    """`express` undoes `parse`; the zero of degF and of absolute pressures costs the rounding of the zero itself."""
    kind, spelling = place
    zero = abs(UNITS[kind][spelling].zero)
    back = express(parse(f"{number!r} {spelling}", kind), kind, spelling)
    assert back == pytest.approx(number, rel=ROUNDING, abs=1e-15 * (1 + zero))


@given(kind=st.sampled_from(KINDS), value=st.floats(min_value=0.0, max_value=1e9))
def test_written_si_value_comes_back(kind: Kind, value: float):
    """Seventeen digits hold a double; what is left is the rounding of the two conversions."""
    assert parse(format_si(value, kind, digits=17), kind) == pytest.approx(value, rel=ROUNDING, abs=1e-300)


@given(st.text(max_size=20))
def test_any_text_is_read_or_refused(text: str):
    """No text of any kind ends in another error, or in a number that is not finite."""
    for kind in KINDS:
        with contextlib.suppress(UnitError):
            assert math.isfinite(parse(text, kind))


def test_parse_number_reads_only_numbers():
    assert parse_number(" 0.3 ") == 0.3
    assert parse_number("−8") == -8.0
    with pytest.raises(UnitError, match=r"^'0,3' is not a plain number: write 0\.3$"):
        parse_number("0,3")
    for text in ("0.3 m", "nan", "1e999", "", "0x10", "1_000"):
        with pytest.raises(UnitError, match="is not a plain number"):
            parse_number(text)


def test_helpers_of_the_edge_convert_once():
    """By hand: powers of ten and 180/pi; 14.4 degF above freezing is 8 K."""
    assert (mm(250), bar(16), kn(120)) == pytest.approx((0.25, 1.6e6, 120e3), rel=ROUNDING)
    assert (to_mm(0.25), to_mm2(2e-6), to_bar(1.6e6), to_mpa(205e6)) == pytest.approx((250, 2, 16, 205), rel=ROUNDING)
    assert (to_kn(120e3), to_n_per_mm(650e3)) == pytest.approx((120, 650), rel=ROUNDING)
    assert (to_deg(math.pi), to_nm_per_deg(180.0)) == pytest.approx((180, math.pi), rel=ROUNDING)
    assert (from_degf(46.4), to_degf(8.0)) == pytest.approx((8.0, 46.4), rel=ROUNDING)
    assert to_absolute(-101_325.0) == 0.0


def test_express_refuses_a_unit_of_another_kind():
    with pytest.raises(UnitError, match="m is a unit of length"):
        express(1.0, "force", "m")


def test_hint_lists_at_most_eight_spellings_each_once():
    for kind in KINDS:
        spellings = [spelling for spelling in UNITS[kind] if not (kind == "pressure" and "(" not in spelling)]
        chosen = COMMON.get(kind, tuple(spellings))
        assert len(chosen) <= MOST_CHOICES
        assert set(chosen) <= set(spellings)
        if kind in COMMON:
            assert len(spellings) > MOST_CHOICES, f"{kind} needs no choice"
            assert len(set(chosen)) == len(chosen)


def test_hint_of_a_moment_rate_word_by_word():
    with pytest.raises(UnitError) as caught:
        parse("5 kN/mm", "moment per angle")
    assert str(caught.value) == (
        "'5 kN/mm' is not a moment per angle: kN/mm is a unit of force per length; write one of N·m/deg, kN·m/deg, "
        "N·m/rad, kN·m/rad, lbf·ft/deg, lbf·in/deg, lbf·ft/rad or lbf·in/rad"
    )


@pytest.mark.parametrize("unit", ["psi(g)", "psig", "psi(a)", "mbar(g)", "kPa(g)", "MPa(g)", "MPag", "Pa(g)"])
def test_hint_for_a_pressure_below_vacuum_can_be_written_as_it_stands(unit):
    """14.6959 psi is 101 324.66 Pa and 14.6960 psi 101 325.35 Pa (1 psi = 6 894.757 293 Pa); a vacuum is 101 325 Pa."""
    with pytest.raises(UnitError) as caught:
        parse(f"-2000000 {unit}", "pressure")
    gauge, absolute = str(caught.value).rpartition(" write ")[2].split(" or ")
    assert -101_325.0 <= parse(gauge, "pressure") < -101_324.0
    assert parse(absolute, "pressure") == -101_325.0
