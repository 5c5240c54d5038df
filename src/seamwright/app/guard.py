"""What stands in front of every route: who may ask, how much they may send, what goes back.

A page from elsewhere must not reach this server through the user's browser: the host asked for must
be this machine (against names that are made to lead here), a change must come from our own page,
and no other page is ever allowed to read an answer. Nothing is loaded from elsewhere.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from urllib.parse import urlsplit

from starlette.types import ASGIApp, Message, Receive, Scope, Send

BODY_LIMIT = 13_000_000
"""Bytes of a request in JSON: a plan text of 2 MB, escaped at worst. Our own choice."""
UPLOAD_LIMIT = 52_000_000
"""Bytes of a request with files: a building model of 50 MB and the form around it. Our choice."""

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
    "font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; "
    "base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
)
"""What our pages may load: only what this server sends."""

DRAWING_POLICY = "default-src 'none'; style-src 'unsafe-inline'; sandbox"
"""What a drawing opened by itself may load: nothing."""

HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
}
"""Headers of every answer."""

_SAFE = {"GET", "HEAD", "OPTIONS"}
_UPLOADS = ("/api/v1/houses/upload",)


class Guard:
    """Lets a request through to `app`, or refuses it in the one shape of problems."""

    def __init__(self, app: ASGIApp, hosts: Iterable[str]) -> None:
        self._app = app
        self._hosts = frozenset(host.lower() for host in hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Look at a request before anything else does."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        headers = {k.decode("latin-1").lower(): v.decode("latin-1") for k, v in scope["headers"]}
        refused = self._refusal(scope["method"], headers)
        limit = UPLOAD_LIMIT if scope["path"].startswith(_UPLOADS) else BODY_LIMIT
        length = headers.get("content-length", "0")
        if refused is None and (not length.isdecimal() or int(length) > limit):
            refused = 413, f"this is more than the {limit // 1_000_000} MB taken here"
        if refused is not None:
            await _refuse(send, *refused)
            return
        counted = _Counted(receive, limit)
        await self._app(scope, counted, _with_headers(send))

    def _refusal(self, method: str, headers: dict[str, str]) -> tuple[int, str] | None:
        host = _bare(headers.get("host", ""))
        if host not in self._hosts:
            return 400, "this server answers only to the address it was started with"
        if method in _SAFE:
            return None
        origin = headers.get("origin")
        if origin is not None and urlsplit(origin).netloc.lower() != headers["host"].lower():
            return 403, "a page from elsewhere may not change anything here"
        if headers.get("sec-fetch-site", "same-origin") not in {"same-origin", "none"}:
            return 403, "a page from elsewhere may not change anything here"
        return None


class _Counted:
    """Hands a body on until it is longer than the limit; then it breaks off."""

    def __init__(self, receive: Receive, limit: int) -> None:
        self._receive = receive
        self._left = limit

    async def __call__(self) -> Message:
        message = await self._receive()
        if message["type"] == "http.request":
            self._left -= len(message.get("body", b""))
            if self._left < 0:
                return {"type": "http.disconnect"}
        return message


def _with_headers(send: Send) -> Send:
    async def with_headers(message: Message) -> None:
        if message["type"] == "http.response.start":
            held = {key.lower() for key, _ in message["headers"]}
            message["headers"] = [
                *message["headers"],
                *(pair for pair in _HEADERS if pair[0] not in held),
            ]
        await send(message)

    return with_headers


_HEADERS = [(k.lower().encode("latin-1"), v.encode("latin-1")) for k, v in HEADERS.items()]


async def _refuse(send: Send, status: int, sentence: str) -> None:
    remedy = "open the address that `seamwright serve` printed" if status != 413 else (
        "check that this is the right file"
    )  # fmt: skip
    problem = {"subject": "request", "sentence": sentence, "remedy": remedy}
    body = json.dumps({"problems": [{**problem, "file": None, "line": None}]}).encode()
    headers = [(b"content-type", b"application/json"), (b"content-length", str(len(body)).encode())]
    start = {"type": "http.response.start", "status": status, "headers": [*headers, *_HEADERS]}
    await send(start)
    await send({"type": "http.response.body", "body": body})


def _bare(host: str) -> str:
    """Return a host without its port."""
    host = host.lower()
    if host.startswith("["):
        return host.partition("]")[0].lstrip("[")
    return host.rpartition(":")[0] if ":" in host else host
