"""The layout drawing as a paper: its files, its PDF for those who cannot see it, and letters of every script."""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader
from tests.unit.drawing.dxf.tags import things_of, words_of
from tests.unit.drawing.results_fixture import corner
from tests.unit.drawing.sheets.lines import NAMES, moved, named, short

from takeup.edge import SI, US
from takeup.papers.layout.paper import make
from takeup.papers.registry import PAPERS, Options

EMBEDDED = "蒸汽"


@pytest.fixture(scope="module")
def files():
    """The files of the corner in German."""
    return make(moved(corner()), Options(units=SI, language="de"))


def test_one_svg_a_sheet_and_one_dxf_and_pdf(files):
    assert list(files) == ["layout-1.svg", "layout-2.svg", "layout.dxf", "layout.pdf"]
    assert "layout" in [paper.name for paper in PAPERS]


def test_pdf_is_tagged_has_its_language_title_and_alternative_texts(files):
    """PDF/UA-1 and PDF/A-2a are asked for where it is made; here they are read back."""
    reader = PdfReader(io.BytesIO(files["layout.pdf"]))
    root = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "de-DE"
    assert reader.metadata.title == "Anordnungszeichnung: Leitung LS-201, Ketterby laundry steam main"
    metadata = root["/Metadata"].get_data().decode()
    assert "<pdfuaid:part>1</pdfuaid:part>" in metadata
    assert "<pdfaid:part>2</pdfaid:part>" in metadata
    alternatives = alternatives_of(root["/StructTreeRoot"])
    assert len(alternatives) == len(reader.pages) == 2
    assert "Anordnung der Leitung LS-201: Grundriss und Stationen" in alternatives[0]
    assert "Festpunkte: boiler house header" in alternatives[0]


def alternatives_of(node) -> list[str]:
    """Every alternative text of a tree of tags."""
    node = node.get_object()
    if not isinstance(node, dict):
        return []
    found = [str(node["/Alt"])] if "/Alt" in node else []
    kids = node.get("/K", [])
    for kid in kids if isinstance(kids, list) else [kids]:
        found += alternatives_of(kid)
    return found


def test_words_of_the_pdf_are_words(files):
    text = PdfReader(io.BytesIO(files["layout.pdf"])).pages[0].extract_text()
    for words in ("Grundriss", "boiler house header", "Station 0,00 m", "96,00 m", "Gleitführung"):
        assert words in text


@pytest.mark.parametrize(("units", "size"), [(SI, (420.0, 297.0)), (US, (431.8, 279.4))], ids=["si", "us"])
def test_page_has_the_size_of_its_sheet(units, size):
    """A point is 25.4/72 mm; pages are given to a hundredth of a point."""
    made = make(moved(short()), Options(units=units, language="en"))
    box = PdfReader(io.BytesIO(made["layout.pdf"])).pages[0].mediabox
    assert (float(box.width) * 25.4 / 72.0, float(box.height) * 25.4 / 72.0) == pytest.approx(size, abs=0.005)


def test_letters_of_every_script_and_marks_do_no_harm():
    """SVG and DXF hold them as they are; in the PDF a letter that the typeface lacks stands by its code."""
    made = make(named(), Options(units=SI, language="en"))
    drawn = made["layout-1.svg"].decode()
    assert EMBEDDED in drawn
    assert "&lt;b&gt;&amp;amp;&lt;/b&gt;" in drawn
    texts = [words_of(thing) for thing in things_of(made["layout.dxf"]) if thing.kind == "TEXT"]
    assert any(EMBEDDED in words for words in texts)
    said = "".join(texts).replace(" ", "")
    assert all(name.replace(" ", "") in said for name in NAMES)
    pages = PdfReader(io.BytesIO(made["layout.pdf"])).pages
    assert "[U+84B8]" in "".join(page.extract_text() for page in pages).replace("\n", "")


def test_same_results_give_the_same_bytes():
    first, second = (make(moved(short()), Options(units=US, language="de")) for _ in range(2))
    assert first == second


def test_undated_document_is_drawn_with_a_blank_date():
    document = moved(short())
    document["input"]["document"] = {"number": "", "revision": "", "date": ""}
    made = make(document, Options(units=SI, language="en"))
    assert b"2026" not in made["layout-1.svg"]
