"""One catalogue of texts: by key, and sentences of the results by their English words. (papers/words/catalogue.py)

`en/<topic>.yaml` and `de/<topic>.yaml` hold the texts of a topic; the key of a text is `<topic>.<key>`, and its named
fields, {such} as this, are the same in both. The topics of `LOOKED_UP` are read by their English words instead, with
`said`, because those stand in the results: a field there stands for what the results have in its place, which is
looked up itself, unless the field's name begins with `name` (the user's own) or `number`, or is `count` (digits
alone). What has no text in a language stays English, and a paper in it says so (`frame.left_english`).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from string import Formatter
from types import MappingProxyType
from typing import Literal, get_args

Language = Literal["en", "de"]
LANGUAGES: tuple[Language, ...] = get_args(Language)
ENGLISH: Language = "en"
LOOKED_UP = ("results", "calculation")
"""Topics whose texts are found by their English words."""
FOLDER = Path(__file__).parent
_POINT = re.compile(r"(?<=\d)\.(?=\d)")
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
        return words if (found := self._found(words)) is None else found

    def knows(self, words: str) -> bool:
        """Tell whether a text of the results has one in this language."""
        return not words or self.language == ENGLISH or self._found(words) is not None

    def figures(self, number: str) -> str:
        """Return a number that was written with a decimal point with this language's mark."""
        return number if self.mark == "." else _POINT.sub(self.mark, number)

    def _found(self, words: str) -> str | None:
        exact = self.sentences.get(words)
        if exact is not None:
            return exact
        for pattern, text in self.patterns:
            match = pattern.fullmatch(words)
            if match:
                return text.format_map({name: self._part(name, part) for name, part in match.groupdict().items()})
        return None

    def _part(self, field: str, words: str) -> str:
        """Return what stands in a field: a user's name and a count as they are, a number with this language's mark."""
        if field.startswith("name") or field == "count":
            return words
        return self.figures(words) if field.startswith("number") else self.said(words)


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
    from ruamel.yaml import YAML

    found: dict[str, str] = {}
    for path in sorted((FOLDER / language).glob("*.yaml")):
        topic = YAML(typ="safe").load(path.read_text(encoding="utf-8"))
        found |= {f"{path.stem}.{key}": str(text) for key, text in topic.items()}
    return MappingProxyType(found)


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
            held = r"\d+" if name == "count" else ".+?"
            parts.append(f"(?P={name})" if name in known else f"(?P<{name}>{held})")
            known.add(name)
    return re.compile("".join(parts), re.DOTALL)


__all__ = ["ENGLISH", "LANGUAGES", "Language", "Texts", "entries_of", "fields_of", "texts"]
