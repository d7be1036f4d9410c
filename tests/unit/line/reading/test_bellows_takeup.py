"""Take-ups that carry the geometry of their bellows.     (tests/unit/line/reading/test_bellows_takeup.py)"""

from __future__ import annotations

import numpy as np
import pytest
from tests.builders import GEOMETRY, joint, joint_by_geometry, line_file, rule, solve, study_of

from takeup.bellows.reading.inputs import INPUTS, WORDS
from takeup.errors import InputError
from takeup.joints import ComputedBellows
from takeup.line import TakeUp
from takeup.line.reading.schema_bellows import BellowsItem, TangentItem

GUIDED = (rule("slide guide", "spacing rule"), rule("rest", "support spans"))
WEST = "west end + 1.2 m"
UNRATED = dict.fromkeys(("axial_compression", "axial_extension", "lateral", "angular"))


def text_of(takeup: str) -> str:
    """Return the text of a straight line with one joint."""
    return line_file(["12 m east"], holds=GUIDED, takeups=(takeup,))


def read(takeup: str) -> TakeUp:
    """Return the joint as read."""
    return study_of(text_of(takeup)).lines[0].takeups[0]


def made_of(takeup: TakeUp) -> ComputedBellows:
    """Return the bellows of a joint that has its geometry."""
    assert takeup.bellows is not None
    return takeup.bellows


def faults_of(takeup: str) -> list[str]:
    """Return what is wrong with a file, each after its place."""
    with pytest.raises(InputError) as raised:
        study_of(text_of(takeup))
    return [f"{fault.column}: {fault.message.partition('take-up J1')[2]}" for fault in raised.value.faults]


def test_keys_are_those_of_a_bellows_file():
    """Shape and metal as there; pressure, temperature, movements, cycles and name stand elsewhere in a line file."""
    shared = {one.key for one in INPUTS if one.of != "duty"} | {
        (word.column,) for word in WORDS if word.column != "name"
    }
    inner = {("tangent", key) for key in TangentItem.model_fields}
    outer = {(key,) for key in BellowsItem.model_fields} - {("tangent",), ("life_curve",)}
    assert outer | inner == shared


def test_loads_are_those_of_the_same_rates_typed_in():
    """The geometry's rates, typed in with all their digits: one model, the rest is the rounding of decimal text."""
    by_geometry = solve(text_of(joint_by_geometry("J1", WEST)))
    data = by_geometry.line.takeups[0].data
    typed = solve(
        text_of(
            joint(
                "J1",
                WEST,
                axial_rate=f"{data.axial_rate!r} N/m",
                angular_rate=f"{data.angular_rate!r} N·m/rad",
                torsion_rate=f"{data.torsion_rate!r} N·m/rad",
                effective_area=f"{data.effective_area!r} m2",
                live_length=f"{data.live_length!r} m",
            )
        )
    )
    assert typed.line.takeups[0].bellows is None
    for one, other in zip(by_geometry.holds, typed.holds, strict=True):
        scale = float(np.abs(other.total).max()) or 1.0
        np.testing.assert_allclose(one.total, other.total, rtol=0.0, atol=1e-9 * scale)


def test_rates_are_the_shells_and_the_forms_stand_beside_them():
    """Two plies, C1 = 28/60 = 0.47: inside the charts, where the shell differs by some per cent and the area by none.

    A tenth: what the charts are known to be out by at such ratios, and ends welded stiffer than an inner convolution.
    """
    takeup = read(joint_by_geometry("J1", WEST))
    made = made_of(takeup)
    assert (takeup.data.axial_rate, takeup.data.effective_area) == (made.shell.axial, made.shell.effective_area)
    assert made.formula["axial"] == pytest.approx(made.shell.axial, rel=0.1)
    assert made.formula["axial"] != made.shell.axial
    # by hand: D_m = 219 + 30 + 1.6 = 250.6 mm, A_e = pi/4 D_m^2 = 49 323 mm2 (five figures)
    assert made.formula["effective_area"] == pytest.approx(49_323e-6, rel=1e-5)
    assert takeup.data.effective_area == pytest.approx(49_323e-6, rel=2e-3)  # the shell's reaction knows no D_m
    assert takeup.data.live_length == pytest.approx(6 * 0.028, rel=1e-12)


def test_outside_the_charts_the_shell_is_alone():
    """q/(2 w) = 50/(2 x 20) = 1.25 is above 1, where the charts end; torsion and area need no chart."""
    made = made_of(read(joint_by_geometry("J1", WEST, convolution_height="20 mm", pitch="50 mm")))
    assert made.formula["axial"] is made.formula["angular"] is made.formula["lateral"] is None
    assert made.formula["torsion"] is not None
    assert made.shell.axial > 0.0
    assert any("outside the published charts" in words for words in made.notes)


def test_ratings_left_out_are_those_of_the_wanted_life():
    """One convolution more in six moves a sixth more; both senses are alike; lateral and angular as the forms share."""
    six, seven = (read(joint_by_geometry("J1", WEST, **UNRATED, convolutions=str(count))).data for count in (6, 7))
    assert six.axial_compression == six.axial_extension
    assert seven.axial_compression / six.axial_compression == pytest.approx(7 / 6, rel=1e-12)
    # y = e N L_b/(3 D_m), theta = 2 N e/D_m, X = N e (forms, by hand): y = X L_b/(3 D_m), theta = 2 X/D_m
    assert six.lateral == pytest.approx(six.axial_compression * 0.168 / (3 * 0.2506), rel=1e-12)
    assert six.angular == pytest.approx(2.0 * six.axial_compression / 0.2506, rel=1e-12)


def test_two_bellows_move_twice_as_far_along_the_pipe():
    one = read(joint_by_geometry("J1", WEST, **UNRATED)).data
    two = read(joint_by_geometry("J1", WEST, **UNRATED, kind="universal", centres="600 mm")).data
    assert two.axial_compression == pytest.approx(2.0 * one.axial_compression, rel=1e-12)
    assert two.axial_rate == one.axial_rate  # of each
    # by hand: K_u = (3 L_u^2 - 3 L_b L_u)/(3 L_u^2 - 6 L_b L_u + 4 L_b^2), L_u = 600 + 168 mm, L_b = 168 mm: 1.19375;
    # y = 2 N e (L_u - L_b)/(K_u D_m) = 2 X 0.6/(1.19375 x 0.2506)
    factor = (3 * 0.768**2 - 3 * 0.168 * 0.768) / (3 * 0.768**2 - 6 * 0.168 * 0.768 + 4 * 0.168**2)
    assert two.lateral == pytest.approx(2.0 * one.axial_compression * 0.6 / (factor * 0.2506), rel=1e-12)
    assert two.angular == pytest.approx(2.0 * one.angular, rel=1e-12)  # each takes half of the turn


def test_guide_rings_leave_no_lateral_rating_to_compute():
    data = read(joint_by_geometry("J1", WEST, **UNRATED, kind="externally pressurised")).data
    assert (data.lateral, data.angular) == (None, None)
    assert data.axial_compression > 0.0


def test_every_value_of_a_geometry_goes_to_its_own_place():
    """All unlike one another, so that none can stand for another; units by definition, the last bit allowed for."""
    of = made_of(
        read(
            joint_by_geometry(
                "J1",
                WEST,
                crest_radius="7.5 mm",
                root_radius="6.5 mm",
                tangent="{ length: 25 mm, collar_thickness: 3 mm, collar_length: 20 mm }",
                modulus="185 GPa",
                cold_modulus="195 GPa",
                poisson="0.29",
                yield_strength="160 MPa",
                allowable_stress="107 MPa",
                annealed="yes",
                family="higher alloy 625/825",
            )
        )
    ).of
    lengths = {
        "inside_diameter": 0.219,
        "height": 0.030,
        "pitch": 0.028,
        "ply_thickness": 0.0008,
        "crest_radius": 0.0075,
        "root_radius": 0.0065,
        "tangent_length": 0.025,
        "collar_thickness": 0.003,
        "collar_length": 0.020,
    }
    assert {name: getattr(of, name) for name in lengths} == pytest.approx(lengths, rel=1e-15)
    assert (of.convolutions, of.plies, of.curve) == (6.0, 2.0, "EN design")
    numbers = (185e9, 195e9, 0.29, 160e6, 107e6, 300.0)
    metal = of.metal
    assert (
        metal.modulus, metal.cold_modulus, metal.poisson, metal.yield_strength, metal.allowable, metal.temperature
    ) == pytest.approx(numbers, rel=1e-15)  # fmt: skip
    words = ("Alloy 321", "yes", "higher alloy 625/825", "ASME BPVC II-D Table 1A")
    assert (metal.material, metal.annealed, metal.family, metal.allowable_table) == words


def test_radius_not_said_is_a_quarter_of_the_pitch():
    of = made_of(read(joint_by_geometry("J1", WEST, root_radius="6.5 mm"))).of
    assert (of.crest_radius, of.root_radius) == pytest.approx((0.007, 0.0065), rel=1e-15)  # the last bit of a unit


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"axial_rate": "95 N/mm"}, "data, axial_rate: two answers: it is computed from the geometry under 'bellows'"),
        ({"torsion_rate": "9 N·m/deg"}, "data, torsion_rate: two answers"),
        ({"crest_radius": "15 mm"}, "bellows: crest radius 15 mm: the walls of neighbouring crests cross"),
        (
            {"crest_radius": "9 mm", "root_radius": "9 mm", "convolution_height": "18 mm"},
            "bellows: the radii overlap",
        ),
        ({"material": "Alloy 3211"}, "bellows, material: unknown material 'Alloy 3211'"),
        (
            {"material": None, "allowable_table": None},
            "bellows: the modulus and Poisson's ratio of the metal not stated",
        ),
        ({"pitch": "28 m"}, "bellows, pitch: '28 m': it is above 2000 mm; is its unit right?"),
        ({"pitch": "0.03 mm"}, "bellows, pitch: '0.03 mm': it is below 0.5 mm; is its unit right?"),
        (
            {"tangent": "{ length: 20 mm, collar_thickness: 2 mm, collar_length: 21 mm }"},
            "bellows, tangent, collar_length: the collar, 21 mm, is longer than the tangent that it sits on, 20 mm",
        ),
        (
            {"tangent": "{ collar_thickness: 2 mm, collar_length: 21 mm }"},
            "bellows, tangent, collar_length: a collar sits on a tangent, and there is none",
        ),
        (
            {"tangent": "{ length: 20 mm, collar_thickness: 2 mm }"},
            "bellows, tangent, collar_thickness: a collar has a length too",
        ),
        ({"convolutions": "6.5"}, "bellows, convolutions: '6.5': it must be a whole number"),
        ({"pitch": None}, "bellows: the key 'pitch' is required: pitch, from crest to crest; expected a length"),
        ({"pressure_inside": "3 bar(g)"}, "bellows: unknown key 'pressure_inside'"),
        ({"cycles": "1000"}, "bellows: the line's own movements and the joint's data say this; leave this key out"),
        ({"life_curve": "EJMA average"}, "bellows, life_curve: the life curve 'EJMA average' is an average"),
        ({"axial_extension": None}, "data: the key 'axial_extension' is required: rated axial movement, longer"),
        ({**UNRATED, "life_curve": None}, "data: no rated axial movement is typed in: type it in, or state"),
        ({**UNRATED, "rated_cycles": None}, "data: no rated axial movement is typed in: type it in, or state"),
        ({**UNRATED, "pressure": "90 bar(g)"}, "none can be computed: pressure alone uses up the stress range"),
        ({"length": "160 mm"}, "data, length: 168 mm of convolutions is above the length, '160 mm'"),
    ],
)
def test_fault_is_found_at_its_place(changes, expected):
    found = faults_of(joint_by_geometry("J1", WEST, **changes))
    assert any(expected.partition(": ")[2] in fault and expected.partition(": ")[0] in fault for fault in found), found


def test_metal_of_a_bellows_must_be_tabulated_at_every_temperature():
    """The pipe's modulus begins at -75 degC, Alloy 321's at -100 degF, -73.3 degC (modulus.csv, modulus_us.csv)."""
    text = text_of(joint_by_geometry("J1", WEST)).replace("coldest: 70 °F", "coldest: -74 °C")
    with pytest.raises(InputError, match="modulus of Alloy 321"):
        study_of(text)


def test_without_a_geometry_rates_are_asked_for():
    found = faults_of(joint("J1", WEST, axial_rate=None, effective_area=None, live_length=None))
    assert [fault.partition("the key ")[2].split(" is ")[0] for fault in found] == [
        "'axial_rate'", "'effective_area'", "'live_length'",
    ]  # fmt: skip
    assert "expected a force per length with its unit, such as 150 N/mm" in found[0]


def test_geometry_of_the_builder_is_the_one_that_the_hand_numbers_are_of():
    assert [GEOMETRY[key] for key in ("inside_diameter", "convolution_height", "plies", "ply_thickness")] == [
        "219 mm", "30 mm", "2", "0.8 mm",
    ]  # fmt: skip
