"""`takeup joints kinds` from outside: text and document, and that no kind is left out."""

from __future__ import annotations

import json

from takeup import __version__, cli
from takeup.joints import ALL_KINDS

KEYS = {
    "name", "joint", "bellows", "held_by", "restrained", "thrust", "takes", "never", "stiffness", "built_of",
    "anchor_lost", "column_squirm", "rated", "keys_needed", "keys_possible",
}  # fmt: skip


WORDS = ("thrust", "takes", "never", "stiffness", "built_of", "anchor_lost")


def test_document_lists_every_kind_in_order(capsys):
    assert cli.run(["joints", "kinds", "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["tool"] == {"name": "takeup", "version": __version__}
    assert [kind["name"] for kind in document["kinds"]] == [kind.name for kind in ALL_KINDS]
    assert all(set(kind) == KEYS for kind in document["kinds"])
    assert all(kind[key] for kind in document["kinds"] for key in WORDS)


def test_document_says_what_the_records_say(capsys):
    """A double externally pressurised joint has two bellows, one a half; a loop of pipe is no joint."""
    assert cli.run(["joints", "kinds", "--json"]) == 0
    kinds = {kind["name"]: kind for kind in json.loads(capsys.readouterr().out)["kinds"]}
    assert (kinds["double externally pressurised"]["bellows"], kinds["gimbal"]["bellows"]) == (2, 1)
    assert kinds["hinged"]["keys_needed"] == ["pins", "data.angular"]
    assert kinds["universal"]["keys_possible"] == ["rods"]
    loop = kinds["pipe loop"]
    assert (loop["joint"], loop["bellows"], loop["column_squirm"], loop["keys_needed"]) == (False, 0, None, [])


def test_text_has_every_kind_and_stays_narrow(capsys):
    assert cli.run(["joints", "kinds"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line for line in lines[1:] if line and line[0] != " "] == [kind.name for kind in ALL_KINDS]
    assert max(len(line) for line in lines) <= 100  # what a terminal shows without folding, and a log too
    assert "  keys it needs          pins, data.angular" in lines
