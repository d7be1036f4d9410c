"""Numbers for people: every conversion against an oracle, feet and inches read back.     (tests/unit/test_edge.py)"""

from __future__ import annotations

import ast
import math
from dataclasses import fields
from pathlib import Path

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.edge import SI, TIE, UNITS_FOR, US, Measure, Units, feet_and_inches
from takeup.units import parse

ROOM = Path(__file__).parents[2] / "src" / "takeup"
# A handful of products and quotients of doubles; each rounds by 1.1e-16.
ROUNDING = 1e-14
registry: pint.UnitRegistry[float] = pint.UnitRegistry(cache_folder=None)

# What each measure converts: the unit in results.json, and what is printed in SI and in US, in the oracle's words.
MEASURES = {
    "pressure": ("bar", "bar", "psi"),
    "temperature": ("degC", "degC", "degF"),
    "temperature_difference": ("kelvin", "kelvin", "delta_degF"),
    "length": ("m", "m", "foot"),
    "span": ("m", "m", "foot"),
    "small": ("mm", "mm", "inch"),
    "growth": ("m", "mm", "inch"),
    "force": ("N", "kN", "lbf"),
    "weight": ("N", "N", "lbf"),
    "moment": ("N*m", "kN*m", "foot*lbf"),
    "rate": ("N/mm", "N/mm", "lbf/inch"),
    "line_load": ("N/m", "N/m", "lbf/foot"),
    "angular_rate": ("N*m/degree", "N*m/degree", "inch*lbf/degree"),
    "area": ("mm**2", "mm**2", "inch**2"),
    "stress": ("MPa", "MPa", "psi"),
    "density": ("kg/m**3", "kg/m**3", "lb/foot**3"),
    "expansion": ("1/kelvin", "ppm/kelvin", "ppm/delta_degF"),
}
CHECKED = {
    "N": ("N", "kN", "lbf"),
    "N m": ("N*m", "kN*m", "foot*lbf"),
    "m": ("m", "m", "foot"),
    "mm": ("mm", "mm", "inch"),
    "mm2": ("mm**2", "mm**2", "inch**2"),
    "bar": ("bar", "bar", "psi"),
    "MPa": ("MPa", "MPa", "psi"),
    "degC": ("degC", "degC", "degF"),
    "m/s": ("m/s", "m/s", "foot/s"),
    "mm mm/m2": ("mm*mm/m**2", "mm*mm/m**2", "inch*inch/foot**2"),
}


def agrees(measure: Measure, given_unit: str, printed: str) -> None:
    """Hold a measure to the oracle at 37.5 and at -12.25; the zero of degF costs the rounding of 32."""
    for value in (37.5, -12.25):
        expected = float(registry.Quantity(value, given_unit).to(printed).magnitude)
        assert measure.number(value) == pytest.approx(expected, rel=ROUNDING, abs=1e-13)


@pytest.mark.parametrize("name", MEASURES)
def test_every_measure_agrees_with_the_oracle(name: str):
    """Pint 0.25; both are exact by definition, so only rounding separates them."""
    given_unit, *printed = MEASURES[name]
    for units, unit in zip((SI, US), printed, strict=True):
        agrees(getattr(units, name), given_unit, unit)


@pytest.mark.parametrize("unit", CHECKED)
def test_every_unit_of_a_check_agrees_with_the_oracle(unit: str):
    given_unit, *printed = CHECKED[unit]
    for units, name in zip((SI, US), printed, strict=True):
        agrees(units.checked[unit], given_unit, name)


def test_every_measure_is_held_to_the_oracle():
    """No measure is added without a line above; counts and degrees of angle are not converted, nor are words."""
    assert {field.name for field in fields(Units)} == {"system", "said", "nominal", "checked", "tell", *MEASURES}


def test_words_stay_english_until_a_language_is_told():
    assert SI.tell("elevation") == "elevation"
    german = SI.told({"elevation": "Höhe"}.__getitem__)
    assert (german.tell("elevation"), german.marked(",").tell("elevation")) == ("Höhe", "Höhe")
    assert german == SI  # what two sets of units are alike in is their measures


def test_units_of_checks_are_held_to_the_oracle():
    """None is added without a line above."""
    same = {"", "joints", "cycles", "sum of uses", "load factor", "of the largest end force", "deg"}
    assert set(SI.checked) == set(US.checked) == set(CHECKED) | same
    assert all(SI.checked[unit] == US.checked[unit] for unit in same)
    assert set(UNITS_FOR) == {"si", "us"}


def constants(tree: ast.Module) -> dict[str, str]:
    """The texts that a module names at its top."""
    return {
        target.id: item.value.value
        for item in tree.body
        if isinstance(item, ast.Assign) and isinstance(item.value, ast.Constant) and isinstance(item.value.value, str)
        for target in item.targets
        if isinstance(target, ast.Name)
    }


def units_in(path: Path) -> set[str]:
    """The units that a module gives to `judge`, `result`, `HandResult` and `no_formula`, by literal or by name.

    A unit that is handed on as an argument is found where it is first said.
    """
    tree = ast.parse(path.read_text(encoding="utf-8"))
    known = constants(tree)
    found: list[ast.expr] = []
    for call in (node for node in ast.walk(tree) if isinstance(node, ast.Call)):
        name = call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")
        found += [word.value for word in call.keywords if word.arg == "unit"]
        place = {"judge": 4, "no_formula": 1}.get(name)
        if place is not None and len(call.args) > place:
            found.append(call.args[place])
    texts = {node.value for node in found if isinstance(node, ast.Constant) and isinstance(node.value, str)}
    return texts | {known[node.id] for node in found if isinstance(node, ast.Name) and node.id in known}


def test_every_unit_of_a_check_or_a_hand_calculation_has_its_us_partner():
    used = {
        unit: path.name for room in ("checks", "hand") for path in (ROOM / room).glob("*.py") for unit in units_in(path)
    }
    assert {"N", "m", "MPa", "bar", "degC", "cycles", "mm mm/m2"} <= set(used)  # the search finds what is surely there
    assert {unit: place for unit, place in used.items() if unit not in US.checked} == {}


def test_unit_that_is_not_in_the_table_is_printed_as_it_is():
    assert US.of_check("furlongs") == Measure(unit="furlongs")


@pytest.mark.parametrize(
    ("inches", "words"),
    [
        (198.5, "16 ft 6 1/2 in"),
        (-198.5, "-16 ft 6 1/2 in"),
        (198.0, "16 ft 6 in"),
        (192.0, "16 ft 0 in"),
        (192.5, "16 ft 0 1/2 in"),
        (6.5, "6 1/2 in"),
        (0.5, "1/2 in"),
        (11 + 15 / 16, "11 15/16 in"),
        (11 + 31 / 32, "1 ft 0 in"),  # a half of 1/16 is rounded away from nought, and carried to the next foot
        (11.99, "1 ft 0 in"),
        (23.97, "2 ft 0 in"),
        (0.03, "0 ft"),
        (-0.03, "0 ft"),
        (0.0, "0 ft"),
        (2 / 16, "1/8 in"),
        (12 / 16, "3/4 in"),
    ],
)
def test_feet_and_inches_by_hand(inches: float, words: str):
    """Each by hand: 12 in are a foot, fractions in lowest terms."""
    assert feet_and_inches(inches * 0.0254).replace(TIE, " ") == words


@given(st.floats(min_value=-1e4, max_value=1e4))
def test_feet_and_inches_are_read_back_to_half_a_sixteenth(metres: float):
    """Rounding to 1/16 in is off by 1/32 in at most; the slack is the rounding of 1e4 m in a double, 2e-12 m."""
    words = feet_and_inches(metres)
    assert abs(parse(words, "length") - metres) <= 0.0254 / 32 + 1e-11
    assert "16/16" not in words
    assert f"12{TIE}in" not in words


def test_demonstration_numbers_in_us_units():
    """By hand, from the inch of 25.4 mm and the pound-force of 4.4482216 N.

    159 m = 6259.84 in = 521 ft 7.84 in; 12 bar = 174.05 psi; 195 x 1.8 + 32 = 383; 219.1 / 25.4 = 8.626;
    120 000 / 4.448222 = 26 977; 2000 N m / 1.355818 = 1475.1 ft lbf.
    """
    assert US.length.text(159.0, 2) == f"521{TIE}ft{TIE}7{TIE}13/16{TIE}in"
    assert US.pressure.text(12.0, 2) == "174.0 psig"
    assert US.temperature.text(195.0, 1) == "383.0 °F"
    assert US.small.named(US.small.typed(219.1)) == "8.626 in"
    assert US.force.text(120e3, 1) == f"26{TIE}977 lbf"
    assert US.force.text(-120e3, 1) == f"-26{TIE}977 lbf"
    assert US.moment.text(2e3, 1) == f"1{TIE}475 ft·lbf"


def test_si_is_printed_as_it_always_was():
    assert SI.length.text(159.0, 2) == "159.00 m"
    assert SI.pressure.text(12.0, 2) == "12.00 bar(g)"
    assert SI.force.text(120e3, 1) == "120.0 kN"
    assert SI.small.named(SI.small.typed(219.1)) == "219.1 mm"
    assert SI.length.typed(159.0) == "159"


@pytest.mark.parametrize("value", [999.0, 1000.0, 1234567.8, -1234.0])
def test_thousands_are_parted_only_where_they_are(value: float):
    """The figures are those of the number, whatever stands between them."""
    measure = Measure(unit="lbf", grouped=True)
    words = measure.figures(value, 1)
    assert float(words.replace(TIE, "")) == value
    whole = words.partition(".")[0].lstrip("-")
    assert all(len(group) == 3 for group in whole.split(TIE)[1:])
    assert len(whole.split(TIE)) == math.ceil(len(whole.replace(TIE, "")) / 3)


def test_nought_has_no_minus():
    assert (SI.force.figures(-4.0, 1), US.force.figures(-2.0, 0), US.small.figures(-0.001, 3)) == ("0.0", "0", "0.000")


def test_what_is_not_a_number_is_left_alone():
    measure = Measure(unit="lbf", grouped=True)
    for words in ("–", "∞", "−∞", "5.3 × 10⁻¹⁴"):
        assert measure.parted(words) == words
