"""The pages: built by `web/` into the folder `pages`, served as they lie there."""

from __future__ import annotations

from pathlib import Path

from fastapi import FastAPI
from starlette.exceptions import HTTPException
from starlette.responses import HTMLResponse, Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

PAGES = Path(__file__).parent / "pages"

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
        self._first = folder / "index.html"

    async def get_response(self, path: str, scope: Scope) -> Response:
        """Return a file, the first page, or what to do when nothing is built."""
        if path == self._api or path.startswith(f"{self._api}/"):
            raise HTTPException(404)
        wanted = path if path not in {"", "."} else "index.html"
        try:
            answer = await super().get_response(wanted, scope)
        except HTTPException as error:
            if error.status_code != 404 or "." in wanted.rpartition("/")[2].removesuffix(".html"):
                raise
            if not self._first.is_file():
                return HTMLResponse(_UNBUILT)
            answer = await super().get_response("index.html", scope)
        named = wanted.startswith("assets/")
        age = "public, max-age=31536000, immutable" if named else "no-cache"
        answer.headers["Cache-Control"] = age
        return answer


def add_pages(app: FastAPI, api: str) -> None:
    """Serve the pages under every address that is not the interface's."""
    app.mount("/", Pages(PAGES, api), name="pages")
