"""One page for each kind of take-up, from its record and the header of its file; pictures; index.   (pages/kinds.py)"""

from __future__ import annotations

import importlib
import pkgutil
import re
from pathlib import Path
from types import ModuleType

from tools.pages import REFERENCE, ROOT, page, table

import takeup.joints.kinds
from takeup.drawing import to_svg
from takeup.drawing.joint_views import joint_view
from takeup.joints import ALL_KINDS, JointKind, RouteKind
from takeup.joints.telling import held_by
from takeup.papers.joints.joint_kinds import kind_rows

FOLDER, PICTURES = REFERENCE / "kinds", Path("docs") / "pictures" / "kinds"
EXAMPLES = Path("examples") / "kinds"
LABELS = ("Thrust", "Takes", "Must never see", "Stiffness", "Built of", "Anchor lost", "Source")
"""What the header of every kind's file says, in this order."""
_SPLIT = re.compile(rf"\b({'|'.join(LABELS)}): ")


def slug(kind: JointKind | RouteKind) -> str:
    """Return the name of a kind's page and picture."""
    return kind.name.lower().replace(" ", "-")


def kind_modules() -> dict[str, ModuleType]:
    """Return the module that each kind stands in, by the kind's name."""
    found = {}
    for info in pkgutil.iter_modules(takeup.joints.kinds.__path__):
        module = importlib.import_module(f"takeup.joints.kinds.{info.name}")
        found |= {value.name: module for value in vars(module).values() if isinstance(value, JointKind | RouteKind)}
    return found


def kind_header(module: ModuleType) -> tuple[str, dict[str, str]]:
    """Return the first sentence of a kind's file and the parts of its header by their labels."""
    first, _, rest = (module.__doc__ or "").partition("\n")
    summary = first.partition("     (")[0]
    _, *parts = _SPLIT.split(" ".join(rest.split()))
    return summary, {label: text.strip() for label, text in zip(parts[::2], parts[1::2], strict=True)}


def kind_pages() -> dict[Path, str]:
    """Return the pages of the kinds, their index and their pictures by path."""
    where = kind_modules()
    pages = {FOLDER / f"{slug(kind)}.md": _kind_page(kind, where[kind.name]) for kind in ALL_KINDS}
    pictures = {
        PICTURES / f"{slug(kind)}.svg": to_svg(joint_view(kind.name, thrust_in_short(kind))) for kind in ALL_KINDS
    }
    return {FOLDER / "index.md": _index(where), **pages, **pictures}


def thrust_in_short(kind: JointKind | RouteKind) -> str:
    """Return where the pressure thrust goes, for the foot of a picture."""
    if isinstance(kind, RouteKind):
        return "No pressure thrust: the pipe's own wall carries the pressure. Dashed: hot, movement drawn larger."
    if not kind.restrained:
        return "Arrows: the pressure thrust, pressure times effective area, on its way to the anchors."
    while_they_bear = ", while their nuts bear" if kind.rods == "required" else ""
    return f"The pressure thrust stays within the joint: {held_by(kind)}{while_they_bear}."


def _kind_page(kind: JointKind | RouteKind, module: ModuleType) -> str:
    summary, said = kind_header(module)
    title, name = f"{kind.name[0].upper()}{kind.name[1:]}", slug(kind)
    lines = [f"# {title}", "", summary, "", f"![{title} from the side](../../pictures/kinds/{name}.svg)", ""]
    rows = [(head, words) for head, words in kind_rows(kind) if head != "keys it needs"]
    lines += [*table(("", ""), rows), "", "## More of it", ""]
    lines += [f"{label}\n: {words[0].upper()}{words[1:]}\n" for label, words in said.items()]
    if isinstance(kind, JointKind):
        keys = next(words for head, words in kind_rows(kind) if head == "keys it needs")
        lines += [
            "## In a line file",
            "",
            f"`kind: {kind.name}`. Beside what every take-up has, it needs {_coded(keys)}; see",
            "[the line file](../line-file.md).",
        ]
        example = EXAMPLES / f"{name}.yaml"
        lines += ["", f"Example: `{example.as_posix()}`."] if (ROOT / example).is_file() else []
    return page(*lines, "", f"Its record is in `src/takeup/joints/kinds/{module.__name__.rpartition('.')[2]}.py`.")


def _coded(keys: str) -> str:
    """Return the keys of a list as code."""
    return re.sub(r"[a-z_]*\.?[a-z]+_?[a-z]*", lambda m: m[0] if m[0] in _PLAIN else f"`{m[0]}`", keys)


_PLAIN = frozenset({"or", "may", "have"})


def _index(where: dict[str, ModuleType]) -> str:
    rows = [(f"[{kind.name}]({slug(kind)}.md)", kind_header(where[kind.name])[0], held_by(kind)) for kind in ALL_KINDS]
    return page(
        "# Kinds of take-up",
        "",
        "Every kind of joint that a line file can have, and the ways of taking growth that need none. `takeup joints",
        "kinds` prints the same. Pictures are not to scale.",
        "",
        *table(("kind", "what it is", "held together by"), rows),
        "",
        "```{toctree}",
        ":hidden:",
        "",
        *(slug(kind) for kind in ALL_KINDS),
        "```",
    )
