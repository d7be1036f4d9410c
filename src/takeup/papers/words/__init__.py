"""The words of the papers, in every language that they are written in.     (papers/words/__init__.py)"""

from takeup.papers.words.catalogue import ENGLISH, LANGUAGES, Language, Texts, texts

__all__ = ["ENGLISH", "LANGUAGES", "Language", "Texts", "texts"]
