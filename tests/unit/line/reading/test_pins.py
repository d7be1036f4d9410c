"""Plates and pins as read, in SI and in US units, and every way in which they contradict themselves. Data invented."""

from __future__ import annotations

import pytest
from tests.line_texts import changed, faults, study

INCH = 0.0254  # m, by definition
LBF = 4.4482216152605  # N, by definition
ROUNDING = 1e-14  # relative: a few products of doubles
PINS = (
    "{ along: upright, spread: 340 mm, diameter: 40 mm, width: 80 mm, thickness: 25 mm, length: 500 mm, "
    "modulus: 200 GPa, hot: yes, expansion: 12e-6 1/K, friction: { low: 0.1, high: 0.3, source: sheet 5 }, "
    "can_carry: 60 kN, source: sheet 5 }"
)
US_PINS = (
    "{ along: level, spread: 14 in, diameter: 1 1/2 in, width: 3 in, thickness: 1 in, modulus: 29000 ksi, hot: no, "
    "slides_on: steel on steel, source: sheet 5 }"
)
HINGED = "        kind: single axial\n"
LIVE = "          live_length: 300 mm\n"


def text_of(pins: str | None, kind: str = "hinged") -> str:
    """Return the valid file with a pinned joint."""
    said = f"        kind: {kind}\n" + (f"        pins: {pins}\n" if pins else "")
    return changed((HINGED, said), (LIVE, "          live_length: 200 mm\n          angular: 5 deg\n"))


def test_pins_in_si():
    pins = study(text_of(PINS)).lines[0].takeups[0].pins
    assert pins is not None
    found = (pins.spread, pins.diameter, pins.width, pins.thickness, pins.length, pins.modulus, pins.expansion)
    assert found == pytest.approx((0.34, 0.04, 0.08, 0.025, 0.5, 200e9, 12e-6), rel=ROUNDING)
    assert (pins.along, pins.can_carry, pins.source) == ((0.0, 1.0), pytest.approx(60e3), "sheet 5")
    assert pins.friction is not None
    assert (pins.friction.low, pins.friction.high) == (0.1, 0.3)
    assert pins.compliance == pytest.approx(0.5 / (200e9 * 0.08 * 0.025), rel=ROUNDING)


def test_pins_in_us_units():
    """By the definitions of inch and pound; plates are as long as the joint where nobody says, 600 mm."""
    pins = study(text_of(US_PINS)).lines[0].takeups[0].pins
    assert pins is not None
    found = (pins.spread, pins.diameter, pins.width, pins.thickness, pins.length, pins.modulus)
    wanted = (14 * INCH, 1.5 * INCH, 3 * INCH, INCH, 0.6, 29e6 * LBF / INCH**2)
    assert found == pytest.approx(wanted, rel=ROUNDING)
    assert (pins.along, pins.can_carry, pins.expansion) == ((1.0, 0.0), None, None)


def test_yield_strength_of_pins_where_it_is_said():
    """36 ksi are 36 000 lbf on a square inch; nobody need say it."""
    pins = study(text_of(US_PINS.replace(", source", ", yield_strength: 36 ksi, source"))).lines[0].takeups[0].pins
    assert pins is not None
    assert pins.yield_strength == pytest.approx(36e3 * LBF / INCH**2, rel=ROUNDING)
    silent = study(text_of(PINS)).lines[0].takeups[0].pins
    assert silent is not None
    assert silent.yield_strength is None


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("hot: yes, expansion: 12e-6 1/K", "hot: yes", "hot plates need 'expansion'"),
        ("hot: yes", "hot: no", "plates that stay cold do not grow; leave this key out"),
        ("hot: yes, expansion: 12e-6 1/K, ", "", "the key 'hot' is required"),
        ("spread: 340 mm", "spread: 244 mm", "plates of 25 mm whose middles are '244 mm' apart stand within the pipe"),
        ("friction: { low: 0.1, high: 0.3, source: sheet 5 }, ", "", "they need 'slides_on' (a pair) or 'friction'"),
        ("can_carry", "slides_on: steel on steel, can_carry", "both are there"),
    ],
)
def test_pins_that_contradict_themselves(old: str, new: str, words: str):
    """DN 200 is 219.1 mm outside (ASME B36.10M): plates of 25 mm need 244.1 mm between their middles."""
    (message,) = faults(text_of(PINS.replace(old, new)))
    assert words in message


@pytest.mark.parametrize(
    ("sizes", "words"),
    [
        (("5 mm", "80 mm", "25 mm"), "is 763.9 MPa of shear in two sections of each pin; no steel takes more than 600"),
        (
            ("20 mm", "80 mm", "0.5 mm"),
            "is 3000 MPa of pressure of each pin on its hole; no steel takes more than 2000",
        ),
        (
            ("79 mm", "80 mm", "25 mm"),
            "is 1200 MPa of tension beside the hole of each pin; no steel takes more than 1000",
        ),
        (("80 mm", "80 mm", "25 mm"), "the hole of a pin of '80 mm' leaves nothing of a plate 80 mm wide"),
        (("95 mm", "90 mm", "25 mm"), "the hole of a pin of '95 mm' leaves nothing of a plate 90 mm wide"),
    ],
)
def test_pins_that_no_steel_makes_so_strong_are_refused(sizes: tuple[str, str, str], words: str):
    """60 kN of both, 30 kN each: on 2*19.635 mm2 of pin, on 20*0.5 mm2 of hole, on 1*25 mm2 beside it (by hand)."""
    diameter, width, thickness = sizes
    given = f"diameter: {diameter}, width: {width}, thickness: {thickness}"
    (message,) = faults(text_of(PINS.replace("diameter: 40 mm, width: 80 mm, thickness: 25 mm", given)))
    assert words in message


def test_pins_that_steel_makes_so_strong_are_read():
    """A pin of 6 mm, 56.549 mm2 in two sections, has 530.5 MPa under 30 kN: a poor one, but not mistyped for sure."""
    assert study(text_of(PINS.replace("diameter: 40 mm", "diameter: 6 mm"))).lines[0].takeups[0].pins is not None


def test_pins_where_there_are_none_and_none_where_there_are():
    (message,) = faults(text_of(PINS, "single axial"))
    assert message.endswith("a single axial joint has no pins; leave this key out")
    (message,) = faults(text_of(None))
    assert "a hinged joint needs 'pins'" in message


RISER = (
    ("9 m north", "9 m up"),
    ("with: water, temperature: 12 °C }", "with: water, temperature: 12 °C, gauge_elevation: 4.5 m }"),
    ("at: boiler header + 2.5 m", "at: gate corner + 3 m"),
    ("      - { kind: rest, at: gate corner + 4.5 m, slides_on: steel on steel }\n", ""),
)


@pytest.mark.parametrize(
    ("way", "along"),
    [
        ("level", (1.0, 0.0)),
        ("upright", (0.0, 1.0)),
        ("up", (0.0, 1.0)),
        ("north", (1.0, 0.0)),
        ("bearing 180 deg", (-1.0, 0.0)),
        ("[0, 1, 1]", (0.5**0.5, 0.5**0.5)),
        ("bearing 40 deg", (1.0, 0.0)),
    ],
)
def test_pins_by_direction_on_a_level_pipe(way, along):
    """East along x: across is z x x = north, up is z (line/route.py); of 40 deg only its northward part lies across."""
    pins = study(text_of(PINS.replace("along: upright", f"along: {way}"))).lines[0].takeups[0].pins
    assert pins is not None
    assert pins.along == pytest.approx(along, abs=1e-12)
    assert pins.way == way


@pytest.mark.parametrize(
    ("way", "along"), [("east", (1.0, 0.0)), ("north", (0.0, 1.0)), ("bearing 30 deg", (0.5, 0.75**0.5))]
)
def test_pins_by_the_compass_on_a_vertical_pipe(way, along):
    """Flow upward: z is north and across is north x up = east; a bearing of 30 deg is sin 30 east, cos 30 north."""
    text = changed(*RISER, text=text_of(PINS.replace("along: upright", f"along: {way}")))
    pins = study(text).lines[0].takeups[0].pins
    assert pins is not None
    assert pins.along == pytest.approx(along, abs=1e-12)


@pytest.mark.parametrize("way", ["level", "upright"])
def test_level_and_upright_say_nothing_on_a_vertical_pipe(way):
    (message,) = faults(changed(*RISER, text=text_of(PINS.replace("along: upright", f"along: {way}"))))
    assert f"'{way}' does not say how pins lie on a vertical pipe" in message
    assert message.endswith("write their direction by the compass, such as north, or bearing 60 deg")


@pytest.mark.parametrize(("rise", "sound"), [("79 deg", True), ("81 deg", False)])
def test_a_pipe_within_ten_degrees_of_the_vertical_is_vertical(rise, sound):
    riser = (("9 m north", f"9 m north rising {rise}"), *RISER[1:])
    text = changed(*riser, text=text_of(PINS.replace("along: upright", "along: level")))
    if sound:
        study(text)
    else:
        assert any("does not say how pins lie" in message for message in faults(text))


@pytest.mark.parametrize(("way", "sound"), [("bearing 46 deg", False), ("bearing 44 deg", True), ("east", False)])
def test_pins_lie_across_the_pipe(way, sound):
    """The pipe runs east, bearing 90 deg: 44 deg is 46 deg from it."""
    text = text_of(PINS.replace("along: upright", f"along: {way}"))
    if sound:
        study(text)
    else:
        (message,) = faults(text)
        assert message.endswith(f"'{way}' lies nearer along the pipe than across it, and pins lie across it")
