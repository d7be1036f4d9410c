"""Joints that were selected go into the file by name, and nothing else changes.     (reading/test_named_joints.py)

The study is not run: what was chosen is put into the take-ups as a selection would.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from tests.builders import joint, line_file, study_of

from takeup.joints.tables import Provenance
from takeup.line import Study
from takeup.line.choices import Chosen
from takeup.line.reading.named_joints import selected_joints, with_named_joints
from takeup.line.reading.reader import study_from_text
from takeup.line.reading.write_back import write_back

NAME = "axial DN 200, 12 bar, 25 mm"
SOURCE = Provenance(series="demonstration series", file="a.csv", sha256="0" * 64, dated=None, whose=None)
CHOSEN = Chosen(
    joint=NAME, source=SOURCE, by="price", considered=9, fitting=2, tried=1, ratings="as rated", material=""
)


def file_of(*takeups: str) -> str:
    head = line_file(["40 m east"], takeups=(joint("J1", "10 m"),))
    return head[: head.index("    takeups:\n")] + "    takeups:\n" + "".join(takeups)


def chosen(*names: str) -> Study:
    """Return a study whose take-ups of these names were chosen, the rest typed in."""
    study = study_of(line_file(["40 m east"], takeups=(joint("J1", "10 m"),)))
    [line] = study.lines
    [one] = line.takeups
    every = tuple(replace(one, name=name, chosen=CHOSEN) for name in names)
    return replace(study, lines=(replace(line, takeups=every),))


BLOCK = """\
      # The first, near the header.
      - name: J1
        kind: single axial
        at: 10 m
        from: demonstration series   # nobody's
        select: yes                  # what fits
        rank: life                   # longest
        # and what follows
        ends: welded
"""
NAMED_BLOCK = """\
      # The first, near the header.
      - name: J1
        kind: single axial
        at: 10 m
        from: demonstration series   # nobody's
        joint: "axial DN 200, 12 bar, 25 mm"                  # what fits
        # longest
        # and what follows
        ends: welded
"""
NO_RANK = BLOCK.replace("        rank: life                   # longest\n", "")
FORMS = {
    "block": (BLOCK, NAMED_BLOCK),
    "rank by itself on its line": (
        BLOCK.replace("        rank: life                   # longest\n", "        rank: life\n"),
        NAMED_BLOCK.replace("        # longest\n", ""),
    ),
    "rank first": (
        BLOCK.replace("        rank: life                   # longest\n", "").replace(
            "- name", "- rank: life\n        name"
        ),
        NAMED_BLOCK.replace("        # longest\n", ""),
    ),
    "no rank": (
        NO_RANK,
        NAMED_BLOCK.replace("        # longest\n", ""),
    ),
    "between braces": (
        "      - { name: J1, kind: single axial, rank: life, select: true, from: demonstration series, at: 9 m } #a\n",
        f'      - {{ name: J1, kind: single axial, joint: "{NAME}", from: demonstration series, at: 9 m }} #a\n',
    ),
    "last between braces": (
        "      - { name: J1, kind: single axial, at: 10 m, from: demonstration series, select: yes, rank: life }\n",
        f'      - {{ name: J1, kind: single axial, at: 10 m, from: demonstration series, joint: "{NAME}"  }}\n',
    ),
}


@pytest.mark.parametrize(("before", "after"), FORMS.values(), ids=FORMS)
def test_select_becomes_joint_and_rank_goes(before: str, after: str):
    text = file_of(before)
    written = with_named_joints(text, chosen("J1"))
    assert written == file_of(after)
    study = study_from_text(written, "line.yaml")
    assert [(one.name, one.joint, one.rank) for one in study.lines[0].choices] == [("J1", NAME, None)]


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_line_ends_stay(end: str):
    before, after = (file_of(text).replace("\n", end) for text in (BLOCK, NAMED_BLOCK))
    assert with_named_joints(before, chosen("J1")) == after


def test_joints_that_are_named_or_typed_in_stay_as_they_are():
    named = NAMED_BLOCK.replace("J1", "J2").replace("10 m", "20 m")
    typed = f"      - {joint('J3', '30 m')}\n"
    text = file_of(BLOCK, named, typed)
    study = chosen("J1", "J2")
    assert with_named_joints(text, study) == file_of(NAMED_BLOCK, named, typed)
    assert selected_joints(text, study) == 1


def test_what_was_written_is_counted_in_words(tmp_path: Path):
    file = tmp_path / "line.yaml"
    file.write_text(file_of(BLOCK), encoding="utf-8")
    written = write_back(file, chosen("J1"))
    assert written.words == "0 holds written in the rules' stead, 1 selected joint by name"
    assert file.read_text(encoding="utf-8") == file_of(NAMED_BLOCK)
    assert write_back(file, chosen("J1")).words == "0 holds written in the rules' stead"
