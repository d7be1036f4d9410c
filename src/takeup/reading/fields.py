"""The kinds of value a user's file holds: quantities, words from a list, counts, free text.     (reading/fields.py)

Each is a marker for pydantic: text goes in, a checked value comes out, and the JSON Schema says text.
A wrong value raises ValueError with a sentence for the user; the room's fault book adds the place.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from takeup.units import Kind, parse, parse_number

LONGEST_TEXT = 500
"""Letters that one text may have: a reason of four lines on paper; a page would be set by the hour from more."""

LONGEST_NAME = 80
"""Letters that a name may have: tables and drawings bear it."""

LEAST_REASON = 10
"""Letters below which a text is no reason that a reader of the papers could follow."""

MOST_MEANT = 3
"""Names that one word may mean; of more, none is worth naming."""

_MOST_DIGITS = 9
_NO_REFUSALS: Mapping[str, str] = {}


@dataclass(frozen=True, kw_only=True, slots=True)
class Reads:
    """A pydantic marker: `read` turns the text into the value, `about` says in words what it must be.

    With `lists`, a list of texts is as good as one and gives a tuple; with `whole`, a list of texts is one value.
    A text may have `letters`; what is longer is not read.
    """

    read: Callable[[str], object]
    about: str
    words: tuple[str, ...] = ()
    examples: tuple[str, ...] = ()
    lists: bool = False
    bare_number: bool = False
    letters: int = LONGEST_TEXT
    whole: Callable[[tuple[str, ...]], object] | None = None

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Check with `read` alone: the text never passes through pydantic's own conversions."""
        return core_schema.no_info_plain_validator_function(self._value)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        """Say "text", or for `lists` "text or a list of texts"; an editor takes a bare number for a number."""
        text: JsonSchemaValue = {"type": ["string", "number"] if self.bare_number else "string"}
        if self.words:
            numbers = [int(word) for word in self.words if word.isdigit()]
            text = {"enum": [*self.words, *numbers]}
        if self.letters < LONGEST_TEXT:
            text["maxLength"] = self.letters
        if self.examples:
            text["examples"] = list(self.examples)
        if self.whole is not None:
            return {"anyOf": [text, {"type": "array", "items": {"type": ["string", "number"]}}]}
        return {"anyOf": [text, {"type": "array", "items": text, "minItems": 1}]} if self.lists else text

    def _value(self, found: object) -> object:
        if self.lists and isinstance(found, list) and found:
            return tuple(self._one(item) for item in found)
        if self.whole is not None and isinstance(found, list):
            return self.whole(tuple(self._text(item) for item in found))
        value = self._one(found)
        return (value,) if self.lists else value

    def _one(self, found: object) -> object:
        return self.read(self._text(found))

    def _text(self, found: object) -> str:
        if not isinstance(found, str):
            kind = "a list" if isinstance(found, list) else "a mapping"
            raise ValueError(f"found {kind}, expected {self.about}")  # noqa: TRY004  pydantic gathers ValueError only
        if found.strip() == "":
            raise ValueError(f"found nothing, expected {self.about}")
        if len(found) > self.letters:
            raise ValueError(f"{self.about} of {len(found)} letters is too long; at most {self.letters} are taken")
        return found


def nearest(word: str, known: tuple[str, ...]) -> str:
    """Return "; did you mean 'x'?" for the known word nearest to a mistyped one, or nothing.

    A word is near by its letters, or because longer names begin with it, or else hold it, whole words only; a few of
    these are all named.
    """
    close = get_close_matches(word, known, n=3, cutoff=0.6)
    swapped = [one for one in close if sorted(one) == sorted(word)]
    best = (swapped or close)[:1] or _longer(word, known)
    quoted = " or ".join(f"'{one}'" for one in best)
    return f"; did you mean {quoted}?" if best else ""


def _longer(word: str, known: tuple[str, ...]) -> list[str]:
    """Return the known names that begin with the words typed, else those that hold them; none where there are many."""
    words = " ".join(word.split())
    if not words:
        return []
    whole = re.compile(rf"(?<!\w){re.escape(words)}(?!\w)", re.IGNORECASE)
    begin = [one for one in known if whole.match(one)]
    holding = begin or [one for one in known if whole.search(one)]
    return holding if len(holding) <= MOST_MEANT else []


def listed(known: tuple[str, ...], *, apart: str = ", ") -> str:
    """Say what there is: "they are: a, b", or "there is none"."""
    return f"they are: {apart.join(known)}" if known else "there is none"


def quantity(
    kind: Kind, example: str, *, above: float | None = None, least: float | None = None, most: str = ""
) -> Reads:
    """Make the marker of a quantity with its unit, in SI.

    Args:
        kind: of the quantity.
        example: as it may be typed.
        above: exclusive limit, in SI.
        least: inclusive limit, in SI.
        most: size past which it can only be a slip of its unit, as it may be typed; of either sign.
    """
    largest = parse(most, kind) if most else None

    def read(text: str) -> float:
        value = parse(text, kind)
        if above is not None and value <= above:
            raise ValueError(f"'{text}' must be above {above:g}")
        if least is not None and value < least:
            raise ValueError(f"'{text}' must not be below {least:g}")
        if largest is not None:
            check_size(text, value, largest, most)
        return value

    article = "an" if kind[0] in "aeiou" else "a"
    limit = f", {most} at most" if most else ""
    return Reads(read=read, about=f"{article} {kind} with its unit, such as {example}{limit}", examples=(example,))


def check_size(text: str, value: float, largest: float, most: str) -> None:
    """Refuse a size that can only be a slip of its unit; `most` is the `largest` one as it may be typed."""
    if not -largest <= value <= largest:
        raise ValueError(f"'{text}' is more than {most}{' the other way' if value < 0.0 else ''}; is its unit right?")


def one_of(
    words: tuple[str, ...], *, what: str, refused: Mapping[str, str] = _NO_REFUSALS, otherwise: str = "not known"
) -> Reads:
    """Make the marker of a word from a list; a word in `refused` says why it is not taken, any other `otherwise`."""
    about = f"one of: {', '.join(words)}" if len(words) > 1 else words[0]

    def read(text: str) -> str:
        if text in words:
            return text
        if text in refused:
            raise ValueError(f"the {what} '{text}' is {refused[text]}; expected {about}")
        near = nearest(text, words) if len(words) > 1 else ""
        raise ValueError(f"the {what} '{text}' is {otherwise}; expected {about}{near}")

    return Reads(read=read, about=about, words=words)


def free_text(about: str, *examples: str) -> Reads:
    """Make the marker of a text that is taken as typed."""
    return Reads(read=str, about=about, examples=examples, bare_number=True)


def name(about: str) -> Reads:
    """Make the marker of a name: a short text on one line."""

    def read(text: str) -> str:
        if len(text.splitlines()) > 1:
            raise ValueError(f"{about} stands on one line")
        return text

    return Reads(read=read, about=about, bare_number=True, letters=LONGEST_NAME)


def reason(about: str, why: str) -> Reads:
    """Make the marker of a reason; a word is none, and `why` then says what is asked."""

    def read(text: str) -> str:
        if len(text.strip()) < LEAST_REASON:
            raise ValueError(f"'{text.strip()}' is no reason: {why}, in {LEAST_REASON} letters or more")
        return text

    return Reads(read=read, about=about)


def texts(about: str, *examples: str) -> Reads:
    """Make the marker of one text or a list of texts; the value is a tuple."""
    return Reads(read=str, about=about, examples=examples, lists=True)


def sentence(read: Callable[[str], object], about: str, *examples: str) -> Reads:
    """Make the marker of a short sentence with a reader of its own."""
    return Reads(read=read, about=about, examples=examples)


def number(about: str, *, least: float | None = None, most: float | None = None, below: float | None = None) -> Reads:
    """Make the marker of a plain number without a unit; `least` and `most` are taken, `below` is not."""

    def read(text: str) -> float:
        value = parse_number(text)
        if least is not None and value < least:
            raise ValueError(f"'{text}' must not be below {least:g}")
        if most is not None and value > most:
            raise ValueError(f"'{text}' must not be above {most:g}")
        if below is not None and value >= below:
            raise ValueError(f"'{text}' must be below {below:g}")
        return value

    return Reads(read=read, about=about, bare_number=True)


def count(about: str) -> Reads:
    """Make the marker of a whole number above zero."""

    def read(text: str) -> int:
        if not (text.isascii() and text.isdigit() and len(text) <= _MOST_DIGITS and int(text) > 0):
            raise ValueError(f"'{text}' is not {about}")
        return int(text)

    return Reads(read=read, about=about, bare_number=True)


def whole_number(about: str, *, least: int, most: int) -> Reads:
    """Make the marker of a whole number between two limits, both included."""

    def read(text: str) -> int:
        if not (text.isascii() and text.isdigit() and len(text) <= _MOST_DIGITS and least <= int(text) <= most):
            raise ValueError(f"'{text}' is not one of the whole numbers {about}")
        return int(text)

    return Reads(read=read, about=about, bare_number=True)


def yes_or_no(*, or_true: bool = False) -> Reads:
    """Make the marker of a question; the value is True for yes.

    Args:
        or_true: whether true and false are as good as yes and no.
    """
    answers = {"yes": True, "no": False} | ({"true": True, "false": False} if or_true else {})
    about = "yes or no, or true or false" if or_true else "yes or no"

    def read(text: str) -> bool:
        if text not in answers:
            raise ValueError(f"found '{text}', expected {about}")
        return answers[text]

    return Reads(read=read, about=about, words=tuple(answers))


def iso_date(text: str) -> str:
    """Return a date as typed after checking that it is one, year first."""
    try:
        date.fromisoformat(text)
    except ValueError:
        raise ValueError(f"'{text}' is not a date; expected year-month-day such as 2026-05-12") from None
    return text
