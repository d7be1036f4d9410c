"""Pictures of every state: what they say is in the results, words lie on nothing, the same bytes. (papers/pictures/)"""

from __future__ import annotations

import copy
import io
import re
from functools import lru_cache
from itertools import combinations
from xml.etree import ElementTree as ET

import pytest
from PIL import Image
from tests.builders import hold, joint, line_file, study_of
from tests.unit.drawing.results_fixture import corner

from takeup.drawing.mesh import greatest_movement, stretch_of
from takeup.drawing.svg import to_svg
from takeup.edge import US
from takeup.papers.frame import head_of
from takeup.papers.pictures.paper import make
from takeup.papers.pictures.png import WIDE
from takeup.papers.pictures.sheet import picture_svg
from takeup.papers.pictures.view import HEIGHT, ROOM, WIDTH, view_of
from takeup.papers.registry import Options
from takeup.results import results_of

SVG = "{http://www.w3.org/2000/svg}"
TEXT = line_file(
    ["30 m east, to: turn", "8 m north"],
    holds=(hold("intermediate anchor", "20 m"), hold("spider guide", "4 m"), hold("rest", "9 m"), hold("rest", "26 m")),
    takeups=(joint("J1", "1.5 m"),),
)
MOST_FACES = 4500


@lru_cache(maxsize=1)
def results() -> dict:
    return results_of(study_of(TEXT))


@lru_cache(maxsize=1)
def files() -> dict[str, bytes]:
    return make(results(), Options())


def texts(svg: str) -> list[str]:
    root = ET.fromstring(svg)  # noqa: S314 -- our own document
    return [element.text or "" for element in root.iter(f"{SVG}text")]


def picture(document, state, **options) -> str:
    return picture_svg(document, head_of(document, **options), view_of(document), state)


def test_every_state_has_its_pictures_and_all_are_in_one_glb():
    names = {"line-" + re.sub(r"[^a-z0-9]+", "-", state["name"]).strip("-") for state in results()["states"]}
    assert set(files()) == {f"{name}.{kind}" for name in names for kind in ("svg", "png")} | {"line.glb"}


def test_picture_says_state_conditions_factor_and_document():
    svg = files()["line-operating.svg"].decode()
    said, factor = texts(svg), stretch_of(results())
    assert said[0] == "Line T-1: operating"
    assert "10 bar(g), 204.44 °C" in said  # 400 degF, as the file has it
    assert f"Movements are drawn {factor} times larger than they are." in said
    assert any("T-1, revision A" in words and "2026-02-03" in words for words in said)
    assert any(results()["input"]["sha256"] in words for words in said)
    for caution in results()["cautions"]:
        assert " ".join(caution.split()[:4]) in " ".join(said)


def test_numbers_of_a_picture_are_those_of_the_results():
    """What J1 does, the greatest movement of the state, and the end of the scale: of all states."""
    said = " ".join(texts(files()["line-operating.svg"].decode()))
    (movement,) = (one for one in results()["takeups"][0]["movements"] if one["state"] == "operating")
    assert f"shorter by {-movement['axial_mm']:.1f} mm" in said
    shape = next(shape for shape in results()["shapes"] if shape["state"] == "operating")
    most = max(sum(part**2 for part in node) ** 0.5 for node in shape["displacement_mm"])
    assert f"moves {most:.1f} mm" in said
    assert f"{greatest_movement(results()) * 1e3:.0f}" in texts(files()["line-operating.svg"].decode())


def test_names_of_anchors_and_joints_stand_there():
    said = texts(files()["line-operating.svg"].decode())
    assert {"west end", "east end", "J1"} <= set(said)


def test_picture_has_not_too_many_faces_and_all_are_on_the_sheet():
    for name, content in files().items():
        if name.endswith(".svg"):
            paths = re.findall(r'd="M([^"]*)Z"', content.decode())
            assert 200 < len(paths) < MOST_FACES
            for path in paths:
                for point in path.split("L"):
                    x, y = map(float, point.split(","))
                    assert 0.0 <= x <= WIDTH, name
                    assert ROOM[1] - 5.0 <= y <= HEIGHT, name


def test_words_lie_neither_on_words_nor_beyond_the_sheet(monkeypatch):
    """Boxes of words as wide as the shipped typeface makes them at most."""
    from takeup.drawing.lettering import box_of
    from takeup.drawing.sheet import Text

    sheets = []
    monkeypatch.setattr("takeup.papers.pictures.sheet.to_svg", lambda sheet: sheets.append(sheet) or to_svg(sheet))
    for state in ("operating", "under hydrostatic test"):
        picture(results(), state)
    for sheet in sheets:
        boxes = [(item.words, box_of(item)) for view in sheet.views for item in view.items if isinstance(item, Text)]
        for words, (left, top, right, bottom) in boxes:
            assert 0.0 <= left <= right <= WIDTH, words
            assert 0.0 <= top <= bottom <= HEIGHT, words
        for (one, a), (other, b) in combinations(boxes, 2):
            assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1], f"{one} / {other}"


def test_png_is_as_wide_as_it_should_be_and_shows_something():
    image = Image.open(io.BytesIO(files()["line-operating.png"])).convert("RGB")
    assert image.size == (WIDE, round(WIDE * HEIGHT / WIDTH))
    assert len(image.getcolors(maxcolors=10**6)) > 200


def test_same_results_give_the_same_bytes():
    assert make(copy.deepcopy(results()), Options()) == files()


def test_german_and_us_pictures_say_the_same():
    said = " ".join(texts(picture(results(), "operating", units=US, language="de")))
    (movement,) = (one for one in results()["takeups"][0]["movements"] if one["state"] == "operating")
    inches = f"{-movement['axial_mm'] / 25.4:.3f}".replace(".", ",")
    assert f"kürzer um {inches} in" in said
    assert "Leitung T-1: Betrieb" in said


@pytest.mark.parametrize("name", ["Bögen für Öl", "管线 Ω", "שלום עולם", "<b>&amp;</b>", "x" * 300])
def test_names_of_any_kind_do_no_harm(name):
    document = copy.deepcopy(results())
    document["input"]["project"] = name
    for row in (*document["holds"], *document["takeups"], *document["states"][:1]):
        row["name"] = name
    for shape in document["shapes"]:
        shape["state"] = name if shape["state"] == "installed" else shape["state"]
    for row in document["takeups"][0]["movements"]:
        row["state"] = name if row["state"] == "installed" else row["state"]
    made = make(document, Options())
    (first, *_) = (content for file, content in made.items() if file.endswith(".svg"))
    said = " ".join(texts(first.decode()))
    assert name[:40] in said
    assert all(re.fullmatch(r"line(-[a-z0-9]+)*\.(svg|png|glb)", file) for file in made)
    assert all(made.values())


def test_lines_that_are_not_solved_are_drawn_as_they_lie():
    document = results_of(
        study_of(line_file(["12 m east", "3 m up"], start="free", end="free", holds=(hold("rest", "4 m"),)))
    )
    made = make(document, Options())
    assert set(made) == {"line-as-they-lie.svg", "line-as-they-lie.png", "line.glb"}
    said = texts(made["line-as-they-lie.svg"].decode())
    assert said[0] == "Line T-1: as they lie"
    assert "The lines were not solved: they are drawn as they lie." in said
    assert not any("Movement" in words for words in said)


def test_results_without_sections_and_nodes_of_their_own_are_drawn():
    """The smallest document that other papers are made from."""
    assert set(make(corner(), Options())) == {"line-as-they-lie.svg", "line-as-they-lie.png", "line.glb"}
