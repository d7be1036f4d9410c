"""Whoever a shared desk lets in is not told where its folder lies on the machine."""

from __future__ import annotations

import json
import threading
import time
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from tests.line_texts import VALID

from takeup.desk.desk import Desk
from takeup.desk.web.guard import Guard
from takeup.desk.web.server import app_of
from takeup.desk.work.within import words_within

PORT, TOKEN = 8123, "the-token-of-this-start"
_PATIENCE = 60.0  # s in which a process on a busy machine has read a text


@pytest.fixture
def desk(tmp_path):
    file = tmp_path / "line.yaml"
    file.write_text(VALID.replace("medium: ", "medium: not ", 1), encoding="utf-8")
    one = Desk(file)
    yield one
    one.close()


def ended(answer) -> dict[str, object]:
    end = time.monotonic() + _PATIENCE
    while answer()["job"] == "running":
        assert time.monotonic() < end
        threading.Event().wait(0.05)
    return answer()


def test_papers_and_proposals_that_failed_say_where_from_the_folder_on(desk, tmp_path):
    desk.make_papers({"only": ["card"], "units": "si", "language": "en"})
    desk.arrange({"best": 1, "measure": "cost"})
    fault = desk.document()["faults"][0]
    for answer in (desk.papers, desk.proposals):
        found = ended(answer)
        assert found["job"] == "failed"
        assert f"line.yaml:{fault['line']}:{fault['column']}" in found["words"]
        assert str(tmp_path) not in json.dumps(found)


def test_a_series_that_is_not_there_and_what_is_refused_name_no_folder(tmp_path, monkeypatch):
    file = tmp_path / "line.yaml"
    file.write_text(VALID, encoding="utf-8")
    desk = Desk(file)

    def refuse() -> None:
        raise OSError(2, "No such file or directory", str(tmp_path / "line.yaml"))

    def fail() -> None:
        raise RuntimeError(f"nothing at {tmp_path / 'line.yaml'}")

    guard = Guard(port=PORT, token=TOKEN, nonce="n")
    headers = {"origin": "http://127.0.0.1:8123", "x-takeup": "1", "cookie": f"{guard.cookie}={TOKEN}"}
    client = TestClient(app_of(desk, guard), base_url="http://127.0.0.1:8123", headers=headers)
    for wrong, status in ((refuse, 409), (fail, 500)):
        monkeypatch.setattr(desk, "stop_arranging", wrong)
        answer = client.post("/api/proposals/stop", json={})
        assert answer.status_code == status
        assert str(tmp_path) not in answer.text
        assert "line.yaml" in answer.text
    desk.close()


def test_words_lose_the_folder_and_nothing_else():
    words = "/srv/plant/line.yaml:3:1: no series in /srv/plant; /srv/plants/other.csv, /mnt/srv/plant/b"
    said = words_within(words, Path("/srv/plant"))
    assert said == "line.yaml:3:1: no series in .; /srv/plants/other.csv, /mnt/srv/plant/b"
    assert words_within(words, Path("/")) == words
