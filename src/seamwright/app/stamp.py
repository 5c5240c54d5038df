"""Which program this is, down to its files: what it made before it changed is made again."""

from __future__ import annotations

import hashlib
from pathlib import Path

import seamwright


def code_stamp(version: str) -> str:
    """Return a name for this program as it lies on the disk: version, files, sizes, times."""
    root = Path(seamwright.__file__).parent
    told = hashlib.sha256(version.encode())
    for path in sorted(root.rglob("*.py")):
        held = path.stat()
        told.update(f"{path.relative_to(root)} {held.st_size} {held.st_mtime_ns}".encode())
    return f"{version}-{told.hexdigest()[:12]}"
