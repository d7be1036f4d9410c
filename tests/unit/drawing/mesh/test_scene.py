"""Lines in space go through the places of the results, moved by what the results say.     (drawing/mesh/)"""

from __future__ import annotations

import copy
import json
import struct
from functools import lru_cache

import numpy as np
import pytest
import trimesh
from tests.builders import hold, joint, line_file, study_of

from takeup.drawing.mesh import glb_bytes, greatest_movement, scene_of, stretch_of
from takeup.drawing.mesh.centre import centre_line, movement_of
from takeup.drawing.mesh.flat import best_view, facets_of, seen_from
from takeup.drawing.mesh.glb import TO_GLTF
from takeup.drawing.mesh.joints import Detail
from takeup.drawing.mesh.scene import FINE, Look
from takeup.drawing.mesh.tones import Toned
from takeup.results import results_of

TEXT = line_file(
    ["9 m east, to: turn", "4 m north, to: riser, bend: sharp", "3 m up"],
    holds=(hold("spider guide", "3 m"), hold("spider guide", "5 m"), hold("rest", "7 m")),
    takeups=(joint("J1", "1.5 m"),),
    end="main anchor",
)


@lru_cache(maxsize=1)
def results() -> dict:
    return results_of(study_of(TEXT))


def shape_of(document, state):
    return next(shape for shape in document["shapes"] if shape["state"] == state)


def test_centre_line_goes_through_the_nodes():
    """Arcs, sharp corners and risers: to 1e-9 m of the model's own places."""
    line = results()["lines"][0]
    stations = np.array([node["station_m"] for node in line["nodes"]])
    places = np.array([node["at_m"] for node in line["nodes"]])
    centre = centre_line(line)
    assert np.abs(centre.at(stations) - places).max() < 1e-9
    assert centre.length == pytest.approx(line["length_m"], abs=1e-12)


def test_displaced_places_are_those_of_the_results_times_the_factor():
    """By hand: place + factor x movement of every node, and the middle of the ring that is drawn there: to 1e-6 m."""
    document, factor = results(), 7.0
    line = document["lines"][0]
    stations = np.array([node["station_m"] for node in line["nodes"]])
    for state in ("operating", "under hydrostatic test"):
        wanted = np.array([node["at_m"] for node in line["nodes"]])
        wanted = wanted + factor * np.array(shape_of(document, state)["displacement_mm"]) / 1e3
        scene = scene_of(document, state, factor)
        assert np.abs(scene.lines[0].at(stations) - wanted).max() < 1e-6
        rings = np.concatenate(
            [
                solid.vertices[:-2].reshape(-1, FINE.sides, 3).mean(axis=1)
                for solid in scene.solids
                if solid.sort == "pipe"
            ]
        )
        bellows = document["takeups"][0]["bellows"][0]
        for station, place in zip(stations, wanted, strict=True):
            if not bellows["from_m"] < station < bellows["to_m"]:
                assert np.linalg.norm(rings - place, axis=1).min() < 1e-6


def test_movement_between_nodes_is_never_beyond_them():
    """Fritsch and Carlson: through the nodes, and monotone between them."""
    stations = (0.0, 1.0, 2.5, 3.0, 6.0)
    places = ((0.0, 1, 0), (1, 1, 0), (1.1, 5, 0), (9, 2, 0), (9, 2, 1))
    moved = movement_of(
        {"nodes": [{"station_m": station} for station in stations]},
        {"displacement_mm": [[1e3 * part for part in place] for place in places]},
    )
    fine = np.linspace(0.0, 6.0, 601)
    values = moved.at(fine)
    assert np.allclose(moved.at(moved.stations), moved.moved, atol=1e-12)
    for k in range(4):
        low, high = np.minimum(moved.moved[k], moved.moved[k + 1]), np.maximum(moved.moved[k], moved.moved[k + 1])
        within = values[(fine >= moved.stations[k]) & (fine <= moved.stations[k + 1])]
        assert (within >= low - 1e-12).all()
        assert (within <= high + 1e-12).all()


def test_without_a_shape_nothing_moves():
    line = results()["lines"][0]
    assert np.abs(movement_of(line, None).at(np.array([0.0, 5.0]))).max() == 0.0


@pytest.mark.parametrize(
    "look", [Look(), Look(thick=5.0, detail=Detail(sides=8, points=4, waves=4), slack=(0.01, 1e-4))]
)
def test_every_solid_is_closed_and_turned_outside_out(look):
    for solid in scene_of(results(), "operating", 5.0, look).solids:
        made = trimesh.Trimesh(solid.vertices, solid.triangles, process=False)
        assert made.is_watertight, solid.name
        assert made.is_winding_consistent, solid.name
        assert made.volume > 0.0, solid.name


def test_solids_are_named_after_what_they_are():
    names = [solid.name for solid in scene_of(results(), "operating", 1.0).solids]
    holds = {row["name"] for row in results()["holds"]}
    assert names[:3] == ["T-1, pipe 1", "T-1, pipe 2", "J1"]
    assert set(names[3:]) == holds


def test_factor_is_round_and_keeps_joints_from_passing_through_themselves():
    """By hand: 0.75 of the live length over the most it shortens, and 5 % of the extent over the greatest movement."""
    document = results()
    shorter = max(-one["axial_mm"] for one in document["takeups"][0]["movements"]) / 1e3
    aside = max(one["lateral_mm"] for one in document["takeups"][0]["movements"]) / 1e3
    extent = float(np.linalg.norm([9.0, 4.0, 3.0]))
    most = min(0.75 * 0.6 / shorter, 0.75 * 0.6 / aside, 0.05 * extent / greatest_movement(document))
    found = stretch_of(document)
    assert found <= most < 2.5 * found  # the next of 1, 2, 5, 10 is at most two and a half times as much
    assert str(found)[0] in "125"
    assert set(str(found)[1:]) <= {"0"}


def test_factor_of_a_line_that_is_not_solved_is_one():
    document = {**results(), "shapes": []}
    assert (stretch_of(document), greatest_movement(document)) == (1, 0.0)


def test_factor_of_a_joint_without_room_is_one():
    """By hand: 0.75 of no live length is nothing, and the factor is never below 1."""
    document = copy.deepcopy(results())
    takeup = document["takeups"][0]
    takeup["bellows"], takeup["live_to_m"] = [], takeup["live_from_m"]
    assert stretch_of(document) == 1


def test_two_joints_at_one_place_are_both_drawn_and_pipe_only_beside_them():
    """By hand: the second joint is the first once more, so its bellows lies between the same two stations."""
    document = copy.deepcopy(results())
    document["takeups"].append({**document["takeups"][0], "name": "J2"})
    scene = scene_of(document, "operating", float(stretch_of(document)))
    assert [solid.name for solid in scene.solids if solid.sort == "bellows"] == ["J1", "J2"]
    alone = scene_of(results(), "operating", scene.stretch)
    runs, wanted = ([solid for solid in one.solids if solid.sort == "pipe"] for one in (scene, alone))
    assert len(runs) == len(wanted) == 2
    for run, other in zip(runs, wanted, strict=True):
        assert np.array_equal(run.vertices, other.vertices)


def test_view_turns_the_world_right_handed():
    """From the south-west and above east goes to the right, north to the left, up upward, all three equally long."""
    view = seen_from(225.0)
    axes = view.flat(np.eye(3))
    assert axes[0, 0] > 0.0
    assert axes[1, 0] < 0.0
    assert axes[2, 1] > 0.0
    assert np.allclose(np.linalg.norm(axes[:, :2], axis=1), np.sqrt(2.0 / 3.0), atol=1e-12)  # by hand: cos 35.26 deg
    assert np.linalg.det(np.array([view.right, view.up, view.near])) == pytest.approx(1.0)
    assert best_view(np.array([[0.0, 0, 0], [9, 0, 0], [9, 4, 0], [9, 4, 3]]), (260.0, 120.0)).above == view.above


def test_faces_come_from_the_farthest_on_and_look_at_the_eye():
    view = seen_from(225.0)
    scene = scene_of(results(), "operating", 5.0)
    facets = facets_of(scene.solids, view, Toned(greatest_movement(results())))
    assert 0 < len(facets) < sum(len(solid.quads) for solid in scene.solids)
    for facet in facets[:: len(facets) // 50]:
        area = sum(
            a[0] * b[1] - b[0] * a[1]
            for a, b in zip(facet.corners, (*facet.corners[1:], facet.corners[0]), strict=True)
        )
        assert area > 0.0  # counterclockwise as seen, u to the right and v up
        assert all(0.0 <= part <= 1.0 for part in facet.colour)


def glb() -> bytes:
    document = results()
    scenes = [("as they lie", scene_of(document, "", 1.0)), ("operating", scene_of(document, "operating", 5.0))]
    return glb_bytes(scenes, greatest_movement(document), {"project": "=1+1 Öl 管"}, 12.0)


def chunk(content: bytes) -> dict:
    """The JSON of a GLB file, read with the standard library: 12 bytes of head, then length, sort and text."""
    magic, version, length = struct.unpack("<4sII", content[:12])
    assert (magic, version, length) == (b"glTF", 2, len(content))
    size, sort = struct.unpack("<I4s", content[12:20])
    assert sort == b"JSON"
    return json.loads(content[20 : 20 + size].decode("utf-8"))


def test_glb_has_its_nodes_by_name_and_gives_the_same_bytes():
    tree = chunk(glb())
    names = {node["name"] for node in tree["nodes"]}
    assert {"as they lie", "operating", "operating: J1", "as they lie: west end", "operating: T-1, pipe 2"} <= names
    assert len(names) == len(tree["nodes"])
    assert tree["asset"]["version"] == "2.0"
    assert "=1+1 Öl 管" in json.dumps(tree, ensure_ascii=False)
    assert glb() == glb()


def test_glb_read_back_has_the_places_of_the_scene():
    """Read by another library, turned from y up back to z up; the second scene stands 12 m to the south.

    To 1e-5 m: a file has seven figures, and its solids are up to 10 m long.
    """
    loaded = trimesh.load(trimesh.util.wrap_as_stream(glb()), file_type="glb", process=False)
    scene = scene_of(results(), "operating", 5.0)
    for solid in scene.solids:
        matrix, name = loaded.graph[f"operating: {solid.name}"]
        local = loaded.geometry[name].vertices
        world = (local @ matrix[:3, :3].T + matrix[:3, 3]) @ TO_GLTF
        assert np.abs(world - (solid.vertices - np.array([0.0, 12.0, 0.0]))).max() < 1e-5
        assert loaded.geometry[name].is_watertight


def test_names_of_the_user_may_be_anything_and_alike():
    document = copy.deepcopy(results())
    for row in document["holds"]:
        row["name"] = "שלום <&> 管"
    for scene in (scene_of(document, "operating", 2.0),):
        tree = chunk(glb_bytes([("a", scene)], 1.0, {}, 1.0))
    names = [node["name"] for node in tree["nodes"]]
    assert len(set(names)) == len(names)
    assert "a: שלום <&> 管 (2)" in names
