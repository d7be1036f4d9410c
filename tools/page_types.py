"""Writes the page's types from the server's: one source for both sides.     (tools/page_types.py)

    PYTHONPATH=src python tools/page_types.py [--check]

`desk/interface/` holds aliases and TypedDicts only; each becomes an exported type or interface of TypeScript.
"""

from __future__ import annotations

import ast
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
FOLDER = ROOT / "src" / "takeup" / "desk" / "interface"
SOURCES = tuple(FOLDER / f"{name}.py" for name in ("document", "looking", "telling"))
TARGET = ROOT / "page" / "src" / "interface.ts"
_PLAIN = {"str": "string", "int": "number", "float": "number", "bool": "boolean", "None": "null"}


def types_text(*sources: str) -> str:
    """Return the TypeScript of every alias and TypedDict in the texts of modules."""
    parts = ["// What the page and its server say to each other. Written from desk/interface/ by tools/page_types.py."]
    for node in (node for source in sources for node in ast.parse(source).body):
        if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
            parts.append(f"export type {node.targets[0].id} = {_type(node.value)};")
        elif isinstance(node, ast.ClassDef):
            parts.append(_interface(node))
    return "\n\n".join(part for part in parts if part) + "\n"


def _interface(node: ast.ClassDef) -> str:
    fields = [item for item in node.body if isinstance(item, ast.AnnAssign) and isinstance(item.target, ast.Name)]
    if not fields:
        return ""
    mark = "?" if any(word.arg == "total" for word in node.keywords) else ""
    said = (ast.get_docstring(node) or "").splitlines()
    head = ["/**", *(f" * {line}".rstrip() for line in said), " */"]
    body = [
        f"  {item.target.id}{mark}: {_type(item.annotation)};" for item in fields if isinstance(item.target, ast.Name)
    ]
    return "\n".join([*head, f"export interface {node.name} {{", *body, "}"])


def _type(node: ast.expr) -> str:
    if isinstance(node, ast.BinOp):
        return f"{_type(node.left)} | {_type(node.right)}"
    if isinstance(node, ast.Constant):
        return "null" if node.value is None else f'"{node.value}"'
    if isinstance(node, ast.Name):
        return _PLAIN.get(node.id, node.id)
    if isinstance(node, ast.Subscript) and isinstance(node.value, ast.Name):
        inner = node.slice.elts if isinstance(node.slice, ast.Tuple) else [node.slice]
        if node.value.id == "Literal":
            return " | ".join(_type(item) for item in inner)
        if node.value.id == "list":
            return f"{_type(inner[0])}[]"
    message = f"{ast.unparse(node)}: this form has no TypeScript here"
    raise ValueError(message)


def main(arguments: list[str]) -> int:
    """Write the types, or say with `--check` whether they are current; return the exit code."""
    text = types_text(*(path.read_text(encoding="utf-8") for path in SOURCES))
    if "--check" in arguments:
        current = TARGET.is_file() and TARGET.read_text(encoding="utf-8") == text
        print("current" if current else f"{TARGET.name} is old: run tools/page_types.py")
        return 0 if current else 1
    TARGET.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
