"""The desk's server: addresses and what answers them.     (desk/web/server.py)

Thin: every answer is made by the desk, in a thread, so that one question never holds up another. What is refused is
answered with 409 and a sentence; what went wrong in the program itself with 500 and one, and told on the terminal.
"""

from __future__ import annotations

import asyncio
import contextlib
import json
import logging
import mimetypes
from collections.abc import AsyncIterator, Awaitable, Callable, Mapping
from http import HTTPStatus
from importlib.resources import files
from pathlib import Path
from typing import get_args
from urllib.parse import parse_qs

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.base import BaseHTTPMiddleware, RequestResponseEndpoint
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, Response, StreamingResponse
from starlette.routing import Route

from takeup.desk.desk import Desk
from takeup.desk.interface import Refused, Scenario
from takeup.desk.played.scenes import scene_rows, scene_told
from takeup.desk.web.bodies import CHANGE, PAPERS, SAVE, TAKE, BadBody, arrange_asked, body_of, look_asked
from takeup.desk.web.guard import DRAWING_POLICY, SIGN_IN, Guard, asking, same, stranger
from takeup.desk.web.pages import index_page, stranger_page
from takeup.desk.web.threads import DeskEnds, Threads
from takeup.desk.web.tries import APART, Tries
from takeup.errors import TakeupError

Answer = Callable[[Request], Awaitable[Response]]
_STATIC = files("takeup.desk") / "static"
_FONTS = files("takeup.papers.common") / "fonts"
_EVERY = 1.0  # the file on disk is looked at so often [s]
_ALIVE = 15.0  # a stream without news says so often that it is there [s]
_LOG = logging.getLogger("takeup.desk")


def app_of(desk: Desk, guard: Guard, threads: Threads | None = None) -> Starlette:
    """Return the application that serves a desk.

    Args:
        desk: that is served.
        guard: who may ask.
        threads: that answer; None for some that nobody ends.
    """
    threads = threads or Threads()
    asked, tries = _Addresses(desk, guard, threads), Tries()

    async def checked(request: Request, answer: RequestResponseEndpoint) -> Response:
        return guard.with_policy(await _checked(request, answer, guard, tries))

    @contextlib.asynccontextmanager
    async def life(_app: Starlette) -> AsyncIterator[None]:
        watch = asyncio.create_task(_watch(desk, threads))
        yield
        watch.cancel()

    return Starlette(routes=asked.routes, middleware=[Middleware(BaseHTTPMiddleware, dispatch=checked)], lifespan=life)


async def _checked(request: Request, answer: RequestResponseEndpoint, guard: Guard, tries: Tries) -> Response:
    """Return the answer to a request that may be asked, or why it may not."""
    refused = guard.refused(request)
    if refused is not None:
        return refused
    token = request.query_params.get("token")
    if request.url.path == "/" and token is not None and same(token, guard.token):
        return guard.signed_in()
    if request.url.path == SIGN_IN and request.method == "POST" and guard.password is not None:
        return await _signed_in(request, guard, tries)
    if not guard.is_signed_in(request):
        return stranger(request, stranger_page(guard.nonce, asks=guard.password is not None))
    return await answer(request)


async def _signed_in(request: Request, guard: Guard, tries: Tries) -> Response:
    """Return the answer to a password: one try a second of each machine, none kept waiting by another."""
    assert guard.password is not None, "the desk is shared"
    body = await request.body()
    given = parse_qs(body.decode(errors="replace")).get("password", [""])[0]
    wait = tries.turn("" if request.client is None else request.client.host)
    if wait is None:
        said = "Too many tries from this machine wait already: try again in some seconds."
        return asking(stranger_page(guard.nonce, asks=True, said=said), HTTPStatus.TOO_MANY_REQUESTS)
    await asyncio.sleep(wait)
    if same(given, guard.password):
        return guard.signed_in()
    await asyncio.sleep(APART)
    return asking(stranger_page(guard.nonce, asks=True, said="That is not the password."))


async def _watch(desk: Desk, threads: Threads) -> None:
    with contextlib.suppress(DeskEnds):
        while True:
            await asyncio.sleep(_EVERY)
            await threads.answer(desk.look_outside)


class _Addresses:
    """Every address, and what answers it."""

    def __init__(self, desk: Desk, guard: Guard, threads: Threads) -> None:
        self._desk, self._guard, self._threads = desk, guard, threads

    @property
    def routes(self) -> list[Route]:
        """For the application."""
        desk, get, post = self._desk, self._get, self._post
        return [
            Route("/", self._page),
            Route("/assets/{name}", _asset),
            Route("/fonts/{name}", _font),
            Route("/papers/{name}", self._paper),
            Route("/api/news", self._news),
            get("/api/document", lambda _: desk.document()),
            get("/api/walk", lambda asked: desk.walk(_scenario(asked))),
            get("/api/views", lambda _: desk.views()),
            get("/api/solids", lambda _: desk.solids()),
            get("/api/study", lambda _: desk.study()),
            get("/api/why", lambda asked: desk.why(asked.query_params.get("id", ""))),
            get("/api/proposals", lambda _: desk.proposals()),
            get("/api/papers", lambda _: desk.papers()),
            get("/api/scenes", lambda _: {"scenes": scene_rows()}),
            get("/api/scenes/{name}", lambda asked: scene_told(asked.path_params["name"])),
            post("/api/change", lambda body: desk.change(body_of(body, CHANGE))),
            post("/api/save", lambda body: desk.save(overwrite=body_of(body, SAVE)["overwrite"])),
            post("/api/look", lambda body: desk.look(look_asked(body))),
            post("/api/proposals", lambda body: desk.arrange(arrange_asked(body))),
            post("/api/proposals/stop", lambda _: desk.stop_arranging()),
            post("/api/proposals/take", lambda body: desk.take_proposal(body_of(body, TAKE))),
            post("/api/papers", lambda body: desk.make_papers(body_of(body, PAPERS))),
        ]

    def _get(self, path: str, made: Callable[[Request], object]) -> Route:
        async def answer(request: Request) -> Response:
            return await self._answered(lambda: made(request))

        return Route(path, answer, methods=["GET"])

    def _post(self, path: str, made: Callable[[bytes], object]) -> Route:
        async def answer(request: Request) -> Response:
            body = await request.body()
            return await self._answered(lambda: made(body))

        return Route(path, answer, methods=["POST"])

    async def _answered(self, made: Callable[[], object]) -> Response:
        """Return what is made as JSON; or in a sentence why it is not."""
        try:
            return _json(await self._threads.answer(made))
        except DeskEnds:
            return _json(Refused(refused="the desk ends", document=None), HTTPStatus.SERVICE_UNAVAILABLE)
        except BadBody as error:
            return _json(Refused(refused=str(error), document=None), HTTPStatus.BAD_REQUEST)
        except TakeupError as error:
            return _json(
                Refused(refused=self._desk.told(str(error)), document=self._desk.document()), HTTPStatus.CONFLICT
            )
        except OSError as error:
            because = f"the file cannot be written: {(error.strerror or 'no reason given').lower()}"
            return _json(Refused(refused=because, document=self._desk.document()), HTTPStatus.CONFLICT)
        except Exception as error:  # noqa: BLE001 -- a page must get an answer; the terminal gets the whole story
            _LOG.exception("a question of the page could not be answered")
            said = self._desk.told(f"Takeup itself went wrong: {type(error).__name__}: {error}")
            return _json(Refused(refused=said, document=None), HTTPStatus.INTERNAL_SERVER_ERROR)

    async def _page(self, _request: Request) -> Response:
        return Response(index_page(self._guard.nonce), media_type="text/html; charset=utf-8")

    async def _paper(self, request: Request) -> Response:
        """Return a file that was made: one that the list of papers names, from its folder."""
        name = request.path_params["name"]
        try:
            made = [one["name"] for one in (await self._threads.answer(self._desk.papers))["files"]]
        except DeskEnds:
            return _missing()
        folder = self._desk.papers_folder
        path = folder / name
        if name not in made or not path.is_file() or path.resolve() != folder.parent.resolve() / folder.name / name:
            return _missing()
        kept = "inline" if path.suffix in (".pdf", ".svg", ".png", ".json", ".csv") else "attachment"
        headers = {"content-security-policy": DRAWING_POLICY} if path.suffix == ".svg" else None
        return FileResponse(path, filename=name, content_disposition_type=kept, headers=headers)

    async def _news(self, _request: Request) -> Response:
        return StreamingResponse(_stream(self._desk), media_type="text/event-stream")


async def _stream(desk: Desk) -> AsyncIterator[str]:
    """Yield news as server-sent events, and a word now and then so that a lost page is noticed."""
    news = desk.news.stream()
    waiting = asyncio.ensure_future(anext(news))
    yield ": here\n\n"
    try:
        while True:
            done, _ = await asyncio.wait([waiting], timeout=_ALIVE)
            if not done:
                yield ": here\n\n"
                continue
            try:
                yield f"data: {json.dumps(waiting.result())}\n\n"
            except StopAsyncIteration:
                return
            waiting = asyncio.ensure_future(anext(news))
    finally:
        waiting.cancel()


async def _asset(request: Request) -> Response:
    return _packaged(_STATIC / "assets" / request.path_params["name"], _STATIC / "assets")


async def _font(request: Request) -> Response:
    return _packaged(_FONTS / request.path_params["name"], _FONTS)


def _packaged(path: object, folder: object) -> Response:
    """Return a file of the package, from just this folder."""
    found = Path(str(path))
    try:
        known = found.parent == Path(str(folder)) and found.is_file()
    except (OSError, ValueError):  # a name that no file can have
        known = False
    if not known:
        return _missing()
    kind = "font/otf" if found.suffix == ".otf" else mimetypes.guess_type(found.name)[0] or "application/octet-stream"
    return FileResponse(found, media_type=kind, headers={"cache-control": "no-cache"})


def _missing() -> Response:
    return _json(Refused(refused="there is no such address", document=None), HTTPStatus.NOT_FOUND)


def _scenario(request: Request) -> Scenario:
    asked = request.query_params.get("scenario", "")
    found: Scenario | None = next((one for one in get_args(Scenario) if one == asked), None)
    if found is None:
        raise BadBody(f"scenario: '{asked}' is none of {', '.join(get_args(Scenario))}")
    return found


def _json(value: object, status: HTTPStatus = HTTPStatus.OK) -> JSONResponse:
    assert isinstance(value, Mapping), "every answer is a mapping"
    return JSONResponse(value, status_code=status)


__all__ = ["app_of"]
