"""The layout drawing of every example: nothing lies on anything, every number is one of its results.

(tests/examples/test_layout_drawing.py)
"""

from __future__ import annotations

import io

import pytest
from tests.example_studies import EXAMPLES, results
from tests.unit.drawing.dxf.tags import things_of
from tests.unit.drawing.sheets.measured import overlapping, struck
from tests.unit.drawing.sheets.traced import untraced

from takeup.drawing.dxf import Origin, to_dxf
from takeup.drawing.sheets.scales import scales_of
from takeup.edge import SI, US
from takeup.papers.frame import head_of
from takeup.papers.layout.paper import sheets_of

NAMES = sorted(path.stem for path in EXAMPLES.glob("*.yaml"))
PENS = 0.3  # mm: pipe, frame, signs and match lines; leaders and dimensions are finer


@pytest.mark.parametrize("name", NAMES)
def test_layout_drawing_of_an_example(name):
    """A dimension reads what it measures, to half of its last figure, 5 mm, and the last bit."""
    import ezdxf

    document = results(name)
    for units, language in ((SI, "en"), (US, "en"), (SI, "de"), (US, "de")):
        sheets = sheets_of(document, head_of(document, units, language))
        for sheet in sheets:
            assert overlapping(sheet) == [], sheet.title
            assert struck(sheet, PENS) == [], sheet.title
    sheets = sheets_of(document, head_of(document, SI, "en"))
    assert untraced(document, sheets, [scale.ratio for scale in scales_of("si")]) == []
    drawing = to_dxf(sheets, Origin(day="2026-01-01"))
    for thing in things_of(drawing):
        if thing.kind == "DIMENSION":
            assert float(thing.get(1).removesuffix(" m")) == pytest.approx(thing.number(42) / 1e3, abs=0.005 + 1e-6)
    audit = ezdxf.read(io.StringIO(drawing.decode())).audit()
    assert (audit.errors, audit.fixes) == ([], [])
