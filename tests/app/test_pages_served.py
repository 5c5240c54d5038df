"""The first page, with and without built pages."""

from __future__ import annotations

from pathlib import Path

import pytest
from fastapi import FastAPI
from starlette.testclient import TestClient

from seamwright.app.pages_served import Pages


@pytest.mark.parametrize("exists", [True, False])
def test_a_desk_without_built_pages_says_so(tmp_path: Path, exists: bool) -> None:
    """With an empty folder or none at all the first page tells how to build the pages."""
    folder = tmp_path / "pages"
    if exists:
        folder.mkdir()
    app = FastAPI()
    app.mount("/", Pages(folder, "/api/v1"))
    answer = TestClient(app).get("/")
    assert answer.status_code == 200
    assert "The pages are not built yet" in answer.text


def test_built_pages_are_served_packed_where_they_can_be(tmp_path: Path) -> None:
    """A packed file is sent as such to a browser that takes it, plainly to any other."""
    (tmp_path / "index.html").write_text("<p>plain</p>", "utf-8")
    (tmp_path / "index.html.br").write_bytes(b"packed")
    app = FastAPI()
    app.mount("/", Pages(tmp_path, "/api/v1"))
    with TestClient(app) as client:
        plain = client.get("/", headers={"accept-encoding": "identity"})
        packed = client.stream("GET", "/", headers={"accept-encoding": "br"})
        assert plain.text == "<p>plain</p>"
        with packed as answer:
            assert answer.headers["content-encoding"] == "br"
            assert b"".join(answer.iter_raw()) == b"packed"
