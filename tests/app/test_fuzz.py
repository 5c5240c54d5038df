"""Every address of the interface, sent whatever its description allows and more."""

from __future__ import annotations

import atexit
import shutil
import tempfile
from pathlib import Path

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, settings
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)
from starlette.testclient import TestClient

from seamwright.app.jobs import JobKind
from seamwright.app.make import make_app, make_desk

FOLDER = Path(tempfile.mkdtemp(prefix="desk-fuzz-"))
DESK = make_desk(FOLDER, [JobKind(name="nap", title="Nothing", work="tests.app.work:nap")])
APP = make_app(DESK, hosts=("testserver", "localhost"))
SCHEMA = schemathesis.openapi.from_asgi("/api/v1/openapi.json", APP)
PAGE = TestClient(APP, base_url="http://localhost/api/v1/")
CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
]


def _done() -> None:
    DESK.close()
    shutil.rmtree(FOLDER, ignore_errors=True)


atexit.register(_done)


def _house() -> str:
    """Return the id of a house to try things on, a new one when the last was removed."""
    held = PAGE.get("houses").json()["houses"]
    if held:
        return str(held[-1]["id"])
    body = {"source": {"kind": "example", "name": "first_house"}}
    return str(PAGE.post("houses", json=body).json()["id"])


def _aimed(case: schemathesis.Case) -> None:
    """Lead every other case to a house, joint and revision that are there."""
    given = case.path_parameters or {}
    source = case.body.get("source") if isinstance(case.body, dict) else None
    if isinstance(source, dict) and source.get("kind") == "example":
        source["name"] = "first_house"
    if "house" in given and len(str(given["house"])) % 2 == 0:
        given["house"] = _house()
        if "joint" in given:
            given["joint"] = "A.1-A.2"
        if isinstance(case.body, dict) and isinstance(case.body.get("base"), int):
            case.body["base"] = 1


def _tried(case: schemathesis.Case) -> None:
    _aimed(case)
    response = case.call()
    case.validate_response(response, checks=CHECKS)
    if response.status_code >= 400:
        problems = response.json()["problems"]
        assert problems
        for problem in problems:
            assert {"subject", "sentence", "remedy", "file", "line"} == set(problem)
            assert problem["sentence"]


@SCHEMA.parametrize()
@settings(
    max_examples=8, derandomize=True, deadline=None, phases=[Phase.generate],
    suppress_health_check=list(HealthCheck),
)  # fmt: skip
def test_no_request_breaks_the_desk(case: schemathesis.Case) -> None:
    """Whatever is sent, the answer is as described, and what is wrong is told in one shape."""
    _tried(case)


@pytest.mark.slow
@SCHEMA.parametrize()
@settings(
    max_examples=150, derandomize=True, deadline=None, phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)  # fmt: skip
def test_no_request_breaks_the_desk_tried_long(case: schemathesis.Case) -> None:
    """The same, with many more requests to each address."""
    _tried(case)
