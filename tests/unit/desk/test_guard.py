"""Who may ask the desk's server: nobody without the token, no page of somewhere else, no other name of this machine."""

from __future__ import annotations

import asyncio
import re
import time
from pathlib import Path

import httpx2
import pytest
from starlette.testclient import TestClient
from tests.apart import apart

from takeup.desk.web.guard import Guard
from takeup.desk.web.server import app_of
from takeup.desk.web.tries import MOST_MACHINES, Tries

PORT, TOKEN, PASSWORD = 8123, "the-token-of-this-start", "a long password"
HOST = f"127.0.0.1:{PORT}"
OURS = {"origin": f"http://{HOST}", "x-takeup": "1"}


class FakeDesk:
    """Answers what the guard lets through, so that no study is run here."""

    papers_folder = Path("nowhere")

    def document(self):
        """As it stands."""
        return {"revision": 1}

    def look_outside(self):
        """Nothing to see."""

    def told(self, words):
        """As they are."""
        return words

    def papers(self):
        """None were made."""
        return {"files": []}

    def stop_arranging(self):
        """Says that it was asked."""
        return {"stopped": True}


def client_of(guard: Guard) -> TestClient:
    return TestClient(app_of(FakeDesk(), guard), base_url=f"http://{HOST}", follow_redirects=False)


@pytest.fixture
def stranger():
    return client_of(Guard(port=PORT, token=TOKEN, nonce="n"))


@pytest.fixture
def client(stranger):
    stranger.get(f"/?token={TOKEN}")
    return stranger


def test_the_token_opens_and_is_out_of_the_address_at_once(stranger):
    answer = stranger.get(f"/?token={TOKEN}")
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    cookie = answer.headers["set-cookie"]
    assert f"takeup-{PORT}={TOKEN}" in cookie
    assert "HttpOnly" in cookie
    assert "SameSite=strict" in cookie
    assert stranger.get("/api/document").json() == {"revision": 1}


@pytest.mark.parametrize("address", ["/", "/?token=", "/?token=wrong", "/assets/main.js", "/fonts/Inter-Regular.otf"])
def test_nobody_comes_in_without_it(stranger, address):
    answer = stranger.get(address)
    assert answer.status_code == 401
    assert "takeup open" in answer.text
    assert "set-cookie" not in answer.headers


def test_a_program_without_it_is_told_in_a_sentence(stranger):
    answer = stranger.get("/api/document")
    assert answer.status_code == 401
    assert answer.json()["refused"] == "open the address that the desk printed when it was started"


@pytest.mark.parametrize(
    "host", ["evil.example:8123", "127.0.0.1", "127.0.0.1:8124", "192.168.0.7:8123", "[::1]:8123", ""]
)
def test_a_name_that_points_here_is_not_the_desk(client, host):
    assert client.get("/api/document", headers={"host": host}).status_code == 421


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://evil.example"},
        {"origin": "null"},
        {"origin": "http://127.0.0.1:9999"},
        {"origin": f"https://{HOST}"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
    ],
)
def test_no_page_of_somewhere_else_asks_anything(client, headers):
    assert client.get("/api/document", headers=headers).status_code == 403
    assert client.post("/api/proposals/stop", headers={**OURS, **headers}).status_code == 403


@pytest.mark.parametrize("lost", ["origin", "x-takeup"])
def test_a_change_comes_from_the_page_itself(client, lost):
    headers = {name: value for name, value in OURS.items() if name != lost}
    assert client.post("/api/proposals/stop", headers=headers).status_code == 403
    assert client.post("/api/proposals/stop", headers=OURS).json() == {"stopped": True}


def test_uploads_are_limited(client):
    answer = client.post("/api/change", headers=OURS, content=b"x" * 4_000_001)
    assert answer.status_code == 413

    def chunks():
        yield b"{}"

    assert client.post("/api/change", headers=OURS, content=chunks()).status_code == 413, "no length said"


@pytest.mark.parametrize("address", ["/", "/api/document", "/nothing", "/api/nothing", "/assets/none.js"])
def test_every_answer_bears_the_policy(client, address):
    answer = client.get(address)
    policy = dict(part.strip().split(" ", 1) for part in answer.headers["content-security-policy"].split(";"))
    assert policy["default-src"] == policy["object-src"] == policy["frame-ancestors"] == policy["base-uri"] == "'none'"
    assert policy["script-src"] == "'self'"
    assert policy["style-src"] == "'self' 'nonce-n'"
    assert policy["connect-src"] == "'self'"
    assert "unsafe" not in answer.headers["content-security-policy"]
    assert answer.headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize(
    "address",
    [
        "/papers/..%2F..%2Fetc%2Fpasswd",
        "/papers/results.json",
        "/assets/..%2Findex.html",
        "/fonts/..%2F..%2Fframe.typ",
        "/assets/%2e%2e",
        "/fonts/",
    ],
)
def test_nothing_but_the_served_folders_is_read(client, address):
    assert client.get(address).status_code == 404


def test_the_page_bears_the_word_of_its_style(client):
    page = client.get("/").text
    assert '<meta name="style-nonce" content="n" />' in page
    assert not re.search(r"<script(?![^>]*src=)", page), "no script within the page"
    assert "http://" not in page
    assert "https://" not in page


@pytest.fixture
def shared():
    return client_of(Guard(port=PORT, token=TOKEN, nonce="n", password=PASSWORD))


def test_the_password_opens_a_shared_desk(shared):
    assert "Whoever knows its password can read and change" in shared.get("/").text
    headers = {"origin": f"http://{HOST}"}
    answer = shared.post("/sign-in", data={"password": PASSWORD}, headers=headers)
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    assert shared.get("/api/document").status_code == 200


def test_a_wrong_one_takes_a_second_and_opens_nothing(shared):
    began = time.monotonic()
    answer = shared.post("/sign-in", data={"password": "another"}, headers={"origin": f"http://{HOST}"})
    assert answer.status_code == 401
    assert "That is not the password" in answer.text
    assert time.monotonic() - began >= 1.0
    assert shared.get("/api/document").status_code == 401


def test_a_flood_of_wrong_passwords_keeps_no_other_machine_waiting():
    """Two hundred tries of one machine: six have turns, a second apart (MOST_WAITING and one at once), 194 none."""
    app = app_of(FakeDesk(), Guard(port=PORT, token=TOKEN, nonce="n", password=PASSWORD))
    begins = "http://" + HOST

    def machine(address: str) -> httpx2.AsyncClient:
        carried = httpx2.ASGITransport(app=app, client=(address, 50_000))
        return httpx2.AsyncClient(transport=carried, base_url=begins, headers={"origin": begins})

    async def flooded() -> tuple[list[int], float, int]:
        async with machine("192.0.2.1") as bad, machine("192.0.2.2") as good:
            flood = [asyncio.ensure_future(bad.post("/sign-in", data={"password": "wrong"})) for _ in range(200)]
            await asyncio.sleep(0.5)
            began = time.monotonic()
            opened = await good.post("/sign-in", data={"password": PASSWORD})
            took = time.monotonic() - began
            said = [one.result().status_code for one in flood if one.done()]
            for one in flood:
                one.cancel()
            await asyncio.gather(*flood, return_exceptions=True)
            return said, took, opened.status_code

    answers, took, opened = apart(flooded())
    assert opened == 303
    assert took < 1.0, "less than one turn of the flood, however busy this machine is"
    assert answers == 194 * [429]


def test_the_right_password_waits_for_the_wrong_ones_of_its_own_machine():
    """Or wrong ones sent side by side would cost nothing."""
    tries = Tries(lambda: 100.0)
    assert [tries.turn("192.0.2.1") for _ in range(7)] == [0.0, 1.0, 2.0, 3.0, 4.0, 5.0, None]
    assert tries.turn("192.0.2.2") == 0.0


def test_turns_come_back_and_no_more_is_kept_than_of_a_thousand_machines():
    now = [0.0]
    tries = Tries(lambda: now[0])
    for number in range(MOST_MACHINES + 500):
        tries.turn(f"machine {number}")
    assert len(tries) == MOST_MACHINES + 1, "those beyond share one"
    assert tries.turn("one more") is None
    assert tries.turn("machine 3") == 1.0, "who has a turn of its own keeps it"
    now[0] = 60.0
    assert tries.turn("one more") == 0.0
    assert len(tries) == 1


def test_no_page_of_somewhere_else_tries_passwords(shared):
    assert shared.post("/sign-in", data={"password": PASSWORD}).status_code == 403
    headers = {"origin": "http://evil.example"}
    assert shared.post("/sign-in", data={"password": PASSWORD}, headers=headers).status_code == 403


def test_a_shared_desk_is_called_by_numbers_and_its_names_only(shared):
    assert shared.get("/", headers={"host": "192.168.0.7:8123"}).status_code == 401
    assert shared.get("/", headers={"host": "evil.example:8123"}).status_code == 421


def test_without_a_password_there_is_no_sign_in(client):
    answer = client.post("/sign-in", data={"password": "x"}, headers={"origin": f"http://{HOST}"})
    assert answer.status_code == 404
