"""The page: its bundle is current and what it was made from, its types hold, its logic is tested.

Without Node the first two tests alone run; `npm ci --prefix page` brings what the others need.
"""

from __future__ import annotations

import hashlib
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PAGE, SHIPPED = ROOT / "page", ROOT / "src" / "takeup" / "desk" / "static"
ALSO = ("index.html", "package-lock.json", "tsconfig.json", "vite.config.ts")


@pytest.fixture(scope="module")
def npx():
    """Return the program that runs the page's tools."""
    found = shutil.which("npx")
    if found is None:
        pytest.skip("no Node: types and logic of the page")
    if not (PAGE / "node_modules").is_dir():
        pytest.skip("no packages of the page (npm ci --prefix page): its types and logic")
    return found


def run(*words: str) -> None:
    done = subprocess.run(words, cwd=PAGE, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout[-4000:] + done.stderr[-2000:]


def test_the_bundle_was_made_from_the_sources_as_they_are():
    """`npm run build --prefix page` makes it anew."""
    sources = [path for path in (PAGE / "src").rglob("*") if path.is_file() and ".test." not in path.name]
    names = sorted([*ALSO, *(path.relative_to(PAGE).as_posix() for path in sources)])
    made = [f"{hashlib.sha256((PAGE / name).read_bytes()).hexdigest()}  {name}" for name in names]
    stamped = (SHIPPED / "made-from.txt").read_text(encoding="utf-8").splitlines()
    assert sorted(stamped) == sorted(made)


def test_the_page_asks_for_nothing_outside():
    """Scripts name addresses in words (of XML, of licences), which a browser test sees are never asked."""
    for path in SHIPPED.rglob("*"):
        if path.suffix in (".html", ".css"):
            assert "//" not in path.read_text(encoding="utf-8").replace("/*", "").replace("*/", ""), path.name
    script = "".join(path.read_text(encoding="utf-8") for path in SHIPPED.rglob("*.js"))
    assert "eval(" not in script
    assert "new Function(" not in script


def test_types(npx):
    run(npx, "tsc", "--noEmit")


def test_logic(npx):
    run(npx, "vitest", "run")


def test_made_anew_it_is_the_same(npx, tmp_path):
    run(npx, "vite", "build", "--outDir", str(tmp_path), "--logLevel", "warn")
    made = {path.relative_to(tmp_path): path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    shipped = {path.relative_to(SHIPPED): path.read_bytes() for path in SHIPPED.rglob("*") if path.is_file()}
    assert made.keys() == shipped.keys()
    assert [str(name) for name in made if made[name] != shipped[name]] == []
