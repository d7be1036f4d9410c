"""A hose loop of a series in a line: selected by its own study, named, and held to its maker's cycles."""

from __future__ import annotations

from pathlib import Path

import pytest

from takeup.choose import resolve
from takeup.choose.selection.asked import selection_for_takeup
from takeup.line.reading.reader import study_from_text
from takeup.results import results_of

EXAMPLE = Path(__file__).parents[4] / "examples" / "kinds" / "braided-hose-loop.yaml"
NAMED = 'joint: "hose loop DN 80, 6 bar, 25 mm"'


def text(choice: str = "select: yes", *, cycles: int = 1000) -> str:
    """Return the example on DN 80, which the demonstration series has hoses for, its joint left to the series."""
    whole = EXAMPLE.read_text(encoding="utf-8").replace("DN 100, wall: 6.02 mm", "DN 80, wall: 5.49 mm")
    begin = whole[: whole.index("        data:\n")].replace("count: 1000", f"count: {cycles}")
    return f"{begin}        from: demonstration series\n        {choice}\n"


def test_the_cheapest_that_fits_is_selected_and_its_study_stands():
    """Three classes of two movements fit 6 bar; 11 mm of 25 mm, and no thrust on anchors that carry 5 kN."""
    study = study_from_text(text(), "hose.yaml")
    _, found = selection_for_takeup(study, EXAMPLE.parent, "J1", series=None, kind="braided hose loop", rank=None)
    names = [found.table.names[row] for row in found.fits.tolist()]
    assert names[0] == "hose loop DN 80, 6 bar, 25 mm"
    assert len(names) == 6
    results = results_of(resolve(study))
    [takeup] = results["takeups"]
    assert takeup["chosen"]["joint"] == names[0]
    assert results["verdict"]["outcome"] == "close"  # 6 of 6 bar
    assert max(row["use"] or 0.0 for row in results["checks"] if row["rule"] == "hold_capacity") < 0.2


@pytest.mark.parametrize(("cycles", "fails"), [(2000, []), (2001, ["joint_cycles"])])
def test_a_named_hose_is_held_to_its_own_cycles(cycles, fails):
    """Rated for 2000: one more fails, where a bellows would keep a share of its movement."""
    results = results_of(resolve(study_from_text(text(NAMED, cycles=cycles), "hose.yaml")))
    assert sorted({row["rule"] for row in results["checks"] if row["outcome"] == "fails"}) == fails
