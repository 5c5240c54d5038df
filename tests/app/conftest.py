"""A desk in a folder of its own, and a page's way to talk to it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from seamwright.app.make import make_app, make_desk

API = "/api/v1"


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    """Return a page's connection to a new desk."""
    desk = make_desk(tmp_path)
    with TestClient(make_app(desk), base_url="http://localhost:8765/api/v1/") as client:
        yield client
    desk.close()
