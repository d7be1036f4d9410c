"""results.json is written whole or not at all.     (tests/unit/results/test_write.py)"""

from __future__ import annotations

import pytest

from takeup.results import write_results


def test_a_write_that_fails_leaves_nothing_behind(tmp_path):
    """A folder stands where the file should go, so the last step, the renaming, fails."""
    target = tmp_path / "results.json"
    target.mkdir()
    with pytest.raises(OSError, match=r"results\.json"):
        write_results({"tool": {"name": "takeup"}}, target)
    assert [path.name for path in tmp_path.iterdir()] == ["results.json"]


def test_a_number_that_is_none_is_refused_and_the_old_file_stays(tmp_path):
    target = tmp_path / "results.json"
    target.write_text("old", encoding="utf-8")
    with pytest.raises(ValueError, match="not JSON compliant"):
        write_results({"tool": float("nan")}, target)
    assert target.read_text(encoding="utf-8") == "old"
