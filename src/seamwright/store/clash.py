"""What the store refuses: a thing that is not there, or that somebody else changed first."""

from __future__ import annotations

from seamwright.errors import InputError, Problem


class MissingError(InputError):
    """What was asked for is not in the store."""


class ClashError(InputError):
    """What was asked for does not go with what the store holds now."""


def missing(what: str, name: object) -> MissingError:
    """Return the error for a thing that is not there."""
    shown = str(name)[:60]
    told = f"there is no {what} ‘{shown}’ here"
    remedy = "go back to the list and choose one that is there"
    return MissingError([Problem(subject=f"{what} {shown}", sentence=told, remedy=remedy)])


def clash(subject: str, sentence: str, remedy: str) -> ClashError:
    """Return the error for a wish that does not go with what is there."""
    return ClashError([Problem(subject=subject, sentence=sentence, remedy=remedy)])
