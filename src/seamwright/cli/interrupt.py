"""Ctrl-C as a wish to stop: heard while the solver works, so that the best plan so far is kept."""

from __future__ import annotations

import signal
import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager


@contextmanager
def heard() -> Iterator[Callable[[], bool]]:
    """Give a function that says whether Ctrl-C was pressed; pressed again, it ends the program.

    While the solver works no line of Python runs, so the signal is taken from the socket that the
    interpreter itself writes to. Outside the main thread nothing is caught.
    """
    if threading.current_thread() is not threading.main_thread():
        yield lambda: False
        return
    ear, mouth = socket.socketpair()
    ear.setblocking(False)
    mouth.setblocking(False)
    pressed = threading.Event()

    def note(*_: object) -> None:
        pressed.set()
        signal.signal(signal.SIGINT, signal.default_int_handler)

    before = signal.signal(signal.SIGINT, note)
    fd = signal.set_wakeup_fd(mouth.fileno(), warn_on_full_buffer=False)

    def wish() -> bool:
        try:
            if signal.SIGINT in ear.recv(64):
                pressed.set()
        except BlockingIOError:
            pass
        return pressed.is_set()

    try:
        yield wish
    finally:
        signal.set_wakeup_fd(fd)
        signal.signal(signal.SIGINT, before)
        ear.close()
        mouth.close()
