"""Several lines in a file: where a branch begins, what is refused, names that say which line."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from tests.line_texts import changed, faults

from takeup.errors import InputError
from takeup.line import route_of
from takeup.line.reading.reader import study_from_text

HERE = Path(__file__).parent
BRANCHED = (HERE / "branched.yaml").read_text(encoding="utf-8")
PLACE = "at: yard corner + 3 m"


def test_branch_begins_on_the_centre_line_of_its_main():
    """3 m east of the yard corner: 30 m along a fall of 1 in 200, 9 m north, 3 m east, from [0, 0, 4.5 m]."""
    study = study_from_text(BRANCHED, "x")
    main, branch = study.lines
    assert branch.branch is not None
    assert (branch.branch.of, branch.branch.tee, branch.branch.pad) == (
        "LS-201",
        "reinforced fabricated tee",
        pytest.approx(0.008),
    )
    assert branch.branch.position.station == pytest.approx(42.0, abs=1e-12)
    level = 30.0 * 200.0 / math.hypot(200.0, 1.0)
    assert branch.start_at == pytest.approx((level + 3.0, 9.0, 4.5 - level / 200.0), abs=1e-12)
    assert branch.start_at == pytest.approx(tuple(route_of(main).point(42.0)), abs=1e-12)
    assert (branch.start.name, branch.start.kind) == ("press tee", "branch")


@pytest.mark.parametrize(("words", "station"), [("yard anchor - 2 m", 56.0), ("40 m", 40.0), ("wall - 1 m", 68.1541)])
def test_branch_stands_at_any_place_of_its_main(words, station):
    """A hold of the main is a place; the eccentric reducer, 152 mm with a shift of 25.4 mm, is 154.11 mm long."""
    text = changed((PLACE, f"at: {words}"), text=BRANCHED)
    branch = study_from_text(text.replace("      closed: branch valve\n", ""), "x").lines[1].branch
    assert branch is not None
    assert branch.position.station == pytest.approx(station, abs=1e-4)  # four decimals are printed


@pytest.mark.parametrize(
    ("place", "clear"),
    [
        ("roof corner + 450 mm", True),  # a right-angled bend of 450 mm takes 450 mm of either leg
        ("roof corner + 449 mm", False),
        ("roof corner - 449 mm", False),
        ("yard corner + 305 mm", True),  # 1.5 x 8 in = 304.8 mm
        ("yard corner + 304 mm", False),
        ("first face of main reducer", True),
        ("first face of main reducer + 1 mm", False),
        ("1 mm", True),
    ],
)
def test_branch_stands_on_a_straight_part(place, clear):
    text = changed(
        (PLACE, f"at: {place}"), ("go: 1.5 m north", "go: 1.5 m up"), ("go: 5 m north", "go: 5 m up"), text=BRANCHED
    )
    text = text.replace("go: 2 m north", "go: 2 m up").replace("go: 4 m north rising 2 %", "go: 4 m east rising 2 %")
    text = text.replace("      closed: branch valve\n", "").replace("rise, on_bend: crown", "press corner - 2 m")
    found = [] if _is_read(text) else faults(text)
    assert [("is at the bend" in message or "is inside" in message) for message in found] == [True] * (not clear)


def _is_read(text: str) -> bool:
    try:
        study_from_text(text, "x")
    except InputError:
        return False
    return True


@pytest.mark.parametrize(("degrees", "taken"), [(14.9, False), (15.1, True), (164.9, True), (165.1, False)])
def test_branch_leaves_at_fifteen_degrees_or_more(degrees, taken):
    """The main runs east there, at a bearing of 90 degrees; either sense counts."""
    text = BRANCHED.replace("go: 1.5 m north", f"go: 1.5 m bearing {90 - degrees:g} deg".replace("-", ""))
    if degrees > 90.0:
        text = BRANCHED.replace("go: 1.5 m north", f"go: 1.5 m bearing {450 - degrees:g} deg")
    for leg in ("go: 5 m north", "go: 2 m north", "go: 4 m north rising 2 %"):
        way = text.partition("go: 1.5 m ")[2].partition(",")[0]
        text = text.replace(leg, f"{leg[:7]} {way}" + (" rising 2 %" if "rising" in leg else ""))
    found = [] if _is_read(text) else faults(text)
    assert [("leaves LS-201 at 14.9 degrees" in message) for message in found] == [True] * (not taken)


def test_branch_on_a_joint_is_refused():
    joint = """    takeups:
      - name: J1
        kind: externally pressurised
        at: yard corner + 3.2 m
        data: { axial_rate: 150 N/mm, effective_area: 490 cm2, length: 600 mm, live_length: 300 mm, weight: 65 kg,
          axial_compression: 60 mm, axial_extension: 20 mm, pressure: 16 bar(g), temperature: 300 °C, source: invented }
  - name: LS-202
"""
    (message,) = faults(changed(("  - name: LS-202\n", joint), text=BRANCHED))
    assert "this place, at 42 m, is inside the joint J1" in message


def test_names_made_by_the_reader_say_which_line():
    main, branch = study_from_text(
        changed(("go: 5 m north }", "go: 2 m north }\n      - { go: 3 m north }"), text=BRANCHED), "x"
    ).lines
    assert branch.legs[2].to.name == "corner 3 of LS-202"
    assert branch.holds[0].name == "rest at rise of LS-202"
    assert main.holds[0].name == "yard anchor"


def test_one_line_alone_keeps_short_names():
    text = BRANCHED.partition("  - name: LS-202")[0]
    before, _, after = text.partition("states:")
    text = before + after[after.index("lines:") :]
    (line,) = study_from_text(
        text.replace(", to: yard end }", " }").replace("yard end - 1 m, name: yard anchor", "58 m"), "x"
    ).lines
    assert line.legs[2].to.name == "first face of main reducer"
    assert line.holds[0].name == "intermediate anchor at 58 m"


def test_branch_of_a_branch():
    third = """  - name: LS-203
    medium: steam
    pipe: { size: DN 100, schedule: 40, material: ASTM A106 B }
    insulation: none
    route:
      - { start: iron tee, as: branch, of: LS-202, at: branch valve + 2 m, tee: extruded outlet }
      - { go: 3 m east, to: iron room, as: main anchor }
"""
    study = study_from_text(BRANCHED + third, "x")
    (second, line) = study.lines[1:]
    assert line.branch is not None
    assert line.branch.position.station == pytest.approx(1.675 + 2.0, abs=1e-12)  # the middle of the valve and 2 m
    assert line.start_at == pytest.approx(tuple(route_of(second).point(3.675)), abs=1e-12)


def test_branch_of_an_unsound_line_is_not_judged():
    """The route of the main is unsound, so where the branch begins cannot be told, and nothing more is said."""
    (message,) = faults(changed(("go: 20 m east", "go: 20 m esat"), text=BRANCHED))
    assert "'esat' is not a direction" in message
