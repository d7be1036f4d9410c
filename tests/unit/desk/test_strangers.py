"""What somebody would try who is not the page: chunks without end, names of no file, numbers of none, ways out."""

from __future__ import annotations

import asyncio
import json
import os
import signal
import socket
import subprocess
import sys
import textwrap
import threading
import time
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from tests.apart import apart
from tests.line_texts import VALID, changed
from tests.unit.desk.benches import asked

from takeup.desk.interface import News
from takeup.desk.web.bodies import BadBody, arrange_asked, look_asked
from takeup.desk.web.guard import Guard
from takeup.desk.web.news import Newsboard
from takeup.desk.web.server import app_of
from takeup.desk.web.threads import DeskEnds, Threads
from takeup.desk.work.making_papers import made
from takeup.desk.work.within import Outside, is_within, prices_within
from takeup.line.reading.reader import study_from_text

PORT, TOKEN, PASSWORD = 8123, "the-token-of-this-start", "a long password"
HOST = f"127.0.0.1:{PORT}"
OURS = {"origin": f"http://{HOST}", "x-takeup": "1"}
_LONG = 30.0  # s that a process may take to start or end on a busy machine


class PapersDesk:
    """Has made three papers."""

    def __init__(self, folder: Path) -> None:
        self.papers_folder = folder / "line.out"

    def papers(self):
        """Of which the last was replaced by a link."""
        return {"files": [{"name": name} for name in ("layout.svg", "loads.csv", "linked.csv")]}

    def look_outside(self):
        """Nothing to see."""

    def look(self, _asked):
        """Never asked."""
        raise AssertionError("a bad body came through")


def client_of(desk: object, **more: object) -> TestClient:
    app = app_of(desk, Guard(port=PORT, token=TOKEN, nonce="n", **more))
    return TestClient(app, base_url=f"http://{HOST}", follow_redirects=False)


@pytest.fixture
def client(tmp_path):
    one = client_of(PapersDesk(tmp_path))
    one.get(f"/?token={TOKEN}")
    return one


def test_chunks_are_refused_whatever_length_is_said_beside_them(client):
    """Of the two the server would go by the chunks, which have no end."""
    headers = {**OURS, "transfer-encoding": "chunked", "content-length": "2"}
    assert client.post("/api/look", headers=headers, content=b"{}").status_code == 413


@pytest.mark.parametrize("said", ["\u00b2", "+5", "1_0", "-1", "99999999999999999999", ""])
def test_a_length_is_digits(client, said):
    headers = {**OURS, "content-length": said.encode("latin-1")}
    assert client.post("/api/look", headers=headers, content=b"{}").status_code == 413


def test_a_long_password_is_not_read():
    shared = client_of(PapersDesk(Path("nowhere")), password=PASSWORD)
    answer = shared.post("/sign-in", content=b"p" * 5000, headers={"origin": f"http://{HOST}"})
    assert answer.status_code == 413


@pytest.mark.parametrize("address", [f"/fonts/{'a' * 5000}", f"/assets/{'a' * 5000}", "/fonts/%00", "/assets/%00"])
def test_a_name_that_no_file_can_have_is_no_address(client, address):
    answer = client.get(address)
    assert answer.status_code == 404
    assert "content-security-policy" in answer.headers


def test_the_form_for_the_password_says_where_it_comes_from():
    """With "no-referrer" a browser sends the origin "null" with a form, and nobody could sign in."""
    shared = client_of(PapersDesk(Path("nowhere")), password=PASSWORD)
    assert shared.get("/").headers["referrer-policy"] == "same-origin"
    headers = {"origin": f"http://{HOST}"}
    wrong = shared.post("/sign-in", data={"password": "another"}, headers=headers)
    assert wrong.headers["referrer-policy"] == "same-origin"
    shared.post("/sign-in", data={"password": PASSWORD}, headers=headers)
    assert shared.get("/").headers["referrer-policy"] == "no-referrer"


def test_papers_are_looked_at_without_script_and_links_are_not_followed(client, tmp_path):
    folder = tmp_path / "line.out"
    folder.mkdir()
    (folder / "layout.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'/>", encoding="utf-8")
    (folder / "loads.csv").write_text("a\n", encoding="utf-8")
    (tmp_path / "other.csv").write_text("not of the papers\n", encoding="utf-8")
    (folder / "linked.csv").symlink_to(tmp_path / "other.csv")
    drawing = client.get("/papers/layout.svg").headers["content-security-policy"]
    assert "script" not in drawing
    assert "default-src 'none'" in drawing
    assert "sandbox" in drawing
    assert client.get("/papers/loads.csv").text == "a\n"
    assert client.get("/papers/linked.csv").status_code == 404


def test_nothing_is_served_of_a_folder_of_papers_that_leads_elsewhere(client, tmp_path):
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere" / "loads.csv").write_text("not of this project\n", encoding="utf-8")
    (tmp_path / "line.out").symlink_to(tmp_path / "elsewhere")
    assert client.get("/papers/loads.csv").status_code == 404


def test_papers_are_not_written_where_a_link_leads(tmp_path):
    project, elsewhere = tmp_path / "project", tmp_path / "elsewhere"
    project.mkdir()
    elsewhere.mkdir()
    (project / "line.out").symlink_to(elsewhere)
    wanted = {"only": ["loads"], "units": "si", "language": "en"}
    with pytest.raises(Outside, match=r"line\.out leads out of the folder"):
        made(lambda *_: None, VALID, "line.yaml", str(project), wanted)
    assert list(elsewhere.iterdir()) == []


@pytest.mark.parametrize("prices", ["../prices.yaml", "/etc/passwd", "linked.yaml", "a/../../prices.yaml"])
def test_prices_outside_of_the_project_are_not_read(tmp_path, prices):
    project = tmp_path / "project"
    project.mkdir()
    (tmp_path / "prices.yaml").write_text("a secret: of another project\n", encoding="utf-8")
    (project / "linked.yaml").symlink_to(tmp_path / "prices.yaml")
    study = study_from_text(changed(("lines:\n", f"prices: {prices}\nlines:\n"), text=VALID), "x.yaml")
    with pytest.raises(Outside, match="leads out of the folder") as caught:
        prices_within(study, project)
    assert "secret" not in str(caught.value)


def test_what_is_in_the_folder_is_within_it(tmp_path):
    assert is_within(tmp_path / "a" / "b.yaml", tmp_path)
    assert is_within(tmp_path / "a" / ".." / "b.yaml", tmp_path)
    assert not is_within(tmp_path / "\0", tmp_path)


@pytest.mark.parametrize("times", [float("nan"), float("inf"), -5.0, 1e6])
def test_times_are_numbers_that_can_be_drawn(client, times):
    content = json.dumps({**asked(step=1), "exaggeration": times}).encode()
    with pytest.raises(BadBody):
        look_asked(content)
    assert client.post("/api/look", headers=OURS, content=content).status_code == 400


def test_no_number_of_a_state_by_hand_is_endless():
    for hand in ((float("nan"), 20.0), (5.0, float("inf"))):
        with pytest.raises(BadBody, match="finite"):
            look_asked(json.dumps(asked(hand=hand)).encode())


@pytest.mark.parametrize("best", [0, -1, 100])
def test_a_search_is_for_some_proposals(best):
    with pytest.raises(BadBody, match="best: 1 to 99"):
        arrange_asked(json.dumps({"best": best, "measure": "cost"}).encode())
    assert arrange_asked(b'{"best": 99, "measure": "cost"}')["best"] == 99


def test_a_slow_page_gets_the_newest_of_each_topic_and_no_more():
    async def told() -> list[News]:
        board = Newsboard()
        stream = board.stream()
        first = asyncio.ensure_future(anext(stream))
        await asyncio.sleep(0)
        for revision in range(1000):
            board.tell(News(what="document", revision=revision))
            board.tell(News(what="study", revision=revision))
        found = [await first]
        board.close()
        found += [news async for news in stream]
        assert board.listening == 0
        return found

    found = apart(told())
    assert [(news["what"], news["revision"]) for news in found] == [("document", 999), ("study", 999)]


def test_who_waits_for_an_answer_is_let_go_when_the_desk_ends():
    never = threading.Event()

    async def asked_and_ended() -> float:
        threads = Threads()
        waiting = asyncio.ensure_future(threads.answer(never.wait))
        await asyncio.sleep(0.05)
        began = time.monotonic()
        threads.end()
        with pytest.raises(DeskEnds):
            await waiting
        with pytest.raises(DeskEnds):
            await threads.answer(never.wait)
        return time.monotonic() - began

    assert apart(asked_and_ended()) < 1.0  # it waits for nothing; a second is for a busy machine
    never.set()


def test_what_an_answer_raises_comes_back():
    async def asked_for_nothing() -> None:
        with pytest.raises(ZeroDivisionError):
            await Threads().answer(lambda: 1 // 0)

    apart(asked_for_nothing())


_PARENT = """
import sys, time
from takeup.desk.work.jobs import Work
from tests.unit.desk.test_strangers import computing

if __name__ == "__main__":
    work, spare = Work(computing, lambda: None), Work(computing, lambda: None)
    spare.ready()
    work.start()
    while work.progress.answer is None:
        time.sleep(0.01)
    print(work.progress.answer, spare._spare[0].pid, flush=True)
    time.sleep(60)
"""


def computing(tell):
    """Compute without end and say nothing more, as a long study does."""
    tell(0.1, "at it", os.getpid())
    number = 0
    while True:
        number += 1


def _runs(pid: int) -> bool:
    try:
        return Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rsplit(")", 1)[1].split()[0] != "Z"
    except OSError:
        return False


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="looks at processes as Linux shows them")
def test_no_work_outlives_a_killed_desk(tmp_path):
    """Neither one that waits for work, nor one that computes and would not look at its pipe for minutes."""
    script = tmp_path / "parent.py"
    script.write_text(textwrap.dedent(_PARENT), encoding="utf-8")
    root = Path(__file__).parents[3]
    path = os.pathsep.join([str(root / "src"), str(root)])
    with subprocess.Popen(
        [sys.executable, str(script)], stdout=subprocess.PIPE, text=True, env={**os.environ, "PYTHONPATH": path}
    ) as parent:
        assert parent.stdout is not None
        pids = [int(word) for word in parent.stdout.readline().split()]
        assert all(map(_runs, pids))
        parent.send_signal(signal.SIGKILL)
    end = time.monotonic() + _LONG
    while any(map(_runs, pids)) and time.monotonic() < end:
        time.sleep(0.02)
    assert not any(map(_runs, pids))


@pytest.mark.skipif(not hasattr(signal, "SIGINT"), reason="an interruption of POSIX")
def test_half_a_password_keeps_nobody_else_waiting(tmp_path):
    """Two connections to a shared desk: one says a length and sends no end; the other comes in all the same."""
    file = tmp_path / "line.yaml"
    file.write_text(VALID, encoding="utf-8")
    src = str(Path(__file__).parents[3] / "src")
    with subprocess.Popen(
        [sys.executable, "-m", "takeup", "open", str(file), "--no-browser", "--share"],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        env={**os.environ, "PYTHONPATH": src, "TAKEUP_PASSWORD": PASSWORD},
    ) as desk:
        assert desk.stdout is not None
        port = int(desk.stdout.readline().split(":")[2].split("/")[0])
        head = f"POST /sign-in HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nOrigin: http://127.0.0.1:{port}\r\n"
        body = f"password={PASSWORD.replace(' ', '+')}"
        with (
            socket.create_connection(("127.0.0.1", port)) as slow,
            socket.create_connection(("127.0.0.1", port)) as one,
        ):
            slow.sendall(f"{head}Content-Length: 50\r\n\r\npass".encode())
            time.sleep(0.2)
            one.settimeout(_LONG)
            one.sendall(f"{head}Content-Length: {len(body)}\r\n\r\n{body}".encode())
            assert one.recv(100).startswith(b"HTTP/1.1 303")
            desk.send_signal(signal.SIGINT)
            assert desk.wait(_LONG) == 0
