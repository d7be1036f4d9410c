"""Every number comes from the results, every name survives, every joint has its sheet.

(tests/unit/papers/data_sheets/test_data_sheets.py)
"""

from __future__ import annotations

import io
import itertools
import math
import re
import zipfile
from bisect import bisect_left
from collections.abc import Iterator
from typing import Any

import pypdf
import pytest
from tests.unit.papers.data_sheets.data_sheet_fixture import boxes_of, results, rows_of, tabs_of

from takeup.drawing.joint_views import VIEWS
from takeup.drawing.sheet import Text
from takeup.edge import SI, US
from takeup.joints import WRITTEN_KINDS
from takeup.papers.data_sheets.paper import joints_pdf, joints_workbook, make
from takeup.papers.registry import Options
from takeup.papers.words import LANGUAGES, texts

NAMES = [
    "kinds/single-axial", "kinds/double", "kinds/hinged", "kinds/tied-universal", "kinds/in-line-pressure-balanced",
    "kinds/braided-hose-loop", "lennox-quay-selected-joint",
]  # fmt: skip
HEADS = ("Quantity", "Used here", "As certified")
FACTORS = {
    "mm": (1.0,), "in": (25.4,), "m": (1.0,), "ft": (0.3048,), "bar(g)": (1.0,), "bar": (1.0,), "°": (1.0,),
    "psig": (0.06894757293168,), "psi": (0.06894757293168, 0.006894757293168), "kN": (1e3,), "lbf": (4.4482216152605,),
    "N·m": (1.0,), "kN·m": (1e3,), "ft·lbf": (1.3558179483314,), "N/mm": (1.0,), "lbf/in": (0.1751268352,),
    "N·m/°": (1.0,), "in·lbf/°": (0.1129848290276,), "mm²": (1.0,), "in²": (645.16,), "kg": (9.80665,),
    "lb": (4.4482216152605,), "MPa": (1.0,), "10⁻⁶/K": (1e-6,), "10⁻⁶/°F": (1.8e-6,), "m/s": (1.0,), "ft/s": (0.3048,),
}  # fmt: skip
"""Factors from the unit printed to that of the results, by hand: NIST SP 811."""


def numbers_in(value: object) -> Iterator[float]:
    """Every number of a document."""
    if isinstance(value, dict):
        yield from itertools.chain.from_iterable(map(numbers_in, value.values()))
    elif isinstance(value, list):
        yield from itertools.chain.from_iterable(map(numbers_in, value))
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        yield float(value)


def derived(document: dict[str, Any]) -> Iterator[float]:
    """What a data sheet may work out: p A_e, k y, k_theta theta, ranges, both halves of a double together, one."""
    yield 1.0
    for joint in document["takeups"]:
        data, moves = joint["data"], joint["movements"]
        yield joint["reach"]["longest_mm"]["value"] - joint["reach"]["shortest_mm"]["value"]
        yield from (2.0 * value for value in (data["length_mm"], data["weight_n"], joint["set_length_mm"]))
        for move in moves:
            yield move["pressure_bar"] * 0.1 * data["effective_area_mm2"]
            yield move["lateral_mm"] * data["lateral_rate_n_per_mm"]
            yield move["angular_deg"] * data["angular_rate_nm_per_deg"]
    stations = [joint["station_m"] for joint in document["takeups"]]
    yield from (sum(pair) / 2.0 for pair in itertools.pairwise(stations))  # the middle of a double


def is_in(value: float, known: list[float]) -> bool:
    """Whether a number is among some to 1e-9 of it, which converting there and back costs at most."""
    place = bisect_left(known, value)
    return any(math.isclose(value, one, rel_tol=1e-9, abs_tol=1e-9) for one in known[max(0, place - 2) : place + 2])


def traced(value: float, unit: str, known: list[float]) -> bool:
    """Whether a number that is printed in a unit is one of the results'."""
    if unit in ("°C", "°F"):
        return is_in(value if unit == "°C" else (value - 32.0) / 1.8, known)
    return any(is_in(value * factor, known) for factor in FACTORS.get(unit, (1.0,)))


def numbers_of(content: bytes, tab: str) -> Iterator[tuple[float, str]]:
    """Every number of a sheet with its unit: that of its head, or the unit that stands in its row."""
    heads: list[str] = []
    for row in rows_of(content, tab):
        words = row[0] and all(isinstance(cell, str) for cell in row)
        if words and (sum(bool(cell) for cell in row) > 2 or any("\n" in cell for cell in row)):
            heads = [str(cell).partition("\n")[2] for cell in row]
        unit = next((str(cell) for cell in row if cell in FACTORS or cell in ("°C", "°F")), "")
        for column, cell in enumerate(row):
            if isinstance(cell, float):
                yield cell, heads[column] if column < len(heads) and heads[column] else unit


@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
@pytest.mark.parametrize("name", NAMES)
def test_every_number_of_the_workbook_is_of_the_results(name, units):
    document = results(name)
    known = sorted({*numbers_in(document), *derived(document)})
    content = joints_workbook(document, Options(units=units))
    found = [pair for tab in tabs_of(content)[:-1] for pair in numbers_of(content, tab)]
    assert len(found) > 100
    assert [pair for pair in found if not traced(*pair, known)] == []


def test_number_that_is_not_of_the_results_is_found():
    """The test above can fail: a joint's area changed after the workbook was made."""
    document = results("kinds/single-axial")
    content = joints_workbook(document, Options())
    document["takeups"][0]["data"]["effective_area_mm2"] += 1.0
    known = sorted({*numbers_in(document), *derived(document)})
    found = list(numbers_of(content, "J1"))
    assert (14_200.0, "mm²") in found
    assert not traced(14_200.0, "mm²", known)


_NUMBER = re.compile(r"(?<![\w.])[-\N{MINUS SIGN}]?\d+(?:\.\d+)?(?![\w])")


def words_of(content: bytes) -> str:
    """All text of a PDF."""
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(content)).pages)


@pytest.mark.parametrize("name", ["kinds/double", "kinds/hinged", "kinds/tied-universal"])
def test_every_number_on_the_pages_stands_in_the_workbook(name):
    """Rounded on the page to as many digits as are printed; a number within words stands in the same words there."""
    document = results(name)
    workbook = joints_workbook(document, Options())
    cells = [cell for tab in tabs_of(workbook) for row in rows_of(workbook, tab) for cell in row if cell != ""]
    values = [cell for cell in cells if isinstance(cell, float)]
    said = {found for cell in cells if isinstance(cell, str) for found in _NUMBER.findall(cell)}
    pages = words_of(joints_pdf(document, Options()))
    count = len(pypdf.PdfReader(io.BytesIO(joints_pdf(document, Options()))).pages)
    said |= {str(number) for number in range(1, count + 1)}
    printed = {token for token in _NUMBER.findall(pages) if token not in said}
    assert len(printed) > 20
    strange = []
    for token in printed:
        number = float(token.replace("\N{MINUS SIGN}", "-"))
        half = 0.5 * 10.0 ** -len(token.partition(".")[2])
        if not any(abs(number - value) <= half * (1.0 + 1e-9) for value in values):
            strange.append(token)
    assert strange == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_line_without_a_joint_says_so(language):
    document = results("kinds/pipe-loop")
    assert document["takeups"] == []
    options = Options(language=language)
    words = texts(language)("data_sheet.none")
    assert words in " ".join(words_of(joints_pdf(document, options)).split())
    content = joints_workbook(document, options)
    assert len(tabs_of(content)) == 2
    assert any(words.startswith(str(row[0])) and row[0] for row in rows_of(content, tabs_of(content)[0]))


def test_joint_of_a_line_that_was_not_solved_has_its_sheet():
    document = results("kinds/single-axial")
    document["takeups"][0] |= {"movements": [], "reach": None, "spring_n": [], "rods": [], "hardware": []}
    made = make(document, Options())
    assert "was not solved" in words_of(made["joints.pdf"])
    boxes = boxes_of(made["joints.xlsx"], "J1", HEADS)
    assert "axial rate" in boxes


STRANGE = ["=1+1", "@cmd", "Größe Ø 200", "蒸汽-7", "صمام", "*[x]#_$", "A" * 120, "-3"]


@pytest.mark.parametrize("tag", STRANGE)
def test_strange_names_do_no_harm(tag):
    document = results("kinds/single-axial")
    joint = document["takeups"][0]
    for check in document["checks"]:
        check["where"] = tag if check["where"] == joint["name"] else check["where"]
    joint |= {"name": tag, "at": tag}
    document["input"]["project"] = tag
    made = make(document, Options(language="de"))
    tab = tabs_of(made["joints.xlsx"])[1]
    assert ["Kennzeichen", tag] in [row[:2] for row in rows_of(made["joints.xlsx"], tab)]
    with zipfile.ZipFile(io.BytesIO(made["joints.xlsx"])) as book:
        assert not [name for name in book.namelist() if name.startswith("xl/worksheets/") and b"<f" in book.read(name)]
    pages = words_of(made["joints.pdf"]).replace("\N{ZERO WIDTH SPACE}", "").replace("\n", "")
    assert (tag if tag.isascii() or "Ø" in tag else f"[U+{ord(tag[0]):04X}]") in pages


@pytest.mark.parametrize("name", ["kinds/double", "kinds/hinged"])
def test_bytes_are_the_same_each_time(name):
    assert make(results(name), Options()) == make(results(name), Options())


def test_pages_are_tagged_and_say_their_language():
    reader = pypdf.PdfReader(io.BytesIO(joints_pdf(results("kinds/hinged"), Options(language="de"))))
    root = reader.trailer["/Root"]
    assert root["/Lang"] == "de-DE"
    assert root["/MarkInfo"]["/Marked"]
    assert "Datenblätter" in reader.metadata.title
    alts = [str(alt) for alt in _alternatives(root["/StructTreeRoot"])]
    assert sum("von der Seite" in alt for alt in alts) == 2  # a picture of each joint


def _alternatives(element: Any, depth: int = 0) -> Iterator[str]:
    """Alternative texts below an element of the tree of tags."""
    assert depth < 50, "the tree is a tree"
    if "/Alt" in element:
        yield element["/Alt"]
    kids = element.get("/K", [])
    for kid in kids if isinstance(kids, list) else [kids]:
        one = kid.get_object() if hasattr(kid, "get_object") else kid
        if isinstance(one, dict):
            yield from _alternatives(one, depth + 1)


def test_double_stands_on_one_sheet_whole():
    document = results("kinds/double")
    content = joints_workbook(document, Options())
    assert tabs_of(content)[1:-1] == ["J1"]
    boxes = boxes_of(content, "J1", HEADS)
    halves = document["takeups"]
    assert boxes["length, face to face"][2] == sum(half["data"]["length_mm"] for half in halves)
    assert boxes["effective area"][2] == halves[0]["data"]["effective_area_mm2"]


def test_demonstration_data_are_loud_on_every_sheet():
    document = results("kinds/hinged")
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(joints_pdf(document, Options()))).pages]
    assert sum("DEMONSTRATION DATA" in page for page in pages) == 2
    for joint in document["takeups"]:
        joint["provenance"] = "user's data: certificate 7"
    assert "DEMONSTRATION DATA" not in words_of(joints_pdf(document, Options()))


def test_kinds_say_on_paper_what_they_say_of_themselves():
    said = texts("en")
    for kind in WRITTEN_KINDS.values():
        for key, words in (("takes", kind.takes), ("never", kind.never), ("thrust", kind.thrust)):
            assert said(f"kinds.{kind.name} {key}") == words
        assert said(f"kinds.{kind.name} lost") == kind.anchor_lost


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_part_of_a_picture_has_a_name(language):
    said = texts(language)
    words = {item.words for name in WRITTEN_KINDS for item in VIEWS[name]() if isinstance(item, Text)}
    assert all(said(f"joint_picture.{one}") for one in words)
