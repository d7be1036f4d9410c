"""The locks belong together and name no address; the licence gate knows its licences.     (tests/unit/test_locks.py)"""

from __future__ import annotations

import importlib.util
import re
import tomllib
from email.message import Message
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
LOCKS = ("requirements.lock", "requirements-dev.lock")

_spec = importlib.util.spec_from_file_location("licences", ROOT / "tools" / "licences.py")
licences = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(licences)


def locked(name: str) -> dict[str, set[str]]:
    """Return, for each package of a lock, its `==version ; marker` lines."""
    packages: dict[str, set[str]] = {}
    for package, rest in re.findall(r"^([A-Za-z0-9._-]+)(==[^\\\n]*)", (ROOT / name).read_text(), flags=re.MULTILINE):
        packages.setdefault(package, set()).add(rest.strip())
    return packages


@pytest.mark.parametrize("name", LOCKS)
def test_lock_names_no_address(name):
    assert "://" not in (ROOT / name).read_text()


def test_development_lock_holds_the_core_at_the_same_versions():
    core, tools = (locked(name) for name in LOCKS)
    assert core
    assert {package: tools.get(package) for package in core} == core


def test_locks_hold_every_dependency_of_the_project():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())
    asked = {name.lower().replace(".", "-") for name in project["project"]["dependencies"]}
    asked_tools = {name.lower() for name in project["dependency-groups"]["dev"]}
    assert asked <= locked(LOCKS[0]).keys()
    assert asked | asked_tools <= locked(LOCKS[1]).keys()


@pytest.mark.parametrize(
    ("stated", "allowed"),
    [
        ("MIT", True),
        ("Apache-2.0 OR BSD-2-Clause", True),
        ("GPL-3.0-or-later OR MIT", True),  # the choice is ours
        ("BSD-3-Clause AND 0BSD AND MIT AND Zlib AND CC0-1.0", True),
        ("BSD-3-Clause AND GPL-3.0-or-later", False),
        ("(MIT OR Apache-2.0) AND LGPL-3.0-only", False),
        ("GPL-3.0-or-later", False),
        ("AGPL-3.0-only", False),
        ("LGPL-2.1-or-later", False),
        ("MPL-2.0", False),
        ("GNU General Public License v3 (GPLv3)", False),
        ("none stated", False),
    ],
)
def test_core_licence_is_permissive_or_refused(stated, allowed):
    assert licences.is_allowed(stated, licences.PERMISSIVE) is allowed


def test_every_stated_classifier_counts():
    about = Message()
    about["Classifier"] = "License :: OSI Approved :: MIT License"
    about["Classifier"] = "License :: OSI Approved :: GNU General Public License (GPL)"
    assert licences.stated_licences(about) == ["MIT License", "GNU General Public License (GPL)"]


def test_package_that_is_not_installed_is_refused_unless_listed():
    assert list(licences.refusals({"colorama"}, licences.PERMISSIVE)) == []
    (refused,) = licences.refusals({"no-such-package-anywhere"}, licences.PERMISSIVE)
    assert "not installed here" in refused
