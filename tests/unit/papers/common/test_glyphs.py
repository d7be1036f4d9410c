"""What the typeface cannot print is printed by its code; what it can is listed rightly."""

from __future__ import annotations

import pytest
import typst

from takeup.papers.common.glyphs import FONTS, breakable, covered, printable, printable_tree


def set_in_all_styles(words: str) -> bytes:
    """Set words in the three styles as an archive PDF, which may hold no letter without a shape."""
    styles = '#w #text(weight: 600, w) #text(style: "italic", w)'
    source = f'#set document(title: "t")\n#set text(font: "Inter", lang: "en")\n#let w = sys.inputs.w\n{styles}'
    fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[FONTS])
    return typst.compile(
        source.encode(), font_paths=fonts, format="pdf", sys_inputs={"w": words}, pdf_standards=["a-2a"]
    )


def test_every_letter_listed_has_a_shape_in_all_styles():
    letters = "".join(chr(code) for code in sorted(covered()))
    assert set_in_all_styles(letters)


def test_a_letter_that_is_not_listed_would_break_the_document():
    """The proof that the test above can fail."""
    with pytest.raises(typst.TypstError):
        set_in_all_styles("\u4e2d")


def test_letters_without_a_shape_are_told_by_code():
    assert printable("a中b") == "a[U+4E2D]b"
    assert printable("two\nlines\tand\x07") == "two lines and[U+0007]"
    assert printable("ΔL = ε(T) L, 12 °C ≤ 1.0 × 10⁻⁹ → −8") == "ΔL = ε(T) L, 12 °C ≤ 1.0 × 10⁻⁹ → −8"


def test_lone_surrogate_is_told_by_code():
    assert printable("\ud800") == "[U+D800]"


def test_tree_is_cleaned_and_its_keys_and_numbers_left():
    assert printable_tree({"name": "中", "list": ["a", 1.5, None, True]}) == {
        "name": "[U+4E2D]",
        "list": ["a", 1.5, None, True],
    }


def test_very_long_words_may_be_broken():
    assert breakable("short words stay as they are") == "short words stay as they are"
    long = "x" * 40
    assert breakable(long).replace("\u200b", "") == long
    assert max(len(piece) for piece in breakable(long).split("\u200b")) == 11


def test_all_that_ascii_prints_is_in_the_typeface():
    """The short way round for words of nothing else rests on it."""
    assert set(range(ord(" "), ord("~") + 1)) <= covered()
