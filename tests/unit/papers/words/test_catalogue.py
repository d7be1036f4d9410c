"""One catalogue in every language: the same keys, the same fields, nothing unused, nothing left English unseen.

(tests/unit/papers/words/test_catalogue.py)
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import get_args

import pytest
from ruamel.yaml import YAML

import takeup
from takeup.edge import US
from takeup.joints import KINDS
from takeup.line.holding import EndKind, HoldKind
from takeup.line.states import Content
from takeup.papers.words import ENGLISH, LANGUAGES, texts
from takeup.papers.words.catalogue import FOLDER, LOOKED_UP, entries_of, fields_of, flat_texts
from takeup.results.coverage import COVERAGE
from takeup.results.words import CAUTIONS
from takeup.study import CAUSES

OTHERS = [language for language in LANGUAGES if language != ENGLISH]
SOURCE = Path(takeup.__file__).parent
ALIKE = {
    "calculation.angular", "calculation.axial", "calculation.force_x_y_z", "calculation.in", "calculation.lateral",
    "calculation.moment_x_y_z", "calculation.radius", "calculation.revision", "calculation.station",
    "calculation.torsion", "calculation.zone", "calculation.medium", "frame.revision", "frame.zone",
    "calculation.medium_head", "reasons.number_bar_g",
}  # fmt: skip
"""Texts that are the same in both languages."""
BY_PARTS = {
    "calculation.high_friction", "calculation.low_friction", "calculation.no_friction", "frame.cautions",
    "frame.design", "frame.not_covered", "frame.notes", "frame.operating", "frame.test",
}  # fmt: skip
"""Keys that the code puts together."""
LONGEST_PART = 12  # letters of a text that are surely in one piece of the source
PUT_TOGETHER = ("assumptions", "inputs", "walk", "reasons", "joint_parts", "drawing")
"""Topics whose sentences the code and the library put together from parts: their words stand there one by one."""


@cache
def source() -> str:
    """All code and templates as one text, pieces of a string that stand on lines of their own joined."""
    paths = [
        path
        for kind in ("py", "typ", "csv", "yaml")
        for path in SOURCE.rglob(f"*.{kind}")
        if FOLDER not in path.parents
    ]
    text = "\n".join(path.read_text(encoding="utf-8") for path in paths)
    return re.sub(r'"\s*\n\s*f?"', "", text).replace("'", '"')


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*/*.yaml")), ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_topics_are_read_as_a_reader_of_all_yaml_reads_them(path):
    """The catalogue's own reader takes keys and texts line by line; ruamel.yaml knows the whole language."""
    words = path.read_text(encoding="utf-8")
    assert dict(flat_texts(words)) == YAML(typ="safe").load(words)


@pytest.mark.parametrize("line", ["key: |", "key: a # b", "key: [a]", "- a", "key: 'a'", "key:", "  key: a", "a: b: c"])
def test_what_the_reader_of_topics_does_not_know_is_refused(line):
    with pytest.raises(AssertionError, match="a key and its text"):
        list(flat_texts(line))


def topic_of(key: str) -> str:
    """The topic of a key."""
    return key.partition(".")[0]


def _by_parts(key: str) -> bool:
    """Whether the code puts the end of a key together, of a topic whose keys stand nowhere as a whole."""
    return topic_of(key) != "frame" and f'f"{topic_of(key)}.{{' in source()


@pytest.mark.parametrize("language", OTHERS)
def test_languages_have_the_same_keys_and_fields(language):
    english, other = entries_of(ENGLISH), entries_of(language)
    assert set(english) == set(other)
    assert {key: fields_of(text) for key, text in english.items()} == {k: fields_of(t) for k, t in other.items()}


@pytest.mark.parametrize("language", OTHERS)
def test_text_is_not_left_english(language):
    other = entries_of(language)
    alike = {
        key
        for key, text in entries_of(ENGLISH).items()
        if text == other[key] and re.search(r"[a-z]{2}", re.sub(r"\{.*?\}", "", text))
    }
    assert {key for key in alike if topic_of(key) in (*LOOKED_UP, "frame")} <= ALIKE
    assert not {key for key in alike - ALIKE if len(entries_of(ENGLISH)[key].split()) > 2}  # a sentence is never alike


@cache
def words_of_source() -> frozenset[str]:
    """Every word of four letters or more in the source."""
    return frozenset(re.findall(r"[a-z]{4,}", source().lower()))


def test_every_word_of_a_sentence_stands_in_the_source():
    """A sentence that is put together: every word of it, or its singular, is somewhere in the code or the library."""
    unknown = {
        word
        for key, text in entries_of(ENGLISH).items()
        if topic_of(key) in PUT_TOGETHER
        for word in re.findall(r"[a-z]{4,}", re.sub(r"\{.*?\}", "", text).lower())
        if not {word, word.removesuffix("s")} & words_of_source()
    }
    assert unknown == set()


def test_every_key_is_used():
    """A key stands in the code; a text that is looked up stands there in English, in pieces where it has fields."""
    unused = []
    for key, text in entries_of(ENGLISH).items():
        if topic_of(key) in PUT_TOGETHER:
            continue
        looked_up = topic_of(key) in LOOKED_UP
        wanted = [piece[:LONGEST_PART] for piece in re.split(r"\{.*?\}", text)] if looked_up else [f'"{key}"']
        pieces = [piece.replace("'", '"').strip(" ,:.“”") for piece in wanted]
        if not (key in BY_PARTS or _by_parts(key) or all(piece in source() for piece in pieces)):
            unused.append(key)
    assert not unused


@pytest.mark.parametrize("language", OTHERS)
def test_what_every_result_says_has_a_text(language):
    said = texts(language)
    uncovered = [item for item in COVERAGE if item.status == "not covered"]
    fixed = [
        *CAUTIONS, *(item.subject for item in uncovered), *(item.words for item in uncovered), *get_args(HoldKind),
        *get_args(EndKind), *KINDS, US.said, "passes", "close", "fails", "not proved", "not covered", "no limit given",
    ]  # fmt: skip
    assert [words for words in fixed if not said.knows(words)] == []


@pytest.mark.parametrize("language", OTHERS)
def test_every_rule_has_a_name(language):
    titles = {
        title
        for path in (SOURCE / "checks").glob("*.py")
        for title in re.findall(r'^\s+title="(.+)",$', path.read_text(encoding="utf-8"), re.MULTILINE)
    }
    assert len(titles) > 40
    assert [title for title in titles if not texts(language).knows(title)] == []


@pytest.mark.parametrize("language", OTHERS)
def test_every_medium_and_every_cause_of_a_load_has_a_word(language):
    assert [words for words in (*get_args(Content), *CAUSES) if not texts(language).knows(words)] == []


def test_sentence_with_fields_is_found_by_its_words():
    said = texts("de")
    assert said.said("hot beyond Tor 3, cold before it") == "heiß hinter Tor 3, davor kalt"
    assert said.said("on the way to cooling under vacuum") == "auf dem Weg zu „Abkühlen unter Vakuum“"
    assert said.said("operating, high friction, rates low") == "Betrieb, hohe Reibung, Federraten niedrig"
    assert said.said("J1, hot beyond stop, cold before it: force along the line").endswith("Kraft längs der Leitung")


def test_users_name_is_no_word_of_ours():
    """A place that its user calls "rest" keeps its name."""
    assert texts("de").said("hot beyond rest, cold before it") == "heiß hinter rest, davor kalt"


def test_fields_are_not_read_again():
    assert texts("de")("frame.one_line", names="{page} {0} %s") == "Leitung {page} {0} %s"


def test_what_has_no_text_stays_as_it_is():
    assert texts("de").said("because the wall is thin {x}") == "because the wall is thin {x}"
    assert not texts("de").knows("because the wall is thin")
    assert texts("en").said("passes") == "passes"


def test_decimal_mark_is_that_of_the_language():
    assert texts("de").figures("−1.25") == "−1,25"
    assert texts("en").figures("−1.25") == "−1.25"
    assert (texts("de").mark, texts("en").mark) == (",", ".")
