"""Holds that rules placed go into the file, and nothing else changes.     (reading/test_write_back.py)"""

from __future__ import annotations

import re
from codecs import BOM_UTF8
from pathlib import Path

import numpy as np
import pytest
from tests.builders import hold, joint, line_file, rule, solve, study_of

from takeup.line.reading.write_back import with_placed_holds, write_back

GUIDED = line_file(
    ["40 m east"],
    holds=(rule("slide guide", "spacing rule"), hold("rest", "20 m"), rule("rest", "support spans")),
    takeups=(joint("J1", "west end + 1.2 m"),),
)
BLOCK = """    holds:
      # Guides, as the rule has them.
      - kind: slide guide   # by the trade's rule
        by: spacing rule
        friction:
          low: 0.1
          high: 0.2
          source: "invented, for a test"
      # A rest of our own.
      - { kind: rest, at: 20 m, slides_on: PTFE on steel }
"""


def in_block_style() -> str:
    head, _, tail = GUIDED.partition("    holds:\n")
    return head + BLOCK + tail[tail.index("    takeups:") :]


@pytest.mark.parametrize("text", [GUIDED, in_block_style()], ids=["flow", "block"])
def test_the_written_file_gives_the_same_holds_and_the_same_loads(text: str):
    """Places are set out to the centimetre, so the same holds stand at the same places and carry the same."""
    written = with_placed_holds(text, study_of(text))
    assert not re.search(r"\bby: s", written)
    before, after = solve(text), solve(written)
    assert [(item.kind, item.station) for item in after.holds] == [(item.kind, item.station) for item in before.holds]
    for old, new in zip(before.holds, after.holds, strict=True):
        assert new.total == pytest.approx(
            old.total, abs=1e-6 * np.abs(old.total).max() + 1e-6
        )  # rounding of a micrometre


def test_comments_and_everything_else_stay_as_typed():
    text = in_block_style()
    written = with_placed_holds(text, study_of(text))
    assert "# Guides, as the rule has them.\n      - { kind: slide guide, at: 2.6 m," in written
    assert "      # A rest of our own.\n      - { kind: rest, at: 20 m, slides_on: PTFE on steel }\n" in written
    assert 'friction: { low: 0.1, high: 0.2, source: "invented, for a test" } }' in written
    head, tail = text.index("      - kind: slide guide"), text.index("      # A rest of our own")
    assert written.startswith(text[:head])
    assert written.endswith(text[tail:])


def test_a_rule_that_placed_nothing_leaves_a_comment():
    text = line_file(["3 m east"], holds=(rule("rest", "support spans"), hold("rest", "1.5 m")))
    assert "# rests by support spans: none placed\n" in with_placed_holds(text, study_of(text))


@pytest.mark.parametrize("text", [GUIDED, in_block_style()], ids=["flow", "block"])
@pytest.mark.parametrize("end", ["\r\n", "\r"])
def test_a_file_keeps_its_line_ends_and_its_mark(text: str, end: str, tmp_path: Path):
    """What is written is what a file with the usual line ends would give, with its own ends and its mark before it."""
    resolved = study_of(text)
    file = tmp_path / "line.yaml"
    file.write_bytes(BOM_UTF8 + text.replace("\n", end).encode())
    write_back(file, resolved)
    assert file.read_bytes() == BOM_UTF8 + with_placed_holds(text, resolved).replace("\n", end).encode()


def test_a_file_without_a_mark_gets_none(tmp_path: Path):
    file = tmp_path / "line.yaml"
    file.write_text(GUIDED, encoding="utf-8")
    write_back(file, study_of(GUIDED))
    assert file.read_bytes().startswith(b"takeup:") or file.read_bytes()[:1] == b"#"


def between_brackets(text: str) -> str:
    head, tail = text.split("    holds:\n")
    items = [line.strip().removeprefix("- ") for line in tail.splitlines() if line.startswith("      - { kind: ")]
    rest = tail[tail.index("    takeups:") :] if "    takeups:" in tail else ""
    return f"{head}    holds: [ {', '.join(items)} ]\n{rest}"


def test_a_list_between_brackets_stays_one():
    text = between_brackets(GUIDED)
    written = with_placed_holds(text, study_of(text))
    assert written.count("\n") == text.count("\n") + 1  # the comment on the rests, of which none is placed
    assert study_of(written).lines[0].holds == study_of(with_placed_holds(GUIDED, study_of(GUIDED))).lines[0].holds


@pytest.mark.parametrize("order", [1, -1], ids=["first", "last"])
def test_a_rule_between_brackets_that_placed_nothing_leaves_a_comment(order: int):
    items = (rule("rest", "support spans"), hold("rest", "1.5 m"))[::order]
    text = between_brackets(line_file(["3 m east"], holds=items))
    written = with_placed_holds(text, study_of(text))
    assert "# rests by support spans: none placed\n" in written
    assert [one.position.station for one in study_of(written).lines[0].holds] == [1.5]


def test_the_file_is_written_whole_and_says_how_many(tmp_path: Path):
    file = tmp_path / "line.yaml"
    file.write_text(GUIDED, encoding="utf-8")
    count = write_back(file, study_of(GUIDED))
    written = file.read_text(encoding="utf-8")
    assert count.holds == written.count("kind: slide guide, at:") + written.count("kind: rest, at:") - 1  # one by hand
    assert [item.name for item in tmp_path.iterdir()] == ["line.yaml"]
