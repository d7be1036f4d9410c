"""A proposal is a whole line file that reads to the line that was meant.     (reading/test_write_proposal.py)"""

from __future__ import annotations

import hashlib
import re
from dataclasses import replace

import pytest
from tests.alike import differences
from tests.builders import hold, line_file

from takeup import __version__
from takeup.choose.resolve import choose_joints
from takeup.line import Line, Study
from takeup.line.looped import LoopPlan, looped
from takeup.line.reading.reader import study_from_text
from takeup.line.reading.write_proposal import Additions, proposal_text

LOOP = LoopPlan(name="pipe loop", station=30.0, width=2.0, depth=3.0, towards=(0.0, 1.0, 0.0))
ANCHORS = (
    "{ kind: main anchor, at: 18 m, name: A1, can_carry: 25 kN, can_carry_moment: 2.5 kN·m }",
    "{ kind: intermediate anchor, at: yard corner + 3 m, can_carry: 12.3456789 kN }",
)
SPRING = "{ rate: 20 N/mm, cold_load: 2 kN, least_load: 1 kN, most_load: 3 kN, locked_in_test: no, source: a sheet }"
STIFF = '{ force: [80 kN/mm, rigid, 1.7 kN/mm], moment: [rigid, 5 kN·m/deg, rigid], source: "a sheet, invented" }'
EVERY_KEY = (
    f"{{ kind: main anchor, at: 18 m, stiffness: {STIFF}, settlement: [0 mm, 1 mm, -3 mm] }}",
    "{ kind: directional anchor, at: 6 m, along: north }",
    "{ kind: stop, at: 8 m, against: against flow, gap: 2.5 mm }",
    "{ kind: stop, at: 9 m, against: west }",
    "{ kind: planar guide, at: 10 m, free_along: up, slides_on: PTFE on steel, clearance: 3 mm }",
    '{ kind: slide guide, at: 12 m, name: "guide, of ours: 1", friction: { low: 0.1, high: 0.25, source: "ours: 7" } }',
    f"{{ kind: spring hanger, at: 14 m, spring: {SPRING} }}",
    "{ kind: rest, at: 16 m, slides_on: PTFE on steel, hot_leg: 300 mm, only_in: [under hydrostatic test] }",
    "{ kind: rest, at: yard corner, on_bend: crown, slides_on: PTFE on steel }",
    "{ kind: spider guide, at: yard corner, on_bend: tangent end, slides_on: PTFE on steel, can_carry: 3 kN }",
)
FITTED = (
    'joint: "axial DN 200, 20 bar, 40 mm", preset: 7.5 mm compressed, '
    "misalignment: { lateral: 1.5 mm, angular: 0.2 deg }"
)
JOINTS = (
    '{ name: J1, kind: single axial, at: 5 m, from: demonstration series, joint: "axial DN 200, 12 bar, 25 mm" }',
    f"{{ name: J2, kind: single axial, at: yard corner + 6 m, from: demonstration series, {FITTED} }}",
)
LEGS = ["60 m east, to: yard corner", "20 m south"]
RESTS = (hold("rest", "3 m"), hold("rest", "50 m"))


def meant_by(typed: str) -> Study:
    return choose_joints(study_from_text(typed, "test.yaml"))


def proposed(bare: str, meant: Line, loops: tuple[LoopPlan, ...] = ()) -> str:
    """Write what a line has beside the bare one into the bare file."""
    known = {one.name for one in study_from_text(bare.removeprefix("\ufeff"), "test.yaml").lines[0].holds}
    added = [one for one in meant.holds if one.name not in known]
    return proposal_text(
        bare,
        "folder/test.yaml",
        additions=[Additions(line="T-1", holds=added, takeups=meant.takeups, loops=loops)],
        head="The best of three by cost.\nAn anchor on the roof.",
    )


def block(text: str) -> str:
    """Return a text with the last lists of the file indented, one key a line."""
    return re.sub(
        r"- \{ kind: (\w+), at: (\w+ m), slides_on: ([^}]+?) \}",
        r"- kind: \1   # a comment of its own"
        "\n        at: \\2\n        slides_on: \\3  # and one more",
        text,
    )


def brackets(text: str) -> str:
    """Return a text with its holds between brackets."""
    head, tail = text.split("    holds:\n")
    items = [line.strip().removeprefix("- ") for line in tail.splitlines()]
    return f"{head}    holds: [ {', '.join(items)} ]\n"


BARE = {
    "flow items": line_file(LEGS, holds=RESTS),
    "indented": block(line_file(LEGS, holds=RESTS)),
    "between brackets": brackets(line_file(LEGS, holds=RESTS)),
    "no holds": line_file(LEGS),
    "empty lists": line_file(LEGS) + "    holds: []\n    takeups: [ ]\n",
    "no last line end": line_file(LEGS, holds=RESTS).rstrip("\n") + "  # the end",
    "a line between braces": line_file(LEGS).split("    medium")[0].replace("- name: T-1", "- { name: T-1,")
    + "medium: steam, pipe: { size: DN 200, wall: 8.18 mm, material: ASTM A106 B, bends: long radius },\n"
    + "      insulation: none, route: [ { start: west end, at: [0 m, 0 m, 0 m], as: main anchor },\n"
    + "        { go: 60 m east, to: yard corner }, { go: 20 m south, to: east end, as: main anchor } ] }  # closed\n",
}


@pytest.mark.parametrize("style", list(BARE))
@pytest.mark.parametrize("end", ["\n", "\r\n"], ids=["LF", "CRLF"])
@pytest.mark.parametrize("added", [ANCHORS, EVERY_KEY, ()], ids=["anchors", "every key", "joints alone"])
def test_the_text_reads_to_what_was_meant(style: str, end: str, added: tuple[str, ...]):
    """What is meant is a file typed by hand; the bare one with the same written in says the same, in every style."""
    has_rests = "rest" in BARE[style].split("route:")[1]
    typed = line_file(LEGS, holds=(*(RESTS if has_rests else ()), *added), takeups=JOINTS)
    meant = meant_by(typed)
    text = proposed(BARE[style].replace("\n", end), meant.lines[0])
    assert differences(meant_by(text), meant) == []
    assert end == "\n" or "\n" not in text.replace("\r\n", "")


@pytest.mark.parametrize("style", list(BARE))
def test_everything_else_stays_byte_for_byte(style: str):
    """With what was added taken out again, by its lines or its words, the bare file is left."""
    bare = BARE[style]
    meant = meant_by(line_file(LEGS, holds=ANCHORS, takeups=JOINTS)).lines[0]
    text = proposed(bare, meant)
    head, _, tail = text.partition("\n\n")
    assert all(line.startswith("# ") for line in head.splitlines())
    place = 0
    for letter in bare:  # the bare file is there whole, in order
        place = tail.index(letter, place) + 1
    kept = [line for line in bare.splitlines() if "holds" not in line and "takeups" not in line and "] }" not in line]
    assert [line for line in tail.splitlines() if line in kept] == kept


def test_the_head_says_what_it_is_and_from_which_file():
    bare = "\ufeff" + BARE["no holds"]
    text = proposal_text(
        bare, "folder/test.yaml", additions=[Additions(line="T-1")], head="The best of three.\n\nBy cost."
    )
    digest = hashlib.sha256(bare.encode()).hexdigest()
    assert text == (
        "\ufeff# The best of three.\n#\n# By cost.\n"
        f"# Proposed by takeup {__version__} from test.yaml, SHA-256 {digest}, dated 2026-02-03.\n\n" + bare[1:]
    )


MORE = """    zones:
      - { name: far end, from: strainer - 2 m }
    may_hold:
      - { at: [10 m, 30.5 m, 40 m], can_carry: { force: 25 kN } }
      # The loop stands where this one would.
      - { at: 29 m }
      - at: 52 m
    keep_clear: [ [35 m, 37 m], [2 m, east end - 6 m] ]
    loop_room: [ { towards: north, depth: 4 m, between: [20 m, 44 m] } ]
  - name: B-1
    medium: steam
    pipe: { size: DN 100, wall: 6.02 mm, material: ASTM A106 B }
    insulation: none
    route:
      - { start: tee, as: branch, of: T-1, at: 46 m, tee: welding tee }
      - { go: 4 m north }
      - { go: 3 m east, to: branch end, as: main anchor }
loads:
  - { name: gust, on: T-1, from: 20 m, to: 50 m, force_per_length: [0 N/m, 8 N/m, 0 N/m], acts: sustained, source: us }
  - { name: hoist, on: T-1, at: rest at 50 m of T-1, force: [0 N, 0 N, -400 N], acts: sustained, source: a test }
"""
ROUTE = """      - { start: west end, at: [0 m, 0 m, 0 m], as: main anchor }
      - { go: 15 m east, to: kink }
      # A leg with everything.
      - go: "45 m east"   # as measured
      - { go: 3 m north }
      - { change: thinner, insulation: none }
      - by: [0 m, 2500 mm, 0 m]
      - { item: strainer, length: 0.5 m, weight: 1 kN }
      - { go: 9 m, along: [0, 2, 0] }
      - { go: 5 m west, to: east end, as: main anchor }
"""


def crowded() -> str:
    holds = (hold("rest", "50 m"), hold("slide guide", "[4 m, 55 m, kink + 41 m]"), hold("rest", "strainer - 1 m"))
    takeups = (JOINTS[0], JOINTS[0].replace("J1", "J3").replace("at: 5 m", "at: rest at 50 m of T-1 - 1.5 m"))
    text = line_file(["9 m east"], holds=holds, takeups=takeups)
    head, tail = text.split("    route:\n")
    return f"{head}    route:\n{ROUTE}{tail[tail.index('    holds:') :]}{MORE}"


@pytest.mark.parametrize("end", ["\n", "\r\n"], ids=["LF", "CRLF"])
def test_a_loop_moves_everything_on_a_crowded_line(end: str):
    """Places by station, by names before and behind it, default names, a branch, loads, zones, stretches."""
    bare = crowded().replace("\n", end)
    study = study_from_text(bare, "test.yaml")
    written = proposal_text(bare, "test.yaml", additions=[Additions(line="T-1", loops=(LOOP,))], head="a test")
    meant = looped(study, "T-1", (LOOP,))
    assert differences(study_from_text(written, "test.yaml"), meant) == []
    words = written.replace("\r\n", "\n")
    assert (
        "- { go: 14 m east, to: pipe loop near corner }\n      - { go: 3 m north, to: pipe loop far corner }\n" in words
    )
    assert "      - go: 29 m east   # as measured\n        to: corner 2 of T-1\n      - { go: 3 m north }\n" in words
    assert "[4 m, 61 m, kink + 47 m]" in words
    assert "at: rest at 56 m of T-1 - 1.5 m" in words
    assert "keep_clear: [ [41 m, 43 m], [2 m, east end - 6 m] ]" in words
    assert "may_hold:\n      - { at: [10 m, 46 m], can_carry" in words
    assert "# 29 m: a loop is there\n      - at: 58 m\n" in words
    assert "of: T-1, at: 52 m" in words
    assert "from: 20 m, to: 56 m" in words


@pytest.mark.parametrize("leg", ["by: [0 m, 60 m, 0 m]", "{ by: [0 m, 60 m, 0 m] }", "{ go: 60 m, along: [0, 3, 0] }"])
def test_a_leg_told_by_its_parts_keeps_its_direction(leg: str):
    text = line_file(["1 m east", "10 m east"], end="free").replace("{ go: 1 m east }", leg)
    study = study_from_text(text, "test.yaml")
    plan = replace(LOOP, towards=(1.0, 0.0, 0.0))
    written = proposal_text(text, "test.yaml", additions=[Additions(line="T-1", loops=(plan,))], head="a test")
    assert differences(study_from_text(written, "test.yaml"), looped(study, "T-1", (plan,))) == []
    assert written.count("along") == 3  # two new legs along it, and the rest


def test_holds_and_joints_stand_on_the_line_with_its_loop():
    """An anchor and a joint past the loop, by stations of the line as it is then, and a place by its name."""
    bare = line_file(LEGS, holds=RESTS)
    typed = line_file(
        [
            *("29 m east, to: pipe loop near corner", "3 m north, to: pipe loop far corner"),
            *("2 m east, to: pipe loop turn", "3 m south, to: pipe loop home corner"),
            *("29 m east, to: yard corner", "20 m south"),
        ],
        holds=(RESTS[0], hold("rest", "56 m"), *ANCHORS),
        takeups=(JOINTS[1],),
    )
    meant = meant_by(typed)
    added = [one for one in meant.lines[0].holds if "anchor" in one.kind]
    text = proposal_text(
        bare,
        "test.yaml",
        additions=[Additions(line="T-1", holds=added, takeups=meant.lines[0].takeups, loops=(LOOP,))],
        head="a test",
    )
    assert differences(meant_by(text), meant) == []
    assert "at: yard corner + 3 m, can_carry: 12.3456789 kN" in text


@pytest.mark.parametrize(
    ("listed", "left"),
    [
        ("\n      - { at: 30 m }  # the roof", "\n        []  # the roof"),
        ("\n      - at: 30 m", "\n        []  # 30 m: a loop is there"),
        ("\n    - at: 30 m\n    - at: [30.5 m]", "\n      []  # 30 m: a loop is there; [30.5 m]: a loop is there"),
        ("\n    - at: 30 m\n    - at: 9 m", "\n    # 30 m: a loop is there\n    - at: 9 m"),
        (" [ { at: 30 m }, { at: 9 m } ]", " [ { at: 9 m } ]"),
        (" [ { at: 9 m }, { at: 30 m }, ]", " [ { at: 9 m }, ]"),
        (" [ { at: 9 m }, { at: 30 m } ]", " [ { at: 9 m } ]"),
        (" [ { at: 30 m } ]", " []  # 30 m: a loop is there"),
        (" [ { at: 30 m }, { at: 30.5 m } ]", " []  # 30 m: a loop is there; 30.5 m: a loop is there"),
        (" [ { at: 29 m }, { at: 9 m }, { at: 30 m }, { at: 30.5 m } ]", " [ { at: 9 m } ]"),
    ],
)
def test_a_place_within_a_loop_is_none_any_more(listed: str, left: str):
    bare = line_file(LEGS) + f"    may_hold:{listed}\n"
    written = proposal_text(bare, "test.yaml", additions=[Additions(line="T-1", loops=(LOOP,))], head="a test")
    assert written.endswith(f"    may_hold:{left}\n")
    kept = [one.station for one in study_from_text(written, "test.yaml").lines[0].allowed.may_hold]
    assert kept == [9.0] * left.count("9 m")
