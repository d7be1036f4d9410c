"""The duty file: what it says, what is looked up, every fault in its place."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from takeup.bellows.design import duty_from_bytes, own_stock, read_duty
from takeup.bellows.design.keys import KEYS, VERSION_KEY
from takeup.errors import InputError

EXAMPLE = Path(__file__).parents[4] / "examples" / "bellows" / "duty-thornby.yaml"
BASE = {
    "takeup_duty": "1",
    "inside_diameter": "219.1 mm",
    "pressure": "10 bar(g)",
    "temperature": "195 °C",
    "axial": "30 mm",
    "cycles": "1000",
    "curve": "ASME design",
    "material": "Alloy 321",
    "allowable_table": "ASME BPVC II-D Table 1A",
}


def text(**more):
    said = {key: value for key, value in (BASE | more).items() if value is not None}
    return "".join(f"{key}: {value}\n" for key, value in said.items()).encode()


def faults(**more):
    with pytest.raises(InputError) as caught:
        duty_from_bytes(text(**more), "d.yaml")
    return str(caught.value).splitlines()


def test_example_says_what_stands_in_it():
    """DN 200 is 219.1 mm outside (ASME B36.10M, from memory)."""
    read = read_duty(EXAMPLE)
    duty = read.duty
    assert read.name == "Thornby boiler house outlet"
    assert duty.inside_diameter == pytest.approx(0.2191, rel=1e-12)  # only doubles round
    assert (duty.pressure, duty.test_pressure) == (pytest.approx(1e6), pytest.approx(1.5e6))
    assert (duty.axial, duty.lateral) == (pytest.approx(0.035), pytest.approx(0.002))
    assert math.isnan(duty.angular)
    assert (duty.curve, duty.cycles, duty.vacuum) == ("EN design", 1000.0, False)
    assert duty.stock.plies == (1, 2, 3, 4)
    assert duty.most_length == pytest.approx(0.4)
    assert any("common practice, no source" in words for words in read.assumptions)


def test_pressure_is_inside_above_outside():
    assert duty_from_bytes(text(pressure="0 bar(g)", outside_pressure="16 bar(g)"), "d").duty.pressure == -1.6e6


def test_what_is_left_open_is_said():
    read = duty_from_bytes(text(), "d.yaml")
    assert read.duty.stock == own_stock()
    assert math.isinf(read.duty.most_length)
    said = " ".join(read.assumptions)
    for words in ("no vacuum", "no test pressure", "no tangents", "stock.csv", "as formed"):
        assert words in said
    assert "allowable stress 106.9 MPa" in said


def test_typed_strengths_need_their_source():
    typed = {"allowable_table": None, "allowable_stress": "107 MPa"}
    assert "whose allowable stress is it" in faults(**typed)[0]
    read = duty_from_bytes(text(**typed, allowable_source="own sheet 12"), "d.yaml")
    assert read.duty.metal.allowable[0] == pytest.approx(107e6)
    assert "own sheet 12 (user's data)" in " ".join(read.assumptions)


@pytest.mark.parametrize(
    ("more", "where", "words"),
    [
        ({"presure": "3 bar(g)"}, "d.yaml:10:1", "did you mean 'pressure'?"),
        ({"pressure": "10"}, "d.yaml:3:11", "it has no unit"),
        ({"curve": "EJMA average"}, "d.yaml:7:8", "expected ASME design or EN design"),
        ({"axial": None}, "d.yaml:1:1", "a movement is required"),
        ({"cycles": None}, "d.yaml:1:1", "the key 'cycles' is required"),
        ({"size": "DN 200"}, "d.yaml:2:18", "said twice"),
        ({"inside_diameter": None, "size": "DN 201"}, "d.yaml:9:7", "DN 201"),
        ({"material": "Alloy 999"}, "d.yaml:8:11", "Alloy 999"),
        ({"temperature": "900 °C"}, "d.yaml:4:14", "900"),
        ({"allowable_table": None}, "d.yaml:8:11", "the allowable stress is not stated"),
        ({"axial": "-3 mm"}, "d.yaml:5:8", "must not be below zero"),
        ({"stock": "{ plies: [1.5] }"}, "d.yaml:10:18", "whole number"),
        ({"stock": "{ plies: 2 }"}, "d.yaml:10:17", "expected a list"),
        ({"stock": "3"}, "d.yaml:10:8", "expected a mapping"),
        ({"limits": "{ lenght: 3 mm }"}, "d.yaml:10:11", "did you mean 'length'?"),
        ({"vacuum": "maybe"}, "d.yaml:10:9", "expected yes or no"),
        ({"test_pressure": "0 bar(g)"}, "d.yaml:10:16", "too small"),
        ({"takeup_duty": "2"}, "d.yaml:1:14", "reads version 1 only"),
        ({"takeup_duty": None, "takeup_bellows": "1"}, "d.yaml:1:1", "takeup bellows rate"),
    ],
)
def test_fault_stands_in_its_place(more, where, words):
    found = faults(**more)
    assert any(one.startswith(f"{where}:") and words in one for one in found), found


def test_every_fault_is_told_at_once():
    assert len(faults(curve="EJMA", axial="3", cycles=None, presure="1 bar(g)")) == 4


@pytest.mark.parametrize("content", [b"", b"- 1\n", b"just text\n"])
def test_what_is_no_duty_is_refused(content):
    with pytest.raises(InputError, match=VERSION_KEY):
        duty_from_bytes(content, "d.yaml")


def test_every_key_has_an_example_that_can_be_read():
    """Each example of the reference page alone in a sound file; strengths bring their sources."""
    for key in KEYS:
        more = {key.path[0]: key.example if len(key.path) == 1 else f"{{ {key.path[1]}: {key.example} }}"}
        if key.path == ("size",):
            more["inside_diameter"] = None
        more |= {"allowable_source": "own", "yield_source": "own"}
        duty_from_bytes(text(**more), "d.yaml")
