"""German papers of every example: no sentence of ours is left English, whatever the results say.

What is written into results.json is English; the papers translate it by the catalogue. Two counts, both with a list of
what may rest: texts that were looked up and not found, and English little words in anything that is printed, said for
those who cannot see, or drawn. What the user wrote in the line file is the user's, and so are names made from it.
(tests/examples/test_german_papers.py)
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from itertools import product

import pytest
from ruamel.yaml import YAML
from tests.example_studies import EXAMPLES, results
from tests.examples.test_bare import searched

from takeup.edge import SI, US, Units
from takeup.papers.calculation.calculation import contents_of
from takeup.papers.calculation.translated import Wording
from takeup.papers.frame import head_of
from takeup.papers.registry import Options, papers_bytes
from takeup.papers.words import texts

NAMES = sorted(path.stem for path in EXAMPLES.glob("*.yaml"))
BARE = ("linnet-foot-pipe-bridge", "sorrel-yard-laundry", "tansy-house-basement")
"""Of the bare routes those whose proposals are found in a second or two."""
KINDS = sorted(f"kinds/{path.stem}" for path in (EXAMPLES / "kinds").glob("*.yaml"))
LITTLE = re.compile(
    r"\b(the|of|and|with|is|are|not|under|beyond|before|its|to|from|by|which|each|at|for|or|than|has|have|no|uses|cycles)\b"
)
"""English words that no German sentence has ("in", "an" and "also" are German too)."""
ALLOWED_TEXTS = {
    r"[0-9a-f]{16}": "a checksum",
    r"takeup [\d.]+": "the name of this program",
    r"ASME .*Table TE-1 \(2001\)": "the name of a table",
    r"Alloy \d+": "the name of a metal",
    r"[\w., ]+\.csv": "names of files",
    r"(?:pressed from outside|axial) DN .*": "the name of a joint in its series",
    r"demonstration series": "the name of a series",
    r"API RP 583 .*|the pool: .*": "names of documents that rules of advice go back to",
}
"""Texts that were looked up, and may rest English, each with its reason."""
ALLOWED_WORDS = {
    r"(?:ASME B31\.1|·) to 2007": "the name of an edition of a table",
    r"auf „at“ folgt": "a quotation from names",
    r"^(?:· )?(?:guide )?(?:at|of|before)(?: [\d.·]+)?$": "a piece of a name that stands on two lines",
    r"^· at [\w ·+]*…$": "a name cut for want of room",
    r"Auflager bei [·\w ,.+-]+ \(unten\)": "places by their names, gathered by kind",
    r"pressed from outside ": "the name of a joint in its series",
}
"""Where English little words may stand, each with its reason; names and the user's own words are taken out before."""
PAPERS = ("calculation", "loads", "layout", "joints", "card")
"""The papers that are set by a template, whose contents can be looked at before they are set."""


def strings_of(value: object) -> Iterator[str]:
    """Every text in a document, keys left out."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for item in value.values():
            yield from strings_of(item)
    elif isinstance(value, list | tuple):
        for item in value:
            yield from strings_of(item)


def users_own(name: str, document: dict) -> re.Pattern[str]:
    """What finds the words of the user in the line file, and names in the results, most of which are made from it."""
    given = YAML(typ="base").load((EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8"))
    own = {*strings_of(given), *strings_of(document["input"])}
    own |= {row["name"] for key in ("holds", "takeups", "lines", "zones") for row in document[key]}
    for line in document["lines"]:
        own |= {end["name"] for end in line["ends"]} | {leg[way] for leg in line["legs"] for way in ("from", "to")}
    longest = sorted((words for words in own if len(words) > 2), key=len, reverse=True)
    return re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, longest))})(?!\w)")


@pytest.mark.parametrize(("name", "units"), [*product(NAMES, (SI, US)), *product(KINDS, (SI,))])
def test_no_text_of_an_example_is_looked_up_in_vain(name, units, monkeypatch):
    assert lacking_in(name, results(name), units, monkeypatch) == set()


@pytest.mark.parametrize("name", BARE)
def test_no_text_of_a_proposal_is_looked_up_in_vain(name, monkeypatch):
    """The first proposal for a bare route has joints of a series, anchors and guides that nobody typed."""
    document = searched(name).proposals[0].found.results
    assert lacking_in(f"bare/{name}", document, SI, monkeypatch) == set()


def lacking_in(name: str, document: dict, units: Units, monkeypatch: pytest.MonkeyPatch) -> set[str]:
    """Texts of ours in a calculation that the catalogue was asked for and does not have, the user's own taken out."""
    said = texts("de")
    own = users_own(name, document)
    lacking: set[str] = set()
    asked = Wording.__call__

    def remembered(wording: Wording, words: str) -> str:
        if words not in wording.reasons and words not in wording.stretches:
            lacking.update(said.lacking(words))
        return asked(wording, words)

    monkeypatch.setattr(Wording, "__call__", remembered)
    contents_of(document, units, "de")
    for item in (*document["cautions"], *strings_of(document["not_covered"])):
        lacking.update(said.lacking(item))
    rest = {words for words in lacking if re.search(r"[a-z]{4}", own.sub("·", words))}
    return {words for words in rest if not any(re.fullmatch(pattern, words) for pattern in ALLOWED_TEXTS)}


def printed(tree: object) -> Iterator[str]:
    """Everything that a template sets: texts, and the words of drawings; the catalogue itself left out."""
    if isinstance(tree, dict):
        tree = {key: value for key, value in tree.items() if key != "words" or isinstance(value, str)}
        for value in tree.values():
            yield from printed(value)
    elif isinstance(tree, list):
        for value in tree:
            yield from printed(value)
    elif isinstance(tree, str):
        plain = tree.replace("\u200b", "").replace("\N{NO-BREAK SPACE}", " ")
        yield from re.findall(r">([^<>]+)<", plain) if plain.lstrip().startswith("<") else [plain]


@pytest.mark.parametrize("name", NAMES)
def test_no_english_little_word_stands_in_a_german_paper(name, monkeypatch):
    import typst

    document, trees = results(name), []

    def caught(*_: object, sys_inputs: dict[str, str], **__: object) -> tuple[bytes, list[str]]:
        trees.append(json.loads(sys_inputs["data"]))
        return b"%PDF-1.7", []

    monkeypatch.setattr(typst, "compile_with_warnings", caught)
    papers_bytes(document, Options(units=SI, language="de"), PAPERS)
    assert len(trees) == len(PAPERS)
    own, found = users_own(name, document), set()
    for words in {words for tree in trees for words in printed(tree)}:
        left = own.sub("·", words)
        for pattern in ALLOWED_WORDS:
            left = re.sub(pattern, "·", left)
        if LITTLE.search(left):
            found.add(words)
    assert found == set()


def test_head_says_what_is_left_english():
    """Where something may rest English, every paper says so."""
    head = head_of(results("ketterby-steam-main"), SI, "de")
    assert any("nicht übersetzt" in words for words in head.remarks)
