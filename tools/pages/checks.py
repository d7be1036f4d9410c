"""One page for each rule, from the rule and the header of its file; and their index.     (pages/checks.py)"""

from __future__ import annotations

import importlib
import pkgutil
import re
from pathlib import Path
from types import ModuleType

from tools.pages import REFERENCE, page, table

import takeup.checks
from takeup.checks import RULES, Rule

_LABELS = re.compile(r"\b(What|Why|Source|Limits|Passes|Fails|Says): ")


def modules() -> dict[str, ModuleType]:
    """Return the module that each rule stands in, by the rule's name."""
    found = {}
    for info in pkgutil.iter_modules(takeup.checks.__path__):
        module = importlib.import_module(f"takeup.checks.{info.name}")
        found |= {value.name: module for value in vars(module).values() if isinstance(value, Rule)}
    return found


def header(module: ModuleType) -> dict[str, str]:
    """Return the parts of a check file's header by their labels, white space made single."""
    words = " ".join((module.__doc__ or "").split()).replace('Says "formal analysis needed": ', "Says: ")
    parts = _LABELS.split(words)
    return {label: text.strip() for label, text in zip(parts[1::2], parts[2::2], strict=True)}


def check_pages() -> dict[Path, str]:
    """Return the pages of the rules and their index by path."""
    where, folder = modules(), REFERENCE / "checks"
    pages = {folder / f"{rule.name}.md": _rule_page(rule, where[rule.name]) for rule in RULES}
    return {folder / "index.md": _index(), **pages}


def _rule_page(rule: Rule, module: ModuleType) -> str:
    said = header(module)
    of_file = sum(1 for other in modules().values() if other is module) > 1
    shared = " The cases are those of the file, which holds more than one rule." if of_file else ""
    cases = [("passes", said["Passes"])]
    cases += [("fails", said["Fails"])] if "Fails" in said else []
    formal = "formal analysis needed" in (module.__doc__ or "")
    cases += [("says that formal analysis is needed" if formal else "says", said["Says"])] if "Says" in said else []
    need = "A study cannot pass without it." if rule.mandatory else "For information: a study can pass without it."
    return page(
        f"# {rule.title[0].upper()}{rule.title[1:]}",
        "",
        f"Rule `{rule.name}`, in `src/takeup/checks/{module.__name__.rpartition('.')[2]}.py`. {need}",
        "",
        *table(
            ("", ""),
            [
                ("what", rule.what),
                ("why", rule.why),
                ("source", rule.source),
                ("limits", rule.limits),
            ],
        ),
        "",
        "## Cases",
        "",
        f"One on each side, as the header of the file gives them.{shared}",
        "",
        *table(("outcome", "case"), cases),
    )


def _index() -> str:
    rows = [(f"[{rule.title}]({rule.name}.md)", rule.what, "yes" if rule.mandatory else "no") for rule in RULES]
    return page(
        "# Checks",
        "",
        "A check holds a demand against a capacity at one place in its governing state. The quotient is its use;",
        "1.00 is full. Its outcome is one of:",
        "",
        "- passes: use up to 0.90;",
        "- close: use above 0.90, up to 1.00;",
        "- fails: use above 1.00, or a hold that is missing;",
        "- not covered: it could not run, and says why;",
        "- no limit given: nobody has said what the thing can take.",
        "",
        "A failure makes the verdict of the study `fails`. Without one, a mandatory check that is not covered or",
        "has no limit makes it `not proved`. Without either it is `close` or `passes`.",
        "",
        *table(("check", "what", "mandatory"), rows),
        "",
        "```{toctree}",
        ":hidden:",
        ":glob:",
        "",
        "*",
        "```",
    )
