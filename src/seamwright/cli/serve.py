"""``seamwright serve``: the desk, the house in the browser."""

from __future__ import annotations

import socket
import sys
import webbrowser
from importlib.util import find_spec
from pathlib import Path
from typing import Annotated

import typer

from seamwright.cli.say import say
from seamwright.errors import InputError, Problem, missing_package

HERE = "127.0.0.1"
"""The desk answers only on this machine: it knows no users, so nobody else may reach it."""
NEEDED = ("fastapi", "uvicorn", "sqlalchemy", "alembic", "python_multipart")
"""Packages of the extra ``desk``."""


def run(
    *,
    folder: Annotated[
        Path, typer.Option("--folder", metavar="DIR", help="Where the houses are kept.")
    ] = Path("desk"),
    port: Annotated[
        int, typer.Option("--port", help="0 takes any that is free.", min=0, max=65535)
    ] = 8765,
    browser: Annotated[
        bool, typer.Option("--open", help="Open the browser at the desk.")
    ] = False,
) -> None:  # fmt: skip
    """Keep houses and show them in the browser, on this machine."""
    for package in NEEDED:
        if find_spec(package) is None:
            raise missing_package(package, "The desk", "desk")
    from seamwright.app.pages_served import FIRST, PAGES  # noqa: PLC0415 needs the optional packages
    from seamwright.cli.desk_server import serve  # noqa: PLC0415 needs the optional packages

    with _listening(port) as door:
        address = f"http://{HERE}:{door.getsockname()[1]}/"

        def ready() -> None:
            say(f"The desk is open at {address}")
            say(f"Houses are kept in {folder.resolve()}. Ctrl+C closes the desk.")
            if not (PAGES / FIRST).is_file():
                say("This copy came without its pages: only the interface answers. `make pages`")
                say("in the source folder builds them.")
            sys.stdout.flush()
            if browser:
                webbrowser.open(address)

        serve(folder, door, ready=ready)
    say("The desk is closed; everything is kept.")


def _listening(port: int) -> socket.socket:
    """Return a socket that listens on this machine, or say why there can be none."""
    # Named TCP, or the server leaves small answers waiting 40 ms for company (Nagle's algorithm).
    door = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        door.bind((HERE, port))
    except OSError as error:
        door.close()
        reason = "the system refused" if error.strerror is None else error.strerror.lower()
        problem = Problem(
            subject="serve",
            sentence=f"the desk cannot open at port {port}: {reason}",
            remedy="close the other desk, or take another port with --port",
        )
        raise InputError([problem]) from None
    return door
