"""Loads and materials of the user's own, as read."""

from __future__ import annotations

import re

import pytest
from tests.line_texts import VALID, changed, faults, study, with_top

from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.read_materials import read_materials
from takeup.reading.yaml_places import read_places

GALE = (
    "{ name: gale, on: S-7, from: gate corner, to: gate corner + 12 m, "
    "force_per_length: [0 N/m, 120 N/m, 0 N/m], acts: occasional, source: wind code of the site }"
)
RELIEF = (
    "{ name: relief, on: S-7, at: J1, force: [0 kN, 0 kN, -12 kN], moment: [0 kN·m, 3 kN·m, 0 kN·m], "
    "acts: sustained, source: sheet 3 }"
)
STEEL = (
    "{ name: KS-steel, expansion: [ { at: -20 °C, total: -0.45 mm/m }, { at: 20 °C, total: 0 mm/m }, "
    "{ at: 220 °C, total: 2.4 mm/m } ], expansion_from: 20 °C, modulus: [ { at: -20 °C, value: 210 GPa }, "
    "{ at: 220 °C, value: 190 GPa } ], density: 7850 kg/m3, poisson: 0.3, source: sheet KS-1 }"
)


def blown(*loads: str) -> str:
    """Return the valid text with loads, the gale acting in a state of its own."""
    text = with_top("loads", *loads)
    return text.replace(
        "loads:\n", "states: { add: [ { name: in a gale, like: operating, loads: gale } ] }\nloads:\n", 1
    )


def test_spread_load_in_si():
    """Gate corner is at 60 m; 12 m on is 72 m."""
    (load,) = study(blown(GALE)).loads
    assert load.end is not None
    assert (load.name, load.line, load.duration, load.source) == ("gale", "S-7", "occasional", "wind code of the site")
    assert (load.start.station, load.end.station) == (60.0, 72.0)
    assert (load.force, load.moment) == ((0.0, 120.0, 0.0), (0.0, 0.0, 0.0))


def test_point_load_at_a_joint():
    """J1 stands 2.5 m from the boiler header."""
    (load,) = study(with_top("loads", RELIEF)).loads
    assert (load.start.words, load.start.station, load.end) == ("J1", 2.5, None)
    assert (load.force, load.moment, load.duration) == ((0.0, 0.0, -12e3), (0.0, 3e3, 0.0), "sustained")


@pytest.mark.parametrize(
    ("place", "station"),
    [("A1", 57.0), ("rest at gate corner + 4.5 m", 64.5), ("vat header", 109.0), ("boiler header + 1 m", 1.0)],
)
def test_point_load_at_other_places(place, station):
    (load,) = study(with_top("loads", RELIEF.replace("at: J1", f"at: {place}"))).loads
    assert load.start.station == pytest.approx(station, rel=1e-15)


def test_loads_may_share_a_name():
    assert [load.name for load in study(blown(GALE, GALE.replace("120", "-60"))).loads] == ["gale"] * 2


def test_occasional_load_needs_a_state_and_a_sustained_one_none():
    assert faults(with_top("loads", GALE, RELIEF)) == [
        "load gale, name: no state lets it act: name it under states, add, loads"
    ]
    assert [load.name for load in study(blown(GALE, RELIEF)).loads] == ["gale", "relief"]


def test_state_may_name_a_sustained_load():
    text = blown(GALE, RELIEF).replace("loads: gale", "loads: [gale, relief]")
    assert study(text).added[0].loads == ("gale", "relief")


def test_load_on_an_unsound_line_adds_no_fault():
    text = with_top("loads", GALE).replace("go: 60 m east", "go: 60 m est")
    assert [message for message in faults(text) if message.startswith("load")] == []


def test_material_that_no_pipe_names_is_sound():
    assert study(with_top("materials", STEEL)).lines[0].pipe.material.name == "ASTM A106 B"


def test_users_material_in_si():
    """The reference is a row of its own: 21.1 degC where not said, else as said. 2.4 mm/m = 0.0024, 190 GPa = 1.9e11.

    Half way from 20 to 220 degC the total is half of 0.0024, by hand.
    """
    made = materials_of(with_top("materials", STEEL))["KS-steel"]
    assert made.expansion.temperatures == (-20.0, 20.0, 220.0)
    assert made.expansion.at(120.0) == pytest.approx(0.0012, rel=1e-14)  # a few roundings
    assert (made.modulus.at(220.0), made.density, made.poisson) == (190e9, 7850.0, 0.3)
    assert made.expansion.status_at(100.0) == "user's data"
    assert made.density_source.words == "sheet KS-1"


def test_reference_of_the_library_where_not_said():
    text = with_top(
        "materials", STEEL.replace("{ at: 20 °C, total: 0 mm/m }, ", "").replace("expansion_from: 20 °C, ", "")
    )
    made = materials_of(text)["KS-steel"]
    assert made.expansion.temperatures == (-20.0, 21.1, 220.0)
    assert made.expansion.at(21.1) == 0.0


def test_modulus_is_no_stress_of_the_wrong_size():
    (message,) = faults(with_top("materials", STEEL.replace("190 GPa", "190 kPa")))
    assert message.startswith("material KS-steel: modulus of KS-steel at 220 degC is")


def materials_of(text: str):
    """Read the materials of a text alone."""
    book = FaultBook(read_places(text, "x"))
    made = read_materials(book)
    book.raise_faults()
    return made


def test_joint_may_be_out_of_line_and_carry_torque():
    """0.5 deg = 0.5 x pi/180 = 0.00872665 rad (by hand, six figures)."""
    text = changed(
        ("          source: sheet", "          torque: 500 N·m\n          source: sheet"),
        ("        data:\n", "        misalignment: { lateral: 3 mm, angular: 0.5 deg }\n        data:\n"),
    )
    (joint,) = study(text).lines[0].takeups
    assert joint.data.torque == 500.0
    assert joint.misalignment == pytest.approx((0.003, 0.00872665), rel=1e-6)  # six figures


def test_joint_without_misalignment_and_torque():
    (joint,) = study(changed()).lines[0].takeups
    assert (joint.misalignment, joint.data.torque) == ((0.0, 0.0), None)


def test_joint_only_out_of_line():
    text = changed(("        data:\n", "        misalignment: { lateral: 3 mm }\n        data:\n"))
    assert study(text).lines[0].takeups[0].misalignment == (0.003, 0.0)


def test_joint_beside_a_hold():
    (joint,) = study(changed(("at: boiler header + 2.5 m", "at: A1 - 1.2 m"))).lines[0].takeups
    assert joint.position.station == pytest.approx(55.8, rel=1e-15)


VALVE = (
    "      - { go: 60 m east, to: gate corner }\n",
    (
        "      - { go: 20 m east }\n      - { valve: stop valve, length: 1.2 m, weight: 2 kN }\n"
        "      - { go: 38.8 m east, to: gate corner }\n"
    ),
)


def test_pipe_of_the_users_own_material():
    text = with_top("materials", STEEL).replace("material: ASTM A106 B", "material: KS-steel", 1)
    material = study(text).lines[0].pipe.material
    assert (material.name, material.density_source.status) == ("KS-steel", "user's data")


def test_users_material_must_reach_every_temperature():
    text = with_top("materials", STEEL.replace("at: 220 °C, total", "at: 190 °C, total"))
    (message,) = faults(text.replace("material: ASTM A106 B", "material: KS-steel", 1))
    assert message.startswith("design, temperature: design temperature 195 degC is above 190 degC, the last row")


def test_places_beside_a_fitting():
    """The valve fills 20 m to 21.2 m: its name stands for 20.6 m, and a joint of 0.6 m fits from 1 m before that on."""
    text = changed(VALVE, ("at: boiler header + 2.5 m", "at: stop valve - 0.9 m"))
    assert study(text).lines[0].takeups[0].position.station == pytest.approx(19.7, rel=1e-15)
    assert any("over stop valve" in message for message in faults(text.replace("valve - 0.9 m", "valve - 0.89 m")))
    load = RELIEF.replace("at: J1", "at: stop valve")
    (found,) = study(text.replace("lines:", f"loads:\n  - {load}\nlines:", 1)).loads
    assert found.start.station == pytest.approx(20.6, rel=1e-15)


def test_loads_of_two_lines_stand_on_their_own_line():
    """Both lines have a place 30 m along; each load keeps the line it names."""
    other = VALID[VALID.index("  - name: S-7") :]
    for name in ("S-7", "boiler header", "gate corner", "vat header", "A1", "J1"):
        other = re.sub(rf"\b{name}\b", f"{name} bis", other)
    loads = (
        RELIEF.replace("at: J1", "at: 30 m"),
        RELIEF.replace("at: J1", "at: J1 bis").replace("on: S-7", "on: S-7 bis"),
    )
    found = study(with_top("loads", *loads) + other).loads
    assert [(load.line, load.start.station) for load in found] == [("S-7", 30.0), ("S-7 bis", 2.5)]
    wrong = RELIEF.replace("at: J1", "at: J1 bis")
    (message,) = faults(with_top("loads", wrong) + other)
    assert message.startswith("load relief, at: 'J1 bis' is no named place; the places are")
