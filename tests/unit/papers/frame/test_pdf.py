"""Any template in the shared frame is accessible and bears its language.     (tests/unit/papers/frame/test_pdf.py)"""

from __future__ import annotations

import io

import pypdf
import pytest
from tests.unit.drawing.results_fixture import corner

from takeup.edge import SI
from takeup.papers.common.tables import number_column, table, words_column
from takeup.papers.frame import compile_pdf, frame_tree, head_of
from takeup.papers.frame.pdf import ROOT

TEMPLATE = """#import "/frame/frame.typ": *
#let data = json(bytes(sys.inputs.data))
#show: paper.with(data.frame, flipped: true)
#title-block(data.frame, columns: 2)
#cautions-box(data.frame)
= Table
#show-table(data.table)
#closing(data.frame)
"""


@pytest.fixture
def template(tmp_path, monkeypatch):
    """A template of a test, beside the real frame."""
    (tmp_path / "frame").mkdir()
    (tmp_path / "frame" / "frame.typ").write_text((ROOT / "frame" / "frame.typ").read_text())
    path = tmp_path / "paper.typ"
    path.write_text(TEMPLATE)
    monkeypatch.setattr("takeup.papers.frame.pdf.ROOT", tmp_path)
    return path


def made(template, document, language="en"):
    """A paper of one table."""
    head = head_of(document, SI, language)
    spec = table([words_column("Name"), number_column("Force", "kN")], [("#panic() 中 Ü", "1.0")], "Forces")
    return compile_pdf(template, {"frame": frame_tree(head, "Loads"), "table": spec}, head.date)


@pytest.mark.parametrize(("language", "tag", "page"), [("en", "en-GB", "page 1 of"), ("de", "de-DE", "Seite 1 von")])
def test_paper_has_language_title_tags_and_pages(template, language, tag, page):
    reader = pypdf.PdfReader(io.BytesIO(made(template, corner(), language)))
    root = reader.trailer["/Root"]
    assert root["/Lang"] == tag
    assert root["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in root
    packet = root["/Metadata"].get_data().decode()
    assert "<pdfuaid:part>1</pdfuaid:part>" in packet
    assert "<pdfaid:conformance>A</pdfaid:conformance>" in packet
    assert reader.metadata.title == "Loads, Ketterby laundry steam main"
    words = " ".join(reader.pages[0].extract_text().split())
    assert page in words
    assert "#panic() [U+4E2D] Ü" in " ".join("".join(p.extract_text() for p in reader.pages).split())


def test_paper_is_the_same_each_time(template):
    assert made(template, corner()) == made(template, corner())


def test_paper_without_number_and_date_is_made_and_prints_none(template):
    document = corner()
    document["input"]["document"] = {"number": "", "revision": "", "date": ""}
    reader = pypdf.PdfReader(io.BytesIO(made(template, document)))
    words = " ".join(page.extract_text() for page in reader.pages)
    assert "1980" not in words
    assert "revision" not in words
