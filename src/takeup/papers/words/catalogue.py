"""One catalogue of texts: by key, and sentences of the results by their English words. (papers/words/catalogue.py)

`en/<topic>.yaml` and `de/<topic>.yaml` hold the texts of a topic; the key of a text is `<topic>.<key>`, and its named
fields, {such} as this, are the same in both. The topics of `LOOKED_UP` are read by their English words instead, with
`said`, because those stand in the results: a field there stands for what the results have in its place, which is
looked up itself, unless the field's name begins with `name` (the user's own) or `number`, or is `count` (digits
alone). What has no text in a language stays English, and a paper in it says so (`frame.left_english`).
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from string import Formatter
from types import MappingProxyType
from typing import Literal, get_args

Language = Literal["en", "de"]
LANGUAGES: tuple[Language, ...] = get_args(Language)
ENGLISH: Language = "en"
LOOKED_UP = ("results", "calculation", "assumptions", "inputs", "walk", "reasons", "joint_parts", "drawing")
"""Topics whose texts are found by their English words."""
FOLDER = Path(__file__).parent
_POINT = re.compile(r"(?<=\d)\.(?=\d)")
_WORD = re.compile(r"(?!sqrt|psig)[a-z]{4}")  # what has no word so long is a formula, a number with its unit, or a name
_FORMULA = re.compile(r"(?!S_h)\S+ = [^;]*(?=[(+−*/^]| x )[^;]*")  # a symbol, and numbers put into what it is
_NUMBER = r"[(+<>~≤≥\u2212-]{0,2}\d(?:(?!(?!psig)[a-z]{4})[^;])*?"  # with a unit or another number behind it
_TOGETHER = r" - [a-z]|,? \(?(?:no|low|high) friction|, friction |, rates |, nominal rates"
_NAME = rf"(?:(?!{_TOGETHER}|: )[^;])+?"
"""A name ends where states, scenarios and reasons are put together: at a colon, a dash, the words for friction."""
_GIVEN = rf"(?:(?!{_TOGETHER})[^;])+?"  # what a user gave as a reason or a source may have a colon
_QUOTED = r'"(?:[^"\\]|\\.)*"'
_PLAIN = r"[^\s\"#&*!|>%@`{\[?,'-](?:(?! #|: ).)*"
_LINE = re.compile(rf"(?P<key>{_QUOTED}|[^\s\"#:][^:\"]*): (?P<text>{_QUOTED}|{_PLAIN})")
"""A key and its text; a plain one has nothing in it that YAML would read otherwise."""
_KEPT = 20_000  # texts that a process remembers: those of some hundred documents
_MARKS: Mapping[Language, Literal[".", ","]] = MappingProxyType({"en": ".", "de": ","})


@dataclass(frozen=True, kw_only=True, slots=True)
class Texts:
    """The texts of one language: `texts("frame.page", number=1)`, and the results' own sentences by `said`."""

    language: Language
    entries: Mapping[str, str]
    sentences: Mapping[str, str]
    patterns: tuple[tuple[re.Pattern[str], str], ...]

    def __call__(self, key: str, /, **fields: object) -> str:
        """Return a text with its fields filled in; an unknown key or a missing field is our own fault."""
        return self.entries[key].format_map(fields)

    @property
    def mark(self) -> Literal[".", ","]:
        """The decimal mark."""
        return _MARKS[self.language]

    def said(self, words: str) -> str:
        """Return what the results say in English in this language; as it stands where the catalogue has no text."""
        return words if self.language == ENGLISH else _read(self.language, words).words

    def knows(self, words: str) -> bool:
        """Tell whether a text of the results has one in this language."""
        return not self.lacking(words)

    def lacking(self, words: str) -> tuple[str, ...]:
        """Return the parts of a text of the results that stay English in this language."""
        return () if not words or self.language == ENGLISH else _read(self.language, words).lacking

    def from_to(self, near: str, far: str) -> str:
        """Return a stretch between two names."""
        return self("layout.from_to", near=near, far=far)

    def figures(self, number: str) -> str:
        """Return a number that was written with a decimal point with this language's mark."""
        return number if self.mark == "." else _POINT.sub(self.mark, number)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Reading:
    """What a text became, and which of its parts stayed as they were."""

    words: str
    lacking: tuple[str, ...] = ()


@lru_cache(maxsize=_KEPT)
def _read(language: Language, words: str) -> _Reading:
    """Return a text in a language: word for word, else by the first pattern that leaves nothing English.

    Where each leaves something, the one that leaves least is taken, and parts between semicolons are tried by
    themselves: reasons are put together with them.
    """
    said = texts(language)
    exact = said.sentences.get(words)
    if exact is not None:
        return _Reading(words=exact)
    if _FORMULA.fullmatch(words):
        return _Reading(words=said.figures(words))
    best = _Reading(words=words, lacking=(words,) if _WORD.search(words) else ())
    for found in _readings(said, words):
        if not found.lacking:
            return found
        if _letters(found) < _letters(best):
            best = found
    return best


def _readings(said: Texts, words: str) -> Iterator[_Reading]:
    for pattern, text in said.patterns:
        match = pattern.fullmatch(words)
        if match:
            parts = {name: _part(said, name, part) for name, part in match.groupdict().items()}
            filled = text.format_map({name: part.words for name, part in parts.items()})
            yield _Reading(words=filled, lacking=tuple(one for part in parts.values() for one in part.lacking))
    for mark in ("; ", ", "):
        first, between, rest = words.partition(mark)
        if between and (mark == "; " or said.sentences.get(first) is not None):
            each = _read(said.language, first), _read(said.language, rest)
            yield _Reading(words=f"{each[0].words}{mark}{each[1].words}", lacking=each[0].lacking + each[1].lacking)


def _part(said: Texts, field: str, words: str) -> _Reading:
    """Return what stands in a field: a user's name and a count as they are, a number with this language's mark."""
    if field.startswith("name") or field == "count":
        return _Reading(words=words)
    return _Reading(words=said.figures(words)) if field.startswith("number") else _read(said.language, words)


def _letters(found: _Reading) -> int:
    return sum(map(len, found.lacking))


@cache
def texts(language: Language) -> Texts:
    """Return the texts of a language."""
    entries = entries_of(language)
    pairs = [
        (english, entries[key])
        for key, english in entries_of(ENGLISH).items()
        if language != ENGLISH and key.partition(".")[0] in LOOKED_UP
    ]
    plain = {_bare(english): _bare(text) for english, text in pairs if not fields_of(english)}
    fielded = [(english, text) for english, text in pairs if fields_of(english)]
    fielded.sort(key=lambda pair: -len(pair[0]))  # the more a pattern says, the sooner it is asked
    return Texts(
        language=language,
        entries=entries,
        sentences=MappingProxyType(plain),
        patterns=tuple((_pattern(english), text) for english, text in fielded),
    )


@cache
def entries_of(language: Language) -> Mapping[str, str]:
    """Return every text of a language by its key, topic by topic."""
    found: dict[str, str] = {}
    for path in sorted((FOLDER / language).glob("*.yaml")):
        found |= {f"{path.stem}.{key}": text for key, text in flat_texts(path.read_text(encoding="utf-8"))}
    return MappingProxyType(found)


def flat_texts(topic: str) -> Iterator[tuple[str, str]]:
    """Yield the keys and texts of a topic: one on a line, plain or between double quotes as in JSON.

    So much of YAML is read in a fiftieth of the time that a reader of all of it takes; a test reads every file by both.
    """
    for number, line in enumerate(topic.splitlines(), start=1):
        if not line or line.startswith("#"):
            continue
        found = _LINE.fullmatch(line)
        assert found is not None, f"line {number} of a topic is a key and its text: {line}"
        yield _scalar(found["key"]), _scalar(found["text"])


def _scalar(words: str) -> str:
    return str(json.loads(words)) if words.startswith('"') else words


def fields_of(text: str) -> frozenset[str]:
    """Return the names of the fields of a text."""
    return frozenset(name for _, name, _, _ in Formatter().parse(text) if name is not None)


def _bare(text: str) -> str:
    """Return a text without fields as it is printed: doubled braces are one."""
    return text.format_map({})


def _pattern(text: str) -> re.Pattern[str]:
    """Return what finds a text with anything in its fields; a field that comes twice is the same both times."""
    parts: list[str] = []
    known: set[str] = set()
    for literal, name, _, _ in Formatter().parse(text):
        parts.append(re.escape(literal))
        if name is not None:
            parts.append(f"(?P={name})" if name in known else f"(?P<{name}>{_held(name)})")
            known.add(name)
    return re.compile("".join(parts), re.DOTALL)


def _held(name: str) -> str:
    """Return what may stand in a field."""
    if name == "count":
        return r"\d+"
    if name.startswith(("name_because", "name_source")):
        return _GIVEN
    return _NUMBER if name.startswith("number") else _NAME if name.startswith("name") else ".+?"


__all__ = ["ENGLISH", "LANGUAGES", "Language", "Texts", "entries_of", "fields_of", "texts"]
