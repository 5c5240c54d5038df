"""Stages of the work, told on a terminal only."""

from __future__ import annotations

import io
import sys

from seamwright.cli.stage import stage


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """Return True."""
        return True


def test_a_stage_is_told_in_place_and_taken_off_again(monkeypatch) -> None:
    """Each word writes over the one before; the last one leaves the line empty."""
    screen = Terminal()
    monkeypatch.setattr(sys, "stderr", screen)
    stage("1 of 2: reading")
    stage()
    first, empty = [part for part in screen.getvalue().split("\r") if part]
    assert first.rstrip() == "1 of 2: reading"
    assert empty == " " * len(first)


def test_a_pipe_hears_nothing(monkeypatch) -> None:
    """Where nobody looks, nothing is written between the errors."""
    pipe = io.StringIO()
    monkeypatch.setattr(sys, "stderr", pipe)
    stage("1 of 2: reading")
    assert pipe.getvalue() == ""
