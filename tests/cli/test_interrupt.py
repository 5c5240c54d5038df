"""Ctrl-C as a wish to stop."""

from __future__ import annotations

import signal
import threading

import pytest

from seamwright.cli.interrupt import heard


def test_a_first_press_is_a_wish_and_a_second_one_ends() -> None:
    """The signal is heard, and only a second one is raised as usual."""
    with heard() as stop:
        assert not stop()
        signal.raise_signal(signal.SIGINT)
        assert stop()
        with pytest.raises(KeyboardInterrupt):
            signal.raise_signal(signal.SIGINT)


def test_afterwards_the_signal_is_as_before() -> None:
    """Leaving gives the handler back."""
    before = signal.getsignal(signal.SIGINT)
    with heard():
        assert signal.getsignal(signal.SIGINT) is not before
    assert signal.getsignal(signal.SIGINT) is before


def test_in_another_thread_nothing_is_caught() -> None:
    """A search on behalf of somebody else is never stopped by the keyboard."""
    answers: list[bool] = []

    def work() -> None:
        with heard() as stop:
            answers.append(stop())

    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    assert answers == [False]
