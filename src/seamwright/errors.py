"""Errors as sentences: what, which one, the value with its unit, the limit, what to do.

::

    SeamwrightError
    ├── InputError        unusable input: carries every problem found, not only the first
    │   └── FormatError   a file that cannot be read as what it claims to be
    ├── GeometryError     a shape that cannot be built or measured
    └── NoSolutionError   a search that ended without an answer

A finding that needs attention (a joint without a strip wide enough, a line that does not close)
is a value in the result, never an error.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

_PLACEHOLDER = re.compile(r"\{(\w+)\}")


@dataclass(frozen=True, kw_only=True, slots=True)
class Problem:
    """One thing wrong with the input, as a sentence, and where it stands.

    `subject` names the thing in the user's words (``opening W3``) and is what an edge uses to look
    up the line when the core, which knows no files, found the problem. `line` and `column` count
    from 1. `lengths` are the values of ``{name}`` placeholders in the sentence, so that an edge can
    print them in the units of its user. [m]
    """

    subject: str
    sentence: str
    remedy: str
    file: str | None = None
    line: int | None = None
    column: int | None = None
    lengths: tuple[tuple[str, float], ...] = ()

    def __str__(self) -> str:
        """Return ``file:line: sentence; remedy`` with the parts that are known."""
        place = self.file if self.file is not None else ""
        if self.line is not None:
            place = f"{place}:{self.line}" if place else f"line {self.line}"
        told = self.filled(lambda value: f"{value:.3f} m").sentence
        text = f"{told}; {self.remedy}" if self.remedy else told
        return f"{place}: {text}" if place else text

    def filled(self, show: Callable[[float], str]) -> Problem:
        """Return the problem with its lengths written into the sentence as `show` gives them."""
        known = dict(self.lengths)
        told = _PLACEHOLDER.sub(
            lambda match: show(known[match[1]]) if match[1] in known else match[0], self.sentence
        )
        return replace(self, sentence=told, lengths=())


class SeamwrightError(Exception):
    """Base of every error this package raises on purpose."""


class InputError(SeamwrightError):
    """Input that cannot be used. `problems` holds every reason found, in file order."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))

    def __reduce__(self) -> tuple[type[InputError], tuple[tuple[Problem, ...]]]:
        """Travel between processes with every problem."""
        return (type(self), (self.problems,))


class FormatError(InputError):
    """A file that cannot be read as the format it claims to be."""


class GeometryError(SeamwrightError):
    """A shape that cannot be built or measured."""


class NoSolutionError(SeamwrightError):
    """A search that ended without an answer; the message says what was tried."""


def missing_package(package: str, needed_by: str, extra: str) -> InputError:
    """Return the error to raise where an optional package is not installed."""
    return InputError(
        [
            Problem(
                subject=package,
                sentence=f"{needed_by} needs the optional package {package}, "
                "which is not installed",
                remedy=f'install it with: pip install "seamwright[{extra}]"',
            )
        ]
    )
