"""A joint's duty as a file: each key where it goes, each fault at its place."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest

from takeup.choose.selection.duty_file import KEYS, read_joint_duty
from takeup.errors import InputError

WHOLE = """\
takeup_joint_duty: 1
name: boiler house outlet
series: demonstration series
kind: single axial
size: DN 200
pressure: 10 bar(g)
minimum_pressure: -1 bar(g)
test_pressure: 15 bar(g)
temperature: 184 °C
compression: 42 mm
extension: 6 mm
lateral: 2 mm
angular: 0.5 deg
preset: 15 mm
cycles: 2000
room: 900 mm
medium: steam
rank: thrust
"""
LEAST = """\
takeup_joint_duty: 1
series: demonstration series
kind: any
size: NPS 8
pressure: 10 bar(g)
test_pressure: 15 bar(g)
temperature: 15 °C
compression: 42 mm
cycles: 2000
"""


def read(tmp_path, text):
    path = tmp_path / "duty.yaml"
    path.write_text(text, encoding="utf-8")
    return read_joint_duty(path)


def faults(tmp_path, text):
    with pytest.raises(InputError) as caught:
        read(tmp_path, text)
    return [(fault.line, fault.column, fault.message) for fault in caught.value.faults]


def test_every_key_goes_where_it_belongs(tmp_path):
    """Values as written, in SI; 0.5 deg = 0.00872665 rad; DN 200 is 219.1 mm outside (ASME B36.10M)."""
    duty = read(tmp_path, WHOLE)
    place = duty.place
    assert (duty.file, duty.series, duty.rank, len(duty.sha256)) == ("duty.yaml", "demonstration series", "thrust", 64)
    assert (place.name, place.kinds, place.medium) == ("boiler house outlet", ("single axial",), "steam")
    assert (place.size_dn, place.outside_diameter) == (200.0, pytest.approx(0.2191))
    assert place.states == ("test", "hot", "coldest day")
    assert place.tests.tolist() == [True, False, False]
    assert place.pressure.tolist() == pytest.approx([15e5, 10e5, -1e5])
    assert place.temperature.tolist() == [20.0, 184.0, 20.0]
    assert place.axial.tolist() == pytest.approx([0.0, -0.042, 0.006])
    assert place.lateral.tolist() == pytest.approx([0.0, 0.002, 0.0])
    assert place.angular.tolist() == pytest.approx([0.0, 0.00872665, 0.0], rel=1e-6)  # six figures
    assert (place.preset, place.cycles, place.room) == (pytest.approx(0.015), 2000.0, pytest.approx(0.9))


def test_whole_file_names_every_key():
    assert [key.path[0] for key in KEYS] == [line.partition(":")[0] for line in WHOLE.splitlines()[1:]]


def test_what_is_not_said_is_assumed_in_words(tmp_path):
    duty = read(tmp_path, LEAST)
    place = duty.place
    assert (place.kinds, place.size_dn, duty.rank, place.name) == ((), 200.0, "price", "the place")
    assert place.pressure.tolist() == pytest.approx([15e5, 10e5, 0.0])
    assert place.temperature.tolist() == [15.0, 15.0, 15.0]  # a cold duty is not tested warmer than it is
    assert np.all(place.axial == [0.0, -0.042, 0.0])
    assert (place.preset, place.room) == (0.0, math.inf)
    assert any("no vacuum" in words for words in duty.assumptions)
    assert any("room for any length" in words for words in duty.assumptions)
    assert len(duty.assumptions) == 3  # what a duty does not look at stands in the document, once


def test_examples_of_the_keys_are_read(tmp_path):
    """Each key's own example, as the reference page shows it."""
    text = "takeup_joint_duty: 1\n" + "".join(f"{key.path[0]}: {key.example}\n" for key in KEYS)
    assert read(tmp_path, text).place.cycles == 2000.0


@pytest.mark.parametrize("key", [key.path[0] for key in KEYS if key.required])
def test_key_that_is_required_is_missed(tmp_path, key):
    found = faults(tmp_path, re.sub(rf"^{key}:.*\n", "", LEAST, flags=re.MULTILINE))
    assert len(found) == 1
    assert found[0][2].startswith(f"the key '{key}' is required: ")


@pytest.mark.parametrize(
    ("old", "new", "place", "words"),
    [
        ("compression", "compresion", (8, 1), "unknown key 'compresion'"),
        ("cycles: 2000", "cycles: 2000\nrod: 3", (10, 1), "unknown key 'rod'"),
        ("10 bar(g)", "10 bar", (5, 11), "pressure"),
        ("10 bar(g)", "10", (5, 11), "pressure"),
        ("42 mm", "42 K", (8, 14), "compression"),
        ("42 mm", "-42 mm", (8, 14), "compression"),
        ("15 °C", "-300 °C", (7, 14), "temperature"),
        ("15 bar(g)", "-1 bar(g)", (6, 16), "test_pressure"),
        ("NPS 8", "DN 201", (4, 7), "size"),
        ("kind: any", "kind: hinge", (3, 7), "kind: found 'hinge'"),
        ("2000", "0", (9, 9), "cycles: '0': it must not be below 1"),
        ("2000", "0.5", (9, 9), "cycles: '0.5': it must not be below 1"),
        ("15 bar(g)", "9.9 bar(g)", (6, 16), "test_pressure: it is below the greatest pressure in service"),
        ("cycles: 2000", "cycles: 2000\nmedium: stean", (10, 9), "medium: found 'stean', expected water or steam"),
        ("2000", "none", (9, 9), "cycles"),
    ],
)  # fmt: skip
def test_fault_is_told_at_its_place(tmp_path, old, new, place, words):
    found = faults(tmp_path, LEAST.replace(old, new, 1))
    assert place in [(line, column) for line, column, _ in found]
    assert any(message.startswith(words) for line, column, message in found if (line, column) == place)


def test_copper_tube_is_compared_by_its_outside_diameter(tmp_path):
    """A tube of EN 1057 has no DN; it is named by its outside diameter."""
    place = read(tmp_path, LEAST.replace("NPS 8", "copper 54 mm")).place
    assert (place.size_dn, place.size) == (pytest.approx(54.0, rel=1e-12), "copper 54 mm")  # metres and back
    assert place.outside_diameter == pytest.approx(0.054)


def test_no_movement_is_a_fault(tmp_path):
    text = LEAST.replace("compression: 42 mm\n", "")
    assert [message for *_, message in faults(tmp_path, text)] == [
        "a movement is required: compression, extension, lateral or angular"
    ]


def test_least_pressure_above_the_greatest_is_a_fault(tmp_path):
    found = faults(tmp_path, LEAST + "minimum_pressure: 11 bar(g)\n")
    assert found == [(10, 19, "minimum_pressure: it is above the greatest pressure")]


def test_all_faults_come_at_once(tmp_path):
    text = LEAST.replace("NPS 8", "DN 201").replace("10 bar(g)", "10 bar").replace("kind: any\n", "")
    assert len(faults(tmp_path, text)) == 3  # size, pressure, kind


def test_duty_of_bellows_is_pointed_elsewhere(tmp_path):
    found = faults(tmp_path, "takeup_duty: 1\npressure: 10 bar(g)\n")
    assert "a duty of bellows is read by `takeup bellows design`" in found[0][2]
