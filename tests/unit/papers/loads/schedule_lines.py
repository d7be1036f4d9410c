"""Lines for the load schedule, their results and files, made once.     (tests/unit/papers/loads/schedule_lines.py)"""

from __future__ import annotations

import copy
import io
import json
from functools import cache

from pypdf import PdfReader
from python_calamine import CalamineWorkbook
from tests.builders import hold, joint, line_file, rule, study_of

from takeup.edge import SI, US
from takeup.papers.loads.paper import make
from takeup.papers.registry import Options
from takeup.results import results_of

FACTORS = "design_factors: { anchors: 1.35, guides: 1.5, source: invented office rule 7 }"
ENOUGH = "can_carry: 120 kN, can_carry_moment: 9 kN·m"
HELD = (
    rule("slide guide", "spacing rule"),
    hold("intermediate anchor", "corner - 2 m", name="corner anchor", can_carry="130 kN"),
    hold("rest", "corner + 4 m", slides_on="PTFE on steel"),
    "{ kind: hanger, at: corner + 7 m, name: test hanger, only_in: under hydrostatic test }",
)
TEXTS = {
    # a corner, a joint, guides, a hold for the test alone; factors
    "corner": line_file(
        ["36 m east, to: corner", "11 m north"],
        start=f"main anchor, {ENOUGH}",
        end=f"main anchor, {ENOUGH}",
        holds=HELD,
        takeups=(joint("J1", "west end + 2 m"),),
        more=FACTORS,
    ),
    # the same kind of line askew, without factors, its far structure giving
    "askew": line_file(
        ["24 m, along: [1, 1, 0], to: kink", "8 m, along: [1, -1, 0]"],
        start=f"main anchor, {ENOUGH}",
        end="main anchor, stiffness: { force: [9 kN/mm, 9 kN/mm, rigid], moment: [rigid, rigid, rigid], source: test }",
        holds=(
            hold("slide guide", "west end + 3.5 m", slides_on="PTFE on steel"),
            hold("slide guide", "west end + 9 m", slides_on="PTFE on steel"),
            hold("intermediate anchor", "kink - 2 m", name="kink anchor"),
        ),
        takeups=(joint("J1", "west end + 2 m"),),
    ),
    # a line that goes on beyond its far end
    "continues": line_file(["12 m east"], start=f"main anchor, {ENOUGH}", end="continues"),
    # nothing holds it along its axis
    "loose": line_file(["12 m east"], start="free", end="free"),
}


@cache
def _results(name: str) -> str:
    return json.dumps(results_of(study_of(TEXTS[name])))


def results(name: str):
    """The results of a line, for whoever asks to change."""
    return json.loads(_results(name))


@cache
def files(name: str, system: str = "si", language: str = "en") -> dict[str, bytes]:
    """Every file of the schedule of a line; nobody changes it."""
    return make(results(name), options(system, language))


def options(system: str = "si", language: str = "en") -> Options:
    return Options(units={"si": SI, "us": US}[system], language=language)


def renamed(document, names: dict[str, str]):
    """The same results with other names, wherever they stand."""

    def change(value: object) -> object:
        if isinstance(value, str):
            for old, new in names.items():
                value = value.replace(old, new)
            return value
        if isinstance(value, list):
            return [change(item) for item in value]
        return {key: change(item) for key, item in value.items()} if isinstance(value, dict) else value

    return change(copy.deepcopy(document))


def rows(content: bytes, sheet: str) -> list[dict[str, object]]:
    """The rows of a sheet under its head, by the heads of their columns; the head is the row that names the hold."""
    read = CalamineWorkbook.from_filelike(io.BytesIO(content)).get_sheet_by_name(sheet).to_python()
    at = next(number for number, row in enumerate(read) if row[0] in {"Hold", "Halterung", "Place", "Stelle"})
    return [dict(zip(map(str, read[at]), row, strict=True)) for row in read[at + 1 :]]


def notes(content: bytes, sheet: str) -> list[str]:
    """What stands over the head of a sheet, in its first column, or beside it where the sheet is several pages wide."""
    read = CalamineWorkbook.from_filelike(io.BytesIO(content)).get_sheet_by_name(sheet).to_python()
    at = next(number for number, row in enumerate(read) if row[0] in {"Hold", "Halterung", "Place", "Stelle"})
    return [str(row[0] or row[1]) for row in read[:at]]


def pages(content: bytes) -> list[str]:
    """The words of every page of a PDF, spaces and breaks made one space, places where a word may end left out."""
    read = PdfReader(io.BytesIO(content))
    return [" ".join(page.extract_text().replace("\u200b", "").split()) for page in read.pages]
