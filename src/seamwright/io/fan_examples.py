"""Fan tests that come with the package, invented for showing and trying."""

from __future__ import annotations

from importlib import resources

from seamwright.errors import InputError, Problem
from seamwright.io.explain import nearest

_SUFFIX = ".csv"


def builtin_fan_test_names() -> tuple[str, ...]:
    """Return the names of the built-in fan tests, in order."""
    folder = resources.files("seamwright") / "data" / "examples"
    files = (entry.name for entry in folder.iterdir())
    names = (name.removesuffix(_SUFFIX) for name in files if name.endswith(_SUFFIX))
    return tuple(sorted(name for name in names if name.endswith("_fan_test")))


def builtin_fan_test(name: str) -> str:
    """Return the text of a built-in fan test.

    Raises
    ------
    InputError
        When there is no fan test of that name.
    """
    names = builtin_fan_test_names()
    if name not in names:
        told = f"there is no built-in fan test ‘{name[:40]}’"
        raise InputError([Problem(subject="fan test", sentence=told, remedy=nearest(name, names))])
    file = resources.files("seamwright") / "data" / "examples" / f"{name}{_SUFFIX}"
    return file.read_text(encoding="utf-8")
