"""The JSON Schema of a rating, from its columns.     (bellows/schema.py)"""

from __future__ import annotations

import json
from typing import TypeAlias

from takeup.bellows.columns import COLUMNS
from takeup.bellows.document import GIVEN

_Schema: TypeAlias = "dict[str, _Schema] | list[_Schema] | str | bool"


def _text(description: str) -> _Schema:
    return {"type": "string", "description": description}


def _number(description: str) -> _Schema:
    return {"type": ["number", "null"], "description": description}


_MOVED: dict[str, _Schema] = {
    "curve": _text("of design life"),
    "cycles": _number("wanted"),
    "movement_mm": _number("equivalent movement of one convolution"),
    "axial_mm": _number("of the whole bellows, alone"),
    "lateral_mm": _number("of the whole bellows, alone, the ends parallel"),
    "angular_deg": _number("between the ends, alone"),
    "governed_by": _text("life, the gap between convolutions, or pressure alone"),
    "form_range_mpa": _number("stress range at that movement by the curve's own standard"),
    "shell_range_mpa": _number("the same with the shell's greatest surface stresses, a comparison"),
    "warning": _text("where the shell's is higher; else empty"),
}
_PRESSED: dict[str, _Schema] = {
    "criterion": _text("what is full at this pressure"),
    "source": _text("whose criterion it is"),
    "from": {"enum": ["inside", "outside"], "description": "where the pressure is"},
    "pressure_bar": _number("greatest pressure at temperature, a magnitude"),
}


def rating_schema() -> str:
    """Return the schema as text."""
    rows = _object("The rating of one bellows.", _row_keys())
    document = _object(
        "A rating of one bellows or several.",
        {
            "tool": _object(
                "What wrote the document.",
                {
                    "name": {"const": "takeup", "description": "always takeup"},
                    "version": {"type": "string", "description": "of the tool"},
                },
            ),
            "input": _object(
                "What was read.",
                {
                    "file": {"type": "string", "description": "name of the bellows file, without folders"},
                    "sha256": {"type": "string", "pattern": "^[0-9a-f]{64}$", "description": "of the file's bytes"},
                },
            ),
            "rows": {"type": "array", "items": rows, "description": "in the order of the file"},
            "not_covered": _texts("what no number here answers"),
            "cautions": _texts("what holds of every rating"),
        },
    )
    head: dict[str, _Schema] = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "rating of bellows of takeup",
    }
    return json.dumps(head | document, indent=1, ensure_ascii=False) + "\n"


def _row_keys() -> dict[str, _Schema]:
    given: dict[str, _Schema] = {
        **{one.column: _number(one.meaning) for one in GIVEN},
        "material": {"type": "string", "description": "as the file calls it; empty where none is named"},
        "annealed": {"type": "boolean", "description": "whether it is annealed after forming"},
        "family": {"type": "string", "description": "of the life curves; empty where nobody states it"},
    }
    return {
        "name": {"type": "string", "description": "of the bellows"},
        "given": _object("What the file says, with what was looked up; the pressure is inside above outside.", given),
        **{column.name: _number(column.meaning) for column in COLUMNS},
        "rated_movements": _list(
            "By each design curve; empty where the file states no cycles, pressure or family.", _MOVED
        ),
        "pressure_limits": _list("By each criterion at temperature; those that lack a datum are left out.", _PRESSED),
        "remark": {"type": "string", "description": "why a number is missing, and what was assumed"},
        "assumptions": _texts("what was assumed or looked up"),
        "cautions": _texts("what goes beyond its limit"),
    }


def _object(description: str, properties: dict[str, _Schema]) -> dict[str, _Schema]:
    return {
        "type": "object",
        "description": description,
        "properties": properties,
        "required": list(properties),
        "additionalProperties": False,
    }


def _list(description: str, properties: dict[str, _Schema]) -> _Schema:
    return {"type": "array", "items": _object("One of them.", properties), "description": description}


def _texts(description: str) -> _Schema:
    return {"type": "array", "items": {"type": "string"}, "description": description}
