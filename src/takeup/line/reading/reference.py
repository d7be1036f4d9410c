"""The JSON Schema and the reference page of the line file, made from its models.     (line/reading/reference.py)

Both are kept in the repository, and a test holds each equal to what these functions return.
"""

from __future__ import annotations

import json
from types import NoneType, UnionType
from typing import Annotated, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from takeup.line.reading.schema import MODELS, StudyItem, fields_of
from takeup.line.reading.values import Item
from takeup.reading.fields import Reads

_TITLES = {
    (): "The file",
    ("lines",): "lines: one line",
    ("allowable", "expansion_stress_range"): "allowable: each stress",
    ("lines", "design"): "lines, design: of one line or one zone",
    ("lines", "insulation", "density"): "lines, insulation, density; lines, medium_density",
    ("lines", "route", "start item"): "lines, route: the first item",
    ("lines", "route", "branch item"): "lines, route: the first item of a line that leaves another",
    ("lines", "route", "leg item"): "lines, route: a leg",
    ("lines", "route", "valve item"): "lines, route: a valve",
    ("lines", "route", "flange item"): "lines, route: flanges",
    ("lines", "route", "thing item"): "lines, route: another thing",
    ("lines", "route", "reducer item"): "lines, route: a reducer",
    ("lines", "route", "change item"): "lines, route: a change",
    ("lines", "may_hold"): "lines, may_hold: places that could become anchors",
    ("lines", "may_hold", "can_carry"): "lines, may_hold, can_carry",
    ("lines", "loop_room"): "lines, loop_room: room for pipe loops",
    ("lines", "takeups", "joint item"): "lines, takeups: a joint with its data",
    ("lines", "takeups", "choice item"): "lines, takeups: a joint from a series",
}
_HEAD = """\
# The line file

A line file is YAML 1.2 text in UTF-8. It says where a line goes, what it is made of, what its conditions are, what
holds it and what takes up its growth. `takeup new FILE` writes one to start from; `takeup validate FILE` reads one and
names every fault with its line and column.

- Every value is taken as the text that was typed. A quantity has its unit; a pressure says gauge or absolute.
- A text that holds a comma, a colon or a `#` stands in quotation marks.
- East is x, north is y, up is z. A station is a length along the legs, from intersection to intersection.
- A position is a station (`34.5 m`), a name (`roof corner`), or a name and a length along the flow or against it
  (`roof corner - 3 m`). Places on the route have names; take-ups may also stand at named holds, loads also at take-ups.
- Names of lines, places, holds, take-ups, valves and zones each stand for one thing in the whole file. A valve, flange,
  reducer or other thing is a place at its middle; `first face of` and `last face of` its name are places too.
- A thing in the line goes straight on from the leg before it, and so does a change of pipe: a turn needs a leg of at
  least the bend's tangent length between.
- The length of a leg is along it, also where it slopes: `12 m east rising 1 in 100`, `falling 2 %`, `rising 3 deg`.
- A line that leaves another is one zone with it as far as the next anchor, valve that can close or zone of its own.
- Two holds stand at one place where they hold different ways, such as a slide guide and a directional anchor along
  the pipe. A permanent anchor holds every way and stands alone; a temporary one may stand where another hold is.
- Anchors, aliases and tags of YAML are refused: each value stands where it is used.

This page is made from the models in `takeup.line.reading.schema`. Editors can check a file with
`line-file.schema.json`, which stands beside them.
"""


def json_schema() -> str:
    """Return the JSON Schema of the line file as text."""
    return json.dumps(StudyItem.model_json_schema(by_alias=True), indent=2, ensure_ascii=False) + "\n"


def reference_page(example: str) -> str:
    """Return the reference page in Markdown: every key with its kind of value, whether it is required, its meaning.

    Args:
        example: text of a line file that uses every key.
    """
    sections = [_section(path, model) for path, model in MODELS.items()]
    return "\n".join([_HEAD, *sections, f"## Every key in one file\n\n```yaml\n{example}```\n"])


def _section(path: tuple[str, ...], model: type[Item]) -> str:
    title = _TITLES.get(path) or ", ".join(path)
    rows = [_row(name, info) for name, info in fields_of(model)]
    lines = ["| key | value | required | meaning |", "| --- | --- | --- | --- |", *rows]
    return f"## {title}\n\n{model.__doc__}\n\n" + "\n".join(lines) + "\n"


def _row(name: str, info: FieldInfo) -> str:
    required = "yes" if info.is_required() else "no"
    markers = [marker for marker in info.metadata if isinstance(marker, Reads)]
    value = markers[0].about if markers else _value_words(info.annotation)
    return f"| `{info.alias or name}` | {value} | {required} | {info.description} |"


def _value_words(annotation: object) -> str:
    """Say a field's type in words."""
    origin = get_origin(annotation)
    if isinstance(annotation, type) and issubclass(annotation, Item):
        return "a mapping"
    if origin is list:
        return f"a list, each {_value_words(get_args(annotation)[0])}"
    if origin is Annotated:
        inner, *markers = get_args(annotation)
        about = [marker.about for marker in markers if isinstance(marker, Reads)]
        return about[0] if about else _value_words(inner)
    assert origin in {Union, UnionType}, f"the page has no words for {annotation}"
    choices = [_value_words(choice) for choice in get_args(annotation) if choice is not NoneType]
    return " or ".join(dict.fromkeys(choices))
