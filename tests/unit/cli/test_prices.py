"""A line file that names a price file, from outside: its prices are in the results and on paper. (tests/unit/cli/)"""

from __future__ import annotations

import csv
import json

import pytest
from tests.builders import joint, line_file
from tests.price_builders import PRICES, round_prices

from takeup import cli

TEXT = line_file(["20 m east"], takeups=(joint("J1", "10 m"),), more="prices: own.yaml")
BAD_INPUT = 2


@pytest.fixture
def file(tmp_path):
    (tmp_path / "line.yaml").write_text(TEXT, encoding="utf-8")
    return tmp_path / "line.yaml"


def test_study_and_papers_have_the_prices_of_the_file_beside_the_line_file(file, capsys):
    """By hand: 20 m less the joint's 1.1 m, at 1.5 x 20 a metre."""
    (file.parent / "own.yaml").write_text(PRICES, encoding="utf-8")
    cli.run(["study", str(file), "--out", str(file.parent / "a")])
    parts = json.loads((file.parent / "a" / "results.json").read_text(encoding="utf-8"))["parts"]
    assert (parts["prices"]["name"], parts["prices"]["sha256"]) == ("round prices", round_prices().sha256)
    assert parts["rows"][0]["price"]["cost"] == pytest.approx(18.9 * 30.0, abs=1e-9)  # exact but for rounding
    cli.run(["papers", str(file), "--only", "parts", "--out", str(file.parent / "b")])
    cli.run(["papers", str(file.parent / "a" / "results.json"), "--only", "parts", "--out", str(file.parent / "c")])
    capsys.readouterr()
    with (file.parent / "b" / "parts.csv").open(encoding="utf-8", newline="") as stream:
        first = next(csv.DictReader(stream))
    assert float(first["cost"]) == parts["rows"][0]["price"]["cost"]
    for name in ("parts.csv", "parts.xlsx"):
        assert (file.parent / "b" / name).read_bytes() == (file.parent / "c" / name).read_bytes()


@pytest.mark.parametrize("command", ["study", "papers"])
def test_price_file_that_is_missing_is_told_and_nothing_is_written(command, file, capsys):
    assert cli.run([command, str(file)]) == BAD_INPUT
    assert "own.yaml" in capsys.readouterr().err
    assert [path.name for path in file.parent.iterdir()] == ["line.yaml"]
