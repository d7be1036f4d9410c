"""Overall length and weight of joints from their parts, by hand.     (joints/sizing/test_parts.py)

Every expected number is worked by hand beside it, to the figures that the tolerance says.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from takeup.bellows.forms.movement import universal_lateral_equivalent
from takeup.bellows.geometry import bellows
from takeup.bellows.reading.metals import StatedMetal
from takeup.errors import OutOfRange
from takeup.joints import KINDS, Hardware, JointBellows, JointData, Pins, Rods
from takeup.joints.sizing import masses, parts
from takeup.joints.sizing.known import known_parts
from takeup.joints.sizing.spool_wanted import spool_wanted

FIVE = 1e-4  # figures of the hand calculations
STEEL = 7850.0
PIPE = parts.Metal(outside_diameter=0.2191, wall=8.18e-3, density=STEEL)  # 42.549 kg/m by hand: pi 210.92 x 8.18 mm2


def shape(length: float = 0.01):
    """Return the bellows of the series' tests: 7.6261 kg of 7900 kg/m3 by hand, live length 240 mm."""
    return bellows(
        inside_diameter=0.2191,
        height=0.03,
        pitch=0.03,
        convolutions=8,
        plies=2,
        ply_thickness=1e-3,
        tangent_length=length,
        collar_thickness=2e-3,
        collar_length=length,
    )


def rods(**changes: object) -> Rods:
    given = {
        "count": 4, "diameter": 0.024, "circle": 0.4, "gap": 0.0, "length": 1.1, "modulus": 200e9, "expansion": None,
        "can_carry": None, "source": "invented",
    }  # fmt: skip
    unsaid = dict.fromkeys(set(Rods.__dataclass_fields__) - set(given))
    return Rods(**unsaid | given | changes)


def pins(**changes: object) -> Pins:
    given = {
        "along": (0.0, 1.0), "spread": 0.32, "diameter": 0.04, "width": 0.08, "thickness": 0.025, "length": 0.6,
        "modulus": 200e9, "expansion": None, "friction": None, "can_carry": None, "source": "invented",
    }  # fmt: skip
    unsaid = dict.fromkeys(set(Pins.__dataclass_fields__) - set(given))
    return Pins(**unsaid | given | changes)


def data(**changes: object) -> JointData:
    given: dict[str, object] = {
        "axial_rate": 95e3, "lateral_rate": None, "angular_rate": None, "torsion_rate": None, "effective_area": 0.046,
        "length": 1.1, "live_length": 0.24, "weight": 1900.0, "axial_compression": 0.04, "axial_extension": 0.02,
        "lateral": None, "angular": None, "pressure": 16e5, "test_pressure": None, "minimum_pressure": None,
        "temperature": 300.0, "rated_cycles": 2000.0, "source": "invented",
    }  # fmt: skip
    return JointData(**(given | changes))


def made(material: str = "Alloy 321") -> JointBellows:
    """Return the same bellows as a line file states it."""
    metal = StatedMetal(
        material=material, annealed="no", family="", allowable_table="", temperature=300.0, modulus=None,
        cold_modulus=None, poisson=None, yield_strength=None, allowable=None,
    )  # fmt: skip
    one = shape()
    return JointBellows(
        **{name: float(getattr(one, name)[0]) for name in type(one).__dataclass_fields__}, metal=metal, curve=None
    )


def test_mass_of_a_ring_hand_calculation():
    """300 mm outside, 220 mm hole, 20 mm: pi/4 (90000 - 48400) = 32 672.6 mm2, 653 451 mm3, 5.1296 kg."""
    assert masses.ring_mass(0.3, 0.22, 0.02, STEEL) == pytest.approx(5.1296, rel=FIVE)
    with pytest.raises(OutOfRange, match="face"):
        masses.ring_mass(0.2, 0.2, 0.02, STEEL)


def test_mass_of_a_plate_hand_calculation():
    """600 x 80 x 25 mm = 1 200 000 mm3, 9.42 kg; a hole of 40 mm takes 31 416 mm3 off, 0.24662 kg."""
    assert masses.plate_mass(0.6, 0.08, 0.025, STEEL) == pytest.approx(9.42, rel=1e-12)
    hole = math.pi / 4.0 * 0.04**2
    assert masses.plate_mass(0.6, 0.08, 0.025, STEEL, holes=hole) == pytest.approx(9.42 - 0.24662, rel=FIVE)
    with pytest.raises(OutOfRange, match="leave of the plate"):
        masses.plate_mass(0.01, 0.01, 0.025, STEEL, holes=hole)


def test_mass_of_a_nut_hand_calculation():
    """24 mm: s = 36, h = 19.2; sqrt(3)/2 1296 - 452.389 = 669.980 mm2, 12 863.6 mm3, 0.10098 kg.

    ISO 4032 has h = 21.5 mm for M24 (from memory): 0.113 kg, 12 % more; two nuts are half a percent of a joint.
    """
    assert masses.nut_mass(0.024, STEEL) == pytest.approx(0.10098, rel=FIVE)


def test_mass_of_a_rod_hand_calculation():
    """24 mm, 1 m: 452.389 mm2 at 7850 kg/m3, 3.5513 kg."""
    assert masses.rod_mass(0.024, 1.0, STEEL) == pytest.approx(3.5513, rel=FIVE)
    with pytest.raises(OutOfRange, match="diameter"):
        masses.rod_mass(0.0, 1.0, STEEL)


def test_single_axial_with_tie_rods_from_parts():
    """Ends 2 x 200 mm, bellows 240 mm: 640 mm. 17.020 + 7.6261 + 4 x 4.0428 + 8 x 0.10098 = 41.625 kg.

    Pipe 42.549 kg/m; a rod of 1100 + 2 x 19.2 = 1138.4 mm weighs 3.5513 x 1.1384 = 4.0428 kg.
    """
    joint = [
        parts.tube_part("end", PIPE, 0.2, count=2),
        parts.bellows_part(shape(), 7900.0, 1),
        *parts.rod_parts(rods(), STEEL),
    ]
    assert parts.overall_length(joint) == pytest.approx(0.64, rel=1e-12)
    assert parts.overall_mass(joint) == pytest.approx(17.0197 + 7.6261 + 16.171 + 0.80784, rel=FIVE)


def test_universal_with_limit_rods_on_each_bellows_from_parts():
    """2 x 150 + 2 x 240 + 400 = 1180 mm; pipe 0.7 m 29.7845, bellows 15.2522, 8 rods 32.342, nuts 1.6157: 78.994 kg."""
    joint = [
        parts.tube_part("end", PIPE, 0.15, count=2),
        parts.tube_part("spool", PIPE, 0.4),
        parts.bellows_part(shape(), 7900.0, 2),
        *parts.rod_parts(rods(gap=0.02), STEEL, sets=2),
    ]
    assert parts.overall_length(joint) == pytest.approx(1.18, rel=1e-12)
    assert parts.overall_mass(joint) == pytest.approx(78.994, rel=FIVE)


def test_gimbal_from_parts():
    """Ends and bellows as above 24.6458 kg; plates 2 x (9.42 - 2 x 0.24662) = 17.8535, pins 4 x 0.24662 = 0.98646.

    Ring 340/300 x 60 mm: pi/4 (115600 - 90000) = 20 106.2 mm2, 1 206 372 mm3, 9.4700 kg; end rings 300/220 x 20 mm,
    2 x 5.1296. In all 63.215 kg, 640 mm.
    """
    joint = [
        parts.tube_part("end", PIPE, 0.2, count=2),
        parts.bellows_part(shape(), 7900.0, 1),
        *parts.pin_parts(pins(), "gimbal", STEEL),
        parts.ring_part("gimbal ring", 0.34, 0.3, 0.06, STEEL),
        parts.ring_part("end ring", 0.3, 0.22, 0.02, STEEL, count=2),
    ]
    assert parts.overall_length(joint) == pytest.approx(0.64, rel=1e-12)
    assert parts.overall_mass(joint) == pytest.approx(63.215, rel=FIVE)


def test_externally_pressurised_from_parts():
    """As the series builds it (series/test_series_parts.py): 326 + 130 mm, 32.80 kg round a bellows of 7.6261 kg."""
    pipe = parts.Metal(outside_diameter=0.2191, wall=4.5e-3, density=STEEL)
    house = parts.Metal(outside_diameter=0.3011, wall=6e-3, density=STEEL)
    joint = [
        parts.tube_part("end", pipe, 0.065, count=2),
        parts.housing_part(house, 0.24, 0.05, 0.036),
        parts.ring_part("ring", 0.3011, 0.2191, 0.012, STEEL, count=3),
        parts.tube_part("inner pipe", pipe, 0.252, in_row=False),
        parts.bellows_part(shape(), 7900.0, 1, in_row=False),
    ]
    assert parts.overall_length(joint) == pytest.approx(0.456, rel=1e-12)
    assert parts.overall_mass(joint) == pytest.approx(32.80 + 7.6261, rel=1e-3)  # four figures of the hand


def test_in_line_balanced_from_parts():
    """Two halves of 240 mm and a balancing bellows of 240 mm, three spools of 60 mm and 2 x 150 mm: 1200 mm.

    Bellows 3 x 7.6261 = 22.878 kg, pipe 0.48 m 20.4236 kg, ties 4.0428 x 4 and nuts 0.80784: 60.281 kg.
    """
    joint = [
        parts.tube_part("end", PIPE, 0.15, count=2),
        parts.bellows_part(shape(), 7900.0, 2),
        parts.bellows_part(shape(), 7900.0, 1, name="balancing bellows"),
        parts.tube_part("spool", PIPE, 0.06, count=3),
        *parts.rod_parts(rods(), STEEL),
    ]
    assert parts.overall_length(joint) == pytest.approx(0.3 + 0.72 + 0.18, rel=1e-12)
    assert parts.overall_mass(joint) == pytest.approx(60.281, rel=FIVE)


def test_double_with_base_liner_and_cover_from_parts():
    """Two bellows, 2 x 150 mm of ends, 300 mm of spool on a foot 300 x 200 x 20 mm (9.42 kg); 1080 mm.

    Liners 180 x 2 mm, 300 mm: pi 178 x 2 x 300 = 335 522 mm3, 2.6338 kg each; covers 300 x 1 mm, 320 mm: pi 299 x 320
    = 300 587 mm3, 2.3596 kg each. Pipe 0.6 m 25.5295, bellows 15.2522: 60.189 kg.
    """
    liner, cover = (parts.Metal(outside_diameter=d, wall=e, density=STEEL) for d, e in ((0.18, 2e-3), (0.3, 1e-3)))
    joint = [
        parts.tube_part("end", PIPE, 0.15, count=2),
        parts.bellows_part(shape(), 7900.0, 2),
        parts.tube_part("spool", PIPE, 0.3),
        parts.plate_part("foot", (0.3, 0.2, 0.02), STEEL),
        parts.tube_part("liner", liner, 0.3, count=2, in_row=False),
        parts.tube_part("cover", cover, 0.32, count=2, in_row=False),
    ]
    assert parts.overall_length(joint) == pytest.approx(1.08, rel=1e-12)
    assert parts.overall_mass(joint) == pytest.approx(60.189, rel=FIVE)


def test_what_a_line_file_says_of_a_tied_universal():
    """1.1 m, bellows of 240 mm 600 mm apart: spool 360 mm, 15.3177 kg; ends 260 mm, 11.063 kg; rods, nuts 16.979 kg.

    Bellows of Alloy 321, whose density the library has: 2 x 7.6261 kg at 7900 kg/m3. Rods of 1100 mm.
    """
    known = known_parts(KINDS["tied universal"], data(centres=0.6), Hardware(rods=rods()), made(), PIPE)
    assert known is not None
    weights = {part.name: part.mass for part in (*known.given, *known.taken)}
    density = float(known.notes[0].split(", ")[1].split()[0])
    assert weights == pytest.approx(
        {"bellows": 15.2522 * density / 7900.0, "rods": 16.171, "nuts": 0.80784, "spool": 15.3177, "ends": 11.063},
        rel=FIVE,
    )
    assert known.least_length == pytest.approx(2.0 * 0.24 + 0.36 + 0.02, rel=1e-12)  # two tangents of 10 mm
    assert known.missing == ("lugs or rings that the rods pull on", "liner and cover, if any", "flanges", "welds")


def test_what_is_not_known_is_named():
    hinge = known_parts(KINDS["hinged"], data(), Hardware(pins=pins()), None, PIPE)
    assert hinge is not None
    assert hinge.missing[:2] == ("its bellows, whose geometry is not given", "end rings")
    assert [part.name for part in hinge.given] == ["plates", "pins"]
    soft = known_parts(KINDS["gimbal"], data(), Hardware(pins=pins(modulus=70e9)), None, PIPE)
    assert soft is not None
    assert soft.given == ()
    assert "70 GPa is no steel's" in soft.missing[1]
    housed = known_parts(KINDS["externally pressurised"], data(), Hardware(), made("unheard of"), PIPE)
    assert housed is not None
    assert housed.missing[0] == "its bellows: the library has no density of unheard of"
    assert housed.taken == ()  # what stands in a row with a housing is not known
    assert known_parts(KINDS["single axial"], data(), Hardware(), None, PIPE) is None


@pytest.mark.parametrize(("lateral", "axial"), [(0.02, 0.0), (0.02, -0.01), (0.05, 0.005)])
def test_the_spool_wanted_moves_a_convolution_as_far_as_is_left(lateral, axial):
    """e_y of the joint with that spool equals (X - |x|)/(2 N) = (40 mm - |x|)/16: the formula put back into itself."""
    found = spool_wanted(data(centres=0.6), made(), [(0.0, 0.0), (axial, lateral)])
    assert found is not None
    assert (found.number, found.built) == (1, pytest.approx(0.36))
    assert found.allowed == pytest.approx((0.04 - abs(axial)) / 16.0)
    assert found.needed is not None
    mean = 0.2191 + 0.03 + 0.002
    back = universal_lateral_equivalent(
        np.array([lateral]), np.array([mean]), np.array([8.0]), length=np.array([0.24]),
        overall=np.array([0.48 + found.needed]), axial=np.array([min(axial, 0.0)]),
    )  # fmt: skip
    if found.needed > 0.0:
        assert float(back[0]) == pytest.approx(found.allowed, rel=1e-9)
    else:
        assert float(back[0]) <= found.allowed


def test_no_spool_is_long_enough_where_axial_movement_takes_all():
    found = spool_wanted(data(centres=0.6), made(), [(-0.04, 0.01), (0.0, 0.02)])
    assert found is not None
    assert (found.number, found.needed) == (0, None)
    assert spool_wanted(data(), made(), [(0.0, 0.01)]) is None
