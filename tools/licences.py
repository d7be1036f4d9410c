"""Refuses a locked package whose licence would bind the user, or is not known.     (tools/licences.py)

Reads the installed metadata of every package named in the two locks.
The core (requirements.lock) may hold permissive licences only: what a user installs binds them to nothing.
The tools (requirements-dev.lock) may also be under a licence that binds only its own files; they are never handed on.
A licence that no table here knows is refused, until it is added with a reason.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from importlib.metadata import PackageMetadata, PackageNotFoundError, metadata
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent

PERMISSIVE = frozenset(
    {
        "0BSD", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "CC0-1.0", "ISC", "MIT", "MIT-CMU", "PSF-2.0", "Zlib",
        # as classifiers and the older free field spell them
        "Apache 2.0", "Apache Software License", "BSD", "BSD License", "BSD 2-Clause License", "BSD 3-Clause License",
        "MIT License", "Python Software Foundation License",
    }
)  # fmt: skip
OWN_FILES_ONLY = frozenset({"MPL-2.0", "Mozilla Public License 2.0 (MPL 2.0)"})
BY_HAND = {
    "colorama": ("BSD-3-Clause", "asked for on Windows only, so not installed elsewhere"),
    "httpx2-jsfetch": ("BSD-3-Clause", "asked for within a browser only, so not installed elsewhere"),
    "docutils": ("BSD-2-Clause", "its classifiers also name the GPL, for an editor file that is not in the wheel"),
}


def locked_names(lock: Path) -> set[str]:
    """Return the names of the packages in a lock."""
    return set(re.findall(r"^([A-Za-z0-9._-]+)==", lock.read_text(encoding="utf-8"), flags=re.MULTILINE))


def stated_licences(about: PackageMetadata) -> list[str]:
    """Return the licences a package states, the exact expression before classifiers before the free field."""
    expression = about.get("License-Expression")
    if expression:
        return [expression]
    classifiers = [line for line in about.get_all("Classifier") or [] if line.startswith("License ::")]
    named = [line.rpartition(" :: ")[2] for line in classifiers if line != "License :: OSI Approved"]
    return named or [(about.get("License") or "none stated").strip().splitlines()[0]]


def is_allowed(stated: str, allowed: frozenset[str]) -> bool:
    """Return whether an expression is allowed: every part joined by AND, at least one of those joined by OR."""
    if stated in allowed:
        return True
    return all(any(part.strip("() ") in allowed for part in either.split(" OR ")) for either in stated.split(" AND "))


def refusals(names: set[str], allowed: frozenset[str]) -> Iterator[str]:
    """Yield one sentence for every package that is refused."""
    for name in sorted(names):
        try:
            stated = [BY_HAND[name][0]] if name in BY_HAND else stated_licences(metadata(name))
        except PackageNotFoundError:
            yield f"{name}: not installed here; read its licence and list it in BY_HAND with the reason"
            continue
        for licence in stated:
            if not is_allowed(licence, allowed):
                yield f"{name}: licence {licence!r} is not on the list of allowed ones"


def main() -> int:
    """Check both locks, print what is refused and return the exit code."""
    core = locked_names(ROOT / "requirements.lock")
    tools = locked_names(ROOT / "requirements-dev.lock") - core
    refused = [*refusals(core, PERMISSIVE), *refusals(tools, PERMISSIVE | OWN_FILES_ONLY)]
    for sentence in refused:
        print(sentence)
    print(f"licences: {len(core)} packages of the core and {len(tools)} tools read, {len(refused)} refused")
    return 1 if refused else 0


if __name__ == "__main__":
    sys.exit(main())
