"""The documentation says what the code says: pages current, nothing without a page, every number found again."""

from __future__ import annotations

import csv
import re
from itertools import combinations
from pathlib import Path

import pytest
from tests.example_studies import results as results_of_example
from tests.shared import once
from tools.pages.__main__ import every_page, main
from tools.pages.api import rooms
from tools.pages.checks import header, modules
from tools.pages.commands import help_text, names
from tools.pages.kinds import LABELS, kind_header, kind_modules, slug, thrust_in_short
from tools.pages.library import SUBJECTS, data_files
from tools.pages.sources import sources

from takeup.basis import first_guide_limit, intermediate_guide_spacing, second_guide_limit, second_moment
from takeup.checks import RULES
from takeup.drawing.joint_views import VIEWS, joint_view
from takeup.drawing.lettering import box_of
from takeup.drawing.sheet import Text
from takeup.joints import ALL_KINDS
from takeup.line import anchor_stations, state_names
from takeup.line.reading.reader import read_study

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
ADVICE = "run python -m tools.pages and read the difference"
WRITTEN_BY_HAND = [ROOT / "README.md", ROOT / "CONTRIBUTING.md", ROOT / "CHANGELOG.md", *DOCS.rglob("*.md")]
PLACE = re.compile(r"\b(?:src|tests|docs|tools|examples)/[\w./-]*[\w/]")
LINK = re.compile(r"\]\((?!https?:|#)([^)#]+)")


def text(path: str) -> str:
    return (DOCS / path).read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def pages():
    made = once("pages", lambda: {path.as_posix(): text for path, text in every_page().items()})
    return {Path(path): text for path, text in made.items()}


@pytest.fixture(scope="module")
def results():
    return results_of_example("ketterby-steam-main")


def test_pages_are_current(pages):
    stale = [str(path) for path, made in pages.items() if (ROOT / path).read_text(encoding="utf-8") != made]
    assert stale == [], ADVICE


def test_no_page_of_a_check_is_left_over(pages):
    assert {path.relative_to(ROOT) for path in (DOCS / "reference" / "checks").iterdir()} <= set(pages)


def test_stale_page_is_noticed(monkeypatch, capsys):
    monkeypatch.setattr("tools.pages.__main__.every_page", lambda: {Path("LICENSE"): "something else"})
    assert main(["--check"]) == 1
    assert capsys.readouterr().out == "LICENSE: out of date\n"


def test_every_command_has_its_help():
    page = text("reference/commands.md")
    assert {"new", "validate", "study"} <= set(names())
    for name in names():
        assert f"\n## {name}\n\n```text\n{help_text(name)}\n```\n" in page


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_rule_has_its_page_and_header(rule):
    """A rule that this version cannot compute has no failing case; screening never says "fails"."""
    said = header(modules()[rule.name])
    assert {"What", "Why", "Source", "Limits", "Passes"} <= set(said)
    assert {"Fails", "Says"} & set(said) or rule.name in ("stability", "friction_walk", "lift_off")
    assert rule.what in text(f"reference/checks/{rule.name}.md").replace("\\|", "|")
    assert f"]({rule.name}.md)" in text("reference/checks/index.md")


@pytest.mark.parametrize("kind", ALL_KINDS, ids=lambda kind: kind.name)
def test_every_kind_has_its_page_picture_and_header(kind):
    """The header says how thrust travels, movements, stiffness, parts, a lost anchor, and whose word that is."""
    summary, said = kind_header(kind_modules()[kind.name])
    assert summary.endswith(".")
    assert tuple(said) == LABELS
    assert all(said.values())
    page = text(f"reference/kinds/{slug(kind)}.md").replace("\\|", "|")
    of_record = (kind.thrust, kind.takes, kind.never, kind.stiffness, kind.built_of, kind.anchor_lost)
    assert all(words in page for words in of_record)
    assert f"../../pictures/kinds/{slug(kind)}.svg)" in page
    assert (DOCS / "pictures" / "kinds" / f"{slug(kind)}.svg").is_file()
    assert f"]({slug(kind)}.md)" in text("reference/kinds/index.md")


def test_no_page_or_picture_of_a_kind_is_left_over(pages):
    for folder in (DOCS / "reference" / "kinds", DOCS / "pictures" / "kinds"):
        assert {path.relative_to(ROOT) for path in folder.iterdir()} <= set(pages)
    assert set(VIEWS) == {kind.name for kind in ALL_KINDS}


@pytest.mark.parametrize("kind", ALL_KINDS, ids=lambda kind: kind.name)
def test_words_of_a_picture_stay_on_it_and_off_each_other(kind):
    """Boxes of words as wide as the shipped typeface makes them at most."""
    sheet = joint_view(kind.name, thrust_in_short(kind))
    boxes = [(item.words, box_of(item)) for view in sheet.views for item in view.items if isinstance(item, Text)]
    for words, (left, top, right, bottom) in boxes:
        assert 0.0 <= left <= right <= sheet.width, words
        assert 0.0 <= top <= bottom <= sheet.height, words
    for (one, a), (other, b) in combinations(boxes, 2):
        assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1], f"{one} / {other}"


@pytest.mark.parametrize("room", rooms(), ids=lambda room: room.__name__)
def test_every_public_name_has_its_entry(room):
    part = text("reference/api.md").partition(f"\n## {room.__name__}\n")[2].partition("\n## ")[0]
    listed = re.findall(r"^- `(\w+)", part, re.MULTILINE)
    assert sorted(listed) == sorted(room.__all__)


def test_every_table_is_shown_and_every_row_has_its_source():
    assert sorted(SUBJECTS) == data_files()
    for path in data_files():
        with (ROOT / "src" / "takeup" / path).open(encoding="utf-8", newline="") as stream:
            for row in csv.DictReader(stream):
                assert row["source"], path
                assert row["status"] in ("read", "from memory"), path


@pytest.mark.parametrize("key", sources())
def test_every_source_is_cited_where_it_says(key):
    fields = sources()[key]
    assert fields["cited_as"] in (ROOT / fields["file"]).read_text(encoding="utf-8")


@pytest.mark.parametrize("short", ["ASME B31.1", "ASME B31.3", "ASME B31.9", "ASME B36.10M", "EJMA", "IAPWS-IF97"])
def test_standard_named_in_the_code_is_a_source(short):
    assert any(short in fields["cited_as"] for fields in sources().values())


def test_every_symbol_is_a_name_in_the_code():
    code = "\n".join(path.read_text(encoding="utf-8") for path in (ROOT / "src" / "takeup").rglob("*.py"))
    rows = [line.split("|")[2] for line in text("symbols.md").partition("## Words")[0].splitlines() if "$" in line]
    for name in [name for row in rows for name in re.findall(r"`(\w+)`", row)]:
        assert re.search(rf"\b{name}\b", code), name


@pytest.mark.parametrize("path", WRITTEN_BY_HAND, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_every_file_and_link_that_is_named_exists(path):
    """Places are named from the top folder; a folder that a `*` stands in is taken as far as that."""
    shown = path.read_text(encoding="utf-8")
    for place in PLACE.findall(shown):
        assert (ROOT / place).exists(), place
    for link in LINK.findall(shown):
        assert (path.parent / link).exists(), link


def test_every_default_state_is_explained():
    """The demonstration has three anchors between its ends; the page calls each of them A."""
    study = read_study(ROOT / "examples" / "ketterby-steam-main.yaml")
    inner = [name for name, _ in anchor_stations(study.lines[0])][1:-1]
    page = text("theory/states.md")
    for state in state_names(study):
        for anchor in inner:
            state = state.replace(anchor, "A")  # noqa: PLW2901 -- one name at a time
        assert f"| {state} |" in page


def test_guide_example_is_what_the_rule_gives():
    """Rounded as printed: 219.1 mm by 8.18 mm, 203 GPa, 18 bar on 46 000 mm2."""
    inertia, force = second_moment(0.2191, 0.00818), 18e5 * 46e-3
    words = " ".join(text("theory/guides.md").split())
    longest = intermediate_guide_spacing(203e9, inertia, force)
    assert f"$F$ = {force / 1e3:.1f} kN, $E$ = 203 GPa, $I$ = {inertia * 1e12 / 1e6:.2f}e6 mm⁴" in words
    assert f"$L_1$ = {first_guide_limit(0.2191):.3f} m, $L_2$ = {second_guide_limit(0.2191):.3f} m" in words
    assert f"$L_{{max}}$ = {longest:.2f} m" in words


def test_pressure_example_is_the_demonstration(results):
    """18 bar x 46 000 mm2 = 82 800 N by hand, less the spring; its movement is the model's, friction and all."""
    words = " ".join(text("theory/pressure.md").split())
    hold, joint = results["holds"][0], results["takeups"][0]
    force = -next(load["force_n"][0] for load in hold["loads"] if load["state"] == "under hydrostatic test")
    spring = next(row["force_n"] for row in joint["spring_n"] if row["state"] == "under hydrostatic test")
    moved = next(row["axial_mm"] for row in joint["movements"] if row["state"] == "under hydrostatic test")
    assert force == pytest.approx(82_800 - spring, abs=1e-3)  # the sum is exact; the answer is verified to 1e-9
    assert f"{force:_.0f} N".replace("_", " ") in words
    assert f"lengthens by {moved:.2f} mm" in words
    assert f"pulls back with {spring:.1f} N" in words
    [free] = [
        -row["force_n"][0]
        for row in hold["scenarios"]
        if (row["scenario"], row["state"]) == ("no friction", "under hydrostatic test")
    ]
    assert f"Without friction it is {free:_.0f} N".replace("_", " ") in words


def test_friction_example_is_the_demonstration(results):
    words = " ".join(text("theory/friction-bound.md").split())
    hold = next(hold for hold in results["holds"] if hold["name"] == "middle anchor")
    row = next(row for row in hold["hand"] if row["what"] == "middle anchor, under hydrostatic test: friction (bound)")
    by_hand, model = (f"{row[key]:_.0f} N".replace("_", " ") for key in ("value", "model"))
    assert f"by hand {row['numbers']} = {by_hand}; the model's bound is {model}" in words


def test_changelog_opens_with_the_numbers_that_changed():
    headings = re.findall(r"^#+ (.*)$", (ROOT / "CHANGELOG.md").read_text(encoding="utf-8"), re.MULTILINE)
    assert headings[0] == "Changelog"
    assert headings[2] == "Numbers that changed"


PYTHON_PAGES = [page for page in (ROOT / "docs" / "tutorial").glob("*.md") if "```python" in page.read_text("utf-8")]


@pytest.mark.parametrize("page", PYTHON_PAGES, ids=lambda page: page.stem)
def test_python_of_a_tutorial_prints_what_stands_under_it(page: Path, capsys: pytest.CaptureFixture[str]):
    """Every block is run after the ones before it; the block marked `text` that follows is what it printed."""
    blocks = re.findall(r"```python\n(.*?)```(?:\s*```text\n(.*?)```)?", page.read_text("utf-8"), re.DOTALL)
    assert blocks
    names: dict[str, object] = {}
    for code, printed in blocks:
        exec(compile(code, page.name, "exec"), names)  # noqa: S102 -- the page is the project's own
        assert capsys.readouterr().out.rstrip() == printed.rstrip()
