"""The calculation: results.json as a document that an office can send.     (papers/calculation/calculation.py)

Everything printed comes from the results. The words and figures are made here and in the modules beside this one;
`calculation.typ` sets them. The PDF is tagged (PDF/UA-1) and fit for archives (PDF/A-2a), and the same results give
the same bytes.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from pathlib import Path

from takeup.drawing import layout_sheets, to_svg
from takeup.drawing.reading import Results, records_of, text_of, texts_of
from takeup.edge import SI, Units
from takeup.papers.calculation.front import front_page
from takeup.papers.calculation.inputs import inputs_section
from takeup.papers.calculation.loads import joints_section, loads_section
from takeup.papers.calculation.not_held import not_held_section
from takeup.papers.calculation.proofs import checks_section, made_section
from takeup.papers.calculation.stability import stability_section
from takeup.papers.calculation.states import states_section
from takeup.papers.calculation.translated import translated, wording_of
from takeup.papers.calculation.walk import walk_section
from takeup.papers.common.glyphs import printable_tree
from takeup.papers.common.tables import Tree, sentences
from takeup.papers.frame.head import day_of, head_of
from takeup.papers.frame.pdf import compile_pdf
from takeup.papers.frame.tree import frame_tree
from takeup.papers.words import ENGLISH, Language

TEMPLATE = Path(__file__).parent / "calculation.typ"


def write_calculation(results: Results, path: Path, units: Units = SI) -> None:
    """Write the calculation as a PDF: whole to a temporary name beside the target, then renamed.

    Args:
        results: The results document.
        path: Where to write it; its folder exists.
        units: What its numbers are written in.
    """
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=".calculation-", suffix=".pdf")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(calculation_pdf(results, units))
        Path(temporary).chmod(0o644)
        Path(temporary).replace(path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise


def calculation_pdf(results: Results, units: Units = SI, language: Language = ENGLISH) -> bytes:
    """Return the calculation as the bytes of a PDF.

    Args:
        results: The results document.
        units: What its numbers are written in.
        language: What it is written in.
    """
    clean = printable_tree(results)
    assert isinstance(clean, Mapping), "the results are a record"
    return compile_pdf(TEMPLATE, contents_of(clean, units, language), day_of(results))


def contents_of(results: Results, units: Units = SI, language: Language = ENGLISH) -> Tree:
    """Return all that is printed, in the order of the pages."""
    head = head_of(results, units, language)
    units = head.units if language == ENGLISH else head.units.told(wording_of(results, head.texts))
    sheets = layout_sheets(results, units)
    front = front_page(results, units)
    contents: Tree = {
        "frame": frame_tree(head, head.texts.said(str(front["title"]))),
        "front": front | {"units": " ".join(head.remarks)},
        "drawing": {
            "title": "Line drawn to scale" if len(sheets) == 1 else "Lines drawn to scale",
            "sheets": [{"svg": to_svg(sheet), "alt": f"{sheet.title}. {sheet.description}"} for sheet in sheets],
        },
        "not_held": not_held_section(results, units),
        "inputs": inputs_section(results, units),
        "assumptions": sentences(texts_of(results, "assumptions")),
        "states": states_section(results, units),
        "loads": loads_section(results, units),
        "joints": joints_section(results, units),
        "stability": stability_section(results, units),
        "walk": walk_section(results, units),
        "checks": checks_section(results, units),
        "not_covered": [
            [text_of(item, "what"), text_of(item, "because")] for item in records_of(results, "not_covered")
        ],
        "cautions": sentences(texts_of(results, "cautions")),
        "made": made_section(results),
    }
    return translated(contents, results, head.texts)
