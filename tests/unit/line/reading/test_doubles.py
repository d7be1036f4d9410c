"""Doubles are read as two joints and an anchor base; keys that one kind has.     (line/reading/test_doubles.py)"""

from __future__ import annotations

import pytest
from tests.line_texts import VALID, changed, faults, study

KIND = "        kind: single axial\n"
BASE = "        base: { can_carry: 40 kN, can_carry_moment: 4 kN·m, source: sheet of the base }\n"


def double(kind: str = "double", *changes: tuple[str, str]) -> str:
    return changed((KIND, f"        kind: {kind}\n{BASE}"), ("live_length: 300 mm", "live_length: 250 mm"), *changes)


@pytest.mark.parametrize(
    ("kind", "half"), [("double", "single axial"), ("double externally pressurised", "externally pressurised")]
)
def test_a_double_is_two_joints_that_meet_at_their_base(kind, half):
    """2.5 m is the middle of 600 mm: halves of 300 mm, middles 2.35 m and 2.65 m; 65 kg x 9.80665/2 each (by hand)."""
    (line,) = study(double(kind)).lines
    first, second = line.takeups
    assert [(one.name, one.kind) for one in (first, second)] == [("J1, first", half), ("J1, second", half)]
    assert [one.position.station for one in (first, second)] == pytest.approx([2.35, 2.65])
    assert first.position.words == "boiler header + 2.5 m, first half"
    for one in (first, second):
        assert (one.data.length, one.data.weight) == pytest.approx((0.3, 32.5 * 9.80665))
        assert (one.data.axial_rate, one.data.live_length) == pytest.approx((150e3, 0.25))
        assert (one.data.axial_compression, one.data.effective_area) == pytest.approx((0.06, 0.049))
        assert one.data.source == "sheet of the maker, invented; its base: sheet of the base"


def test_the_base_of_a_double_is_an_intermediate_anchor_in_its_middle():
    (line,) = study(double()).lines
    base = next(hold for hold in line.holds if hold.name == "J1 base")
    assert (base.kind, base.position.station) == ("intermediate anchor", pytest.approx(2.5))
    assert (base.can_carry, base.can_carry_moment) == pytest.approx((40e3, 4e3))
    stations = [hold.position.station for hold in line.holds]
    assert stations == sorted(stations)


def test_a_preset_of_a_double_is_that_of_each_half():
    text = double("double", ("        data:\n", "        preset: 10 mm extended\n        data:\n"))
    assert [one.preset for one in study(text).lines[0].takeups] == pytest.approx([0.01, 0.01])


def test_a_load_may_stand_at_a_base_or_at_a_half():
    """2.5 m and 2.65 m, as the halves and the base stand."""
    loads = "".join(
        f"  - {{ name: {name}, on: S-7, at: '{at}', force: [0 kN, 0 kN, -1 kN], acts: sustained, source: invented }}\n"
        for name, at in (("one", "J1 base"), ("two", "J1, second"))
    )
    found = study(double("double", ("lines:\n", f"loads:\n{loads}lines:\n"))).loads
    assert [load.start.station for load in found] == pytest.approx([2.5, 2.65])


@pytest.mark.parametrize("ends", ["threaded", "welded", "flanged"])
def test_a_small_bore_compensator_says_how_it_is_joined(ends):
    text = changed(
        (KIND, f"        kind: small-bore compensator\n        ends: {ends}\n"),
        ("size: DN 200, wall: 8.18 mm", "size: DN 80, wall: 5.49 mm"),
    )
    (takeup,) = study(text).lines[0].takeups
    assert takeup.ends == ends


def test_sweat_ends_go_with_copper():
    text = changed(
        (KIND, "        kind: small-bore compensator\n        ends: sweat\n"),
        ("size: DN 200, wall: 8.18 mm, material: ASTM A106 B", "size: copper 54 mm, wall: 1.5 mm, material: copper"),
        ("by: spacing rule", "at: 10 m"),
        ("12 bar(g), temperature: 195 °C", "1.2 bar(g), temperature: 145 °C"),
        ("10 bar(g), temperature: 184 °C", "0.8 bar(g), temperature: 140 °C"),
    )
    assert study(text).lines[0].takeups[0].ends == "sweat"


def test_other_joints_have_no_ends():
    assert study(VALID).lines[0].takeups[0].ends is None


@pytest.mark.parametrize("side", ["-", "+"])
def test_an_elbow_balanced_joint_stands_right_beside_a_bend(side):
    """Before it or behind it. A long radius bend of DN 200 takes 304.8 mm of its leg (by the valid file's own faults).

    With half a joint, 300 mm, and 2 x 219.1 mm of pipe: 1043.0 mm from the corner to its middle, 1 mm less or more.
    """

    def at(distance: str) -> str:
        balance = "balance: { axial_rate: 90 N/mm, effective_area: 490 cm2, source: invented }"
        return changed(
            (KIND, f"        kind: elbow pressure balanced\n        {balance}\n"),
            ("boiler header + 2.5 m", f"gate corner {side} {distance}"),
        )

    assert study(at("1042 mm")).lines[0].takeups[0].balance is not None
    (fault,) = faults(at("1044 mm"))
    assert "stands right beside a bend" in fault
    assert fault.endswith("at most 2 outside diameters of pipe, 438.2 mm, lie between; the nearest is 0.4392 m away")


def test_the_base_of_a_double_may_be_a_main_anchor_and_says_which():
    said = BASE.replace("{ can_carry", "{ kind: main anchor, can_carry")
    (line,) = study(double("double", (BASE, said))).lines
    base = next(hold for hold in line.holds if hold.name == "J1 base")
    assert (base.kind, base.can_carry) == ("main anchor", pytest.approx(40e3))


def test_halves_of_a_double_tell_what_they_were_written_as():
    (line,) = study(double("double externally pressurised")).lines
    assert {one.written_as for one in line.takeups} == {"double externally pressurised"}
    assert study(VALID).lines[0].takeups[0].written_as == "single axial"


@pytest.mark.parametrize(("bearing", "sound"), [("31 deg", False), ("29 deg", True), ("329 deg", False)])
def test_the_bend_of_an_elbow_balanced_joint_is_near_a_right_angle(bearing, sound):
    """The first leg runs on bearing 90 deg: 31 deg turns by 59, 29 deg by 61, and 329 deg by 121 deg."""
    balance = "balance: { axial_rate: 90 N/mm, effective_area: 490 cm2, source: invented }"
    text = changed(
        (KIND, f"        kind: elbow pressure balanced\n        {balance}\n"),
        ("9 m north", f"9 m bearing {bearing}"),
        ("boiler header + 2.5 m", "gate corner - 0.9 m"),
    )
    if sound:
        study(text)
    else:
        assert any("made with an elbow of about 90 deg, from 60 to 120 deg" in message for message in faults(text))


@pytest.mark.parametrize("ends", ["welded", "flanged"])
def test_any_joint_may_say_how_it_is_joined(ends):
    text = changed((KIND, f"{KIND}        ends: {ends}\n"))
    assert study(text).lines[0].takeups[0].ends == ends
