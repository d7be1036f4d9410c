"""Who may ask the desk's server, and what a page of it may do.     (desk/web/guard.py)

The server answers on this machine alone, unless it is shared with a password. Whoever asks must bear the token of this
start, in a cookie that the address printed at the start sets, or the password; the address asked must be the server's
own, and a change must come from its own page. So no other page open in the same browser, and nobody who makes a name
point at this machine, can ask anything.
"""

from __future__ import annotations

import hmac
import ipaddress
from dataclasses import dataclass
from http import HTTPStatus

from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, RedirectResponse, Response

LARGEST_BODY = 4_000_000
"""Bytes of a request past which it is refused: a text of the largest line file, as JSON."""
LARGEST_PASSWORD = 4_000
"""Likewise of one that brings a password, which anybody on the network may send."""
MARK = "x-takeup"
"""A header that only a page of the same origin can send without asking first."""
DRAWING_POLICY = "default-src 'none'; style-src 'unsafe-inline'; sandbox; frame-ancestors 'none'"
"""What a drawing among the papers may do when it is opened by itself: be looked at; it has no origin, and no script."""
SIGN_IN = "/sign-in"
"""Where the password of a shared desk is sent, by a plain form."""
_DIGITS = 9
_UNSAFE = ("POST", "PUT", "DELETE", "PATCH")


@dataclass(frozen=True, kw_only=True, slots=True)
class Guard:
    """What is asked of every request.

    Args:
        port: that the server listens at.
        token: of this start.
        nonce: of this start, which the page's one style of its own bears.
        password: that opens the desk to others on the network; None: it answers on this machine alone.
        hosts: by which the server may be called, without the port; a shared one by any number of an address too, since
            a page of somewhere else can only make a name point here.
    """

    port: int
    token: str
    nonce: str
    password: str | None = None
    hosts: tuple[str, ...] = ("127.0.0.1", "localhost")

    @property
    def cookie(self) -> str:
        """The name of the cookie; cookies of one machine are shared by its ports, so it bears the port."""
        return f"takeup-{self.port}"

    def refused(self, request: Request) -> Response | None:
        """Return why a request is refused; None where it is not."""
        host = request.headers.get("host", "")
        if not self._is_called(host):
            return _no(HTTPStatus.MISDIRECTED_REQUEST, "this is not the address of the desk")
        origin = request.headers.get("origin")
        if origin is not None and origin != f"http://{host}":
            return _no(HTTPStatus.FORBIDDEN, "asked by a page of somewhere else")
        if request.headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
            return _no(HTTPStatus.FORBIDDEN, "asked by a page of somewhere else")
        marked = request.headers.get(MARK) == "1" or request.url.path == SIGN_IN
        if request.method in _UNSAFE and not (origin is not None and marked):
            return _no(HTTPStatus.FORBIDDEN, "a change must come from the desk's own page")
        if not self._is_small(request):
            return _no(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, f"more than {LARGEST_BODY} bytes")
        return None

    def _is_small(self, request: Request) -> bool:
        """Return whether a request says how long it is, and is not too long; in chunks it would say nothing."""
        if "transfer-encoding" in request.headers:
            return False
        length = request.headers.get("content-length", "" if request.method in _UNSAFE else "0")
        most = LARGEST_PASSWORD if request.url.path == SIGN_IN else LARGEST_BODY
        return length.isascii() and length.isdigit() and len(length) <= _DIGITS and int(length) <= most

    def _is_called(self, host: str) -> bool:
        """Return whether the server is asked by one of its own addresses."""
        name, _, port = host.rpartition(":")
        if port != str(self.port):
            return False
        return name in self.hosts or (self.password is not None and _is_number(name.strip("[]")))

    def is_signed_in(self, request: Request) -> bool:
        """Return whether a request bears the token."""
        return same(request.cookies.get(self.cookie, ""), self.token)

    def signed_in(self, where: str = "/") -> Response:
        """Return the answer that gives a browser the token and sends it on."""
        response = RedirectResponse(where, status_code=HTTPStatus.SEE_OTHER)
        response.set_cookie(self.cookie, self.token, httponly=True, samesite="strict", path="/")
        return response

    def with_policy(self, response: Response) -> Response:
        """Return an answer with what a page of it may do: ask and show what is the server's own, and nothing else."""
        policy = (
            "default-src 'none'; script-src 'self'; "
            f"style-src 'self' 'nonce-{self.nonce}'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; "
            "form-action 'self'; base-uri 'none'; frame-ancestors 'none'; object-src 'none'"
        )
        response.headers.setdefault("content-security-policy", policy)
        response.headers["x-content-type-options"] = "nosniff"
        response.headers.setdefault("referrer-policy", "no-referrer")
        response.headers["x-frame-options"] = "DENY"
        response.headers["cross-origin-opener-policy"] = "same-origin"
        response.headers["cross-origin-resource-policy"] = "same-origin"
        response.headers["permissions-policy"] = "camera=(), microphone=(), geolocation=()"
        response.headers.setdefault("cache-control", "no-store")
        return response


def same(one: str, other: str) -> bool:
    """Return whether two secrets are the same, in a time that tells nothing."""
    return hmac.compare_digest(*(word.encode(errors="surrogateescape") for word in (one, other)))


def _is_number(name: str) -> bool:
    """Return whether a name of a machine is an address in numbers."""
    try:
        ipaddress.ip_address(name)
    except ValueError:
        return False
    return True


def stranger(request: Request, page: str) -> Response:
    """Return the answer to one who bears no token: a page for a person, a word for a program."""
    if request.url.path.startswith("/api/"):
        return _no(HTTPStatus.UNAUTHORIZED, "open the address that the desk printed when it was started")
    return asking(page)


def asking(page: str, status: HTTPStatus = HTTPStatus.UNAUTHORIZED) -> Response:
    """Return a page that may ask for the password; its form says where it comes from.

    With the policy "no-referrer", of every other page, a browser sends the origin "null" with a form.
    """
    headers = {"referrer-policy": "same-origin"}
    return HTMLResponse(page, status_code=status, headers=headers)


def _no(status: HTTPStatus, because: str) -> Response:
    return JSONResponse({"refused": because, "document": None}, status_code=status)


__all__ = ["DRAWING_POLICY", "LARGEST_BODY", "MARK", "SIGN_IN", "Guard", "asking", "same", "stranger"]
