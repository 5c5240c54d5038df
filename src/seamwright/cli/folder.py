"""The folder that a command writes into."""

from __future__ import annotations

from pathlib import Path

from seamwright.errors import InputError, Problem


def folder_for(path: Path) -> Path:
    """Return the folder, made if it is not there."""
    if path.exists() and not path.is_dir():
        problem = Problem(
            subject=str(path),
            sentence=f"{path} is a file, and the packet needs a folder",
            remedy="name another folder with --out",
        )
        raise InputError([problem])
    path.mkdir(parents=True, exist_ok=True)
    return path
