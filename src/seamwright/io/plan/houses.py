"""The houses that come with the package, all invented."""

from __future__ import annotations

from importlib import resources

from seamwright.errors import InputError, Problem
from seamwright.io.explain import nearest

_SUFFIX = ".yaml"


def builtin_house_names() -> tuple[str, ...]:
    """Return the names of the built-in houses, in order."""
    folder = resources.files("seamwright") / "data" / "houses"
    files = (entry.name for entry in folder.iterdir())
    return tuple(sorted(name.removesuffix(_SUFFIX) for name in files if name.endswith(_SUFFIX)))


def builtin_house(name: str) -> str:
    """Return the plan text of a built-in house.

    Raises
    ------
    InputError
        When there is no house of that name.
    """
    names = builtin_house_names()
    if name not in names:
        told = f"there is no built-in house ‘{name[:40]}’"
        raise InputError([Problem(subject="house", sentence=told, remedy=nearest(name, names))])
    file = resources.files("seamwright") / "data" / "houses" / f"{name}{_SUFFIX}"
    return file.read_text(encoding="utf-8")
