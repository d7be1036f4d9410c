"""`takeup scene` from outside.     (tests/unit/scenes/test_scene_command.py)"""

from __future__ import annotations

import json

import pytest

from takeup import cli
from takeup.scenes import SCENES


@pytest.fixture(autouse=True)
def _folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)


def test_without_a_name_the_scenes_are_listed(capsys, tmp_path):
    assert cli.run(["scene"]) == 0
    assert [line.split()[1] for line in capsys.readouterr().out.splitlines()] == [entry.name for entry in SCENES]
    assert list(tmp_path.iterdir()) == []


def test_a_scene_is_told_and_its_strip_and_line_files_written_where_a_user_looks(capsys, tmp_path):
    assert cli.run(["scene", "free-end"]) == 0
    shown = capsys.readouterr().out
    assert "1  free-end: A hot pipe with a free end grows, and loads nothing" in shown
    assert "scenes.out/free-end.svg" in shown
    assert {path.name for path in (tmp_path / "scenes.out").iterdir()} == {"free-end.svg", "free-end.yaml"}


def test_the_line_file_that_a_scene_writes_is_one_to_go_on_with(capsys):
    assert cli.run(["scene", "4", "--out", "here"]) == 0
    assert cli.run(["validate", "here/closed-ends-with-a-joint.yaml"]) == 0
    assert "no faults" in capsys.readouterr().out


def test_all_of_them_come_as_one_json_document_and_nothing_else_on_standard_output(capsys, tmp_path):
    assert cli.run(["scene", "--all", "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert [scene["name"] for scene in document["scenes"]] == [entry.name for entry in SCENES]
    assert all(scene["agrees"] for scene in document["scenes"])
    assert list(tmp_path.iterdir()) == []


def test_json_goes_with_a_folder_for_the_strips(capsys, tmp_path):
    assert cli.run(["scene", "rods", "--json", "--out", "strips"]) == 0
    seen = capsys.readouterr()
    assert json.loads(seen.out)["scenes"][0]["name"] == "rods"
    assert "strips/rods.svg" in seen.err
    assert (tmp_path / "strips" / "rods.svg").is_file()


def test_the_list_comes_as_json_too(capsys):
    assert cli.run(["scene", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["scenes"][4] == {
        "number": 5,
        "name": "anchored",
        "title": SCENES[4].title,
    }


def test_an_unknown_name_leaves_with_two_and_the_nearest_right_one(capsys):
    assert cli.run(["scene", "anchorde"]) == 2
    seen = capsys.readouterr()
    assert seen.out == ""
    assert "the nearest is 'anchored'" in seen.err


def test_a_scene_that_does_not_agree_leaves_with_one(capsys, monkeypatch):
    """The growth formula made a hundredth too large: scene 1's claims are exact to a millionth."""
    monkeypatch.setattr("takeup.hand.formulas.free_growth", lambda strain, length: 1.01 * strain * length)
    assert cli.run(["scene", "free-end"]) == 1
    assert "DOES NOT AGREE" in capsys.readouterr().out


def test_a_name_and_all_of_them_are_two_answers(capsys):
    assert cli.run(["scene", "rods", "--all"]) == 2
    assert "give one of them" in capsys.readouterr().err
