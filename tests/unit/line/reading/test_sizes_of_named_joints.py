"""A joint that a file names from a series has the size of its pipe, and rods that stand round it."""

from __future__ import annotations

import pytest
from tests.selection_lines import RODS, choice, line_text, read, stored

from takeup.errors import InputError
from takeup.library import pipe_size, size_number

PIPE = "{ size: DN 150, wall: 7.11 mm, material: ASTM A106 B }"
SMALL = {"size_dn": "150", "effective_area_mm2": "29000"}
AT = "west end + 1.0 m"


def messages(folder, row, pipe):
    table = stored(folder, row)
    kind = table.kinds[0]
    with pytest.raises(InputError) as caught:
        read(folder, line_text(choice("J1", AT, 'joint: "J 1"', kind), pipe=pipe))
    return [str(fault).partition("line.yaml:")[2] for fault in caught.value.faults]


def test_joint_of_another_size_than_its_pipe_is_refused_at_its_name(tmp_path):
    """A DN 200 joint in a pipe of DN 150; the fault stands where the joint is named."""
    (found,) = messages(tmp_path, {}, PIPE)
    text = (tmp_path / "line.yaml").read_text(encoding="utf-8").splitlines()
    line, column, words = found.split(":", 2)
    assert text[int(line) - 1][int(column) - 1 :].startswith('"J 1"')
    assert words == " line T-1, take-up J1, joint: J 1 is of the size 200, and the pipe at 1 m is DN 150"


def test_joint_of_its_size_is_taken(tmp_path):
    stored(tmp_path, SMALL)
    (one,) = read(tmp_path, line_text(choice("J1", AT, 'joint: "J 1"'), pipe=PIPE)).lines[0].choices
    assert one.joint == "J 1"


@pytest.mark.parametrize(("circle", "fits"), [("192", False), ("192.4", True)])
def test_rods_within_the_pipe_are_refused(tmp_path, circle, fits):
    """DN 150 is 168.3 mm outside (ASME B36.10M); rods of 24 mm on 192 mm leave 168.0 mm, on 192.4 mm 168.4 mm."""
    row = SMALL | RODS | {"rod_circle_mm": circle}
    if fits:
        stored(tmp_path, row)
        assert read(tmp_path, line_text(choice("J1", AT, 'joint: "J 1"', RODS["kind"]), pipe=PIPE)).lines[0].choices
        return
    (found,) = messages(tmp_path, row, PIPE)
    assert "the rods or plates of J 1 leave 168 mm, and the pipe at 1 m is 168.3 mm outside" in found


@pytest.mark.parametrize(
    ("words", "number"), [("DN 150", 150.0), ("NPS 6", 150.0), ("copper 54 mm", 54.0), ("copper 66.7 mm", 66.7)]
)
def test_number_of_a_size_is_its_dn_or_the_outside_diameter_of_a_copper_tube(words, number):
    """NPS 6 is DN 150 (ASME B36.10M); a copper tube of EN 1057 is named by its outside diameter."""
    assert size_number(pipe_size(words)) == pytest.approx(number, rel=1e-12)  # metres and back
