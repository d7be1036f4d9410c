"""The page's types are those of the server."""

from __future__ import annotations

import pytest
from tools.page_types import SOURCES, TARGET, types_text


def test_the_page_has_the_types_of_the_server():
    assert TARGET.read_text(encoding="utf-8") == types_text(*(path.read_text(encoding="utf-8") for path in SOURCES))


def test_each_form_becomes_its_own():
    """By hand from the rules of TypeScript."""
    source = '''
Kind = Literal["a", "b"]
class One(TypedDict, total=False):
    """Says it."""
    name: str
    much: float | None
    kinds: list[Kind]
'''
    assert types_text(source).splitlines()[2:] == [
        'export type Kind = "a" | "b";',
        "",
        "/**",
        " * Says it.",
        " */",
        "export interface One {",
        "  name?: string;",
        "  much?: number | null;",
        "  kinds?: Kind[];",
        "}",
    ]


def test_an_unknown_form_is_refused():
    with pytest.raises(ValueError, match="has no TypeScript here"):
        types_text("class One(TypedDict):\n    name: dict[str, int]\n")
