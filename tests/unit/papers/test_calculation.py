"""The calculation holds what it must, in order, accessible, and the same each time."""

from __future__ import annotations

import io
import re

import pypdf
import pytest
from tests.unit.drawing.results_fixture import corner, loop, riser, straight

from takeup.papers import write_calculation
from takeup.papers.calculation import calculation_pdf, contents_of
from takeup.papers.states import joined_spans

HOSTILE = '# "$@*_<x>'
SECTIONS = (
    "Line drawn to scale",
    "Inputs",
    "Assumptions",
    "States",
    "Loads on holds",
    "Joint movements and spring forces",
    "Checks",
    "Not covered",
    "Cautions",
    "How the numbers were made",
)


def squeezed(words: str) -> str:
    """Words without white space: a table breaks them anywhere a line may end."""
    return re.sub(r"[\s\u200b]+", "", words)


def printed(document) -> str:
    """All that is printed, squeezed."""
    reader = pypdf.PdfReader(io.BytesIO(calculation_pdf(document)))
    return squeezed("".join(page.extract_text() for page in reader.pages))


@pytest.mark.parametrize("make", [straight, corner, riser, loop])
def test_calculation_holds_verdict_holds_states_and_checks(make):
    document = make()
    words = printed(document)
    assert "Verdict:fails" in words
    for text in document["verdict"]["because"] + document["assumptions"] + document["cautions"]:
        assert squeezed(text) in words
    for item in (*document["holds"], *document["takeups"], *document["states"]):
        assert squeezed(item["name"]) in words
    for check in document["checks"]:
        for key in ("title", "where", "state", "because", "source", "outcome"):
            assert squeezed(check[key]) in words
    for item in document["not_covered"]:
        assert squeezed(f"{item['what']}: {item['because']}.") in words


def test_sections_stand_in_order():
    reader = pypdf.PdfReader(io.BytesIO(calculation_pdf(corner())))
    heads = [item.title for item in reader.outline if not isinstance(item, list)]
    assert [re.sub(r"^\d+ ", "", head) for head in heads] == list(SECTIONS)


def test_calculation_is_accessible_and_fit_for_archives():
    reader = pypdf.PdfReader(io.BytesIO(calculation_pdf(corner())))
    root = reader.trailer["/Root"]
    packet = root["/Metadata"].get_data().decode()
    assert re.search(r"<pdfuaid:part>1</pdfuaid:part>", packet)
    assert re.search(r"<pdfaid:part>2</pdfaid:part>", packet)
    assert re.search(r"<pdfaid:conformance>A</pdfaid:conformance>", packet)
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"].startswith("en")
    assert reader.metadata.title == "Calculation of line LS-201, Ketterby laundry steam main"
    assert reader.metadata.creation_date.date().isoformat() == "2026-05-12"


def test_drawing_page_is_at_true_scale():
    """A3 across is 420 x 297 mm = 1190.55 x 841.89 pt; the sheet fills it, so that a rule can be laid on the print."""
    page = pypdf.PdfReader(io.BytesIO(calculation_pdf(corner()))).pages[1]
    assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(
        (1190.55, 841.89), abs=0.01
    )  # printed figures
    assert "Plan,lookingdown" in squeezed(page.extract_text())


def test_every_page_bears_its_number():
    reader = pypdf.PdfReader(io.BytesIO(calculation_pdf(straight())))
    for number, page in enumerate(reader.pages, start=1):
        assert f"page{number}of{len(reader.pages)}" in squeezed(page.extract_text())


def test_calculation_is_the_same_each_time():
    assert calculation_pdf(corner()) == calculation_pdf(corner())


def hostile(document):
    """Give every text of a document a hostile end, where nothing else hangs on it."""
    document["input"]["project"] += HOSTILE
    document["lines"][0]["name"] += HOSTILE
    for hold in document["holds"]:
        hold["name"] += HOSTILE
    for check in document["checks"]:
        check["where"] += HOSTILE
    document["verdict"]["because"].append(f"#panic() {HOSTILE} $ x $ \\ ` // -- https://example.invalid/")
    return document


def test_hostile_names_are_printed_as_they_are():
    document = hostile(corner())
    words = printed(document)
    for hold in document["holds"]:
        assert squeezed(hold["name"]) in words
    assert squeezed(document["verdict"]["because"][-1]) in words


def test_names_of_any_length_and_script_break_nothing():
    document = corner()
    document["holds"][0]["name"] = "x" * 300
    document["holds"][1]["name"] = "якорь 中 \u202e \u0000"
    document["holds"][2]["name"] = "many words " * 40
    words = printed(document)
    assert "x" * 300 in words
    assert squeezed("якорь [U+4E2D] [U+202E] [U+0000]") in words


def test_unsolved_line_is_still_a_document():
    document = corner()
    document |= {"holds": [], "checks": [], "growth_hand": []}
    for takeup in document["takeups"]:
        takeup |= {"movements": [], "spring_n": []}
    for state in document["states"]:
        state |= {"solved": False, "converged": False, "equilibrium_residual": None}
    words = printed(document)
    assert squeezed("not solved") in words
    assert squeezed("No check was made.") in words


def test_checks_stand_worst_first():
    """Fails, then what did not run, then close, then passes; within each the greatest use first."""
    rows = contents_of(corner())["checks"]["rows"]
    outcomes = [row["cells"][7]["words"].split(",")[0] for row in rows]
    order = ["fails", "not covered", "no limit given", "close", "passes"]
    assert outcomes == sorted(outcomes, key=order.index)
    assert outcomes[0] == "fails"
    uses = [float(row["cells"][6]["words"]) for row, outcome in zip(rows, outcomes, strict=True) if outcome == "passes"]
    assert uses == sorted(uses, reverse=True)


def test_checks_are_counted_on_page_one():
    """The L has 28 places, every fourth at 0.99: 7 close and 21 pass; one more fails, one is not covered."""
    assert len(corner()["holds"]) == 26
    words = "30 checks in section 7: 1 fail, 1 not covered, 7 close, 21 pass. 29 rest on a number from memory."
    assert contents_of(corner())["front"]["counted"] == words


def test_status_stands_beside_the_outcome():
    rows = contents_of(corner())["checks"]["rows"]
    assert rows[0]["cells"][7]["words"] == "fails, from memory"


def test_parts_by_cause_sum_to_the_total_as_printed():
    """Pressure 88.36 and growth 3.21 kN make 91.57 kN along the pipe at the first anchor, at 18 bar (by hand)."""
    parts = contents_of(corner())["loads"]["anchors"][0]["parts"]["rows"]
    assert [row["cells"][1]["words"] for row in parts] == ["88.36", "3.21", "0.00", "0.00", "91.57"]


def test_joined_spans_follow_one_another():
    assert joined_spans(["a to b", "b to c", "x to y"]) == ["a to c", "x to y"]
    assert joined_spans(["stop to go to b", "b to c"]) == ["stop to go to c"]
    assert joined_spans(["whole line"]) == ["whole line"]


def test_write_leaves_only_the_finished_file(tmp_path):
    write_calculation(corner(), tmp_path / "calculation.pdf")
    assert [path.name for path in tmp_path.iterdir()] == ["calculation.pdf"]
    assert (tmp_path / "calculation.pdf").read_bytes().startswith(b"%PDF-1.7")


def test_failed_write_leaves_the_old_file(tmp_path):
    path = tmp_path / "calculation.pdf"
    path.write_bytes(b"old")
    document = corner()
    document["input"]["document"]["date"] = "yesterday"
    with pytest.raises(ValueError, match="yesterday"):
        write_calculation(document, path)
    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]
