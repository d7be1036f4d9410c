"""The layout drawing of every example: nothing lies on anything, every number is one of its results.

(tests/examples/test_layout_drawing.py)
"""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from tests.unit.drawing.dxf.tags import things_of
from tests.unit.drawing.sheets.measured import overlapping, struck
from tests.unit.drawing.sheets.traced import untraced

from takeup.choose import resolve
from takeup.drawing.dxf import Origin, to_dxf
from takeup.drawing.sheets.scales import scales_of
from takeup.edge import SI, US
from takeup.line.reading.reader import read_study
from takeup.papers.frame import head_of
from takeup.papers.layout.paper import sheets_of
from takeup.results import results_of

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))
PENS = 0.3  # mm: pipe, frame, signs and match lines; leaders and dimensions are finer


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_layout_drawing_of_an_example(path):
    """A dimension reads what it measures, to half of its last figure, 5 mm, and the last bit."""
    import ezdxf

    results = json.loads(json.dumps(results_of(resolve(read_study(path)))))
    for units, language in ((SI, "en"), (US, "en"), (SI, "de"), (US, "de")):
        sheets = sheets_of(results, head_of(results, units, language))
        for sheet in sheets:
            assert overlapping(sheet) == [], sheet.title
            assert struck(sheet, PENS) == [], sheet.title
    sheets = sheets_of(results, head_of(results, SI, "en"))
    assert untraced(results, sheets, [scale.ratio for scale in scales_of("si")]) == []
    document = to_dxf(sheets, Origin(day="2026-01-01"))
    for thing in things_of(document):
        if thing.kind == "DIMENSION":
            assert float(thing.get(1).removesuffix(" m")) == pytest.approx(thing.number(42) / 1e3, abs=0.005 + 1e-6)
    audit = ezdxf.read(io.StringIO(document.decode())).audit()
    assert (audit.errors, audit.fixes) == ([], [])
