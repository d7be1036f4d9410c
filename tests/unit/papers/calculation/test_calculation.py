"""The calculation holds what it must, in order, accessible, and the same each time."""

from __future__ import annotations

import io
import re

import pypdf
import pytest
from tests.example_studies import results as results_of_example
from tests.unit.drawing.results_fixture import corner, loop, riser, straight
from tests.unit.drawing.system_fixture import system

from takeup.edge import SI, TIE, US
from takeup.papers import summary_lines, write_calculation
from takeup.papers.calculation.calculation import calculation_pdf, contents_of
from takeup.papers.calculation.states import joined_spans

HOSTILE = '# "$@*_<x>'
SECTIONS = (
    "Line drawn to scale",
    "Inputs",
    "Assumptions",
    "States",
    "Loads on holds",
    "Joint movements and spring forces",
    "Stability",
    "The walk",
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
    for item in (*document["holds"], *document["takeups"]):
        item["line"] += HOSTILE
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
        takeup |= {"movements": [], "reach": None, "spring_n": []}
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
    words = "30 checks in section 9: 1 fail, 1 not covered, 7 close, 21 pass. 29 rest on a number from memory."
    assert contents_of(corner())["front"]["counted"] == words


def test_status_stands_beside_the_outcome():
    rows = contents_of(corner())["checks"]["rows"]
    assert rows[0]["cells"][7]["words"] == "fails, from memory"


def test_parts_by_cause_sum_to_the_total_as_printed():
    """Pressure 88.36 and growth 3.21 kN make 91.57 kN along the pipe at the first anchor, at 18 bar (by hand)."""
    parts = contents_of(corner())["loads"]["lines"][0]["anchors"][0]["parts"]["rows"]
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


@pytest.fixture(scope="module")
def demonstration():
    """The results of the demonstration."""
    return results_of_example("ketterby-steam-main")


QUANTITY = re.compile(r"\d ?(mm|m\b|kN|N\b|bar|MPa|GPa|°C|deg|kg)")
SI_MARKS = (r"(?<![a-z])mm(?![a-z])", "kN", r"bar\(", "°C", "MPa", r"N/mm", r"N·m", r"\d ?m\b")


def unquoted(value, key=""):
    """A document in which every sentence or name that holds an SI quantity, made before the papers, is taken out."""
    if isinstance(value, dict):
        return {name: unquoted(item, name) for name, item in value.items()}
    if isinstance(value, list):
        return [unquoted(item) for item in value]
    return "quoted" if isinstance(value, str) and key != "unit" and QUANTITY.search(value) else value


def pages(document, units):
    """The text of the calculation as it is extracted, its white space as single spaces."""
    reader = pypdf.PdfReader(io.BytesIO(calculation_pdf(document, units)))
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


def test_us_calculation_of_the_demonstration_holds_the_converted_numbers(demonstration):
    """From the line file by hand: inch 25.4 mm, lbf 4.4482216 N, psi 6894.757 Pa.

    159 m = 521 ft 7.84 in; 96 m = 314 ft 11.53 in; 219.1 x 8.18 mm = 8.626 x 0.322 in; 12, 10, 18 bar = 174.0, 145.0,
    261.1 psi; 195, 184.5, 12 degC = 383.0, 364.1, 53.6 degF; 120 kN = 26 977 lbf; 95 N/mm = 542.46 lbf/in;
    46 000 mm2 = 71.300 in2; 1100 mm = 43.307 in; 16 bar = 232.06 psi; 205 MPa = 29 733 psi; 80 mm = 3.150 in.
    """
    words = pages(demonstration, US)
    for expected in (
        "521 ft 7 13/16 in", "314 ft 11 1/2 in", "NPS 8, 8.626 × 0.322 in", "174.0", "145.0", "261.1", "383.0", "364.1",
        "53.6 °F", "26 977", "542.46", "71.3", "43.307", "232.06", "29 733", "mineral wool, 3.15 in", "lbf/in", "psig",
        "ft·lbf", "in·lbf/°", "in²",
    ):  # fmt: skip
        assert expected in words
    assert squeezed(US.said) in squeezed(words)
    assert words.count("Hand calculations are shown in SI, as computed") == 1
    assert SI.said == ""


@pytest.mark.parametrize("make", ["demonstration", corner, riser, system])
def test_us_calculation_holds_no_si_outside_what_it_quotes(make, request):
    """The same search finds every mark in the SI pages, but for a stress where none was checked: it can fail."""
    document = unquoted(request.getfixturevalue(make) if isinstance(make, str) else make())
    words = pages(document, US).replace(" ".join(US.said.split()), "")
    assert {mark: re.search(mark, words) for mark in SI_MARKS} == dict.fromkeys(SI_MARKS)
    si = pages(document, SI)
    assert [mark for mark in SI_MARKS if not re.search(mark, si)] in ([], ["MPa"])


def test_us_loads_are_those_of_si_in_pounds():
    """88.36 and 3.21 kN make 91.57 kN: 19 863, 722 and 20 585 lbf by 4.4482216 N (by hand)."""
    parts = contents_of(corner(), US)["loads"]["lines"][0]["anchors"][0]["parts"]["rows"]
    found = [row["cells"][1]["words"].replace(TIE, " ") for row in parts]
    assert found == ["19 863", "722", "0", "0", "20 585"]


def test_us_summary_is_plain_text_in_us_units(demonstration):
    """J1 stands at 1.2 m = 47.24 in = 3 ft 11.24 in and may shorten by 140 mm = 5.512 in (by hand)."""
    words = "\n".join(summary_lines(demonstration, US))
    assert words.splitlines()[0].endswith("NPS 8, 521 ft 7 13/16 in, ASME B31.1-2020")
    row = next(line for line in words.splitlines() if line.startswith("  J1 "))
    assert "3 ft 11 1/4 in" in row
    assert "of -5.512" in row
    assert "along lbf, least" in words
    assert TIE not in words
    assert US.said in words
    reasons = [line for line in words.splitlines() if line.startswith("  - ")]  # stay as they were said
    assert reasons
    rest = [line for line in words.splitlines() if line not in reasons]
    assert not re.search(r"\bkN\b|\bmm\b", "\n".join(rest))


def test_us_units_leave_the_results_alone(demonstration, tmp_path):
    """Units are of the papers: what was computed is neither changed nor asked for anew."""
    before = repr(demonstration)
    write_calculation(demonstration, tmp_path / "calculation.pdf", US)
    assert repr(demonstration) == before
    assert (tmp_path / "calculation.pdf").read_bytes() == calculation_pdf(demonstration, US)
