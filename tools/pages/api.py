"""The page of the public names, from each room's `__init__.py`.     (pages/api.py)"""

from __future__ import annotations

import importlib
import inspect
import re
import tomllib
from types import ModuleType

from tools.pages import ROOT, page

_ADDRESS = re.compile(r" at 0x[0-9a-f]+")


def rooms() -> list[ModuleType]:
    """Return the rooms that are packages, from the ground up."""
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    contract = next(item for item in settings["tool"]["importlinter"]["contracts"] if item["type"] == "layers")
    names = [name.strip() for layer in reversed(contract["layers"]) for name in layer.split("|")]
    found = [importlib.import_module(f"takeup.{name}") for name in names]
    return [room for room in found if hasattr(room, "__path__")]


def first_sentence(value: object) -> str:
    """Return the first paragraph of what a function or class says of itself, on one line."""
    return " ".join((inspect.getdoc(value) or "").partition("\n\n")[0].split())


def entry(name: str, value: object) -> str:
    """Return the entry of one public name."""
    if inspect.isclass(value):
        return f"- `{name}`: {first_sentence(value)}"
    if callable(value) and inspect.isfunction(inspect.unwrap(value)):  # a cached function is wrapped
        signature = _ADDRESS.sub("", str(inspect.signature(value))).replace("'", "")
        return f"- `{name}{signature}`: {first_sentence(value)}"
    return f"- `{name}`: a constant, or a name for a type."


def api_page() -> str:
    """Return the page."""
    lines = [
        "# Public names",
        "",
        "What each room of the package promises; everything else may change without notice. A room imports only from",
        "those above it on this page. Numbers are SI floats, temperatures degrees Celsius, pressures gauge.",
    ]
    for room in rooms():
        said = (room.__doc__ or "").strip().splitlines()[0].partition("     (")[0]
        lines += ["", f"## {room.__name__}", "", said, ""]
        lines += [entry(name, getattr(room, name)) for name in sorted(room.__all__, key=str.lower)]
    return page(*lines)
