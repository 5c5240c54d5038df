"""The pages: built by `web/` into the folder `pages`, served as they lie there."""

from __future__ import annotations

import mimetypes
from pathlib import Path

from fastapi import FastAPI
from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.responses import HTMLResponse, Response
from starlette.routing import Match, Mount
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

PAGES = Path(__file__).parent / "pages"
FIRST = "index.html"
_PACKED = (("br", "br"), ("gzip", "gz"))
"""Encodings in which a page may lie beside itself, and the ending of its file, smallest first."""

_WAYS = ("GET", "POST", "PUT", "PATCH", "DELETE")
"""Methods an address of the interface may take."""

_UNBUILT = """<!doctype html>
<html lang="en"><meta charset="utf-8"><title>Seamwright desk</title>
<h1>The pages are not built yet</h1>
<p>The desk is running, and its interface answers under <code>/api/v1</code>. To build the pages,
run <code>make pages</code> in the source folder, then load this page again.</p></html>
"""


class Pages(StaticFiles):
    """The built pages; an address of the app itself gets its first page."""

    def __init__(self, folder: Path, api: str) -> None:
        super().__init__(directory=folder, check_dir=False)
        self._api = api.strip("/")
        self._folder = folder

    async def check_config(self) -> None:
        """Look at the folder where there is one; without it, the first page says what to do."""
        if self._folder.is_dir():
            await super().check_config()

    async def get_response(self, path: str, scope: Scope) -> Response:
        """Return a file, the first page, or what to do when nothing is built."""
        if path == self._api or path.startswith(f"{self._api}/"):
            raise _refusal(scope)
        wanted = FIRST if path in {"", "."} else path
        try:
            return await self._packed(wanted, scope)
        except HTTPException as error:
            is_file = "." in wanted.rpartition("/")[2] and wanted != FIRST
            if error.status_code != 404 or is_file:
                raise
        if not (self._folder / FIRST).is_file():
            return HTMLResponse(_UNBUILT)
        return await self._packed(FIRST, scope)

    async def _packed(self, path: str, scope: Scope) -> Response:
        """Return a file in the smallest encoding that lies there and the page takes."""
        taken = Headers(scope=scope).get("accept-encoding", "")
        for encoding, ending in _PACKED:
            full, _ = self.lookup_path(f"{path}.{ending}")
            if encoding in taken and full:
                answer = await super().get_response(f"{path}.{ending}", scope)
                kind = mimetypes.guess_type(path)[0]
                answer.headers["Content-Type"] = "application/octet-stream" if kind is None else (
                    f"{kind}; charset=utf-8" if kind.startswith("text/") else kind
                )  # fmt: skip
                answer.headers["Content-Encoding"] = encoding
                break
        else:
            answer = await super().get_response(path, scope)
        named = path.startswith("assets/")
        age = "public, max-age=31536000, immutable" if named else "no-cache"
        answer.headers["Cache-Control"] = age
        answer.headers["Vary"] = "Accept-Encoding"
        return answer


def _refusal(scope: Scope) -> HTTPException:
    """Return what an address of the interface gets that no route took: 405 where it is known."""
    others = [route for route in scope["app"].routes if not isinstance(route, Mount)]
    ways = [
        way
        for way in _WAYS
        if any(one.matches({**scope, "method": way})[0] is Match.FULL for one in others)
    ]
    if not ways:
        return HTTPException(404)
    return HTTPException(405, headers={"Allow": ", ".join(ways)})


def add_pages(app: FastAPI, api: str) -> None:
    """Serve the pages under every address that is not the interface's."""
    app.mount("/", Pages(PAGES, api), name="pages")
