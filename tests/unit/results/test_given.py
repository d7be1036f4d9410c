"""What the user typed of joints, rods, guides, stops, springs and the walk stands in the results, in their units.

The file is the one of the reference page, which uses every key; each number expected is the one typed there.
"""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

import takeup.results
from takeup.joints import joint_rates
from takeup.line.reading.reader import study_from_text
from takeup.results.joint_data import joint_data_part
from takeup.results.resolved import resolved_part

ROOT = Path(__file__).parents[3]
TEXT = (ROOT / "docs" / "reference" / "line-file-example.yaml").read_text(encoding="utf-8")
SCHEMA = json.loads((Path(takeup.results.__file__).parent / "results.schema.json").read_text(encoding="utf-8"))
ROUNDING = 1e-12  # relative: a few products of doubles


def fits(part: object, name: str) -> bool:
    jsonschema.Draft202012Validator({"$ref": f"#/$defs/{name}", "$defs": SCHEMA["$defs"]}).validate(part)
    return True


@pytest.fixture(scope="module")
def study():
    return study_from_text(TEXT, "x")


@pytest.fixture(scope="module")
def resolved(study):
    return resolved_part(study)


def joint(study, name):
    item = next(item for item in study.lines[0].takeups if item.name == name)
    return joint_data_part(item, joint_rates(item.data, 1.0))


def test_holds_say_their_clearance_gap_and_stops(resolved):
    assert fits(resolved, "resolved")
    holds = {hold["kind"]: hold for hold in resolved["holds"]}
    assert holds["slide guide"]["clearance_mm"] == pytest.approx(2.0, rel=ROUNDING)
    assert (holds["slide guide"]["gap_mm"], holds["planar guide"]["clearance_mm"]) == (None, 0.0)
    assert holds["stop"]["gap_mm"] == pytest.approx(5.0, rel=ROUNDING)
    assert holds["stop"]["clearance_mm"] is None
    spring = holds["spring hanger"]["spring"]
    assert (spring["stop_up_mm"], spring["stop_down_mm"]) == pytest.approx((25.0, 30.0), rel=ROUNDING)


def test_a_spring_without_stops_says_so():
    text = TEXT.replace("stop_up: 25 mm, stop_down: 30 mm, ", "")
    resolved = resolved_part(study_from_text(text, "x"))
    assert fits(resolved, "resolved")
    spring = next(hold["spring"] for hold in resolved["holds"] if hold["spring"])
    assert (spring["stop_up_mm"], spring["stop_down_mm"]) == (None, None)


@pytest.mark.parametrize(
    ("modulus", "friction"), [("at installation", "none"), ("at operating temperature", "locked in")]
)
def test_how_the_states_are_walked(modulus, friction):
    words = "{ modulus: at installation, friction_at_installation: none }"
    assert words in TEXT
    said = f"{{ modulus: {modulus}, friction_at_installation: {friction} }}"
    resolved = resolved_part(study_from_text(TEXT.replace(words, said), "x"))
    assert fits(resolved, "resolved")
    assert resolved["walk"] == {"modulus": modulus, "friction_at_installation": friction}


def test_joints_say_their_scatter_and_their_rods(study):
    one, two = joint(study, "J1"), joint(study, "J2")
    assert fits(one, "joint_data")
    assert fits(two, "joint_data")
    assert (one["rate_scatter"], one["centres_mm"], one["rods"]) == (0.15, None, None)
    assert two["rate_scatter"] is None
    assert two["centres_mm"] == pytest.approx(800.0, rel=ROUNDING)
    assert two["rods"] == {
        "count": 4,
        "diameter_mm": pytest.approx(20.0, rel=ROUNDING),
        "circle_mm": pytest.approx(230.0, rel=ROUNDING),
        "gap_mm": 0.0,
        "length_mm": pytest.approx(1100.0, rel=ROUNDING),
        "modulus_mpa": pytest.approx(200e3, rel=ROUNDING),
        "expansion_per_k": pytest.approx(12e-6, rel=ROUNDING),
        "can_carry_n": pytest.approx(25e3, rel=ROUNDING),
        "yield_strength_mpa": pytest.approx(200.0, rel=ROUNDING),  # of the file: yield_strength: 200 MPa
        "source": "invented for this example",
    }
