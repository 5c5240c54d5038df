"""Who may ask and how much they may send; what every answer carries."""

from __future__ import annotations

import pytest
from starlette.testclient import TestClient

from seamwright.app.guard import BODY_LIMIT, HEADERS


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:8765", "127.0.0.1.evil.example", ""]
)
def test_only_this_machine_is_answered(client: TestClient, host: str) -> None:
    """A name made to lead here is refused before any route sees the request."""
    answer = client.get("houses", headers={"Host": host})
    assert answer.status_code == 400
    assert answer.json()["problems"][0]["remedy"].startswith("open the address")


@pytest.mark.parametrize("host", ["localhost", "127.0.0.1:1", "[::1]:8765", "LOCALHOST:8765"])
def test_this_machine_has_several_names(client: TestClient, host: str) -> None:
    """By name or number, with any port."""
    assert client.get("houses", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "https://evil.example"},
        {"Origin": "null"},
        {"Origin": "http://localhost:9999"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
    ],
    ids=str,
)
def test_a_page_from_elsewhere_changes_nothing(client: TestClient, headers) -> None:
    """Whatever a browser says about where a request comes from is believed."""
    answer = client.put("settings", json={"units": "metric"}, headers=headers)
    assert answer.status_code == 403
    assert client.get("settings").json()["units"] == "us"


def test_our_own_page_may_change_things(client: TestClient) -> None:
    """The same request from the address of the desk goes through."""
    headers = {"Origin": "http://localhost:8765", "Sec-Fetch-Site": "same-origin"}
    answer = client.put("settings", json={"units": "metric"}, headers=headers)
    assert answer.json()["units"] == "metric"
    assert "access-control-allow-origin" not in answer.headers


@pytest.mark.parametrize("address", ["about", "nowhere", "/", "/houses/x", "/nothing.js"])
def test_every_answer_carries_the_safe_headers(client: TestClient, address: str) -> None:
    """Pages, answers and refusals alike may load only what this server sends."""
    answer = client.get(address)
    for name, value in HEADERS.items():
        assert answer.headers[name] == value
    assert "unsafe" not in answer.headers["Content-Security-Policy"]


def test_a_flood_is_refused_by_its_length(client: TestClient) -> None:
    """More than a plan can need is not even read."""
    answer = client.post("houses", content=b" " * (BODY_LIMIT + 1))
    assert answer.status_code == 413
    assert "MB" in answer.json()["problems"][0]["sentence"]


def test_a_flood_without_a_length_is_broken_off(client: TestClient) -> None:
    """A body that does not say how long it is goes no further than the limit."""

    def flood():
        for _ in range(BODY_LIMIT // 1_000_000 + 2):
            yield b" " * 1_000_000

    answer = client.post("houses", content=flood())
    assert 400 <= answer.status_code < 500
    assert answer.json()["problems"]


@pytest.mark.parametrize("body", [b"{", b"[]", b"\xff\xfe", b"null", b'{"source": {"kind": "x"}}'])
def test_what_is_no_request_is_told_in_the_one_shape(client: TestClient, body: bytes) -> None:
    """Broken JSON, the wrong kind of value, bytes that are no text."""
    answer = client.post("houses", content=body, headers={"Content-Type": "application/json"})
    assert 400 <= answer.status_code < 500
    for problem in answer.json()["problems"]:
        assert set(problem) == {"subject", "sentence", "remedy", "file", "line"}


def test_an_unknown_address_is_told(client: TestClient) -> None:
    """Under the interface nothing is ever answered with a page."""
    answer = client.get("nowhere")
    assert answer.status_code == 404
    assert answer.json()["problems"]


@pytest.mark.parametrize(
    ("method", "address", "taken"),
    [("PATCH", "houses", "GET, POST"), ("GET", "houses/x/undo", "POST"),
     ("HEAD", "about", "GET"), ("OPTIONS", "about", "GET"), ("DELETE", "openapi.json", "GET")],
)  # fmt: skip
def test_a_known_address_says_which_ways_it_takes(client, method, address, taken) -> None:
    """A method that an address does not take is refused as such, in the one shape."""
    answer = client.request(method, address)
    assert answer.status_code == 405
    assert answer.headers["allow"] == taken
    if method != "HEAD":
        (problem,) = answer.json()["problems"]
        assert problem["sentence"] == "this address does not take that kind of request"
    assert client.request(method, "nowhere").status_code == 404
