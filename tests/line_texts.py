"""The valid line file of the fault corpus, changed in one place or another."""

from __future__ import annotations

from pathlib import Path

import pytest

from takeup.errors import InputError
from takeup.line.holding import Hold
from takeup.line.reading.reader import study_from_text
from takeup.line.records import Study

VALID = (Path(__file__).parent / "faults" / "valid.yaml").read_text(encoding="utf-8")
REST = "      - { kind: rest, at: gate corner + 4.5 m, slides_on: steel on steel }\n"
JOINT = "        at: boiler header + 2.5 m\n"


def changed(*changes: tuple[str, str], text: str = VALID) -> str:
    """Return a text with each first occurrence changed; a change that changes nothing is our own mistake."""
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    return text


def with_holds(*items: str) -> str:
    """Return the valid text with other holds in the place of its rest."""
    return changed((REST, "".join(f"      - {item}\n" for item in items)))


def with_top(section: str, *items: str) -> str:
    """Return the valid text with a list more at its top."""
    return changed(("lines:\n", f"{section}:\n" + "".join(f"  - {item}\n" for item in items) + "lines:\n"))


def study(text: str) -> Study:
    """Read a text that has no fault."""
    return study_from_text(text, "x")


def hold_of(text: str, name: str) -> Hold:
    """Return a hold of the first line by its name."""
    return next(hold for hold in study(text).lines[0].holds if hold.name == name)


def faults(text: str) -> list[str]:
    """Return the messages of every fault of a text."""
    with pytest.raises(InputError) as caught:
        study_from_text(text, "x")
    return [fault.message for fault in caught.value.faults]
