"""Lines in space for the page: as thick as they are seen, each vertex riding where it belongs.     (tests/unit/desk)"""

from __future__ import annotations

import base64

import numpy as np
import pytest
from numpy.typing import NDArray
from tests.unit.desk.benches import bench

from takeup.desk.interface import Part
from takeup.desk.played.scenes import scene_bench


def _floats(words: str) -> NDArray[np.float32]:
    return np.frombuffer(base64.b64decode(words), dtype="<f4")


def _wholes(words: str) -> NDArray[np.uint32]:
    return np.frombuffer(base64.b64decode(words), dtype="<u4")


@pytest.fixture(scope="module")
def parts() -> list[Part]:
    return scene_bench("anchored.yaml").solids()["parts"]


def test_a_short_line_is_drawn_as_thick_as_it_is() -> None:
    """Scene 6: 12 m of 219.1 mm pipe; 0.009 of its length are 108 mm, less than the pipe has (by hand)."""
    assert scene_bench("rods.yaml").solids()["thick"] == 1.0


def test_a_long_line_is_drawn_thicker_and_says_so() -> None:
    """The Ketterby main: 150 m east and 9 m north are 150.3 m; 0.009 of them over 219.1 mm are 6.2 (by hand): six."""
    assert bench().solids()["thick"] == 6.0


def test_vertices_ride_on_nodes_by_shares(parts: list[Part]) -> None:
    """Each vertex of pipe and bellows has a node and a share from nought to one; what holds the line has neither."""
    for part in parts:
        vertices, node, share = len(_floats(part["position"])) // 3, _wholes(part["node"]), _floats(part["share"])
        assert _wholes(part["index"]).max() < vertices
        if part["what"] == "hold":
            assert len(node) == len(share) == 0
        else:
            assert len(node) == len(share) == vertices
            assert share.min() >= 0.0
            assert share.max() <= 1.0


def test_parts_bear_the_ids_of_their_places(parts: list[Part]) -> None:
    """What is pressed in the turning view is a place of the outline; pipe is none."""
    places = {place["id"] for place in scene_bench("anchored.yaml").outline()[0]["places"]}
    assert {part["id"] for part in parts if part["what"] == "pipe"} == {""}
    assert {part["id"] for part in parts if part["what"] != "pipe"} <= places
