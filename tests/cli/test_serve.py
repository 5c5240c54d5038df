"""The desk opened from the command line: answered, killed, opened again, refused."""

from __future__ import annotations

import json
import re
import signal
import socket
import subprocess
import sys
import urllib.request
from pathlib import Path
from typing import Any

import pytest

from seamwright.cli import serve

COMMAND = [sys.executable, "-c", "from seamwright.cli import main; main()", "serve", "--port=0"]


def opened(folder: Path) -> tuple[subprocess.Popen[str], str]:
    """Return a desk that answers, and the address of its interface."""
    desk = subprocess.Popen(
        [*COMMAND, f"--folder={folder}"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    assert desk.stdout is not None
    found = re.search(r"http://127\.0\.0\.1:\d+/", desk.stdout.readline())
    assert found is not None
    return desk, f"{found[0]}api/v1/"


def ask(address: str, body: object = None) -> Any:
    """Return what an address answers."""
    data = None if body is None else json.dumps(body).encode()
    wish = urllib.request.Request(address, data, {"Content-Type": "application/json"})
    with urllib.request.urlopen(wish, timeout=60) as answer:
        return json.load(answer)


def ended(desk: subprocess.Popen[str], how: signal.Signals) -> tuple[int, str]:
    """Return status and last words of a desk that is told to end."""
    desk.send_signal(how)
    said, failed = desk.communicate(timeout=60)
    return desk.returncode, said + failed


def test_what_was_acknowledged_survives_a_kill(tmp_path: Path) -> None:
    """Killed after it answered, the desk opens again with the house and the record; Ctrl+C is calm.

    The house has its id, its revision and the seal that was recorded.
    """
    desk, address = opened(tmp_path)
    house = ask(f"{address}houses", {"source": {"kind": "example", "name": "first_house"}})["id"]
    record = {"key": "key-0001", "joint": "A.1-A.2", "what": "sealed", "person": "Kim"}
    kept = ask(f"{address}houses/{house}/records", record)
    ended(desk, signal.SIGKILL)
    desk, address = opened(tmp_path)
    assert ask(f"{address}houses/{house}/records")["records"] == [kept]
    assert ask(f"{address}houses/{house}")["head"] == 1
    status, said = ended(desk, signal.SIGINT)
    assert (status, "everything is kept" in said, "Traceback" in said) == (0, True, False)


def test_a_port_in_use_is_told(run, tmp_path: Path) -> None:
    """In a sentence, with the port."""
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        door.listen()
        port = door.getsockname()[1]
        result = run("serve", "--folder", tmp_path, "--port", port)
    assert result.exit_code == 2
    assert f"cannot open at port {port}" in result.output


def test_a_missing_extra_is_told(run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the packages of the desk the command says what to install."""
    monkeypatch.setattr(serve, "NEEDED", ("no_such_package",))
    result = run("serve", "--folder", tmp_path)
    assert result.exit_code == 2
    assert 'pip install "seamwright[desk]"' in result.output


def test_a_folder_that_holds_something_else_is_told(run, tmp_path: Path) -> None:
    """A file under the name of the store is left alone."""
    (tmp_path / "desk.sqlite").write_bytes(b"something else " * 100)
    result = run("serve", "--folder", tmp_path, "--port", 0)
    assert result.exit_code == 2
    assert "cannot be used as the desk's store" in result.output
