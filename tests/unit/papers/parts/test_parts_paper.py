"""The list of parts: its numbers are those of the results, its sums those of its rows. (papers/parts/)"""

from __future__ import annotations

import copy
import csv
import io
import math
import re
import zipfile
from functools import lru_cache

import pytest
from python_calamine import CalamineWorkbook
from tests.builders import hold, joint, line_file, study_of
from tests.price_builders import round_prices

from takeup.choose.costs import with_costs
from takeup.edge import SI, US
from takeup.line.reading.reader import study_from_text
from takeup.papers.frame import head_of
from takeup.papers.parts.paper import make
from takeup.papers.parts.saying import names_words
from takeup.papers.registry import Options
from takeup.results import results_of

TEXT = line_file(
    ["12 m east, to: turn", "8 m north"],
    insulation="{ thickness: 50 mm, kind: mineral wool }",
    holds=(hold("spider guide", "4 m"), hold("rest", "6 m"), hold("rest", "9 m")),
    takeups=(joint("J1", "2 m"),),
)
NAMES = ("=1+1", "+J", "@cmd", "-2+3", "\t=1", "Bögen für Öl", "管线 1", "שלום", "<b>&amp;#[]")


@lru_cache(maxsize=1)
def counted() -> dict:
    return results_of(study_of(TEXT))


@lru_cache(maxsize=1)
def priced() -> dict:
    return with_costs(counted(), study_from_text(TEXT, "test.yaml"), round_prices())


def sheets(files) -> dict[str, list[list[object]]]:
    """Every sheet of the workbook, read by another library."""
    book = CalamineWorkbook.from_filelike(io.BytesIO(files["parts.xlsx"]))
    return {name: book.get_sheet_by_name(name).to_python() for name in book.sheet_names}


def table(sheet) -> list[list[object]]:
    """The rows under the head of a sheet's one table: what stands behind the last blank line."""
    blank = max(number for number, row in enumerate(sheet) if not any(row))
    return sheet[blank + 2 :]


def machine(files) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(files["parts.csv"].decode("utf-8"))))


def inner(files) -> dict[str, str]:
    """The files within the workbook."""
    with zipfile.ZipFile(io.BytesIO(files["parts.xlsx"])) as archive:
        return {name: archive.read(name).decode("utf-8") for name in archive.namelist()}


def test_csv_has_every_row_of_the_results():
    """Numbers are written as they are but for their unit: kN for N, so within a last bit or two."""
    rows = machine(make(priced(), Options()))
    assert len(rows) == len(priced()["parts"]["rows"])
    for written, row in zip(rows, priced()["parts"]["rows"], strict=True):
        assert [written[key] for key in ("line", "group", "what", "size", "unit")] == [
            row[key] for key in ("line", "group", "what", "size", "unit")
        ]
        assert float(written["quantity"]) == row["count"]
        assert written["names"] == "; ".join(row["names"])
        for key in ("wall_mm", "radius_mm", "length_mm", "angle_deg"):
            assert written[key] == ("" if row[key] is None else repr(row[key]))
        if row["design_n"] is not None:
            assert float(written["design_load_kn"]) == pytest.approx(row["design_n"] / 1e3, rel=1e-12)
        assert float(written["cost"]) == row["price"]["cost"]
        assert float(written["price_each"]) == row["price"]["each"]
        assert (written["prices_sha256"], written["prices_unit"]) == (round_prices().sha256, "EUR")


def test_workbook_adds_up_to_the_total_of_the_results():
    found = sheets(make(priced(), Options()))
    *rows, last = table(found["Parts"])
    assert math.fsum(row[-2] for row in rows) == pytest.approx(
        priced()["parts"]["total"], rel=1e-12
    )  # rounding of sums
    assert last[-2] == priced()["parts"]["total"]
    assert last[1] == "Total"
    *groups, whole = table(found["Costs"])
    assert math.fsum(row[1] for row in groups) == pytest.approx(whole[1], rel=1e-12)  # rounding of sums
    assert whole[1] == priced()["parts"]["total"]
    for row in rows:
        assert row[4] * row[-3] == pytest.approx(row[-2], rel=1e-12)  # quantity times price


def test_quantities_and_loads_are_those_of_the_results():
    """The two rests are one row: two pieces, the greater load; everything else stands as in the results."""
    rows = {row[1]: row for row in table(sheets(make(counted(), Options()))["Parts"])}
    by_what = {row["what"]: row for row in counted()["parts"]["rows"]}
    rests = [row for row in counted()["parts"]["rows"] if row["what"] == "rest"]
    assert rows["rest"][4] == 2.0
    assert rows["rest"][6] == ", ".join(row["names"][0] for row in rests)
    assert rows["rest"][7] == pytest.approx(max(row["design_n"] for row in rests) / 1e3, rel=1e-12)
    assert rows["pipe"][4] == pytest.approx(by_what["pipe"]["count"], rel=1e-12)  # a workbook has 16 figures
    assert rows["pipe"][3] == "wall 8.18 mm, ASTM A106 B"
    assert rows["insulation, mineral wool"][3] == "50 mm thick, no cladding"
    assert rows["bend"][3] == "wall 8.18 mm, ASTM A106 B, radius 304.8 mm, 90°"
    assert rows["single axial"][6] == "J1"


@pytest.mark.parametrize(("units", "words"), [(SI, "9.839 N each"), (US, "2.2119 lbf each")])
def test_light_joint_keeps_its_weight(units, words):
    """9.839 N are 2.2119 lbf (by hand: / 4.44822); whole newtons and pounds took a tenth of it away."""
    document = copy.deepcopy(counted())
    row = next(row for row in document["parts"]["rows"] if row["group"] == "take-up")
    row["weight_n"] = 9.839
    details = [str(cell) for line in sheets(make(document, Options(units=units)))["Parts"] for cell in line]
    assert any(words in cell for cell in details)


def test_every_hold_stands_by_itself_along_the_line():
    rows = table(sheets(make(counted(), Options()))["Holds"])
    holds = {row["name"]: row for row in counted()["holds"]}
    guides = {row["name"]: row["design_n"] for row in counted()["guides"]}
    assert [row[1] for row in rows] == sorted(holds, key=lambda name: holds[name]["station_m"])
    for row in rows:
        one = holds[row[1]]
        assert row[4] == one["station_m"]
        load = guides.get(row[1], one["envelope"]["design_force_n"])
        assert row[5] == pytest.approx(load / 1e3, rel=1e-12)


def test_names_of_a_row_that_would_be_too_high_are_told_by_both_ends():
    """700 letters are some 27 lines of 30; a row of a sheet is 409 pt high at most, 31 lines of 13 pt."""
    head = head_of(counted(), SI, "en")
    many = [f"slide guide at {number} m" for number in range(60)]
    assert names_words(head, many) == "slide guide at 0 m to slide guide at 59 m: all of them in parts.csv"
    assert names_words(head, many[:20]) == ", ".join(many[:20])


def test_without_prices_there_are_quantities_only_and_it_is_said():
    files = make(counted(), Options())
    found = sheets(files)
    assert set(found) == {"Parts", "Holds", "About this document"}
    assert [row[0] for row in found["Parts"] if "Quantities" in str(row[0])] == [
        "Quantities only: the line file names no price file."
    ]
    assert not any("Price" in str(cell) for row in found["Parts"] for cell in row)
    assert {row["cost"] for row in machine(files)} == {""}
    assert not any("<f>" in text for text in inner(files).values())


def test_whose_prices_they_are_is_said_with_the_hash_of_their_file():
    words = " ".join(str(row[0]) for row in sheets(make(priced(), Options()))["Parts"])
    assert (
        f"Prices: round prices; invented for a test; file round.yaml, SHA-256 {round_prices().sha256}; in EUR." in words
    )
    index = with_costs(counted(), study_from_text(TEXT, "test.yaml"), round_prices(("unit: EUR", "unit: index")))
    words = " ".join(str(row[0]) for row in sheets(make(index, Options()))["Parts"])
    assert "as an index, without currency." in words


def test_row_without_a_price_is_left_out_of_the_total_and_told():
    few = round_prices(("spider guide: { DN 100: 4, DN 200: 6 }", "spider guide: { DN 100: 4 }"))
    found = sheets(make(with_costs(counted(), study_from_text(TEXT, "test.yaml"), few), Options()))["Parts"]
    *rows, last = table(found)
    assert last[1] == "Total of what is priced"
    assert next(row[-2] for row in rows if row[1] == "spider guide") == ""
    assert any(str(row[0]).startswith("1 of 7 rows have no price") for row in found)


def test_feet_are_priced_by_the_foot():
    """1 m is 1/0.3048 ft, so that a foot costs 0.3048 of a metre, and the cost is the same."""
    rows = machine(make(priced(), Options(units=US)))
    (pipe,) = (row for row in rows if row["group"] == "pipe")
    (of_it,) = (row for row in priced()["parts"]["rows"] if row["group"] == "pipe")
    assert float(pipe["quantity"]) == pytest.approx(of_it["count"] / 0.3048, rel=1e-12)
    assert float(pipe["price_each"]) == pytest.approx(of_it["price"]["each"] * 0.3048, rel=1e-12)
    assert (float(pipe["cost"]), pipe["unit"]) == (of_it["price"]["cost"], "ft")


def test_only_sums_are_formulas():
    """Two of them, ours: of the parts, and of the groups; each has the value that it makes."""
    text = "".join(inner(make(priced(), Options())).values())
    formulas = re.findall(r"<f>(.*?)</f><v>(.*?)</v>", text)
    assert [re.sub(r"\d+", "", formula) for formula, _ in formulas] == ["SUM(J:J)", "SUM(B:B)"]
    assert [float(value) for _, value in formulas] == [priced()["parts"]["total"]] * 2


@pytest.mark.parametrize("name", NAMES)
def test_texts_of_the_user_stay_text(name):
    document = copy.deepcopy(priced())
    document["input"]["project"] = name
    document["parts"]["prices"] |= {"name": name, "source": name, "unit": name}
    for row in document["parts"]["rows"]:
        row |= {"names": [name], "material": name, "series": name, "joint": name}
    for language in ("en", "de"):
        files = make(document, Options(language=language))
        found = [cell for sheet in sheets(files).values() for row in sheet for cell in row]
        assert name in found
        assert len(re.findall("<f>", "".join(inner(files).values()))) == 2
        for row in machine(files):
            guarded = name.lstrip().startswith(("=", "+", "-", "@"))
            assert row["names"] == ("'" + name if guarded else name)


def test_german_paper_has_german_words_and_the_same_numbers():
    english, german = (make(priced(), Options(language=language)) for language in ("en", "de"))
    one, other = table(sheets(english)["Parts"]), table(sheets(german)["Teile"])
    numbers = [[cell for cell in row if isinstance(cell, float)] for row in one]
    assert numbers == [[cell for cell in row if isinstance(cell, float)] for row in other]
    assert [row[1] for row in other][:4] == ["Rohr", "Bogen", "Dämmung, Mineralwolle", "Axialkompensator"]
    assert machine(english)[0]["what"] == machine(german)[0]["what"] == "pipe"


@pytest.mark.parametrize("units", [SI, US], ids=["si", "us"])
def test_same_results_give_the_same_bytes(units):
    assert make(priced(), Options(units=units)) == make(copy.deepcopy(priced()), Options(units=units))


def test_line_that_is_not_solved_has_its_parts():
    results = results_of(study_of(line_file(["12 m east"], start="free", end="free", holds=(hold("rest", "4 m"),))))
    found = sheets(make(results, Options()))
    assert any(row[0] == "The lines were not solved: there are no loads." for row in found["Parts"])
    assert [row[1] for row in table(found["Parts"])] == ["pipe", "rest"]
    assert [row[5] for row in table(found["Holds"])] == [""]
