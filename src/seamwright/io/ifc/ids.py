"""GlobalIds that stay the same from one export to the next."""

from __future__ import annotations

import uuid

_SPACE = uuid.UUID("6f0d2f6e-5c0a-4b57-9a53-7e3f1d9b2c41")
"""Namespace of all ids this package makes; drawn once at random."""

_DIGITS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_$"


def stable_uuid(project_name: str, kind: str, name: str) -> uuid.UUID:
    """Return the same UUID for the same project, kind of thing and id, in every run."""
    return uuid.uuid5(_SPACE, f"{project_name}\n{kind}\n{name}")


def global_id(project_name: str, kind: str, name: str) -> str:
    """Return the 22-character GlobalId of a thing, the same in every export of the project.

    The 128 bits are written in base 64 with the digits of ISO 16739: two characters for the first
    byte, four for each three that follow.
    """
    return compressed(stable_uuid(project_name, kind, name))


def compressed(number: uuid.UUID) -> str:
    """Return a UUID in the 22 characters of ISO 16739."""
    rest, text = number.int, []
    for _ in range(22):
        rest, digit = divmod(rest, 64)
        text.append(_DIGITS[digit])
    return "".join(reversed(text))
