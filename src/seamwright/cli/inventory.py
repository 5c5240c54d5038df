"""The list of a packet's files, kept in it: so that nothing of an older print stays beside it."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from seamwright.io.register_json import write_json

NAME = "packet.json"
_DRAWING = re.compile(r"drawings/[A-Za-z0-9][A-Za-z0-9._-]*\.svg")


@dataclass(frozen=True, kw_only=True, slots=True)
class Made:
    """One file of a packet and what it is for."""

    path: Path
    what: str


def write_inventory(folder: Path, files: Iterable[Made], about: dict[str, str]) -> Made:
    """Write what the packet is `about` and its files; remove drawings only an older list names.

    A drawing of a joint that is no more would send somebody to the wrong place. Files that no list
    names are somebody else's and stay.
    """
    listed = {made.path.relative_to(folder).as_posix(): made.what for made in files}
    path = folder / NAME
    for name in _older(path):
        if name not in listed:
            (folder / name).unlink(missing_ok=True)
    document = {**about, "files": [{"id": name, "what": what} for name, what in listed.items()]}
    write_json(document, path)
    return Made(path=path, what="the list of these files")


def told(folder: Path, files: Iterable[Made]) -> list[str]:
    """Return a line for each file, all drawings in one."""
    files = tuple(files)
    drawings = sum(made.path.suffix == ".svg" for made in files)
    lines = [f"  {made.path}  {made.what}" for made in files if made.path.suffix != ".svg"]
    return [*lines, f"  {folder / 'drawings'}  {drawings} drawings to scale (SVG)"]


def _older(path: Path) -> list[str]:
    """Return the drawings an older list names; a list that cannot be read names none."""
    try:
        files = json.loads(path.read_text(encoding="utf-8"))["files"]
        names = [str(entry["id"]) for entry in files]
    except (OSError, ValueError, KeyError, TypeError):
        return []
    return [name for name in names if _DRAWING.fullmatch(name)]
