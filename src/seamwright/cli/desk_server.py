"""The server behind ``seamwright serve``: the app, the work it can be asked for, and its end."""

from __future__ import annotations

import socket
from collections.abc import Callable
from pathlib import Path
from threading import Thread

import uvicorn

from seamwright.app.make import make_app, make_desk
from seamwright.cli.desk_work import KINDS

PATIENCE = 5
"""Seconds an answer under way gets when the desk is closed. Our own choice."""


class _Server(uvicorn.Server):
    """A server that says when it is ready."""

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Begin to answer, then say so."""
        await super().startup(sockets)
        if self.started:
            self._ready()


def serve(folder: Path, door: socket.socket, *, ready: Callable[[], None]) -> None:
    """Answer at an open door until the process is asked to stop.

    Raises
    ------
    FormatError
        When what lies in the folder is no store of a desk.
    """
    desk = make_desk(folder, KINDS)
    Thread(target=desk.warm, name="warm", daemon=True).start()
    try:
        config = uvicorn.Config(
            make_app(desk),
            log_level="warning",
            access_log=False,
            server_header=False,
            timeout_graceful_shutdown=PATIENCE,
            lifespan="off",
        )
        _Server(config, ready).run(sockets=[door])
    except KeyboardInterrupt:
        return
    finally:
        desk.close()
