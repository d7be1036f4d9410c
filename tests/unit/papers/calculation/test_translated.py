"""The calculation in German: our words translated, names kept.     (papers/calculation/test_translated.py)"""

from __future__ import annotations

import io
import re

import pypdf
import pytest
from tests.unit.drawing.results_fixture import corner

from takeup.edge import SI
from takeup.papers.calculation.calculation import calculation_pdf, contents_of


@pytest.fixture(scope="module")
def pages():
    """The pages as text."""
    reader = pypdf.PdfReader(io.BytesIO(calculation_pdf(corner(), SI, "de")))
    return ["".join(page.extract_text().split()) for page in reader.pages]


def test_german_calculation_has_german_headings(pages):
    words = "".join(pages)
    for head in ("Eingaben", "Annahmen", "Zustände", "LastenaufHalterungen", "Nachweise", "Warnhinweise"):
        assert head in words
    assert "Urteil:nichterfüllt" in pages[0]
    assert "Seite1von" in pages[0]


def test_german_calculation_says_on_page_one_what_stays_english(pages):
    assert "istnichtübersetzt" in pages[0] or "sindnichtübersetzt" in pages[0]


def test_german_calculation_keeps_names(pages):
    document = corner()
    words = "".join(pages)
    for item in (*document["holds"], *document["takeups"]):
        assert "".join(item["name"].split()) in words


def numbers(value) -> list[str]:
    """Every number of columns of numbers, in order; words that stand in one are not numbers."""
    if isinstance(value, dict):
        if "columns" in value and "rows" in value:
            right = [column["align"] == "right" for column in value["columns"]]
            return [
                cell["words"]
                for row in value["rows"]
                for cell, number in zip(row["cells"], right, strict=True)
                if number and any(letter.isdigit() for letter in cell["words"])
            ]
        return [found for item in value.values() for found in numbers(item)]
    return [found for item in value for found in numbers(item)] if isinstance(value, list) else []


def test_numbers_are_the_same_with_another_mark():
    english, german = numbers(contents_of(corner())), numbers(contents_of(corner(), SI, "de"))
    assert len(english) > 50
    assert [words.replace(",", ".") for words in german] == [words.replace(",", ".") for words in english]
    assert not any(re.search(r"\d\.\d", words) for words in german)


def test_english_calculation_has_no_words_to_look_up():
    assert contents_of(corner())["words"] == {}
